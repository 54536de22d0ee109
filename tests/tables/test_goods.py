"""What to buy: each material in every way it is sold, notions by their number, with amounts worked out on paper."""

import pytest

from publisher.tables import MaterialRow, NotionRow
from publisher.terms import Quantity, read_length
from tests.specimens import HEAD, found, line_of
from tests.tables.specimen_tables import THREE, proved, sides, tables

PANELS = """\
pieces:
  panel:
    rectangle: 23 in by 12 in | 58 cm by 30 cm
    copies:
      lining: cotton, cut 2
  patch:
    rectangle: 4 in by 4 in | 10 cm by 10 cm
    copies:
      only: canvas
"""


def bought(*ways: str) -> tuple[tuple[Quantity, Quantity], ...]:
    """`42 in × 3/8 yd`: the width as sold and the length to buy."""
    return tuple(sides(way) for way in ways)


def test_every_material_that_something_is_cut_from_in_every_width() -> None:
    """The selvages take 1 in or 2 cm, squaring up 1 in or 2.5 cm, a gap 1/8 in or 3 mm (common practice, no source).

    Cloth is bought up to the next 1/8 yd, which is 4 1/2 in, or 10 cm. What shrinks by 4% is divided by 0.96.
    """
    inch, metric = tables(PANELS)
    assert inch.materials == (
        MaterialRow("canvas", "Canvas", "fabric", bought("42 in × 1/4 yd"), (), 0.0, None, (), (None,)),  # 4 3/4 + 1 in
        MaterialRow(
            "cotton",
            "Plain cotton",
            "lining",
            # Two panels of 23 3/4 × 12 3/4 in. On 41 in two rows: 25 5/8 + 1, which is 27 3/4 before it shrinks.
            # On 53 in one row, for they take 47 5/8 in: 12 3/4 + 1, which is 14 3/8.
            bought("42 in × 7/8 yd", "54 in × 1/2 yd"),
            (),
            0.04,
            "Wash it first.",
            pieced=(None, None),
        ),
    )
    assert [(row.key, row.buy) for row in metric.materials] == [
        ("canvas", bought("110 cm × 20 cm")),  # 12 + 2.5 cm
        # Two panels of 60 × 32 cm. On 108 cm two rows: 64.3 + 2.5, which is 69.6; on 138 cm one row: 34.5, or 35.9.
        ("cotton", bought("110 cm × 70 cm", "140 cm × 40 cm")),
    ]


def test_a_width_that_two_widths_of_the_other_system_are_sold_as_is_told_once() -> None:
    head = HEAD.replace("wide\n", "wide\n      - 45 in wide | 110 cm wide\n", 1)
    inch, metric = tables(PANELS.split("  patch")[0].replace("cotton, cut 2", "canvas"), head)
    assert [row.buy for row in inch.materials] == [bought("42 in × 1/2 yd", "45 in × 1/2 yd")]  # 12 3/4 + 1 in
    assert [row.buy for row in metric.materials] == [bought("110 cm × 40 cm")]  # 32 + 2.5 cm


def test_shrinkage_may_take_another_step_of_cloth() -> None:
    pattern = """\
pieces:
  panel:
    rectangle: 10 in by 15 3/4 in | 25 cm by 35 cm
    copies:
      outside: canvas
      lining: cotton
"""
    for table, canvas, cotton in zip(tables(pattern), ("1/2 yd", "40 cm"), ("5/8 yd", "50 cm"), strict=True):
        # 16 1/2 + 1 = 17 1/2 in, before it shrinks 18 1/4; 37 + 2.5 = 39.5 cm, before it shrinks 41.1.
        assert [row.buy[0][1] for row in table.materials] == [read_length(canvas), read_length(cotton)]


