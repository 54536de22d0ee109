"""The tables of an edition, as values: cutting chart, materials, notions, finished size."""

from publisher.cloth import Cloth
from publisher.drafting import Draft
from publisher.tables.chart import cutting_chart
from publisher.tables.dimensions import Corner, Dimensions, MarkSpot, Side, dimensions, points_along
from publisher.tables.goods import material_rows, notion_rows
from publisher.tables.printer_scales import large_square, printer_scales
from publisher.tables.values import ChartRow, MaterialRow, NotionRow, PrinterScale, Tables


def tabulate(draft: Draft, cloth: Cloth) -> Tables:
    """All tables of one variant."""
    return Tables(
        variant=draft.variant,
        chart=cutting_chart(draft, cloth),
        materials=material_rows(draft, cloth),
        notions=notion_rows(draft),
        finished_size=draft.finished_size,
    )


__all__ = [
    "ChartRow",
    "Corner",
    "Dimensions",
    "MarkSpot",
    "MaterialRow",
    "NotionRow",
    "PrinterScale",
    "Side",
    "Tables",
    "dimensions",
    "large_square",
    "points_along",
    "printer_scales",
    "tabulate",
]
