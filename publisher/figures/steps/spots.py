"""How far a mark lies from the edges of its piece: of a point from the nearest finished line, of a notch along its edge."""

from collections import Counter
from collections.abc import Iterable, Iterator

from publisher.drafting import Edge, LineMark, Mark, Notch, Piece, PointMark
from publisher.figures.steps.cloth import Lying, moved
from publisher.figures.steps.values import Dimension, Look, Shape
from publisher.figures.steps.wording import length_words
from publisher.geometry import Point, nearest

PARALLEL = 0.02  # sine of the angle between lines that run alike
FEW = 2  # points, or notches of an edge: of more, the words and the template say where each is
CENTRED = 0.02  # of an edge: a notch no further from its middle needs no number
FAR = 6.0  # mm on paper, that the dimension of a notch lies off its edge


def spot_dimensions(piece: Piece, marks: Iterable[Mark], lying: Lying) -> Iterator[Dimension]:
    """The dimension of each point and each notch that is not at a middle."""
    marks = list(marks)
    few = sum(isinstance(mark, PointMark) for mark in marks) <= FEW
    notched = Counter(mark.edge for mark in marks if isinstance(mark, Notch))
    for mark in marks:
        if isinstance(mark, PointMark):
            edge = min(piece.edges, key=lambda edge: nearest(edge.path, mark.at)[2])
            _, foot, gap = nearest(edge.path, mark.at)
            if gap > 1.0 and few and _straight(edge):
                yield Dimension(lying.rule(foot), lying.rule(mark.at), length_words(gap))
        elif isinstance(mark, Notch) and mark.side is None and notched[mark.edge] <= FEW:
            edge = piece.edge(mark.edge)
            along = min(mark.distance, edge.length - mark.distance)
            if abs(along - edge.length / 2) > CENTRED * edge.length and along > 1.0 and _straight(edge):
                end = edge.path.start if mark.distance <= edge.length / 2 else edge.path.end
                yield Dimension(
                    lying.rule(end), lying.rule(mark.at), length_words(along), away=_outside(lying, mark, end)
                )


def line_dimensions(piece: Piece, mark: LineMark) -> Iterator[Dimension]:
    """How far a line lies from the edge beside it; of one that runs from edge to edge, how far from their corner."""
    way = (mark.end - mark.start).unit()
    straight = [edge for edge in piece.edges if _straight(edge)]
    along = [edge for edge in straight if abs(edge.path.direction_at(0.0).cross(way)) < PARALLEL]
    if along:
        middle = mark.start + (mark.end - mark.start) * 0.45
        _, foot, gap = min((nearest(edge.path, middle) for edge in along), key=lambda one: one[2])
        yield Dimension(foot, middle, length_words(gap))
        return
    for spot in (mark.start, mark.end):
        edge = min(straight, key=lambda edge: nearest(edge.path, spot)[2])
        _, foot, _ = nearest(edge.path, spot)
        corner = min((edge.path.start, edge.path.end), key=lambda end: (end - foot).length)
        level = abs(edge.path.direction_at(0.0).y) < abs(edge.path.direction_at(0.0).x)
        end = Point(corner.x, foot.y) if level else Point(foot.x, corner.y)
        out = edge.path.direction_at(0.0).right()
        away = FAR if (foot - end).left().dot(out) > 0 else -FAR
        yield Dimension(end, foot, length_words((foot - end).length), away=away)


def _straight(edge: Edge) -> bool:
    return (edge.path.end - edge.path.start).length > edge.length - 0.1


def _outside(lying: Lying, mark: Notch, end: Point) -> float:
    """The dimension lies beyond the raw edge, whichever side of the way that is."""
    out = lying.rule(mark.cut_end) - lying.rule(mark.at)
    way = lying.rule(mark.at) - lying.rule(end)
    return FAR if way.left().dot(out) > 0 else -FAR


def finished_lines(piece: Piece, lying: Lying) -> list[Shape]:
    """The line that a point is measured from, light."""
    return [Shape(moved(edge.path, lying), Look.STITCHED) for edge in piece.edges if edge.allowance > 0]
