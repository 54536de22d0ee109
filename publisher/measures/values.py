"""What formulas and phrases say once they are parsed: one small language, one tree for each kind of saying."""

import dataclasses
from dataclasses import field
from fractions import Fraction
from functools import cached_property

from publisher.frozen import dataclass
from publisher.terms import Place, Quantity, Written


@dataclass(frozen=True, slots=True)
class Literal:
    """A number or a length with its unit, exactly as written: `2 1/4 in` (before any conversion)."""

    quantity: Quantity
    unit: str  # in, mm, cm, m, yd, deg, "" for a number
    place: Place = field(compare=False)


@dataclass(frozen=True, slots=True)
class Name:
    """A measure, size of a notion, or part of a piece: `bag length`, `lid.around`, `snap.across`."""

    text: str
    place: Place = field(compare=False)


@dataclass(frozen=True, slots=True)
class Operation:
    """`+ - * /` with two sides, or a sign with one (`left` is None)."""

    sign: str
    left: "Formula | None"
    right: "Formula"
    place: Place = field(compare=False)


@dataclass(frozen=True, slots=True)
class Asked:
    """A phrase that asks: `length of E`, `width of P`, `height of P`, `distance from A to B`, `larger of X and Y`,
    `smaller of X and Y`. `what` is the phrase's first word; `about` its names or formulas in order."""

    what: str  # length, width, height, distance, larger, smaller
    about: tuple["Formula", ...]
    place: Place = field(compare=False)


@dataclass(frozen=True, slots=True)
class Solved:
    """`solved for length of A = length of B from 1 cm to 20 cm`: the length that makes both sides equal."""

    left: "Formula"
    right: "Formula"
    low: "Formula"
    high: "Formula"
    place: Place = field(compare=False)


Formula = Literal | Name | Operation | Asked | Solved


@dataclass(frozen=True, slots=True)
class LineSaying:
    """`line from A to B`."""

    start: Name
    end: Name


@dataclass(frozen=True, slots=True)
class ArcSaying:
    """`arc from A to B with radius R`, `… with height H`; bulging outwards unless `inwards` is said.

    Or `arc from A to B with centre C`, the lesser one; `arc from A to B by C`, which it passes; `arc from A to B,
    tangent`, which runs on from the edge before it.
    """

    start: Name
    end: Name
    radius: Formula | None
    height: Formula | None
    inwards: bool
    centre: Name | None = None
    by: Name | None = None
    tangent: bool = False


@dataclass(frozen=True, slots=True)
class CurveSaying:
    """`curve from A to B by H and K`, a cubic with two handles; `smooth curve from A to D by B and C`, through points,
    its ends in directions of their own where it is said: `leaving to E`, `arriving from F`."""

    start: Name
    end: Name
    by: tuple[Name, ...]
    smooth: bool
    leaving: Name | None = None
    arriving: Name | None = None


@dataclass(frozen=True, slots=True)
class EdgeSpot:
    """A spot on an edge: its middle, or a distance from one of its ends (left, right, top or bottom)."""

    edge: Name
    distance: Formula | None  # None: the middle
    end: str | None


@dataclass(frozen=True, slots=True)
class MarkSaying:
    """What a mark says of itself.

    kind `notch` / `double notch`: `spot` on an edge.
    kind `point`: at `spot`, moved square into the piece by `into` when given; or `insets`: distances from two edges;
    or `x`, `y`.
    kind `fold line`, `placement line`, `stitching line`, `trim line`: `insets` of one edge (parallel to it); or from a
    `spot` square across the piece; or `start` and `end`, names of points or marks.
    kind `derived`: `start` is a mark of a placed copy, `end` the placement that brings it here; `outline` and `ends`:
    `start` is the placed copy.
    kind `gathers`, `zip`, `clips`: a stretch of the edge `along`, between `start` and `end` or all of it.
    A notch may lie at `start`, a corner or mark of another copy, as the seam `end` brings them together; a notch, point
    or line at an `element` of the drawing.
    """

    kind: str
    spot: EdgeSpot | None = None
    into: Formula | None = None
    insets: tuple[tuple[Formula, Name], ...] = ()
    x: Formula | None = None
    y: Formula | None = None
    start: Name | None = None
    end: Name | None = None
    face: str = "wrong side"
    copies: tuple[Name, ...] = ()  # the copies that bear it; none named: all
    along: Name | None = None
    element: str | None = None  # its id
    symbol: str = "point"  # of a point: point, snap, button, eyelet, ring, drill hole


