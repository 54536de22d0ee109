"""The three kinds of stretch an outline is made of: straight line, circular arc, cubic curve."""

import math
from itertools import pairwise

from publisher.frozen import dataclass
from publisher.geometry.points import Box, Movement, Point

# Gauss–Legendre nodes and weights of order 5 (Abramowitz & Stegun, table 25.4), for the length of a cubic.
_NODES = (0.0, 0.5384693101056831, -0.5384693101056831, 0.9061798459386640, -0.9061798459386640)
_WEIGHTS = (0.5688888888888889, 0.4786286704993665, 0.4786286704993665, 0.2369268850561891, 0.2369268850561891)


Spot = tuple[float, float]  # a point as bare numbers, x and y: for what reckons with very many


@dataclass(frozen=True, slots=True)
class Line:
    """A straight stretch."""

    start: Point
    end: Point

    @property
    def length(self) -> float:
        """Distance between the ends."""
        return math.hypot(self.end.x - self.start.x, self.end.y - self.start.y)

    @property
    def box(self) -> Box:
        """The box round both ends."""
        x, y, other_x, other_y = self.start.x, self.start.y, self.end.x, self.end.y
        return Box(min(x, other_x), min(y, other_y), max(x, other_x), max(y, other_y))

    def reversed(self) -> "Line":
        """The same stretch from its end to its start."""
        return Line(self.end, self.start)

    def moved(self, movement: Movement) -> "Line":
        """The stretch after a rigid movement."""
        return Line(movement(self.start), movement(self.end))

    def point_at(self, distance: float) -> Point:
        """The point so far along."""
        part = distance / self.length if self.length else 0.0
        x, y = self.start.x, self.start.y
        return Point(x + (self.end.x - x) * part, y + (self.end.y - y) * part)

    def direction_at(self, distance: float) -> Point:
        """The unit direction of travel, the same everywhere."""
        return (self.end - self.start).unit()

    def split(self, distance: float) -> tuple["Line", "Line"]:
        """The stretch before and after a point so far along."""
        middle = self.point_at(distance)
        return Line(self.start, middle), Line(middle, self.end)

    def spots(self, tolerance: float = 0.01) -> list[Spot]:
        """Its two ends."""
        return [(self.start.x, self.start.y), (self.end.x, self.end.y)]

    @property
    def swept_area(self) -> float:
        """Half the integral of x dy − y dx, its part of a closed path's area."""
        return self.start.cross(self.end) / 2


