"""Seams, placements and bindings: which edges of which copies meet, and how."""

from itertools import pairwise

from publisher.drafting.allowances import edge_allowance
from publisher.drafting.bench import Bench, head_and_tail, unusable
from publisher.drafting.darts import darts_of, darts_take
from publisher.drafting.edges import atomic_edges, counter_clockwise, edge_path
from publisher.drafting.placing import laying_of, placement_pairs
from publisher.drafting.references import the_copys_piece, work_out_length
from publisher.drafting.seam_values import Binding, Placement, Seam, SeamEdge
from publisher.drafting.sizes import rectangle_size
from publisher.measures import Name
from publisher.source import WrittenBinding, WrittenPlacement, WrittenSeam
from publisher.terms import Written, did_you_mean

LEAST_CORNER = 0.17  # sine of 10°: less than this is eased round


def draft_seam(bench: Bench, written: WrittenSeam) -> Seam:
    """The seam with the lengths and allowances of its edges. Raises Unusable."""
    first, second = (_side(bench, side) for side in written.join)
    return Seam(
        name=str(written.name),
        first=first,
        second=second,
        ease=work_out_length(bench, written.ease, "the ease") if written.ease else 0.0,
        leave_open=work_out_length(bench, written.leave_open, "what is left open") if written.leave_open else 0.0,
        allowances_differ=written.allowances_differ,
        open_along=_open_along(bench, written, second),
        place=written.name.place,
    )


def _open_along(bench: Bench, written: WrittenSeam, side: tuple[SeamEdge, ...]) -> float:
    """How much of the seam the gap may lie in, mm. Raises Unusable for an edge that the seam does not sew."""
    if written.open_in is None:
        return sum(edge.length for edge in side)
    sewn: list[str] = []
    for edge in side:
        piece = the_copys_piece(bench, Name(edge.copy, written.open_in.place))
        names = atomic_edges(bench, piece, edge.edge, Name(edge.edge, written.open_in.place))
        if written.open_in in names:
            return edge_path(bench, piece, str(written.open_in)).length
        sewn += names
    says = f"'{written.name}' does not sew an edge called '{written.open_in}'"
    raise unusable("no-such-edge", written.open_in.place, says, did_you_mean(written.open_in, sewn))


def _side(bench: Bench, written: Written) -> tuple[SeamEdge, ...]:
    names = bench.saying(written)
    assert isinstance(names, tuple)
    return tuple(_seam_edge(bench, name) for name in names)


def _seam_edge(bench: Bench, name: Name) -> SeamEdge:
    head, tail = head_and_tail(name)
    piece = the_copys_piece(bench, name)
    if not tail:
        raise unusable(
            "no-such-edge",
            name.place,
            f"'{name.text}' is a copy; a seam joins edges",
            f"name its edge: {head}.top edge",
        )
    parts = atomic_edges(bench, piece, tail, name)
    allowances = tuple(dict.fromkeys(edge_allowance(bench, piece, part) for part in parts))
    length = sum(edge_path(bench, piece, part).length for part in parts) - darts_take(darts_of(bench, piece), parts)
    return SeamEdge(head, str(piece.name), tail, length, allowances)


def draft_placement(bench: Bench, written: WrittenPlacement) -> Placement:
    """The placement with its pairs of names, each of which exists, and how it lies. Raises Unusable."""
    return Placement(
        name=str(written.name),
        placed=str(written.place_copy),
        below=str(written.on),
        matching=tuple(placement_pairs(bench, written)),
        laying=laying_of(bench, written),
        place=written.name.place,
    )


def draft_binding(bench: Bench, written: WrittenBinding) -> Binding:
    """The binding with the edges it binds and how long its strip must be, mm. Raises Unusable.

    Bound edges, measured at the raw edge; at each corner the fold of the mitre, twice the finished width (what the
    stitching line saves at a corner is as much again, so that this is spare; common practice, no source); overlap.
    """
    strip = the_copys_piece(bench, written.strip)
    if strip.strip is None:
        raise unusable(
            "not-a-strip", written.strip.place, f"'{written.strip}' is no strip", "bind with a piece that has strip:"
        )
    edges = tuple(_bound_edge(bench, name) for name in written.binds)
    _, cut_width = rectangle_size(bench, strip)
    finished = work_out_length(bench, strip.strip.finished_width, "the finished width")
    overlap = work_out_length(bench, written.overlap, "the overlap") if written.overlap else cut_width
    corners = sum(_corners(bench, edge) for edge in edges)
    needed = sum(edge.length for edge in edges) + corners * 2 * finished + overlap
    return Binding(str(written.name), str(written.strip), edges, corners, needed, overlap, written.name.place)


def _bound_edge(bench: Bench, written: Written) -> SeamEdge:
    name = bench.saying(written)
    assert isinstance(name, Name)
    return _seam_edge(bench, name)


def _corners(bench: Bench, edge: SeamEdge) -> int:
    """Outward corners along a bound edge that binding must be mitred round; a closed edge has one more."""
    piece = bench.pieces_by_name[edge.piece]
    parts = atomic_edges(bench, piece, edge.edge, Name(edge.edge, piece.name.place))
    segments = [segment for part in parts for segment in edge_path(bench, piece, part).segments]
    closed = (segments[-1].end - segments[0].start).length < 1e-6
    joints = list(pairwise([*segments, segments[0]] if closed else segments))
    turns = [
        first.direction_at(first.length).cross(second.direction_at(0.0))
        * (1 if counter_clockwise(bench, piece) else -1)
        for first, second in joints
    ]
    return sum(turn > LEAST_CORNER for turn in turns)
