"""Lines and texts of a finished PDF, read back with pdfminer.six: millimetres on paper, y down from its upper left."""

import itertools
import math
from collections.abc import Iterator
from dataclasses import dataclass, field
from io import BytesIO
from typing import Any

from pdfminer.high_level import extract_pages
from pdfminer.layout import LAParams, LTPage, LTTextContainer, LTTextLine
from pdfminer.pdfdevice import PDFDevice
from pdfminer.pdfinterp import PDFPageInterpreter, PDFResourceManager
from pdfminer.pdfpage import PDFPage
from pdfminer.utils import apply_matrix_pt

MM = 25.4 / 72

Spot = tuple[float, float]
Bounds = tuple[float, float, float, float]  # left, top, right, bottom


@dataclass(frozen=True, slots=True)
class Operator:
    """One drawing operator: m, l, c or h, and its points."""

    name: str
    points: tuple[Spot, ...]


@dataclass(frozen=True, slots=True)
class DrawnPath:
    """A path as drawn; `clip` is the rectangle outside which nothing of it shows. Filled only: width 0."""

    operators: tuple[Operator, ...]
    width_mm: float
    dashes_mm: tuple[float, ...]
    clip: Bounds

    @property
    def has_curves(self) -> bool:
        """True when something of it is a cubic."""
        return self.count("c") > 0

    @property
    def dashed(self) -> bool:
        """True when it is no continuous line."""
        return bool(self.dashes_mm)

    @property
    def closed(self) -> bool:
        """True when its ends are joined."""
        return self.count("h") > 0

    def count(self, name: str) -> int:
        """How many operators of one name it has."""
        return sum(operator.name == name for operator in self.operators)

    @property
    def straights(self) -> tuple[tuple[Spot, Spot], ...]:
        """Its straight stretches, the closing one included, without any of no length."""
        stretches, at, start = [], (0.0, 0.0), (0.0, 0.0)
        for operator in self.operators:
            end = start if operator.name == "h" else operator.points[-1]
            if operator.name in "lh" and math.dist(at, end) > 1e-3:
                stretches.append((at, end))
            if operator.name == "m":
                start = end
            at = end
        return tuple(stretches)

    def followed(self, step: float = 0.5) -> tuple[Spot, ...]:
        """Spots along the path, at most about `step` mm apart; cubics by at least 64 parameters each."""
        spots: list[Spot] = []
        start = (0.0, 0.0)
        for operator in self.operators:
            if operator.name == "m":
                start = operator.points[0]
                spots.append(start)
            else:
                controls = (spots[-1], *(operator.points or (start,)))
                spots += _along(controls, step)
        return tuple(spots)


def _along(controls: tuple[Spot, ...], step: float) -> Iterator[Spot]:
    reach = sum(math.dist(*pair) for pair in itertools.pairwise(controls))
    count = max(math.ceil(reach / step), 64 if len(controls) == 4 else 1)
    for at in range(1, count + 1):
        spots, part = list(controls), at / count
        while len(spots) > 1:  # de Casteljau
            spots = [(x + (u - x) * part, y + (v - y) * part) for (x, y), (u, v) in itertools.pairwise(spots)]
        yield spots[0]


@dataclass(frozen=True, slots=True)
class DrawnPage:
    """The size of a page and its paths in drawing order."""

    width: float
    height: float
    paths: tuple[DrawnPath, ...]


@dataclass(frozen=True, slots=True)
class ReadText:
    """A line of text and its box."""

    text: str
    left: float
    top: float
    right: float
    bottom: float


def pages_of(pdf: bytes) -> tuple[DrawnPage, ...]:
    """Every page with the paths drawn on it, those of form XObjects too."""
    manager = PDFResourceManager()
    device = _Pen(manager)
    interpreter = _Reader(manager, device)
    pages = []
    for page in PDFPage.get_pages(BytesIO(pdf)):
        left, low, right, high = page.mediabox
        device.begin((left, low, right, high))
        interpreter.process_page(page)
        pages.append(DrawnPage((right - left) * MM, (high - low) * MM, tuple(device.paths)))
    return tuple(pages)


