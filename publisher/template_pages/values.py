"""Pieces on paper: which piece lies where on which page, with joining marks where a sheet is tiled.

All lengths in mm on paper: x to the right, y down, from the paper's upper left corner.
"""

from enum import Enum

from publisher.frozen import dataclass
from publisher.geometry import Movement, Point
from publisher.terms import UnitSystem


class Paper(Enum):
    """Paper sizes, mm (ISO 216; Letter 8.5 × 11 in)."""

    A4 = "a4"
    LETTER = "letter"

    @property
    def width(self) -> float:
        """Short side, mm."""
        return {"a4": 210.0, "letter": 215.9}[self.value]

    @property
    def height(self) -> float:
        """Long side, mm."""
        return {"a4": 297.0, "letter": 279.4}[self.value]


@dataclass(frozen=True, slots=True)
class Edition:
    """What is published: a unit system on a paper."""

    units: UnitSystem
    paper: Paper

    @property
    def name(self) -> str:
        """As on the command line: `inch-letter`."""
        return f"{self.units.value}-{self.paper.value}"


EDITIONS = tuple(Edition(units, paper) for units in UnitSystem for paper in (Paper.LETTER, Paper.A4))
DEFAULT_EDITIONS = (Edition(UnitSystem.INCH, Paper.LETTER), Edition(UnitSystem.METRIC, Paper.A4))


@dataclass(frozen=True, slots=True)
class Frame:
    """The part of a template page that pieces may use: inside it everything prints, mm, y down."""

    left: float
    top: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class PlacedPiece:
    """A piece on a page. `movement` takes a point of the piece (mm, y up) to the sheet (mm, y up, origin at the
    sheet's lower left); `to_paper` then takes the sheet to this page: paper x = sheet x + shift.x,
    paper y = shift.y − sheet y."""

    piece: str
    size: str | None  # None when all sizes share the piece
    movement: Movement
    shift: Point
    clip: Frame

    def on_paper(self, point: Point) -> Point:
        """A point of the piece, on this page, mm, y down."""
        on_sheet = self.movement(point)
        return Point(on_sheet.x + self.shift.x, self.shift.y - on_sheet.y)

    def of_piece(self, point: Point) -> Point:
        """A point of this page, mm, y down, as a point of the piece."""
        origin = self.on_paper(Point(0.0, 0.0))
        right, up = self.on_paper(Point(1.0, 0.0)) - origin, self.on_paper(Point(0.0, 1.0)) - origin
        return Point((point - origin).dot(right), (point - origin).dot(up))


@dataclass(frozen=True, slots=True)
class JoiningMark:
    """Half of a mark on a shared edge: `at` on the frame's edge (mm, y down), `side` left, right, top, bottom."""

    at: Point
    side: str
    label: str  # the same on both pages
    letter: Point  # the middle of the label, in this half, mm, y down


@dataclass(frozen=True, slots=True)
class Neighbour:
    """The page that joins on one side."""

    side: str
    page: int  # template page number, from 1


@dataclass(frozen=True, slots=True)
class TemplatePage:
    """One template page. Row and column count from 1 within its sheet; a sheet on one page is row 1 of 1."""

    number: int
    sheet: int
    row: int
    column: int
    rows: int
    columns: int
    frame: Frame
    placed: tuple[PlacedPiece, ...]
    joining_marks: tuple[JoiningMark, ...]
    neighbours: tuple[Neighbour, ...]
    check_block: Frame | None  # where the squares and the card stand (the first page)

    @property
    def together(self) -> tuple[tuple[PlacedPiece, ...], ...]:
        """What is placed, the sizes of a piece that lie on one another together."""
        groups: dict[tuple[str, Movement, Point], list[PlacedPiece]] = {}
        for placed in self.placed:
            groups.setdefault((placed.piece, placed.movement, placed.shift), []).append(placed)
        return tuple(map(tuple, groups.values()))


@dataclass(frozen=True, slots=True)
class TemplatePages:
    """All template pages of one edition."""

    edition: Edition
    pages: tuple[TemplatePage, ...]
