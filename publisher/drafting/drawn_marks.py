"""Marks by the id of an element in the drawing that gives a piece its outline. Millimetres, as the outline."""

from publisher.drafting.bench import Asker, Bench, unusable
from publisher.drafting.elsewhere import drawing_of
from publisher.drawings import DrawnLine, DrawnMark, DrawnPoint, marks_of
from publisher.geometry import Line, Point
from publisher.source import WrittenDrawing, WrittenMark, WrittenPiece
from publisher.terms import Finding, Unusable, did_you_mean


def drawn_spot(bench: Bench, piece: WrittenPiece, element: str, written: WrittenMark) -> Point:
    """The middle of a small circle or cross. Raises Unusable."""
    mark = _element(bench, piece, element, written)
    if isinstance(mark, DrawnPoint):
        return mark.point
    says = f"the element '{element}' is a line, and '{written.name}' is a spot"
    raise unusable("wrong-element", mark.place, says, "draw a small circle or a cross, or make the mark a line")


def drawn_line(bench: Bench, piece: WrittenPiece, element: str, written: WrittenMark) -> tuple[Point, Point]:
    """Both ends of a straight line. Raises Unusable."""
    mark = _element(bench, piece, element, written)
    if isinstance(mark, DrawnLine) and all(isinstance(one, Line) for one in mark.path.segments):
        way = (mark.path.end - mark.path.start).unit()
        if all(abs(way.cross(one.direction_at(0.0))) < 1e-6 for one in mark.path.segments):
            return mark.path.start, mark.path.end
    says = f"the element '{element}' is no straight line, and '{written.name}' is one"
    raise unusable("wrong-element", mark.place, says, "draw a straight line, or make the mark a point")


def spot_called(bench: Bench, drawing: WrittenDrawing, name: str) -> Point | None:
    """The middle of a small circle or cross with this id; None where the drawing has none. Raises Unusable."""
    return next(
        (mark.point for mark in _marks(bench, drawing)[0] if mark.id == name and isinstance(mark, DrawnPoint)), None
    )


def _marks(bench: Bench, drawing: WrittenDrawing) -> tuple[tuple[DrawnMark, ...], tuple[Finding, ...]]:
    asker = Asker("drawn marks", str(drawing.file), drawing.file.place)
    return bench.work_out(asker, lambda: marks_of(drawing_of(bench, drawing)))


def _element(bench: Bench, piece: WrittenPiece, element: str, written: WrittenMark) -> DrawnMark:
    if piece.drawing is None:
        says = f"'{piece.name}' has no drawing, so no element '{element}' either"
        raise unusable("no-such-element", written.says.place, says, "place the mark by words, or by x, y")
    marks, told = _marks(bench, piece.drawing)
    found = next((mark for mark in marks if mark.id == element), None)
    if found is not None:
        return found
    problem = next((finding for finding in told if f"'{element}'" in finding.says), None)
    if problem is not None:
        raise Unusable(problem)
    says = f"the drawing {piece.drawing.file} has no mark called '{element}'"
    mend = did_you_mean(element, [mark.id for mark in marks]) or "give a small circle, a cross or an open line this id"
    raise unusable("no-such-element", written.says.place, says, mend)
