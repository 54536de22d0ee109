"""Segments shortened, lengthened and moved sideways."""

import math

from publisher.geometry.meeting import carriers_meet, lies_on
from publisher.geometry.points import Point
from publisher.geometry.segments import Arc, Line


class TooTight(ValueError):
    """A curve whose inside is too tight for the offset."""

    def __init__(self, radius: float, by: float, point: Point) -> None:
        super().__init__(
            f"a curve of {radius:.4g} mm radius near x {point.x:.4g} mm, y {point.y:.4g} mm "
            f"is too tight for an allowance of {by:.4g} mm"
        )
        self.radius, self.by, self.point = radius, by, point


def sideways(segment: Line | Arc, by: float) -> Line | Arc:
    """The exact parallel, `by` to the right of the way. Raises TooTight where an arc would vanish."""
    if by == 0:
        return segment
    if isinstance(segment, Line):
        shift = segment.direction_at(0).right() * by
        return Line(segment.start + shift, segment.end + shift)
    grown = segment.radius + (by if segment.sweep > 0 else -by)
    if grown <= 1e-9:
        raise TooTight(segment.radius, by, segment.point_at(segment.length / 2))
    factor = grown / segment.radius
    centre = segment.centre
    return Arc(
        centre + (segment.start - centre) * factor, centre + (segment.end - centre) * factor, centre, segment.sweep
    )


def ending_at(segment: Line | Arc, point: Point) -> Line | Arc:
    """The segment with its end moved along its carrier to `point`."""
    if isinstance(segment, Line):
        return Line(segment.start, point)
    return Arc(segment.start, point, segment.centre, _sweep_to(segment, point))


def beginning_at(segment: Line | Arc, point: Point) -> Line | Arc:
    """The segment with its start moved along its carrier to `point`."""
    if isinstance(segment, Line):
        return Line(point, segment.end)
    backwards = segment.reversed()
    return Arc(point, segment.end, segment.centre, -_sweep_to(backwards, point))


def _sweep_to(arc: Arc, point: Point) -> float:
    away = point - arc.centre
    turned = (math.atan2(away.y, away.x) - arc.start_angle) % (2 * math.pi)
    if arc.sweep < 0:
        turned -= 2 * math.pi
    if abs(turned) > 2 * math.pi - 1e-9:
        turned = 0.0
    return turned


def round_corner(first: Line | Arc, second: Line | Arc, radius: float) -> tuple[Line | Arc, Arc, Line | Arc]:
    """Two segments that meet at a corner, shortened, and the arc of `radius` that touches both.

    The centre is where both parallels at the radius meet, on the inner side of the turn. Raises ValueError where
    the arc would touch beyond an end.
    """
    if radius <= 0:
        raise ValueError(f"a radius of {radius:.4g} mm rounds nothing")
    turn = first.direction_at(first.length).cross(second.direction_at(0.0))
    if abs(turn) < 1e-9:
        raise ValueError("the edges run on smoothly, there is no corner")
    inner = -radius if turn > 0 else radius
    centres = carriers_meet(sideways(first, inner), sideways(second, inner))
    if not centres:
        raise ValueError("no arc of that radius touches both edges")
    centre = min(centres, key=lambda spot: (spot - first.end).length)
    touch_first, touch_second = _foot(first, centre), _foot(second, centre)
    for segment, touch in ((first, touch_first), (second, touch_second)):
        if not lies_on(segment, touch):
            needed = (touch - first.end).length
            raise ValueError(f"it takes {needed:.4g} mm of an edge that is {segment.length:.4g} mm long")
    start, end = touch_first - centre, touch_second - centre
    sweep = math.atan2(start.cross(end), start.dot(end))
    return (
        ending_at(first, touch_first),
        Arc(touch_first, touch_second, centre, sweep),
        beginning_at(second, touch_second),
    )


def _foot(segment: Line | Arc, point: Point) -> Point:
    """The point of the segment's carrier nearest to `point`."""
    if isinstance(segment, Line):
        along = segment.direction_at(0)
        return segment.start + along * (point - segment.start).dot(along)
    return segment.centre + (point - segment.centre).unit() * segment.radius
