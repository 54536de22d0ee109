"""The finished size of what is sewn, against formulas of the trade worked out on paper."""

import math

import pytest

from publisher.terms import length, read_length
from tests.tables.specimen_tables import proved, sides, tables

# A boxed bag of two panels, drawn on the stitching line: its squares are cut out of the lower corners. The allowance of
# the top edge is t, of all others s.
BAG = """\
measures:
  depth: 4 in | 10 cm
  panel width: 15 1/4 in | 38 cm
  panel height: 10 5/8 in | 26 cm
  corner: depth / 2
pieces:
  bag:
    outline:
      points:
        base left: corner, 0
        base right: panel width - corner, 0
        right inner: panel width - corner, corner
        right outer: panel width, corner
        top right: panel width, panel height
        top left: 0, panel height
        left outer: 0, corner
        left inner: corner, corner
      edges:
        base: line from base left to base right
        right up: line from base right to right inner
        right across: line from right inner to right outer
        right edge: line from right outer to top right
        top edge: line from top right to top left
        left edge: line from top left to left outer
        left across: line from left outer to left inner
        left up: line from left inner to base left
    allowance:
      all: 3/8 in | 1 cm
      top edge: 1 in | 3 cm
    copies:
      front: canvas
      back: canvas
finished size:
  width: length of bag.base
  height: height of bag - length of bag.right up
  depth: 2 * length of bag.right across
"""


def test_a_boxed_bag() -> None:
    """Two panels W × H, seams s, depth d, top allowance t: base = W − 2s − d, height = H − d/2 − s − t (K25, derived).

    16 × 12 in with seams of 3/8 in, 1 in at the top, 4 in deep: 11 1/4 in and 8 5/8 in.
    40 × 30 cm with seams of 1 cm, 3 cm at the top, 10 cm deep: 28 cm and 21 cm.
    """
    inch, metric = tables(BAG)
    assert inch.finished_size == (
        ("width", read_length("11 1/4 in")),
        ("height", read_length("8 5/8 in")),
        ("depth", read_length("4 in")),
    )
    assert metric.finished_size == (
        ("width", read_length("28 cm")),
        ("height", read_length("21 cm")),
        ("depth", read_length("10 cm")),
    )


MEASURED_BAG = """\
measures:
  depth: 4 in | 10 cm
pieces:
  bag:
    rectangle: 15 1/4 in by 10 5/8 in | 38 cm by 26 cm
    allowance:
      all: 3/8 in | 1 cm
      top edge: 1 in | 3 cm
    copies:
      front: canvas
      back: canvas
finished size:
  width: width of bag - depth
  height: height of bag - depth / 2
  corner to cut: depth / 2
"""


def test_the_same_bag_cut_with_a_ruler() -> None:
    """Its panels are the W × H of K25; with one allowance everywhere the square to cut is d / 2 (K24, derived)."""
    for table, panel, finished in zip(
        tables(MEASURED_BAG),
        ("16 in × 12 in", "40 cm × 30 cm"),
        (("11 1/4 in", "8 5/8 in", "2 in"), ("28 cm", "21 cm", "5 cm")),
        strict=True,
    ):
        assert [row.size for row in table.chart] == [sides(panel)] * 2
        assert tuple(size for _, size in table.finished_size) == tuple(map(read_length, finished))


ROUND_BOX = """\
measures:
  across: 8 in | 20 cm
  seam: 3/8 in | 1 cm
pieces:
  base:
    outline:
      points:
        left: 0, 0
        right: across, 0
      edges:
        near: arc from left to right with radius across / 2
        far: arc from right to left with radius across / 2
    copies:
      only: canvas
finished size:
  around: length of base.near + length of base.far
  side strip: length of base.near + length of base.far + 2 * seam
"""


def test_a_round_box() -> None:
    """The side strip of a round box is π × its finished diameter and two seams (K23, derived)."""
    for table, across, seam in zip(tables(ROUND_BOX), (8 * 25.4, 200), (0.375 * 25.4, 10), strict=True):
        finished = dict(table.finished_size)
        assert finished["around"].mm == pytest.approx(math.pi * across, abs=1e-5)
        assert finished["side strip"].mm == pytest.approx(math.pi * across + 2 * seam, abs=1e-5)


def test_a_side_that_cannot_be_worked_out_hides_no_other() -> None:
    both, findings = proved(BAG.replace("height: height of bag -", "height: height of beg -"))
    assert [finding.name for finding in findings if finding.name != "copy-never-used"] == ["no-such-name"]
    for table in both:
        assert [side for side, _ in table.finished_size] == ["width", "depth"]


def test_a_pattern_that_says_nothing_of_it_has_no_finished_size() -> None:
    assert [table.finished_size for table in tables(BAG[: BAG.index("finished size")])] == [(), ()]


def test_a_length_of_one_system_is_rounded_before_it_is_added() -> None:
    pattern = BAG.replace("width: length of bag.base", "width: length of bag.base + 1/4 in")
    inch, metric = tables(pattern)
    assert dict(inch.finished_size)["width"] == read_length("11 1/2 in")
    assert dict(metric.finished_size)["width"] == length(286)  # 280 + 6, for 1/4 in are 6 mm there
