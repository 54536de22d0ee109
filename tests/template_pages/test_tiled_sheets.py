"""Pieces too large for one page: tiles that abut, none of them empty, and marks by which they are joined."""

import itertools
import re

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon
from shapely.affinity import translate

from publisher.drafting import LineMark, Piece, Pleat
from publisher.geometry import Line, Path, Point
from publisher.template_pages import (
    EDITIONS,
    JOINING_RADIUS,
    Edition,
    Paper,
    PlacedPiece,
    TemplatePage,
    plan_pages,
)
from publisher.template_pages.joining import INWARDS, Join
from publisher.terms import Severity, UnitSystem
from tests.hand_pieces import HERE, hand_draft, hand_piece, polyline, rectangle, rounded

A4 = Edition(UnitSystem.METRIC, Paper.A4)
OPPOSITE = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}


def tiles(piece: Piece, edition: Edition = A4) -> tuple[TemplatePage, ...]:
    """The pages of a piece that needs several: all but the first, which bears the check block alone."""
    pages, findings = plan_pages([hand_draft([piece], edition.units)], edition)
    assert findings == ()
    assert pages.pages[0].placed == ()
    return pages.pages[1:]


def on_sheet(page: TemplatePage, at: Point) -> tuple[float, float]:
    """A spot of a page on the sheet that its tiles make: x to the right, y down from the sheet's upper left corner."""
    frame = page.frame
    return (at.x - frame.left + (page.column - 1) * frame.width, at.y - frame.top + (page.row - 1) * frame.height)


def lines_on_page(placed: PlacedPiece, path: Path) -> LineString:
    return LineString([(spot.x, spot.y) for spot in map(placed.on_paper, path.flattened(0.001))])


def frame_area(page: TemplatePage) -> Polygon:
    frame = page.frame
    return shapely.box(frame.left, frame.top, frame.left + frame.width, frame.top + frame.height)


def test_a_sheet_of_two_by_two_tiles_knows_its_neighbours() -> None:
    pages = tiles(hand_piece(rectangle(370, 500)))
    assert [(page.row, page.column, page.rows, page.columns) for page in pages] == [
        (1, 1, 2, 2),
        (1, 2, 2, 2),
        (2, 1, 2, 2),
        (2, 2, 2, 2),
    ]
    assert [{one.side: one.page for one in page.neighbours} for page in pages] == [
        {"right": 3, "bottom": 4},
        {"left": 2, "bottom": 5},
        {"right": 5, "top": 2},
        {"left": 4, "top": 3},
    ]


def test_the_way_round_that_takes_fewer_pages_is_chosen() -> None:
    # 560 mm across is 3 columns of 190, 250 mm down 1 row of 263; the other way round it would be 2 × 3.
    pages = tiles(hand_piece(rectangle(560, 250)))
    assert len(pages) == 3
    assert all(page.placed[0].movement.quarter_turns == 0 for page in pages)
    turned = tiles(hand_piece(rectangle(250, 560)))
    assert len(turned) == 3
    assert all(page.placed[0].movement.quarter_turns == 1 for page in turned)


def test_a_sheet_lies_in_the_middle_of_its_tiles() -> None:
    pages = tiles(hand_piece(rectangle(360, 500)))
    corners = [on_sheet(pages[0], pages[0].placed[0].on_paper(corner)) for corner in (Point(0, 500), Point(360, 0))]
    assert corners == [pytest.approx((10, 11)), pytest.approx((370, 511))]


def test_a_tile_on_which_nothing_falls_is_dropped() -> None:
    legs = hand_piece(polyline((0, 0), (370, 0), (370, 200), (180, 200), (180, 500), (0, 500)))
    pages = tiles(legs)
    assert [(page.row, page.column) for page in pages] == [(1, 1), (2, 1), (2, 2)]
    assert {one.side for one in pages[0].neighbours} == {"bottom"}


