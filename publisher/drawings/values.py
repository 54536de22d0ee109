"""What is read from a drawing: its elements as they stand in the file, and lines and points in millimetres, y up."""

import math
from dataclasses import field

from publisher.drawings.transforms import Matrix
from publisher.frozen import dataclass
from publisher.geometry import Path, Point
from publisher.terms import Place

CORNER = math.radians(1)  # a turn of less runs on smoothly


@dataclass(frozen=True, slots=True)
class Element:
    """One element of the file. `parent` and `children` are places in the drawing's list of elements."""

    tag: str
    attributes: tuple[tuple[str, str], ...]
    parent: int | None
    children: tuple[int, ...]
    text: str  # of a style sheet
    place: Place = field(compare=False)

    def get(self, name: str) -> str | None:
        """The value of an attribute."""
        return next((value for key, value in self.attributes if key == name), None)

    @property
    def id(self) -> str | None:
        """The name that an editor gave it, or its maker."""
        return self.get("id")


@dataclass(frozen=True, slots=True)
class Drawing:
    """A drawing of known size, in mm. `page` maps units of the outermost element to millimetres from the lower left."""

    file: str
    elements: tuple[Element, ...]  # in the order of the file; the outermost is the first
    width: float
    height: float
    page: Matrix
    view: tuple[float, float]  # width and height of what is seen, in units of the outermost element; for per cent

    @property
    def ids(self) -> tuple[str, ...]:
        """All ids, in the order of the file."""
        return tuple(element.id for element in self.elements if element.id)


@dataclass(frozen=True, slots=True)
class DrawnStretch:
    """What one element gives to an outline: the whole, or the part between two ends that it shares with others."""

    id: str | None
    path: Path
    place: Place = field(compare=False)


@dataclass(frozen=True, slots=True)
class DrawnJoint:
    """Where two segments meet. `turn` in radians, positive to the left; `id` of a small circle or cross drawn there."""

    point: Point
    turn: float
    id: str | None

    @property
    def is_corner(self) -> bool:
        """False where the outline runs on smoothly."""
        return abs(self.turn) > CORNER


@dataclass(frozen=True, slots=True)
class DrawnOutline:
    """A closed path, counter-clockwise, from the point where the drawing begins it.

    `stretches` follow one another along it; `joints` are the beginnings of its segments, in order.
    """

    id: str
    path: Path
    stretches: tuple[DrawnStretch, ...]
    joints: tuple[DrawnJoint, ...]
    place: Place = field(compare=False)

    @property
    def corners(self) -> tuple[DrawnJoint, ...]:
        """The joints where it turns, in order."""
        return tuple(joint for joint in self.joints if joint.is_corner)


@dataclass(frozen=True, slots=True)
class DrawnPoint:
    """The centre of a small circle or cross."""

    id: str
    point: Point
    place: Place = field(compare=False)


@dataclass(frozen=True, slots=True)
class DrawnLine:
    """An open line."""

    id: str
    path: Path
    place: Place = field(compare=False)


DrawnMark = DrawnPoint | DrawnLine