@dataclass(frozen=True, slots=True)
class Arc:
    """A circular stretch about `centre`; `sweep` in radians, positive counter-clockwise, at most a full turn.

    `start` and `end` are kept as given, so that neighbours share their ends exactly.
    """

    start: Point
    end: Point
    centre: Point
    sweep: float

    @property
    def radius(self) -> float:
        """Distance from the centre, mean of both ends."""
        # In plain numbers, for it is asked for at every spot of an arc.
        x, y = self.centre.x, self.centre.y
        return (math.hypot(self.start.x - x, self.start.y - y) + math.hypot(self.end.x - x, self.end.y - y)) / 2

    @property
    def start_angle(self) -> float:
        """Direction from the centre to the start, radians."""
        away = self.start - self.centre
        return math.atan2(away.y, away.x)

    @property
    def length(self) -> float:
        """Radius × angle."""
        return self.radius * abs(self.sweep)

    def at_angle(self, angle: float) -> Point:
        """The point of the circle in a direction, radians."""
        radius = self.radius
        return Point(self.centre.x + radius * math.cos(angle), self.centre.y + radius * math.sin(angle))

    def angle_within(self, angle: float) -> float | None:
        """How far round from the start (radians, in the direction of the sweep) an angle lies, or None beyond the end."""
        turned = (
            (angle - self.start_angle) % (2 * math.pi) if self.sweep > 0 else (self.start_angle - angle) % (2 * math.pi)
        )
        if turned > 2 * math.pi - 1e-9:
            turned = 0.0
        return turned if turned <= abs(self.sweep) + 1e-9 else None

    @property
    def box(self) -> Box:
        """The exact box, with the quarter points that lie on the arc."""
        extremes = [
            self.at_angle(quarter * math.pi / 2)
            for quarter in range(4)
            if self.angle_within(quarter * math.pi / 2) is not None
        ]
        return _box_of((self.start, self.end, *extremes))

    def reversed(self) -> "Arc":
        """The same stretch from its end to its start."""
        return Arc(self.end, self.start, self.centre, -self.sweep)

    def moved(self, movement: Movement) -> "Arc":
        """The stretch after a rigid movement."""
        return Arc(movement(self.start), movement(self.end), movement(self.centre), self.sweep)

    def point_at(self, distance: float) -> Point:
        """The point so far along."""
        if distance <= 0:
            return self.start
        if distance >= self.length:
            return self.end
        return self.at_angle(self.start_angle + self.sweep * distance / self.length)

    def direction_at(self, distance: float) -> Point:
        """The unit tangent so far along."""
        away = (self.point_at(distance) - self.centre).unit()
        return away.left() if self.sweep > 0 else away.right()

    def split(self, distance: float) -> tuple["Arc", "Arc"]:
        """The stretch before and after a point so far along."""
        middle, part = self.point_at(distance), self.sweep * distance / self.length
        return Arc(self.start, middle, self.centre, part), Arc(middle, self.end, self.centre, self.sweep - part)

    def spots(self, tolerance: float = 0.01) -> list[Spot]:
        """Points on the arc whose chords lie within `tolerance` of it."""
        radius, first, (x, y) = self.radius, self.start_angle, (self.centre.x, self.centre.y)
        reach = 2 * math.acos(max(1 - tolerance / radius, 0.0)) if radius > tolerance else math.pi / 2
        count = max(math.ceil(abs(self.sweep) / reach), 1)
        angles = [first + self.sweep * at / count for at in range(1, count)]
        return [
            (self.start.x, self.start.y),
            *[(x + radius * math.cos(turn), y + radius * math.sin(turn)) for turn in angles],
            (self.end.x, self.end.y),
        ]

    @property
    def swept_area(self) -> float:
        """Half the integral of x dy − y dx: the chord's part and the segment's."""
        segment = self.radius**2 * (self.sweep - math.sin(self.sweep)) / 2
        return self.start.cross(self.end) / 2 + segment


