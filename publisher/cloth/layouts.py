"""Every material in every width it is sold in: where the copies lie and how much cloth to buy. Millimetres."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from publisher.cloth.arranging import NO_SHORTER, Arranged, KeptFiles, arrange, arrange_folded, worth_solving
from publisher.cloth.cuts import Cut, ask, cuts_from, placed, whole_cuts
from publisher.cloth.folding import Folded, fold, placed_folded
from publisher.cloth.questions import Question
from publisher.cloth.rows import TooLong
from publisher.cloth.shelves import TooWide
from publisher.cloth.strip_plans import bias_rounds, bias_square, join_loss, strips_needed
from publisher.cloth.values import Cloth, ClothLayout, Laid, StripPlan
from publisher.drafting import Copy, Draft, Grain, Material, Piece, Width
from publisher.terms import Finding, Severity, UnitSystem, length, of_variant, round_up_to_step

# Common practice, no source: what the selvages take off a woven width, what squaring up the cut end takes, and the
# room left between neighbours so that each can be cut on its own line.
SELVAGES = {UnitSystem.INCH: 25.4, UnitSystem.METRIC: 20.0}
SQUARING_UP = {UnitSystem.INCH: 25.4, UnitSystem.METRIC: 25.0}
GAP = {UnitSystem.INCH: 25.4 / 8, UnitSystem.METRIC: 3.0}
# A square for bias strips is cut in these steps, and sewn with this seam (common practice, no source).
SQUARE_STEP = {UnitSystem.INCH: 25.4 / 2, UnitSystem.METRIC: 10.0}
BIAS_SEAM = {UnitSystem.INCH: 25.4 / 4, UnitSystem.METRIC: 6.0}
WOVEN_WITH_SELVAGE = ("fabric", "lining")


@dataclass(frozen=True, slots=True)
class Sale:
    """One way a material is sold, with what is cut from it; `usable` of its width, mm."""

    material: Material
    width: Width
    usable: float
    copies: tuple[tuple[Piece, Copy], ...]
    plans: tuple[StripPlan, ...]
    whole: Mapping[tuple[str, int], Cut]

    @property
    def sheet(self) -> float | None:
        """How long a precut is after its first wash, mm; None of cloth by the length."""
        length = self.width.precut_length
        return None if length is None else length * (1 - self.material.shrinkage)


@dataclass(frozen=True, slots=True)
class Laying:
    """A layout where there is one, the questions that a solver may be asked about it, and those without a kept answer."""

    layout: ClothLayout | None = None
    questions: tuple[Question, ...] = ()
    unanswered: tuple[Question, ...] = ()


def lay_out(draft: Draft, kept: KeptFiles = ()) -> tuple[Cloth, tuple[Finding, ...]]:
    """All layouts of one variant, and findings for copies that no width holds."""
    laid: list[Laying] = []
    strips: list[StripPlan] = []
    found: list[Finding] = []
    for material in draft.materials:
        copies = tuple(
            (piece, copy) for piece in draft.pieces for copy in piece.copies if copy.material == material.key
        )
        whole = whole_cuts(material, copies)
        for width in material.sold:
            plans, unplanned = _strip_plans(draft, material, width, copies)
            strips.extend(plans)
            sale = Sale(
                material, width, usable_width(material, width, draft.variant.units), copies, tuple(plans), whole
            )
            laying, unlaid = _lay_material(draft, sale, kept)
            laid.append(laying)
            told = {finding.place for finding in unplanned}  # a strip that is too long is too wide as well
            found.extend((*unplanned, *(finding for finding in unlaid if finding.place not in told)))
    cloth = Cloth(
        variant=draft.variant,
        layouts=tuple(one.layout for one in laid if one.layout),
        strips=tuple(strips),
        questions=tuple(dict.fromkeys(question for one in laid for question in one.questions)),
        unanswered=tuple(dict.fromkeys(question for one in laid for question in one.unanswered)),
    )
    return cloth, tuple(of_variant(finding, draft.variant) for finding in found)


def usable_width(material: Material, width: Width, units: UnitSystem) -> float:
    """What a width leaves between its selvages, mm; precuts and interfacing have none.

    A precut shrinks both ways, and no more of it can be bought.
    """
    if width.precut:
        return width.width * (1 - material.shrinkage)
    if material.kind not in WOVEN_WITH_SELVAGE:
        return width.width
    return width.width - SELVAGES[units]


def _strip_plans(
    draft: Draft, material: Material, width: Width, copies: Sequence[tuple[Piece, Copy]]
) -> tuple[list[StripPlan], list[Finding]]:
    plans: list[StripPlan] = []
    found: list[Finding] = []
    usable = usable_width(material, width, draft.variant.units)
    for piece, copy in copies:
        if piece.strip is None or (piece.cut_width <= usable and piece.grain is not Grain.BIAS):
            continue
        if piece.strip.joins is None:
            found.append(_strip_too_long(piece, copy, usable))
            continue
        if piece.grain is Grain.BIAS:
            plan = _bias_plan(draft, material, width, piece, copy)
            if plan.square > usable:
                found.append(_square_too_wide(plan, copy))
                continue
        else:
            loss = join_loss(piece.strip.joins, piece.cut_height, piece.strip.join_allowance)
            count = strips_needed(piece.cut_width, usable, loss)
            plan = StripPlan(
                copy=copy.name,
                material=material.key,
                cut_width=piece.cut_height,
                total_length=piece.cut_width,
                sold_width=width.width,
                from_width=usable,
                count=count,
                joins=piece.strip.joins,
                join_loss=loss,
            )
        plans.append(plan)
    return plans, found


def _bias_plan(draft: Draft, material: Material, width: Width, piece: Piece, copy: Copy) -> StripPlan:
    """Bias strips come from one square of cloth, cut as a continuous strip."""
    assert piece.strip is not None
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


def _strip_too_long(piece: Piece, copy: Copy, usable: float) -> Finding:
    return Finding(
        "strip-too-long",
        Severity.ERROR,
        copy.place,
        f"the strip '{copy.name}' is {piece.cut_width:.0f} mm long and the cloth {usable:.0f} mm wide between its selvages",
        "allow joins (joins: allowed), make it shorter, or offer a wider cloth",
    )


def _lay_material(draft: Draft, sale: Sale, kept: KeptFiles) -> tuple[Laying, list[Finding]]:
    """The shorter of single and folded cloth, with what a solver may be asked."""
    gap = GAP[draft.variant.units]
    cuts = cuts_from(sale.material, sale.copies, sale.plans, sale.usable, sale.whole)
    question, numbers = ask(cuts, sale.usable, gap, sale.sheet)
    try:
        arranged = arrange(question, kept)
    except TooWide as too_wide:
        return Laying(), [_too_wide(sale, cuts[numbers.index(int(too_wide.rectangle.name))], too_wide)]
    except TooLong:
        return Laying(), []  # this way of buying will not do; the others may
    asked = (question,) if arranged.answered or worth_solving(question, arranged) else ()
    single = _layout(draft, sale, arranged, tuple(placed(cuts, numbers, question, arranged.answer)))
    laying = Laying(single, asked, () if arranged.answered else asked)
    # Wadding and interfacing are not worth a fold, but for what is cut on it.
    worth = sale.material.kind in WOVEN_WITH_SELVAGE or any(cut.half_on_the_fold for cut in cuts)
    folded = fold(cuts, sale.usable, gap) if worth and sale.width.precut is None else None
    return (laying if folded is None else _single_or_folded(draft, sale, laying, folded, kept)), []


def _single_or_folded(draft: Draft, sale: Sale, single: Laying, folded: Folded, kept: KeptFiles) -> Laying:
    """Folded cloth where it takes no more, or where halves lie on the fold and no more is bought; else single cloth."""
    assert single.layout is not None
    least = _to_buy(draft, sale, folded.question.bound)[1]
    too_long = folded.question.bound > single.layout.used_length + NO_SHORTER
    if too_long and (not folded.halves or least > single.layout.buy_length):
        return replace(single, layout=_not_folded(single.layout, folded, least))
    arranged = arrange_folded(folded.question, kept)
    if arranged is None:
        return Laying(single.layout, (*single.questions, folded.question), (*single.unanswered, folded.question))
    asked = (folded.question,) if arranged.answered or worth_solving(folded.question, arranged) else ()
    laid = tuple(placed_folded(folded, arranged.answer, sale.usable))
    layout = replace(_layout(draft, sale, arranged, laid), folded=True)
    as_short = arranged.used <= single.layout.used_length + NO_SHORTER
    no_dearer = folded.halves and layout.buy_length <= single.layout.buy_length
    if not as_short and not no_dearer:
        known = layout.buy_length if arranged.answered else 0.0
        layout = _not_folded(single.layout, folded, least if least > single.layout.buy_length else known)
    unanswered = single.unanswered if arranged.answered else (*single.unanswered, *asked)
    return Laying(layout, (*single.questions, *asked), unanswered)


def _not_folded(layout: ClothLayout, folded: Folded, to_buy: float) -> ClothLayout:
    """A layout on single cloth; where halves could lie on the fold, with what would be bought for that."""
    return replace(layout, folded_buy_length=to_buy) if folded.halves else layout


def _layout(draft: Draft, sale: Sale, arranged: Arranged, laid: tuple[Laid, ...]) -> ClothLayout:
    sheets, sheet = (round(arranged.used), sale.sheet) if sale.sheet is not None else (0, 0.0)
    used = sheets * sheet if sheets else arranged.used
    needed, bought = (used, used) if sheets or not used else _to_buy(draft, sale, used)
    return ClothLayout(
        material=sale.material.key,
        width=sale.width.width,
        usable_width=sale.usable,
        laid=laid,
        used_length=used,
        needed_length=needed,
        buy_length=bought,
        arranged_by=arranged.by,
        precut=sale.width.precut,
        precut_count=sheets,
        precut_length=sheet,
    )


def _to_buy(draft: Draft, sale: Sale, used: float) -> tuple[float, float]:
    """What is needed for a length used, with squaring up and shrinkage, and that up to the selling step."""
    units = draft.variant.units
    needed = (used + SQUARING_UP[units]) / (1 - sale.material.shrinkage)
    return needed, float(round_up_to_step(length(needed), units).amount)


def _too_wide(sale: Sale, cut: Cut, too_wide: TooWide) -> Finding:
    copy = next(copy for _, copy in sale.copies if copy.name == cut.copy)
    material, woven = sale.material, sale.material.kind in WOVEN_WITH_SELVAGE
    return Finding(
        "piece-wider-than-cloth",
        Severity.ERROR,
        copy.place,
        f"'{copy.name}' is {too_wide.rectangle.width:.0f} mm wide and '{material.key}' {sale.usable:.0f} mm"
        + (" between its selvages" if woven else ""),
        "offer a wider cloth, or turn the piece if its grain allows (grain: across)"
        + ("" if woven else f", or say of '{material.key}' that it has no grain (grain: either way)"),
    )
