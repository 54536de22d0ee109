"""Cut lines round curved edges, against dense exact parallels and against what Shapely grows from fine polygons."""

import math
import random
import statistics

import numpy
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon

from publisher.geometry import Arc, Cubic, Line, Path, Point, Segment, TooTight, offset_outline, signed_area
from tests.geometry.curves import (
    apart,
    arc,
    area_of,
    coordinates,
    cubics,
    curved_outlines,
    followed,
    mapped,
    mirrored,
    spots_and_speeds,
)

WITHIN = 0.01  # mm, promised for the parallel of a cubic


def exact_parallel(cubic: Cubic, by: float, count: int = 2000) -> numpy.ndarray:
    """Points `by` to the right of dense points on a cubic, along their normals."""
    spots, speeds = spots_and_speeds(cubic, count)
    return spots + by * numpy.stack([speeds[:, 1], -speeds[:, 0]], axis=1) / numpy.hypot(*speeds.T)[:, None]


def parallel_of(segment: Segment, by: float, enters: Point, leaves: Point) -> Path:
    """The parallel of one segment in an outline that goes on straight on both sides of it."""
    before, after = segment.start - enters * 500, segment.end + leaves * 500
    beyond = before + (after - before) * 0.5 + (after - before).left() * 5
    edges = [Line(before, segment.start), segment, Line(segment.end, after), Line(after, beyond), Line(beyond, before)]
    widths = (by, by, by, 0.0, 0.0)
    return offset_outline([(Path((edge,)), width) for edge, width in zip(edges, widths, strict=True)])[1][1]


def parallel_of_cubic(cubic: Cubic, by: float) -> Path:
    """The same for a cubic with handles."""
    _, speeds = spots_and_speeds(cubic, 1)
    enters, leaves = (Point(x, y).unit() for x, y in speeds.tolist())
    return parallel_of(cubic, by, enters, leaves)


def worst_error(cubic: Cubic, by: float, parallel: Path) -> float:
    """The greatest distance by which a parallel and the exact one leave each other, mm."""
    exact = exact_parallel(cubic, by)
    ours = numpy.array(coordinates(parallel, 400))
    there = shapely.distance(LineString(exact), shapely.points(ours[::8])).max()
    back = shapely.distance(LineString(ours), shapely.points(exact[::20])).max()
    return float(max(there, back))


def edge_like(chance: random.Random) -> Cubic:
    """A curve as an edge is: each handle leads forwards."""
    turned, spots = chance.uniform(0, 2 * math.pi), [Point(chance.uniform(-300, 300), chance.uniform(-300, 300))]
    for _ in range(3):
        spots.append(spots[-1] + Point(chance.uniform(5, 100), chance.uniform(-100, 100)).turned(turned))
    return Cubic(*spots)


def least_room(cubic: Cubic, by: float) -> float:
    """The least of 1 + κ·by, κ from three neighbouring samples' circle: at nought and below the parallel folds back."""
    spots, _ = spots_and_speeds(cubic, 4000)
    first, second = numpy.diff(spots, axis=0)[:-1], numpy.diff(spots, axis=0)[1:]
    twice = first[:, 0] * second[:, 1] - first[:, 1] * second[:, 0]
    sides = numpy.hypot(*first.T) * numpy.hypot(*second.T) * numpy.hypot(*(first + second).T)
    return float((1 + by * 2 * twice / sides).min())


def test_150_random_curves_at_10_mm_stay_within_a_hundredth_in_few_cubics() -> None:
    chance, errors, counts = random.Random(150), [], []
    while len(errors) < 150:
        cubic = edge_like(chance)
        if least_room(cubic, 10) < 0.001:
            continue
        parallel = parallel_of_cubic(cubic, 10)
        errors.append(worst_error(cubic, 10, parallel))
        counts.append(len(parallel.segments))
    assert max(errors) <= WITHIN
    assert statistics.median(errors) <= WITHIN / 2
    assert max(counts) <= 8
    assert statistics.median(counts) <= 4


@settings(deadline=None, max_examples=60)
@given(cubics(), st.floats(0.5, 40))
def test_a_curve_has_its_parallel_or_is_too_tight(cubic: Cubic, by: float) -> None:
    room = least_room(cubic, by)
    assume(abs(room) > 1e-3)
    if room < 0:
        with pytest.raises(TooTight):
            parallel_of_cubic(cubic, by)
    else:
        assert worst_error(cubic, by, parallel_of_cubic(cubic, by)) <= WITHIN


