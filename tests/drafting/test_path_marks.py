"""Marks along an edge and marks that another piece gives, with numbers done by hand."""

import pytest

from publisher.drafting import Draft, Notch, PathMark
from publisher.figures.pieces import mark_strokes
from tests.specimens import draft_text, found, prove_text

BAG = """\
pieces:
  bag:
    outline:
      points:
        a: 0, 0
        b: 16 cm, 0
        c: 16 cm, 12 cm
        d: 0, 12 cm
      edges:
        base: line from a to b
        right side: line from b to c
        top: line from c to d
        left side: line from d to a
    copies:
      front: canvas
      back: canvas
    marks:
      first: notch at 4 cm from the left end of base
      second: notch at 4 cm from the right end of base
      {mark}
  pocket:
    rectangle: 6 cm by 5 cm
    copies:
      only: canvas
  strap:
    outline:
      rectangle: 16 cm by 8 cm
    copies:
      only: canvas
    marks:
      {other}
seams:
  joining:
    join:
      - bag front.base
      - strap.top edge
    leave open: {gap}
placements:
  pocket on bag:
    place: pocket
    on: bag front
    matching:
      - left edge to left side
"""


def bag(mark: str = "spare: point at 1 cm, 1 cm", other: str = "spare: point at 1 cm, 1 cm", gap: str = "0") -> Draft:
    draft, findings = draft_text(BAG.format(mark=mark, other=other, gap=gap))
    assert [finding for finding in findings if draft.variant in finding.variants] == []
    return draft


def mark_of(draft: Draft, piece: str, name: str) -> PathMark:
    (mark,) = (mark for mark in draft.piece(piece).marks if mark.name == name)
    assert isinstance(mark, PathMark)
    return mark


@pytest.mark.parametrize(
    ("said", "kind", "ends"),
    [
        ("gathers along base from first to second", "gathers", ((40, 0), (120, 0))),
        ("gathers along base from second to first", "gathers", ((40, 0), (120, 0))),
        ("gathers along base from a to first", "gathers", ((0, 0), (40, 0))),
        ("zip along right side", "zip", ((160, 0), (160, 120))),
        ("clips along top", "clips", ((160, 120), (0, 120))),
    ],
)
def test_a_stretch_runs_from_mark_to_mark_or_all_along(
    said: str, kind: str, ends: tuple[tuple[float, float], ...]
) -> None:
    mark = mark_of(bag(f"stretch: {said}"), "bag", "stretch")
    assert (mark.kind, mark.allowance) == (kind, 10)
    assert tuple((spot.x, spot.y) for spot in (mark.path.start, mark.path.end)) == ends


def test_what_a_seam_leaves_open_is_marked_in_the_middle_of_both_its_edges() -> None:
    draft = bag(gap="5 cm")
    front, strap = mark_of(draft, "bag", "joining"), mark_of(draft, "strap", "joining")
    assert [(spot.x, spot.y) for spot in (front.path.start, front.path.end)] == [(55, 0), (105, 0)]
    assert [(spot.x, spot.y) for spot in (strap.path.start, strap.path.end)] == [(105, 80), (55, 80)]
    assert (front.copies, strap.copies) == (("front",), ())


def test_a_placement_brings_the_outline_of_what_lies_there() -> None:
    # Left edge on left side, both from below: the pocket's corner lies in the bag's.
    outline = mark_of(bag("pocket here: outline of pocket by pocket on bag, for front"), "bag", "pocket here")
    box = outline.path.box
    assert (outline.kind, outline.path.closed) == ("placed outline", True)
    assert (box.width, box.height) == pytest.approx((60, 50))


def test_a_placement_brings_a_notch_at_each_end_of_what_lies_there() -> None:
    draft = bag("pocket ends: ends of pocket by pocket on bag")
    ends = [mark for mark in draft.piece("bag").marks if mark.name == "pocket ends"]
    assert all(isinstance(mark, Notch) for mark in ends)
    heights = sorted(mark.at.y for mark in ends if isinstance(mark, Notch) and abs(mark.at.x) < 1e-6)
    assert heights[1] - heights[0] == pytest.approx(50)


