"""Live text on template pages: upright, inside its piece, clear of every line. On paper: mm, y down."""

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Protocol

from publisher.drafting import Mark, Notch, Piece, Pleat, PointMark
from publisher.figures.label_words import Words, block_words, mark_words
from publisher.figures.pieces import POINT_REACH, closed_path, piece_figure
from publisher.figures.values import Stroke, Style
from publisher.geometry import Box, Line, Path, Point, place_box
from publisher.template_pages import JOINING_RADIUS, Frame, PlacedPiece, TemplatePage
from publisher.terms import Finding, Phrase, Place, Severity

LINE_HEIGHT = 1.25  # of the type size
POINT = 25.4 / 72
CLEAR = 1.2  # mm between a label and any line
FARTHEST = 25.0  # mm: a mark's label lies nearer than this
SMALLER = (1.0, 0.85, 0.7)  # of the wanted size; never below SMALLEST
SMALLEST = 8.0
SLIVER = (4.0, 4.0)  # mm: of a tile that shows less of its piece than this, the page's header says enough
AROUND = (15.0, 30.0, 60.0, 120.0)  # mm: how far about free paper is looked for when the nearest will not do


@dataclass(frozen=True, slots=True)
class LabelLine:
    """One line of text at its size in points."""

    text: str
    points: float
    bold: bool


@dataclass(frozen=True, slots=True)
class Label:
    """Text in place; `leader` leads to what it names where the label found no room inside the piece."""

    lines: tuple[LabelLine, ...]
    left: float
    top: float
    width: float
    height: float
    piece: str
    leader: Stroke | None = None

    @property
    def box(self) -> Box:
        """Where it stands; y runs down, so the box's bottom is the label's top."""
        return Box(self.left, self.top, self.left + self.width, self.top + self.height)


class TextFitter(Protocol):
    """Turns a phrase into text and says how wide it is."""

    def __call__(self, phrase: Phrase, points: float, bold: bool) -> tuple[str, float]:
        """The text and its width in mm at a size in points."""


@dataclass(frozen=True, slots=True)
class _OnPaper:
    """A placed piece with its lines as they lie on the page."""

    piece: Piece
    placed: PlacedPiece
    lines: tuple[Path, ...]
    outline: Path  # the finished line
    cut_line: Path
    within: Box


@dataclass(frozen=True, slots=True)
class _Wanted:
    """A label to place: of a mark, beside it; or (no mark) of the piece, in its middle."""

    words: tuple[Words, ...]
    named: str
    place: Place
    near: Point | None = None
    reach: float = 0.0  # mm from `near` at which a leader ends


@dataclass(slots=True)
class _Page:
    """A page as it fills: the pieces on it, the lines and the boxes that a label keeps clear of."""

    shown: list[_OnPaper]
    lines: list[Path]
    taken: list[Box]
    fit: TextFitter
    labels: list[Label] = field(default_factory=list)

    def add(self, label: Label) -> None:
        self.labels.append(label)
        self.taken.append(label.box)
        if label.leader is not None:
            self.lines.append(label.leader.path)


def label_page(
    page: TemplatePage, pieces: Sequence[Piece], fit: TextFitter
) -> tuple[tuple[Label, ...], tuple[Finding, ...]]:
    """Labels for a page, `pieces` in the order of `page.placed`; findings for labels that found no room.

    Where the inside of the piece has no room, even in smaller type, a label stands on free paper with a leader.
    """
    shown = [_on_paper(piece, placed) for piece, placed in zip(pieces, page.placed, strict=True)]
    lines = [line for one in shown for line in one.lines] + [_around(mark.at) for mark in page.joining_marks]
    filling = _Page(shown, lines, [_box_of(page.check_block)] if page.check_block else [], fit)
    found: list[Finding] = []
    for one in shown:
        for wanted in _wanted(one, page):
            label = _place_inside(one, wanted, filling)
            if label is None and _may_go_without(wanted, page):
                continue
            label = label or _place_outside(one, wanted, filling)
            if label is None:
                found.append(_no_room(one, page, wanted))
            else:
                filling.add(label)
    return tuple(filling.labels), tuple(found)


def _may_go_without(wanted: _Wanted, page: TemplatePage) -> bool:
    """True for the block of a piece on any tile but the first: its name stands at the head of the page, and a leader
    over the tile could be taken for a mark."""
    return wanted.near is None and (page.row, page.column) != (1, 1)


def _box_of(frame: Frame) -> Box:
    return Box(frame.left, frame.top, frame.left + frame.width, frame.top + frame.height)


def _around(at: Point) -> Path:
    reach = JOINING_RADIUS + 1.0
    return _outline_of(Box(at.x - reach, at.y - reach, at.x + reach, at.y + reach))


def _outline_of(box: Box) -> Path:
    corners = ((box.left, box.bottom), (box.right, box.bottom), (box.right, box.top), (box.left, box.top))
    return closed_path(Point(x, y) for x, y in corners)


def _on_paper(piece: Piece, placed: PlacedPiece) -> _OnPaper:
    lines = tuple(_flat(stroke.path, placed) for stroke in piece_figure(piece).strokes)
    outline, cut_line = _flat(piece.finished_line, placed), _flat(piece.cut_line, placed)
    return _OnPaper(piece, placed, lines, outline, cut_line, _box_of(placed.clip))


def _flat(path: Path, placed: PlacedPiece) -> Path:
    points = [placed.on_paper(point) for point in path.flattened(0.1)]
    return Path(tuple(Line(first, second) for first, second in itertools.pairwise(points)))


