"""The parallel of one cubic as few cubics. The one door to kurbopy."""

import itertools
import math
from dataclasses import replace

from publisher.geometry.curvature import first_direction, last_direction, tightest_right, turning_at
from publisher.geometry.points import Point
from publisher.geometry.segments import Cubic, Line

# mm; the library was measured to overstep it by up to a fifth. The second is for a curve that takes many cubics.
TOLERANCES = (0.0046, 0.0075)
FEW = 8
SHORT = 1e-3  # mm; a handle shorter than this bends nothing that can be seen
STRAIGHT = 1e-6  # mm
HIDDEN = 0.2  # mm; a fold of the parallel no longer than this, at an end without a handle, is left out
MANY = 32  # more cubics than this for one mean that the library has lost its way


class TooTight(ValueError):
    """A curve whose inside is too tight for the offset."""

    def __init__(self, radius: float, by: float, point: Point) -> None:
        super().__init__(
            f"a curve of {radius:.4g} mm radius near x {point.x:.4g} mm, y {point.y:.4g} mm "
            f"is too tight for an allowance of {by:.4g} mm"
        )
        self.radius, self.by, self.point = radius, by, point


def cleaned(cubic: Cubic) -> Cubic | Line | None:
    """The same curve without handles that are too short to see; a line if it is straight, None if it is a point.

    Raises ValueError for what is no number.
    """
    start, first, second, end = cubic.start, cubic.first_handle, cubic.second_handle, cubic.end
    if not all(math.isfinite(number) for one in (start, first, second, end) for number in (one.x, one.y)):
        raise ValueError("a curve has a coordinate that is no number")
    if max((one - start).length for one in (first, second, end)) <= STRAIGHT:
        return None
    first = start if (first - start).length <= SHORT else first
    second = end if (second - end).length <= SHORT else second
    chord = end - start
    if chord.length > STRAIGHT:
        way = chord.unit()
        if max(abs(way.cross(first - start)), abs(way.cross(second - start))) <= STRAIGHT and _runs_on(
            way.dot(first - start), way.dot(second - start), chord.length
        ):
            return Line(start, end)
    return Cubic(start, first, second, end)


def _runs_on(first: float, second: float, whole: float) -> bool:
    """True when a straight cubic with handles so far along never turns back."""
    a, b, c = first, second - first, whole - second
    bend = a - 2 * b + c
    spots = (0.0, 1.0, min(max((a - b) / bend, 0.0), 1.0) if bend else 0.0)
    return all(a * (1 - at) ** 2 + 2 * b * at * (1 - at) + c * at**2 >= -1e-9 * whole for at in spots)


def parallel_of_cubic(cubic: Cubic, by: float) -> tuple[Cubic, ...]:
    """The parallel `by` to the right of the way of a cleaned cubic, within about 0.005 mm, and always 0.01 mm.

    Raises TooTight where it turns to the right with a radius of `by` or less.
    """
    begun = _without_tight_start(cubic, by)
    kept = _without_tight_start(begun.reversed(), by, on_left=True).reversed()
    tight = tightest_right(kept, by)
    if tight is not None:
        raise TooTight(tight[0], by, kept.at(tight[1]))
    return _fitted(kept, by)


def _without_tight_start(cubic: Cubic, by: float, on_left: bool = False) -> Cubic:
    """The cubic less the stretch at its start where the radius grows from nought, as it does where there is no handle.

    Its parallel would fold back there. Raises TooTight where the fold is large enough to see.
    """
    if (cubic.first_handle - cubic.start).length > SHORT:
        return cubic
    side = -1.0 if on_left else 1.0

    def room(part: float) -> float:
        # |B′|³ · (1 + κ · by), kept a little above nought.
        return 0.95 * cubic.speed_at(part).length ** 3 + side * by * turning_at(cubic, part)

    low, high = 1e-9, 1e-5
    if side * turning_at(cubic, high) >= 0 or room(high) > 0:
        return cubic
    while room(high) <= 0:
        low, high = high, 2 * high
        if high > 0.25:
            raise TooTight(0.0, by, cubic.start)
    for _ in range(30):
        middle = (low + high) / 2
        low, high = (low, middle) if room(middle) > 0 else (middle, high)
    begun, turned = cubic.split_at(high)[1], cubic.speed_at(high).unit()
    angle = abs(math.asin(max(-1.0, min(1.0, first_direction(cubic).cross(turned)))))
    if by * angle - (begun.start - cubic.start).length > HIDDEN:
        raise TooTight(0.0, by, cubic.start)
    return begun


def _fitted(cubic: Cubic, by: float, depth: int = 0) -> tuple[Cubic, ...]:
    """What the library makes of it, its ends exact; in halves where it makes nothing sensible."""
    import kurbopy  # it brings fontTools along: a pattern without curves has no need of either

    corners = [kurbopy.Point(one.x, one.y) for one in (cubic.start, cubic.first_handle, cubic.second_handle, cubic.end)]
    for tolerance in TOLERANCES:
        drawn = kurbopy.offset_cubic(kurbopy.CubicBez(*corners), -by, tolerance).segments()
        found = [Cubic(*(Point(one.x, one.y) for one in (part.p0, part.p1, part.p2, part.p3))) for part in drawn]
        if len(found) <= FEW:
            break
    start = cubic.start + first_direction(cubic).right() * by
    end = cubic.end + last_direction(cubic).right() * by
    if not _sensible(found, start, end) and depth < 8:
        first, second = cubic.split_at(0.5)
        return _fitted(first, by, depth + 1) + _fitted(second, by, depth + 1)
    found[0] = replace(found[0], start=start)
    found[-1] = replace(found[-1], end=end)
    return tuple(found)


def _sensible(found: list[Cubic], start: Point, end: Point) -> bool:
    """True for a few cubics without a gap from one point to the other; never where one is no number."""
    if not 0 < len(found) <= MANY:
        return False
    gaps = [(found[0].start - start).length, (found[-1].end - end).length]
    gaps += [(second.start - first.end).length for first, second in itertools.pairwise(found)]
    return all(gap < 1e-6 for gap in gaps)
