"""Points, directions and the movements that place a shape on paper. Plain floats; sewing gives them millimetres."""

import math

from publisher.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Point:
    """A point or a direction: x to the right, y up."""

    x: float
    y: float

    def __add__(self, other: "Point") -> "Point":
        return Point(self.x + other.x, self.y + other.y)

    def __sub__(self, other: "Point") -> "Point":
        return Point(self.x - other.x, self.y - other.y)

    def __mul__(self, factor: float) -> "Point":
        return Point(self.x * factor, self.y * factor)

    def __neg__(self) -> "Point":
        return Point(-self.x, -self.y)

    def dot(self, other: "Point") -> float:
        """The scalar product."""
        return self.x * other.x + self.y * other.y

    def cross(self, other: "Point") -> float:
        """The z part of the vector product: positive when `other` lies to the left of this direction."""
        return self.x * other.y - self.y * other.x

    @property
    def length(self) -> float:
        """Distance from the origin."""
        return math.hypot(self.x, self.y)

    def unit(self) -> "Point":
        """The same direction with length 1. Raises ZeroDivisionError for the origin."""
        size = self.length
        return Point(self.x / size, self.y / size)

    def left(self) -> "Point":
        """This direction turned a quarter turn to the left (counter-clockwise)."""
        return Point(-self.y, self.x)

    def right(self) -> "Point":
        """This direction turned a quarter turn to the right (clockwise)."""
        return Point(self.y, -self.x)

    def turned(self, angle: float, about: "Point | None" = None) -> "Point":
        """This point turned counter-clockwise by `angle` radians about `about` (the origin)."""
        centre = about or Point(0.0, 0.0)
        cosine, sine = math.cos(angle), math.sin(angle)
        away = self - centre
        return Point(centre.x + cosine * away.x - sine * away.y, centre.y + sine * away.x + cosine * away.y)


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle: its least and greatest x and y."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """Extent in x."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Extent in y."""
        return self.top - self.bottom

    @property
    def middle(self) -> Point:
        """Where its diagonals cross."""
        return Point((self.left + self.right) / 2, (self.bottom + self.top) / 2)

    def holds(self, point: Point) -> bool:
        """True when a point lies inside, or on a side."""
        return self.left <= point.x <= self.right and self.bottom <= point.y <= self.top

    def joined(self, other: "Box") -> "Box":
        """The smallest box round both."""
        return Box(
            min(self.left, other.left),
            min(self.bottom, other.bottom),
            max(self.right, other.right),
            max(self.top, other.top),
        )


@dataclass(frozen=True, slots=True)
class Movement:
    """A rigid movement: turn by whole quarter turns (counter-clockwise) about the origin, then shift."""

    quarter_turns: int
    shift: Point

    def __call__(self, point: Point) -> Point:
        turns, x, y = self.quarter_turns % 4, point.x, point.y
        if turns:
            x, y = ((-y, x), (-x, -y), (y, -x))[turns - 1]
        return Point(x + self.shift.x, y + self.shift.y)
