"""Smooth curves through points, circles and ellipses, as arcs and cubics."""

import itertools
import math
from collections.abc import Sequence

import numpy

from publisher.geometry.paths import Path
from publisher.geometry.points import Point
from publisher.geometry.segments import Arc, Cubic

ELLIPSE = 5e-4  # mm; how far the cubics of an ellipse may lie from it
NEAR = 1e-6


def smooth_curve(points: Sequence[Point], leaving: Point | None = None, arriving: Point | None = None) -> Path:
    """The cubic spline through two points or more, one cubic between each two, turning without a jump of curvature.

    Its knots lie as the square roots of the distances (centripetal), so that uneven points make no loops. Where no
    direction is given for an end, the curve ends straight there (natural). Raises ValueError for points on one spot.
    """
    steps = _steps(points)
    if not steps:
        raise ValueError("a curve needs two points or more")
    count = len(points)
    matrix, wanted = _inner_rows(points, steps)
    first, last = steps[0], steps[-1]
    # An end without a direction has no second derivative there: 2·v₀ + v₁ = 3·(p₁ − p₀) / h.
    matrix[0, :2] = (1, 0) if leaving else (2, 1)
    matrix[count - 1, count - 2 :] = (0, 1) if arriving else (1, 2)
    towards = leaving.unit() * first if leaving else (points[1] - points[0]) * (3 / first)
    onwards = arriving.unit() * last if arriving else (points[-1] - points[-2]) * (3 / last)
    wanted[0], wanted[count - 1] = (towards.x, towards.y), (onwards.x, onwards.y)
    return _through(points, steps, numpy.linalg.solve(matrix, wanted))


def smooth_ring(points: Sequence[Point]) -> Path:
    """The closed cubic spline through three points or more and back to the first, as smooth there as anywhere."""
    if len(points) < 3:
        raise ValueError("a closed curve needs three points or more")
    ring = (*points, points[0])
    steps = _steps(ring)
    count = len(points)
    matrix, wanted = _inner_rows((points[-1], *ring), [steps[-1], *steps])
    rows = numpy.zeros((count, count))
    for at in range(count):
        for beside in (-1, 0, 1):
            rows[at, (at + beside) % count] += matrix[at + 1, at + 1 + beside]
    speeds = numpy.linalg.solve(rows, wanted[1 : count + 1])
    return _through(ring, steps, numpy.vstack([speeds, speeds[:1]]))


def _steps(points: Sequence[Point]) -> list[float]:
    gaps = [(second - first).length for first, second in itertools.pairwise(points)]
    for at, gap in enumerate(gaps):
        if gap < NEAR:
            spot = points[at]
            raise ValueError(f"two points that follow each other lie on one spot, x {spot.x:.4g} mm, y {spot.y:.4g} mm")
    return [math.sqrt(gap) for gap in gaps]


def _inner_rows(points: Sequence[Point], steps: Sequence[float]) -> tuple[numpy.ndarray, numpy.ndarray]:
    """The equations of the speeds at all points but the ends: the second derivative is the same on both sides.

    v₋/h₋ + 2·v·(1/h₋ + 1/h) + v₊/h = 3·((p − p₋)/h₋² + (p₊ − p)/h²).
    """
    count = len(points)
    matrix, wanted = numpy.zeros((count, count)), numpy.zeros((count, 2))
    for at in range(1, count - 1):
        before, after = steps[at - 1], steps[at]
        matrix[at, at - 1 : at + 2] = 1 / before, 2 * (1 / before + 1 / after), 1 / after
        sum_of = (points[at] - points[at - 1]) * (3 / before**2) + (points[at + 1] - points[at]) * (3 / after**2)
        wanted[at] = sum_of.x, sum_of.y
    return matrix, wanted


def _through(points: Sequence[Point], steps: Sequence[float], speeds: numpy.ndarray) -> Path:
    """Hermite's form as Bézier's: each handle a third of the step along the speed."""
    ways = [Point(float(x), float(y)) for x, y in speeds]
    return Path(
        tuple(
            Cubic(start, start + ways[at] * (step / 3), end - ways[at + 1] * (step / 3), end)
            for at, (start, end, step) in enumerate(zip(points, points[1:], steps, strict=False))
        )
    )


def circle(centre: Point, radius: float, start_angle: float = 0.0) -> Path:
    """A whole circle as two arcs, counter-clockwise from an angle in radians. Raises ValueError without a radius."""
    if radius <= 0:
        raise ValueError(f"a circle of {radius:.4g} mm radius is none")
    away = Point(math.cos(start_angle), math.sin(start_angle)) * radius
    start, half = centre + away, centre - away
    return Path((Arc(start, half, centre, math.pi), Arc(half, start, centre, math.pi)))


def ellipse(centre: Point, half_width: float, half_height: float, turned: float = 0.0) -> Path:
    """A whole ellipse, counter-clockwise from the end of its width, as cubics within 0.0005 mm; a circle as arcs.

    `turned`: the angle of its width to the right, radians.
    """
    if half_width == half_height:
        return circle(centre, half_width, turned)
    path = ellipse_arc(centre, half_width, half_height, 0.0, 2 * math.pi, turned)
    *kept, last = path.segments
    assert isinstance(last, Cubic)
    return Path((*kept, Cubic(last.start, last.first_handle, last.second_handle, path.start)))


def ellipse_arc(
    centre: Point, half_width: float, half_height: float, start_angle: float, sweep: float, turned: float = 0.0
) -> Path:
    """A stretch of an ellipse from an angle (radians) through a sweep, counter-clockwise if positive.

    Angles are those of the circle that is pressed into the ellipse: quarter turns lie at the ends of width and height.
    Raises ValueError for no width, no height or no sweep.
    """
    if min(half_width, half_height) <= 0 or not 0 < abs(sweep) <= 2 * math.pi + 1e-9:
        raise ValueError("an ellipse has a width, a height, and at most one turn")
    # A circle's arc of 45° as a cubic lies 4.25·10⁻⁶ of its radius away, and less by the sixth power of the angle.
    most = math.pi / 4 * min((ELLIPSE / (4.25e-6 * max(half_width, half_height))) ** (1 / 6), 1.0)
    count = max(math.ceil(abs(sweep) / most - 1e-9), 1)
    handle = 4 / 3 * math.tan(sweep / count / 4)

    def pressed(x: float, y: float) -> Point:
        return centre + Point(x * half_width, y * half_height).turned(turned)

    cubics: list[Cubic] = []
    for at in range(count):
        (c, s), (d, t) = (
            (math.cos(angle), math.sin(angle))
            for angle in (start_angle + sweep * at / count, start_angle + sweep * (at + 1) / count)
        )
        start = cubics[-1].end if cubics else pressed(c, s)
        cubics.append(
            Cubic(
                start, pressed(c - handle * s, s + handle * c), pressed(d + handle * t, t - handle * d), pressed(d, t)
            )
        )
    return Path(tuple(cubics))
