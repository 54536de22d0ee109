"""The parallel of a closed outline, each edge at a distance of its own: the cut line of a piece."""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

from publisher.geometry.meeting import carriers_meet, lies_on, lines_meet
from publisher.geometry.paths import Path
from publisher.geometry.points import Point
from publisher.geometry.segments import Arc, Line
from publisher.geometry.trimming import beginning_at, ending_at, sideways

SMOOTH = 1e-7  # sine of the turn below which two stretches run on smoothly
NEAR = 1e-7


@dataclass(frozen=True, slots=True)
class _Stretch:
    """One segment of the outline with its parallel."""

    edge: int
    by: float
    given: Line | Arc
    parallel: Line | Arc


@dataclass(frozen=True, slots=True)
class _Joint:
    """How two parallels are joined: the first ends at `end`, then `between`, then the second begins at `start`."""

    end: Point
    between: tuple[Point, ...]
    start: Point
    extends_first: bool
    extends_second: bool


def offset_outline(edges: Sequence[tuple[Path, float]], mitre_limit: float = 4.0) -> tuple[Path, tuple[Path, ...]]:
    """The closed parallel outside a counter-clockwise outline, and each edge's own stretch of it.

    Lines and arcs move exactly. Corners are mitred by the end tangents, up to `mitre_limit` times the wider distance,
    and cut square there; concave corners are trimmed where the parallels meet; where a distance changes along a smooth
    run, the line steps out square. Distances are 0 or more. Raises TooTight, and ValueError for a cubic.
    """
    stretches = [
        _Stretch(at, by, _plain(segment), sideways(_plain(segment), by))
        for at, (path, by) in enumerate(edges)
        for segment in path.segments
    ]
    joints = [
        _join(first, second, mitre_limit)
        for first, second in zip(stretches, (*stretches[1:], stretches[0]), strict=True)
    ]
    parts: list[list[Line | Arc]] = [[] for _ in edges]
    for at, stretch in enumerate(stretches):
        parts[stretch.edge].extend(_drawn(stretch, joints[at - 1], joints[at]))
    paths = tuple(Path(tuple(part)) for part in parts)
    whole = Path(tuple(segment for path in paths for segment in path.segments))
    return whole, paths


def _plain(segment: object) -> Line | Arc:
    if isinstance(segment, Line | Arc):
        return segment
    raise ValueError("only straight lines and arcs are offset")


def _drawn(stretch: _Stretch, before: _Joint, after: _Joint) -> list[Line | Arc]:
    """The stretch's own part of the parallel: from the joint before to the joint after, and what lies between."""
    drawn: list[Line | Arc] = []
    body = stretch.parallel
    if isinstance(body, Line):
        body = Line(before.start, after.end)
    else:
        drawn += [Line(before.start, body.start)] if before.extends_second else []
        body = body if before.extends_second else beginning_at(body, before.start)
        body = body if after.extends_first else ending_at(body, after.end)
    drawn.append(body)
    if not isinstance(body, Line) and after.extends_first:
        drawn.append(Line(body.end, after.end))
    corners = (after.end, *after.between, after.start)
    drawn += [Line(first, second) for first, second in itertools.pairwise(corners)]
    return [segment for segment in drawn if segment.length > NEAR]


def _join(first: _Stretch, second: _Stretch, mitre_limit: float) -> _Joint:
    leaving = first.given.direction_at(first.given.length)
    entering = second.given.direction_at(0.0)
    turn = leaving.cross(entering)
    end, start = first.parallel.end, second.parallel.start
    if abs(turn) < SMOOTH and leaving.dot(entering) > 0:
        return _Joint(end, (), start, extends_first=False, extends_second=False)
    if turn < 0:
        return _concave(first, second, leaving, entering)
    return _convex(first, second, leaving, entering, mitre_limit)


def _concave(first: _Stretch, second: _Stretch, leaving: Point, entering: Point) -> _Joint:
    """Both parallels trimmed where they meet nearest to the corner."""
    corner = first.given.end
    spots = [
        spot
        for spot in carriers_meet(first.parallel, second.parallel)
        if lies_on(first.parallel, spot) and lies_on(second.parallel, spot)
    ] or list(carriers_meet(first.parallel, second.parallel))
    if not spots:
        end, start = first.parallel.end, second.parallel.start
        return _Joint(end, (), start, extends_first=False, extends_second=False)
    spot = min(spots, key=lambda one: (one - corner).length)
    return _Joint(spot, (), spot, extends_first=False, extends_second=False)


def _convex(first: _Stretch, second: _Stretch, leaving: Point, entering: Point, mitre_limit: float) -> _Joint:
    """Both parallels run on straight until they meet; over the limit they are cut square, or the wide one keeps its width."""
    corner = first.given.end
    end, start = first.parallel.end, second.parallel.start
    limit = mitre_limit * max(first.by, second.by)
    tip = lines_meet(end, leaving, start, entering)
    if tip is not None and _runs_on(tip, end, leaving) and _runs_on(tip, start, -entering):
        if (tip - corner).length <= limit + NEAR:
            return _Joint(tip, (), tip, extends_first=True, extends_second=True)
        if abs(first.by - second.by) < NEAR:
            return _clipped(corner, tip, limit, (end, leaving), (start, entering))
    return _stepped(first, second, leaving, entering)


def _runs_on(tip: Point, end: Point, way: Point) -> bool:
    return (tip - end).dot(way) >= -NEAR


def _clipped(
    corner: Point, tip: Point, limit: float, first: tuple[Point, Point], second: tuple[Point, Point]
) -> _Joint:
    """A sharp corner cut square to its bisector at the limit."""
    way = (tip - corner).unit()
    cut = corner + way * limit
    from_first = lines_meet(*first, cut, way.left())
    to_second = lines_meet(*second, cut, way.left())
    if from_first is None or to_second is None:
        return _Joint(tip, (), tip, extends_first=True, extends_second=True)
    return _Joint(from_first, (), to_second, extends_first=True, extends_second=True)


def _stepped(first: _Stretch, second: _Stretch, leaving: Point, entering: Point) -> _Joint:
    """The narrow line runs to the wide edge's normal at the corner, then out along it: nothing of the wide one is lost."""
    end, start = first.parallel.end, second.parallel.start
    if first.by >= second.by:
        meets = lines_meet(start, entering, first.given.end, leaving.right())
        spot = meets if meets is not None and (meets - start).dot(entering) <= NEAR else start
        return _Joint(end, (spot,) if spot != start else (), start if spot == start else spot, False, spot != start)
    meets = lines_meet(end, leaving, second.given.start, entering.right())
    spot = meets if meets is not None and (meets - end).dot(leaving) >= -NEAR else end
    return _Joint(spot, (), start, spot != end, False)
