"""A draft: every piece of one variant, in millimetres, with edges, cut lines, marks, copies, seams and placements."""

from dataclasses import dataclass, field
from enum import Enum

from publisher.geometry import Path, Point
from publisher.terms import Place, Quantity, Variant


class PieceKind(Enum):
    """Drawn pieces have a template; measured pieces are cut with a ruler; strips are long measured pieces."""

    DRAWN = "drawn"
    MEASURED = "measured"
    STRIP = "strip"


class Grain(Enum):
    """How a piece lies on the cloth: its own y axis along the lengthwise grain, its x axis, at 45°, or as you like."""

    UP = "up"
    ACROSS = "across"
    BIAS = "bias"
    EITHER = "either way"


@dataclass(frozen=True, slots=True)
class Edge:
    """A named stretch of the finished line, counter-clockwise round the piece; allowance in mm."""

    name: str
    path: Path
    allowance: float
    place: Place = field(compare=False)

    @property
    def length(self) -> float:
        """Length on the finished line, mm."""
        return self.path.length


@dataclass(frozen=True, slots=True)
class JointEdge:
    """One name for several neighbouring edges, in order round the piece."""

    name: str
    edges: tuple[str, ...]
    place: Place = field(compare=False)


@dataclass(frozen=True, slots=True)
class Notch:
    """Measured along the stitching line from the start of its edge; drawn from the cut line inwards."""

    name: str
    edge: str
    distance: float  # mm along the stitching line
    at: Point  # on the stitching line
    cut_end: Point  # where it meets the cut line
    inner_end: Point  # where the drawn mark stops: at most half the allowance deep
    double: bool
    copies: tuple[str, ...]  # short names of the copies that bear it; empty: all
    place: Place = field(compare=False)


@dataclass(frozen=True, slots=True)
class PointMark:
    """A spot to transfer. `symbol` is what the legend calls it: `point`, or the notion that is set there."""

    name: str
    at: Point
    symbol: str
    face: str  # right side, wrong side
    copies: tuple[str, ...]
    place: Place = field(compare=False)


@dataclass(frozen=True, slots=True)
class FoldLine:
    """A straight line to fold along, from edge to edge of the piece."""

    name: str
    start: Point
    end: Point
    face: str
    copies: tuple[str, ...]
    place: Place = field(compare=False)


@dataclass(frozen=True, slots=True)
class GrainLine:
    """The grain arrow inside the piece: two heads when either way up will do."""

    start: Point
    end: Point


Mark = Notch | PointMark | FoldLine


@dataclass(frozen=True, slots=True)
class Copy:
    """What is cut and sewn. `name` is the whole name, `body front`; `count` of them are cut."""

    name: str
    piece: str
    material: str
    count: int
    to_finished_line: bool
    mirrored: bool  # an asymmetric piece cut as a pair: half the count turned over
    place: Place = field(compare=False)


@dataclass(frozen=True, slots=True)
class Strip:
    """How a strip is folded: `folding` is in fourths, turned, edges to the centre, single fold or plain."""

    folding: str
    finished_width: float  # mm
    finished_length: float  # mm
    end_allowance: float  # mm, at each end
    joins: bool  # may be pieced


@dataclass(frozen=True, slots=True)
class Piece:
    """One shape. `edges` close the finished line; `cut_line` is the closed line to cut along.

    For measured pieces and strips `cut_width` × `cut_height` is the size as printed, and the edges follow from it.
    """

    number: int
    name: str
    kind: PieceKind
    edges: tuple[Edge, ...]
    joint_edges: tuple[JointEdge, ...]
    cut_line: Path
    cut_width: float  # mm, box of the cut line
    cut_height: float  # mm
    grain: Grain
    grain_line: GrainLine | None
    marks: tuple[Mark, ...]
    copies: tuple[Copy, ...]
    strip: Strip | None
    note: str | None
    place: Place = field(compare=False)

    def edge(self, name: str) -> Edge:
        """The edge of that name. Raises KeyError."""
        for edge in self.edges:
            if edge.name == name:
                return edge
        raise KeyError(name)

    def edges_of(self, name: str) -> tuple[Edge, ...]:
        """The edges that an edge name or a joint name stands for, in order. Raises KeyError."""
        for joint in self.joint_edges:
            if joint.name == name:
                return tuple(self.edge(part) for part in joint.edges)
        return (self.edge(name),)

    @property
    def finished_line(self) -> Path:
        """The closed finished line."""
        return Path(tuple(segment for edge in self.edges for segment in edge.path.segments))


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
    place: Place = field(compare=False)

    @property
    def length(self) -> float:
        """Length of the second side, mm."""
        return sum(edge.length for edge in self.second)


@dataclass(frozen=True, slots=True)
class Placement:
    """A copy laid on another. `matching` pairs names on the placed copy with names on the one below."""

    name: str
    placed: str
    below: str
    matching: tuple[tuple[str, str], ...]
    place: Place = field(compare=False)


@dataclass(frozen=True, slots=True)
class Width:
    """One way a material is sold: by length at this width (mm), or a precut with both sides (mm)."""

    width: float
    precut: str | None = None
    precut_length: float | None = None


@dataclass(frozen=True, slots=True)
class Material:
    """Cloth to buy; `shrinkage` as a part of 1."""

    key: str
    kind: str
    name: str
    sold: tuple[Width, ...]
    shrinkage: float
    note: str | None
    place: Place = field(compare=False)


@dataclass(frozen=True, slots=True)
class Notion:
    """What is bought and not cut; `sizes` are exact quantities by name."""

    key: str
    kind: str | None
    name: str
    count: int | None
    sizes: tuple[tuple[str, Quantity], ...]
    note: str | None
    place: Place = field(compare=False)


@dataclass(frozen=True, slots=True)
class Draft:
    """One variant of a pattern, drafted."""

    variant: Variant
    measures: tuple[tuple[str, Quantity], ...]
    pieces: tuple[Piece, ...]
    seams: tuple[Seam, ...]
    placements: tuple[Placement, ...]
    materials: tuple[Material, ...]
    notions: tuple[Notion, ...]
    finished_size: tuple[tuple[str, Quantity], ...]
    quoted: tuple[tuple[tuple[Place, str], "Quoted"], ...] = field(compare=False)

    def piece(self, name: str) -> Piece:
        """The piece of that name. Raises KeyError."""
        for piece in self.pieces:
            if piece.name == name:
                return piece
        raise KeyError(name)

    def copy(self, name: str) -> Copy:
        """The copy of that whole name. Raises KeyError."""
        for piece in self.pieces:
            for copy in piece.copies:
                if copy.name == name:
                    return copy
        raise KeyError(name)


@dataclass(frozen=True, slots=True)
class Quoted:
    """What a quote in braces stands for in this variant: a quantity, or the name of something."""

    quantity: Quantity | None
    name: str | None