def test_a_shift_that_saves_a_page_is_found() -> None:
    # In the middle of two columns of 190 mm the leg of 185 mm would stand on both; pushed to the left, on one.
    foot = hand_piece(polyline((0, 0), (270, 0), (270, 10), (185, 10), (185, 500), (0, 500)))
    assert [(page.row, page.column) for page in tiles(foot)] == [(1, 1), (2, 1), (2, 2)]


def test_no_line_runs_beside_a_joint_where_a_shift_can_help() -> None:
    # In the middle of 2 × 2 frames a fold line down the middle would lie on the joint at 190 mm.
    fold = LineMark("fold", "fold line", Point(180.0, 0.0), Point(180.0, 500.0), "wrong side", (), HERE)
    plain, folded = (tiles(hand_piece(rectangle(360, 500), marks=marks)) for marks in ((), (fold,)))
    (middle, _), (aside, _) = (
        on_sheet(pages[0], pages[0].placed[0].on_paper(Point(180, 0))) for pages in (plain, folded)
    )
    assert middle == pytest.approx(190)
    assert abs(aside - 190) > 2
    assert len(plain) == len(folded)


@pytest.mark.parametrize(("leg", "printed"), [(187.5, 3), (188.5, 4)])
def test_half_a_millimetre_decides_whether_a_tile_is_printed(leg: float, printed: int) -> None:
    # 376 × 518 mm leave 2 mm on every side of 2 × 2 frames, so the leg ends at 2 + leg; the frame ends at 190.
    piece = hand_piece(polyline((0, 0), (376, 0), (376, 200), (leg, 200), (leg, 518), (0, 518)))
    assert len(tiles(piece)) == printed


outlines = st.one_of(
    st.builds(rectangle, st.floats(200, 700), st.floats(270, 700)),
    st.builds(rounded, st.floats(200, 700), st.floats(270, 700), st.floats(5, 99)),
    st.builds(
        lambda w, h, x, y: polyline((0, 0), (w, 0), (w, h * y), (w * x, h * y), (w * x, h), (0, h)),
        st.floats(200, 700),
        st.floats(270, 700),
        st.floats(0.2, 0.8),
        st.floats(0.2, 0.8),
    ),
)


@settings(max_examples=40, deadline=None)
@given(outlines, st.sampled_from(EDITIONS))
def test_every_stretch_of_the_cut_line_is_on_a_tile_and_every_tile_holds_something(
    outline: Path, edition: Edition
) -> None:
    pages = tiles(hand_piece(outline), edition)
    frames = []
    for page in pages:
        line, frame = lines_on_page(page.placed[0], outline), frame_area(page)
        assert Polygon(line.coords).distance(frame) < 0.021  # so near its line, half a millimetre wide, is on it
        frames.append(translate(frame, (page.column - 1) * page.frame.width, (page.row - 1) * page.frame.height))
    first = pages[0]
    back = ((first.column - 1) * first.frame.width, (first.row - 1) * first.frame.height)
    on_the_sheet = translate(lines_on_page(first.placed[0], outline), *back)
    assert on_the_sheet.difference(shapely.union_all(frames).buffer(0.001)).length < 0.01


@settings(max_examples=25, deadline=None)
@given(outlines, st.sampled_from(EDITIONS))
def test_the_two_halves_of_a_joining_mark_meet(outline: Path, edition: Edition) -> None:
    pages = {page.number: page for page in tiles(hand_piece(outline), edition)}
    seen: dict[str, set[frozenset[int]]] = {}
    for page in pages.values():
        assert {mark.side for mark in page.joining_marks} == {one.side for one in page.neighbours}
        for neighbour in page.neighbours:
            other = pages[neighbour.page]
            assert page.number in {one.page for one in other.neighbours if one.side == OPPOSITE[neighbour.side]}
            here = [mark for mark in page.joining_marks if mark.side == neighbour.side]
            there = [mark for mark in other.joining_marks if mark.side == OPPOSITE[neighbour.side]]
            assert len(here) == 3  # the middle and the quarter points: no frame has an edge of less than 150 mm
            assert [mark.label for mark in here] == [mark.label for mark in there]
            for one, its_half in zip(here, there, strict=True):
                assert on_sheet(page, one.at) == pytest.approx(on_sheet(other, its_half.at))
            seen.setdefault(here[0].label, set()).add(frozenset((page.number, other.number)))
    assert all(len(edges) == 1 for edges in seen.values())


