"""A path: segments end to end."""

import math

from publisher.frozen import dataclass
from publisher.geometry.curvature import foot_on
from publisher.geometry.points import Box, Movement, Point
from publisher.geometry.segments import Arc, Line, Segment, Spot

NEAR = 1e-6  # ends this near are one point


@dataclass(frozen=True, slots=True)
class Path:
    """One or more segments, each beginning exactly where the one before ends."""

    segments: tuple[Segment, ...]

    @property
    def start(self) -> Point:
        """Where the first segment begins."""
        return self.segments[0].start

    @property
    def end(self) -> Point:
        """Where the last segment ends."""
        return self.segments[-1].end

    @property
    def closed(self) -> bool:
        """True when it ends where it began."""
        return (self.end - self.start).length < NEAR

    @property
    def length(self) -> float:
        """Sum of its segments' lengths."""
        return sum(segment.length for segment in self.segments)

    @property
    def box(self) -> Box:
        """The exact box."""
        box = self.segments[0].box
        for segment in self.segments[1:]:
            box = box.joined(segment.box)
        return box

    def reversed(self) -> "Path":
        """The same path from its end to its start."""
        return Path(tuple(segment.reversed() for segment in reversed(self.segments)))

    def moved(self, movement: Movement) -> "Path":
        """The path after a rigid movement."""
        return Path(tuple(segment.moved(movement) for segment in self.segments))

    def _find(self, distance: float) -> tuple[int, float]:
        """Which segment, and how far along it."""
        left = min(max(distance, 0.0), self.length)
        for at, segment in enumerate(self.segments):
            if left <= segment.length or at == len(self.segments) - 1:
                return at, min(left, segment.length)
            left -= segment.length
        raise AssertionError("a path has a segment")

    def point_at(self, distance: float) -> Point:
        """The point so far along; before the start the start, beyond the end the end."""
        at, left = self._find(distance)
        return self.segments[at].point_at(left)

    def direction_at(self, distance: float) -> Point:
        """The unit tangent so far along."""
        at, left = self._find(distance)
        return self.segments[at].direction_at(left)

    def split(self, distance: float) -> tuple["Path", "Path"]:
        """The path before and after a point inside it. Raises ValueError at or beyond an end."""
        if not 0 < distance < self.length:
            raise ValueError(f"{distance:.4g} is not inside a path of {self.length:.4g}")
        at, left = self._find(distance)
        first, second = self.segments[at].split(left)
        before, after = self.segments[:at], self.segments[at + 1 :]
        if left < NEAR:
            return Path(before), Path((self.segments[at], *after))
        if self.segments[at].length - left < NEAR:
            return Path((*before, self.segments[at])), Path(after)
        return Path((*before, first)), Path((second, *after))

    def flattened(self, tolerance: float = 0.01) -> tuple[Point, ...]:
        """Points along the path whose chords lie within `tolerance` of it; closed paths repeat the first."""
        return tuple([Point(x, y) for x, y in self.spots(tolerance)])

    def spots(self, tolerance: float = 0.01) -> list[Spot]:
        """The same as bare numbers."""
        spots: list[Spot] = [(self.start.x, self.start.y)]
        for segment in self.segments:
            spots.extend(segment.spots(tolerance)[1:])
        return spots


def signed_area(path: Path) -> float:
    """The area a closed path encloses, exact by Green's theorem; positive counter-clockwise."""
    return sum(segment.swept_area for segment in path.segments)


def nearest(path: Path, point: Point) -> tuple[float, Point, float]:
    """The nearest point of a path: how far along it lies, where, and the gap to `point`."""
    best: tuple[float, Point, float] | None = None
    passed, x, y = 0.0, point.x, point.y
    for segment in path.segments:
        whole = segment.length
        for distance in _candidates(segment, point, whole):
            on_path = segment.point_at(distance)
            gap = math.hypot(on_path.x - x, on_path.y - y)
            if best is None or gap < best[2]:
                best = (passed + distance, on_path, gap)
        passed += whole
    assert best is not None
    return best


def _candidates(segment: Segment, point: Point, whole: float) -> tuple[float, ...]:
    """How far along a segment so long the nearest point may lie."""
    if isinstance(segment, Line):
        if not whole:
            return (0.0,)
        start, end = segment.start, segment.end
        along = (point.x - start.x) * (end.x - start.x) + (point.y - start.y) * (end.y - start.y)
        return (min(max(along / whole, 0.0), whole),)
    if isinstance(segment, Arc):
        turned = segment.angle_within(math.atan2(point.y - segment.centre.y, point.x - segment.centre.x))
        return (0.0, whole) if turned is None else (min(turned * segment.radius, whole),)
    return 0.0, whole, segment.length_to(foot_on(segment, point)[0])
