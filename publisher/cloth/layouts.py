"""Every material in every width it is sold in: where the copies lie and how much cloth to buy. Millimetres."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from publisher.cloth.arranging import NO_SHORTER, Arranged, KeptFiles, arrange, worth_solving
from publisher.cloth.cuts import Cut, Forms, ask, cuts_from, placed, whole_cuts
from publisher.cloth.folding import Folded, fold, lay_folded, least_folded
from publisher.cloth.matching import as_printed
from publisher.cloth.questions import Question
from publisher.cloth.rows import TooLong
from publisher.cloth.shelves import TooWide
from publisher.cloth.strips import plan_strips
from publisher.cloth.usable import GAP, WOVEN_WITH_SELVAGE, to_buy, usable_sheet, usable_width
from publisher.cloth.values import Cloth, ClothLayout, Laid, StripPlan
from publisher.drafting import Copy, Draft, Material, Piece, Width
from publisher.frozen import dataclass
from publisher.terms import Finding, Severity, of_variant


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
        return usable_sheet(self.material, self.width)


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
    forms: Forms = {}
    for material in draft.materials:
        copies = tuple(
            (piece, copy) for piece in draft.pieces for copy in piece.copies if copy.material == material.key
        )
        whole = whole_cuts(draft, material, copies, forms)
        for width in material.sold:
            plans, unplanned = plan_strips(draft, material, width, copies)
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


def _lay_material(draft: Draft, sale: Sale, kept: KeptFiles) -> tuple[Laying, list[Finding]]:
    """The shorter of single and folded cloth, with what a solver may be asked."""
    gap = GAP[draft.variant.units]
    cuts = cuts_from(sale.material, sale.copies, sale.plans, sale.whole)
    question, numbers = ask(cuts, sale.usable, gap, sale.sheet)
    try:
        arranged = arrange(question, kept)
    except TooWide:
        return Laying(), list(_all_too_wide(sale, cuts, gap))
    except TooLong:
        return Laying(), []  # this way of buying will not do; the others may
    asked = (question,) if arranged.answered or worth_solving(question, arranged) else ()
    single = _layout(draft, sale, arranged, tuple(placed(cuts, numbers, question, arranged.answer)))
    laying = Laying(single, asked, () if arranged.answered else asked)
    return (laying if sale.width.precut is not None else _folded_or(draft, sale, laying, cuts, kept)), []


def _folded_or(draft: Draft, sale: Sale, single: Laying, cuts: Sequence[Cut], kept: KeptFiles) -> Laying:
    """Folded cloth where it takes no more, or where halves lie on the fold and no more is bought; else single cloth.

    Both are compared as they are printed: a print that is matched may take more of the one than of the other.
    """
    assert single.layout is not None
    gap, halves = GAP[draft.variant.units], any(cut.half_on_the_fold for cut in cuts)
    # Wadding and interfacing are not worth a fold, but for what is cut on it.
    if not halves and sale.material.kind not in WOVEN_WITH_SELVAGE:
        return single
    least, printed = least_folded(cuts, sale.usable, gap), as_printed(draft, single.layout)
    if halves and least is not None and least > printed.used_length + NO_SHORTER:
        bought = to_buy(sale.material, draft.variant.units, least)[1]
        if bought > printed.buy_length:
            return replace(single, layout=replace(single.layout, folded_buy_length=bought))
    folded = fold(cuts, sale.usable, gap) if least is not None else None
    return single if folded is None else _single_or_folded(draft, sale, single, folded, cuts, kept)


def _single_or_folded(
    draft: Draft, sale: Sale, single: Laying, folded: Folded, cuts: Sequence[Cut], kept: KeptFiles
) -> Laying:
    """The choice between a layout on single cloth and what is known of folded cloth."""
    assert single.layout is not None
    flat, least = as_printed(draft, single.layout), to_buy(sale.material, draft.variant.units, folded.question.bound)[1]
    too_long = folded.question.bound > flat.used_length + NO_SHORTER
    if too_long and (not folded.halves or least > flat.buy_length):
        return replace(single, layout=_not_folded(single.layout, folded, least))
    found = lay_folded(folded, cuts, sale.usable, GAP[draft.variant.units], kept)
    if found is None:
        return Laying(single.layout, (*single.questions, folded.question), (*single.unanswered, folded.question))
    arranged, laid = found
    asked = (folded.question,) if arranged.answered or worth_solving(folded.question, arranged) else ()
    layout = replace(_layout(draft, sale, arranged, laid), folded=True)
    doubled = as_printed(draft, layout)
    as_short = doubled.used_length <= flat.used_length + NO_SHORTER
    no_dearer = folded.halves and doubled.buy_length <= flat.buy_length
    if not as_short and not no_dearer:
        known = doubled.buy_length if arranged.answered else 0.0
        layout = _not_folded(single.layout, folded, least if least > flat.buy_length else known)
    unanswered = single.unanswered if arranged.answered else (*single.unanswered, *asked)
    return Laying(layout, (*single.questions, *asked), unanswered)


def _not_folded(layout: ClothLayout, folded: Folded, to_buy: float) -> ClothLayout:
    """A layout on single cloth; where halves could lie on the fold, with what would be bought for that."""
    return replace(layout, folded_buy_length=to_buy) if folded.halves else layout


def _layout(draft: Draft, sale: Sale, arranged: Arranged, laid: tuple[Laid, ...]) -> ClothLayout:
    sheets, sheet = (round(arranged.used), sale.sheet) if sale.sheet is not None else (0, 0.0)
    used = sheets * sheet if sheets else arranged.used
    needed, bought = (used, used) if sheets or not used else to_buy(sale.material, draft.variant.units, used)
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


def _all_too_wide(sale: Sale, cuts: Sequence[Cut], gap: float) -> Iterator[Finding]:
    """A finding for each copy that does not lie on the cloth: the others are asked again without it."""
    left = list(cuts)
    while left:
        question, numbers = ask(left, sale.usable, gap, sale.sheet)
        try:
            arrange(question, ())
        except TooWide as too_wide:
            cut = left[numbers.index(int(too_wide.rectangle.name))]
            yield _too_wide(sale, cut, too_wide)
            left = [one for one in left if one.copy != cut.copy]
        except TooLong:
            return
        else:
            return


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
