"""The cloth of a variant as it is bought: its layouts, for one of the pattern or for many."""

from dataclasses import replace

from publisher.cloth.layouts import GAP, SQUARING_UP, lay_out
from publisher.cloth.lying import moved
from publisher.cloth.repeats import arrange_to_match, must_match, washed
from publisher.cloth.shelves import Rectangle
from publisher.cloth.values import Cloth, ClothLayout
from publisher.drafting import Draft, Material
from publisher.terms import Finding, length, round_up_to_step


def plan_cloth(draft: Draft, kept: tuple[tuple[str, bytes], ...] = ()) -> tuple[Cloth, tuple[Finding, ...]]:
    """All layouts of one variant with what to buy, and findings for copies that no width holds.

    Layouts of a print that repeats are in rows that match.
    """
    cloth, found = lay_out(draft, kept)
    prints = {material.key: material for material in draft.materials if material.repeat is not None}
    layouts = tuple(
        _matched(draft, prints[layout.material], layout) if layout.material in prints else layout
        for layout in cloth.layouts
    )
    return replace(cloth, layouts=layouts), found


def _matched(draft: Draft, material: Material, layout: ClothLayout) -> ClothLayout:
    """The layout in rows that match; precuts are too small to choose where the print begins, and stay as they are."""
    repeat, units = washed(material), draft.variant.units
    if repeat is None or layout.precut is not None or not layout.laid:
        return layout
    rectangles = [Rectangle(one.copy, at, one.width, one.length) for at, one in enumerate(layout.laid)]
    matching = must_match(draft, material)
    shelved, used = arrange_to_match(rectangles, matching, layout.usable_width, GAP[units], repeat)
    needed = (used + SQUARING_UP[units]) / (1 - material.shrinkage)
    return ClothLayout(
        material=layout.material,
        width=layout.width,
        usable_width=layout.usable_width,
        laid=tuple(moved(layout.laid[at.rectangle.nth], at.x, at.y, at.turned) for at in shelved),
        used_length=used,
        needed_length=needed,
        buy_length=float(round_up_to_step(length(needed), units).amount),
        arranged_by="rows",
    )


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
