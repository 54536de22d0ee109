"""The lines of a PDF as PDFium reads them, a library that takes no part in writing: in mm, y down, page by page."""

import ctypes
import functools
import itertools
import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

import pypdfium2
import pypdfium2.raw as pdfium
import shapely

MM = 25.4 / 72

Spot = tuple[float, float]
Matrix = tuple[float, float, float, float, float, float]


@dataclass(frozen=True)
class Command:
    """One operator of a path: `m`, `l` or `c`, and its points; `c` has three."""

    operator: str
    points: tuple[Spot, ...]


@dataclass(frozen=True)
class ReadPath:
    """One path as it lies on its page. `clip` is left, top, right, bottom; `form` counts the page's forms from 0."""

    commands: tuple[Command, ...]
    closed: bool
    stroked: bool
    filled: bool
    width: float  # of the pen, mm
    dashes: tuple[float, ...]  # mm
    clip: tuple[float, float, float, float] | None
    form: int | None

    def flattened(self, steps: int = 96) -> tuple[Spot, ...]:
        """Points along the path: curves in so many steps, a closed path back to its start."""
        spots: list[Spot] = []
        for command in self.commands:
            if command.operator == "c":
                start = spots[-1]
                spots += [_cubic(start, *command.points, at / steps) for at in range(1, steps + 1)]
            else:
                spots.append(command.points[0])
        return (*spots, spots[0]) if self.closed and spots[-1] != spots[0] else tuple(spots)

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, top, right, bottom."""
        spots = self.flattened()
        xs, ys = [x for x, _ in spots], [y for _, y in spots]
        return min(xs), min(ys), max(xs), max(ys)

    @property
    def ink(self) -> shapely.Geometry:
        """What it blackens: a line in its width, dashes as if drawn through; an area, holes left out; what its clip shows."""
        parts = [replace(self, commands=part).flattened(24) for part in self._parts()]
        lines = [shapely.LineString(part).buffer(self.width / 2) for part in parts if self.stroked and len(part) > 1]
        areas = [shapely.make_valid(shapely.Polygon(part)) for part in parts if self.filled and len(part) > 3]
        # Even and odd: a border is an outer and an inner ring.
        ink = shapely.union_all([*lines, functools.reduce(shapely.symmetric_difference, areas, shapely.Polygon())])
        return ink if self.clip is None else ink.intersection(shapely.box(*self.clip))

    def _parts(self) -> Iterator[tuple[Command, ...]]:
        starts = [at for at, command in enumerate(self.commands) if command.operator == "m"]
        for start, end in itertools.pairwise((*starts, len(self.commands))):
            yield self.commands[start:end]

    @property
    def length(self) -> float:
        """How long it is."""
        spots = self.flattened()
        return sum(math.dist(first, second) for first, second in itertools.pairwise(spots))


@dataclass(frozen=True)
class ReadPage:
    """A page: its size and its paths, in drawing order."""

    width: float
    height: float
    paths: tuple[ReadPath, ...]


def lines_of(pdf_bytes: bytes) -> tuple[ReadPage, ...]:
    """Every path of every page, also those within forms."""
    with pypdfium2.PdfDocument(pdf_bytes) as document:
        return tuple(_page(document[at]) for at in range(len(document)))


def ink_of(pdf_bytes: bytes, page: int, pixels_per_mm: float = 4.0) -> list[Spot]:
    """The middles of all dark pixels of a page as it is shown, mm, y down: what is clipped away is not there."""
    with pypdfium2.PdfDocument(pdf_bytes) as document:
        shown = document[page].render(scale=MM * pixels_per_mm, grayscale=True).to_numpy()
    rows, columns = (shown.reshape(shown.shape[0], -1) < 128).nonzero()
    return [
        ((column + 0.5) / pixels_per_mm, (row + 0.5) / pixels_per_mm)
        for row, column in zip(rows.tolist(), columns.tolist(), strict=True)
    ]


def blackness_of(pdf_bytes: bytes) -> list[float]:
    """How much of every page is black, per cent: the mean over all its dots at 100 to the inch, greys in part."""
    with pypdfium2.PdfDocument(pdf_bytes) as document:
        shown = (document[at].render(scale=100 / 72, grayscale=True).to_numpy() for at in range(len(document)))
        return [float(100 * (1 - page.mean() / 255)) for page in shown]


def _cubic(start: Spot, first: Spot, second: Spot, end: Spot, part: float) -> Spot:
    rest = 1 - part
    weights = (rest**3, 3 * rest**2 * part, 3 * rest * part**2, part**3)
    x, y = (
        sum(weight * spot[axis] for weight, spot in zip(weights, (start, first, second, end), strict=True))
        for axis in (0, 1)
    )
    return x, y


def _page(page: pypdfium2.PdfPage) -> ReadPage:
    width, height = page.get_size()
    to_paper: Matrix = (MM, 0.0, 0.0, -MM, 0.0, height * MM)
    found: list[ReadPath] = []
    forms = 0
    for at in range(pdfium.FPDFPage_CountObjects(page.raw)):
        thing = pdfium.FPDFPage_GetObject(page.raw, at)
        kind = pdfium.FPDFPageObj_GetType(thing)
        if kind == pdfium.FPDF_PAGEOBJ_PATH:
            found.append(_path(thing, to_paper, _clip(thing, to_paper), None))
        elif kind == pdfium.FPDF_PAGEOBJ_FORM:
            inner = _then(_matrix(thing), to_paper)
            clip = _clip(thing, to_paper)
            found += [_path(one, inner, clip, forms) for one in _inside(thing)]
            forms += 1
    return ReadPage(width * MM, height * MM, tuple(found))


def _inside(form: object) -> Iterator[object]:
    for at in range(pdfium.FPDFFormObj_CountObjects(form)):
        thing = pdfium.FPDFFormObj_GetObject(form, at)
        if pdfium.FPDFPageObj_GetType(thing) == pdfium.FPDF_PAGEOBJ_PATH:
            yield thing


def _matrix(thing: object) -> Matrix:
    raw = pdfium.FS_MATRIX()
    assert pdfium.FPDFPageObj_GetMatrix(thing, raw)
    return (raw.a, raw.b, raw.c, raw.d, raw.e, raw.f)


def _then(first: Matrix, second: Matrix) -> Matrix:
    """The movement that does one after the other."""
    a, b, c, d, e, f = first
    right, up, origin = (_moved((a, b), second, 0.0), _moved((c, d), second, 0.0), _moved((e, f), second))
    return (*right, *up, *origin)


def _moved(spot: Spot, matrix: Matrix, shifted: float = 1.0) -> Spot:
    a, b, c, d, e, f = matrix
    return (spot[0] * a + spot[1] * c + e * shifted, spot[0] * b + spot[1] * d + f * shifted)


def _path(thing: object, outer: Matrix, clip: tuple[float, float, float, float] | None, form: int | None) -> ReadPath:
    whole = _then(_matrix(thing), outer)
    scale = math.sqrt(abs(whole[0] * whole[3] - whole[1] * whole[2]))
    segments = [pdfium.FPDFPath_GetPathSegment(thing, at) for at in range(pdfium.FPDFPath_CountSegments(thing))]
    fill, stroke, pen = ctypes.c_int(), ctypes.c_int(), ctypes.c_float()
    assert pdfium.FPDFPath_GetDrawMode(thing, fill, stroke)
    assert pdfium.FPDFPageObj_GetStrokeWidth(thing, pen)
    return ReadPath(
        commands=tuple(_commands(segments, whole)),
        closed=any(pdfium.FPDFPathSegment_GetClose(segment) for segment in segments),
        stroked=bool(stroke.value),
        filled=bool(fill.value),
        width=pen.value * scale,
        dashes=tuple(dash * scale for dash in _dashes(thing)),
        clip=clip,
        form=form,
    )


def _dashes(thing: object) -> list[float]:
    count = pdfium.FPDFPageObj_GetDashCount(thing)
    if count <= 0:
        return []
    dashes = (ctypes.c_float * count)()
    assert pdfium.FPDFPageObj_GetDashArray(thing, dashes, count)
    return list(dashes)


def _commands(segments: list[object], matrix: Matrix) -> Iterator[Command]:
    """PDFium hands out the three points of a curve one by one."""
    curve: list[Spot] = []
    for segment in segments:
        spot = _spot(segment, matrix)
        kind = pdfium.FPDFPathSegment_GetType(segment)
        if kind == pdfium.FPDF_SEGMENT_BEZIERTO:
            curve.append(spot)
            if len(curve) == 3:
                yield Command("c", tuple(curve))
                curve = []
        else:
            yield Command("m" if kind == pdfium.FPDF_SEGMENT_MOVETO else "l", (spot,))


def _spot(segment: object, matrix: Matrix) -> Spot:
    x, y = ctypes.c_float(), ctypes.c_float()
    assert pdfium.FPDFPathSegment_GetPoint(segment, x, y)
    return _moved((x.value, y.value), matrix)


def _clip(thing: object, to_paper: Matrix) -> tuple[float, float, float, float] | None:
    """The box that all clip paths of an object leave, or None where there is none."""
    clips = pdfium.FPDFPageObj_GetClipPath(thing)
    boxes: list[tuple[float, float, float, float]] = []
    for at in range(max(pdfium.FPDFClipPath_CountPaths(clips), 0)):
        spots = [
            _spot(pdfium.FPDFClipPath_GetPathSegment(clips, at, segment), to_paper)
            for segment in range(pdfium.FPDFClipPath_CountPathSegments(clips, at))
        ]
        if spots:
            xs, ys = [x for x, _ in spots], [y for _, y in spots]
            boxes.append((min(xs), min(ys), max(xs), max(ys)))
    if not boxes:
        return None
    left, top = max(one[0] for one in boxes), max(one[1] for one in boxes)
    return left, top, min(one[2] for one in boxes), min(one[3] for one in boxes)
