"""Copies whose allowances differ from those of their piece are cut from a piece of their own, with the same outline."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from publisher.measures import CopySaying, Measures
from publisher.source import Native, Source, WrittenCopy, WrittenPiece
from publisher.terms import Written

# What tells two ways of cutting apart: all edges' allowance and those of single edges, as written.
Allowances = tuple[Native | None, tuple[tuple[Written, Native], ...]]


def cut_apart(source: Source, measures: Measures) -> Source:
    """The source with a piece for each way that a piece is cut; the first copy's keeps the name.

    A copy has its own edges' allowances, else its own for all, else the piece's edges', the piece's, its material's and
    the pattern's. Copies to the finished line have none, and stay with the piece.
    """
    usual = {str(material.key): material.allowance for material in source.materials}
    if not any(usual.values()) and not any(copy.allowances for piece in source.pieces for copy in piece.copies):
        return source
    return replace(source, pieces=tuple(one for piece in source.pieces for one in _parts(piece, usual, measures)))


def _parts(piece: WrittenPiece, usual: dict[str, Native | None], measures: Measures) -> Iterator[WrittenPiece]:
    ways: dict[Allowances, list[WrittenCopy]] = {}
    inner: list[WrittenCopy] = []
    for copy in piece.copies:
        said = measures.saying(copy.says)
        if isinstance(said, CopySaying) and said.to_finished_line:
            inner.append(copy)
        else:
            material = usual.get(said.material.text) if isinstance(said, CopySaying) else None
            ways.setdefault(_allowances(piece, copy, material), []).append(copy)
    if not ways:
        yield piece
    for at, ((whole, edges), copies) in enumerate(ways.items()):
        kept = [copy for copy in piece.copies if copy in (copies if at else (*copies, *inner))]
        name = _name(piece, copies, measures) if at else piece.name
        of = piece if len(ways) > 1 else None
        yield replace(piece, name=name, allowance=whole, edge_allowances=edges, copies=tuple(kept), cut_from=of)


def _allowances(piece: WrittenPiece, copy: WrittenCopy, of_material: Native | None) -> Allowances:
    own = copy.allowances
    whole = own.whole if own is not None else None
    edges = own.edges if own is not None else ()
    beside = () if whole is not None else piece.edge_allowances
    return whole or piece.allowance or of_material, (*edges, *beside)


def _name(piece: WrittenPiece, copies: Sequence[WrittenCopy], measures: Measures) -> Written:
    """The copy's, where there is one; of several the piece's with their material's, or with the first copy's."""
    materials = {said.material.text for copy in copies if isinstance(said := measures.saying(copy.says), CopySaying)}
    word = str(copies[0].name) if len(copies) == 1 or len(materials) > 1 else materials.pop()
    return Written(f"{piece.name} {word}", copies[0].name.place, exact=False)
