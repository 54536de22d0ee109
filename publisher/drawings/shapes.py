"""The elements that draw, as subpaths in units of the drawing: path, rect, circle, ellipse, line, polyline, polygon."""

import math
from itertools import pairwise

from publisher.drawings.numbers import BadValue, in_user_units, read_numbers
from publisher.drawings.path_data import MOST_SEGMENTS, EllipticArc, RawSegment, Subpath, TooMany, read_path_data
from publisher.drawings.values import Element
from publisher.geometry import Line, Point

SHAPES = ("path", "rect", "circle", "ellipse", "line", "polyline", "polygon")


def subpaths_of(element: Element, view: tuple[float, float]) -> tuple[Subpath, ...]:
    """What a shape draws; `view` is what per cent are of. Raises BadValue and TooMany."""
    match element.tag:
        case "path":
            return read_path_data(element.get("d") or "")
        case "rect":
            return _rectangle(element, view)
        case "circle" | "ellipse":
            return _ellipse(element, view)
        case "line":
            start = Point(_across(element, "x1", view), _down(element, "y1", view))
            end = Point(_across(element, "x2", view), _down(element, "y2", view))
            return (Subpath(start, (Line(start, end),), closed=False),)
    return _many_sided(element)


def _across(element: Element, name: str, view: tuple[float, float]) -> float:
    return in_user_units(element.get(name) or "0", view[0])


def _down(element: Element, name: str, view: tuple[float, float]) -> float:
    return in_user_units(element.get(name) or "0", view[1])


def _size(value: float, element: Element, name: str) -> float:
    if value < 0:
        raise BadValue(f"{name} of {value:g}, which is less than nought")
    return value


def _radius(element: Element, name: str, whole: float) -> float | None:
    text = element.get(name)
    return None if text is None or text.strip() == "auto" else _size(in_user_units(text, whole), element, name)


def _rectangle(element: Element, view: tuple[float, float]) -> tuple[Subpath, ...]:
    """From the upper left corner along the top, as SVG 1.1, §9.2 has it; radii are at most half a side."""
    left, top = _across(element, "x", view), _down(element, "y", view)
    width = _size(_across(element, "width", view), element, "width")
    height = _size(_down(element, "height", view), element, "height")
    given = _radius(element, "rx", view[0]), _radius(element, "ry", view[1])
    rx = min(next((one for one in given if one is not None), 0.0), width / 2)
    ry = min(next((one for one in reversed(given) if one is not None), 0.0), height / 2)
    right, bottom = left + width, top + height
    if rx == 0 or ry == 0:
        corners = [Point(left, top), Point(right, top), Point(right, bottom), Point(left, bottom)]
        return (_ring(corners),)
    u, v = Point(rx, 0.0), Point(0.0, ry)
    centres = [
        (Point(right - rx, top + ry), -math.pi / 2),
        (Point(right - rx, bottom - ry), 0.0),
        (Point(left + rx, bottom - ry), math.pi / 2),
        (Point(left + rx, top + ry), math.pi),
    ]
    arcs = [_quarter(centre, u, v, begin) for centre, begin in centres]
    start = arcs[-1].end
    segments: list[RawSegment] = []
    at = start
    for arc in arcs:
        segments += [Line(at, arc.start), arc]
        at = arc.end
    return (Subpath(start, tuple(segments), closed=True),)


def _quarter(centre: Point, u: Point, v: Point, begin: float) -> EllipticArc:
    """A quarter turn from a quarter point, both ends exact."""
    ends = [centre + u, centre + v, centre - u, centre - v]
    at = round(begin / (math.pi / 2)) % 4
    return EllipticArc(ends[at], ends[(at + 1) % 4], centre, u, v, begin, math.pi / 2)


def _ellipse(element: Element, view: tuple[float, float]) -> tuple[Subpath, ...]:
    centre = Point(_across(element, "cx", view), _down(element, "cy", view))
    if element.tag == "circle":
        rx = ry = _radius(element, "r", math.hypot(*view) / math.sqrt(2)) or 0.0
    else:
        given = _radius(element, "rx", view[0]), _radius(element, "ry", view[1])
        rx = next((one for one in given if one is not None), 0.0)
        ry = next((one for one in reversed(given) if one is not None), 0.0)
    u, v = Point(rx, 0.0), Point(0.0, ry)
    quarters = tuple(_quarter(centre, u, v, at * math.pi / 2) for at in range(4))
    return (Subpath(quarters[0].start, quarters, closed=True),)


def _many_sided(element: Element) -> tuple[Subpath, ...]:
    numbers = read_numbers(element.get("points") or "", 2 * MOST_SEGMENTS + 2)
    if len(numbers) % 2:
        raise BadValue(f"{len(numbers)} numbers as points, which come in pairs")
    points = [Point(x, y) for x, y in zip(numbers[::2], numbers[1::2], strict=True)]
    if len(points) > MOST_SEGMENTS:
        raise TooMany
    if len(points) < 2:
        return ()
    if element.tag == "polygon":
        return (_ring(points),)
    return (Subpath(points[0], tuple(Line(first, second) for first, second in pairwise(points)), closed=False),)


def _ring(points: list[Point]) -> Subpath:
    lines = tuple(Line(first, second) for first, second in pairwise([*points, points[0]]))
    return Subpath(points[0], lines, closed=True)
