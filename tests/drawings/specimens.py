"""Drawings written for tests, and what svgelements makes of them, as an oracle."""

import io
from typing import Any

import svgelements

from publisher.drawings import Drawing, DrawnOutline, outline_of, read_drawing
from publisher.geometry import Arc, Box, Cubic, Line, Path, Point, Segment
from publisher.terms import Finding

FILE = "images/lid.svg"
HEAD = 'width="100mm" height="100mm" viewBox="0 0 100 100"'
NAMES = 'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'


def svg(body: str, head: str = HEAD) -> bytes:
    """A whole file, its body on lines of its own from the second on."""
    return f"<svg {NAMES} {head}>\n{body}\n</svg>\n".encode()


def drawing(body: str, head: str = HEAD) -> Drawing:
    """A drawing without faults."""
    read, findings = read_drawing(svg(body, head), FILE)
    assert read is not None, findings
    return read


def outline(body: str, head: str = HEAD, id: str = "lid") -> DrawnOutline:
    """An outline without faults."""
    drawn, findings = outline_of(drawing(body, head), id)
    assert drawn is not None, findings
    return drawn


def faults(body: str, head: str = HEAD, id: str = "lid") -> tuple[Finding, ...]:
    """All that is found on the way to an outline, which is none then."""
    read, findings = read_drawing(svg(body, head), FILE)
    if read is None:
        return findings
    drawn, more = outline_of(read, id)
    assert (drawn is None) == bool(more)
    return (*findings, *more)


def kinds(path: Path) -> str:
    """L, A and C for each segment."""
    return "".join("L" if isinstance(one, Line) else "A" if isinstance(one, Arc) else "C" for one in path.segments)


def rounded(box: Box) -> tuple[float, float, float, float]:
    """Left, bottom, right, top to a thousandth of a millimetre."""
    return (round(box.left, 3), round(box.bottom, 3), round(box.right, 3), round(box.top, 3))


def at_parameter(segment: Segment, part: float) -> Point:
    """The point at a parameter from 0 to 1."""
    if isinstance(segment, Line):
        return segment.start + (segment.end - segment.start) * part
    if isinstance(segment, Cubic):
        return segment.at(part)
    return segment.at_angle(segment.start_angle + segment.sweep * part)


def by_svgelements(content: bytes, id: str = "lid") -> tuple[Any, float]:
    """Its path of an element in px, y down, and the height of the drawing in mm."""
    whole = svgelements.SVG.parse(io.StringIO(content.decode()), ppi=96, reify=True)
    found = [one for one in whole.elements() if isinstance(one, svgelements.Shape) and one.values.get("id") == id]
    return abs(svgelements.Path(found[0])), whole.height * 25.4 / 96


def box_by_svgelements(content: bytes, id: str = "lid") -> Box:
    """The box of an element, in mm, y up."""
    path, height = by_svgelements(content, id)
    left, top, right, bottom = (one * 25.4 / 96 for one in path.bbox())
    return Box(left, height - bottom, right, height - top)
