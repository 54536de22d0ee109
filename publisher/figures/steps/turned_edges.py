"""Edges turned to the wrong side, from raw edge to raw edge, and where a copy has been stitched so far. The draft's mm."""

from collections.abc import Iterator, Sequence

from publisher.assembly import WorkState
from publisher.drafting import Edge, LineMark, Piece
from publisher.frozen import dataclass
from publisher.geometry import Line, Path, Point, area_within, line_within, parallel_beside, signed_area

HAIR = 0.05  # mm inside an edge, so that what runs along it lies in the cloth
REACH = 3.0  # times the widest allowance: how far an edge may run on to a raw edge that meets it on a slant
NEAR_EDGE = 3.0  # mm from an edge that topstitching runs where nothing says how far
SEWN = 0.86  # of a hem's depth, from its edge: where it is stitched down, close to the inner fold


def raw_to_raw(piece: Piece, edge: Edge, outline: Path, by: float = HAIR) -> Path:
    """The line beside an edge, `by` mm inside it, as far as the cloth goes now."""
    beside = [part for line in parallel_beside(_run_on(piece, edge), by) for part in line_within(line, outline)]
    return max(beside, key=lambda part: part.length, default=edge.path)


def turned_band(piece: Piece, edge: Edge, outline: Path, depth: float) -> Path:
    """What lies on the wrong side when an edge is turned so deep: its ends run along those that meet it."""
    outer = _run_on(piece, edge)
    inner = next(iter(parallel_beside(outer, depth)), outer)
    spots = [*outer.flattened(HAIR), *inner.flattened(HAIR)[::-1]]
    ring = Path(tuple(Line(one, other) for one, other in zip(spots, [*spots[1:], spots[0]], strict=True)))
    return max(area_within(ring, outline), key=lambda part: abs(signed_area(part)), default=ring)


def innermost_first(edges: Sequence[Edge]) -> list[Edge]:
    """Edges in the order in which they are folded: one between two others first, so that these lie on its ends."""
    return sorted(edges, key=lambda edge: -sum(_meet(edge, other) for other in edges if other is not edge))


def _meet(edge: Edge, other: Edge) -> bool:
    ends = (other.path.start, other.path.end)
    return any((one - end).length < HAIR for one in (edge.path.start, edge.path.end) for end in ends)


def _run_on(piece: Piece, edge: Edge) -> Path:
    """An edge run on straight at both its ends, beyond the raw edges there; a ring as it is."""
    path, far = edge.path, REACH * max(one.allowance for one in piece.edges) + 1.0
    if (path.start - path.end).length < HAIR:
        return path
    before: Point = path.start - path.direction_at(0.0) * far
    after = path.end + path.direction_at(path.length) * far
    return Path((Line(before, path.start), *path.segments, Line(path.end, after)))


@dataclass(frozen=True, slots=True)
class TurnedEdge:
    """An edge that lies on the wrong side so deep, stitched down or pressed."""

    edge: Edge
    depth: float
    sewn: bool


def turned_edges(piece: Piece, copy: str, state: WorkState) -> list[TurnedEdge]:
    """The edges of a copy that have been turned to its wrong side: hems in the order of the work, then what is folded."""
    hems = {hem.edge: hem.depth for hem in piece.hems}
    parted = [name.partition(".") for name in (*state.hemmed, *sorted(state.folded))]
    here = [edge for one, dot, edge in parted if one == copy and dot]
    found = [TurnedEdge(piece.edge(edge), hems[edge], True) for edge in here if edge in hems]
    folds = [part for edge in here if piece.strip is None for part in innermost_first(piece.edges_of(edge))]
    return found + [
        TurnedEdge(one, one.allowance, False) for one in folds if one.name not in hems and one.allowance > 0
    ]


def hem_rows(piece: Piece, copy: str, state: WorkState, outline: Path) -> Iterator[Path]:
    """Where the hems of a copy have been stitched down."""
    for one in turned_edges(piece, copy, state):
        if one.sewn:
            yield raw_to_raw(piece, one.edge, outline, one.depth * SEWN)


def topstitched(piece: Piece, copy: str, state: WorkState) -> Iterator[Path]:
    """Topstitching of a copy close to its edges, and along its marked stitching lines."""
    for one, dot, edge in (name.partition(".") for name in state.topstitched):
        if one == copy and dot:
            whole = Path(tuple(segment for part in piece.edges_of(edge) for segment in part.path.segments))
            yield from parallel_beside(whole, NEAR_EDGE)
        elif one == copy:
            yield from (Path((Line(mark.start, mark.end),)) for mark in sewing_lines(piece, copy, state))


def sewing_lines(piece: Piece, copy: str, state: WorkState) -> list[LineMark]:
    """The lines to sew along that have been marked on a copy."""
    short = copy.removeprefix(piece.name).strip()
    lines = [mark for mark in piece.marks if isinstance(mark, LineMark) and mark.kind == "stitching line"]
    here = [mark for mark in lines if not mark.copies or short in mark.copies]
    return [mark for mark in here if f"{copy}.{mark.name}" in state.marked]
