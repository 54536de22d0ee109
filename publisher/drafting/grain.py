"""How a piece lies on the cloth, and the arrow that says so."""

from publisher.drafting.bench import unusable
from publisher.drafting.mark_values import GrainLine
from publisher.drafting.values import Edge, Grain
from publisher.geometry import Path, Point, span_inside
from publisher.source import WrittenPiece
from publisher.terms import did_you_mean

GRAIN_LINE_LONGEST = 120.0  # mm: longer says no more and takes ink


def grain_of(piece: WrittenPiece) -> Grain:
    """What the piece says of its grain; lengthwise when it says nothing. Raises Unusable."""
    if piece.grain is None:
        return Grain.UP
    for grain in Grain:
        if grain.value == str(piece.grain):
            return grain
    known = [grain.value for grain in Grain]
    raise unusable(
        "no-such-grain", piece.grain.place, f"no grain called '{piece.grain}'", did_you_mean(piece.grain, known)
    )


def grain_line_of(grain: Grain, edges: tuple[Edge, ...]) -> GrainLine | None:
    """An arrow along the grain through the piece, a quarter in from its side so that the middle stays free."""
    if grain is Grain.EITHER:
        return None
    outline = Path(tuple(segment for edge in edges for segment in edge.path.segments))
    box = outline.box
    direction = {Grain.UP: Point(0, 1), Grain.ACROSS: Point(1, 0), Grain.BIAS: Point(1, 1).unit()}[grain]
    through = Point(box.left + box.width / 4, box.bottom + box.height / (4 if grain is Grain.ACROSS else 2))
    start, end = span_inside(outline, through, direction)
    middle, half = (start + end) * 0.5, min((end - start).length * 0.6, GRAIN_LINE_LONGEST) / 2
    return GrainLine(middle - direction * half, middle + direction * half)
