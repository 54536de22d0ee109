"""Convex corners of a cut line on request: squared to one of both edges, or bevelled."""

from publisher.frozen import dataclass
from publisher.geometry.curvature import first_direction, last_direction
from publisher.geometry.folding import to_the_line
from publisher.geometry.meeting import lines_meet
from publisher.geometry.points import Point
from publisher.geometry.runs import Joint, Reach, Run

NEAR = 1e-7
LEAST_TURN = 0.25  # sine of the angle between both edges below which the corner would be longer than a mitre may be


@dataclass(frozen=True, slots=True)
class Squared:
    """One edge's line runs on through the other's allowance, and its own allowance ends square to it there."""

    first: bool  # it is the edge before the corner


@dataclass(frozen=True, slots=True)
class Bevelled:
    """The tip is cut off square to the line from the corner to it, as far from the corner as the wider allowance."""


def squared(first: Run, second: Run, cut: Squared) -> Joint | None:
    """The joint; None where the edges run on too straight, or the other's cut line does not reach the line."""
    leaving, entering = last_direction(first.last), first_direction(second.first)
    along, outwards = (leaving, -entering) if cut.first else (entering, leaving)
    if outwards.dot(along.right()) < LEAST_TURN:
        return None
    end = to_the_line(second if cut.first else first, first.last.end, along, outwards, cut.first)
    if end is None:
        return None
    own = Reach(end.point + along.right() * (first.by if cut.first else second.by), None)
    return Joint(own, (), end) if cut.first else Joint(end, (), own)


def bevelled(first: Run, second: Run) -> Joint | None:
    """The joint; None where a mitre reaches no further than the wider allowance anyhow."""
    corner, reach = first.last.end, max(first.by, second.by)
    leaving, entering = last_direction(first.last), first_direction(second.first)
    tip = lines_meet(first.end, leaving, second.start, entering)
    if tip is None or (tip - corner).length <= reach + NEAR:
        return None
    way = (tip - corner).unit()
    cut = corner + way * reach
    ends = [
        lines_meet(spot, along, cut, way.left()) for spot, along in ((first.end, leaving), (second.start, entering))
    ]
    if ends[0] is None or ends[1] is None or not _ahead(ends[0], ends[1], first, second):
        return None
    return Joint(Reach(ends[0], None), (), Reach(ends[1], None))


def _ahead(end: Point, start: Point, first: Run, second: Run) -> bool:
    """True where both parallels still run on straight as far as the bevel."""
    on = (end - first.end).dot(last_direction(first.last)), (second.start - start).dot(first_direction(second.first))
    return min(on) >= -NEAR
