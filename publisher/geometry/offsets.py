"""The parallel of a closed outline, each edge at a distance of its own: the cut line of a piece."""

import itertools
from collections.abc import Iterator, Mapping, Sequence

from publisher.geometry.corner_cuts import Bevelled, Squared, bevelled, squared
from publisher.geometry.curvature import first_direction, last_direction
from publisher.geometry.folding import FoldedBack, OnFold, folded_back, on_fold
from publisher.geometry.meeting import carriers_meet, intersections, lines_meet
from publisher.geometry.paths import Path
from publisher.geometry.points import Point
from publisher.geometry.runs import Joint, Piece, Reach, Run, drawn, runs_of, smooth
from publisher.geometry.segments import Cubic, Line, Segment

NEAR = 1e-7

CornerCut = FoldedBack | OnFold | Squared | Bevelled  # of a corner that is not mitred


def offset_outline(
    edges: Sequence[tuple[Path, float]],
    mitre_limit: float = 4.0,
    corners: Mapping[int, CornerCut] | None = None,
    inwards: bool = False,
) -> tuple[Path, tuple[Path, ...]]:
    """The closed parallel outside a counter-clockwise outline, and each edge's own stretch of it.

    Lines and arcs move exactly, a cubic becomes a few within 0.01 mm of its parallel. Corners are mitred by the end
    tangents, up to `mitre_limit` times the wider distance, and cut square there; concave corners are trimmed where the
    parallels meet; where a distance changes along a smooth run, the line steps out square. Distances are 0 or more.
    `corners` tells which are cut otherwise, or lie on the fold of the cloth, by the edge that begins there.
    Of a clockwise outline, read `inwards`, it is the line inside, whose own parallel outside is the outline again: then a
    trimmed corner is where the parallels meet, straight on if need be.
    An edge of which nothing is left has no segments. Raises TooTight, and ValueError for a coordinate that is no number.
    """
    at_stretch = [at for at, (path, _) in enumerate(edges) for _ in path.segments]
    pieces = _pieces(runs_of(edges), mitre_limit, at_stretch, corners or {}, inwards)
    parts: list[Path] = []
    begins = 0
    for path, _ in edges:
        ends = begins + len(path.segments)
        parts.append(Path(tuple(one.segment for one in pieces if begins <= one.stretch < ends)))
        begins = ends
    return Path(tuple(segment for part in parts for segment in part.segments)), tuple(parts)


def _pieces(
    runs: tuple[Run, ...],
    mitre_limit: float,
    at_stretch: Sequence[int],
    corners: Mapping[int, CornerCut],
    inwards: bool,
) -> list[Piece]:
    """All pieces in the order of the outline's own stretches; `at_stretch` has each stretch's edge."""
    if len(runs) == 1 and smooth(runs[0].last, runs[0].first):
        return list(runs[0].pieces)
    joints: list[Joint] = []
    for first, second in zip(runs, (*runs[1:], runs[0]), strict=True):
        edge = at_stretch[second.pieces[0].stretch]
        begins = edge != at_stretch[first.pieces[-1].stretch]
        joints.append(_join(first, second, mitre_limit, corners.get(edge) if begins else None, inwards))
    pieces: list[Piece] = []
    for at, run in enumerate(runs):
        before, after = joints[at - 1], joints[at]
        pieces += drawn(run, before.start, after.end)
        spots = (after.end.point, *after.between, after.start.point)
        pieces += [Piece(pieces[-1].stretch, Line(one, other)) for one, other in itertools.pairwise(spots)]
    # The first run may begin within the outline's first edge, so that the last one ends there.
    return sorted((one for one in pieces if not _speck(one.segment)), key=lambda one: one.stretch)


def _speck(segment: Segment) -> bool:
    if isinstance(segment, Cubic):
        return max((spot - segment.start).length for spot in (segment.second_handle, segment.end)) <= NEAR
    return segment.length <= NEAR


def _join(first: Run, second: Run, mitre_limit: float, cut: CornerCut | None, inwards: bool) -> Joint:
    leaving, entering = last_direction(first.last), first_direction(second.first)
    if smooth(first.last, second.first):
        return _as_they_are(first, second)
    if isinstance(cut, OnFold):
        joint = on_fold(first, second, cut)
        if joint is not None:
            return joint
    if leaving.cross(entering) < 0:
        met = _met_straight_on(first, second, mitre_limit) if inwards else None
        return met or _concave(first, second)
    return _as_asked(first, second, cut) or _convex(first, second, leaving, entering, mitre_limit)


def _as_asked(first: Run, second: Run, cut: CornerCut | None) -> Joint | None:
    """The joint of a convex corner that is cut otherwise than with a mitre."""
    match cut:
        case FoldedBack():
            return folded_back(first, second, cut)
        case Squared():
            return squared(first, second, cut)
        case Bevelled():
            return bevelled(first, second)
    return None


