"""A piece as its template shows it where that is not the piece as sewn: with pleats open, or half of it on the fold."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import pairwise

from publisher.drafting.allowances import edge_allowance, edge_hem, edge_layers
from publisher.drafting.bench import Bench, unusable
from publisher.drafting.cutting import cut_line_of
from publisher.drafting.darts import dart_mark, darts_of, with_darts
from publisher.drafting.edges import drafted_path, whole
from publisher.drafting.grain import grain_line_of
from publisher.drafting.halves import Axis, half_of
from publisher.drafting.mark_values import LineMark, Mark, Notch, PathMark, Pleat, PointMark
from publisher.drafting.outlines import outline_plan
from publisher.drafting.pleats import Fold, drawn_pleats, folds_of, open_edges, open_marks
from publisher.drafting.values import Edge, Piece, PieceKind
from publisher.geometry import Line, Path, Point, signed_area
from publisher.source import WrittenPiece


def opened_piece(bench: Bench, written: WrittenPiece, piece: Piece) -> Piece | None:
    """The piece as it is cut, its pleats open and marked; None where it has none. Raises Unusable."""
    if not written.pleats and not written.darts:
        return None
    if written.pleats and written.darts:
        says = f"'{piece.name}' has pleats and darts, which are opened in different ways"
        raise unusable(
            "pleats-and-darts", written.darts[0].name.place, says, "make the darts pleats, or two pieces of it"
        )
    darts = darts_of(bench, written)
    folds = folds_of(bench, written) if written.pleats else ()
    edges = open_edges(written, piece.edges, folds) if folds else with_darts(piece.edges, darts)
    cut_line = cut_line_of(bench, written, edges)
    box = cut_line.box
    return replace(
        piece,
        edges=edges,
        cut_line=cut_line,
        cut_width=box.width,
        cut_height=box.height,
        grain_line=grain_line_of(piece.grain, edges, piece.one_way) if piece.kind is PieceKind.DRAWN else None,
        marks=(*_opened_marks(piece, folds, cut_line), *(dart_mark(dart) for dart in darts)),
    )


def _opened_marks(piece: Piece, folds: tuple[Fold, ...], cut_line: Path) -> tuple[Mark, ...]:
    return (*open_marks(piece.marks, folds), *drawn_pleats(folds, cut_line, piece.cut_line)) if folds else piece.marks


def half_piece(bench: Bench, written: WrittenPiece, piece: Piece) -> Piece | None:
    """What the template of a piece on the fold shows; None for any other. Raises Unusable."""
    half = half_of(written)
    if half is None or not half.on_fold:
        return None
    if written.pleats:
        raise unusable(
            "pleats-on-the-fold",
            half.along.place,
            f"'{piece.name}' has pleats and lies on the fold",
            "draw the whole of it: mirrored along instead of on the fold along",
        )
    axis, _ = whole(bench, written)
    darts = darts_of(bench, written)
    edges = with_darts(_half_edges(bench, written, piece, str(half.along)), darts)
    cut_line = cut_line_of(bench, written, edges, str(half.along))
    box = cut_line.box
    return replace(
        piece,
        edges=edges,
        joint_edges=(),
        cut_line=cut_line,
        cut_width=box.width,
        cut_height=box.height,
        grain_line=grain_line_of(piece.grain, edges, piece.one_way),
        marks=tuple(_on_half((*piece.marks, *map(dart_mark, darts)), axis, edges)),
        hems=tuple(
            hem
            for edge in edges
            if edge.name != str(half.along) and (hem := edge_hem(bench, written, edge.name)) is not None
        ),
        fold_edge=str(half.along),
    )


def _half_edges(bench: Bench, written: WrittenPiece, piece: Piece, fold: str) -> tuple[Edge, ...]:
    edges = [
        Edge(
            name,
            drafted_path(bench, written, name),
            0.0 if name == fold else edge_allowance(bench, written, name),
            piece.place,
            () if name == fold else edge_layers(bench, written, name),
        )
        for name in outline_plan(bench, written).drafted_names
    ]
    if signed_area(Path(tuple(segment for edge in edges for segment in edge.path.segments))) < 0:
        edges = [replace(edge, path=edge.path.reversed()) for edge in reversed(edges)]
    return tuple(edges)


def _on_half(marks: tuple[Mark, ...], axis: Axis, edges: tuple[Edge, ...]) -> Iterator[Mark]:
    """The marks of the half that is printed; a line that crosses the fold ends there."""
    box = Path(tuple(segment for edge in edges for segment in edge.path.segments)).box
    beside = axis.along.unit().left()
    inwards = (
        beside
        if (Point((box.left + box.right) / 2, (box.bottom + box.top) / 2) - axis.start).dot(beside) > 0
        else -beside
    )

    def inside_by(point: Point) -> float:
        return (point - axis.start).dot(inwards)

    for mark in marks:
        if isinstance(mark, LineMark):
            start, end = inside_by(mark.start), inside_by(mark.end)
            if max(start, end) < 1e-6:
                continue
            fold = mark.start + (mark.end - mark.start) * (start / (start - end)) if min(start, end) < 0 else mark.start
            yield replace(mark, start=mark.start if start >= 0 else fold, end=mark.end if end >= 0 else fold)
        elif isinstance(mark, Pleat):
            if all(inside_by(end) > -1e-6 for span in mark.stitched for end in span):
                yield mark
        elif isinstance(mark, PathMark):
            yield from _path_on_half(mark, inside_by)
        elif isinstance(mark, Notch) and abs(inside_by(mark.at)) < 1e-6:
            yield replace(mark, side=inwards)
        elif isinstance(mark, Notch | PointMark) and inside_by(mark.at) > -1e-6:
            yield mark


def _path_on_half(mark: PathMark, inside_by: Callable[[Point], float]) -> Iterator[PathMark]:
    """The part of a path that lies on the half, flattened where the path crosses the fold; none where none does."""
    spots = mark.path.flattened(0.01)
    reaches = [inside_by(spot) for spot in spots]
    if min(reaches) > -1e-6:
        yield mark
        return
    kept: list[Line] = []
    for (one, reach), (other, next_reach) in pairwise(zip(spots, reaches, strict=True)):
        if max(reach, next_reach) <= 0:
            continue
        fold = one + (other - one) * (reach / (reach - next_reach)) if min(reach, next_reach) < 0 else one
        kept.append(Line(one if reach >= 0 else fold, other if next_reach >= 0 else fold))
    # A stretch over the fold enters or leaves the half once, so that what is kept hangs together.
    if kept and all((one.end - other.start).length < 1e-6 for one, other in pairwise(kept)):
        yield replace(mark, path=Path(tuple(kept)))
