"""A whole piece: its edges closed, its cut line offset, its grain, marks and copies. Millimetres."""

from dataclasses import replace
from itertools import pairwise

from publisher.drafting.bench import UNUSABLE, Bench, unknown, unusable
from publisher.drafting.edges import edge_allowance, edge_path, strip_end_allowance, usual_allowance
from publisher.drafting.marks import draft_mark
from publisher.drafting.outlines import outline_plan
from publisher.drafting.references import copy_name
from publisher.drafting.strips import strip_finished_width
from publisher.drafting.values import Copy, Edge, Grain, GrainLine, JointEdge, Piece, PieceKind, Strip
from publisher.geometry import Path, Point, TooTight, crossing, flipped_alike, offset_outline, signed_area, span_inside
from publisher.measures import CopySaying
from publisher.source import WrittenCopy, WrittenPiece, WrittenStrip
from publisher.terms import Finding, Unusable, did_you_mean

GRAIN_LINE_LONGEST = 120.0  # mm: longer says no more and takes ink


def draft_piece(bench: Bench, piece: WrittenPiece, number: int) -> tuple[Piece, tuple[Finding, ...]]:
    """The piece, and findings about marks and copies that had to be left out. Raises Unusable for the piece itself."""
    edges = draft_edges(bench, piece)
    cut_line = _cut_line(piece, edges)
    found: list[Finding] = []
    marks = _collect([lambda mark=mark: draft_mark(bench, piece, mark) for mark in piece.marks], found)
    copies = _collect([lambda copy=copy: _copy(bench, piece, copy) for copy in piece.copies], found)
    joints = _collect([lambda at=at: _joint_edge(piece, edges, at) for at in range(len(piece.joint_edges))], found)
    grain = _grain(piece)
    box = cut_line.box
    drafted = Piece(
        number=number,
        name=str(piece.name),
        kind=PieceKind.STRIP if piece.strip else PieceKind.DRAWN if piece.drawn else PieceKind.MEASURED,
        edges=edges,
        joint_edges=tuple(joints),
        cut_line=cut_line,
        cut_width=box.width,
        cut_height=box.height,
        grain=grain,
        grain_line=_grain_line(grain, edges) if piece.drawn else None,
        marks=tuple(marks),
        copies=tuple(copies),
        strip=_strip(bench, piece, piece.strip) if piece.strip else None,
        note=str(piece.note) if piece.note else None,
        place=piece.name.place,
    )
    return _paired(drafted), tuple(found)


def _collect(makers, found: list[Finding]):  # type: ignore[no-untyped-def]
    """What each maker yields; one that cannot be used is told and left out, and hides no other."""
    made = []
    for make in makers:
        try:
            made.append(make())
        except Unusable as reason:
            found.append(reason.finding)
        except UNUSABLE:
            continue
    return made


