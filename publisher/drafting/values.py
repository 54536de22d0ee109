"""A draft: every piece of one variant, in millimetres, with edges, cut lines, marks, copies, seams and placements."""

from dataclasses import field
from enum import Enum
from fractions import Fraction

from publisher.drafting.goods_values import Material, Notion
from publisher.drafting.mark_values import GrainLine, Hem, Mark, Notch
from publisher.drafting.seam_values import Binding, Placement, Seam
from publisher.frozen import dataclass
from publisher.geometry import Path
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
    """A named stretch of the finished line, counter-clockwise round the piece; allowance in mm.

    Of a hem, `layers` are what its allowance is folded into, from the finished line outwards, mm; else there are none.
    """

    name: str
    path: Path
    allowance: float
    place: Place = field(compare=False)
    layers: tuple[float, ...] = ()

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
class Copy:
    """What is cut and sewn. `name` is the whole name, `body front`; `count` of them are cut."""

    name: str
    piece: str
    material: str
    count: int
    to_finished_line: bool
    mirrored: bool  # an asymmetric piece cut as a pair: half the count turned over
    place: Place = field(compare=False)
    rough: float = 0.0  # mm that it is cut larger all round, to be trimmed to the template later
    turned_over: bool = False  # of an asymmetric piece: the mirror image of its template
    faces_away: bool = False  # trimmed below another copy, its right side away from the template


@dataclass(frozen=True, slots=True)
class Strip:
    """How a strip is folded: `folding` is in fourths, turned, edges to the centre, single fold or plain."""

    folding: str
    finished_width: float  # mm
    finished_length: float  # mm
    end_allowance: float  # mm, at each end
    joins: str | None  # how it may be pieced: diagonal, straight; None: not at all
    join_allowance: float  # mm, of a join

    def wider_than_fourths(self, cut_width: float) -> bool:
        """True for a strip folded in fourths that is cut wider than four times its width by more than rounding, mm."""
        return self.folding == "in fourths" and cut_width > 4 * self.finished_width + 0.5


@dataclass(frozen=True, slots=True)
class Held:
    """A thing that a pocket is to hold, mm."""

    width: float
    height: float
    thickness: float
    place: Place = field(compare=False)


@dataclass(frozen=True, slots=True)
class Piece:
    """One shape. `edges` close the finished line; `cut_line` is the closed line to cut along.

    For measured pieces and strips `cut_width` × `cut_height` is the size as printed, and the edges follow from it.
    A piece with pleats is this one with the pleats closed, and `opened` as it is cut. A piece that is cut on the fold
    is the whole, and `half` what its template shows.
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
    hems: tuple[Hem, ...] = ()
    opened: "Piece | None" = None
    half: "Piece | None" = None
    fold_edge: str | None = None  # of a half: its edge on the fold
    holds: "Held | None" = None
    one_way: bool = False  # it lies with its top the same way as all others: for a nap, or a print

    @property
    def one_allowance(self) -> float | None:
        """The allowance of all edges that are cut, mm; None where they differ."""
        amounts = {round(edge.allowance, 3) for edge in self.edges if edge.name != self.fold_edge}
        return amounts.pop() if len(amounts) == 1 else None

    @property
    def as_cut(self) -> "Piece":
        """The whole piece as it lies on the cloth, pleats open."""
        return self.opened or self

    @property
    def template(self) -> "Piece":
        """What its template shows: the piece as cut, or half of it."""
        return self.half or self.as_cut

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
class Sizing:
    """What the size guide says of one size: the body's measure, the finished one, and the ease as the maker gave it."""

    body: Quantity
    finished: Quantity
    ease: Quantity | None


@dataclass(frozen=True, slots=True)
class Draft:
    """One variant of a pattern, drafted."""

    variant: Variant
    measures: tuple[tuple[str, Quantity], ...]
    pieces: tuple[Piece, ...]
    seams: tuple[Seam, ...]
    placements: tuple[Placement, ...]
    bindings: tuple[Binding, ...]
    materials: tuple[Material, ...]
    notions: tuple[Notion, ...]
    finished_size: tuple[tuple[str, Quantity], ...]
    snips: tuple[tuple[str, tuple[Notch, ...]], ...]  # by piece: its notches as they are in the cloth, in both layers
    quoted: tuple[tuple[tuple[Place, str], "Quoted"], ...] = field(compare=False)
    inch_step: Fraction = Fraction(1, 8)  # what inches are rounded to
    sizing: Sizing | None = None
    cover: str | None = None  # the copy that the cover shows

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

    def notches_of(self, copy: str) -> tuple[Notch, ...]:
        """The notches that a copy bears, on both halves of what was cut on the fold. Raises KeyError."""
        piece = self.copy(copy).piece
        short = copy.removeprefix(piece).strip()
        return tuple(notch for notch in dict(self.snips)[piece] if not notch.copies or short in notch.copies)


@dataclass(frozen=True, slots=True)
class Quoted:
    """What a quote in braces stands for in this variant: a quantity, or the name of something."""

    quantity: Quantity | None
    name: str | None
