"""Lengths, parallels and drawing of curves, against closed formulas and against sums of chords."""

import itertools
import math

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from shapely import LineString, MultiPoint

from publisher.geometry import Arc, Cubic, Line, Path, Point, Segment, arc_by_height, arc_by_radius, as_cubics, nearest
from tests.geometry.curves import (
    apart,
    arc,
    arcs,
    bezier,
    coordinates,
    cubics,
    followed,
    paths,
    places,
    segments,
    wild_cubics,
)

ORIGIN = Point(0, 0)


@given(arcs())
def test_an_arc_is_as_long_as_its_angle_times_its_radius(curve: Arc) -> None:
    chords = sum(itertools.starmap(apart, itertools.pairwise(followed(curve, 4000))))
    assert curve.length == pytest.approx(chords, rel=1e-6)  # chords of 4000: shorter by x²/24, x ≤ 2π/4000


@pytest.mark.parametrize(
    ("radius", "degrees", "length"),
    [(10, 90, 15.707963), (10, 360, 62.831853), (25.4, 180, 79.796453), (57.29577951308232, 1, 1.0)],
)
def test_arc_lengths_on_paper(radius: float, degrees: float, length: float) -> None:
    assert arc(ORIGIN, radius, 0.3, math.radians(degrees)).length == pytest.approx(length, abs=1e-6)
    assert arc(ORIGIN, radius, 0.3, -math.radians(degrees)).length == pytest.approx(length, abs=1e-6)


@settings(deadline=None, max_examples=50)
@example(Cubic(Point(11, 0), ORIGIN, ORIGIN, Point(12, 0)))  # turns back at x = 2.871: 8.129 + 9.129 = 17.258
@given(wild_cubics())
def test_a_cubic_is_longer_than_its_chords_and_shorter_than_its_control_polygons(curve: Cubic) -> None:
    parts = _halved(curve, 11)
    shortest = sum(apart(part[0], part[3]) for part in parts)
    longest = sum(itertools.starmap(apart, (pair for part in parts for pair in itertools.pairwise(part))))
    assert longest - shortest < 5e-3
    assert shortest - 1e-6 <= curve.length <= longest + 1e-6


def _halved(curve: Cubic, times: int) -> list[tuple[Point, Point, Point, Point]]:
    """The control polygons of 2 ** times parts, by de Casteljau at the middle."""
    parts = [(curve.start, curve.first_handle, curve.second_handle, curve.end)]
    for _ in range(times):
        halves = []
        for a, b, c, d in parts:
            ab, bc, cd = (a + b) * 0.5, (b + c) * 0.5, (c + d) * 0.5
            abc, bcd = (ab + bc) * 0.5, (bc + cd) * 0.5
            middle = (abc + bcd) * 0.5
            halves += [(a, ab, abc, middle), (middle, bcd, cd, d)]
        parts = halves
    return parts


@given(st.floats(1, 300), st.floats(0.1, 300))
def test_a_parabola_written_as_a_cubic_has_the_length_of_a_parabola(width: float, height: float) -> None:
    """Arc length of y = h(1 − (2x/w)²): √(w²/4 + 4h²) + w²/(8h)·asinh(4h/w) (any table of integrals, halved and doubled)."""
    tip = Point(width / 2, 2 * height)  # the handle of the quadratic; a third of the way to it stand the cubic's
    end = Point(width, 0)
    curve = Cubic(ORIGIN, ORIGIN + tip * (2 / 3), end + (tip - end) * (2 / 3), end)
    wanted = math.sqrt(width**2 / 4 + 4 * height**2) + width**2 / (8 * height) * math.asinh(4 * height / width)
    assert curve.length == pytest.approx(wanted, abs=1e-6)


def test_a_straight_cubic_is_as_long_as_its_chord() -> None:
    assert Cubic(ORIGIN, Point(1, 1), Point(2, 2), Point(3, 3)).length == pytest.approx(math.sqrt(18))
    there_and_back = Cubic(ORIGIN, Point(30, 0), Point(30, 0), ORIGIN)  # x = 90·t(1 − t), its turn at 22.5
    assert there_and_back.length == pytest.approx(45)


