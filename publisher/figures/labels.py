"""Live text on template pages: upright, inside its piece, clear of every line. On paper: mm, y down."""

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Protocol

from publisher.drafting import Copy, Mark, Notch, Piece
from publisher.figures.pieces import closed_path, piece_figure
from publisher.figures.values import Stroke, Style
from publisher.geometry import Box, Line, Path, Point, place_box
from publisher.template_pages import JOINING_RADIUS, Frame, PlacedPiece, TemplatePage
from publisher.terms import Finding, Phrase, Severity, length

LINE_HEIGHT = 1.25  # of the type size
POINT = 25.4 / 72
CLEAR = 1.2  # mm between a label and any line
FARTHEST = 25.0  # mm: a mark's label lies nearer than this
SMALLER = (1.0, 0.85, 0.7)  # of the wanted size; never below SMALLEST
SMALLEST = 8.0


@dataclass(frozen=True, slots=True)
class Words:
    """One line of a label before it is text."""

    phrase: Phrase
    points: float
    bold: bool = False


@dataclass(frozen=True, slots=True)
class LabelLine:
    """One line of text at its size in points."""

    text: str
    points: float
    bold: bool


@dataclass(frozen=True, slots=True)
class Label:
    """Text in place; `leader` leads to the piece where the label found no room inside it."""

    lines: tuple[LabelLine, ...]
    left: float
    top: float
    width: float
    height: float
    piece: str
    leader: Stroke | None = None


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
    outline: Path
    within: Box


def label_page(
    page: TemplatePage, pieces: Sequence[Piece], fit: TextFitter
) -> tuple[tuple[Label, ...], tuple[Finding, ...]]:
    """Labels for a page, `pieces` in the order of `page.placed`; findings for labels that found no room."""
    shown = [_on_paper(piece, placed) for piece, placed in zip(pieces, page.placed, strict=True)]
    fixed = [line for one in shown for line in one.lines] + [_around(mark.at) for mark in page.joining_marks]
    taken: list[Box] = [_box_of(page.check_block)] if page.check_block else []
    labels: list[Label] = []
    found: list[Finding] = []
    for one in shown:
        for words, near in _wanted(one, page):
            label = _place(one, words, near, fixed, taken, fit) or (
                _place_outside(one, words, shown, fixed, taken, fit) if near is None else None
            )
            if label is None:
                found.append(_no_room(one, page, words))
                continue
            labels.append(label)
            taken.append(Box(label.left, label.top, label.left + label.width, label.top + label.height))
    return tuple(labels), tuple(found)


def _box_of(frame: Frame) -> Box:
    return Box(frame.left, frame.top, frame.left + frame.width, frame.top + frame.height)


def _around(at: Point) -> Path:
    reach = JOINING_RADIUS + 1.0
    corners = ((-reach, -reach), (reach, -reach), (reach, reach), (-reach, reach))
    return closed_path(Point(at.x + x, at.y + y) for x, y in corners)


def _on_paper(piece: Piece, placed: PlacedPiece) -> _OnPaper:
    lines = tuple(_flat(stroke.path, placed) for stroke in piece_figure(piece).strokes)
    return _OnPaper(piece, placed, lines, _flat(piece.finished_line, placed), _box_of(placed.clip))


def _flat(path: Path, placed: PlacedPiece) -> Path:
    points = [placed.on_paper(point) for point in path.flattened(0.1)]
    return Path(tuple(Line(first, second) for first, second in itertools.pairwise(points)))


def _wanted(one: _OnPaper, page: TemplatePage) -> Iterator[tuple[tuple[Words, ...], Point | None]]:
    """The labels of a piece: a name beside each mark on this page, then the block in its middle."""
    for mark in one.piece.marks:
        spot = one.placed.on_paper(_spot(mark))
        if one.within.left <= spot.x <= one.within.right and one.within.bottom <= spot.y <= one.within.top:
            yield (Words(_mark_phrase(mark), 9.0),), spot
    if _shows(one):
        yield tuple(_block(one, page)), None


def _shows(one: _OnPaper) -> bool:
    """True when enough of the piece lies on this page to be worth naming: a box of 12 mm finds room in it."""
    return place_box(one.outline, one.lines, (), (12.0, 6.0), one.within, 0.0) is not None


def _spot(mark: Mark) -> Point:
    if isinstance(mark, Notch):
        return mark.inner_end
    return getattr(mark, "at", None) or (mark.start + mark.end) * 0.5  # type: ignore[union-attr]


def _mark_phrase(mark: Mark) -> Phrase:
    if not mark.copies:
        return Phrase.of("label.mark", name=mark.name)
    return Phrase.of(
        "label.mark-for",
        name=mark.name,
        copies=Phrase("list", tuple((str(at), copy) for at, copy in enumerate(mark.copies))),
    )


