"""The page plan: every template page drawn small, and each tiled sheet as one drawing of its pages. mm, y down."""

from collections.abc import Mapping, Sequence
from itertools import groupby, product

from publisher.drafting import Piece
from publisher.figures.check_block import check_block_figure
from publisher.figures.pieces import closed_path
from publisher.figures.thumbnails import small_strokes
from publisher.figures.values import Figure, Stroke, Style
from publisher.frozen import dataclass
from publisher.geometry import Box, Path, Point, place_box
from publisher.template_pages import Frame, Paper, PlacedPiece, TemplatePage

# What a page of text has room for below a heading, on Letter and on A4.
WIDTH, HEIGHT = 162.0, 188.0
# (width of a thumbnail, width of a tile in the drawing of its sheet), mm, from the largest: the first with room is taken.
STEPS = (
    (26.0, 14.0),
    (22.0, 12.0),
    (18.0, 10.0),
    (15.0, 8.5),
    (13.0, 7.0),
    (11.0, 6.0),
    (9.0, 5.0),
    (7.5, 4.2),
    (7.5, 3.8),
)
READABLE = 5  # so many of them show a piece well; smaller ones are for patterns of very many pages
GAP = 4.0  # between drawings, and below them
CAPTION = 4.6  # a line of 9 pt
LEAST = 12.0  # the caption of a narrow thumbnail
LEAST_SHEET = 34.0  # the caption of a narrow drawing of a sheet, on two lines
NUMBER_HEIGHT, DIGIT = 3.4, 1.8  # of a page number in a tile, 9 pt
MARGIN = 0.1  # half a pen: the outermost lines are drawn whole

Pieces = Mapping[tuple[str, str | None], Piece]  # by name and size


@dataclass(frozen=True, slots=True)
class PageThumbnail:
    """A template page drawn small; `size` where all on it belongs to one size."""

    page: int
    size: str | None
    figure: Figure


@dataclass(frozen=True, slots=True)
class SheetDrawing:
    """A tiled sheet put together: the piece across its pages, and where each page's number stands, clear of lines.

    `width` mm are for it and its caption.
    """

    piece: str
    size: str | None  # None of a nest
    figure: Figure
    width: float
    numbers: tuple[tuple[int, Box], ...]


@dataclass(frozen=True, slots=True)
class PagePlan:
    """All thumbnails at one scale, `pitch` mm from one to the next; the drawings of sheets at another."""

    thumbnails: tuple[PageThumbnail, ...]
    sheets: tuple[SheetDrawing, ...]
    pitch: float
    height: float  # mm that all of it takes, captions included


def page_plan(pages: Sequence[TemplatePage], pieces: Pieces, paper: Paper, room: float = 0.0) -> PagePlan:
    """The plan of an edition's template pages, as large as `room` mm below one another allow, where these are enough to
    read it by; else as large as a page of text has room for.

    Where there is none for a drawing of every page, tiles are shown in the drawings of their sheets alone.
    """
    tiled = [page for page in pages if page.rows * page.columns > 1]
    sheets = [list(tiles) for _, tiles in groupby(tiled, key=lambda page: page.sheet)]
    whole = [page for page in pages if page.rows * page.columns == 1]
    tried = [(pages, step, room) for step in STEPS[:READABLE]]
    tried += [(some, step, HEIGHT) for some, step in product((pages, whole), STEPS)]
    shown, (wide, tile) = next(
        ((some, step) for some, step, height in tried if _height(some, sheets, paper, *step) <= height),
        (pages, STEPS[-1]),
    )
    return PagePlan(
        tuple(_thumbnail(page, pieces, paper, wide / paper.width) for page in shown),
        tuple(_sheet(tiles, pieces, tile / tiles[0].frame.width, always=shown is not pages) for tiles in sheets),
        max(wide, LEAST) + GAP,
        _height(shown, sheets, paper, wide, tile),
    )


