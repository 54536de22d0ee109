"""How each strip is got on a width of cloth: whole, of several lengths, or from a square on the bias. Millimetres."""

import math
from collections.abc import Sequence

from publisher.cloth.joins import spread_joins, tender_spots
from publisher.cloth.strip_plans import bias_rounds, bias_square, join_loss, strips_needed
from publisher.cloth.usable import BIAS_SEAM, SQUARE_STEP, usable_sheet, usable_width
from publisher.cloth.values import StripPlan
from publisher.drafting import Copy, Draft, Grain, Material, Piece, Width
from publisher.terms import Finding, Severity, length, long_cut_step


def plan_strips(
    draft: Draft, material: Material, width: Width, copies: Sequence[tuple[Piece, Copy]]
) -> tuple[list[StripPlan], list[Finding]]:
    """A plan for each strip that is pieced or on the bias, and findings for those that are too long and may not be."""
    plans: list[StripPlan] = []
    found: list[Finding] = []
    for piece, copy in copies:
        if piece.strip is None:
            continue
        if piece.grain is Grain.BIAS and piece.strip.joins is not None:
            plan = _bias_plan(draft, material, width, piece, copy)
            if plan.square <= plan.from_width:
                plans.append(plan)
            else:
                found.append(_square_too_wide(plan, copy))
            continue
        room = _room(draft, material, width, piece)
        if room is None or _longest_side(piece) <= room:
            continue
        if piece.strip.joins is None:
            found.append(_strip_too_long(piece, copy, room))
        else:
            plans.append(pieced(draft, material, width, piece, copy))
    return plans, found


def _room(draft: Draft, material: Material, width: Width, piece: Piece) -> float | None:
    """How long a strip may be that lies on the cloth whole, mm; None where it may run along cloth that has no end.

    One that may lie either way runs along it only where it may not be pieced: that takes less cloth.
    """
    across, along = usable_width(material, width, draft.variant.units), usable_sheet(material, width)
    either = material.free or piece.grain is Grain.EITHER
    if piece.grain is Grain.ACROSS and not either:
        return along
    if either and (along is not None or (piece.strip is not None and piece.strip.joins is None)):
        return None if along is None else max(across, along)
    return across


def _longest_side(piece: Piece) -> float:
    """How much of the cloth's width a strip takes that lies across it, or slantwise on the bias, mm."""
    slant = (piece.cut_width + piece.cut_height) / math.sqrt(2)
    return slant if piece.grain is Grain.BIAS else piece.cut_width


def pieced(
    draft: Draft, material: Material, width: Width, piece: Piece, copy: Copy, count: int | None = None
) -> StripPlan:
    """A strip of so many lengths, or of as few as there can be, joined where nothing is in the way.

    Raises ValueError where so few do not reach, or the cloth is no wider than what a join takes.
    """
    assert piece.strip is not None
    assert piece.strip.joins is not None
    units = draft.variant.units
    usable, sheet = usable_width(material, width, units), usable_sheet(material, width)
    along = piece.grain is Grain.ACROSS and not material.free
    room = usable if not along else sheet if sheet is not None else piece.cut_width
    loss = join_loss(piece.strip.joins, piece.cut_height, piece.strip.join_allowance)
    count = count or strips_needed(piece.cut_width, room, loss)

    def step(one: float) -> float:
        return float(long_cut_step(length(one), units, draft.inch_step).amount)

    joins = spread_joins(piece.cut_width, room, count, loss, list(tender_spots(draft, copy)), step)
    return StripPlan(
        copy=copy.name,
        material=material.key,
        cut_width=piece.cut_height,
        total_length=piece.cut_width,
        sold_width=width.width,
        from_width=room,
        count=count,
        joins=piece.strip.joins,
        join_loss=loss,
        lengths=joins.lengths,
        apart=joins.apart,
        along=along,
    )


def _bias_plan(draft: Draft, material: Material, width: Width, piece: Piece, copy: Copy) -> StripPlan:
    """Bias strips come from one square of cloth, cut as a continuous strip."""
    usable = usable_width(material, width, draft.variant.units)
    step, seam = SQUARE_STEP[draft.variant.units], BIAS_SEAM[draft.variant.units]
    square = bias_square(piece.cut_width, piece.cut_height, seam, step)
    rounds = bias_rounds(square, piece.cut_height, seam)
    return StripPlan(
        copy=copy.name,
        material=material.key,
        cut_width=piece.cut_height,
        total_length=piece.cut_width,
        sold_width=width.width,
        from_width=usable,
        count=rounds,
        joins="bias",
        join_loss=piece.cut_height,
        square=square,
    )


def _square_too_wide(plan: StripPlan, copy: Copy) -> Finding:
    return Finding(
        "strip-too-long",
        Severity.ERROR,
        copy.place,
        f"'{copy.name}' takes a square of {plan.square:.0f} mm for {plan.total_length:.0f} mm of bias strip, and the "
        f"cloth is {plan.from_width:.0f} mm wide between its selvages",
        "make it of two strips, or offer a wider cloth",
    )


def _strip_too_long(piece: Piece, copy: Copy, room: float) -> Finding:
    return Finding(
        "strip-too-long",
        Severity.ERROR,
        copy.place,
        f"the strip '{copy.name}' is {piece.cut_width:.0f} mm long and the cloth {room:.0f} mm wide between its selvages",
        "allow joins (joins: allowed), make it shorter, or offer a wider cloth",
    )
