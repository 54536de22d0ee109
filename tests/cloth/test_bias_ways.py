"""Bias strips from a square, from strips, from what is left: published examples, and cloth worked out by hand."""

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Point, Polygon, box

from publisher.cloth import AtHand, Laid, StripPlan, cut_for_many, from_stock, plan_cloth
from publisher.cloth.bias_strips import Wanted, along_selvage, cut_lines, lowest_block, narrowed, strips_of
from publisher.cloth.bias_ways import empty_places
from publisher.cloth.forms import as_path
from publisher.drafting import Draft
from publisher.geometry import Box
from publisher.pipeline import prove
from publisher.tables import ChartRow
from publisher.terms import Phrase
from tests.specimens import draft_text, files


def test_joined_bias_from_a_rectangle() -> None:
    """Dress Making, trade practical (National Instructional Media Institute, India, 2024), page 220: 500 cm of 2.5 cm
    strip, none shorter than 10 cm, from cloth 86 cm wide: 15.12 cm of cloth, buy 15.5. It counts no seams."""
    wanted = Wanted(5000.0, 25.0, 0.0)
    assert lowest_block(wanted, 860.0, 5.0, 860.0) == 155
    # Its area, by the same page: L·w + (m / 1.4)², 1300.41 cm²; the strips here are what is cut, not their area alone.
    strips = [one.length for one in strips_of(860.0, 155.0, 25.0)]
    assert sum(strips) * 25 / 100 == pytest.approx(1300 - 50, rel=0.02)


def test_one_strip_from_the_corner_of_a_square() -> None:
    """The same page: a side of 65 cm less 2.14 gives 62.86, along the bias 88 cm, with 1.4 for √2."""
    assert along_selvage(628.6) == pytest.approx(880, rel=0.011)


def test_the_longest_bias_across_a_width() -> None:
    """An upholsterers' forum: 76 in across cloth 54 in wide."""
    assert along_selvage(54.0) == pytest.approx(76, abs=0.5)


def test_seams_and_squared_ends_are_counted() -> None:
    """By hand: from 30 × 20 cm, 4 cm wide, √2 · 4 = 5.66 cm each. Left of the first cut, from the lower left corner, two
    have an edge of 10 cm or more (20 − 2 · 5.66 = 8.69, on the slant 12.3), right of it four (30 − 4 · 5.66 = 7.37, 10.4).
    A seam of 6 mm takes 2 · √2 · 6 = 17 mm, squaring the ends 4 cm."""
    strips = sorted((one.length for one in strips_of(300.0, 200.0, 40.0)), reverse=True)
    assert len(strips) == 6
    # The longest begins at the corner, and its edges run right across: 20 · √2.
    assert strips[0] == pytest.approx(200 * 2**0.5)
    two = strips[0] + strips[1] - 2 * 2**0.5 * 6 - 40
    assert Wanted(two - 1, 40.0, 6.0).from_block(300.0, 200.0) == 2
    assert Wanted(two + 1, 40.0, 6.0).from_block(300.0, 200.0) == 3
    assert Wanted(10_000.0, 40.0, 6.0).from_block(300.0, 200.0) == 0


def test_a_strip_that_ends_in_a_corner_loses_its_width() -> None:
    """By hand: from 30 × 20 cm the line from the upper right corner meets the lower edge at 10 cm. The strip from 5.66 to
    11.31 ends in that corner: (20 + 18.69) · √2 / 2 is its middle but for the corner, a triangle of 4.34 · 1.31 / 2 less."""
    (ends_there,) = (one for one in strips_of(300.0, 200.0, 40.0) if one.start < 100 < one.start + 40 * 2**0.5)
    whole = box(0, 0, 300, 200).intersection(slanting(ends_there.start, 40.0)).area / 40
    assert ends_there.length == pytest.approx(whole - 40)


def slanting(start: float, strip: float) -> Polygon:
    """All between two lines at 45° of which the first meets the lower edge at `start`."""
    low, high = start, start + strip * 2**0.5
    return Polygon([(low - 9e3, -9e3), (high - 9e3, -9e3), (high + 9e3, 9e3), (low + 9e3, 9e3)])


