"""Where segments of any kind meet, and corners made round or cut off."""

import math

import numpy
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import LineString, distance, points
from shapely import Point as Spot

from publisher.geometry import (
    Arc,
    Cubic,
    Line,
    Path,
    Point,
    Segment,
    cut_corner,
    cut_out_corner,
    intersections,
    round_corner,
)
from tests.geometry.curves import apart, arc, arcs, cubics, followed, lines, shifted, wild_cubics

curves = st.one_of(lines(), arcs(), cubics(), wild_cubics())


def chords(segment: Segment, count: int = 3000) -> LineString:
    return LineString([(spot.x, spot.y) for spot in followed(segment, count)])


def crossings(first: Segment, second: Segment) -> list[Spot]:
    """Where their chords cross; stretches that they share are left out."""
    found = chords(first).intersection(chords(second))
    return [one for one in getattr(found, "geoms", [found]) if isinstance(one, Spot) and not one.is_empty]


def spot_on(segment: Segment, part: float) -> tuple[Point, Point]:
    """A spot on a segment, and the direction there."""
    if isinstance(segment, Line):
        return segment.start + (segment.end - segment.start) * part, (segment.end - segment.start).unit()
    spots = followed(segment, 1000)
    at = round(part * 1000)
    return spots[at], (spots[at + 1] - spots[at - 1]).unit()


@settings(deadline=None, max_examples=80)
@given(curves, curves, st.floats(0.05, 0.95), st.floats(0.05, 0.95))
def test_segments_meet_where_their_chords_cross(first: Segment, second: Segment, part: float, other: float) -> None:
    """The second is shifted so that the two have a point in common."""
    (shared, way), (spot, across) = spot_on(first, part), spot_on(second, other)
    assume(abs(way.cross(across)) > 0.05)  # where they all but touch, two meetings may be told as one
    second = shifted(second, shared - spot)
    found = intersections(first, second)
    for spot in found:
        assert chords(first).distance(Spot(spot.x, spot.y)) < 2e-2
        assert chords(second).distance(Spot(spot.x, spot.y)) < 2e-2
    wanted = crossings(first, second)
    assume(len(wanted) < 30)  # chords of the same curve
    for spot in wanted:
        # A touch may be told by chords at some distance from where the curves themselves touch.
        assert min(math.dist((one.x, one.y), (spot.x, spot.y)) for one in found) < 0.2
    assert min(apart(one, shared) for one in found) < 1e-3
    swapped = intersections(second, first)
    assert len(swapped) == len(found)
    assert all(min(apart(one, spot) for one in swapped) < 1e-3 for spot in found)


def test_a_line_that_all_but_touches_a_curve_meets_it_twice() -> None:
    """y = x² / 100 and y = h: at ±10·√h, however low the line."""
    parabola = Cubic(Point(-30, 9), Point(-10, -3), Point(10, -3), Point(30, 9))
    for height in (1e-2, 1e-3, 1e-4, 1e-6):
        half = 10 * math.sqrt(height)
        for line in (Line(Point(-40, height), Point(35, height)), Line(Point(2, height), Point(-1.5, height))):
            assert sorted(one.x for one in intersections(parabola, line)) == pytest.approx([-half, half], abs=1e-5)
            assert len(intersections(line, parabola)) == 2


def test_meetings_on_paper() -> None:
    parabola = Cubic(Point(-30, 9), Point(-10, -3), Point(10, -3), Point(30, 9))  # y = x² / 100
    flat = Line(Point(-100, 4), Point(100, 4))
    met = intersections(parabola, flat)
    assert [(one.x, one.y) for one in met] == [pytest.approx((-20, 4)), pytest.approx((20, 4))]
    # x² + (y − 4)² = 25 with x² = 100y: y² + 92y − 9 = 0.
    ring = arc(Point(0, 4), 5, 0, 2 * math.pi)
    y = -46 + math.sqrt(46**2 + 9)
    assert sorted((one.x, one.y) for one in intersections(ring, parabola)) == [
        pytest.approx((-10 * math.sqrt(y), y)),
        pytest.approx((10 * math.sqrt(y), y)),
    ]
    upside_down = Cubic(Point(-30, -1), Point(-10, 11), Point(10, 11), Point(30, -1))
    assert [(one.x, one.y) for one in intersections(parabola, upside_down)] == [
        pytest.approx((-20, 4)),
        pytest.approx((20, 4)),
    ]
    assert intersections(parabola, Line(Point(-50, -1), Point(50, -1))) == ()
    touching = intersections(parabola, Line(Point(-50, 0), Point(50, 0)))
    assert [(one.x, one.y) for one in touching] == [pytest.approx((0, 0), abs=1e-4)]
    assert intersections(parabola, parabola) == ()
    (end,) = intersections(parabola, Line(Point(30, 9), Point(40, 0)))
    assert (end.x, end.y) == pytest.approx((30, 9), abs=1e-6)