@dataclass(frozen=True, slots=True)
class HemSaying:
    """`2 cm, turned twice`; `casing for elastic width, turned under 6 mm`."""

    depth: Formula
    casing: bool
    twice: bool
    under: Formula | None


@dataclass(frozen=True, slots=True)
class CornerSaying:
    """`bevelled`, `squared to side seam`: how the cut line goes round a corner; not mitred, as it else is."""

    squared_to: Name | None  # None: bevelled


@dataclass(frozen=True, slots=True)
class PleatSaying:
    """`box pleat of 1 cm at 10 cm from the left end of bottom edge`: kind, depth and where it lies, closed."""

    kind: str
    depth: Formula
    spot: EdgeSpot
    towards: str | None
    face: str


@dataclass(frozen=True, slots=True)
class CopySaying:
    """`canvas, cut 2, to the finished line, alike`, `canvas, rough by 2 cm`."""

    material: Name
    count: int
    to_finished_line: bool
    alike: bool
    rough: Formula | None = None
    turned_over: bool | None = None  # None: as the piece and the material have it


@dataclass(frozen=True, slots=True)
class DartSaying:
    """`dart of 2 cm by 9 cm at the middle of waist`: how wide, how long or to which point, and where on its edge."""

    width: Formula
    length: Formula | None
    point: Name | None
    spot: EdgeSpot
    towards: str | None
    face: str


@dataclass(frozen=True, slots=True)
class ActionSaying:
    """`sew side seam`, `fuse body interfacing to body outside`, `attach snap at body front.snap`."""

    verb: str
    target: Name
    preposition: str | None  # to, at, on
    other: Name | None
    place: Place = field(compare=False)
    wrong_sides: bool = False  # together, of a seam
    stops_short: bool = False  # of a seam, which is sewn from seam line to seam line
    still_folded: bool = False  # of a mark, made through both layers of what was cut on the fold


@dataclass(frozen=True, slots=True)
class Matching:
    """A pair that coincides in a placement: on the placed copy, on the copy below."""

    placed: Name
    below: Name


@dataclass(frozen=True, slots=True)
class PointSaying:
    """Where a point lies, told by others.

    `beside`: `amounts` to the `ways` of `names`[0]. `polar`: `amounts` are distance and angle from `names`[0].
    `on edge`: at `spot`. `square`: `amounts`[0] square to the edge from `spot`, on the side of `ways`.
    `between`: `amounts`[0] (or half) of the way from `names`[0] to `names`[1].
    `meeting`: where the straight lines through `names`[0] and [1], [2] and [3] meet.
    """

    kind: str
    names: tuple[Name, ...] = ()
    amounts: tuple[Formula, ...] = ()
    ways: tuple[str, ...] = ()
    spot: "EdgeSpot | None" = None


@dataclass(frozen=True, slots=True)
class Pair:
    """Two formulas: the sides of a rectangle, or x and y of a point."""

    first: Formula
    second: Formula


@dataclass(frozen=True, slots=True)
class HeldSaying:
    """Width, height and thickness of a thing that a pocket is to hold; None where it is thin."""

    width: Formula
    height: Formula
    thickness: Formula | None


@dataclass(frozen=True, slots=True)
class MaterialWidth:
    """`42 in wide`: how a material is sold; or a precut by name (`fat quarter`)."""

    width: Quantity | None
    precut: str | None


Saying = (
    Formula
    | LineSaying
    | ArcSaying
    | CurveSaying
    | MarkSaying
    | CopySaying
    | CornerSaying
    | HemSaying
    | PleatSaying
    | DartSaying
    | ActionSaying
    | Matching
    | Pair
    | HeldSaying
    | PointSaying
    | MaterialWidth
    | Fraction
    | tuple[Name, ...]
)


@dataclasses.dataclass(frozen=True)
class Measures:
    """Every saying of the source, parsed once, and which measure reads which.

    `sayings` holds each parsed tree by where and what was written; a text with a finding is absent.
    """

    sayings: tuple[tuple[tuple[Place, str], Saying], ...]
    reads: tuple[tuple[str, tuple[str, ...]], ...]

    @cached_property
    def _by_place(self) -> dict[tuple[Place, str], Saying]:
        return dict(self.sayings)

    def saying(self, written: Written) -> Saying | None:
        """The tree of a written text, or None where it had a finding."""
        return self._by_place.get((written.place, str(written)))
