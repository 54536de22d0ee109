"""Which way the template lies for a mark: told where it is not how it lies when the copy is cut."""

import pytest

from publisher.drafting import Draft
from publisher.figures.label_words import mark_words
from publisher.terms import Phrase
from tests.specimens import draft_text

LAYERS = """\
  cotton:
    kind: lining
    name: Cotton
    sold:
      - 42 in wide | 110 cm wide
  wadding:
    kind: wadding
    name: Wadding
    sold:
      - 45 in wide | 115 cm wide
pieces:
  mat:
    outline:
      rectangle: 30 cm by 20 cm
    copies:
      outside: canvas, {cut}
      wadding: wadding, {cut}
      lining:  cotton, {cut}
    marks:
      loop place: point at the middle of right edge, on the right side, for outside
      line:       stitching line at 5 cm from top edge, on the right side, for lining
      corner:     point at 2 cm, 2 cm, on the right side
      pin:        point at 3 cm, 3 cm, for outside
placements:
  wadding on outside:
    place: mat wadding
    on: mat outside
    face: {face}
    matching:
      - bottom edge
      - left edge to {edge}
  lining on wadding:
    place: mat lining
    on: mat wadding
    matching:
      - bottom edge
      - left edge
"""
UNDER = LAYERS.format(cut="rough by 2 cm", face="down", edge="right edge")


def words(draft: Draft, piece: str, mark: str) -> list[str]:
    """Keys of a mark's label, with the copies that they name."""
    drafted = draft.piece(piece)
    (one,) = (one for one in drafted.marks if one.name == mark)
    told = []
    for line in mark_words(one, drafted):
        copies = dict(line.phrase.values).get("copies")
        listed = [str(value) for _, value in copies.values] if isinstance(copies, Phrase) else []
        told.append(" ".join([line.phrase.key.removeprefix("label."), *listed]))
    return told


def test_of_layers_trimmed_together_the_lowest_is_marked_from_its_own_right_side() -> None:
    draft, findings = draft_text(UNDER)
    assert findings == ()
    assert [copy.name for copy in draft.piece("mat").copies if copy.faces_away] == ["mat outside"]
    assert words(draft, "mat", "loop place") == ["mark-for outside", "on-right-side", "this-side-up outside"]
    assert words(draft, "mat", "corner") == ["mark", "on-right-side", "this-side-up outside"]
    # The template lies on the lining already, and on the wrong side of the outside, too.
    assert words(draft, "mat", "line") == ["mark-for lining", "on-right-side"]
    assert words(draft, "mat", "pin") == ["mark-for outside"]


@pytest.mark.parametrize(
    ("cut", "face", "edge"),
    [
        ("cut 1", "down", "right edge"),  # each cut by its own template
        ("rough by 2 cm", "up", "left edge"),  # all right side up
    ],
)
def test_a_copy_that_lies_right_side_up_needs_no_word(cut: str, face: str, edge: str) -> None:
    draft, findings = draft_text(LAYERS.format(cut=cut, face=face, edge=edge))
    assert findings == ()
    assert not any(copy.faces_away for copy in draft.piece("mat").copies)
    assert words(draft, "mat", "loop place") == ["mark-for outside", "on-right-side"]


def test_a_mark_for_a_copy_that_is_turned_over_is_brought_with_the_template_turned_over() -> None:
    draft, findings = draft_text(
        LAYERS[: LAYERS.index("pieces:")]
        + """\
pieces:
  flap:
    outline:
      points:
        a: 0, 0
        b: 20 cm, 0
        c: 14 cm, 9 cm
        d: 0, 12 cm
      edges:
        base:  line from a to b
        slope: line from b to c
        top:   line from c to d
        back:  line from d to a
    copies:
      outside: canvas
      lining: cotton
    marks:
      snap: point at 5 cm, 4 cm, on the right side, for lining
      badge: point at 5 cm, 4 cm, on the right side, for outside
      corner: point at 2 cm, 2 cm, on the right side
"""
    )
    assert findings == ()
    assert words(draft, "flap", "snap") == ["mark-for lining", "on-right-side", "this-side-down lining"]
    assert words(draft, "flap", "badge") == ["mark-for outside", "on-right-side"]
    assert words(draft, "flap", "corner") == ["mark", "on-right-side"]


BEHIND = (
    LAYERS[: LAYERS.index("  wadding:")]
    + """\
pieces:
  flap:
    outline:
      rectangle: 20 cm by 12 cm
    copies:
      outside: canvas
      lining: cotton
    marks:
      mark: {mark}
"""
)


@pytest.mark.parametrize(
    ("mark", "turned"),
    [
        ("notch at the middle of top edge", False),  # alike on the upright axis
        ("point at 5 cm, 6 cm", False),  # on the level axis
        ("fold line at 4 cm from bottom edge", False),
        ("point at 5 cm, 5 cm", True),
        ("notch at 3 cm from the left end of top edge", True),
        ("fold line at 3 cm from left edge", False),
        ("point at 5 cm, 5 cm, for outside", False),  # the lining bears none
        ("point at 5 cm, 5 cm, on the right side, for lining", False),  # as seen there
        ("point at 5 cm, 5 cm, for outside and lining", True),
    ],
)
def test_a_lining_alike_either_way_is_turned_over_for_marks_that_it_shares(mark: str, turned: bool) -> None:
    draft, findings = draft_text(BEHIND.format(mark=mark))
    assert findings == ()
    assert [copy.turned_over for copy in draft.piece("flap").copies] == [False, turned]


def test_marks_that_are_mirror_images_of_each_other_share_the_axis_of_the_outline() -> None:
    both = BEHIND.format(mark="point at 5 cm, 5 cm") + "      other: point at 15 cm, {up}\n"
    for up, turned in (("5 cm", False), ("7 cm", True)):
        draft, _ = draft_text(both.format(up=up))
        assert [copy.turned_over for copy in draft.piece("flap").copies] == [False, turned]
