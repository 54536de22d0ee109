"""A figure as PDF drawing operators, in millimetres: lines and cubics, no text."""

from publisher.figures.style import PENS
from publisher.figures.values import Figure, Stroke
from publisher.geometry import Cubic, Point, as_cubics


def pdf_operators(figure: Figure) -> bytes:
    """The content stream of a figure; the caller's transformation says where a millimetre lies on the page."""
    lines = ["0 J 1 j 0 G 0 g"]
    for stroke in figure.strokes:
        lines += _stroke(stroke)
    return "\n".join(lines).encode("ascii")


def _stroke(stroke: Stroke) -> list[str]:
    pen = PENS[stroke.style]
    path = _path(stroke)
    if pen.filled:
        return [*path, "f"]
    dashes = " ".join(shown(dash) for dash in pen.dashes)
    return [f"{shown(pen.width)} w [{dashes}] 0 d", *path, "S"]


def _path(stroke: Stroke) -> list[str]:
    lines = [f"{_at(stroke.path.start)} m"]
    for segment in stroke.path.segments:
        for part in as_cubics(segment):
            if isinstance(part, Cubic):
                lines.append(f"{_at(part.first_handle)} {_at(part.second_handle)} {_at(part.end)} c")
            else:
                lines.append(f"{_at(part.end)} l")
    return [*lines, "h"] if stroke.closed else lines


def _at(point: Point) -> str:
    return f"{shown(point.x)} {shown(point.y)}"


def shown(value: float) -> str:
    """Rounded once, to a thousandth of a millimetre, without trailing noughts and without a minus before nought."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
