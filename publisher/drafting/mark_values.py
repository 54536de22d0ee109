"""Marks of a piece, its pleats and hems, in millimetres."""

from dataclasses import field

from publisher.frozen import dataclass
from publisher.geometry import Path, Point
from publisher.terms import Place


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
    side: Point | None = None  # of a notch on the fold: the way to the half of it that is printed


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
class LineMark:
    """A straight line to transfer. `kind`: fold line, placement line, stitching line or trim line."""

    name: str
    kind: str
    start: Point
    end: Point
    face: str
    copies: tuple[str, ...]
    place: Place = field(compare=False)


@dataclass(frozen=True, slots=True)
class PathMark:
    """A stretch of the stitching line, counter-clockwise, or the outline of what is placed here.

    `kind`: gathers, zip, clips, turning gap; or placed outline. `allowance` is the narrowest beside it, mm.
    """

    name: str
    kind: str
    path: Path
    allowance: float
    face: str
    copies: tuple[str, ...]
    place: Place = field(compare=False)


STRETCHES = ("gathers", "zip", "clips", "turning gap")

Span = tuple[Point, Point]


@dataclass(frozen=True, slots=True)
class Pleat:
    """A pleat or tuck on the open piece, its lines from edge to edge, as seen on the named face.

    `outer` folds stand out, `inner` folds lie behind; `meets` is where the outer folds are brought to; a tuck is
    stitched along `stitched`. `arrows` lead from outer folds to where they meet.
    """

    name: str
    kind: str  # knife pleat, box pleat, inverted pleat, tuck
    depth: float  # mm
    takes: float  # mm of cloth: 2 × depth, of box and inverted pleats 4 ×
    outer: tuple[Span, ...]
    inner: tuple[Span, ...]
    meets: tuple[Span, ...]
    stitched: tuple[Span, ...]
    arrows: tuple[Span, ...]
    face: str
    copies: tuple[str, ...]  # always empty: every copy is pleated
    place: Place = field(compare=False)
    closed: tuple[Span, ...] = ()  # where the outer folds lie on the piece as drafted, its pleats closed


@dataclass(frozen=True, slots=True)
class Hem:
    """An edge turned to the wrong side, mm: `depth` as finished, `under` turned in behind it."""

    edge: str
    depth: float
    under: float
    casing: bool
    place: Place = field(compare=False)

    @property
    def takes(self) -> float:
        """Cloth beyond the finished edge, mm: finished width and first turn (Kinne and Cooley, 1916)."""
        return self.depth + self.under

    @property
    def layers(self) -> tuple[float, ...]:
        """The widths that it is folded into, from the finished edge outwards, mm."""
        return (self.depth, self.under) if self.under > 0 else (self.depth,)


@dataclass(frozen=True, slots=True)
class GrainLine:
    """The grain arrow inside the piece: two heads when either way up will do, one where all must lie alike."""

    start: Point
    end: Point
    one_way: bool = False


Mark = Notch | PointMark | LineMark | PathMark | Pleat


def mark_spots(mark: Mark) -> tuple[Point, ...]:
    """The spots that tell where a mark lies, mm: its ends, and of a path its middle, too."""
    if isinstance(mark, Notch):
        return mark.cut_end, mark.inner_end
    if isinstance(mark, Pleat):
        spans = (*mark.outer, *mark.inner, *mark.meets, *mark.stitched)
        return tuple(end for span in spans for end in span)
    if isinstance(mark, LineMark):
        return mark.start, mark.end
    if isinstance(mark, PathMark):
        return mark.path.start, mark.path.point_at(mark.path.length / 2), mark.path.end
    return (mark.at,)
