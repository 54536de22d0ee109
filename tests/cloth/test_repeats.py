"""Prints that repeat, worked out by hand; no source gives an answer with a repeat, so the rule is common practice."""

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import box

from publisher.cloth import AtHand, from_stock, plan_cloth, written_answer
from publisher.cloth.kept import holds
from publisher.cloth.questions import Spot
from publisher.cloth.repeats import arrange_to_match
from publisher.cloth.shelves import Rectangle, arrange_in_rows
from publisher.drafting import Repeat
from publisher.pipeline import prove
from publisher.terms import read_length
from tests.specimens import HEAD, draft_text, files

DROPS = [Rectangle("drop", nth, 1400.0, 2400.0) for nth in range(1, 5)]


def test_drops_of_a_curtain() -> None:
    """A wholesaler's instruction sheet for curtains: a track of 200 cm, fullness 2, allowance 40 cm, cloth 140 cm wide,
    213 cm to the floor less 3 cm, hems 30 cm: 4 drops of 240 cm, 960 cm of cloth.

    With a print that repeats every 37 cm each drop goes up to 7 repeats, 259 cm (common practice, no source): 1036 cm.
    """
    assert arrange_in_rows(DROPS, 1400.0, 0.0)[1] == pytest.approx(9600)
    laid, used = arrange_to_match(DROPS, {"drop"}, 1400.0, 0.0, Repeat(370.0))
    assert used == pytest.approx(10360)
    assert [one.y for one in laid] == pytest.approx([0, 2590, 5180, 7770])


def test_a_drop_of_whole_repeats_takes_no_more() -> None:
    assert arrange_to_match(DROPS, {"drop"}, 1400.0, 0.0, Repeat(300.0))[1] == pytest.approx(9600)


def test_across_each_piece_begins_at_a_whole_repeat() -> None:
    pockets = [Rectangle("pocket", nth, 200.0, 250.0) for nth in (1, 2, 3)]
    laid, used = arrange_to_match(pockets, {"pocket"}, 1080.0, 3.0, Repeat(150.0, 160.0))
    # 20.3 cm take two repeats of 16 across, 25.3 two of 15 along.
    assert [one.x for one in laid] == pytest.approx([0, 320, 640])
    assert used == pytest.approx(300)
    assert {one.width for one in laid} == {200.0}


def test_what_need_not_match_lies_behind_what_does() -> None:
    """A strip longer than the panel opens the first row; it would shift the panels against the print."""
    cut = [Rectangle("tie", 1, 900.0, 400.0), *(Rectangle("panel", nth, 600.0, 320.0) for nth in (1, 2))]
    laid, used = arrange_to_match(cut, {"panel"}, 1080.0, 3.0, Repeat(150.0))
    # 32.3 cm take three repeats of 15.
    assert [(one.rectangle.name, one.y) for one in laid] == [("panel", 0.0), ("panel", 450.0), ("tie", 900.0)]
    assert used == pytest.approx(1300)


SIDES = st.floats(50.0, 900.0)
CUTS = st.lists(
    st.builds(Rectangle, st.sampled_from(["panel", "tie"]), st.just(1), SIDES, SIDES), min_size=1, max_size=12
)


@given(CUTS, st.floats(20.0, 700.0), st.one_of(st.none(), st.floats(20.0, 700.0)))
def test_rows_begin_at_whole_repeats_and_nothing_overlaps(
    cut: list[Rectangle], along: float, across: float | None
) -> None:
    laid, used = arrange_to_match(cut, {"panel"}, 1000.0, 3.0, Repeat(along, across))
    assert sorted((one.rectangle.name, one.rectangle.width) for one in laid) == sorted((o.name, o.width) for o in cut)
    starts = {one.y for one in laid if one.rectangle.name == "panel"}
    assert all(min(start % along, along - start % along) < 1e-3 for start in starts)
    boxes = [box(one.x, one.y, one.x + one.width, one.y + one.length) for one in laid]
    assert all(box(0, 0, 1000, used).buffer(1e-3).covers(one) for one in boxes)
    assert all(one.distance(other) > 2.99 for one, other in combinations(boxes, 2))


PRINT = """\
    repeat: 6 in | 15 cm
pieces:
  panel:
    rectangle: 40 cm by 30 cm
    copies:
      front: canvas
      back: canvas
      spare: canvas
  tie:
    strip:
      finished width: 2 cm
      length: 90 cm
      fold: in fourths
    copies:
      only: canvas
"""


