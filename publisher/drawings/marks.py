"""The marks in a drawing: elements with an id that are small circles, small crosses or open lines."""

from collections.abc import Iterator, Sequence

from publisher.drawings.collecting import GROUPS, Collector, DrawnSubpath, element_called
from publisher.drawings.mistakes import error
from publisher.drawings.shapes import SHAPES
from publisher.drawings.spots import spot_of
from publisher.drawings.values import Drawing, DrawnLine, DrawnMark, DrawnPoint, Element
from publisher.terms import Finding, Unusable, Written

MOST_MARKS = 500
DRAWS = (*SHAPES, "use")


def marks_of(drawing: Drawing, within: str | None = None) -> tuple[tuple[DrawnMark, ...], tuple[Finding, ...]]:
    """Points and lines by id, in the order of the file, of the whole drawing or within one element. Never raises.

    Closed shapes larger than a mark are passed over; an element that cannot be read is told.
    """
    marks: list[DrawnMark] = []
    found: list[Finding] = []
    collector = Collector(drawing)
    try:
        for at in _candidates(drawing, within):
            element = drawing.elements[at]
            try:
                mark = _mark(element, collector.collect(at))
            except Unusable as unusable:
                found.append(unusable.finding)
                if unusable.finding.name == "too-much":
                    break
                continue
            if mark is not None and len(marks) >= MOST_MARKS:
                raise error(
                    "too-much", element.place, f"more than {MOST_MARKS} marks", "keep only those that the pattern uses"
                )
            marks += [mark] if mark else []
    except Unusable as unusable:
        found.append(unusable.finding)
    return tuple(marks), tuple(found)


def _candidates(drawing: Drawing, within: str | None) -> Iterator[int]:
    """Elements that could be marks: drawn in their place, with an id, no larger group than a cross of two strokes."""
    start = 0
    if within is not None:
        place = within.place if isinstance(within, Written) else drawing.elements[0].place
        start = element_called(drawing, str(within), place)
    waiting = [start]
    while waiting:
        at = waiting.pop()
        element = drawing.elements[at]
        children = element.children if element.tag in GROUPS else ()
        waiting.extend(reversed(children))
        strokes = [drawing.elements[child].tag for child in children]
        could_cross = 1 <= len(strokes) <= 2 and all(tag in DRAWS for tag in strokes)
        if element.id and at != start and (element.tag in DRAWS or could_cross):
            yield at


def _mark(element: Element, drawn: Sequence[DrawnSubpath]) -> DrawnMark | None:
    assert element.id is not None
    spot = spot_of(drawn)
    if spot is not None:
        return DrawnPoint(element.id, spot, element.place)
    if element.tag in GROUPS or len(drawn) != 1 or drawn[0].closed or drawn[0].path.closed:
        return None
    return DrawnLine(element.id, drawn[0].path, element.place)
