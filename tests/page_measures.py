"""What a page is measured by: texts and lines that come too near each other, texts that leave where they belong."""

import io
import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import pikepdf
import shapely

from tests.pdfium_reading import ReadPage, ReadPath
from tests.pdfium_texts import InkText

# Ink alone is measured, so nothing is allowed for a font's empty height. Smallest prints of ours (8 pt set 1.25 high)
# leave 0.9 mm between lines; home printers spread a dot by about 0.1 mm on either side (common practice, no source),
# and half a millimetre of white is seen at arm's length.
LINES_APART = 0.5
# Two runs in one line: a bold word and the comma behind it stand as near as 0.23 mm.
RUNS_APART = 0.15
# From a line to a text: its ink touches nothing even where toner spreads on both sides.
CLEAR_OF_LINES = 0.35
CELLS_APART = 1.0  # about a word space at 11 pt: nearer, two cells read as one sentence
IN_FRAME = 1.0  # what scissors that miss a label's frame a little leave whole

Box = tuple[float, float, float, float]  # left, top, right, bottom


def box_of(text: InkText) -> shapely.Polygon:
    """Where the ink of a text is."""
    return shapely.box(text.left, text.top, text.right, text.bottom)


def too_near(texts: Sequence[InkText]) -> list[tuple[str, str]]:
    """The pairs of texts that lie on each other or nearly do."""
    found = []
    for one, other in itertools.combinations(texts, 2):
        across = max(one.left, other.left) - min(one.right, other.right)
        down = max(one.top, other.top) - min(one.bottom, other.bottom)
        in_one_line = abs(one.baseline - other.baseline) < 0.05
        if max(across, down) < (RUNS_APART if in_one_line else LINES_APART):
            found.append((one.text, other.text))
    return found


def leaving(texts: Sequence[InkText], box: Box) -> list[str]:
    """The texts with ink outside a box; 0.1 mm is rounding, of letters that overhang their place by a hair."""
    left, top, right, bottom = box
    return [
        text.text
        for text in texts
        if text.left < left - 0.1 or text.top < top - 0.1 or text.right > right + 0.1 or text.bottom > bottom + 0.1
    ]


def crossed(texts: Sequence[InkText], page: ReadPage) -> list[tuple[str, Box]]:
    """The texts on or beside which a line lies, and the box of that line. Underlines belong to their text, and a
    leader ends at its label."""
    tree = shapely.STRtree([box_of(text) for text in texts])
    found = []
    for path in page.paths:
        ink = path.ink
        if ink.is_empty:
            continue
        for at in tree.query(ink, predicate="dwithin", distance=CLEAR_OF_LINES):
            if not _underlines(path, texts[at]) and not _leads_to(path, texts[at]):
                found.append((texts[at].text, tuple(round(side, 1) for side in ink.bounds)))
    return found


def _underlines(path: ReadPath, text: InkText) -> bool:
    left, top, right, bottom = path.box
    below = text.baseline < top < text.baseline + 1.0
    return path.stroked and bottom - top < 0.01 and below and left < text.left + 0.5 and right > text.right - 0.5


def _leads_to(path: ReadPath, text: InkText) -> bool:
    """True for a thin straight line, no part of a piece, that begins at the text and leads away from it."""
    spots = path.flattened()
    if path.width > 0.2 or len(spots) != 2 or path.dashes or path.form == 0:
        return False
    box, line = box_of(text), shapely.LineString(spots)
    return bool(box.distance(shapely.Point(spots[0])) < 1.5 and box.buffer(-0.3).disjoint(line))


def frames_of(page: ReadPage, width: float, height: float) -> list[Box]:
    """The rectangles of a size that are framed on a page, within 0.5 mm; a frame is filled, not drawn with a pen."""
    framed = [path for path in page.paths if not path.ink.is_empty and not path.stroked]
    bounds = {tuple(round(side, 2) for side in path.ink.bounds) for path in framed}
    return sorted(box for box in bounds if abs(box[2] - box[0] - width) < 0.5 and abs(box[3] - box[1] - height) < 0.5)