@given(st.floats(150.0, 1500.0), st.floats(150.0, 1500.0), st.floats(15.0, 120.0))
def test_strips_lie_side_by_side_on_the_block(width: float, length: float, strip: float) -> None:
    """Shapely agrees with the area of each; none reaches beyond the block, and cuts at one of its corners begin them."""
    block = box(0, 0, width, length)
    strips = list(strips_of(width, length, strip))
    for one in strips:
        middle = block.intersection(slanting(one.start, strip)).area / strip
        in_a_corner = one.start < width - length < one.start + strip * 2**0.5
        assert one.length == pytest.approx(middle - (strip if in_a_corner else 0), rel=1e-6, abs=1e-3)
        assert one.start >= -length
        assert one.start + strip * 2**0.5 <= width + 1e-6
        assert one.start / (strip * 2**0.5) == pytest.approx(round(one.start / (strip * 2**0.5)), abs=1e-6)
    lines = cut_lines(width, length, strip, strips)
    assert all(block.buffer(1e-6).covers(Point(end.x, end.y)) for one in lines for end in (one.start, one.end))
    assert len(lines) <= len(strips) + 1


@given(st.floats(500.0, 9000.0), st.floats(20.0, 80.0), st.floats(300.0, 1500.0))
def test_a_block_is_enough_and_no_larger(length: float, strip: float, width: float) -> None:
    wanted = Wanted(length, strip, 6.0)
    along = lowest_block(wanted, width, 10.0, 3000.0)
    if along is None:
        return
    across = narrowed(wanted, width, along, 10.0)
    assert wanted.from_block(across, along)
    assert across * along >= length * strip
    assert along <= 150 or not wanted.from_block(width, along - 10)


MAT = """\
pieces:
  mat:
    rectangle: {mat}
    allowance: 0
    copies:
      top: canvas
  binding:
    strip:
      finished width: 3/8 in | 1 cm
      length: {round}
      fold: in fourths
      ends: 0
      joins: {joins}
    grain: bias
    copies:
      only: canvas
"""
LEFT = MAT.format(mat="28 in by 22 in | 75 cm by 55 cm", round="100 in | 2.6 m", joins="diagonal")
STRIPS = "pieces:\n  binding:" + LEFT.partition("  binding:")[2]  # the mat is not cut


def plan_of(draft: Draft, copy: str = "binding") -> StripPlan:
    (plan,) = (plan for plan in plan_cloth(draft)[0].strips if plan.copy == copy)
    return plan


def test_from_what_is_left_beside_a_piece() -> None:
    """Beside 75 cm of mat, of 108, 32.7 cm are left, 55 long. A square would be 36 cm and want a row of its own."""
    draft, findings = draft_text(LEFT)
    assert not findings
    plan = plan_of(draft)
    assert plan.left_over
    assert plan.block is not None
    (layout,) = plan_cloth(draft)[0].layouts
    mat, binding = layout.laid
    assert (binding.x, binding.y) == (pytest.approx(753), 0.0)
    assert (binding.width, binding.length) == plan.block
    assert binding.width <= 327
    assert layout.used_length == pytest.approx(550)
    assert layout.buy_length == pytest.approx(600)  # 55 + 2.5 cm; with a square 55 + 0.3 + 36 + 2.5, a metre
    assert (mat.copy, mat.x, mat.y) == ("mat top", 0.0, 0.0)


def test_from_strips_where_a_square_takes_more() -> None:
    draft, _ = draft_text(STRIPS)
    plan = plan_of(draft)
    assert not plan.left_over
    assert plan.block is not None
    (layout,) = plan_cloth(draft)[0].layouts
    assert plan.block[1] == layout.used_length == pytest.approx(150)
    assert layout.buy_length == pytest.approx(200)  # 15 + 2.5 cm; a square of 36 would take 40


def test_a_square_where_nothing_is_saved() -> None:
    wide = LEFT.replace("28 in by 22 in | 75 cm by 55 cm", "18 in by 22 in | 45 cm by 55 cm")
    plan = plan_of(draft_text(wide)[0])
    assert plan.square
    assert plan.block is None


def test_a_square_too_wide_for_the_cloth_is_no_mistake_where_strips_will_do() -> None:
    narrow = STRIPS.replace("finished width: 3/8 in | 1 cm", "finished width: 2 in | 5 cm").replace("2.6 m", "8 m")
    draft, _ = draft_text(narrow)
    cloth, found = plan_cloth(draft)
    assert found == ()
    assert cloth.strips[0].block is not None  # 8 m of 20 cm: a square of 1.3 m on cloth of 1.08


def test_what_may_not_be_joined_is_told_as_before() -> None:
    _, findings = prove("specimen", files(LEFT.replace("diagonal", "none")))
    assert "strip-too-long" in {finding.name for finding in findings}


