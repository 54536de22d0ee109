"""How a cubic turns: its end tangents, where it is tightest on one side, its point nearest to another."""

import math

import numpy

from publisher.geometry.points import Point
from publisher.geometry.segments import Cubic, Segment

COINCIDE = 1e-9
_PARTS = numpy.linspace(0, 1, 65)
# The Bernstein polynomials at 65 parameters: times the control points, the samples.
_SAMPLES = numpy.stack(
    [(1 - _PARTS) ** 3, 3 * (1 - _PARTS) ** 2 * _PARTS, 3 * (1 - _PARTS) * _PARTS**2, _PARTS**3], axis=1
)


def first_direction(segment: Segment) -> Point:
    """The unit tangent at the start; without a handle there, towards the next control point that differs."""
    if isinstance(segment, Cubic):
        for handle in (segment.first_handle, segment.second_handle):
            if (handle - segment.start).length > COINCIDE:
                return (handle - segment.start).unit()
        return (segment.end - segment.start).unit()
    return segment.direction_at(0.0)


def last_direction(segment: Segment) -> Point:
    """The unit tangent at the end; without a handle there, from the last control point that differs."""
    return -first_direction(segment.reversed()) if isinstance(segment, Cubic) else segment.direction_at(segment.length)


def turning_at(cubic: Cubic, part: float) -> float:
    """Speed and its change crossed, B′ × B″: positive where the curve turns to the left. Curvature is this by |B′|³."""
    return cubic.speed_at(part).cross(_change_at(cubic, part))


def curvature_at(cubic: Cubic, part: float) -> float:
    """One by the radius, positive to the left; endless where the curve stands still."""
    speed = cubic.speed_at(part).length
    turning = turning_at(cubic, part)
    return turning / speed**3 if speed > COINCIDE else math.copysign(math.inf, turning)


def _change_at(cubic: Cubic, part: float) -> Point:
    first = cubic.second_handle - cubic.first_handle * 2 + cubic.start
    second = cubic.end - cubic.second_handle * 2 + cubic.first_handle
    return first * (6 * (1 - part)) + second * (6 * part)


def tightest_right(cubic: Cubic, wide: float) -> tuple[float, float] | None:
    """Where a cubic turns to the right most tightly, if with a radius of `wide` or less: the radius, and the parameter.

    The extremes of curvature are the roots of c′·|B′|² − 3·c·(B′·B″) with c = B′ × B″, of the fifth degree.
    A cusp is a radius of nought. An end without a handle is left out: the radius goes to nought there by definition.
    """
    a, b, c = (
        cubic.first_handle - cubic.start,
        cubic.second_handle - cubic.first_handle,
        cubic.end - cubic.second_handle,
    )
    # Both in Bernstein form, where the least coefficient bounds the polynomial from below.
    turns = (a.cross(b), a.cross(c) / 2, b.cross(c))
    speeds = (a.dot(a), a.dot(b), (2 * b.dot(b) + a.dot(c)) / 3, b.dot(c), c.dot(c))
    slowest = min(speeds)
    # κ = 18·turns / (9·speeds)^1.5, so that κ·wide > −1 everywhere is turns·wide·(2 / 3) > −speeds^1.5.
    if slowest > 0 and min(turns) * wide * (2 / 3) > -(slowest**1.5):
        return None
    tight: tuple[float, float] | None = None
    size = max(a.length, b.length, c.length)
    for part in (0.0, 1.0, *_extremes(a, b, c)):
        speed = cubic.speed_at(part).length
        inner = 1e-6 < part < 1 - 1e-6
        if speed < 1e-7 * size:
            if not inner:
                continue
            return 0.0, part
        curvature = turning_at(cubic, part) / speed**3
        if curvature * wide <= -(1 - 1e-6) and (tight is None or -1 / curvature < tight[0]):
            tight = -1 / curvature, part
    return tight


def _extremes(a: Point, b: Point, c: Point) -> list[float]:
    """The parameters between 0 and 1 where curvature is greatest or least; a, b, c are the control polygon's steps."""
    # B′/3 = a + 2(b − a)t + (a − 2b + c)t², highest power first, as numpy's polynomials are.
    dx = numpy.array([a.x - 2 * b.x + c.x, 2 * (b.x - a.x), a.x])
    dy = numpy.array([a.y - 2 * b.y + c.y, 2 * (b.y - a.y), a.y])
    ddx, ddy = dx[:2] * (2, 1), dy[:2] * (2, 1)
    turn = (numpy.convolve(dx, ddy) - numpy.convolve(dy, ddx))[1:]  # the third powers are alike
    speed = numpy.convolve(dx, dx) + numpy.convolve(dy, dy)
    along = numpy.convolve(dx, ddx) + numpy.convolve(dy, ddy)
    quintic = numpy.convolve(turn[:2] * (2, 1), speed) - 3 * numpy.convolve(turn, along)
    # Where a curve stands still is a threefold root of the quintic, told badly, but a single one of B′·B″.
    roots = [*_roots(quintic, 1e-3), *_roots(along, 1e-3)]
    return sorted(root for root in roots if 0 < root < 1)


def _roots(polynomial: numpy.ndarray, slack: float) -> list[float]:
    """The real roots, and those that rounding has parted into pairs a little beside the real line."""
    scale = numpy.abs(polynomial).max()
    if scale == 0:
        return []
    plain = numpy.where(numpy.abs(polynomial) < 1e-14 * scale, 0.0, polynomial)
    return [float(root.real) for root in numpy.roots(plain) if abs(root.imag) < slack]


def foot_on(cubic: Cubic, point: Point) -> tuple[float, float]:
    """The parameter of a cubic's point nearest to another, and the gap: each near sample of 64, then Newton's steps."""
    spots = _SAMPLES @ numpy.array(
        [(one.x, one.y) for one in (cubic.start, cubic.first_handle, cubic.second_handle, cubic.end)]
    )
    gaps = numpy.hypot(spots[:, 0] - point.x, spots[:, 1] - point.y)
    fenced = numpy.concatenate([gaps[:1], gaps, gaps[-1:]])
    lows = [int(at) for at in numpy.flatnonzero((gaps <= fenced[:-2]) & (gaps <= fenced[2:]))]
    feet = [_foot_near(cubic, point, at) for at in sorted(lows, key=lambda at: float(gaps[at]))[:3]]
    return min(((part, (cubic.at(part) - point).length) for part in feet), key=lambda foot: foot[1])


def _foot_near(cubic: Cubic, point: Point, sample: int) -> float:
    """The parameter between a sample's neighbours where the way to the point is square to the curve."""
    low, high = max(sample - 1, 0) / 64, min(sample + 1, 64) / 64
    part = sample / 64
    for _ in range(60):
        away, speed = cubic.at(part) - point, cubic.speed_at(part)
        slope = away.dot(speed)
        low, high = (low, part) if slope > 0 else (part, high)
        steep = speed.dot(speed) + away.dot(_change_at(cubic, part))
        wanted = part - slope / steep if steep > 0 else math.nan
        step = (wanted if low <= wanted <= high else (low + high) / 2) - part
        part += step
        if abs(step) < 1e-15:
            break
    return min((part, sample / 64), key=lambda one: (cubic.at(one) - point).length)