def _wanted(one: _OnPaper, page: TemplatePage) -> Iterator[_Wanted]:
    """The labels of a piece: a name beside each mark on this page, then the block in its middle."""
    for mark in one.piece.marks:
        spot = one.placed.on_paper(_spot(mark))
        if one.within.left <= spot.x <= one.within.right and one.within.bottom <= spot.y <= one.within.top:
            reach = POINT_REACH if isinstance(mark, PointMark) else 0.0
            yield _Wanted(mark_words(mark), mark.name, mark.place, spot, reach)
    if page.rows * page.columns == 1 or place_box(one.outline, one.lines, (), SLIVER, one.within, 0.0) is not None:
        yield _Wanted(block_words(one.piece, one.placed.size, page), one.piece.name, one.piece.place)


def _spot(mark: Mark) -> Point:
    if isinstance(mark, Notch):
        return mark.inner_end
    if isinstance(mark, PointMark):
        return mark.at
    start, end = (mark.outer or mark.stitched)[0] if isinstance(mark, Pleat) else (mark.start, mark.end)
    return (start + end) * 0.5


def _fitted(words: tuple[Words, ...], fit: TextFitter) -> Iterator[tuple[tuple[LabelLine, ...], float, float]]:
    """The lines of a label with their width and height, mm, from its full size down to the smallest."""
    tried: set[tuple[LabelLine, ...]] = set()
    for factor in SMALLER:
        lines: list[LabelLine] = []
        width = height = 0.0
        for word in words:
            points = round(max(word.points * factor, min(SMALLEST, word.points)), 2)
            text, wide = fit(word.phrase, points, word.bold)
            lines.append(LabelLine(text, points, word.bold))
            width, height = max(width, wide), height + points * LINE_HEIGHT * POINT
        if tuple(lines) not in tried:
            tried.add(tuple(lines))
            yield tuple(lines), width, height


def _place_inside(one: _OnPaper, wanted: _Wanted, page: _Page) -> Label | None:
    for lines, width, height in _fitted(wanted.words, page.fit):
        spot = place_box(one.outline, page.lines, page.taken, (width, height), one.within, CLEAR, wanted.near)
        if spot is not None and (wanted.near is None or _gap(spot, wanted.near) <= FARTHEST):
            return Label(lines, spot.left, spot.bottom, width, height, one.piece.name)
    return None


def _nearest_of(box: Box, point: Point) -> Point:
    return Point(min(max(point.x, box.left), box.right), min(max(point.y, box.bottom), box.top))


def _gap(box: Box, point: Point) -> float:
    return (_nearest_of(box, point) - point).length


def _place_outside(one: _OnPaper, wanted: _Wanted, page: _Page) -> Label | None:
    """On free paper, as near as can be, with a leader that runs over no other label and no other piece."""
    paper = _outline_of(one.within)
    in_the_way = [*page.taken, *(other.cut_line.box for other in page.shown if other is not one)]
    for lines, width, height in _fitted(wanted.words, page.fit):
        for near in _spots_round(wanted.near or _middle(one.cut_line.box)):
            spot = place_box(paper, page.lines, page.taken, (width, height), one.within, CLEAR, near)
            leader = _leader(one, wanted, spot) if spot is not None else None
            if spot is not None and leader is not None and not any(_runs_over(leader, box) for box in in_the_way):
                stroke = Stroke(Path((leader,)), Style.LEADER)
                return Label(lines, spot.left, spot.bottom, width, height, one.piece.name, stroke)
    return None


def _middle(box: Box) -> Point:
    return Point((box.left + box.right) / 2, (box.bottom + box.top) / 2)


def _spots_round(at: Point) -> Iterator[Point]:
    yield at
    for away in AROUND:
        for x, y in itertools.product((0.0, away, -away), repeat=2):
            if x or y:
                yield Point(at.x + x, at.y + y)


def _leader(one: _OnPaper, wanted: _Wanted, box: Box) -> Line | None:
    """From a label's edge to the mark it names, or to the nearest spot well inside the piece."""
    target = wanted.near
    if target is None:
        well_inside = place_box(one.outline, (one.outline,), (), (1.0, 1.0), one.within, 0.0, _middle(box))
        if well_inside is None:
            return None
        target = _middle(well_inside)
    start = _nearest_of(box, target)
    way = target - start
    if way.length <= wanted.reach + CLEAR:
        return None
    return Line(start, target - way.unit() * wanted.reach)


def _runs_over(line: Line, box: Box) -> bool:
    """True when a line enters a box: cut to the box's extent in x, then in y, something of it is left."""
    first, last = 0.0, 1.0
    way = line.end - line.start
    for start, along, low, high in (
        (line.start.x, way.x, box.left, box.right),
        (line.start.y, way.y, box.bottom, box.top),
    ):
        if math.isclose(along, 0.0, abs_tol=1e-9):
            if not low < start < high:
                return False
            continue
        enter, leave = sorted(((low - start) / along, (high - start) / along))
        first, last = max(first, enter), min(last, leave)
    return first < last


def _no_room(one: _OnPaper, page: TemplatePage, wanted: _Wanted) -> Finding:
    return Finding(
        "label-finds-no-room",
        Severity.WARNING,
        wanted.place,
        f"on template page {page.number}, the label '{wanted.named}' of '{one.piece.name}' finds no room clear of "
        "the lines",
        "shorten the names of its marks and copies, or move marks apart",
    )
