"""Where lines and circles meet, and segments of any kind."""

import math

from publisher.geometry.curve_meeting import curves_meet
from publisher.geometry.points import Point
from publisher.geometry.segments import Arc, Cubic, Line, Segment


def lines_meet(start: Point, along: Point, other: Point, across: Point) -> Point | None:
    """Where two endless lines meet, each given by a point and a unit direction; None for parallels."""
    crossing = along.cross(across)
    if abs(crossing) < 1e-12:
        return None
    return start + along * ((other - start).cross(across) / crossing)


def line_meets_circle(start: Point, along: Point, centre: Point, radius: float) -> tuple[Point, ...]:
    """Where an endless line (unit direction) meets a circle: none, one or two points."""
    foot = start + along * (centre - start).dot(along)
    reach = radius**2 - (centre - foot).dot(centre - foot)
    if reach < -1e-9 * radius:
        return ()
    half = math.sqrt(max(reach, 0.0))
    return (foot,) if half < 1e-12 else (foot + along * half, foot - along * half)


def circles_meet(first: Point, first_radius: float, second: Point, second_radius: float) -> tuple[Point, ...]:
    """Where two circles meet: none, one or two points."""
    apart = (second - first).length
    if apart < 1e-12:
        return ()
    along = (apart**2 + first_radius**2 - second_radius**2) / (2 * apart)
    reach = first_radius**2 - along**2
    if reach < -1e-9 * first_radius:
        return ()
    way = (second - first).unit()
    foot, half = first + way * along, math.sqrt(max(reach, 0.0))
    return (foot,) if half < 1e-12 else (foot + way.left() * half, foot - way.left() * half)


def carriers_meet(first: Line | Arc, second: Line | Arc) -> tuple[Point, ...]:
    """Where the endless line or whole circle of each meets the other's."""
    if isinstance(first, Line) and isinstance(second, Line):
        spot = lines_meet(first.start, first.direction_at(0), second.start, second.direction_at(0))
        return (spot,) if spot else ()
    if isinstance(first, Line):
        assert isinstance(second, Arc)
        return line_meets_circle(first.start, first.direction_at(0), second.centre, second.radius)
    if isinstance(second, Line):
        return line_meets_circle(second.start, second.direction_at(0), first.centre, first.radius)
    return circles_meet(first.centre, first.radius, second.centre, second.radius)


def lies_on(segment: Line | Arc, point: Point, slack: float = 1e-6) -> bool:
    """True when a point of the carrier lies between the segment's ends."""
    if isinstance(segment, Line):
        distance = (point - segment.start).dot(segment.direction_at(0))
        return -slack <= distance <= segment.length + slack
    away = point - segment.centre
    if min((point - segment.start).length, (point - segment.end).length) <= slack:
        return True
    return segment.angle_within(math.atan2(away.y, away.x)) is not None


def intersections(first: Segment, second: Segment) -> tuple[Point, ...]:
    """Where two segments meet. Stretches that they share are no meeting."""
    if isinstance(first, Cubic) or isinstance(second, Cubic):
        return curves_meet(first, second)
    return tuple(spot for spot in carriers_meet(first, second) if lies_on(first, spot) and lies_on(second, spot))
