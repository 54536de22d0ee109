"""Lengths along cubics against scipy's quadrature, with curves that nearly stand still among them; nearest points."""

import itertools
import math
import random
from collections.abc import Iterator

import numpy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from shapely import LineString
from shapely import Point as Spot

from publisher.geometry import Cubic, Path, Point, nearest
from tests.geometry.curves import apart, bezier, cubics, followed, places, wild_cubics


def many_cubics() -> Iterator[Cubic]:
    """500 of them; of every fourth the handles cross so that it nearly has a cusp, by a millimetre to 10⁻¹² of one."""
    chance = random.Random(500)
    for at in range(500):
        if at % 4:
            yield Cubic(*(Point(chance.uniform(-300, 300), chance.uniform(-300, 300)) for _ in range(4)))
        else:
            off = 10 ** chance.uniform(-12, 0) * chance.choice((1, -1))
            turned = chance.uniform(0, 2 * math.pi)
            spots = (Point(0, 0), Point(100 + off, 100), Point(0, 100), Point(100, 0))
            yield Cubic(*(spot.turned(turned) for spot in spots))


def length_by_scipy(cubic: Cubic, end: float = 1.0) -> float:
    """The integral of the speed, in stretches between the parameters where it is least."""
    spots = [numpy.array([one.x, one.y]) for one in (cubic.start, cubic.first_handle, cubic.second_handle, cubic.end)]
    a, b, c = (3 * (second - first) for first, second in itertools.pairwise(spots))
    x, y = (numpy.polynomial.Polynomial([p, 2 * (q - p), p - 2 * q + r]) for p, q, r in zip(a, b, c, strict=True))
    still = (x * x + y * y).deriv().roots()
    inner = sorted(float(root.real) for root in still if abs(root.imag) < 1e-6 and 0 < root.real < end)

    def speed(part: float) -> float:
        return math.hypot(x(part), y(part))

    stretches = itertools.pairwise([0.0, *inner, end])
    return sum(quad(speed, low, high, epsabs=1e-10, epsrel=1e-10, limit=300)[0] for low, high in stretches)


def test_500_cubics_are_as_long_as_scipy_says() -> None:
    worst = max(abs(cubic.length / length_by_scipy(cubic) - 1) for cubic in many_cubics())
    assert worst <= 1e-6  # promised; measured 10⁻¹⁰


@settings(deadline=None, max_examples=60)
@given(st.one_of(cubics(), wild_cubics()), st.floats(0.001, 0.999))
def test_a_point_so_far_along_is_so_far_along(cubic: Cubic, part: float) -> None:
    along = cubic.length * part
    parameter = cubic.parameter_at(along)
    assert length_by_scipy(cubic, parameter) == pytest.approx(along, abs=1e-6)
    assert apart(cubic.point_at(along), bezier(cubic, parameter)) < 1e-9


def test_halfway_along_a_curve_that_nearly_turns_back() -> None:
    """It is its own mirror image but for 10⁻⁹ mm, so that its middle is the near cusp."""
    cubic = Cubic(Point(0, 0), Point(100 + 1e-9, 100), Point(0, 100), Point(100, 0))
    assert cubic.parameter_at(cubic.length / 2) == pytest.approx(0.5, abs=1e-3)
    assert cubic.parameter_at(cubic.length / 3) + cubic.parameter_at(cubic.length * 2 / 3) == pytest.approx(1, abs=1e-6)


@settings(deadline=None, max_examples=60)
@given(st.one_of(cubics(), wild_cubics()), places)
def test_the_nearest_point_of_a_curve_is_as_near_as_its_chords(cubic: Cubic, spot: Point) -> None:
    along, found, gap = nearest(Path((cubic,)), spot)
    chords = LineString([(one.x, one.y) for one in followed(cubic, 4000)])
    assert gap == pytest.approx(chords.distance(Spot(spot.x, spot.y)), abs=1e-3)
    assert apart(found, spot) == pytest.approx(gap)
    assert apart(cubic.point_at(along), found) < 1e-6
