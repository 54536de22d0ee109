"""Marks of a piece: where each lies, on the stitching line or inside the piece, in mm."""

from publisher.drafting.allowances import edge_allowance
from publisher.drafting.bench import Asker, Bench, head_and_tail, unusable
from publisher.drafting.carried import laid_ends, laid_outline, met_spot, spot_on_edge
from publisher.drafting.drawn_marks import drawn_line, drawn_spot
from publisher.drafting.edges import atomic_edges, counter_clockwise, edge_names, edge_path, outline_point, point_names
from publisher.drafting.mark_values import STRETCHES, LineMark, Mark, Notch, PathMark, PointMark
from publisher.drafting.references import placed_by, the_copys_piece
from publisher.drafting.spots import Spot, edge_spot, mark_length, own_edge
from publisher.drafting.stretches import stretch_mark
from publisher.geometry import Path, Point, span_inside
from publisher.measures import Formula, MarkSaying, Name
from publisher.source import WrittenMark, WrittenPiece
from publisher.terms import did_you_mean

# The deepest notch that is drawn: half a 1/2 in allowance. A deeper cut weakens a wide allowance for nothing
# (common practice, no source).
DEEPEST_NOTCH = 6.35


NOTCHES = ("notch", "double notch")
LINES = ("fold line", "placement line", "stitching line", "trim line")


def mark_spot(bench: Bench, piece: WrittenPiece, name: str) -> Point:
    """Where a mark lies (a fold line: its start), mm. Raises Unusable."""
    written = next(mark for mark in piece.marks if mark.name == name)
    asker = Asker("mark", f"{piece.name}.{name}", written.name.place)
    return bench.work_out(asker, lambda: _mark_spot(bench, piece, written))


def _mark_spot(bench: Bench, piece: WrittenPiece, written: WrittenMark) -> Point:
    said = _said(bench, written)
    if said.kind in NOTCHES:
        return _notch_spot(bench, piece, said, written).at
    if said.kind in STRETCHES:
        path = _stretch(bench, piece, said, written, ()).path
        return path.point_at(path.length / 2)
    if said.kind == "outline":
        return laid_outline(bench, piece, said).start
    if said.kind == "ends":
        return laid_ends(bench, piece, said, written)[0].at
    if said.kind == "point":
        return _point_spot(bench, piece, said, written)
    if said.kind == "derived":
        return _derived(bench, piece, said)[1][0]
    return line_ends(bench, piece, said, written)[0]


def mark_way(bench: Bench, piece: WrittenPiece, name: str) -> tuple[Point, Point | None, bool]:
    """Where a mark lies (a line: its middle), which way its edge or line runs, and whether it is a line."""
    written = next(mark for mark in piece.marks if mark.name == name)
    said = _said(bench, written)
    if said.kind in NOTCHES:
        spot = _notch_spot(bench, piece, said, written)
        return spot.at, spot.direction if counter_clockwise(bench, piece) else -spot.direction, False
    ends = (
        line_ends(bench, piece, said, written)
        if said.kind in LINES
        else _derived(bench, piece, said)[1]
        if said.kind == "derived"
        else ()
    )
    if len(ends) == 2:
        return (ends[0] + ends[1]) * 0.5, (ends[1] - ends[0]).unit(), True
    return mark_spot(bench, piece, name), None, False


def _said(bench: Bench, written: WrittenMark) -> MarkSaying:
    said = bench.saying(written.says)
    assert isinstance(said, MarkSaying)
    return said


def _point_spot(bench: Bench, piece: WrittenPiece, said: MarkSaying, written: WrittenMark) -> Point:
    if said.element is not None:
        return drawn_spot(bench, piece, said.element, written)
    if said.x is not None and said.y is not None:
        return Point(mark_length(bench, said.x, written), mark_length(bench, said.y, written))
    if said.spot is not None:
        spot = edge_spot(bench, piece, said.spot, written)
        if said.into is None:
            return spot.at
        return spot.at + _inwards(bench, piece, spot.direction) * mark_length(bench, said.into, written)
    lines = [_inset(bench, piece, formula, edge, written) for formula, edge in said.insets]
    return _meet(lines, written)


def _inwards(bench: Bench, piece: WrittenPiece, direction: Point) -> Point:
    return direction.left() if counter_clockwise(bench, piece) else direction.right()


