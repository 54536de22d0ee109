"""The corners of a template that are boxed: how much is cut out, and how long the seam across the opened corner is. mm."""

from collections.abc import Iterator

from publisher.drafting import Draft, Edge, Piece, Seam
from publisher.frozen import dataclass
from publisher.geometry import Point
from publisher.terms import Place

SQUARE = 1e-3  # cosine of the angle at a corner that is cut out square
MEET = 1e-3  # mm between the ends of two edges that meet


@dataclass(frozen=True, slots=True)
class BoxedCorner:
    """Where the two edges of a corner meet; `cut_out`: its cut line along each of them, none where it is not
    square; `length` of the seam in which they are sewn on each other."""

    at: Point
    cut_out: tuple[float, float] | None
    length: float
    place: Place


def boxed_corners(draft: Draft, piece: Piece) -> tuple[BoxedCorner, ...]:
    """Each corner of a piece once, though its copies meet there in several seams."""
    found: dict[Point, BoxedCorner] = {}
    for seam in draft.seams:
        if seam.boxes_a_corner:
            for corner in _corners(seam, piece):
                found.setdefault(corner.at, corner)
    return tuple(found.values())


def _corners(seam: Seam, piece: Piece) -> Iterator[BoxedCorner]:
    names = {edge.name for edge in piece.edges}
    for one in seam.first:
        for other in seam.second:
            if one.copy != other.copy or one.piece != piece.name or not {one.edge, other.edge} <= names:
                continue
            first, second = piece.edge(one.edge), piece.edge(other.edge)
            if (second.path.end - first.path.start).length < MEET:
                first, second = second, first
            if (first.path.end - second.path.start).length < MEET:
                yield BoxedCorner(second.path.start, _cut_out(piece, first, second), seam.length, seam.place)


def _cut_out(piece: Piece, first: Edge, second: Edge) -> tuple[float, float] | None:
    """Across and up (or up and across) the cut line of a square corner: from that of the neighbour to that of the other
    edge. It is longer than the finished line by the neighbour's allowance, and shorter by the other's."""
    order = [edge.name for edge in piece.edges]
    before = piece.edges[order.index(first.name) - 1]
    after = piece.edges[(order.index(second.name) + 1) % len(order)]
    turns = ((before, first), (first, second), (second, after))
    if any(abs(_cosine(one, other)) > SQUARE for one, other in turns):
        return None
    return (
        first.length + before.allowance - second.allowance,
        second.length + after.allowance - first.allowance,
    )


def _cosine(one: Edge, other: Edge) -> float:
    return one.path.direction_at(one.path.length).dot(other.path.direction_at(0.0))
