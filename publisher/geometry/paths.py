"""A path: segments end to end."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from publisher.geometry.curvature import foot_on
from publisher.geometry.points import Box, Movement, Point
from publisher.geometry.segments import Arc, Line, Segment

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
        points: list[Point] = [self.start]
        for segment in self.segments:
            points.extend(segment.flattened(tolerance)[1:])
        return tuple(points)


def signed_area(path: Path) -> float:
    """The area a closed path encloses, exact by Green's theorem; positive counter-clockwise."""
    return sum(segment.swept_area for segment in path.segments)


def nearest(path: Path, point: Point) -> tuple[float, Point, float]:
    """The nearest point of a path: how far along it lies, where, and the gap to `point`."""
    best: tuple[float, Point, float] | None = None
    passed = 0.0
    for segment in path.segments:
        for distance in _candidates(segment, point):
            on_path = segment.point_at(distance)
            gap = (on_path - point).length
            if best is None or gap < best[2]:
                best = (passed + distance, on_path, gap)
        passed += segment.length
    assert best is not None
    return best


def _candidates(segment: Segment, point: Point) -> Iterator[float]:
    whole = segment.length
    yield 0.0
    yield whole
    if isinstance(segment, Line) and whole:
        yield min(max((point - segment.start).dot(segment.direction_at(0.0)), 0.0), whole)
    elif isinstance(segment, Arc):
        away = point - segment.centre
        turned = segment.angle_within(math.atan2(away.y, away.x))
        if turned is not None:
            yield min(turned * segment.radius, whole)
    elif not isinstance(segment, Line):
        yield segment.length_to(foot_on(segment, point)[0])
