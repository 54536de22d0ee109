"""Segments shortened, lengthened and moved sideways."""

import math
from dataclasses import replace

from publisher.geometry.curvature import foot_on
from publisher.geometry.curve_offsets import TooTight, cleaned, parallel_of_cubic
from publisher.geometry.points import Point
from publisher.geometry.segments import Arc, Cubic, Line, Segment


def sideways(segment: Segment, by: float) -> tuple[Segment, ...]:
    """The parallel, `by` to the right of the way: exact for lines and arcs, a few cubics for a cleaned cubic.

    Raises TooTight where a curve would vanish or fold.
    """
    if by == 0:
        return (segment,)
    if isinstance(segment, Line):
        shift = segment.direction_at(0).right() * by
        return (Line(segment.start + shift, segment.end + shift),)
    if isinstance(segment, Cubic):
        return parallel_of_cubic(segment, by)
    grown = segment.radius + (by if segment.sweep > 0 else -by)
    if grown <= 1e-9:
        raise TooTight(segment.radius, by, segment.point_at(segment.length / 2))
    factor, centre = grown / segment.radius, segment.centre
    return (
        Arc(
            centre + (segment.start - centre) * factor, centre + (segment.end - centre) * factor, centre, segment.sweep
        ),
    )


def without_specks(segment: Segment) -> Segment | None:
    """The segment as it can be offset: a cubic without specks of handles, or as a line; None for a cubic that is a point."""
    return cleaned(segment) if isinstance(segment, Cubic) else segment


def ending_at(segment: Segment, point: Point) -> Segment:
    """The segment with its end moved along its carrier to `point`; a cubic can only be shortened."""
    if point == segment.end:
        return segment
    if isinstance(segment, Line):
        return Line(segment.start, point)
    if isinstance(segment, Arc):
        return Arc(segment.start, point, segment.centre, _sweep_to(segment, point))
    return with_end(segment.split_at(foot_on(segment, point)[0])[0], point)


def beginning_at(segment: Segment, point: Point) -> Segment:
    """The segment with its start moved along its carrier to `point`; a cubic can only be shortened."""
    if point == segment.start:
        return segment
    if isinstance(segment, Line):
        return Line(point, segment.end)
    return ending_at(segment.reversed(), point).reversed()


def with_end(cubic: Cubic, point: Point) -> Cubic:
    """The cubic with its end, and the handle there, shifted a little to lie exactly on a point."""
    return replace(cubic, second_handle=cubic.second_handle + (point - cubic.end), end=point)


def with_start(cubic: Cubic, point: Point) -> Cubic:
    """The cubic with its start, and the handle there, shifted a little to lie exactly on a point."""
    return replace(cubic, start=point, first_handle=cubic.first_handle + (point - cubic.start))


def _sweep_to(arc: Arc, point: Point) -> float:
    away = point - arc.centre
    turned = (math.atan2(away.y, away.x) - arc.start_angle) % (2 * math.pi)
    if arc.sweep < 0:
        turned -= 2 * math.pi
    if abs(turned) > 2 * math.pi - 1e-9:
        turned = 0.0
    return turned