def _inset(
    bench: Bench, piece: WrittenPiece, formula: Formula, edge: Name, written: WrittenMark
) -> tuple[Point, Point]:
    """A spot and the direction of the line that runs beside a straight edge at a distance inside the piece."""
    (part, *more) = atomic_edges(bench, piece, own_edge(piece, edge), edge)
    path = edge_path(bench, piece, part)
    direction = path.direction_at(0.0)
    if more or abs(direction.cross(path.direction_at(path.length))) > 1e-9:
        raise unusable(
            "edge-not-straight",
            edge.place,
            f"'{edge.text}' is not straight, so nothing lies beside it at one distance",
            "measure from a straight edge, or give the point as x, y",
        )
    return path.start + _inwards(bench, piece, direction) * mark_length(bench, formula, written), direction


def _meet(lines: list[tuple[Point, Point]], written: WrittenMark) -> Point:
    (start, along), (other, across) = lines
    crossing = along.cross(across)
    if abs(crossing) < 1e-9:
        raise unusable(
            "edges-parallel",
            written.says.place,
            f"'{written.name}' is measured from two edges that run side by side and never meet",
            "measure from two edges that stand at an angle",
        )
    return start + along * ((other - start).cross(across) / crossing)


def line_ends(bench: Bench, piece: WrittenPiece, said: MarkSaying, written: WrittenMark) -> tuple[Point, Point]:
    """Both ends of a line that a mark says: between two spots, beside an edge, or square across from a spot on one."""
    if said.element is not None:
        return drawn_line(bench, piece, said.element, written)
    if said.start is not None and said.end is not None:
        first, second = (named_spot(bench, piece, name) for name in (said.start, said.end))
        return first, second
    if said.spot is not None:
        spot = edge_spot(bench, piece, said.spot, written)
        return _across_piece(bench, piece, spot.at, _inwards(bench, piece, spot.direction), written)
    ((formula, edge),) = said.insets
    start, along = _inset(bench, piece, formula, edge, written)
    return _across_piece(bench, piece, start, along, written)


def named_spot(bench: Bench, piece: WrittenPiece, name: Name) -> Point:
    """Where a mark or a point of the piece lies, by its name. Raises Unusable with the nearest name."""
    own = own_edge(piece, name)
    marks = [str(mark.name) for mark in piece.marks]
    if own in marks:
        return mark_spot(bench, piece, own)
    point = outline_point(bench, piece, own)
    if point is not None:
        return point
    raise unusable(
        "no-such-point",
        name.place,
        f"'{piece.name}' has no point or mark called '{own}'",
        did_you_mean(own, [*point_names(bench, piece), *marks]),
    )


def _across_piece(
    bench: Bench, piece: WrittenPiece, start: Point, along: Point, written: WrittenMark
) -> tuple[Point, Point]:
    """The longest stretch of a line that lies inside the finished line."""
    edges = [edge_path(bench, piece, name) for name in edge_names(bench, piece)]
    try:
        return span_inside(Path(tuple(segment for edge in edges for segment in edge.segments)), start, along)
    except ValueError:
        raise unusable(
            "mark-off-piece",
            written.says.place,
            f"the line '{written.name}' misses '{piece.name}' altogether",
            "bring it nearer to its edge",
        ) from None


def draft_marks(bench: Bench, piece: WrittenPiece, written: WrittenMark) -> tuple[Mark, ...]:
    """The mark as drafted; of `ends` several. Raises Unusable."""
    said = _said(bench, written)
    copies = _bearers(piece, said)
    at = mark_spot(bench, piece, str(written.name))
    if said.kind in NOTCHES:
        return (_notch(bench, piece, said, written, copies, _notch_spot(bench, piece, said, written)),)
    if said.kind == "ends":
        spots = laid_ends(bench, piece, said, written)
        return tuple(_notch(bench, piece, said, written, copies, spot) for spot in spots)
    return (_other_mark(bench, piece, said, written, copies, at),)


def _other_mark(
    bench: Bench, piece: WrittenPiece, said: MarkSaying, written: WrittenMark, copies: tuple[str, ...], at: Point
) -> Mark:
    if said.kind in STRETCHES:
        return _stretch(bench, piece, said, written, copies)
    if said.kind == "outline":
        outline = laid_outline(bench, piece, said)
        return PathMark(str(written.name), "placed outline", outline, 0.0, said.face, copies, written.name.place)
    if said.kind == "point":
        return PointMark(str(written.name), at, said.symbol, said.face, copies, written.name.place)
    if said.kind == "derived":
        return _derived_mark(bench, piece, said, written, copies)
    start, end = line_ends(bench, piece, said, written)
    return LineMark(str(written.name), said.kind, start, end, said.face, copies, written.name.place)


