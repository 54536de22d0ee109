"""The cutting chart: one row for each copy, in the order of cutting."""

import math

from publisher.cloth import BIAS_SEAM, Cloth, StripPlan, rough_box
from publisher.drafting import Copy, Draft, Grain, Hem, Piece, PieceKind, Pleat, Strip, Width
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
    if copy.rough:
        box = rough_box(draft, piece, copy)
    sides = (box.height, box.width) if piece.grain is Grain.ACROSS else (box.width, box.height)
    width, height = (round_cut(length(side), draft.variant.units, draft.inch_step) for side in sides)
    return width, height


def _cut(copy: Copy) -> Phrase:
    if copy.mirrored and copy.count % 2 == 0:
        return Phrase.of("chart.cut-pair", count=str(copy.count // 2))
    return Phrase.of("chart.cut", count=str(copy.count))


def _grain(draft: Draft, piece: Piece, copy: Copy) -> Phrase:
    if any(material.free for material in draft.materials if material.key == copy.material):
        return Phrase.of("chart.grain-either")
    # Of a strip it is told how its length lies: strips across the cloth are crosswise strips, though their threads that
    # run up and down are lengthwise.
    up, across = ("across", "up") if piece.strip is not None else ("up", "across")
    keys = {Grain.UP: up, Grain.ACROSS: across, Grain.BIAS: "bias", Grain.EITHER: "either"}
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
    """Which strips are joined: once where every way of buying takes the same, else for each width."""
    sold = next(material.sold for material in draft.materials if material.key == copy.material)
    by_width = {plan.sold_width: plan for plan in plans}
    told = [_joined(by_width.get(one.width)) for one in sold]
    if all(one == told[0] for one in told):
        notes = [Phrase.of(f"chart.joined-{plans[0].joins}", **_joined(plans[0]))]
    else:
        notes = [_joined_from(one, by_width.get(one.width)) for one in sold]
    several = [Phrase.of("chart.for-each")] if copy.count > 1 else []
    return [*several, *notes, _clear(draft, plans)]


def _joined(plan: StripPlan | None) -> dict[str, Phrase | str]:
    """How many strips, how they lie, how long each is cut, and what they make; nothing of one that is whole."""
    if plan is None:
        return {}
    way = Phrase.of("chart.way-along" if plan.along else "chart.way-across")
    return {"count": str(plan.count), "way": way, "cut": cut_lengths(plan), "length": _told(plan.total_length)}


def _joined_from(sold: Width, plan: StripPlan | None) -> Phrase:
    cloth = Phrase.of("chart.a-precut", name=sold.precut) if sold.precut else _of_width(sold.width)
    if plan is None:
        return Phrase.of("chart.whole-from", cloth=cloth)
    return Phrase.of(f"chart.joined-from-{plan.joins}", cloth=cloth, **_joined(plan))


def _of_width(width: float) -> Phrase:
    return Phrase.of("chart.cloth", width=_told(width))


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


def cut_lengths(plan: StripPlan) -> Phrase:
    """How long each strip is cut, so that no join lies where it hurts."""
    if len({round(each, 3) for each in plan.lengths}) == 1:
        return Phrase.of("chart.each", length=_told(plan.lengths[0]))
    told = Phrase.of("list", **{f"at{at:03d}": _told(each) for at, each in enumerate(plan.lengths)})
    return Phrase.of("chart.in-order", lengths=told)


def _clear(draft: Draft, plans: list[StripPlan]) -> Phrase:
    """How far from ends and marks all joins stay, down to a round number; what is nearer is told as near."""
    step = CLEAR_STEP[draft.variant.units]
    apart = math.floor(min(plan.apart for plan in plans) / step + 1e-6) * step
    return Phrase.of("chart.joins-clear", apart=_told(apart)) if apart else Phrase.of("chart.joins-near")


def _fold_note(draft: Draft, piece: Piece, strip: Strip, copy: Copy) -> Phrase:
    """How a strip is folded; a binding that is cut wider, for what its edge takes, is turned in by its finished width."""
    binds = piece.grain is Grain.BIAS or copy.name in {binding.strip for binding in draft.bindings}
    if binds and strip.wider_than_fourths(piece.cut_height):
        return Phrase.of("chart.edges-turned-in", amount=_told(strip.finished_width))
    return Phrase.of(f"chart.fold-{strip.folding.replace(' ', '-')}")


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
        notes.append(_fold_note(draft, piece, piece.strip, copy))
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