def _block(one: _OnPaper, page: TemplatePage) -> Iterator[Words]:
    piece = one.piece
    title = {"number": str(piece.number), "name": piece.name}
    if one.placed.size is None:
        yield Words(Phrase.of("label.title", **title), 15.0, bold=True)
    else:
        yield Words(Phrase.of("label.title-size", **title, size=one.placed.size), 15.0, bold=True)
    for copy in piece.copies:
        yield Words(_cut_phrase(piece, copy), 10.0)
    yield from (Words(phrase, 10.0) for phrase in _allowance_phrases(piece))
    if page.rows * page.columns > 1:
        yield Words(
            Phrase.of(
                "label.tile", row=str(page.row), column=str(page.column), rows=str(page.rows), columns=str(page.columns)
            ),
            10.0,
        )


def _cut_phrase(piece: Piece, copy: Copy) -> Phrase:
    key = (
        "label.cut-inner"
        if copy.to_finished_line
        else "label.cut-pair"
        if copy.mirrored and copy.count == 2
        else "label.cut"
    )
    short = copy.name.removeprefix(f"{piece.name} ")
    return Phrase.of(key, copy=short, count=str(copy.count), material=copy.material)


def _allowance_phrases(piece: Piece) -> Iterator[Phrase]:
    """One allowance for the whole piece, or each with the edges that have it."""
    amounts: dict[float, list[str]] = {}
    for edge in piece.edges:
        amounts.setdefault(round(edge.allowance, 3), []).append(edge.name)
    for amount, edges in amounts.items():
        told = Phrase.of("length", mm=str(length(amount).amount))
        if len(amounts) == 1:
            yield Phrase.of("label.allowance", amount=told) if amount else Phrase.of("label.no-allowance")
        else:
            names = Phrase("list", tuple((str(at), edge) for at, edge in enumerate(edges)))
            yield Phrase.of("label.edges-allowance", amount=told, edges=names)


def _fitted(words: tuple[Words, ...], factor: float, fit: TextFitter) -> tuple[tuple[LabelLine, ...], float, float]:
    lines: list[LabelLine] = []
    width = height = 0.0
    for word in words:
        points = max(word.points * factor, min(SMALLEST, word.points))
        text, wide = fit(word.phrase, points, word.bold)
        lines.append(LabelLine(text, round(points, 2), word.bold))
        width, height = max(width, wide), height + points * LINE_HEIGHT * POINT
    return tuple(lines), width, height


def _place(
    one: _OnPaper, words: tuple[Words, ...], near: Point | None, fixed: list[Path], taken: list[Box], fit: TextFitter
) -> Label | None:
    for factor in SMALLER if near is None else (1.0,):
        lines, width, height = _fitted(words, factor, fit)
        spot = place_box(one.outline, fixed, taken, (width, height), one.within, CLEAR, near)
        if spot is None:
            continue
        middle = Point((spot.left + spot.right) / 2, (spot.bottom + spot.top) / 2)
        if near is not None and (middle - near).length > FARTHEST + width / 2:
            continue
        return Label(lines, spot.left, spot.bottom, width, height, one.piece.name)
    return None


def _place_outside(
    one: _OnPaper, words: tuple[Words, ...], shown: list[_OnPaper], fixed: list[Path], taken: list[Box], fit: TextFitter
) -> Label | None:
    """Beside the piece on free paper, with a line that leads to it."""
    whole = closed_path(
        (
            Point(one.within.left, one.within.bottom),
            Point(one.within.right, one.within.bottom),
            Point(one.within.right, one.within.top),
            Point(one.within.left, one.within.top),
        )
    )
    covered = [*taken, *(other.outline.box for other in shown)]
    middle = Point(
        (one.outline.box.left + one.outline.box.right) / 2, (one.outline.box.bottom + one.outline.box.top) / 2
    )
    for factor in SMALLER:
        lines, width, height = _fitted(words, factor, fit)
        spot = place_box(whole, fixed, covered, (width, height), one.within, CLEAR, near=middle)
        if spot is not None:
            start = Point(min(max(middle.x, spot.left), spot.right), min(max(middle.y, spot.bottom), spot.top))
            leader = Stroke(Path((Line(start, middle),)), Style.LEADER)
            return Label(lines, spot.left, spot.bottom, width, height, one.piece.name, leader)
    return None


def _no_room(one: _OnPaper, page: TemplatePage, words: tuple[Words, ...]) -> Finding:
    told = dict(words[0].phrase.values).get("name", one.piece.name)
    return Finding(
        "label-finds-no-room",
        Severity.WARNING,
        one.piece.place,
        f"on template page {page.number}, the label '{told}' of '{one.piece.name}' finds no room clear of the lines",
        "shorten the names of its marks and copies, or move marks apart",
    )