def test_shared_edges_are_lettered_row_by_row() -> None:
    pages = tiles(hand_piece(rectangle(1050, 1050)))
    labels = sorted({mark.label for page in pages for mark in page.joining_marks}, key=lambda one: (len(one), one))
    assert labels[:3] == ["A", "B", "C"]
    assert labels[25:28] == ["Z", "AA", "AB"]


def test_a_joining_mark_moves_along_its_edge_off_a_line() -> None:
    # Two pages, one above the other; the piece's left side would run through the ring at a quarter of the joint.
    pages = tiles(hand_piece(rectangle(100, 500)))
    assert [page.row for page in pages] == [1, 2]
    lines = lines_on_page(pages[0].placed[0], rectangle(100, 500))
    spots = [mark.at.x - pages[0].frame.left for mark in pages[0].joining_marks]
    assert spots[1] == pytest.approx(95)
    assert spots[0] != pytest.approx(190 / 4, abs=1)
    assert all(lines.distance(shapely.Point(mark.at.x, mark.at.y)) > JOINING_RADIUS for mark in pages[0].joining_marks)


def upright_line(across: float, high: float, name: str = "fold") -> LineMark:
    return LineMark(name, "fold line", Point(across, 0.0), Point(across, high), "wrong side", (), HERE)


def ring_distances(pages: tuple[TemplatePage, ...], across: float, high: float) -> list[float]:
    """How far each half ring's middle lies from an upright line of the piece."""
    line = Path((Line(Point(across, 0.0), Point(across, high)),))
    return [
        lines_on_page(page.placed[0], line).distance(shapely.Point(mark.at.x, mark.at.y))
        for page in pages
        for mark in page.joining_marks
    ]


def test_joining_marks_lie_off_lines_where_a_shift_can_help() -> None:
    # 360 mm on two columns of 190: in the middle the fold would run 4 mm from the joint, through every ring's edge.
    plain = tiles(hand_piece(rectangle(360, 250)))
    folded = tiles(hand_piece(rectangle(360, 250), marks=[upright_line(184, 250)]))
    assert min(ring_distances(plain, 184, 250)) < JOINING_RADIUS
    assert len(folded) == len(plain)
    assert min(ring_distances(folded, 184, 250)) > JOINING_RADIUS


def test_joining_marks_beside_a_line_along_the_joint_move_off_the_piece() -> None:
    # 376 mm leave no shift: the fold stays 4 mm from the joint, and above and below the piece is white.
    pages = tiles(hand_piece(rectangle(376, 200), marks=[upright_line(184, 200)]))
    assert len(pages) == 2
    spots = sorted({round(mark.at.y, 3) for page in pages for mark in page.joining_marks})
    assert len(spots) == 3
    assert min(ring_distances(pages, 184, 200)) > JOINING_RADIUS
    assert all(after - before >= 2 * JOINING_RADIUS for before, after in itertools.pairwise(spots))


def box_pleat(middle: float, high: float) -> Pleat:
    def spans(*places: float) -> tuple[tuple[Point, Point], ...]:
        return tuple((Point(middle + at, 0.0), Point(middle + at, high)) for at in places)

    outer, inner, meets = spans(-4.0, 4.0), spans(-12.0, 12.0), spans(-20.0, 20.0)
    return Pleat("pleat", "box pleat", 8.0, 32.0, outer, inner, meets, (), (), "right side", (), HERE)


