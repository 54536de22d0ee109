"""Cutting layouts drawn small: the cloth with its selvages and fold, each piece where it lies, its number, dimensions.

On paper the cloth is turned by a quarter: its length runs from left to right, so the grain does too, its left edge lies
above. Of cloth folded double the half right of the fold is drawn, the fold above; across a piece that is cut opened out
runs the fold of its template. mm on paper, y up.
"""

from collections.abc import Callable, Iterator, Sequence

from publisher.cloth import ClothLayout, Laid, fold_way, has_selvages
from publisher.drafting import Draft, Piece
from publisher.figures.piece_numbers import LaidPiece, placed_numbers
from publisher.figures.steps.lettering import LINE, POINTS
from publisher.figures.steps.lines import box_path, chain, line
from publisher.figures.steps.measuring import measured
from publisher.figures.steps.values import (
    Dimension,
    Drawing,
    DrawnShape,
    DrawnText,
    Lettering,
    Look,
)
from publisher.figures.thumbnails import SEEN
from publisher.frozen import dataclass
from publisher.geometry import Box, Movement, Path, Point, line_within, stretches_within
from publisher.terms import Phrase

WIDTH, HEIGHT = 168.0, 209.0  # of a page of text, below a heading
SCALES = (10, 12, 15, 20, 25, 30)
ON_MORE_PAGES = (25, 30, 40, 50, 75, 100)
MOST_PAGES = 6
TALLEST = 80.0  # of one cloth
BELOW, BESIDE, ABOVE = 4.0, 20.0, 2.0  # what dimensions take; words above a fold take a line more
LEAST = 48.0  # the width of those words
BETWEEN = 8.0  # layouts side by side
SHEET_GAP = 4.0  # between precuts


@dataclass(frozen=True, slots=True)
class LayoutWords:
    """What stands at a layout: how long, how wide, and the word at its fold."""

    long: Phrase
    wide: Phrase
    fold: Phrase


def layout_scale(layouts: Sequence[ClothLayout], above: float, captions: Sequence[float]) -> int:
    """The scale that all layouts share, 1 : n: the largest at which they fill no more than a page.

    Words take `above` mm before the first, and `captions` below each. Where layouts would be too small to read, they take
    more pages.
    """
    for scale, pages in (*((one, 1) for one in SCALES), *((one, MOST_PAGES) for one in ON_MORE_PAGES)):
        sizes = [_room(layout, scale) for layout in layouts]
        fits = all(width <= WIDTH and height <= TALLEST + BELOW + ABOVE + 2 * LINE for width, height in sizes)
        if fits and above + _stacked(sizes, captions) <= pages * HEIGHT:
            return scale
    return ON_MORE_PAGES[-1]


def in_rows(widths: Sequence[float]) -> tuple[tuple[int, ...], ...]:
    """Which drawings, by their widths, stand side by side: their places in the sequence."""
    rows: list[list[int]] = []
    taken = WIDTH
    for at, width in enumerate(widths):
        wide = max(width, LEAST)
        if taken + BETWEEN + wide > WIDTH:
            rows.append([])
            taken = -BETWEEN
        taken += BETWEEN + wide
        rows[-1].append(at)
    return tuple(tuple(row) for row in rows)


def _room(layout: ClothLayout, scale: int) -> tuple[float, float]:
    """Width and height of a drawing on paper, captions not counted."""
    long, wide = _cloth(layout)
    sheets = max(layout.precut_count, 1)
    width = sheets * long / scale + (sheets - 1) * SHEET_GAP + BESIDE
    return max(width, LEAST), wide / scale + BELOW + ABOVE + 2 * LINE


def _stacked(sizes: Sequence[tuple[float, float]], captions: Sequence[float]) -> float:
    """The height that drawings take, in rows as wide as the page, with their captions."""
    height = 0.0
    for row in in_rows([wide for wide, _ in sizes]):
        height += max(sizes[at][1] for at in row) + max(captions[at] for at in row)
    return height


def _cloth(layout: ClothLayout) -> tuple[float, float]:
    """Length and width of one cloth, or one precut, as it is drawn, mm: folded cloth is half as wide."""
    long = layout.precut_length if layout.precut else layout.buy_length
    return long, layout.width / 2 if layout.folded else layout.width


