"""The outline of a piece as it is sewn and as it is cut: edges closed, the cut line round them, pleats open. mm."""

from dataclasses import replace

from publisher.drafting.allowances import drafted_name, edge_allowance, edge_layers
from publisher.drafting.bench import Asker, Bench, unusable
from publisher.drafting.corner_cuts import corner_cuts
from publisher.drafting.darts import darts_of, with_darts
from publisher.drafting.drawn_cut_lines import drawn_cut_line
from publisher.drafting.edges import edge_names, edge_path
from publisher.drafting.outlines import outline_plan
from publisher.drafting.pleats import folds_of, open_edges
from publisher.drafting.values import Edge
from publisher.geometry import Box, Path, TooTight, crossing, offset_outline, signed_area
from publisher.source import WrittenPiece
from publisher.terms import did_you_mean


def cut_box(bench: Bench, piece: WrittenPiece) -> Box:
    """The box of the piece as it is cut, mm: allowances on, pleats open. Raises Unusable."""
    asker = Asker("cut", str(piece.name), piece.name.place)
    return bench.work_out(asker, lambda: cut_line_of(bench, piece, _as_cut(bench, piece)).box)


def _as_cut(bench: Bench, piece: WrittenPiece) -> tuple[Edge, ...]:
    edges = with_darts(draft_edges(bench, piece), darts_of(bench, piece))
    return open_edges(piece, edges, folds_of(bench, piece)) if piece.pleats else edges


def draft_edges(bench: Bench, piece: WrittenPiece) -> tuple[Edge, ...]:
    """All edges, closed and counter-clockwise. Raises Unusable where the outline crosses itself."""
    names = edge_names(bench, piece)
    places = {side.name: side.place for side in outline_plan(bench, piece).sides}
    places |= {edge.name: edge.place for edge in outline_plan(bench, piece).drawn}
    drafted = {name: drafted_name(bench, piece, name) for name in names}
    _check_names(piece, (*names, *drafted.values()))
    edges = [
        Edge(
            name,
            edge_path(bench, piece, name),
            edge_allowance(bench, piece, name),
            places.get(drafted[name], piece.name.place),
            edge_layers(bench, piece, name),
        )
        for name in names
    ]
    whole = Path(tuple(segment for edge in edges for segment in edge.path.segments))
    spot = crossing(whole)
    if spot is not None:
        raise unusable(
            "outline-crosses-itself",
            piece.name.place,
            f"the outline of '{piece.name}' crosses itself near x {spot.x:.4g} mm, y {spot.y:.4g} mm",
            "look at the points and edges round that spot, and at the measures they are made of",
        )
    if signed_area(whole) < 0:
        edges = [replace(edge, path=edge.path.reversed()) for edge in reversed(edges)]
    return tuple(edges)


def _check_names(piece: WrittenPiece, names: tuple[str, ...]) -> None:
    known = (*dict.fromkeys(names), *(str(joint) for joint, _ in piece.joint_edges))
    for name, _ in (*piece.edge_allowances, *piece.hems):
        if name not in known:
            raise unusable(
                "no-such-edge", name.place, f"'{piece.name}' has no edge called '{name}'", did_you_mean(name, known)
            )


def cut_line_of(bench: Bench, piece: WrittenPiece, edges: tuple[Edge, ...], fold_edge: str | None = None) -> Path:
    """The closed line to cut along, mm. Raises Unusable where an allowance does not fit round the outline."""
    drawn = drawn_cut_line(bench, piece, outline_plan(bench, piece).drawn)
    if drawn is not None and not piece.pleats:
        return drawn
    try:
        corners = corner_cuts(bench, piece, edges, fold_edge)
        cut_line, _ = offset_outline([(edge.path, edge.allowance) for edge in edges], corners=corners)
    except TooTight as tight:
        raise unusable(
            "curve-too-tight",
            piece.name.place,
            f"in '{piece.name}', {tight}",
            "use a wider curve or a narrower allowance",
        ) from None
    spot = crossing(cut_line)
    if spot is not None:
        raise unusable(
            "allowance-crosses-itself",
            piece.name.place,
            f"the cut line of '{piece.name}' crosses itself near x {spot.x:.4g} mm, y {spot.y:.4g} mm: "
            "the allowances of two edges meet there",
            "make the allowance narrower, or the piece wider at that spot",
        )
    return cut_line