def _as_they_are(first: Run, second: Run) -> Joint:
    return Joint(Reach(first.end, len(first.pieces) - 1), (), Reach(second.start, 0))


def _met_straight_on(first: Run, second: Run, mitre_limit: float) -> Joint | None:
    """Where the parallels of a corner that is seen from inside meet once one of them runs straight on: at a flat corner
    between different distances the farther one ends before it meets the other. None where both meet as they are."""
    limit, last = mitre_limit * max(first.by, second.by), len(first.pieces) - 1
    ahead = Line(first.end, first.end + last_direction(first.last) * limit)
    spots = intersections(ahead, second.pieces[0].segment)
    if spots:
        spot = min(spots, key=lambda found: (found - first.end).length)
        return Joint(Reach(spot, None), (), Reach(spot, 0))
    behind = Line(second.start - first_direction(second.first) * limit, second.start)
    spots = intersections(behind, first.pieces[last].segment)
    if spots:
        spot = min(spots, key=lambda found: (found - second.start).length)
        return Joint(Reach(spot, last), (), Reach(spot, None))
    return None


def _concave(first: Run, second: Run) -> Joint:
    """Both parallels trimmed where they meet nearest to the corner; of different distances that never meet, a step."""
    corner, last = first.last.end, len(first.pieces) - 1
    if (first.end - second.start).length <= NEAR:
        return _as_they_are(first, second)
    for rank in _ranks(len(first.pieces), len(second.pieces)):
        meetings = [
            (spot, one, other)
            for one, other in rank
            if first is not second or last - one > other
            for spot in intersections(first.pieces[last - one].segment, second.pieces[other].segment)
        ]
        if meetings:
            spot, one, other = min(meetings, key=lambda meeting: (meeting[0] - corner).length)
            return Joint(Reach(spot, last - one), (), Reach(spot, other))
    one_end, other_start = first.pieces[-1].segment, second.pieces[0].segment
    if isinstance(one_end, Cubic) or isinstance(other_start, Cubic) or abs(first.by - second.by) > NEAR:
        return _as_they_are(first, second)
    spots = carriers_meet(one_end, other_start)
    if not spots:
        return _as_they_are(first, second)
    spot = min(spots, key=lambda found: (found - corner).length)
    return Joint(Reach(spot, last), (), Reach(spot, 0))


def _ranks(first: int, second: int) -> Iterator[list[tuple[int, int]]]:
    """Pairs of pieces by how many lie between them and the corner: those next to it, then one further on, and so on."""
    for rank in range(first + second - 1):
        yield [(one, rank - one) for one in range(rank + 1) if one < first and rank - one < second]


def _convex(first: Run, second: Run, leaving: Point, entering: Point, mitre_limit: float) -> Joint:
    """Both parallels run on straight until they meet; over the limit they are cut square, or the wide one keeps its width."""
    corner = first.last.end
    limit = mitre_limit * max(first.by, second.by)
    tip = lines_meet(first.end, leaving, second.start, entering)
    if tip is not None and _runs_on(tip, first.end, leaving) and _runs_on(tip, second.start, -entering):
        if (tip - corner).length <= limit + NEAR:
            return _straight_on(tip, tip)
        if abs(first.by - second.by) < NEAR:
            return _clipped(corner, tip, limit, (first.end, leaving), (second.start, entering))
    return _stepped(first, second, leaving, entering)


def _straight_on(end: Point, start: Point) -> Joint:
    return Joint(Reach(end, None), (), Reach(start, None))


def _runs_on(tip: Point, end: Point, way: Point) -> bool:
    return (tip - end).dot(way) >= -NEAR


def _clipped(corner: Point, tip: Point, limit: float, first: tuple[Point, Point], second: tuple[Point, Point]) -> Joint:
    """A sharp corner cut square to its bisector at the limit."""
    way = (tip - corner).unit()
    cut = corner + way * limit
    from_first = lines_meet(*first, cut, way.left())
    to_second = lines_meet(*second, cut, way.left())
    if from_first is None or to_second is None:
        return _straight_on(tip, tip)
    return _straight_on(from_first, to_second)


def _stepped(first: Run, second: Run, leaving: Point, entering: Point) -> Joint:
    """The narrow line runs to the wide edge's normal at the corner, then out along it: nothing of the wide one is lost."""
    as_they_are = _as_they_are(first, second)
    if first.by >= second.by:
        meets = lines_meet(second.start, entering, first.last.end, leaving.right())
        if meets is None or (meets - second.start).dot(entering) > NEAR or meets == second.start:
            return as_they_are
        return Joint(as_they_are.end, (), Reach(meets, None))
    meets = lines_meet(first.end, leaving, second.first.start, entering.right())
    if meets is None or (meets - first.end).dot(leaving) < -NEAR or meets == first.end:
        return as_they_are
    return Joint(Reach(meets, None), (), as_they_are.start)