@dataclass(frozen=True, slots=True)
class Cubic:
    """A cubic Bézier curve."""

    start: Point
    first_handle: Point
    second_handle: Point
    end: Point

    def at(self, part: float) -> Point:
        """The point at a parameter from 0 to 1."""
        rest = 1 - part
        a, b, c, d = rest**3, 3 * rest**2 * part, 3 * rest * part**2, part**3
        p0, p1, p2, p3 = self.start, self.first_handle, self.second_handle, self.end
        return Point(p0.x * a + p1.x * b + p2.x * c + p3.x * d, p0.y * a + p1.y * b + p2.y * c + p3.y * d)

    def speed_at(self, part: float) -> Point:
        """The derivative at a parameter from 0 to 1."""
        rest = 1 - part
        return (
            (self.first_handle - self.start) * (3 * rest**2)
            + (self.second_handle - self.first_handle) * (6 * rest * part)
            + (self.end - self.second_handle) * (3 * part**2)
        )

    def _length_between(self, low: float, high: float) -> float:
        middle, half = (low + high) / 2, (high - low) / 2
        return half * sum(w * self.speed_at(middle + half * n).length for n, w in zip(_NODES, _WEIGHTS, strict=True))

    def _length(self, low: float, high: float, depth: int = 0) -> float:
        """Length between two parameters, halved until both halves agree with the whole to 10⁻¹⁰."""
        middle = (low + high) / 2
        whole = self._length_between(low, high)
        halves = self._length_between(low, middle) + self._length_between(middle, high)
        if depth > 24 or abs(whole - halves) < 1e-10:
            return halves
        return self._length(low, middle, depth + 1) + self._length(middle, high, depth + 1)

    def length_to(self, part: float, since: float = 0.0) -> float:
        """Length from a parameter (the start) to a greater one, stretch by stretch between the extremes, mm.

        Where a curve turns back it does so at an extreme: within a stretch no narrow turn can hide from the nodes.
        """
        extremes = sorted({*self._extremes("x"), *self._extremes("y")})
        spots = [since, *(extreme for extreme in extremes if since < extreme < part), part]
        return sum(self._length(low, high) for low, high in pairwise(spots))

    @property
    def length(self) -> float:
        """Length by adaptive Gauss quadrature."""
        return self.length_to(1.0)

    def parameter_at(self, distance: float) -> float:
        """The parameter so far along, to 10⁻¹²: Newton's steps, kept between the bounds that they have proved."""
        whole = self.length
        if distance <= 0:
            return 0.0
        if distance >= whole:
            return 1.0
        low, high, part = 0.0, 1.0, distance / whole
        passed = self.length_to(part)
        while high - low > 1e-12:
            low, high = (part, high) if passed < distance else (low, part)
            pace = self.speed_at(part).length
            wanted = part + (distance - passed) / pace if pace > 1e-9 else low
            further = wanted if low < wanted < high else (low + high) / 2
            if abs(further - part) < 1e-13:
                return further
            passed += self.length_to(further, part) if further > part else -self.length_to(part, further)
            part = further
        return part

    @property
    def box(self) -> Box:
        """The exact box, with the extremes of x and y."""
        parts = [root for axis in ("x", "y") for root in self._extremes(axis)]
        return _box_of((self.start, self.end, *(self.at(part) for part in parts)))

    def _extremes(self, axis: str) -> list[float]:
        p0, p1, p2, p3 = (
            getattr(point, axis) for point in (self.start, self.first_handle, self.second_handle, self.end)
        )
        a, b, c = p3 - 3 * p2 + 3 * p1 - p0, 2 * (p2 - 2 * p1 + p0), p1 - p0
        if abs(a) < 1e-12:
            roots = [-c / b] if abs(b) > 1e-12 else []
        else:
            discriminant = b * b - 4 * a * c
            roots = [(-b + sign * math.sqrt(discriminant)) / (2 * a) for sign in (1, -1)] if discriminant >= 0 else []
        return [root for root in roots if 0 < root < 1]

    def reversed(self) -> "Cubic":
        """The same stretch from its end to its start."""
        return Cubic(self.end, self.second_handle, self.first_handle, self.start)

    def moved(self, movement: Movement) -> "Cubic":
        """The stretch after a rigid movement."""
        return Cubic(
            movement(self.start), movement(self.first_handle), movement(self.second_handle), movement(self.end)
        )

    def point_at(self, distance: float) -> Point:
        """The point so far along."""
        return self.at(self.parameter_at(distance))

    def direction_at(self, distance: float) -> Point:
        """The unit tangent so far along; at an end without a handle, the direction to the nearest point that differs."""
        part = self.parameter_at(distance)
        for nudged in (part, part + 1e-6 if part < 0.5 else part - 1e-6, 0.5):
            if self.speed_at(nudged).length > 1e-9:
                return self.speed_at(nudged).unit()
        return (self.end - self.start).unit()

    def split(self, distance: float) -> tuple["Cubic", "Cubic"]:
        """The stretch before and after a point so far along (de Casteljau)."""
        return self.split_at(self.parameter_at(distance))

    def split_at(self, part: float) -> tuple["Cubic", "Cubic"]:
        """The stretch before and after a parameter (de Casteljau)."""

        def between(first: Point, second: Point) -> Point:
            return first + (second - first) * part

        a, b, c = (
            between(self.start, self.first_handle),
            between(self.first_handle, self.second_handle),
            between(self.second_handle, self.end),
        )
        d, e = between(a, b), between(b, c)
        middle = between(d, e)
        return Cubic(self.start, a, d, middle), Cubic(middle, e, c, self.end)

    def spots(self, tolerance: float = 0.01) -> list[Spot]:
        """Points on the curve whose chords lie within `tolerance` of it (bound by second differences)."""
        bend = max(
            (self.start - self.first_handle * 2 + self.second_handle).length,
            (self.first_handle - self.second_handle * 2 + self.end).length,
        )
        count = min(max(math.ceil(math.sqrt(0.75 * bend / tolerance)), 1), 10_000)
        between = [self.at(at / count) for at in range(1, count)]
        return [(spot.x, spot.y) for spot in (self.start, *between, self.end)]

    @property
    def swept_area(self) -> float:
        """Half the integral of x dy − y dx, in closed form."""
        p0, p1, p2, p3 = self.start, self.first_handle, self.second_handle, self.end
        return (
            6 * p0.cross(p1) + 3 * p0.cross(p2) + p0.cross(p3) + 3 * p1.cross(p2) + 3 * p1.cross(p3) + 6 * p2.cross(p3)
        ) / 20


def _box_of(points: tuple[Point, ...]) -> Box:
    across, up = [point.x for point in points], [point.y for point in points]
    return Box(min(across), min(up), max(across), max(up))


Segment = Line | Arc | Cubic