def draft_edges(bench: Bench, piece: WrittenPiece) -> tuple[Edge, ...]:
    """All edges, closed and counter-clockwise. Raises Unusable where the outline crosses itself."""
    names = outline_plan(bench, piece).edge_names
    places = {side.name: side.place for side in outline_plan(bench, piece).sides}
    _check_allowance_names(piece, names)
    edges = [
        Edge(
            name, edge_path(bench, piece, name), edge_allowance(bench, piece, name), places.get(name, piece.name.place)
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


def _check_allowance_names(piece: WrittenPiece, names: tuple[str, ...]) -> None:
    known = (*names, *(str(joint) for joint, _ in piece.joint_edges))
    for name, _ in piece.edge_allowances:
        if name not in known:
            raise unusable(
                "no-such-edge", name.place, f"'{piece.name}' has no edge called '{name}'", did_you_mean(name, known)
            )


def _cut_line(piece: WrittenPiece, edges: tuple[Edge, ...]) -> Path:
    try:
        cut_line, _ = offset_outline([(edge.path, edge.allowance) for edge in edges])
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


def _joint_edge(piece: WrittenPiece, edges: tuple[Edge, ...], at: int) -> JointEdge:
    """The joint edge in order round the piece. Raises Unusable where its edges are not neighbours."""
    name, parts = piece.joint_edges[at]
    around = [edge.name for edge in edges]
    for part in parts:
        if str(part) not in around:
            raise unusable(
                "no-such-edge", part.place, f"'{piece.name}' has no edge called '{part}'", did_you_mean(part, around)
            )
    wanted = tuple(map(str, parts))
    for order in (wanted, wanted[::-1]):
        if all(around[(around.index(first) + 1) % len(around)] == second for first, second in pairwise(order)):
            return JointEdge(str(name), order, name.place)
    raise unusable(
        "edges-not-neighbours",
        name.place,
        f"the edges of '{name}' do not follow one another round '{piece.name}'",
        f"list them in order; round this piece they come as: {', '.join(around)}",
    )


def _grain(piece: WrittenPiece) -> Grain:
    if piece.grain is None:
        return Grain.UP
    for grain in Grain:
        if grain.value == str(piece.grain):
            return grain
    known = [grain.value for grain in Grain]
    raise unusable(
        "no-such-grain", piece.grain.place, f"no grain called '{piece.grain}'", did_you_mean(piece.grain, known)
    )


def _grain_line(grain: Grain, edges: tuple[Edge, ...]) -> GrainLine | None:
    """An arrow along the grain through the piece, a quarter in from its side so that the middle stays free."""
    if grain is Grain.EITHER:
        return None
    outline = Path(tuple(segment for edge in edges for segment in edge.path.segments))
    box = outline.box
    direction = {Grain.UP: Point(0, 1), Grain.ACROSS: Point(1, 0), Grain.BIAS: Point(1, 1).unit()}[grain]
    through = Point(box.left + box.width / 4, box.bottom + box.height / (4 if grain is Grain.ACROSS else 2))
    start, end = span_inside(outline, through, direction)
    middle, half = (start + end) * 0.5, min((end - start).length * 0.6, GRAIN_LINE_LONGEST) / 2
    return GrainLine(middle - direction * half, middle + direction * half)


def _copy(bench: Bench, piece: WrittenPiece, written: WrittenCopy) -> Copy:
    said = bench.saying(written.says)
    assert isinstance(said, CopySaying)
    known = [str(material.key) for material in bench.source.materials]
    if said.material.text not in known:
        raise unknown(
            bench,
            said.material.text,
            said.material.place,
            f"no material called '{said.material.text}'",
            did_you_mean(said.material.text, known) or "add it to materials:",
        )
    return Copy(
        name=copy_name(piece, str(written.name)),
        piece=str(piece.name),
        material=said.material.text,
        count=said.count,
        to_finished_line=said.to_finished_line,
        mirrored=not said.alike and said.count > 1,
        place=written.name.place,
    )


def _paired(piece: Piece) -> Piece:
    """The piece with `mirrored` true only where turning it over makes a difference."""
    if not any(copy.mirrored for copy in piece.copies) or not flipped_alike(piece.cut_line):
        return piece
    return replace(piece, copies=tuple(replace(copy, mirrored=False) for copy in piece.copies))


def _strip(bench: Bench, piece: WrittenPiece, strip: WrittenStrip) -> Strip:
    allowance = usual_allowance(bench, piece)
    edges = {edge.name: edge for edge in draft_edges(bench, piece)}
    folding = str(strip.fold)
    return Strip(
        folding=folding,
        finished_width=strip_finished_width(folding, edges["left end"].length, allowance),
        finished_length=edges["long edge"].length,
        end_allowance=strip_end_allowance(bench, piece, strip),
        joins=strip.joins is not None and _joins(strip),
    )


def _joins(strip: WrittenStrip) -> bool:
    assert strip.joins is not None
    if str(strip.joins) in ("allowed", "none"):
        return str(strip.joins) == "allowed"
    raise unusable(
        "wrong-kind", strip.joins.place, f"joins are 'allowed' or 'none', not '{strip.joins}'", "write joins: allowed"
    )