def test_the_least_radius_and_its_place_are_told() -> None:
    """y = x² / 100 has its least radius, 1 / y″ = 50 mm, at its foot; drawn leftwards its hollow lies to the right."""
    hollow = Cubic(
        Point(-60, 36), Point(-20, -12), Point(20, -12), Point(60, 36)
    )  # B(t) = (120t − 60, …): the parabola
    with pytest.raises(TooTight) as told:
        parallel_of_cubic(hollow.reversed(), 50)
    assert told.value.radius == pytest.approx(50, rel=1e-6)
    assert (told.value.point.x, told.value.point.y) == (pytest.approx(0, abs=1e-3), pytest.approx(0, abs=1e-6))
    assert worst_error(hollow.reversed(), 49.5, parallel_of_cubic(hollow.reversed(), 49.5)) <= WITHIN
    assert worst_error(hollow, 200, parallel_of_cubic(hollow, 200)) <= WITHIN


def test_an_arc_tighter_than_its_allowance_is_told() -> None:
    hollow = arc(Point(0, 0), 8, math.pi, -math.pi)
    with pytest.raises(TooTight) as told:
        parallel_of(hollow, 8, Point(0, 1), Point(0, -1))
    assert told.value.radius == pytest.approx(8)
    assert (told.value.point.x, told.value.point.y) == (pytest.approx(0, abs=1e-9), pytest.approx(8))


def test_a_cusp_and_a_turn_back_are_too_tight_for_anything() -> None:
    cusp = Cubic(Point(0, 0), Point(100, 100), Point(0, 100), Point(100, 0))  # both handles' lines cross: B′(½) = 0
    back = Cubic(Point(0, 0), Point(130, 0), Point(-30, 0), Point(100, 0))
    for curve in (cusp, back):
        with pytest.raises(TooTight) as told:
            parallel_of_cubic(curve, 0.5)
        assert told.value.radius < 1e-6


def test_a_straight_cubic_has_a_straight_parallel() -> None:
    for first, second in ((30, 60), (0, 100), (0, 0), (80, 40), (100, 100)):
        straight = Cubic(Point(0, 0), Point(first, 0), Point(second, 0), Point(100, 0))
        parallel = parallel_of(straight, 10, Point(1, 0), Point(1, 0))
        assert parallel.segments == (Line(Point(0, -10), Point(100, -10)),)


@pytest.mark.parametrize("by", [3, 10, 25])
def test_a_handle_left_out_gives_a_parallel_without_a_fold(by: float) -> None:
    """Where a handle stands on its end the radius there is nought; the fold of the parallel is some hundredths of a mm."""
    for first, second in (
        (Point(0, 0), Point(60, 40)),
        (Point(40, -40), Point(100, 0)),
        (Point(0, 1e-7), Point(60, 40)),
    ):
        curve = Cubic(Point(0, 0), first, second, Point(100, 0))
        enters, leaves = (first if first.length > 1 else second).unit(), (Point(100, 0) - second)
        leaves = leaves.unit() if leaves.length > 1 else (Point(100, 0) - first).unit()
        for one, way_in, way_out in ((curve, enters, leaves), (curve.reversed(), -leaves, -enters)):
            parallel = parallel_of(one, by, way_in, way_out)
            assert LineString(coordinates(parallel)).is_simple
            gaps = shapely.distance(
                LineString(coordinates(Path((one,)))), shapely.points(numpy.array(coordinates(parallel, 50)))
            )
            assert abs(gaps - by).max() <= 0.05


def test_what_is_no_number_is_refused_and_a_point_is_left_out() -> None:
    corner = Point(50, 0)
    speck = Cubic(corner, corner, corner, corner)
    square = [Line(Point(0, 0), corner), speck, Line(corner, Point(50, 50)), Line(Point(50, 50), Point(0, 0))]
    cut, parts = offset_outline([(Path((edge,)), 5.0) for edge in square])
    assert parts[1].segments == ()
    assert signed_area(cut) == pytest.approx(
        area_of(offset_outline([(Path((one,)), 5.0) for one in square if one is not speck])[0]).area
    )
    lost = Cubic(corner, Point(math.nan, 0), corner, Point(50, 50))
    with pytest.raises(ValueError, match="no number"):
        offset_outline([(Path((square[0], lost, square[3])), 5.0)])