@given(arcs())
def test_an_arc_drawn_as_cubics_stays_within_four_millionths_of_its_radius(curve: Arc) -> None:
    """The worst of 45° is 4.218·10⁻⁶ of the radius: 0.0013 mm at 300 mm."""
    drawn = as_cubics(curve)
    assert len(drawn) == max(math.ceil(abs(curve.sweep) / (math.pi / 4) - 1e-9), 1)
    assert (drawn[0].start, drawn[-1].end) == (curve.start, curve.end)
    assert all(first.end == second.start for first, second in itertools.pairwise(drawn))
    turned = 0.0
    for cubic in drawn:
        assert isinstance(cubic, Cubic)
        spots = [bezier(cubic, at / 100) - curve.centre for at in range(101)]
        for spot in spots:
            assert abs(spot.length - curve.radius) <= 4.25e-6 * curve.radius + 1e-9
        turned += sum(math.atan2(a.cross(b), a.dot(b)) for a, b in itertools.pairwise(spots))
    assert turned == pytest.approx(curve.sweep, abs=1e-6)


def test_what_is_no_arc_is_drawn_as_it_is() -> None:
    line, cubic = Line(ORIGIN, Point(1, 2)), Cubic(ORIGIN, Point(1, 2), Point(3, 4), Point(5, 5))
    assert as_cubics(line) == (line,)
    assert as_cubics(cubic) == (cubic,)


@given(places, st.floats(0, 2 * math.pi), st.floats(2, 300), st.floats(0.5, 3.0), st.booleans())
def test_an_arc_by_its_radius_and_one_by_its_height_meet_both_ends(
    start: Point, angle: float, chord: float, slackness: float, bulge_right: bool
) -> None:
    end = start + Point(math.cos(angle), math.sin(angle)) * chord
    radius = chord / 2 * (1 + slackness)
    low = radius - math.sqrt(radius**2 - chord**2 / 4)
    for curve in (arc_by_radius(start, end, radius, bulge_right), arc_by_height(start, end, low, bulge_right)):
        assert apart(curve.centre, start) == pytest.approx(radius, rel=1e-6)
        assert apart(curve.centre, end) == pytest.approx(radius, rel=1e-6)
        assert abs(curve.sweep) < math.pi
        middle = followed(curve, 2)[1]
        aside = (end - start).unit().cross(middle - start)  # positive: to the left of the way
        assert aside == pytest.approx(-low if bulge_right else low, rel=1e-6)


def test_an_arc_higher_than_its_radius_goes_the_long_way_round() -> None:
    """Chord 8, height 8: r = (16 + 64) / 16 = 5, the centre 3 above the chord."""
    curve = arc_by_height(ORIGIN, Point(8, 0), 8, bulge_right=True)
    assert (curve.centre.x, curve.centre.y) == (pytest.approx(4), pytest.approx(-3))
    assert curve.length == pytest.approx(5 * (2 * math.pi - 2 * math.atan2(4, 3)))
    assert curve.box.bottom == pytest.approx(-8)


@pytest.mark.parametrize("radius", [4.999, 0, -5])
def test_a_radius_that_does_not_reach_is_refused(radius: float) -> None:
    with pytest.raises(ValueError, match="does not reach over a chord of 10 mm"):
        arc_by_radius(ORIGIN, Point(10, 0), radius, bulge_right=True)


def test_an_arc_of_no_height_is_refused() -> None:
    with pytest.raises(ValueError, match="no arc"):
        arc_by_height(ORIGIN, Point(10, 0), 0, bulge_right=True)


@settings(deadline=None)
@given(st.one_of(segments, wild_cubics()))
def test_the_box_holds_the_curve_and_no_more(segment: Segment) -> None:
    spots = MultiPoint([(spot.x, spot.y) for spot in followed(segment, 4000)])
    box = segment.box
    assert (box.left, box.bottom, box.right, box.top) == pytest.approx(spots.bounds, abs=2e-3)
    assert box.left <= spots.bounds[0] + 1e-9
    assert box.top >= spots.bounds[3] - 1e-9


@given(st.one_of(arcs(), cubics(), wild_cubics()), st.floats(0.005, 5))
def test_chords_lie_as_near_to_the_curve_as_was_asked(curve: Arc | Cubic, tolerance: float) -> None:
    flat = LineString(curve.spots(tolerance))
    exact = MultiPoint([(spot.x, spot.y) for spot in followed(curve, 500)])
    assert max(flat.distance(spot) for spot in exact.geoms) <= tolerance + 1e-9


@settings(deadline=None, max_examples=15)
@given(paths(), places)
def test_the_nearest_point_is_as_near_as_any(path: Path, spot: Point) -> None:
    along, found, gap = nearest(path, spot)
    assert apart(found, spot) == pytest.approx(gap)
    assert apart(path.point_at(along), found) < 1e-4
    sampled = min(math.dist(at, (spot.x, spot.y)) for at in _evenly(path))
    assert gap <= sampled + 1e-6


def _evenly(path: Path) -> list[tuple[float, float]]:
    """Spots on the path itself: one between two of them, on the chord, would lie off a curve."""
    return list(coordinates(path, 200))
