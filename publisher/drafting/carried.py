"""Marks that another piece gives: the outline and the ends of what is placed here, a notch that meets a notch. mm."""

from publisher.drafting.allowances import edge_allowance
from publisher.drafting.bench import Bench, head_and_tail, unusable
from publisher.drafting.edges import atomic_edges, counter_clockwise, edge_names, edge_path
from publisher.drafting.references import placed_here, the_copys_piece
from publisher.drafting.seam_values import Laying
from publisher.drafting.spots import Spot
from publisher.geometry import Path, Point, mapped, nearest
from publisher.measures import MarkSaying, Name
from publisher.source import WrittenMark, WrittenPiece, WrittenSeam
from publisher.terms import did_you_mean

ON_EDGE = 0.5  # mm


def laid_outline(bench: Bench, piece: WrittenPiece, said: MarkSaying) -> Path:
    """The finished line of what a placement lays on this piece, closed, where it lies. Raises Unusable."""
    source, laying = _laid(bench, piece, said)
    segments = [segment for name in edge_names(bench, source) for segment in edge_path(bench, source, name).segments]
    return mapped(Path(tuple(segments)), laying, laying.turned_over)


def laid_ends(bench: Bench, piece: WrittenPiece, said: MarkSaying, written: WrittenMark) -> tuple[Spot, ...]:
    """Where corners of what is laid here lie on an edge of this piece that has an allowance. Raises Unusable."""
    source, laying = _laid(bench, piece, said)
    corners = [laying(edge_path(bench, source, name).start) for name in edge_names(bench, source)]
    spots = [spot for corner in corners if (spot := spot_on_edge(bench, piece, corner)) is not None]
    spots = [spot for spot in spots if edge_allowance(bench, piece, spot.edge) > 0]
    if not spots:
        raise unusable(
            "ends-nowhere",
            written.says.place,
            f"no corner of '{said.start.text if said.start else ''}' lies on an edge of '{piece.name}' where a notch can be cut",
            "use 'outline of' instead, or look at the placement",
        )
    return tuple(spots)


def spot_on_edge(bench: Bench, piece: WrittenPiece, point: Point) -> Spot | None:
    """The nearest spot of the stitching line, when it lies within half a millimetre."""
    found: tuple[float, Spot] | None = None
    for name in edge_names(bench, piece):
        path = edge_path(bench, piece, name)
        along, at, gap = nearest(path, point)
        if gap <= ON_EDGE and (found is None or gap < found[0]):
            found = gap, Spot(name, along, at, path.direction_at(along))
    return found[1] if found else None


def _laid(bench: Bench, piece: WrittenPiece, said: MarkSaying) -> tuple[WrittenPiece, Laying]:
    assert said.start is not None
    assert said.end is not None
    return placed_here(bench, piece, said.start.text, said.end)


def met_spot(bench: Bench, piece: WrittenPiece, said: MarkSaying, other_spot: Point) -> Spot:
    """Where a seam brings a corner or mark of its other side to on this piece.

    The sides are sewn right sides together: as one runs counter-clockwise round its piece, the other runs clockwise.
    Ease is shared out evenly. Raises Unusable.
    """
    assert said.start is not None
    assert said.end is not None
    seam = next((one for one in bench.source.seams if one.name == said.end.text), None)
    if seam is None:
        known = [str(one.name) for one in bench.source.seams]
        says = f"no seam called '{said.end.text}'"
        raise unusable("no-such-name", said.end.place, says, did_you_mean(said.end.text, known))
    other, _ = head_and_tail(said.start)
    ours, theirs = _sides(bench, piece, seam, other, said)
    passed = _distance(bench, theirs, other_spot, said)
    whole, reach = (sum(path.length for _, _, path in side) for side in (theirs, ours))
    left = passed * reach / whole
    for _, name, path in ours:
        if left <= path.length + 1e-9:
            along = min(left, path.length)
            as_said = edge_path(bench, piece, name)
            distance = along if counter_clockwise(bench, piece) else as_said.length - along
            return Spot(name, distance, as_said.point_at(distance), as_said.direction_at(distance))
        left -= path.length
    raise AssertionError("a side of a seam has an edge")


Side = list[tuple[WrittenPiece, str, Path]]


def _sides(bench: Bench, piece: WrittenPiece, seam: WrittenSeam, other: str, said: MarkSaying) -> tuple[Side, Side]:
    sides: list[Side] = []
    heads: list[set[str]] = []
    for at, written in enumerate(seam.join):
        names = bench.saying(written)
        assert isinstance(names, tuple)
        heads.append({head_and_tail(name)[0] for name in names if isinstance(name, Name)})
        sides.append([part for name in names if isinstance(name, Name) for part in _parts(bench, name, at == 1)])
    for here, there in ((0, 1), (1, 0)):
        if other in heads[there] and any(one.as_written is piece.as_written for one, _, _ in sides[here]):
            ours, theirs = sides[here], sides[there]
            # Ours is read counter-clockwise, theirs the other way round: of the second side both are read from their end.
            return (_backwards(ours), _backwards(theirs)) if here else (ours, theirs)
    assert said.end is not None
    raise unusable(
        "wrong-seam",
        said.end.place,
        f"'{said.end.text}' does not sew '{other}' to '{piece.name}'",
        "name the seam that brings both together",
    )


def _parts(bench: Bench, name: Name, clockwise: bool) -> Side:
    """The edges of one part of a seam's side, in the direction in which the side runs."""
    _, tail = head_and_tail(name)
    piece = the_copys_piece(bench, name)
    parts = [(piece, edge, edge_path(bench, piece, edge)) for edge in atomic_edges(bench, piece, tail, name)]
    return parts if counter_clockwise(bench, piece) != clockwise else _backwards(parts)


def _backwards(side: Side) -> Side:
    """Edges in the other direction: the last first, each from its end."""
    return [(piece, edge, path.reversed()) for piece, edge, path in reversed(side)]


def _distance(bench: Bench, side: Side, spot: Point, said: MarkSaying) -> float:
    passed = 0.0
    for _, _, path in side:
        along, _, gap = nearest(path, spot)
        if gap <= ON_EDGE:
            return passed + along
        passed += path.length
    assert said.start is not None
    raise unusable(
        "mark-off-edge",
        said.start.place,
        f"'{said.start.text}' does not lie on the edges that '{said.end.text if said.end else ''}' sews",
        "name a corner or a mark on one of these edges",
    )