def test_a_circle_drawn_as_cubics_has_a_circle_for_its_parallel() -> None:
    """Four cubics with the usual handles, 0.5522847498 of the radius: within 0.03 % of the circle."""
    handle = 0.5522847498 * 50
    quarter = Cubic(Point(50, 0), Point(50, handle), Point(handle, 50), Point(0, 50))
    ring = Path(tuple(mapped(quarter, lambda spot, by=by: spot.turned(by * math.pi / 2)) for by in range(4)))
    for by in (1, 10, 100):
        cut, _ = offset_outline([(ring, by)])
        assert cut.closed
        gone = [math.hypot(x, y) for x, y in coordinates(cut, 200)]
        assert max(gone) <= 50 * 1.0003 + by + WITHIN
        assert min(gone) >= 50 + by - WITHIN
        assert all(
            first.end == second.start
            for first, second in zip(cut.segments, (*cut.segments[1:], cut.segments[0]), strict=True)
        )


def strip(edge: Path, by: float) -> Polygon:
    """All that lies within `by` to the right of an edge, square to it."""
    spots = numpy.array(coordinates(edge, 400))
    steps = numpy.gradient(spots, axis=0)
    away = by * numpy.stack([steps[:, 1], -steps[:, 0]], axis=1) / numpy.hypot(*steps.T)[:, None]
    return Polygon([*spots.tolist(), *(spots + away)[::-1].tolist()])


def grown(edges: tuple[Path, ...], by: float) -> Polygon:
    """The outline, the strips beside its edges, and the kites at its outer corners: what lies within the cut line."""
    ring = Polygon([spot for edge in edges for spot in coordinates(edge, 400)])
    assume(ring.is_valid)
    parts = [ring, *(strip(edge, by) for edge in edges)]
    assume(all(part.is_valid for part in parts))
    for edge, after in zip(edges, (*edges[1:], edges[0]), strict=True):
        corner, leaving, entering = edge.end, edge.reversed().direction_at(0) * -1, after.direction_at(0)
        turned = math.atan2(leaving.cross(entering), leaving.dot(entering))
        assume(abs(turned) < 2.6)
        if turned > 0:
            tip = corner + (leaving.right() + entering.right()).unit() * (by / math.cos(turned / 2))
            kite = (corner, corner + leaving.right() * by, tip, corner + entering.right() * by)
            parts.append(Polygon([(spot.x, spot.y) for spot in kite]))
    whole = shapely.union_all([part.buffer(1e-6) for part in parts])
    assume(isinstance(whole, Polygon) and not whole.interiors)
    return whole


@settings(deadline=None, max_examples=60)
@given(curved_outlines(), st.floats(1, 12))
def test_an_even_cut_line_is_the_outline_grown(edges: tuple[Path, ...], by: float) -> None:
    wanted = grown(edges, by)
    try:
        cut, parts = offset_outline([(edge, by) for edge in edges], mitre_limit=20)
    except TooTight:
        return
    assert_closed(cut)
    assert cut.length == pytest.approx(sum(part.length for part in parts))
    ours = area_of(cut, 200)
    assume(ours.is_valid)  # two corners nearer to each other than the allowance: the cut line's crossing is a finding
    assert ours.symmetric_difference(wanted).area <= 0.012 * wanted.length
    assert abs(signed_area(cut)) == pytest.approx(ours.area, rel=1e-4)


def assert_closed(path: Path) -> None:
    for first, second in zip(path.segments, (*path.segments[1:], path.segments[0]), strict=True):
        assert apart(first.end, second.start) < 1e-6


