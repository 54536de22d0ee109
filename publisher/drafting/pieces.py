"""A whole piece: its edges closed, its cut line offset, its grain, marks and copies. Millimetres."""

from dataclasses import replace
from itertools import pairwise

from publisher.drafting.allowances import edge_hem, long_edge_allowance, strip_end_allowance, usual_allowance
from publisher.drafting.bench import UNUSABLE, Bench, unknown, unusable
from publisher.drafting.cutting import cut_line_of, draft_edges
from publisher.drafting.edges import joint_edges
from publisher.drafting.facing import as_pair, lies_turned_over, told_apart
from publisher.drafting.grain import grain_line_of, grain_of, lies_one_way
from publisher.drafting.halves import half_of
from publisher.drafting.marks import bears, draft_marks
from publisher.drafting.references import as_length, copy_name, work_out_formula
from publisher.drafting.sizes import held_by, strip_thickness
from publisher.drafting.stretches import gap_marks
from publisher.drafting.strips import strip_finished_width
from publisher.drafting.values import Copy, Edge, JointEdge, Piece, PieceKind, Strip
from publisher.drafting.variations import half_piece, opened_piece
from publisher.measures import CopySaying
from publisher.source import Native, WrittenCopy, WrittenPiece, WrittenStrip
from publisher.terms import Finding, Unusable, did_you_mean


def draft_piece(bench: Bench, piece: WrittenPiece, number: int) -> tuple[Piece, tuple[Finding, ...]]:
    """The piece, and findings about marks and copies that had to be left out. Raises Unusable for the piece itself."""
    edges = draft_edges(bench, piece)
    cut_line = cut_line_of(bench, piece, edges)
    found: list[Finding] = []
    borne = [mark for mark in piece.marks if bears(bench, piece, mark)]
    drafted_marks = _collect([lambda mark=mark: draft_marks(bench, piece, mark) for mark in borne], found)
    marks = [*(mark for several in drafted_marks for mark in several), *gap_marks(bench, piece)]
    copies = _collect([lambda copy=copy: _copy(bench, piece, copy) for copy in piece.copies], found)
    joints = _collect(
        [lambda at=at: _joint_edge(bench, piece, edges, at) for at in range(len(piece.joint_edges))], found
    )
    grain, one_way = grain_of(piece), lies_one_way(bench, piece)
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
        grain_line=grain_line_of(grain, edges, one_way) if piece.drawn else None,
        marks=tuple(marks),
        copies=tuple(copies),
        strip=_strip(bench, piece, piece.strip) if piece.strip else None,
        note=str(piece.note) if piece.note else None,
        place=piece.name.place,
        one_way=one_way,
        holds=held_by(bench, piece),
        hems=tuple(hem for edge in edges if (hem := edge_hem(bench, piece, edge.name)) is not None),
    )
    paired = told_apart(drafted, on_the_fold=(half := half_of(piece)) is not None and half.on_fold)
    return replace(paired, opened=opened_piece(bench, piece, paired), half=half_piece(bench, piece, paired)), tuple(
        found
    )


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


def _joint_edge(bench: Bench, piece: WrittenPiece, edges: tuple[Edge, ...], at: int) -> JointEdge:
    """The joint edge in order round the piece. Raises Unusable where its edges are not neighbours."""
    name, _ = piece.joint_edges[at]
    around = [edge.name for edge in edges]
    wanted = joint_edges(bench, piece, str(name))
    for order in (wanted, wanted[::-1]):
        if all(around[(around.index(first) + 1) % len(around)] == second for first, second in pairwise(order)):
            return JointEdge(str(name), order, name.place)
    raise unusable(
        "edges-not-neighbours",
        name.place,
        f"the edges of '{name}' do not follow one another round '{piece.name}'",
        f"list them in order; round this piece they come as: {', '.join(around)}",
    )


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
        mirrored=as_pair(said),
        rough=_rough(bench, said, written),
        turned_over=lies_turned_over(bench, piece, said),
        place=written.name.place,
    )


def _rough(bench: Bench, said: CopySaying, written: WrittenCopy) -> float:
    if said.rough is None:
        return 0.0
    margin = as_length(bench, work_out_formula(bench, said.rough), Native(written.says, written.says), "the margin")
    if margin < 0:
        raise unusable(
            "allowance-below-nought",
            written.says.place,
            f"'{written.name}' is rough by {margin:g} mm",
            "write 0 or more",
        )
    return margin


def _strip(bench: Bench, piece: WrittenPiece, strip: WrittenStrip) -> Strip:
    allowance = usual_allowance(bench, piece)
    edges = {edge.name: edge for edge in draft_edges(bench, piece)}
    folding = str(strip.fold)
    return Strip(
        folding=folding,
        finished_width=strip_finished_width(
            folding,
            edges["left end"].length + 2 * long_edge_allowance(bench, piece, strip) - strip_thickness(bench, strip),
            allowance,
        ),
        finished_length=edges["long edge"].length,
        end_allowance=strip_end_allowance(bench, piece, strip),
        joins=_joins(strip),
        join_allowance=allowance,
    )


JOINS = {"allowed": "diagonal", "diagonal": "diagonal", "straight": "straight", "none": None}


def _joins(strip: WrittenStrip) -> str | None:
    """How the strip may be pieced: on the diagonal unless straight joins are asked for."""
    if strip.joins is None:
        return None
    if str(strip.joins) not in JOINS:
        raise unusable(
            "wrong-kind",
            strip.joins.place,
            f"joins are allowed, diagonal, straight or none, not '{strip.joins}'",
            did_you_mean(strip.joins, JOINS),
        )
    return JOINS[str(strip.joins)]