@st.composite
def corner_pairs(draw: st.DrawFn) -> tuple[Segment, Segment]:
    """Two segments that meet in a corner of 30° to 150°, one at least a gentle cubic."""
    turn = draw(st.floats(math.radians(30), math.radians(150))) * draw(st.sampled_from((1, -1)))
    heading = draw(st.floats(0, 2 * math.pi))
    first, second = draw(st.sampled_from((("cubic", "line"), ("arc", "cubic"), ("cubic", "cubic"), ("line", "cubic"))))
    corner = Point(10, -20)

    def leaving(kind: str, way: Point) -> Segment:
        bend, aside = draw(st.floats(-0.2, 0.2)), way.left()
        if kind == "line":
            return Line(corner, corner + way * 100)
        if kind == "arc":
            turn = math.copysign(0.25, bend)
            centre = corner + aside * math.copysign(400, bend)
            return Arc(corner, corner.turned(turn, centre), centre, turn)
        ends = corner + way * 70 + aside * (bend * 30), corner + way * 100 + aside * (bend * 80)
        return Cubic(corner, corner + way * 35, *ends)

    return leaving(first, Point(-math.cos(heading), -math.sin(heading))).reversed(), leaving(
        second, Point(math.cos(heading + turn), math.sin(heading + turn))
    )


@settings(deadline=None, max_examples=60)
@given(corner_pairs(), st.floats(1, 12))
def test_a_rounded_corner_touches_both_edges(corner: tuple[Segment, Segment], radius: float) -> None:
    first, second = corner
    kept, rounding, rest = round_corner(first, second, radius)
    assert kept.end == rounding.start
    assert rounding.end == rest.start
    assert (kept.start, rest.end) == (first.start, second.end)
    assert apart(rounding.centre, rounding.start) == pytest.approx(radius, abs=1e-6)
    assert apart(rounding.centre, rounding.end) == pytest.approx(radius, abs=1e-6)
    centre = Spot(rounding.centre.x, rounding.centre.y)
    for whole, part, spot in ((first, kept, rounding.start), (second, rest, rounding.end)):
        assert chords(whole).distance(Spot(spot.x, spot.y)) < 1e-3
        assert chords(whole).distance(centre) == pytest.approx(radius, abs=1e-3)  # it touches, and never crosses
        gone = distance(chords(whole), points(numpy.array(chords(part, 300).coords)))
        assert gone.max() < 1e-3
    assert kept.direction_at(kept.length).cross(rounding.direction_at(0)) == pytest.approx(0, abs=1e-5)
    assert rounding.direction_at(rounding.length).cross(rest.direction_at(0)) == pytest.approx(0, abs=1e-5)
    turn = first.direction_at(first.length).cross(second.direction_at(0))
    assert math.copysign(1, rounding.sweep) == math.copysign(1, turn)
    assert abs(rounding.sweep) < math.pi


def test_a_rounding_that_leaves_an_edge_is_refused() -> None:
    curve = Cubic(Point(-20, 4), Point(-14, 0), Point(-7, 0), Point(0, 0))
    assert round_corner(curve, Line(Point(0, 0), Point(0, 100)), 5)[1].radius == pytest.approx(5)
    with pytest.raises(ValueError, match="does not touch both edges"):
        round_corner(curve, Line(Point(0, 0), Point(0, 100)), 60)
    with pytest.raises(ValueError, match="does not touch both edges"):
        round_corner(curve, Line(Point(0, 0), Point(0, 4)), 5)
    with pytest.raises(ValueError, match="no corner"):
        round_corner(curve, Line(Point(0, 0), Point(50, 0)), 5)


@settings(deadline=None, max_examples=40)
@given(corner_pairs(), st.floats(1, 80))
def test_a_corner_is_cut_off_so_far_along_both(corner: tuple[Segment, Segment], along: float) -> None:
    first, second = corner
    kept, bevel, rest = cut_corner(first, second, along)
    assert first.length - kept.length == pytest.approx(along, abs=1e-5)
    assert second.length - rest.length == pytest.approx(along, abs=1e-5)
    assert (kept.end, rest.start) == (bevel.start, bevel.end)


def test_a_cut_longer_than_an_edge_is_refused() -> None:
    first, second = Line(Point(0, 0), Point(30, 0)), Line(Point(30, 0), Point(30, 12))
    assert cut_corner(first, second, 6)[1] == Line(Point(24, 0), Point(30, 6))
    with pytest.raises(ValueError, match="it takes 12 mm of an edge that is 12 mm long"):
        cut_corner(first, second, 12)
    with pytest.raises(ValueError, match="cuts nothing"):
        cut_corner(first, second, 0)


def test_a_square_is_cut_out_of_a_right_corner_and_a_rhombus_out_of_another() -> None:
    base, side, slant = (Line(Point(30, 0), Point(*end)) for end in ((0, 0), (30, 12), (60, 40)))
    first = Line(base.end, base.start)
    assert cut_out_corner(first, side, 5)[1] == (Line(Point(25, 0), Point(25, 5)), Line(Point(25, 5), Point(30, 5)))
    # 30 right and 40 up: 10 mm along it is 6 and 8.
    assert cut_out_corner(first, slant, 10)[1] == (Line(Point(20, 0), Point(26, 8)), Line(Point(26, 8), Point(36, 8)))
    with pytest.raises(ValueError, match="curved"):
        cut_out_corner(first, arc(Point(0, 0), 30, 0, 1.0), 4)
    with pytest.raises(ValueError, match="no corner"):
        cut_out_corner(first, Line(Point(30, 0), Point(50, 0)), 4)


def test_rounding_keeps_the_kinds_of_both_edges() -> None:
    ring = Path(round_corner(Line(Point(0, 0), Point(50, 0)), arc(Point(0, 0), 50, 0, 1.0), 4))
    assert [type(one) for one in ring.segments] == [Line, Arc, Arc]
