"""A step's drawing as SVG: straight lines and cubics, patterns for the faces of cloth, text at its start. Millimetres."""

from typing import Any

import svgwrite

from publisher.figures.pdf_writer import shown
from publisher.figures.steps.lettering import EM
from publisher.figures.steps.looks import LOOKS, TILES
from publisher.figures.steps.values import Drawing, DrawnShape, DrawnText, Texture
from publisher.figures.svg import path_data

DESCENT = 0.215 * EM  # from a line's foot to its baseline
FAMILY = "publisher text"  # the page library hands no font down to a drawing


def drawing_svg(drawing: Drawing, title: str, words: bool = True) -> str:
    """An <svg> element at true size, `title` its alternative text; without its `words` where the page sets them, since
    the page library would set each of their letters by itself."""
    width, height = shown(drawing.width), shown(drawing.height)
    svg = svgwrite.Drawing(size=(f"{width}mm", f"{height}mm"), viewBox=f"0 0 {width} {height}", debug=False)
    svg.set_desc(title=title)
    for texture in Texture:
        if texture in TILES and any(shape.texture is texture for shape in drawing.shapes):
            svg.defs.add(_pattern(svg, texture))
    for shape in drawing.shapes:
        svg.add(svg.path(d=path_data(shape.path, shape.closed, drawing.height), **_painted(shape)))
    for text in drawing.texts if words else ():
        svg.add(_text(svg, text, drawing.height))
    written: str = svg.tostring()
    return written


def pattern_name(texture: Texture) -> str:
    """What a texture's pattern is called within its drawing."""
    return f"cloth-{texture.name.lower().replace('_', '-')}"


def _pattern(svg: Any, texture: Texture) -> Any:
    wide, high, turned, strokes = TILES[texture]
    pattern = svg.pattern(
        id=pattern_name(texture),
        size=(shown(wide), shown(high)),
        patternUnits="userSpaceOnUse",
        patternTransform=f"rotate({turned})",
    )
    pattern.add(svg.path(d=f"M0 0L{shown(wide)} 0L{shown(wide)} {shown(high)}L0 {shown(high)}Z", fill="white"))
    for width, data in strokes:
        pattern.add(svg.path(d=data, fill="none", stroke="black", stroke_width=width))
    return pattern


def _painted(shape: DrawnShape) -> dict[str, object]:
    drawn: dict[str, object] = {"fill": "none"}
    if shape.texture is Texture.PLAIN:
        drawn["fill"] = "white"
    elif shape.texture is not None:
        drawn["fill"] = f"url(#{pattern_name(shape.texture)})"
    if shape.look is None:
        return drawn
    pen = LOOKS[shape.look]
    if pen.filled:
        return {"fill": "black"}
    drawn |= {"stroke": "black", "stroke_width": pen.width, "stroke_linejoin": "round"}
    if pen.dashes:
        drawn["stroke_dasharray"] = ",".join(map(shown, pen.dashes))
    return drawn


def _text(svg: Any, text: DrawnText, height: float) -> Any:
    at = (shown(text.box.left), shown(height - text.box.bottom - DESCENT))
    size = shown(text.points * 25.4 / 72)
    weight = {"font_weight": 600} if text.bold else {}
    return svg.text(text.text, insert=at, font_family=FAMILY, font_size=size, **weight)