@settings(deadline=None, max_examples=60)
@given(curved_outlines(), st.data())
def test_each_edge_keeps_its_own_allowance(edges: tuple[Path, ...], data: st.DataObject) -> None:
    """Nothing of the polygon nor of the strips beside its edges is missing, and beyond them there are only mitres."""
    widths = [data.draw(st.sampled_from((0.0, 3.0, 6.0, 10.0))) for _ in edges]
    ring = Polygon([spot for edge in edges for spot in coordinates(edge, 400)])
    assume(ring.is_valid)
    try:
        cut, _ = offset_outline(list(zip(edges, widths, strict=True)))
    except TooTight:
        return
    assert_closed(cut)
    ours = area_of(cut, 200)
    assume(ours.is_valid)
    strips = [strip(edge, width) for edge, width in zip(edges, widths, strict=True) if width]
    assume(all(one.is_valid for one in strips))
    whole = shapely.union_all([ring, *strips])
    missing, beyond = whole.difference(ours), ours.difference(whole.buffer(0.02))
    corners = shapely.union_all(
        [shapely.Point(edge.start.x, edge.start.y).buffer(4.02 * max(widths)) for edge in edges]
    )
    assert missing.area <= 0.02 * cut.length
    assert beyond.difference(corners).area <= 0.02 * cut.length


@settings(deadline=None, max_examples=40)
@given(curved_outlines(), st.floats(1, 10), st.floats(0, 2 * math.pi))
def test_turned_and_turned_over_outlines_have_the_same_cut_line(
    edges: tuple[Path, ...], by: float, angle: float
) -> None:
    try:
        cut, _ = offset_outline([(edge, by) for edge in edges])
    except TooTight:
        return
    turned = [Path(tuple(mapped(one, lambda spot: spot.turned(angle)) for one in edge.segments)) for edge in edges]
    over = [Path(tuple(mirrored(one).reversed() for one in reversed(edge.segments))) for edge in reversed(edges)]
    for other in (turned, over):
        same, _ = offset_outline([(edge, by) for edge in other])
        assert same.length == pytest.approx(cut.length, abs=0.05)
        assert signed_area(same) == pytest.approx(signed_area(cut), abs=0.005 * cut.length)


@settings(deadline=None, max_examples=30)
@given(curved_outlines(), st.floats(1, 6), st.floats(1, 6))
def test_the_cut_line_of_a_cut_line(edges: tuple[Path, ...], first: float, second: float) -> None:
    """Offset by one distance and then by another: the same as by both at once."""
    grown(edges, first + second)
    try:
        cut, _ = offset_outline([(edge, first) for edge in edges], mitre_limit=20)
        twice, _ = offset_outline([(cut, second)], mitre_limit=20)
        once, _ = offset_outline([(edge, first + second) for edge in edges], mitre_limit=20)
    except TooTight:
        return
    ours, wanted = area_of(twice, 100), area_of(once, 100)
    assume(ours.is_valid and wanted.is_valid)
    assert ours.symmetric_difference(wanted).area <= 0.025 * wanted.length


def test_a_short_curve_beside_a_hollow_corner_is_passed_over() -> None:
    """A hollow square corner with curves of 4 mm beside it: at 10 mm both are gone, and the lines behind them meet."""
    bend = Cubic(Point(46, 50), Point(47, 50), Point(49, 50), Point(50, 50))
    fall = Cubic(Point(50, 50), Point(50, 51), Point(50.02, 53), Point(50.02, 54))
    ring = Path(
        (
            Line(Point(0, 0), Point(100, 0)),
            Line(Point(100, 0), Point(100, 100)),
            Line(Point(100, 100), Point(50.02, 100)),
            Line(Point(50.02, 100), Point(50.02, 54)),
            fall.reversed(),
            bend.reversed(),
            Line(Point(46, 50), Point(0, 50)),
            Line(Point(0, 50), Point(0, 0)),
        )
    )
    cut, _ = offset_outline([(ring, 10.0)])
    assert area_of(cut).is_valid
    # 120 × 70 with a tower of 69.98 × 50 on it.
    assert signed_area(cut) == pytest.approx(120 * 70 + 69.98 * 50)


def test_lines_and_arcs_alone_are_offset_exactly() -> None:
    lens = Path((Arc(Point(0, 0), Point(60, 0), Point(30, 40), 2 * math.asin(0.6)), Line(Point(60, 0), Point(0, 0))))
    cut, _ = offset_outline([(lens, 10.0)])
    arcs = [one for one in cut.segments if isinstance(one, Arc)]
    assert [one.radius for one in arcs] == [pytest.approx(60)]
    assert all(math.dist((spot.x, spot.y), (30, 40)) == pytest.approx(60) for spot in followed(arcs[0], 20))