def _height(
    pages: Sequence[TemplatePage], sheets: Sequence[Sequence[TemplatePage]], paper: Paper, wide: float, tile: float
) -> float:
    """What the plan takes at a step, mm; more than any page has where a sheet is too wide."""
    in_a_row = int((WIDTH + GAP) // (max(wide, LEAST) + GAP))
    captions = CAPTION * (2 if any(_size(page) is not None for page in pages) else 1)
    height = -(-len(pages) // in_a_row) * (wide / paper.width * paper.height + captions + GAP)
    taken, tallest = WIDTH, 0.0
    for tiles in sheets:
        width = tile * tiles[0].columns
        if width > WIDTH:
            return 2 * HEIGHT
        if taken + max(width, LEAST_SHEET) > WIDTH:
            height, taken, tallest = height + tallest, 0.0, 0.0
        taken += max(width, LEAST_SHEET) + GAP
        tall = tile / tiles[0].frame.width * tiles[0].frame.height * tiles[0].rows
        tallest = max(tallest, tall + 2 * CAPTION + GAP)
    return height + tallest


def _size(page: TemplatePage) -> str | None:
    sizes = {placed.size for placed in page.placed}
    return sizes.pop() if len(sizes) == 1 else None


def _thumbnail(page: TemplatePage, pieces: Pieces, paper: Paper, scale: float) -> PageThumbnail:
    """The paper, the frame of a tile, what stands on the page to check the printer, and the cut lines."""

    def small(point: Point) -> Point:
        return Point(point.x * scale + MARGIN, point.y * scale + MARGIN)

    strokes = [Stroke(_rectangle(small(Point(0.0, 0.0)), small(Point(paper.width, paper.height))), Style.FRAME, True)]
    if page.rows * page.columns > 1:
        strokes.append(Stroke(_frame(page.frame, scale), Style.FRAME, True))
    if page.check_block is not None:
        corner = Point(page.check_block.left, page.check_block.top)
        for stroke in check_block_figure().strokes:
            strokes += small_strokes(
                stroke.path, stroke.path.box, scale, lambda spot: small(spot + corner), Style.FRAME
            )
    for together in page.together:
        for placed in together:
            strokes += _placed_strokes(placed, pieces, scale, _style(placed, together, pieces))
    size = 2 * MARGIN
    return PageThumbnail(
        page.number,
        _size(page),
        Figure(tuple(strokes), paper.width * scale + size, paper.height * scale + size),
    )


def _style(placed: PlacedPiece, together: Sequence[PlacedPiece], pieces: Pieces) -> Style:
    """Of sizes on one another the largest is as heavy as any piece, the others are thin."""
    largest = max(together, key=lambda one: pieces[(one.piece, one.size)].cut_line.length)
    return Style.PLAN if placed is largest else Style.FRAME


def _placed_strokes(placed: PlacedPiece, pieces: Pieces, scale: float, style: Style) -> list[Stroke]:
    """What a page shows of a piece's cut line, looked for on the sheet, where y runs up."""
    frame, shift = placed.clip, placed.shift
    left, top = frame.left - shift.x, shift.y - frame.top
    within = Box(left, top - frame.height, left + frame.width, top)

    def small(spot: Point) -> Point:
        return Point((spot.x + shift.x) * scale + MARGIN, (shift.y - spot.y) * scale + MARGIN)

    line = pieces[(placed.piece, placed.size)].cut_line.moved(placed.movement)
    return small_strokes(line, within, scale, small, style)


def _frame(frame: Frame, scale: float) -> Path:
    left, top = frame.left * scale + MARGIN, frame.top * scale + MARGIN
    return _rectangle(Point(left, top), Point(left + frame.width * scale, top + frame.height * scale))


def _rectangle(first: Point, second: Point) -> Path:
    return closed_path((first, Point(second.x, first.y), second, Point(first.x, second.y)))


def _sheet(tiles: Sequence[TemplatePage], pieces: Pieces, scale: float, always: bool) -> SheetDrawing:
    """The printed tiles edge to edge with the piece across them; pages left out of the sheet stay white.

    A number that finds no room clear of the piece's line is left out, unless it must `always` stand: where no thumbnail
    bears it.
    """
    first = tiles[0]
    placed, frame = first.placed[0], first.frame
    width, height = frame.width * first.columns, frame.height * first.rows

    def small(spot: Point) -> Point:
        return Point(spot.x * scale + MARGIN, (height - spot.y) * scale + MARGIN)

    sheet = Box(0.0, 0.0, width, height)
    outline = [
        stroke
        for one in first.placed
        for stroke in small_strokes(
            pieces[(one.piece, one.size)].cut_line.moved(one.movement),
            sheet,
            scale,
            small,
            _style(one, first.placed, pieces),
        )
    ]
    boxes = [(tile, _tile_box(tile, scale)) for tile in tiles]
    strokes = [
        Stroke(_rectangle(Point(box.left, box.bottom), Point(box.right, box.top)), Style.FRAME, True)
        for _, box in boxes
    ]
    paths = [stroke.path for stroke in outline]
    return SheetDrawing(
        placed.piece,
        _size(first),
        Figure((*strokes, *outline), width * scale + 2 * MARGIN, height * scale + 2 * MARGIN),
        max(width * scale + 2 * MARGIN, LEAST_SHEET),
        tuple(
            (tile.number, spot)
            for tile, box in boxes
            if (spot := _number_box(box, paths, len(tiles), always)) is not None
        ),
    )


def _tile_box(tile: TemplatePage, scale: float) -> Box:
    """A tile in the drawing: y runs down, so the box's bottom is its upper edge."""
    width, height = tile.frame.width * scale, tile.frame.height * scale
    left, top = (tile.column - 1) * width + MARGIN, (tile.row - 1) * height + MARGIN
    return Box(left, top, left + width, top + height)


def _number_box(tile: Box, lines: Sequence[Path], count: int, always: bool) -> Box | None:
    """Where a tile's number stands: in its middle or near it, off the piece's line; None where there is no room."""
    size = (DIGIT * (2 if count < 60 else 3), NUMBER_HEIGHT)
    middle = Point((tile.left + tile.right) / 2, (tile.bottom + tile.top) / 2)
    area = _rectangle(Point(tile.left, tile.bottom), Point(tile.right, tile.top))
    free = place_box(area, lines, (), size, tile, 0.3, middle)
    if free is not None or not always:
        return free
    return Box(middle.x - size[0] / 2, middle.y - size[1] / 2, middle.x + size[0] / 2, middle.y + size[1] / 2)