@dataclass(frozen=True, slots=True)
class _Sheet:
    """One cloth on paper: where it lies, how spots come there, and what of it is drawn (mm on the cloth)."""

    box: Box
    place: Callable[[Point], Point]
    shown: Box
    scale: float


def layout_drawing(layout: ClothLayout, draft: Draft, words: LayoutWords, letters: Lettering, scale: int) -> Drawing:
    """The drawing of one layout at 1 : `scale`."""
    sheets = list(_sheets(layout, scale))
    material = next(one for one in draft.materials if one.key == layout.material)
    selvages = layout.precut is None and has_selvages(material, layout.width)
    shapes: list[DrawnShape] = []
    texts: list[DrawnText] = []
    for at, sheet in enumerate(sheets):
        laid = [one for one in layout.laid if one.sheet in (0, at + 1)]
        shapes += _edges(layout, sheet, selvages)
        pieces = list(_pieces(layout, draft, laid, sheet))
        shapes += [shape for piece in pieces for shape in _outline(piece)]
        for more, numbers in placed_numbers(pieces, sheet.box, letters):
            shapes += more
            texts += numbers
    first, last = sheets[0], sheets[-1]
    low = min((text.box.bottom for text in texts if text.box.bottom < 0), default=0.0)
    for dimension in (
        Dimension(Point(first.box.left, 0.0), Point(first.box.right, 0.0), words.long, low - BELOW),
        Dimension(Point(last.box.right, 0.0), Point(last.box.right, last.box.top), words.wide, -3.0),
    ):
        more, said = _dimension(dimension, letters)
        shapes += more
        texts += said
    if layout.folded:
        texts.append(_text(letters.say(words.fold), Point(last.box.right + 1.0, last.box.top + 0.4), letters))
    return _framed(shapes, texts, scale)


def _sheets(layout: ClothLayout, scale: int) -> Iterator[_Sheet]:
    long, wide = (side / scale for side in _cloth(layout))
    usable = layout.usable_width
    edge = 0.0 if layout.precut else (layout.width - layout.usable_width) / 2  # one selvage
    for at in range(max(layout.precut_count, 1)):
        left = at * (long + SHEET_GAP)

        def place(spot: Point, left: float = left) -> Point:
            return Point(left + spot.y / scale, (usable - spot.x + edge) / scale)

        shown = Box(usable / 2 if layout.folded else 0.0, 0.0, usable, long * scale)
        yield _Sheet(Box(left, 0.0, left + long, wide), place, shown, 1 / scale)


def _edges(layout: ClothLayout, sheet: _Sheet, selvages: bool) -> list[DrawnShape]:
    """The cloth: cut ends thin, selvages heavy, the fold dash and dot."""
    box = sheet.box
    outline = box_path(box.left, box.bottom, box.right, box.top)
    shapes = [DrawnShape(outline, Look.THIN, None, True)]
    if layout.folded:  # no line may run below the dashes of the fold
        sides = (Point(box.left, box.top), Point(box.left, box.bottom), Point(box.right, box.bottom))
        shapes = [DrawnShape(chain([*sides, Point(box.right, box.top)]), Look.THIN, None, False)]
    low = line(Point(box.left, box.bottom), Point(box.right, box.bottom))
    high = line(Point(box.left, box.top), Point(box.right, box.top))
    if selvages:
        shapes.append(DrawnShape(low, Look.FOLDED, None, False))
        if not layout.folded:
            shapes.append(DrawnShape(high, Look.FOLDED, None, False))
    if layout.folded:
        shapes.append(DrawnShape(high, Look.FOLD, None, False))
    return shapes