def test_interfacing_is_used_to_its_very_edge() -> None:
    pattern = """\
pieces:
  panel:
    rectangle: 19 1/4 in by 3 1/2 in | 88 cm by 7 cm
    copies:
      only: interfacing
"""
    inch, metric = tables(pattern)
    assert [row.buy for row in inch.materials] == [bought("20 in × 1/4 yd")]  # 4 1/4 + 1 in
    assert [row.buy for row in metric.materials] == [bought("90 cm × 20 cm")]  # 9 + 2.5 cm


def test_a_material_sold_by_the_yard_and_in_quarters() -> None:
    """A fat quarter is sold as 18 × 21 in or 50 × 55 cm (common practice, no source)."""
    head = THREE.replace("name: Canvas\n    sold:\n", "name: Canvas\n    sold:\n      - fat quarter\n")
    pattern = """\
pieces:
  panel:
    rectangle: 13 in by 8 in | 33 cm by 21 cm
    copies:
      only: canvas, cut 3
"""
    inch, metric = tables(pattern, head)
    # Panels of 13 3/4 × 8 3/4 in or 35 × 23 cm: one beside another on no quarter, two above one another on each.
    assert [row.precuts for row in (*inch.materials, *metric.materials)] == [(("fat quarter", 2),)] * 2
    # By the yard two stand beside each other on 41 in or 108 cm, three on 108 only (35.3 + 35.3 + 35).
    assert inch.materials[0].buy == bought("42 in × 5/8 yd")  # 8 3/4 + 1/8 + 8 3/4 + 1 = 18 5/8
    assert metric.materials[0].buy == bought("110 cm × 30 cm")  # 23 + 2.5


def test_a_material_sold_in_quarters_only() -> None:
    inch, metric = tables(PANELS, THREE.replace("42 in wide | 110 cm wide", "fat quarter", 1))
    for table in (inch, metric):
        assert (table.materials[0].key, table.materials[0].buy) == ("canvas", ())
        assert table.materials[0].precuts == (("fat quarter", 1),)


NOTIONS = f"""\
measures:
  beads each side: 4
notions:
  snap:
    kind: magnetic snap
    name: Magnetic snap
    count: 1
    across: 3/4 in | 18 mm
    note: With two washers.
  bead:
    name: Glass bead
    count: 2 * beads each side - 1
    across: 1/4 in
    hole: bead.across / 5
  cord:
    name: Cord, by the piece
    long: 3 * 12 in | 3 * 30 cm
  thread:
    name: Thread
{PANELS}"""


def test_notions_in_their_order_with_counts_and_sizes_worked_out() -> None:
    inch, metric = tables(NOTIONS)
    for table, snap, bead, hole, cord in [
        (inch, "3/4 in", "1/4 in", "1/20 in", "36 in"),
        (metric, "18 mm", "6 mm", "1.2 mm", "90 cm"),  # 1/4 in are 6.35 mm
    ]:
        assert table.notions == (
            NotionRow(
                "snap", "magnetic snap", "Magnetic snap", 1, (("across", read_length(snap)),), "With two washers."
            ),
            NotionRow(
                "bead", None, "Glass bead", 7, (("across", read_length(bead)), ("hole", read_length(hole))), None
            ),
            NotionRow("cord", None, "Cord, by the piece", None, (("long", read_length(cord)),), None),
            NotionRow("thread", None, "Thread", None, (), None),
        )


@pytest.mark.parametrize("count", ["5 / 2", "2 - 2", "-1", "3 cm"])
def test_a_count_is_a_whole_number_of_things(count: str) -> None:
    pattern = NOTIONS.replace("2 * beads each side - 1", count)
    both, findings = proved(pattern)
    finding = found(findings, "not-a-count")
    assert finding.place is not None
    line = line_of(THREE + pattern, f"count: {count}")
    assert (finding.place.line, finding.place.column) == (line, len("    count: ") + 1)
    assert finding.says == f"a count is a whole number, not '{count}'"
    for table in both:
        assert [row.key for row in table.notions] == ["snap", "cord", "thread"]


def test_a_pattern_without_notions_has_none() -> None:
    assert [table.notions for table in tables(PANELS)] == [(), ()]
