"""Open stretches joined end to end into a ring, and ends that nearly meet brought together."""

from collections.abc import Sequence
from dataclasses import replace

from publisher.drawings.collecting import DrawnSubpath
from publisher.frozen import dataclass
from publisher.geometry import Line, Path, Point, Segment

NEAR = 0.01  # mm; ends nearer than this are one point


@dataclass(frozen=True, slots=True)
class Chain:
    """Stretches in a row. `gap` in mm behind the last one, 0 where they make a ring; `left_over` are in no ring."""

    ring: tuple[DrawnSubpath, ...]
    gap: float
    left_over: tuple[DrawnSubpath, ...] = ()


def closed_up(path: Path) -> Path:
    """A path that ends where it begins: the last end moved there when near, else a straight line added."""
    if (path.end - path.start).length > NEAR:
        return Path((*path.segments, Line(path.end, path.start)))
    return ended_at(path, path.start)


def ended_at(path: Path, end: Point) -> Path:
    """The path with its last end moved by next to nothing; a last segment that would be no more than that is left out."""
    *before, last = path.segments
    while before and _lies_near(last, end):
        last = before.pop()
    return Path((*before, replace(last, end=end)))


def _lies_near(segment: Segment, point: Point) -> bool:
    box = segment.box
    return max(box.right - point.x, point.x - box.left, box.top - point.y, point.y - box.bottom) < 2 * NEAR


def chained(lines: Sequence[DrawnSubpath]) -> Chain:
    """The stretches in a row from the first one on, each the nearest to the end before, turned round where need be."""
    ring = [lines[0]]
    left = list(lines[1:])
    while left:
        end = ring[-1].path.end
        gap, at = min((_away(one.path, end), at) for at, one in enumerate(left))
        if gap > NEAR:
            if len(ring) > 1 and _away(ring[0].path, end, starts_only=True) <= NEAR:
                break
            return Chain(tuple(ring), gap)
        following = left.pop(at)
        path = following.path
        if (path.end - end).length < (path.start - end).length:
            path = path.reversed()
        ring[-1] = replace(ring[-1], path=ended_at(ring[-1].path, path.start))
        ring.append(replace(following, path=path))
    start = ring[0].path.start
    gap = (start - ring[-1].path.end).length
    if gap > NEAR:
        return Chain(tuple(ring), gap)
    ring[-1] = replace(ring[-1], path=ended_at(ring[-1].path, start))
    return Chain(tuple(ring), 0.0, tuple(left))


def _away(path: Path, point: Point, starts_only: bool = False) -> float:
    ends = (path.start,) if starts_only else (path.start, path.end)
    return min((end - point).length for end in ends)
