"""Layouts on prints that repeat: moved apart until they match, with what is bought then. Millimetres."""

from dataclasses import replace

from publisher.cloth.cuts import fold_way
from publisher.cloth.lying import moved
from publisher.cloth.repeats import arrange_to_match, must_match, shifted_to_match, washed, whole_repeats
from publisher.cloth.shelves import Rectangle
from publisher.cloth.usable import GAP, to_buy
from publisher.cloth.values import ClothLayout
from publisher.drafting import Draft, Material
from publisher.terms import UnitSystem


def as_printed(draft: Draft, layout: ClothLayout) -> ClothLayout:
    """A layout as it is cut and bought: on a print that repeats, where every row begins at the same place of it."""
    material = next(one for one in draft.materials if one.key == layout.material)
    return layout if material.repeat is None else _matched(draft, material, layout)


def _matched(draft: Draft, material: Material, layout: ClothLayout) -> ClothLayout:
    """The layout moved apart until it matches, or rows that match where less is bought for them.

    Precuts are too small to choose where the print begins, and stay as they are.
    """
    repeat, units = washed(material), draft.variant.units
    if repeat is None or layout.precut is not None or not layout.laid:
        return layout
    matching = must_match(draft, material)
    rectangles = [Rectangle(one.copy, at, one.width, one.length) for at, one in enumerate(layout.laid)]
    shelved, used = arrange_to_match(rectangles, matching, layout.usable_width, GAP[units], repeat)
    in_rows = (moved(layout.laid[at.rectangle.nth], at.x, at.y, at.turned) for at in shelved)
    rows = _as_bought(
        replace(
            layout,
            laid=tuple(replace(one, opened_out=_is_halved(draft, one.copy)) for one in in_rows),
            used_length=used,
            arranged_by="rows",
            folded=False,
        ),
        material,
        units,
    )
    apart = shifted_to_match(layout.laid, matching, GAP[units], repeat)
    if apart is None:
        return rows
    used = max(
        whole_repeats(one.y + one.length, repeat) if one.copy in matching else one.y + one.length for one in apart
    )
    as_found = _as_bought(replace(layout, laid=tuple(apart), used_length=used), material, units)
    return as_found if as_found.buy_length <= rows.buy_length else rows


def _is_halved(draft: Draft, name: str) -> bool:
    """True for a copy whose template shows a half of it."""
    copy = draft.copy(name)
    return not copy.rough and fold_way(draft.piece(copy.piece), 0) is not None


def _as_bought(layout: ClothLayout, material: Material, units: UnitSystem) -> ClothLayout:
    """The layout with what is needed and bought for the length that it uses."""
    needed, bought = to_buy(material, units, layout.used_length)
    return replace(layout, needed_length=needed, buy_length=bought)
