"""How a piece lies on the cloth, and the arrow that says so."""

from publisher.drafting.bench import Bench, unusable
from publisher.drafting.mark_values import GrainLine
from publisher.drafting.values import Edge, Grain
from publisher.geometry import Path, Point, span_inside
from publisher.measures import CopySaying
from publisher.source import WrittenPiece
from publisher.terms import did_you_mean

GRAIN_LINE_LONGEST = 120.0  # mm: longer says no more and takes ink


def grain_of(piece: WrittenPiece) -> Grain:
    """What the piece says of its grain; lengthwise when it says nothing. Raises Unusable."""
    if piece.grain is None:
        return Grain.UP
    said = piece.grain.split_at(",")[0]
    for grain in Grain:
        if grain.value == said:
            return grain
    known = [grain.value for grain in Grain]
    raise unusable("no-such-grain", said.place, f"no grain called '{said}'", did_you_mean(said, known))


def lies_one_way(bench: Bench, piece: WrittenPiece) -> bool:
    """True where the piece says so, or is cut from a cloth with a nap. Raises Unusable where any grain would do."""
    _, *more = piece.grain.split_at(",") if piece.grain is not None else ("",)
    for word in more:
        if word != "one way":
            says = f"'{word}' says nothing about the grain"
            raise unusable("no-such-grain", word.place, says, did_you_mean(word, ("one way",)) or "write 'up, one way'")
    said = [bench.saying(copy.says) for copy in piece.copies]
    cut_from = {copy.material.text for copy in said if isinstance(copy, CopySaying)}
    napped = [str(one.key) for one in bench.source.materials if one.nap is not None and str(one.key) in cut_from]
    if (more or napped) and piece.grain is not None and grain_of(piece) is Grain.EITHER:
        why = f"'{napped[0]}' has a nap" if napped else "it is to lie one way"
        says = f"the grain of '{piece.name}' is either way, and {why}"
        raise unusable("nap-without-grain", piece.grain.place, says, "write grain: up")
    return bool(more or napped)


def grain_line_of(grain: Grain, edges: tuple[Edge, ...], one_way: bool) -> GrainLine | None:
    """An arrow along the grain through the piece, a quarter in from its side so that the middle stays free."""
    if grain is Grain.EITHER:
        return None
    outline = Path(tuple(segment for edge in edges for segment in edge.path.segments))
    box = outline.box
    direction = {Grain.UP: Point(0, 1), Grain.ACROSS: Point(1, 0), Grain.BIAS: Point(1, 1).unit()}[grain]
    through = Point(box.left + box.width / 4, box.bottom + box.height / (4 if grain is Grain.ACROSS else 2))
    start, end = span_inside(outline, through, direction)
    middle, half = (start + end) * 0.5, min((end - start).length * 0.6, GRAIN_LINE_LONGEST) / 2
    return GrainLine(middle - direction * half, middle + direction * half, one_way)
