"""The cutting chart: one row for each copy, in the order of cutting."""

import math

from publisher.cloth import BIAS_SEAM, Cloth, StripPlan
from publisher.drafting import Copy, Draft, Grain, Hem, Piece, PieceKind, Pleat
from publisher.tables.values import ChartRow
from publisher.terms import Phrase, Quantity, UnitSystem, length, round_cut

# How far joins stay away is told in these steps, mm.
CLEAR_STEP = {UnitSystem.INCH: 12.7, UnitSystem.METRIC: 10.0}


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


def _half_note(cloth: Cloth, copy: Copy) -> Phrase:
    """How a piece is cut whole whose template shows a half: as all layouts have it, or as each of them does."""
    opened = {one.opened_out for layout in cloth.layouts for one in layout.laid if one.copy == copy.name}
    keys = {frozenset({True}): "opened-out", frozenset({True, False}): "on-the-fold-or-opened"}
    return Phrase.of(f"chart.{keys.get(frozenset(opened), 'on-the-fold')}")


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
        notes = [Phrase.of(f"chart.joined-{joins}", count=str(plans[0].count))]
    else:
        notes = [
            Phrase.of(f"chart.joined-from-{joins}", count=str(counts.get(width, 1)), width=_told(width))
            for width in widths
        ]
    several = [Phrase.of("chart.for-each")] if copy.count > 1 else []
    return several + notes + _lengths_notes(draft, [plan for plan in plans if plan.lengths])


def _bias_notes(cloth: Cloth, plans: list[StripPlan]) -> list[Phrase]:
    """How a bias strip is got: once where all widths agree, else for each width."""
    seam = _told(BIAS_SEAM[cloth.variant.units])
    if all(plan.square for plan in plans):
        return [Phrase.of("chart.bias-square", side=_told(max(plan.square for plan in plans)), seam=seam)]
    told = [(plan, _bias_way(plan, seam)) for plan in plans]
    if len({phrase for _, phrase in told}) == 1:
        return [told[0][1]]
    return [Phrase.of("chart.bias-from", width=_told(plan.sold_width), how=phrase) for plan, phrase in told]


def _bias_way(plan: StripPlan, seam: Phrase) -> Phrase:
    if plan.block is None:
        return Phrase.of("chart.bias-square", side=_told(plan.square), seam=seam)
    key = "chart.bias-left" if plan.left_over else "chart.bias-strips"
    width, along = map(_told, plan.block)
    return Phrase.of(key, count=str(plan.count), width=width, length=along, seam=seam)


def _lengths_notes(draft: Draft, plans: list[StripPlan]) -> list[Phrase]:
    """How long the lengths of a strip are cut, so that no join lies where it hurts: once where all widths agree."""
    told = {plan.sold_width: (_cut_lengths(draft, plan), _clear(draft, plan)) for plan in plans}
    if len(set(told.values())) == 1 and len({plan.count for plan in plans}) == 1:
        (lengths, apart) = next(iter(told.values()))
        return [Phrase.of("chart.lengths", cut=lengths, apart=apart)]
    return [
        Phrase.of("chart.lengths-from", width=_told(width), cut=lengths, apart=apart)
        for width, (lengths, apart) in told.items()
    ]


def _cut_lengths(draft: Draft, plan: StripPlan) -> Phrase:
    """Each one up to what a ruler shows, where the cloth is as wide."""
    step = _ruler_step(draft)
    up = [min(math.ceil(each / step - 1e-6) * step, plan.from_width) for each in plan.lengths]
    if len({round(each, 3) for each in up}) == 1:
        return Phrase.of("chart.each", length=_told(up[0]))
    told = Phrase.of("list", **{f"at{at:03d}": _told(each) for at, each in enumerate(up)})
    return Phrase.of("chart.in-order", lengths=told)


def _ruler_step(draft: Draft) -> float:
    return 25.4 * float(draft.inch_step) if draft.variant.units is UnitSystem.INCH else 1.0


def _clear(draft: Draft, plan: StripPlan) -> Phrase:
    """How far from ends and marks all joins stay, down to a round number; what is nearer is told as near."""
    step = CLEAR_STEP[draft.variant.units]
    apart = math.floor(plan.apart / step + 1e-6) * step
    return Phrase.of("chart.joins-clear", apart=_told(apart)) if apart else Phrase.of("chart.joins-near")


def _notes(draft: Draft, cloth: Cloth, piece: Piece, copy: Copy) -> list[Phrase]:
    notes: list[Phrase] = []
    if piece.half is not None and not copy.rough:
        notes.append(_half_note(cloth, copy))
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
    if plans and plans[0].joins == "bias":
        notes += _bias_notes(cloth, plans)
    elif plans:
        notes += _joined_notes(draft, copy, plans)
    if piece.note:
        notes.append(Phrase.of("chart.note", text=piece.note))
    return notes
