"""Template lines put into a laid-out PDF: placeholders become form XObjects that all tiles share.

A placeholder page holds an empty drawing in millimetres, y down, whose only path starts at a number that says which
lines belong there. In the page's stream that start is one token; it is replaced by a clip, a movement, and the name
of a form. So the lines are exact, drawn once however many tiles show them, and tagged with the drawing's title.
"""

import math
import re
from collections.abc import Sequence
from functools import reduce
from html import escape

import pydyf

from publisher.edition.pdf_layers import Layers
from publisher.figures import Figure, pdf_operators
from publisher.frozen import dataclass
from publisher.geometry import Box, Point
from publisher.template_pages import Frame, Paper, PlacedPiece

FIRST_SENTINEL = 99000
SENTINEL = re.compile(rb"-(\d{5,7}) 7 m")
ORIGIN = Point(0.0, 0.0)
LINE_ROOM = 1  # mm: more than half the widest pen


@dataclass(frozen=True, slots=True)
class DrawnForm:
    """One figure on a page: as it stands (paper coordinates), shifted, or moved as a placed piece is.

    `sizes` are those whose layers show it; none: it always shows.
    """

    figure: Figure
    placed: PlacedPiece | None = None
    shift: Point = ORIGIN
    sizes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class DrawingOrder:
    """All lines of one placeholder, in drawing order."""

    forms: tuple[DrawnForm, ...]


def sentinel_svg(paper: Paper, key: int, title: str) -> str:
    """The placeholder of drawing order `key`, covering the whole page; `title` is its alternative text."""
    size = f'width="{paper.width}mm" height="{paper.height}mm" viewBox="0 0 {paper.width} {paper.height}"'
    return f'<svg {size}><title>{escape(title)}</title><path d="M-{FIRST_SENTINEL + key} 7"/></svg>'


def draw_forms(pdf: pydyf.PDF, orders: Sequence[DrawingOrder], sizes: Sequence[str] = ()) -> None:
    """Replaces every placeholder's token by its lines; `sizes` are those of the pattern that layers are made of.

    Raises RuntimeError where a placeholder is missing, stands twice, or has no order: a page would stay without lines.
    """
    standing = _find_placeholders(pdf)
    if set(standing) - set(range(len(orders))):
        raise RuntimeError(f"{len(standing)} placeholders stand in the pages, for {len(orders)} drawing orders")
    forms: dict[tuple[Figure, tuple[str, ...]], str] = {}
    resources = _resources(pdf)
    layers = Layers(pdf, resources, sizes)
    for key, order in enumerate(orders):
        places = standing.get(key, [])
        if len(places) != 1:
            raise RuntimeError(f"placeholder {key} stands {len(places)} times in the pages")
        stream, at = places[0]
        # The placeholder's own path is ended before the forms, and an empty one left for what the library does with it.
        stream.stream[at] = b"\n".join((b"n", *_calls(pdf, resources, order, forms, layers), b"0 0 m"))
    layers.put_texts()
    layers.list_groups()


def _resources(pdf: pydyf.PDF) -> pydyf.Dictionary:
    """The dictionary that all pages share."""
    return next(
        thing for thing in pdf.objects if isinstance(thing, pydyf.Dictionary) and "XObject" in thing and "Font" in thing
    )


def _find_placeholders(pdf: pydyf.PDF) -> dict[int, list[tuple[pydyf.Stream, int]]]:
    """Every placeholder's stream and its place in it, by the key of its drawing order."""
    found: dict[int, list[tuple[pydyf.Stream, int]]] = {}
    for stream in pdf.objects:
        if isinstance(stream, pydyf.Stream):
            for at, item in enumerate(stream.stream):
                token = SENTINEL.fullmatch(item) if isinstance(item, bytes) else None
                if token is not None and int(token[1]) >= FIRST_SENTINEL:
                    found.setdefault(int(token[1]) - FIRST_SENTINEL, []).append((stream, at))
    return found


def _calls(
    pdf: pydyf.PDF,
    resources: pydyf.Dictionary,
    order: DrawingOrder,
    forms: dict[tuple[Figure, tuple[str, ...]], str],
    layers: Layers,
) -> list[bytes]:
    lines: list[bytes] = []
    for drawn in order.forms:
        name = forms.get((drawn.figure, drawn.sizes))
        if name is None:
            name = f"template{len(forms)}"
            forms[(drawn.figure, drawn.sizes)] = name
            layer = layers.reference(drawn.sizes) if drawn.sizes else None
            resources["XObject"][name] = _form(pdf, drawn.figure, layer)
        lines += [b"q", *_where(drawn), f"/{name} Do".encode(), b"Q"]
    return lines


def _form(pdf: pydyf.PDF, figure: Figure, layer: bytes | None) -> bytes:
    extra = pydyf.Dictionary(
        {
            "Type": "/XObject",
            "Subtype": "/Form",
            "BBox": pydyf.Array(_bounds(figure)),
            "Resources": pydyf.Dictionary(),
        }
    )
    if layer is not None:
        extra["OC"] = layer
    form = pydyf.Stream([pdf_operators(figure)], extra, compress=True)
    pdf.add_object(form)
    reference: bytes = form.reference
    return reference


def _bounds(figure: Figure) -> list[float]:
    """Room for every line in its full width: a reader clips a form at its bounds."""
    boxes = [stroke.path.box for stroke in figure.strokes] or [Box(0.0, 0.0, 0.0, 0.0)]
    whole = reduce(Box.joined, boxes)
    low, high = (whole.left, whole.bottom), (whole.right, whole.top)
    return [*(math.floor(side) - LINE_ROOM for side in low), *(math.ceil(side) + LINE_ROOM for side in high)]


def _where(drawn: DrawnForm) -> list[bytes]:
    """Clip and movement. The page's own transformation is in millimetres with y down; pieces have y up."""
    placed = drawn.placed
    if placed is None:
        return [f"1 0 0 1 {_number(drawn.shift.x)} {_number(drawn.shift.y)} cm".encode()]
    origin = placed.on_paper(Point(0.0, 0.0))
    right, up = placed.on_paper(Point(1.0, 0.0)) - origin, placed.on_paper(Point(0.0, 1.0)) - origin
    matrix = " ".join(_number(value) for value in (right.x, right.y, up.x, up.y, origin.x, origin.y))
    return [f"{_frame(placed.clip)} re W n".encode(), f"{matrix} cm".encode()]


def _frame(frame: Frame) -> str:
    return " ".join(_number(value) for value in (frame.left, frame.top, frame.width, frame.height))


def _number(value: float) -> str:
    text = f"{value:.5f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
