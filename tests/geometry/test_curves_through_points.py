"""Splines against scipy's, ellipses against their equation, arcs against the points they go through."""

import itertools
import math

import numpy
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.interpolate import CubicSpline
from scipy.special import ellipe

from publisher.geometry import (
    Arc,
    Cubic,
    Path,
    Point,
    arc_about,
    arc_about_to,
    arc_leaving,
    arc_through,
    circle,
    ellipse,
    ellipse_arc,
    signed_area,
    smooth_curve,
    smooth_ring,
)
from tests.geometry.curves import apart, bezier, coordinates, followed, places

angles = st.floats(0, 2 * math.pi)
directions = st.none() | st.builds(lambda angle: Point(math.cos(angle), math.sin(angle)), angles)


@st.composite
def spots(draw: st.DrawFn, least: int) -> list[Point]:
    """Points in a row, no two that follow each other nearer than 1 mm."""
    found = draw(st.lists(places, min_size=least, max_size=9))
    assume(all(apart(one, other) > 1 for one, other in zip(found, (*found[1:], found[0]), strict=True)))
    return found


def assert_is(path: Path, spline: CubicSpline) -> None:
    for at, cubic in enumerate(path.segments):
        assert isinstance(cubic, Cubic)
        low, high = spline.x[at], spline.x[at + 1]
        for part in (0, 0.2, 0.5, 0.9, 1):
            spot = bezier(cubic, part)
            assert (spot.x, spot.y) == pytest.approx(tuple(spline(low + part * (high - low))), abs=1e-7)


def knots_of(points: list[Point]) -> list[float]:
    return [0.0, *itertools.accumulate(math.sqrt(apart(one, other)) for one, other in itertools.pairwise(points))]


@settings(deadline=None)
@given(spots(2), directions, directions)
def test_a_curve_through_points_is_the_centripetal_spline(
    points: list[Point], leaving: Point | None, arriving: Point | None
) -> None:
    knots = knots_of(points)
    ends = [
        (2, (0.0, 0.0)) if way is None else (1, (way.x * step, way.y * step))
        for way, step in ((leaving, knots[1]), (arriving, knots[-1] - knots[-2]))
    ]
    wanted = CubicSpline(knots, [(point.x, point.y) for point in points], bc_type=tuple(ends))
    assert_is(smooth_curve(points, leaving, arriving), wanted)


@settings(deadline=None)
@given(spots(3))
def test_a_ring_through_points_is_the_periodic_spline(points: list[Point]) -> None:
    ring = [*points, points[0]]
    path = smooth_ring(points)
    assert path.closed
    assert_is(path, CubicSpline(knots_of(ring), [(point.x, point.y) for point in ring], bc_type="periodic"))


def test_points_on_one_spot_or_too_few_are_refused() -> None:
    with pytest.raises(ValueError, match="two points or more"):
        smooth_curve([Point(0, 0)])
    with pytest.raises(ValueError, match="three points"):
        smooth_ring([Point(0, 0), Point(5, 0)])
    with pytest.raises(ValueError, match="one spot, x 7 mm, y 0 mm"):
        smooth_curve([Point(0, 0), Point(7, 0), Point(7, 0)])
    with pytest.raises(ValueError, match="one spot"):
        smooth_ring([Point(0, 0), Point(7, 0), Point(7, 7), Point(0, 0)])


@settings(deadline=None, max_examples=40)
@given(places, st.floats(1, 800), st.floats(1, 800), angles)
def test_an_ellipse_lies_within_a_thousandth_of_itself(
    centre: Point, width: float, height: float, turned: float
) -> None:
    assume(abs(width - height) > 1e-6)
    path = ellipse(centre, width, height, turned)
    assert path.closed
    assert signed_area(path) == pytest.approx(math.pi * width * height, rel=1e-5)
    longer, shorter = max(width, height), min(width, height)
    assert path.length == pytest.approx(4 * longer * ellipe(1 - (shorter / longer) ** 2), rel=1e-5)
    there = numpy.array(coordinates(path, 50)) - (centre.x, centre.y)
    turn = numpy.array([[math.cos(turned), math.sin(turned)], [-math.sin(turned), math.cos(turned)]])
    x, y = turn @ there.T
    # To first order the distance is the value of the equation by the length of its gradient.
    value = (x / width) ** 2 + (y / height) ** 2 - 1
    assert (numpy.abs(value) / (2 * numpy.hypot(x / width**2, y / height**2))).max() <= 1e-3


def test_a_circle_is_arcs_and_so_is_an_ellipse_as_wide_as_high() -> None:
    for path in (circle(Point(3, 4), 25), ellipse(Point(3, 4), 25, 25)):
        assert all(isinstance(one, Arc) for one in path.segments)
        assert path.length == pytest.approx(50 * math.pi)
        assert signed_area(path) == pytest.approx(625 * math.pi)
    with pytest.raises(ValueError, match="is none"):
        circle(Point(0, 0), 0)


def test_a_quarter_of_an_ellipse() -> None:
    """From the end of its width to the end of its height, 40 and 20: on paper x²/1600 + y²/400 = 1."""
    path = ellipse_arc(Point(0, 0), 40, 20, 0, math.pi / 2)
    assert (path.start.x, path.start.y) == (40, 0)
    assert (path.end.x, path.end.y) == (pytest.approx(0), pytest.approx(20))
    back = ellipse_arc(Point(0, 0), 40, 20, math.pi / 2, -math.pi / 2)
    assert back.length == pytest.approx(path.length)
    assert path.length == pytest.approx(40 * ellipe(0.75), rel=5e-6)
    with pytest.raises(ValueError, match="a width, a height"):
        ellipse_arc(Point(0, 0), 40, 0, 0, 1)


@given(places, st.floats(2, 300), angles, st.floats(0.05, 6.2), st.floats(0.1, 0.9), st.booleans())
def test_the_same_arc_by_three_points_by_its_tangent_and_by_its_centre(
    centre: Point, radius: float, at: float, turn: float, part: float, left: bool
) -> None:
    sweep = turn if left else -turn

    def on(angle: float) -> Point:
        return centre + Point(math.cos(angle), math.sin(angle)) * radius

    start, through, end = on(at), on(at + sweep * part), on(at + sweep)
    tangent = Point(-math.sin(at), math.cos(at)) * (1 if left else -1)
    for found in (
        arc_through(start, through, end),
        arc_leaving(start, tangent, end),
        arc_about(centre, start, sweep),
        arc_about_to(centre, start, end, left),
    ):
        assert found.sweep == pytest.approx(sweep, abs=1e-5)
        assert apart(found.centre, centre) < 1e-4 * max(radius, 1)
        assert apart(found.end, end) < 1e-9
        assert apart(followed(found, 10)[5], on(at + sweep / 2)) < 1e-4 * max(radius, 1)


def test_arcs_that_cannot_be() -> None:
    with pytest.raises(ValueError, match="on one line"):
        arc_through(Point(0, 0), Point(5, 5), Point(9, 9))
    with pytest.raises(ValueError, match="straight on"):
        arc_leaving(Point(0, 0), Point(1, 1), Point(9, 9))
    with pytest.raises(ValueError, match="the start lies 5 mm from the centre and the end 6 mm"):
        arc_about_to(Point(0, 0), Point(5, 0), Point(0, 6), counter_clockwise=True)
    with pytest.raises(ValueError, match="one turn at most"):
        arc_about(Point(0, 0), Point(5, 0), 7.0)
    assert arc_about_to(Point(0, 0), Point(5, 0), Point(5, 0), counter_clockwise=False).length == pytest.approx(
        10 * math.pi
    )