def _pieces(layout: ClothLayout, draft: Draft, laid: Sequence[Laid], sheet: _Sheet) -> Iterator[LaidPiece]:
    """What shows of each cut on this sheet."""
    pieces = {copy.name: piece for piece in draft.pieces for copy in piece.copies}
    for one in laid:
        stretches = _shown(one, sheet)
        if stretches:
            piece = pieces[one.copy]
            way_up = (-1 if one.turn % 360 else 1) if piece.one_way else 0
            hatched = one.turned_over and not layout.folded
            folds = tuple(_fold_of_template(one, piece, sheet)) if one.opened_out else ()
            cuts = tuple(line(sheet.place(cut.start), sheet.place(cut.end)) for cut in one.cuts)
            yield LaidPiece(str(piece.number), way_up, hatched, stretches, _area(stretches), folds, cuts)


def _outline(piece: LaidPiece) -> Iterator[DrawnShape]:
    for path in piece.stretches:
        yield DrawnShape(path, Look.RAW, None, path.closed)
    for path in piece.folds:
        yield DrawnShape(path, Look.FOLD, None, False)


def _fold_of_template(one: Laid, piece: Piece, sheet: _Sheet) -> Iterator[Path]:
    """Where the fold of its template runs across a piece that is cut opened out: through the middle of its box.

    A half is mirrored along a line that is upright or level, and what lies at 45° has a square box.
    """
    way = fold_way(piece, one.turn)
    if way is None:
        return
    middle, reach = Point(one.x + one.width / 2, one.y + one.length / 2), way * (one.width + one.length)
    for part in line_within(line(middle - reach, middle + reach), one.outline):
        yield line(sheet.place(part.start), sheet.place(part.end))


def _shown(one: Laid, sheet: _Sheet) -> tuple[Path, ...]:
    """What shows of a cut, on paper: all of it, or its half on this side of the fold."""
    return tuple(
        chain([sheet.place(part.start) for part in stretch.segments] + [sheet.place(stretch.end)])
        for stretch in stretches_within(one.outline, sheet.shown, SEEN / sheet.scale)
        if stretch.box.right > sheet.shown.left + 0.05  # else it lies beyond the fold and touches it
    )


def _area(stretches: Sequence[Path]) -> Path:
    """A closed path round what shows of a cut."""
    spots = [part.start for path in stretches for part in path.segments] + [stretches[-1].end]
    return chain(spots, closed=True)


def _dimension(dimension: Dimension, letters: Lettering) -> tuple[list[DrawnShape], list[DrawnText]]:
    """A dimension of the cloth; words that find no room in its line stand behind it."""
    level = abs(dimension.start.y - dimension.end.y) < 0.01
    set_ = measured(dimension, lambda spot: spot, letters, BESIDE, inline=level)
    texts = list(set_.texts)
    if set_.named is not None:
        says = letters.say(dimension.says)
        at = set_.named.at
        wide = letters.width(says, POINTS, False)
        corner = Point(at.x - wide / 2, at.y - LINE - 1.6) if level else Point(at.x + 1.0, at.y - LINE / 2)
        texts.append(_text(says, corner, letters))
    return list(set_.shapes), texts


def _text(text: str, corner: Point, letters: Lettering) -> DrawnText:
    wide = letters.width(text, POINTS, False)
    return DrawnText(text, Box(corner.x, corner.y, corner.x + wide, corner.y + LINE), POINTS, False)


def _framed(shapes: Sequence[DrawnShape], texts: Sequence[DrawnText], scale: int) -> Drawing:
    """All moved so that nothing lies left of or below the drawing's corner."""
    boxes = [shape.path.box for shape in shapes] + [text.box for text in texts]
    whole = boxes[0]
    for box in boxes[1:]:
        whole = whole.joined(box)
    margin = 0.4  # half the widest pen
    dx, dy = margin - whole.left, margin - whole.bottom
    return Drawing(
        whole.width + 2 * margin,
        whole.height + 2 * margin,
        tuple(DrawnShape(_shifted(shape.path, dx, dy), shape.look, shape.texture, shape.closed) for shape in shapes),
        tuple(
            DrawnText(
                text.text,
                Box(text.box.left + dx, text.box.bottom + dy, text.box.right + dx, text.box.top + dy),
                text.points,
                text.bold,
            )
            for text in texts
        ),
        (1 / scale,),
    )


def _shifted(path: Path, dx: float, dy: float) -> Path:
    return path.moved(Movement(0, Point(dx, dy)))
