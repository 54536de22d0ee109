"""The cutting chart: one row for each copy, in the order of cutting."""

from publisher.cloth import BIAS_SEAM, Cloth, StripPlan
from publisher.drafting import Copy, Draft, Grain, Hem, Piece, PieceKind, Pleat
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
        size=_size(draft, piece.as_cut, copy) if piece.kind is not PieceKind.DRAWN or copy.rough else None,
        cut=_cut(copy),
        grain=_grain(draft, piece, copy),
        notes=tuple(_notes(draft, cloth, piece, copy)),
        template=piece.kind is PieceKind.DRAWN and not copy.rough,
    )


def _size(draft: Draft, piece: Piece, copy: Copy) -> tuple[Quantity, Quantity]:
    """Across and along the grain, as cut."""
    box = piece.finished_line.box if copy.to_finished_line else piece.cut_line.box
    sides = (box.height, box.width) if piece.grain is Grain.ACROSS else (box.width, box.height)
    width, height = (round_cut(length(side + 2 * copy.rough), draft.variant.units, draft.inch_step) for side in sides)
    return width, height


def _cut(copy: Copy) -> Phrase:
    if copy.mirrored and copy.count % 2 == 0:
        return Phrase.of("chart.cut-pair", count=str(copy.count // 2))
    return Phrase.of("chart.cut", count=str(copy.count))


def _grain(draft: Draft, piece: Piece, copy: Copy) -> Phrase:
    if any(material.free for material in draft.materials if material.key == copy.material):
        return Phrase.of("chart.grain-either")
    keys = {Grain.UP: "up", Grain.ACROSS: "across", Grain.BIAS: "bias", Grain.EITHER: "either"}
    return Phrase.of(f"chart.grain-{keys[piece.grain]}")


def _hem_note(hem: Hem) -> Phrase:
    key = "chart.casing" if hem.casing else "chart.hem"
    return Phrase.of(key, edge=hem.edge, takes=_told(hem.takes))


def _told(amount: float) -> Phrase:
    return Phrase.of("length", mm=str(length(amount).amount))


def _joined_notes(draft: Draft, copy: Copy, plans: list[StripPlan]) -> list[Phrase]:
    """How many strips are joined: once where every way of buying takes as many, else for each width."""
    joins = plans[0].joins
    sold = next(material.sold for material in draft.materials if material.key == copy.material)
    widths = list(dict.fromkeys(width.width for width in sold))
    counts = {plan.sold_width: plan.count for plan in plans}
    if len({counts.get(width, 1) for width in widths} or {0}) == 1:
        return [Phrase.of(f"chart.joined-{joins}", count=str(plans[0].count))]
    return [
        Phrase.of(f"chart.joined-from-{joins}", count=str(counts.get(width, 1)), width=_told(width)) for width in widths
    ]


def _notes(draft: Draft, cloth: Cloth, piece: Piece, copy: Copy) -> list[Phrase]:
    notes: list[Phrase] = []
    if piece.half is not None:
        notes.append(Phrase.of("chart.on-the-fold"))
    if copy.turned_over and piece.kind is PieceKind.DRAWN:
        notes.append(Phrase.of("chart.turned-over"))
    if copy.to_finished_line:
        inner = "to-finished-line" if piece.kind is PieceKind.DRAWN else "without-allowance"
        notes.append(Phrase.of(f"chart.{inner}"))
    if piece.strip is not None:
        notes.append(Phrase.of(f"chart.fold-{piece.strip.folding.replace(' ', '-')}"))
    if copy.rough:
        notes.append(Phrase.of("chart.rough"))
    if any(isinstance(mark, Pleat) and mark.kind != "dart" for mark in piece.as_cut.marks):
        notes.append(Phrase.of("chart.pleats"))
    notes += [_hem_note(hem) for hem in piece.hems if piece.kind is not PieceKind.DRAWN]
    plans = [plan for plan in cloth.strips if plan.copy == copy.name]
    if plans and plans[0].square:
        square = max(plan.square for plan in plans)
        notes.append(Phrase.of("chart.bias-square", side=_told(square), seam=_told(BIAS_SEAM[cloth.variant.units])))
    elif plans:
        notes += _joined_notes(draft, copy, plans)
    if piece.note:
        notes.append(Phrase.of("chart.note", text=piece.note))
    return notes
