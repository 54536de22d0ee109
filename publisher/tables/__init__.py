"""The tables of an edition, as values: cutting chart, materials, notions, finished size."""

from collections.abc import Sequence

from publisher.assembly import Assembly
from publisher.cloth import Cloth
from publisher.drafting import Draft
from publisher.tables.chart import cutting_chart
from publisher.tables.dimensions import Corner, Dimensions, MarkSpot, Side, dimensions, points_along
from publisher.tables.goods import material_rows, notion_rows
from publisher.tables.printer_scales import large_square, printer_scales
from publisher.tables.substitutes import Candidate, candidates, what_changes
from publisher.tables.supplies import joining_tools, supplies_of
from publisher.tables.values import (
    ChartRow,
    MaterialRow,
    Needle,
    NewCut,
    NewLength,
    NewNumber,
    NotionRow,
    PrinterScale,
    Substitute,
    Supplies,
    Tables,
    Zip,
)


def tabulate(draft: Draft, cloth: Cloth, assembly: Assembly | None = None, tools: Sequence[str] = ()) -> Tables:
    """All tables of one variant; `tools` are those that the maker lists."""
    return Tables(
        variant=draft.variant,
        chart=cutting_chart(draft, cloth),
        materials=material_rows(draft, cloth),
        notions=notion_rows(draft),
        finished_size=draft.finished_size,
        supplies=supplies_of(draft, assembly, tools),
    )


__all__ = [
    "Candidate",
    "ChartRow",
    "Corner",
    "Dimensions",
    "MarkSpot",
    "MaterialRow",
    "Needle",
    "NewCut",
    "NewLength",
    "NewNumber",
    "NotionRow",
    "PrinterScale",
    "Side",
    "Substitute",
    "Supplies",
    "Tables",
    "Zip",
    "candidates",
    "dimensions",
    "joining_tools",
    "large_square",
    "notion_rows",
    "points_along",
    "printer_scales",
    "tabulate",
    "what_changes",
]
