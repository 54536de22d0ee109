"""An outline that was drawn as the line to cut along: the finished line inside it, by the allowance of each edge. mm."""

from collections.abc import Sequence

from publisher.drafting.allowances import edge_allowance
from publisher.drafting.bench import Asker, Bench, unusable
from publisher.drafting.elsewhere import DrawnEdge
from publisher.geometry import Path, TooTight, crossing, offset_outline
from publisher.source import WrittenPiece

NEAR = 1e-6  # mm


def drawn_cut_line(bench: Bench, piece: WrittenPiece, edges: Sequence[DrawnEdge]) -> Path | None:
    """The line as drawn, where it is the one to cut along; else None. Raises Unusable for what would change it."""
    if piece.drawing is None or not piece.drawing.as_cut_line:
        return None
    changed = next((key for key, _ in piece.corners), None) or (piece.name if piece.cut_from is not None else None)
    if changed is not None:
        what = (
            "its copies have allowances that differ"
            if piece.cut_from
            else f"the corner '{changed}' is to be cut otherwise"
        )
        raise unusable(
            "cut-line-is-drawn",
            changed.place,
            f"'{piece.name}' is drawn as its cut line, and {what}",
            "draw it as the finished line, or take this out",
        )
    return Path(tuple(segment for edge in edges for segment in edge.path.segments))


def finished_path(bench: Bench, piece: WrittenPiece, edges: Sequence[DrawnEdge], name: str) -> Path:
    """The finished line of one edge. Raises Unusable, at the drawing, where the allowances do not fit into it."""
    asker = Asker("inwards", str(piece.name), piece.name.place)
    return bench.work_out(asker, lambda: _finished(bench, piece, edges))[[edge.name for edge in edges].index(name)]


def _finished(bench: Bench, piece: WrittenPiece, edges: Sequence[DrawnEdge]) -> tuple[Path, ...]:
    allowances = [edge_allowance(bench, piece, edge.name) for edge in edges]
    # The other way round, the inside lies to the right, where parallels go.
    around = [(edge.path.reversed(), by) for edge, by in zip(edges, allowances, strict=True)][::-1]
    try:
        _, parts = offset_outline(around, inwards=True)
    except TooTight as tight:
        raise unusable(
            "curve-too-tight",
            edges[0].place,
            f"inside the cut line of '{piece.name}', {tight}",
            "draw a wider curve, or use a narrower allowance",
        ) from None
    finished = tuple(part.reversed() if part.segments else part for part in parts)[::-1]
    for edge, path, by in zip(edges, finished, allowances, strict=True):
        if not path.segments or not _runs_alike(edge.path, path):
            raise unusable(
                "allowance-eats-edge",
                edge.place,
                f"'{edge.name}' of '{piece.name}' is {edge.path.length:.4g} mm long as it is cut, and its allowance of "
                f"{by:.4g} mm and those beside it leave nothing of it",
                "draw it longer, or use narrower allowances",
            )
    _refuse_steps(piece, edges, allowances, finished)
    spot = crossing(Path(tuple(segment for path in finished for segment in path.segments)))
    if spot is not None:
        raise unusable(
            "allowance-crosses-itself",
            edges[0].place,
            f"inside the cut line of '{piece.name}' the finished line crosses itself near x {spot.x:.4g} mm, "
            f"y {spot.y:.4g} mm: there is no room for both allowances",
            "draw it wider there, or use narrower allowances",
        )
    return finished


def _refuse_steps(
    piece: WrittenPiece, edges: Sequence[DrawnEdge], allowances: Sequence[float], finished: Sequence[Path]
) -> None:
    """Where edges run on too straight for their allowances to differ, the finished line would step aside."""
    segments = [segment for path in finished for segment in path.segments]
    for at, after in enumerate(edges):
        before, by, other = edges[at - 1], allowances[at - 1], allowances[at]
        corner = after.path.start
        first = corner + before.path.direction_at(before.path.length).left() * by
        second = corner + after.path.direction_at(0.0).left() * other
        if (second - first).length < NEAR or not any(
            (one.start - first).length < NEAR and (one.end - second).length < NEAR for one in segments
        ):
            continue
        raise unusable(
            "allowances-step",
            after.place,
            f"'{before.name}' and '{after.name}' of '{piece.name}' meet too straight for allowances of {by:.4g} mm and "
            f"{other:.4g} mm: the finished line would step aside",
            "give both the same allowance, or draw a corner between them",
        )


def _runs_alike(drawn: Path, inside: Path) -> bool:
    """False where a short edge came out backwards, because the lines beside it cross before they reach it."""
    return (drawn.segments[-1].end - drawn.start).dot(inside.segments[-1].end - inside.start) > 0 or drawn.closed