def test_for_many_what_is_laid_lies_apart_and_is_enough() -> None:
    draft = cut_for_many(draft_text(LEFT)[0], 7)
    cloth, found = plan_cloth(draft)
    assert found == ()
    (layout,) = cloth.layouts
    boxes = [box(one.x, one.y, one.x + one.width, one.y + one.length) for one in layout.laid]
    assert all(one.distance(other) > 2.99 for one, other in combinations(boxes, 2))
    assert all(box(0, 0, layout.usable_width, layout.used_length).buffer(1e-3).covers(one) for one in boxes)
    assert sum(one.copy == "mat top" for one in layout.laid) == 7
    (plan,) = cloth.strips
    if plan.block is not None:
        assert plan.block[0] * plan.block[1] >= 7 * 2600 * 40
    else:
        assert sum(one.copy.startswith("binding") for one in layout.laid) == 7


def test_from_cloth_that_is_there() -> None:
    draft, _ = draft_text(LEFT)
    assert from_stock(draft, draft.materials[0], [AtHand(575.0, 1100.0)]).fits
    answer = from_stock(draft, draft.materials[0], [AtHand(500.0, 1100.0)])
    assert not answer.fits
    assert answer.missing_length == pytest.approx(75)


def bias_notes(pattern: str) -> list[list[Phrase]]:
    """What the chart says of the binding, inch and metric."""
    proof, findings = prove("specimen", files(pattern))
    assert proof is not None, findings
    rows: list[ChartRow] = [row for table in proof.tables for row in table.chart if row.copy == "binding"]
    return [[note for note in row.notes if note.key.startswith("chart.bias")] for row in rows]


def test_the_chart_says_which_way_and_why() -> None:
    assert [[note.key for note in notes] for notes in bias_notes(LEFT)] == [["chart.bias-left"], ["chart.bias-left"]]
    assert [[note.key for note in notes] for notes in bias_notes(STRIPS)] == [["chart.bias-strips"]] * 2
    wide = LEFT.replace("28 in by 22 in | 75 cm by 55 cm", "18 in by 22 in | 45 cm by 55 cm")
    assert [[note.key for note in notes] for notes in bias_notes(wide)] == [["chart.bias-square"]] * 2


def test_two_copies_of_a_strip_have_their_own_ways() -> None:
    two = LEFT.replace("    copies:\n      only: canvas\n", "    copies:\n      one: canvas\n      other: canvas\n")
    draft, findings = draft_text(two)
    assert not findings
    cloth, found = plan_cloth(draft)
    assert found == ()
    (layout,) = cloth.layouts
    assert {one.copy for one in layout.laid} == {"mat top", "binding one", "binding other"}
    assert sorted(plan.copy for plan in cloth.strips) == ["binding one", "binding other"]
    boxes = [box(one.x, one.y, one.x + one.width, one.y + one.length) for one in layout.laid]
    assert all(one.distance(other) > 2.99 for one, other in combinations(boxes, 2))
    for plan in cloth.strips:
        wanted = Wanted(plan.total_length, plan.cut_width, 6.0)
        assert plan.square or (plan.block is not None and wanted.from_block(*plan.block) == plan.count)


def lies(x: float, y: float, width: float, length: float) -> Laid:
    return Laid("piece", 1, x, y, width, length, 0, False, as_path(Box(x, y, x + width, y + length)))


def test_empty_places_right_of_the_fold() -> None:
    """On folded cloth only the half right of the fold, at 54 cm, is drawn: beside a piece to 80 cm 27.7 × 60 are left,
    and above it 53.7 × 29.7."""
    places = list(empty_places([lies(280.0, 0.0, 520.0, 300.0)], (540.0, 1080.0), 600.0, 3.0))
    assert {(one.left, one.bottom, one.right, one.top) for one in places} == {
        (803.0, 0.0, 1080.0, 600.0),
        (540.0, 303.0, 803.0, 600.0),
        (540.0, 303.0, 1080.0, 600.0),
    }


SPOTS = st.builds(lies, st.floats(0, 700), st.floats(0, 500), st.floats(20, 300), st.floats(20, 300))


@given(st.lists(SPOTS, max_size=8))
def test_empty_places_are_empty(laid: list[Laid]) -> None:
    for place in empty_places(laid, (0.0, 1000.0), 800.0, 3.0):
        room = box(place.left, place.bottom, place.right, place.top)
        assert min(place.width, place.height) >= 150
        assert all(room.distance(box(one.x, one.y, one.x + one.width, one.y + one.length)) > 2.99 for one in laid)