def test_no_joint_parts_a_pleat_where_a_shift_can_help() -> None:
    # 320 mm on two columns of 190: the middle of the piece would lie on the joint, in the middle of the pleat.
    pages = tiles(hand_piece(rectangle(320, 250), marks=[box_pleat(160, 250)]))
    assert len(pages) == 2
    for page in pages:
        shown = [
            frame_area(page).intersects(shapely.Point(spot.x, spot.y))
            for at in (140.0, 180.0)
            for spot in [page.placed[0].on_paper(Point(at, 125.0))]
        ]
        assert shown in ([True, True], [False, False])


def test_too_large_a_piece_is_a_finding_with_its_size() -> None:
    large = hand_piece(rectangle(2000, 2500), name="sail", number=2)
    pages, (finding,) = plan_pages([hand_draft([hand_piece(rectangle(50, 50)), large])], A4)
    assert (finding.name, finding.severity) == ("piece-too-large", Severity.ERROR)
    assert "'sail' is 2000 × 2500 mm" in finding.says
    assert finding.place == large.place
    assert [placed.piece for page in pages.pages for placed in page.placed] == ["flap"]


def test_the_pages_of_a_monstrous_piece_are_counted_and_not_made() -> None:
    _, (finding,) = plan_pages([hand_draft([hand_piece(rectangle(9_000_000, 9_000_000), name="sail")])], A4)
    assert finding.name == "piece-too-large"
    # A4 less the margins of frame_of is 190 × 257 mm or more: nine kilometres take about 47,000 by 35,000 pages.
    count = int(re.search(r"would take (\d+) pages", finding.says)[1])  # type: ignore[index]
    assert 1.4e9 < count < 1.7e9


@pytest.mark.parametrize(("side", "fits"), [(1400, True), (1900, False)])
def test_sixty_tiles_are_the_most(side: float, fits: bool) -> None:
    # 1400 mm: 8 × 6 tiles. 1900 mm: 11 × 8.
    _, findings = plan_pages([hand_draft([hand_piece(rectangle(side, side))])], A4)
    assert (findings == ()) is fits


def test_each_tile_joins_the_next_without_overlap() -> None:
    pages = tiles(hand_piece(rounded(560, 760, 90)))
    spot = Point(123.0, 456.0)
    shown = {tuple(round(value, 6) for value in on_sheet(page, page.placed[0].on_paper(spot))) for page in pages}
    assert len(shown) == 1
    assert all(page.placed[0].clip == page.frame for page in pages)
    sheets = {(page.sheet, page.rows, page.columns) for page in pages}
    assert len(sheets) == 1
    assert len({(one.row, one.column) for one in pages}) == len(pages)
    assert not any(one == other for one, other in itertools.combinations([page.number for page in pages], 2))


@pytest.mark.parametrize("side", ["left", "right", "top", "bottom"])
def test_a_letter_makes_way_for_a_line_along_its_edge(side: str) -> None:
    ring, inwards = Point(100.0, 200.0), INWARDS[side]
    along = inwards.left() * 60.0
    assert Join("A", (ring,), ()).letter_spot(ring, side) == ring + inwards * 2.3
    for tenths in range(1, 50):
        foot = ring + inwards * (tenths / 10)
        spot = Join("A", (ring,), (Line(foot - along, foot + along),)).letter_spot(ring, side)
        depth = (spot - ring).dot(inwards)
        # A capital of 7 pt is 1.7 mm high and about as wide: half of it, half a pen, and 0.2 mm of white at least.
        assert abs(depth - tenths / 10) >= 1.2, tenths
        assert 1.1 < depth < 4.0, tenths


def test_a_letter_makes_way_for_a_line_across_its_half_ring() -> None:
    ring = Point(0.0, 0.0)
    across = Line(Point(-10.0, 0.0), Point(10.0, 0.0))
    spot = Join("A", (ring,), (across,)).letter_spot(ring, "left")
    assert abs(spot.y) >= 1.5
    assert spot.x > 1.0
    assert spot.length < JOINING_RADIUS - 1.2
