"""Seams and placements: which edges of which copies meet."""

from publisher.drafting.bench import Bench, head_and_tail, unknown, unusable
from publisher.drafting.edges import atomic_edges, edge_allowance, edge_path
from publisher.drafting.outlines import outline_plan
from publisher.drafting.references import copy_names, piece_of_copy, work_out_length
from publisher.drafting.values import Placement, Seam, SeamEdge
from publisher.measures import Matching, Name
from publisher.source import WrittenPiece, WrittenPlacement, WrittenSeam
from publisher.terms import Written, did_you_mean

# What every piece bears without being told: its middle.
BUILT_IN_SPOTS = ("centre",)


def draft_seam(bench: Bench, written: WrittenSeam) -> Seam:
    """The seam with the lengths and allowances of its edges. Raises Unusable."""
    first, second = (_side(bench, side) for side in written.join)
    return Seam(
        name=str(written.name),
        first=first,
        second=second,
        ease=work_out_length(bench, written.ease, "the ease") if written.ease else 0.0,
        leave_open=work_out_length(bench, written.leave_open, "what is left open") if written.leave_open else 0.0,
        place=written.name.place,
    )


def _side(bench: Bench, written: Written) -> tuple[SeamEdge, ...]:
    names = bench.saying(written)
    assert isinstance(names, tuple)
    return tuple(_seam_edge(bench, name) for name in names)


def _seam_edge(bench: Bench, name: Name) -> SeamEdge:
    head, tail = head_and_tail(name)
    piece = the_copys_piece(bench, head, name)
    if not tail:
        raise unusable(
            "no-such-edge",
            name.place,
            f"'{name.text}' is a copy; a seam joins edges",
            f"name its edge: {head}.top edge",
        )
    parts = atomic_edges(bench, piece, tail, name)
    allowances = tuple(dict.fromkeys(edge_allowance(bench, piece, part) for part in parts))
    length = sum(edge_path(bench, piece, part).length for part in parts)
    return SeamEdge(head, str(piece.name), tail, length, allowances)


def the_copys_piece(bench: Bench, copy: str, asked: Name) -> WrittenPiece:
    """The piece of a copy. What is sewn is a copy, so a piece's own name will not do where it has several."""
    piece = piece_of_copy(bench, copy)
    if piece is not None:
        return piece
    if copy in bench.pieces_by_name:
        copies = [name for name in copy_names(bench) if name.startswith(f"{copy} ")]
        listed = ", ".join(f"'{name}'" for name in copies)
        raise unusable("which-copy", asked.place, f"'{copy}' is cut several times", f"say which: {listed}")
    raise unknown(bench, copy, asked.place, f"no copy called '{copy}'", did_you_mean(copy, copy_names(bench)))


def draft_placement(bench: Bench, written: WrittenPlacement) -> Placement:
    """The placement with its pairs of names, each of which exists. Raises Unusable."""
    placed = the_copys_piece(bench, str(written.place_copy), Name(str(written.place_copy), written.place_copy.place))
    below = the_copys_piece(bench, str(written.on), Name(str(written.on), written.on.place))
    pairs: list[tuple[str, str]] = []
    for written_pair in written.matching:
        pair = bench.saying(written_pair)
        assert isinstance(pair, Matching)
        pairs.append((_spot(bench, placed, pair.placed), _spot(bench, below, pair.below)))
    return Placement(str(written.name), str(written.place_copy), str(written.on), tuple(pairs), written.name.place)


def _spot(bench: Bench, piece: WrittenPiece, name: Name) -> str:
    known = [
        *(str(mark.name) for mark in piece.marks),
        *outline_plan(bench, piece).edge_names,
        *(str(joint) for joint, _ in piece.joint_edges),
        *BUILT_IN_SPOTS,
    ]
    if name.text not in known:
        raise unusable(
            "no-such-name",
            name.place,
            f"'{piece.name}' has no edge or mark called '{name.text}'",
            did_you_mean(name.text, known),
        )
    return name.text
