"""The cloth of a variant as it is bought: its layouts, for one of the pattern or for many."""

from collections.abc import Sequence
from dataclasses import replace

from publisher.cloth.arranging import KeptFiles
from publisher.cloth.bias_ways import lay_with_bias
from publisher.cloth.joins import TOO_NEAR
from publisher.cloth.matching import as_printed
from publisher.cloth.piecing import pieced_further
from publisher.cloth.questions import Question
from publisher.cloth.values import Cloth, ClothLayout, StripPlan
from publisher.drafting import Draft, Piece, PieceKind
from publisher.terms import Finding, Severity, of_variant


def plan_cloth(draft: Draft, kept: KeptFiles = ()) -> tuple[Cloth, tuple[Finding, ...]]:
    """All layouts of one variant with what to buy, and findings for copies that no width holds.

    Of a print that repeats, all tops lie one way, and the rows match. Where a smaller cut would do with strips pieced
    of more lengths, the layout says so.
    """
    cloth, found = plan_layouts(draft, kept)
    as_laid = _as_laid(draft)

    def finish(layout: ClothLayout) -> ClothLayout:
        return as_printed(draft, layout)

    further = [pieced_further(as_laid, layout, cloth.strips, kept, finish) for layout in cloth.layouts]
    bigger = replace(
        cloth,
        layouts=tuple(replace(one, pieced=more.pieced) for one, more in zip(cloth.layouts, further, strict=True)),
        questions=_each_once((*cloth.questions, *(one for more in further for one in more.questions))),
        unanswered=_each_once((*cloth.unanswered, *(one for more in further for one in more.unanswered))),
    )
    near = (_join_in_the_way(draft, plan) for plan in cloth.strips if plan.lengths and plan.apart < TOO_NEAR - 1)
    return bigger, (*found, *near)


def plan_layouts(draft: Draft, kept: KeptFiles = ()) -> tuple[Cloth, tuple[Finding, ...]]:
    """The same without looking whether a smaller cut would do, or whether joins are in the way."""
    cloth, found = lay_with_bias(_as_laid(draft), kept)
    return replace(cloth, layouts=tuple(as_printed(draft, layout) for layout in cloth.layouts)), found


def _as_laid(draft: Draft) -> Draft:
    """A draft as its copies are laid and cut: of prints that repeat all tops one way, and of several sizes by the cut line.

    A template that several sizes share shows no inner line: what is to have no allowance is cut along the line of its
    size like all else, and trimmed afterwards.
    """
    materials = tuple(one if one.repeat is None else replace(one, one_way=True) for one in draft.materials)
    pieces = draft.pieces if draft.variant.size is None else tuple(map(_by_the_cut_line, draft.pieces))
    return replace(draft, materials=materials, pieces=pieces)


def _by_the_cut_line(piece: Piece) -> Piece:
    if piece.kind is not PieceKind.DRAWN or not any(copy.to_finished_line for copy in piece.copies):
        return piece
    return replace(piece, copies=tuple(replace(copy, to_finished_line=False) for copy in piece.copies))


def _each_once(questions: Sequence[Question]) -> tuple[Question, ...]:
    return tuple(dict.fromkeys(questions))


def _join_in_the_way(draft: Draft, plan: StripPlan) -> Finding:
    says = (
        f"on cloth {plan.sold_width:.0f} mm wide a join of '{plan.copy}' lies {plan.apart:.0f} mm from an end of it, or "
        "from where it is marked or caught"
    )
    mend = "make the strip shorter, move the mark, or offer a wider cloth"
    found = Finding("join-in-the-way", Severity.ADVICE, draft.copy(plan.copy).place, says, mend)
    return of_variant(found, draft.variant)


def cut_for_many(draft: Draft, times: int) -> Draft:
    """The draft with each copy cut so many times over, and as many notions; its pieces stay one set.

    A notion that is neither counted nor has a size, as a reel of thread, stays one.
    """
    pieces = (
        replace(piece, copies=tuple(replace(copy, count=copy.count * times) for copy in piece.copies))
        for piece in draft.pieces
    )
    notions = (
        replace(notion, count=(notion.count or 1) * times) if notion.count or notion.sizes else notion
        for notion in draft.notions
    )
    return replace(draft, pieces=tuple(pieces), notions=tuple(notions)) if times > 1 else draft
