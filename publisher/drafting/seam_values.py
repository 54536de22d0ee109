"""How copies meet: seams, placements, bindings. Millimetres."""

from dataclasses import field

from publisher.frozen import dataclass
from publisher.geometry import Point
from publisher.terms import Place


@dataclass(frozen=True, slots=True)
class SeamEdge:
    """An edge (or joint edge) of one copy, as a seam names it."""

    copy: str
    piece: str
    edge: str
    length: float  # mm on the stitching line
    allowances: tuple[float, ...]  # mm, each different allowance along it


@dataclass(frozen=True, slots=True)
class Seam:
    """Two sides sewn together; ease is how much longer the first side may be, mm."""

    name: str
    first: tuple[SeamEdge, ...]
    second: tuple[SeamEdge, ...]
    ease: float
    leave_open: float  # mm left unsewn, 0 when none
    allowances_differ: bool  # on purpose: raw edges need not lie level
    open_along: float  # mm of the edge in whose middle the gap lies, or of all the seam
    place: Place = field(compare=False)

    @property
    def length(self) -> float:
        """Length of the second side, mm."""
        return sum(edge.length for edge in self.second)

    @property
    def boxes_a_corner(self) -> bool:
        """True for a seam across a corner: on both sides the same two copies."""
        first, second = {side.copy for side in self.first}, {side.copy for side in self.second}
        return len(self.first) > 1 and len(first) > 1 and first == second


@dataclass(frozen=True, slots=True)
class Laying:
    """How a placed copy comes to lie on the one below: turned over (face down) or not, turned, shifted; mm."""

    turned_over: bool
    angle: float  # radians, counter-clockwise, after turning over on an upright axis
    shift: Point

    def __call__(self, point: Point) -> Point:
        first = Point(-point.x, point.y) if self.turned_over else point
        return first.turned(self.angle) + self.shift


@dataclass(frozen=True, slots=True)
class Binding:
    """A strip folded over raw edges; lengths in mm."""

    name: str
    strip: str  # copy
    edges: tuple[SeamEdge, ...]
    corners: int
    needed: float  # bound edges, corners and overlap
    overlap: float
    place: Place = field(compare=False)


@dataclass(frozen=True, slots=True)
class Placement:
    """A copy laid on another. `matching` pairs names on the placed copy with names on the one below."""

    name: str
    placed: str
    below: str
    matching: tuple[tuple[str, str], ...]
    laying: "Laying"
    place: Place = field(compare=False)
