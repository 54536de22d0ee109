"""Edges and marks by the names that steps and placements give them."""

from collections.abc import Iterator

from publisher.drafting import Copy, Draft, Edge, LineMark, Notch, Piece, PointMark, Seam
from publisher.frozen import dataclass
from publisher.geometry import Path, Point, nearest

OTHER_SIDE = {"left": "right", "right": "left"}
SAMPLES = 8  # stretches of an edge between whose ends its distance from another is measured


@dataclass(frozen=True, slots=True)
class NamedEdge:
    """An edge or a joint edge of one copy, as `copy.edge` names it."""

    copy: Copy
    piece: Piece
    parts: tuple[Edge, ...]


def across(name: str) -> str:
    """The name of the edge on the other side: `right edge` for `left edge`; the same name where it says no side."""
    return " ".join(OTHER_SIDE.get(word, word) for word in name.split())


def edge_named(draft: Draft, name: str) -> NamedEdge | None:
    """The edge of a copy that is named `copy.edge`; None for what is no edge."""
    head, _, tail = name.partition(".")
    for piece in draft.pieces:
        for copy in piece.copies:
            if copy.name == head and tail:
                try:
                    return NamedEdge(copy, piece, piece.edges_of(tail))
                except KeyError:
                    return None
    return None


def drafted_copies(draft: Draft) -> dict[str, tuple[Piece, Copy]]:
    """Every copy with its piece, by the copy's whole name."""
    return {copy.name: (piece, copy) for piece in draft.pieces for copy in piece.copies}


def atoms_of_seam(draft: Draft, seam: Seam) -> set[tuple[str, str]]:
    """Copy and name of each single edge that a seam sews."""
    sides = (*seam.first, *seam.second)
    return {(side.copy, part.name) for side in sides for part in draft.piece(side.piece).edges_of(side.edge)}


def atoms_in_seams(draft: Draft) -> Iterator[tuple[str, str]]:
    """Copy and name of each single edge that some seam sews."""
    for seam in draft.seams:
        yield from atoms_of_seam(draft, seam)


def allowance_at(piece: Piece, spot: str) -> float:
    """The allowance beside an edge, or a notch of it, mm; of a spot within the piece nought."""
    edges = [spot, *(mark.edge for mark in piece.marks if isinstance(mark, Notch) and mark.name == spot)]
    for edge in edges:
        try:
            return max(part.allowance for part in piece.edges_of(edge))
        except KeyError:
            continue
    return 0.0


def spot_on(piece: Piece, name: str) -> Path | Point | None:
    """Where a name lies on its piece: a mark's point, the middle of a line, the line of an edge."""
    for mark in piece.marks:
        if mark.name == name and isinstance(mark, Notch | PointMark):
            return mark.at
        if mark.name == name and isinstance(mark, LineMark):
            return (mark.start + mark.end) * 0.5
    try:
        return Path(tuple(segment for edge in piece.edges_of(name) for segment in edge.path.segments))
    except KeyError:
        return None


def distance_between(one: Path | Point, other: Path | Point) -> float:
    """How near two spots of a piece come to each other, mm."""
    if isinstance(one, Point):
        return (other - one).length if isinstance(other, Point) else nearest(other, one)[2]
    if isinstance(other, Point):
        return nearest(one, other)[2]
    samples = (one.point_at(one.length * at / SAMPLES) for at in range(SAMPLES + 1))
    return min(nearest(other, point)[2] for point in samples)