def test_a_notch_meets_a_corner_or_a_notch_of_the_other_side_of_a_seam() -> None:
    # Right sides together the base, left to right, lies on the strap's top edge, left to right.
    draft = bag(other="meets: notch at bag front.first by joining")
    (meets,) = (mark for mark in draft.piece("strap").marks if mark.name == "meets")
    assert isinstance(meets, Notch)
    assert (meets.at.x, meets.at.y) == pytest.approx((40, 80))
    moved = draft_text(
        BAG.format(mark="spare: point at 1 cm, 1 cm", other="meets: notch at bag front.b by joining", gap="0")
    )[0]
    (corner,) = (mark for mark in moved.piece("strap").marks if mark.name == "meets")
    assert isinstance(corner, Notch)
    assert (corner.at.x, corner.at.y) == pytest.approx((160, 80))


ROUND = """\
pieces:
  lid:
    outline:
      points:
        top left: 0, 10 cm
        low left: 0, 0
        low right: 30 cm, 0
        top right: 30 cm, 10 cm
      edges:
{edges}
    joint edges:
      around:
{around}
    marks:
      one: notch at 4 cm from the top end of left
      two: notch at 12 cm from the left end of base
      three: notch at 3 cm from the bottom end of right
    copies:
      only: canvas
  wall:
    outline:
      rectangle: 50 cm by 5 cm
    marks:
      one: notch at lid.one by lid seam
      two: notch at lid.two by lid seam
      three: notch at lid.three by lid seam
    copies:
      only: canvas
seams:
  lid seam:
    join:
      - {first}
      - {second}
"""
ONWARDS = (
    "left: line from top left to low left",
    "base: line from low left to low right",
    "right: line from low right to top right",
    "top: line from top right to top left",
)
BACK = (
    "top: line from top left to top right",
    "right: line from top right to low right",
    "base: line from low right to low left",
    "left: line from low left to top left",
)


@pytest.mark.parametrize("edges", [ONWARDS, BACK], ids=["counter-clockwise", "clockwise"])
@pytest.mark.parametrize("lid_first", [True, False])
def test_notches_meet_round_a_side_of_several_edges(edges: tuple[str, ...], lid_first: bool) -> None:
    """Left, base and right of the lid, 10 + 30 + 10 cm, lie on the wall's top edge from its left end to its right."""
    around = ["left", "base", "right"] if edges is ONWARDS else ["right", "base", "left"]
    sides = ["lid.around", "wall.top edge"]
    text = ROUND.format(
        edges="\n".join(f"        {edge}" for edge in edges),
        around="\n".join(f"        - {name}" for name in around),
        first=sides[0 if lid_first else 1],
        second=sides[1 if lid_first else 0],
    )
    marks = {mark.name: mark.at.x for mark in draft_text(text)[0].piece("wall").marks if isinstance(mark, Notch)}
    # From the left end of the wall: 4 cm; 10 + 12 cm; 10 + 30 + 3 cm.
    assert marks == pytest.approx({"one": 40, "two": 220, "three": 430})


def test_lines_of_a_stretch_stay_inside_and_clips_stay_in_the_allowance() -> None:
    for kind, low, high in (("gathers", 0, 7), ("zip", 0, 7), ("clips", -10, -1)):
        mark = mark_of(bag(f"stretch: {kind} along base"), "bag", "stretch")
        boxes = [stroke.path.box for stroke in mark_strokes(mark)]
        assert min(box.bottom for box in boxes) >= low - 1e-6
        assert max(box.top for box in boxes) <= high + 1e-6


