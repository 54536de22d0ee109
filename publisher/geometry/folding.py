"""Corners where cloth is folded: a hem that lies edge on edge once it is turned, and cloth that is cut on its fold."""

from publisher.frozen import dataclass
from publisher.geometry.curvature import first_direction, last_direction
from publisher.geometry.meeting import intersections, lines_meet
from publisher.geometry.points import Point
from publisher.geometry.runs import Joint, Reach, Run
from publisher.geometry.segments import Line, Segment

NEAR = 1e-7
LEAST_TURN = 0.25  # sine of the angle between both edges below which the corner would be longer than a mitre may be


@dataclass(frozen=True, slots=True)
class FoldedBack:
    """Which side of a corner is folded, and the widths of its layers from the finished line outwards, mm."""

    first: bool
    layers: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class OnFold:
    """Which side of a corner is the fold of the cloth: straight, and with no allowance."""

    first: bool


def on_fold(first: Run, second: Run, fold: OnFold) -> Joint | None:
    """The joint where the other cut line ends on the fold, in its straight run; None where it does not reach it."""
    corner = first.last.end
    along, outwards = (
        (last_direction(first.last), -first_direction(second.first))
        if fold.first
        else (first_direction(second.first), last_direction(first.last))
    )
    reach = to_the_line(second if fold.first else first, corner, along, outwards, fold.first)
    if reach is None:
        return None
    on_the_fold = Reach(reach.point, None)
    return Joint(on_the_fold, (), reach) if fold.first else Joint(reach, (), on_the_fold)


def folded_back(first: Run, second: Run, fold: FoldedBack) -> Joint | None:
    """The joint of a convex corner of which one edge is folded; None where both are square or a fold does not reach.

    Each layer is the mirror image of the one before over the line between them, so that the neighbour's cut line runs
    in a zigzag which closes on itself when the layers are turned. Exact between straight edges; beside a curve the
    corner follows its end tangent.
    """
    leaving, entering = last_direction(first.last), first_direction(second.first)
    corner = first.last.end
    along, outwards = (leaving, -entering) if fold.first else (entering, leaving)
    side = second if fold.first else first
    normal = along.right()
    if abs(outwards.dot(along)) < NEAR or outwards.dot(normal) < LEAST_TURN:
        return None
    at_fold = to_the_line(side, corner, along, outwards, fold.first)
    if at_fold is None:
        return None
    turns, spot, way = [], at_fold.point, outwards
    for layer in fold.layers:
        way = way - along * (2 * way.dot(along))
        turns.append(spot := spot + way * (layer / way.dot(normal)))
    outer = _on_the_parallel(first if fold.first else second, turns, fold.first)
    if outer is None:
        return None
    between = tuple(turns[:-1])
    return Joint(outer, between[::-1], at_fold) if fold.first else Joint(at_fold, between, outer)


def to_the_line(side: Run, corner: Point, along: Point, outwards: Point, begins: bool) -> Reach | None:
    """Where a run meets the line of its neighbour at their corner: straight on, or shortened to it.

    `along` is the line's direction, `outwards` that of the run's edge away from the piece; it `begins` at the corner or
    ends there. None where it does not reach.
    """
    end = side.start if begins else side.end
    meets = lines_meet(end, outwards, corner, along)
    if meets is not None and (meets - end).dot(outwards) >= -NEAR:
        return Reach(meets, None)
    last = 0 if begins else len(side.pieces) - 1
    segment = side.pieces[last].segment
    reach = along * (segment.length + side.by)
    return _nearest(segment, Line(corner - reach, corner + reach), corner, last)


def _on_the_parallel(folded: Run, turns: list[Point], ends: bool) -> Reach | None:
    """Where the last layer's side meets the folded edge's own cut line."""
    last = len(folded.pieces) - 1 if ends else 0
    segment = folded.pieces[last].segment
    tip = turns[-1]
    end, way = (folded.end, last_direction(segment)) if ends else (folded.start, -first_direction(segment))
    if isinstance(segment, Line) or (tip - end).dot(way) >= -NEAR:
        return Reach(tip, None)
    return None


def _nearest(segment: Segment, probe: Line, corner: Point, at: int) -> Reach | None:
    spots = intersections(segment, probe)
    if not spots:
        return None
    return Reach(min(spots, key=lambda spot: (spot - corner).length), at)
