"""The cutting chart: one row for each copy, in the order of cutting."""

from publisher.cloth import Cloth
from publisher.drafting import Copy, Draft, Grain, Piece, PieceKind
from publisher.tables.values import ChartRow
from publisher.terms import Phrase, Quantity, length, round_cut


def cutting_chart(draft: Draft, cloth: Cloth) -> tuple[ChartRow, ...]:
    """Rows by material in the order they are listed, then by piece."""
    return tuple(
        _row(draft, cloth, piece, copy)
        for material in draft.materials
        for piece in draft.pieces
        for copy in piece.copies
        if copy.material == material.key
    )


def _row(draft: Draft, cloth: Cloth, piece: Piece, copy: Copy) -> ChartRow:
    return ChartRow(
        piece_number=piece.number,
        copy=copy.name,
        piece=piece.name,
        material=copy.material,
        count=copy.count,
        size=None if piece.kind is PieceKind.DRAWN else _size(draft, piece),
        cut=_cut(copy),
        grain=_grain(piece),
        notes=tuple(_notes(cloth, piece, copy)),
        template=piece.kind is PieceKind.DRAWN,
    )


def _size(draft: Draft, piece: Piece) -> tuple[Quantity, Quantity]:
    units = draft.variant.units
    return round_cut(length(piece.cut_width), units), round_cut(length(piece.cut_height), units)


def _cut(copy: Copy) -> Phrase:
    if copy.mirrored and copy.count == 2:
        return Phrase.of("chart.cut-pair")
    return Phrase.of("chart.cut", count=str(copy.count))


def _grain(piece: Piece) -> Phrase:
    keys = {Grain.UP: "up", Grain.ACROSS: "across", Grain.BIAS: "bias", Grain.EITHER: "either"}
    return Phrase.of(f"chart.grain-{keys[piece.grain]}")


def _notes(cloth: Cloth, piece: Piece, copy: Copy) -> list[Phrase]:
    notes: list[Phrase] = []
    if copy.to_finished_line:
        notes.append(Phrase.of("chart.to-finished-line"))
    if piece.strip is not None:
        notes.append(Phrase.of(f"chart.fold-{piece.strip.folding.replace(' ', '-')}"))
    plans = [plan for plan in cloth.strips if plan.copy == copy.name]
    if plans:
        notes.append(Phrase.of("chart.joined-strips", count=str(max(plan.count for plan in plans))))
    if piece.note:
        notes.append(Phrase.of("chart.note", text=piece.note))
    return notes
