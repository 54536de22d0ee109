"""Copies that are cut alike, as right and left, stand in one line of the chart, with a box to tick for each."""

import pytest

from publisher.edition.chart_lines import chart_lines
from publisher.edition.words import speaker
from publisher.terms import UnitSystem
from tests.demo import demo_proof


@pytest.mark.parametrize(
    ("demo", "copy", "ticks"),
    [
        ("dunlin-workshop-apron", "facing right and left", 2),
        ("curlew-wash-bag", "tab front and back", 2),
        ("curlew-wash-bag", "hinge outside", 1),
        ("sanderling-lined-pouch", "body front interfacing and back interfacing", 2),
    ],
)
def test_copies_cut_alike_are_one_line(demo: str, copy: str, ticks: int) -> None:
    proof = demo_proof(demo)
    drafts = proof.drafts_of(UnitSystem.INCH)
    tables = [proof.tables_of(draft.variant) for draft in drafts]
    lines = {line.copy: line for line in chart_lines(tables, drafts, speaker("en", UnitSystem.INCH))}
    assert lines[copy].ticks == ticks
    assert [text for _, text in lines[copy].cut] == ["1 of each" if ticks > 1 else "1"]
    copies = sum(len(table.chart) for table in tables) // len(tables)
    assert sum(line.ticks for line in lines.values()) == copies
