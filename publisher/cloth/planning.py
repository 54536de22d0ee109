"""The cloth of a variant as it is bought: its layouts, for one of the pattern or for many."""

from dataclasses import replace

from publisher.cloth.layouts import lay_out
from publisher.cloth.values import Cloth
from publisher.drafting import Draft
from publisher.terms import Finding


def plan_cloth(draft: Draft, kept: tuple[tuple[str, bytes], ...] = ()) -> tuple[Cloth, tuple[Finding, ...]]:
    """All layouts of one variant with what to buy, and findings for copies that no width holds."""
    return lay_out(draft, kept)


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
