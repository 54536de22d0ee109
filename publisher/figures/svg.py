"""A figure as SVG for the text pages: straight lines and cubics only, in millimetres."""

import svgwrite

from publisher.figures.pdf_writer import shown
from publisher.figures.style import PENS
from publisher.figures.values import Figure, Stroke
from publisher.geometry import Cubic, Path, Point, as_cubics


def figure_svg(figure: Figure, title: str, y_up: bool = False) -> str:
    """An <svg> element at true size with `title` as its alternative text.

    Arcs become cubics of at most 45°: the page library's own arcs, circles and rounded rectangles are off by up to
    several per cent.
    """
    size = (f"{shown(figure.width)}mm", f"{shown(figure.height)}mm")
    drawing = svgwrite.Drawing(size=size, viewBox=f"0 0 {shown(figure.width)} {shown(figure.height)}", debug=False)
    drawing.set_desc(title=title)
    for stroke in figure.strokes:
        drawing.add(
            drawing.path(d=path_data(stroke.path, stroke.closed, figure.height if y_up else None), **_pen(stroke))
        )
    text: str = drawing.tostring()
    return text


def _pen(stroke: Stroke) -> dict[str, object]:
    pen = PENS[stroke.style]
    if pen.filled:
        return {"fill": "black", "stroke": "none"}
    drawn: dict[str, object] = {"fill": "white" if pen.backed else "none", "stroke": "black", "stroke_width": pen.width}
    if pen.dashes:
        drawn["stroke_dasharray"] = ",".join(map(shown, pen.dashes))
    return drawn


def path_data(path: Path, closed: bool, flip: float | None) -> str:
    """M, L, C and Z; `flip` is the height of a drawing that has y up, mm."""

    def at(point: Point) -> str:
        return f"{shown(point.x)} {shown(point.y if flip is None else flip - point.y)}"

    parts = [f"M{at(path.start)}"]
    for segment in path.segments:
        for part in as_cubics(segment):
            if isinstance(part, Cubic):
                parts.append(f"C{at(part.first_handle)} {at(part.second_handle)} {at(part.end)}")
            else:
                parts.append(f"L{at(part.end)}")
    return "".join(parts) + ("Z" if closed else "")