@pytest.mark.parametrize(
    ("said", "name", "words"),
    [
        ("gathers along base from first to c", "mark-off-edge", "'c' lies 120 mm beside 'base'"),
        ("gathers along base from first to first", "no-length", "'stretch' has no length"),
        ("clips along bse", "no-such-edge", "'bag' has no edge called 'bse'"),
        ("outline of pocket by pocket on bg", "no-such-name", "no placement called 'pocket on bg'"),
        ("outline of strap by pocket on bag", "wrong-placement", "lays 'pocket' on 'bag front', not 'strap' on 'bag'"),
        ("notch at strap.top right corner by joning", "no-such-name", "no seam called 'joning'"),
        ("notch at pocket.top right corner by joining", "wrong-seam", "does not sew 'pocket' to 'bag'"),
        ("point at element spot", "no-such-element", "'bag' has no drawing"),
    ],
)
def test_stretches_and_carried_marks_that_cannot_be(said: str, name: str, words: str) -> None:
    draft, findings = draft_text(
        BAG.format(mark=f"stretch: {said}", other="spare: point at 1 cm, 1 cm", gap="0").replace(
            "rectangle: 6 cm by 5 cm", "outline:\n      rectangle: 6 cm by 5 cm"
        )
    )
    told = found(tuple(one for one in findings if not one.variants or draft.variant in one.variants), name)
    assert words in told.says


GATHERED = """\
pieces:
  skirt:
    outline:
      rectangle: {wide} cm by 10 cm
    copies:
      only: canvas
    marks:
      left notch: notch at 2 cm from the left end of top edge
      right notch: notch at 2 cm from the right end of top edge
      {mark}
  band:
    rectangle: 20 cm by 4 cm
    copies:
      only: canvas
seams:
  waist:
    join:
      - skirt.top edge
      - band.bottom edge
"""


@pytest.mark.parametrize(
    ("wide", "mark", "told"),
    [
        (30, "ruffle: gathers along top edge from left notch to right notch", False),
        (30, "spare: point at 1 cm, 1 cm", True),
        # 110 cm between the notches would be gathered to 16 cm: more than four to one.
        (114, "ruffle: gathers along top edge from left notch to right notch", True),
        (18, "ruffle: gathers along top edge", True),  # gathers do not make it longer
    ],
)
def test_gathers_take_up_what_an_edge_is_longer(wide: int, mark: str, told: bool) -> None:
    _, findings = prove_text(GATHERED.format(wide=wide, mark=mark))
    assert ("seam-lengths-differ" in {finding.name for finding in findings}) is told


RING = """\
pieces:
  mat:
    outline:
      rectangle: 12 cm by 10 cm
      round:
        all corners: 2 cm
    joint edges:
      around:
        - bottom edge
        - bottom right corner
        - right edge
        - top right corner
        - top edge
        - top left corner
        - left edge
        - bottom left corner
    copies:
      top: canvas
      back: canvas
seams:
  rim:
    join:
      - mat top.around
      - mat back.around
    leave open: 5 cm
    open in: {edge}
"""


@pytest.mark.parametrize(("edge", "ends"), [("bottom edge", ((35, 0), (85, 0))), ("left edge", ((0, 75), (0, 25)))])
def test_a_gap_may_lie_in_the_middle_of_one_edge(edge: str, ends: tuple[tuple[float, float], ...]) -> None:
    draft, _ = draft_text(RING.format(edge=edge))
    gap = mark_of(draft, "mat", "rim")
    spots = [(spot.x, spot.y) for spot in (gap.path.start, gap.path.end)]
    assert [pytest.approx(one) for one in ends] == spots
    assert gap.copies == ()


def test_a_gap_lies_in_an_edge_of_its_seam_and_has_room_there() -> None:
    draft, findings = draft_text(RING.format(edge="botom edge"))
    told = found(tuple(one for one in findings if draft.variant in one.variants), "no-such-edge")
    assert told.mend == "did you mean 'bottom edge'?"
    _, findings = prove_text(RING.format(edge="left edge").replace("open: 5 cm", "open: 5.5 cm"))
    assert (
        "is 6 in" not in found(findings, "gap-too-long").says
    )  # 6 cm of the left edge, less than an allowance each end