def lines_of(pdf: bytes) -> list[tuple[DrawnPath, ...]]:
    """The paths of every page."""
    return [page.paths for page in pages_of(pdf)]


def texts_of(pdf: bytes, joined: float = 2.0) -> list[tuple[ReadText, ...]]:
    """The lines of text of every page, with their boxes; what lies further apart than `joined` signs is two."""
    return [tuple(_texts(page)) for page in extract_pages(BytesIO(pdf), laparams=LAParams(char_margin=joined))]


def _texts(page: LTPage) -> Iterator[ReadText]:
    for container in page:
        if not isinstance(container, LTTextContainer):
            continue
        for line in container:
            if isinstance(line, LTTextLine):
                left, low, right, high = line.bbox
                box = (left * MM, (page.height - high) * MM, right * MM, (page.height - low) * MM)
                yield ReadText(line.get_text().strip(), *box)


@dataclass
class _Pen(PDFDevice):
    """Keeps what is painted, and the clip that holds while it is painted."""

    rsrcmgr: PDFResourceManager
    ctm: Any = None
    paths: list[DrawnPath] = field(default_factory=list)
    clips: list[Bounds] = field(default_factory=list)
    paper: Bounds = (0.0, 0.0, 0.0, 0.0)

    def begin(self, mediabox: Bounds) -> None:
        left, low, right, high = mediabox
        self.paper, self.paths = mediabox, []
        self.clips = [(0.0, 0.0, (right - left) * MM, (high - low) * MM)]

    def paint_path(self, graphicstate: Any, stroke: bool, fill: bool, evenodd: bool, path: Any) -> None:
        if not path:
            return
        scale = math.hypot(self.ctm[0], self.ctm[1]) * MM
        dashes = graphicstate.dash[0] if graphicstate.dash else ()
        self.paths.append(
            DrawnPath(
                self.operators(path),
                graphicstate.linewidth * MM if stroke else 0.0,
                tuple(dash * scale for dash in dashes),
                self.clips[-1],
            )
        )

    def operators(self, path: Any) -> tuple[Operator, ...]:
        return tuple(Operator(name, tuple(self._on_paper(x, y) for x, y in _pairs(numbers))) for name, *numbers in path)

    def _on_paper(self, x: float, y: float) -> Spot:
        across, up = apply_matrix_pt(self.ctm, (x, y))
        # Page space has its origin at the lower left corner of the media box.
        return (across * MM, (self.paper[3] - self.paper[1] - up) * MM)

    def narrow(self, path: Any) -> None:
        """Clips by a rectangle; any other shape would need more than bounds, and is refused."""
        spots = [spot for operator in self.operators(path) for spot in operator.points]
        across, down = sorted({round(x, 4) for x, _ in spots}), sorted({round(y, 4) for _, y in spots})
        if len(across) != 2 or len(down) != 2:
            raise ValueError(f"a clip that is no upright rectangle: {path}")
        left, top, right, bottom = self.clips[-1]
        self.clips[-1] = (
            max(left, across[0]),
            max(top, down[0]),
            min(right, across[1]),
            min(bottom, down[1]),
        )


def _pairs(numbers: list[float]) -> Iterator[Spot]:
    return zip(numbers[::2], numbers[1::2], strict=True)


class _Reader(PDFPageInterpreter):
    """The library's interpreter, which passes over clips, made to keep them."""

    device: _Pen

    def do_q(self) -> None:
        super().do_q()
        self.device.clips.append(self.device.clips[-1])

    def do_Q(self) -> None:
        super().do_Q()
        self.device.clips.pop()

    def do_W(self) -> None:
        self.device.narrow(self.curpath)

    def do_W_a(self) -> None:
        self.device.narrow(self.curpath)
