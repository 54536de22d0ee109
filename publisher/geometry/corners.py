"""Corners made round, or cut off."""

import itertools
import math
from typing import TypeVar, cast

from publisher.geometry.curvature import curvature_at, first_direction, last_direction
from publisher.geometry.curve_meeting import spot_at
from publisher.geometry.meeting import carriers_meet, lies_on
from publisher.geometry.points import Point
from publisher.geometry.segments import Arc, Cubic, Line, Segment
from publisher.geometry.trimming import beginning_at, ending_at, sideways

First = TypeVar("First", bound=Segment)
Second = TypeVar("Second", bound=Segment)
STEPS = 64  # in which the parallels of two edges are followed to find where they come to cross


def round_corner(first: First, second: Second, radius: float) -> tuple[First, Arc, Second]:
    """Two segments that meet at a corner, shortened, and the arc of `radius` that touches both.

    The centre is where both parallels at the radius meet, on the inner side of the turn. Raises ValueError where
    the arc would touch beyond an end.
    """
    if radius <= 0:
        raise ValueError(f"a radius of {radius:.4g} mm rounds nothing")
    turn = last_direction(first).cross(first_direction(second))
    if abs(turn) < 1e-9:
        raise ValueError("the edges run on smoothly, there is no corner")
    inner = -radius if turn > 0 else radius
    if isinstance(first, Cubic) or isinstance(second, Cubic):
        centre, touch_first, touch_second = _touching_curves(first, second, inner)
    else:
        centre, touch_first, touch_second = _touching(first, second, inner)
    start, end = touch_first - centre, touch_second - centre
    sweep = math.atan2(start.cross(end), start.dot(end))
    return (
        cast(First, ending_at(first, touch_first)),
        Arc(touch_first, touch_second, centre, sweep),
        cast(Second, beginning_at(second, touch_second)),
    )


def cut_corner(first: First, second: Second, distance: float) -> tuple[First, Line, Second]:
    """Two segments that meet at a corner, each shorter by `distance` along it, and the straight line between.

    Raises ValueError where an edge is not longer than that.
    """
    if distance <= 0:
        raise ValueError(f"a distance of {distance:.4g} mm cuts nothing off")
    for segment in (first, second):
        if segment.length <= distance:
            raise ValueError(f"it takes {distance:.4g} mm of an edge that is {segment.length:.4g} mm long")
    kept, rest = first.split(first.length - distance)[0], second.split(distance)[1]
    return cast(First, kept), Line(kept.end, rest.start), cast(Second, rest)


def cut_out_corner(first: Segment, second: Segment, distance: float) -> tuple[Line, tuple[Line, Line], Line]:
    """Two straight lines that meet at a corner, each shorter by `distance`, and the two lines between them, each
    parallel to one of them, which take a square out of a right corner and a rhombus out of any other.

    Raises ValueError where an edge is bent, or not longer than that.
    """
    if not isinstance(first, Line) or not isinstance(second, Line):
        raise ValueError("a square is cut out between straight edges, and one of these is curved")
    if abs(first.direction_at(0.0).cross(second.direction_at(0.0))) < 1e-9:
        raise ValueError("the edges run on straight, there is no corner")
    kept, across, rest = cut_corner(first, second, distance)
    inner = across.start + (across.end - first.end)
    return kept, (Line(across.start, inner), Line(inner, across.end)), rest


def _touching(first: Line | Arc, second: Line | Arc, inner: float) -> tuple[Point, Point, Point]:
    """The centre, and where the arc touches both."""
    carriers = [cast(Line | Arc, sideways(one, inner)[0]) for one in (first, second)]
    centres = carriers_meet(*carriers)
    if not centres:
        raise ValueError("no arc of that radius touches both edges")
    centre = min(centres, key=lambda spot: (spot - first.end).length)
    touches = _foot(first, centre), _foot(second, centre)
    for segment, touch in zip((first, second), touches, strict=True):
        if not lies_on(segment, touch):
            needed = (touch - first.end).length
            raise ValueError(f"it takes {needed:.4g} mm of an edge that is {segment.length:.4g} mm long")
    return centre, *touches


def _foot(segment: Line | Arc, point: Point) -> Point:
    """The point of the segment's carrier nearest to `point`."""
    if isinstance(segment, Line):
        along = segment.direction_at(0)
        return segment.start + along * (point - segment.start).dot(along)
    return segment.centre + (point - segment.centre).unit() * segment.radius


def _touching_curves(first: Segment, second: Segment, inner: float) -> tuple[Point, Point, Point]:
    """The same where a cubic is among them: both exact parallels are followed until they cross, then Newton's steps."""
    centres = []
    for part, along in _crossing_steps(first, second, inner):
        spots = _centre(first, second, inner, part, along)
        if spots is not None:
            centres.append(spots)
    if not centres:
        raise ValueError(
            f"an arc of {abs(inner):.4g} mm does not touch both edges, "
            f"which are {first.length:.4g} mm and {second.length:.4g} mm long"
        )
    return min(centres, key=lambda spots: (spots[0] - first.end).length)


def _beside(segment: Segment, part: float, by: float) -> tuple[Point, Point] | None:
    """The point of the exact parallel at a parameter, and the derivative there; None where the curve stands still."""
    spot, speed = spot_at(segment, part)
    if speed.length < 1e-9:
        return None
    if isinstance(segment, Cubic):
        curvature = curvature_at(segment, part)
    else:
        curvature = 0.0 if isinstance(segment, Line) else math.copysign(1 / segment.radius, segment.sweep)
    return spot + speed.unit().right() * by, speed * (1 + curvature * by)


def _crossing_steps(first: Segment, second: Segment, inner: float) -> list[tuple[float, float]]:
    """Parameters on both near which the chords of their parallels cross."""
    parts = [at / STEPS for at in range(STEPS + 1)]
    chains = [
        [(part, beside[0]) for part in parts if (beside := _beside(segment, part, inner)) is not None]
        for segment in (first, second)
    ]
    found = []
    for (part, start), (next_part, end) in itertools.pairwise(chains[0]):
        way = end - start
        sides = [way.cross(spot - start) for _, spot in chains[1]]
        for at, ((along, one), (next_along, other)) in enumerate(itertools.pairwise(chains[1])):
            across = other - one
            if sides[at] * sides[at + 1] > 0 or across.cross(start - one) * across.cross(end - one) > 0:
                continue
            found.append(((part + next_part) / 2, (along + next_along) / 2))
    return found


def _centre(
    first: Segment, second: Segment, inner: float, part: float, along: float
) -> tuple[Point, Point, Point] | None:
    """Where both parallels cross, and the feet on both segments; None where a foot leaves its segment."""
    for _ in range(40):
        beside, other = _beside(first, part, inner), _beside(second, along, inner)
        if beside is None or other is None:
            return None
        (here, speed), (there, pace) = beside, other
        gap, steep = there - here, speed.cross(pace)
        if gap.length < 1e-10:
            break
        if steep == 0:
            return None
        part = min(max(part + gap.cross(pace) / steep, 0.0), 1.0)
        along = min(max(along + gap.cross(speed) / steep, 0.0), 1.0)
    if gap.length > 1e-7:
        return None
    return here, spot_at(first, part)[0], spot_at(second, along)[0]