def test_the_length_to_buy_goes_up_with_the_repeat() -> None:
    draft, findings = draft_text(PRINT)
    assert not findings
    (layout,) = plan_cloth(draft)[0].layouts
    # Two panels of 42 × 32 cm beside each other, one below: each row takes 45 cm, and the tie lies in what is left.
    assert layout.used_length == pytest.approx(900)
    assert layout.buy_length == pytest.approx(1000)
    (plain,) = plan_cloth(draft_text(PRINT.replace("    repeat: 6 in | 15 cm\n", ""))[0])[0].layouts
    assert plain.used_length == pytest.approx(320 + 3 + 320 + 3 + 80)
    # From two lengths at hand: on each the panels begin where a repeat does.
    answer = from_stock(draft, draft.materials[0], [AtHand(475.0, 1100.0), AtHand(560.0, 1100.0)])
    assert answer.fits
    assert not from_stock(draft, draft.materials[0], [AtHand(474.0, 1100.0), AtHand(560.0, 1100.0)]).fits


def test_the_print_shrinks_with_its_cloth() -> None:
    draft, _ = draft_text("    shrinkage: 10%\n" + PRINT)
    (layout,) = plan_cloth(draft)[0].layouts
    # 15 cm are 13.5 once washed: three of them, 40.5 cm a row, hold 32.3 cm.
    assert layout.used_length == pytest.approx(405 + 405)


def test_strips_bias_and_pieces_that_lie_either_way_are_not_matched() -> None:
    free = PRINT.replace("    rectangle: 40 cm by 30 cm\n", "    rectangle: 40 cm by 30 cm\n    grain: either way\n")
    (layout,) = plan_cloth(draft_text(free)[0])[0].layouts
    (plain,) = plan_cloth(draft_text(free.replace("    repeat: 6 in | 15 cm\n", ""))[0])[0].layouts
    assert layout.used_length == pytest.approx(plain.used_length)


@pytest.mark.parametrize(
    ("said", "name", "says"),
    [
        ("repeat: 0 cm", "no-length", "the print of 'canvas' repeats every 0 in (0.0 mm), and within 25/64 in"),
        ("repeat: 5 mm", "no-length", "and within 25/64 in (10.0 mm) nothing can be matched"),
        ("repeat across: 5 cm", "missing-key", "'canvas' says how its print repeats across the cloth, and not along"),
        ("repeat: 12", "wrong-kind", ""),
        ("repeats: 15 cm", "unknown-key", "no 'repeats' can stand here"),
        ("grain: either way\n    repeat: 15 cm", "nap-without-grain", "has a print that pieces are to match"),
    ],
)
def test_a_repeat_that_is_none(said: str, name: str, says: str) -> None:
    _, findings = prove("specimen", files(PRINT.replace("repeat: 6 in | 15 cm", said)))
    mistakes = {finding.name for finding in findings if finding.name not in ("seam-never-sewn", "copy-never-used")}
    finding = next(finding for finding in findings if name in (finding.name, "wrong-kind"))
    assert says in finding.says, mistakes
    assert finding.place is not None
    assert finding.place.line == HEAD.count("\n") + 1


def test_the_materials_list_is_told() -> None:
    proof, _ = prove("specimen", files(PRINT.replace("15 cm\n", "15 cm\n    repeat across: 4 in | 10 cm\n", 1)))
    assert proof is not None
    assert [row.repeat for tables in proof.tables for row in tables.materials] == [
        (read_length("6 in"), read_length("4 in")),
        (read_length("15 cm"), read_length("10 cm")),
    ]


ON_THE_FOLD = """\
    repeat: 24 in | 60 cm
pieces:
  apron:
    outline:
      points:
        low middle: 0, 0
        low corner: 30 cm, 0
        top corner: 30 cm, 58 cm
        top middle: 0, 58 cm
      edges:
        base:   line from low middle to low corner
        side:   line from low corner to top corner
        crown:  line from top corner to top middle
        centre: line from top middle to low middle
      on the fold along: centre
    allowance: 0
    copies:
      only: canvas
  pocket:
    outline:
      rectangle: 45 cm by 28.5 cm
    allowance: 0
    copies:
      only: canvas, cut 2
"""


def test_single_and_folded_cloth_are_compared_as_the_print_is_matched() -> None:
    """The pockets beside the apron: 58 cm of single cloth where folded cloth takes 58 + 28.5; matched, both take 120."""

    def laid(pattern: str) -> tuple[bool, float, float]:
        draft, findings = draft_text(pattern)
        assert not findings
        (question,) = [one for one in plan_cloth(draft)[0].questions if not one.folded]
        wide = next(number for number, shape in enumerate(question.shapes) if shape.size[0] > 500)
        answer = (Spot(wide, 0, 0, 0), Spot(1 - wide, 603, 0, 0), Spot(1 - wide, 603, 288, 0))
        assert holds(question, answer)
        (layout,) = plan_cloth(draft, ((question.name, written_answer(answer)),))[0].layouts
        return layout.folded, layout.used_length, layout.folded_buy_length

    plain = ON_THE_FOLD.replace("    repeat: 24 in | 60 cm\n", "")
    # 58 + 0.3 + 28.5 cm and 2.5 for squaring up: 90 cm would be bought of folded cloth.
    assert laid(plain) == (False, pytest.approx(580), pytest.approx(900))
    assert laid(ON_THE_FOLD) == (True, pytest.approx(1200), 0)