def _stretch(
    bench: Bench, piece: WrittenPiece, said: MarkSaying, written: WrittenMark, copies: tuple[str, ...]
) -> PathMark:
    return stretch_mark(bench, piece, said, written, copies, lambda name: named_spot(bench, piece, name))


def _notch_spot(bench: Bench, piece: WrittenPiece, said: MarkSaying, written: WrittenMark) -> Spot:
    if said.element is not None:
        spot = spot_on_edge(bench, piece, drawn_spot(bench, piece, said.element, written))
        if spot is not None:
            return spot
        says = f"the element '{said.element}' lies on no edge of '{piece.name}', and a notch is cut into one"
        raise unusable("mark-off-edge", written.says.place, says, "draw it on the outline, or make it a point")
    if said.start is not None and said.end is not None:
        _, tail = head_and_tail(said.start)
        other = the_copys_piece(bench, said.start)
        spot_there = named_spot(bench, other, Name(tail, said.start.place))
        return met_spot(bench, piece, said, spot_there)
    assert said.spot is not None
    return edge_spot(bench, piece, said.spot, written)


def _derived(bench: Bench, piece: WrittenPiece, said: MarkSaying) -> tuple[str, tuple[Point, ...]]:
    """The kind and the spots of a mark as the placement lays it on this piece."""
    assert said.start is not None
    assert said.end is not None
    source, mark, laying = placed_by(bench, piece, said.start, said.end)
    other = _said(bench, mark)
    if other.kind == "derived":
        kind, spots = _derived(bench, source, other)
    elif other.kind in LINES:
        kind, spots = other.kind, line_ends(bench, source, other, mark)
    else:
        kind, spots = other.symbol, (mark_spot(bench, source, str(mark.name)),)
    return kind, tuple(laying(spot) for spot in spots)


def _derived_mark(
    bench: Bench, piece: WrittenPiece, said: MarkSaying, written: WrittenMark, copies: tuple[str, ...]
) -> Mark:
    kind, spots = _derived(bench, piece, said)
    if kind in LINES:
        return LineMark(str(written.name), kind, spots[0], spots[1], said.face, copies, written.name.place)
    return PointMark(str(written.name), spots[0], kind, said.face, copies, written.name.place)


def _bearers(piece: WrittenPiece, said: MarkSaying) -> tuple[str, ...]:
    known = [str(copy.name) for copy in piece.as_written.copies]
    for name in said.copies:
        if name.text not in known:
            raise unusable(
                "no-such-copy",
                name.place,
                f"'{piece.name}' has no copy called '{name.text}'",
                did_you_mean(name.text, known),
            )
    here = {str(copy.name) for copy in piece.copies}
    return tuple(name.text for name in said.copies if name.text in here)


def bears(bench: Bench, piece: WrittenPiece, written: WrittenMark) -> bool:
    """True where a copy that is cut from this piece bears the mark; a name that no copy has is told elsewhere."""
    if piece.cut_from is None:
        return True
    said = bench.measures.saying(written.says)
    named = {name.text for name in said.copies} if isinstance(said, MarkSaying) else set()
    elsewhere = {str(copy.name) for copy in piece.cut_from.copies} - {str(copy.name) for copy in piece.copies}
    return not named or not named <= elsewhere


def _notch(
    bench: Bench,
    piece: WrittenPiece,
    said: MarkSaying,
    written: WrittenMark,
    copies: tuple[str, ...],
    spot: Spot,
) -> Notch:
    allowance = edge_allowance(bench, piece, spot.edge)
    if allowance <= 0:
        raise unusable(
            "notch-on-bound-edge",
            written.says.place,
            f"the notch '{written.name}' lies on '{spot.edge}', which has no allowance to cut into",
            "use a point instead of a notch, or give the edge an allowance",
        )
    outwards = -_inwards(bench, piece, spot.direction)
    depth = min(allowance / 2, DEEPEST_NOTCH)
    reversed_edge = not counter_clockwise(bench, piece)
    distance = edge_path(bench, piece, spot.edge).length - spot.distance if reversed_edge else spot.distance
    return Notch(
        name=str(written.name),
        edge=spot.edge,
        distance=distance,
        at=spot.at,
        cut_end=spot.at + outwards * allowance,
        inner_end=spot.at + outwards * (allowance - depth),
        double=said.kind == "double notch",
        copies=copies,
        place=written.name.place,
    )