@dataclass(frozen=True)
class Cell:
    """A cell of a table and what stands in it; column and row count from 0, the row within its page."""

    column: int
    row: int
    rows: int
    columns: int
    texts: tuple[InkText, ...]


def tables_of(pdf_bytes: bytes, inks: Sequence[Sequence[InkText]]) -> list[list[Cell]]:
    """The cells of every table that hold text, as the tags of the PDF tell; a table that goes on overleaf is two."""
    tagged: dict[tuple[int, int], list[InkText]] = {}
    for at, texts in enumerate(inks):
        for text in texts:
            tagged.setdefault((at, text.tag), []).append(text)
    found = []
    with pikepdf.open(io.BytesIO(pdf_bytes)) as pdf:
        pages = {page.obj.objgen: at for at, page in enumerate(pdf.pages)}
        for table in _elements(pdf.Root.StructTreeRoot, "/Table"):
            cells: dict[int, list[Cell]] = {}
            for column, row, rows, columns, cell in _laid_out(list(_elements(table, "/TR"))):
                texts_of: dict[int, list[InkText]] = {}
                for place in _contents(cell, pages):
                    texts_of.setdefault(place[0], []).extend(tagged.get(place, ()))
                for page, texts in texts_of.items():
                    cells.setdefault(page, []).append(Cell(column, row, rows, columns, tuple(texts)))
            found += list(cells.values())
    return found


def _laid_out(rows: Sequence[pikepdf.Object]) -> Iterator[tuple[int, int, int, int, pikepdf.Object]]:
    """(column, row, how many rows and columns, cell): a cell of several rows pushes those of the rows below it to the right."""
    taken: set[tuple[int, int]] = set()
    for at, row in enumerate(rows):
        column = 0
        for cell in _elements(row, "/TD", "/TH"):
            while (column, at) in taken:
                column += 1
            deep = int(cell.get("/A", {}).get("/RowSpan", 1))
            wide = int(cell.get("/A", {}).get("/ColSpan", 1))
            taken |= {(column + over, at + down) for down in range(deep) for over in range(wide)}
            yield column, at, deep, wide, cell


def _elements(element: pikepdf.Object, *kinds: str) -> Iterator[pikepdf.Object]:
    for kid in _kids(element):
        if isinstance(kid, pikepdf.Dictionary):
            if str(kid.get("/S")) in kinds:
                yield kid
            else:
                yield from _elements(kid, *kinds)


def _kids(element: pikepdf.Object) -> list[pikepdf.Object]:
    kids = element.get("/K", [])
    return list(kids) if isinstance(kids, pikepdf.Array) else [kids]


def _contents(element: pikepdf.Object, pages: dict[tuple[int, int], int]) -> Iterator[tuple[int, int]]:
    """(page from 0, marked content) of all that an element holds."""
    for kid in _kids(element):
        if isinstance(kid, pikepdf.Dictionary):
            if "/MCID" in kid:
                yield pages[kid.get("/Pg", element.get("/Pg")).objgen], int(kid.MCID)
            else:
                yield from _contents(kid, pages)
        else:
            yield pages[element.Pg.objgen], int(kid)


def leaving_cells(table: Sequence[Cell], right: float) -> list[str]:
    """The texts that reach out of their column into the next (the last: beyond `right`, mm), or of their row into the
    row below. A column begins where its foremost text does, a row where its uppermost does."""
    held = [(cell, text) for cell in table for text in cell.texts]
    lefts: dict[int, float] = {}
    tops: dict[int, float] = {}
    for cell, text in held:
        lefts[cell.column] = min(text.left, lefts.get(cell.column, text.left))
        tops[cell.row] = min(text.top, tops.get(cell.row, text.top))
    found = []
    for cell, text in held:
        beyond = [left for column, left in lefts.items() if column >= cell.column + cell.columns]
        limit = min((left - CELLS_APART for left in beyond), default=right + 0.1)
        floor = min((top for row, top in tops.items() if row >= cell.row + cell.rows), default=float("inf"))
        if text.right > limit or text.bottom > floor - LINES_APART:
            found.append(text.text)
    return found
