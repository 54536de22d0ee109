"""What to buy: materials in every way they are sold, and notions."""

from publisher.cloth import Cloth, ClothLayout
from publisher.drafting import Draft, Material
from publisher.tables.chart import cut_lengths
from publisher.tables.supplies import bought_by_length
from publisher.tables.values import MaterialRow, NotionRow
from publisher.terms import Phrase, Quantity, length


def material_rows(draft: Draft, cloth: Cloth) -> tuple[MaterialRow, ...]:
    """One row a material that something is cut from."""
    rows = (_material_row(material, cloth) for material in draft.materials)
    return tuple(row for row in rows if row.buy or row.precuts)


def _material_row(material: Material, cloth: Cloth) -> MaterialRow:
    layouts = [layout for layout in cloth.layouts if layout.material == material.key and layout.laid]
    by_length = [layout for layout in layouts if layout.precut is None]
    return MaterialRow(
        key=material.key,
        name=material.name,
        kind=material.kind,
        buy=tuple((length(layout.width), length(layout.buy_length)) for layout in by_length),
        precuts=tuple((layout.precut, layout.precut_count) for layout in layouts if layout.precut is not None),
        shrinkage=material.shrinkage,
        note=material.note,
        repeat=_repeat(material),
        pieced=tuple(_pieced(layout) for layout in by_length),
    )


def _pieced(layout: ClothLayout) -> Phrase | None:
    """That a smaller cut would do if strips were pieced of more lengths, where it would."""
    if layout.pieced is None:
        return None
    strips = [
        Phrase.of("materials.pieced-strip", copy=plan.copy, count=str(plan.count), cut=cut_lengths(plan))
        for plan in layout.pieced.strips
    ]
    told = Phrase.of("list", **{f"at{at:03d}": strip for at, strip in enumerate(strips)})
    amount = Phrase.of("cloth", mm=str(length(layout.pieced.buy_length).amount))
    width = Phrase.of("length", mm=str(length(layout.width).amount))
    return Phrase.of("materials.pieced", width=width, amount=amount, strips=told)


def _repeat(material: Material) -> tuple[Quantity, ...]:
    if material.repeat is None:
        return ()
    sides = (material.repeat.along, material.repeat.across)
    return tuple(length(side) for side in sides if side is not None)


def notion_rows(draft: Draft) -> tuple[NotionRow, ...]:
    """One row a notion."""
    return tuple(
        NotionRow(
            notion.key,
            notion.kind,
            notion.name,
            notion.count,
            notion.sizes,
            notion.note,
            *(bought_by_length(notion, draft.variant.units) or ()),
        )
        for notion in draft.notions
    )
