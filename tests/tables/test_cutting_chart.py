"""The cutting chart: what is cut, from what, how often and at what size, worked out on paper."""

from fractions import Fraction

import pytest

from publisher.pipeline import prove
from publisher.tables import ChartRow
from publisher.terms import Phrase, Severity, read_length
from tests.specimens import HEAD, files, found, prove_text
from tests.tables.specimen_tables import THREE, proved, sides, tables

CHART = """\
pieces:
  panel:
    rectangle: 8 in by 5 in | 20 cm by 12 cm
    copies:
      front: canvas
      back: canvas, cut 2
      lining: cotton
  flap:
    outline:
      rectangle: 6 in by 4 in | 15 cm by 10 cm
    grain: across
    note: Cut the stripes level.
    copies:
      interfacing: interfacing, to the finished line
      lining: cotton, cut 2
      outside: canvas
  loop:
    strip:
      finished width: 1/2 in | 12 mm
      length: 4 in | 10 cm
      fold: in fourths
      ends: 0
    grain: either way
    copies:
      only: canvas, cut 3
"""


def cut(count: int) -> Phrase:
    return Phrase.of("chart.cut", count=str(count))


def test_the_chart_goes_by_material_and_then_by_piece() -> None:
    up, across, either = (Phrase.of(f"chart.grain-{grain}") for grain in ("up", "across", "either"))
    note = Phrase.of("chart.note", text="Cut the stripes level.")
    inner, folded = Phrase.of("chart.to-finished-line"), Phrase.of("chart.fold-in-fourths")
    inch, metric = tables(CHART)
    # The allowance of 3/8 in or 1 cm comes to all four sides; the loop has four times its width and none at its ends.
    for table, panel, loop in [
        (inch, "8 3/4 in × 5 3/4 in", "4 in × 2 in"),
        (metric, "22 cm × 14 cm", "10 cm × 48 mm"),
    ]:
        assert table.chart == (
            ChartRow(1, "panel front", "panel", "canvas", 1, sides(panel), cut(1), up, (), False),
            ChartRow(1, "panel back", "panel", "canvas", 2, sides(panel), cut(2), up, (), False),
            ChartRow(2, "flap outside", "flap", "canvas", 1, None, cut(1), across, (note,), True),
            ChartRow(3, "loop", "loop", "canvas", 3, sides(loop), cut(3), either, (folded,), False),
            ChartRow(1, "panel lining", "panel", "cotton", 1, sides(panel), cut(1), up, (), False),
            ChartRow(2, "flap lining", "flap", "cotton", 2, None, cut(2), across, (note,), True),
            ChartRow(2, "flap interfacing", "flap", "interfacing", 1, None, cut(1), across, (inner, note), True),
        )


def test_each_edge_has_its_own_allowance_in_the_size() -> None:
    pattern = """\
pieces:
  pocket:
    rectangle: 5 in by 6 in | 13 cm by 15 cm
    allowance:
      all: 1/2 in | 12 mm
      top edge: 1 1/4 in | 3 cm
      left edge: 0
    copies:
      only: canvas
"""
    inch, metric = tables(pattern)
    assert inch.chart[0].size == sides("5 1/2 in × 7 3/4 in")  # 0 + 5 + 1/2, 1/2 + 6 + 1 1/4
    assert metric.chart[0].size == sides("142 mm × 192 mm")  # 130 + 12, 12 + 150 + 30


def test_a_measured_piece_is_cut_at_a_size_that_a_ruler_shows() -> None:
    pattern = """\
measures:
  third: 4 in / 3 | 10 cm / 3
pieces:
  patch:
    rectangle: third by 2 * third
    allowance: 0
    copies:
      only: canvas
"""
    inch, metric = tables(pattern)
    assert inch.chart[0].size == sides("1 3/8 in × 2 5/8 in")  # 1.333 is 10.7 eighths, 2.667 is 21.3
    assert metric.chart[0].size == sides("33 mm × 67 mm")  # 33.3, 66.7


LEANING = """\
pieces:
  wing:
    outline:
      points:
        low left: 0, 0
        low right: 10 cm, 0
        top right: {right}, 8 cm
        top left: {left}, 8 cm
      edges:
        base: line from low left to low right
        right side: line from low right to top right
        top edge: line from top right to top left
        left side: line from top left to low left
    copies:
      one: canvas
      two: canvas, cut 2
      alike: canvas, cut 2, alike
"""


@pytest.mark.parametrize(
    ("shape", "left", "right", "paired"),
    [
        ("a leaning side", "0", "7 cm", True),
        ("a parallelogram", "3 cm", "13 cm", True),  # a half turn maps it onto itself, its mirror image it is not
        ("a trapezium as broad on either side", "2 cm", "8 cm", False),
        ("a rectangle", "0", "10 cm", False),
    ],
)
def test_two_are_a_pair_where_turning_over_makes_a_difference(shape: str, left: str, right: str, paired: bool) -> None:
    for table in tables(LEANING.format(left=left, right=right)):
        rows = {row.copy: row for row in table.chart}
        assert rows["wing two"].cut == (Phrase.of("chart.cut-pair", count="1") if paired else cut(2)), shape
        assert rows["wing two"].count == 2
        assert rows["wing alike"].cut == cut(2)
        assert rows["wing one"].cut == cut(1)


@pytest.mark.parametrize(
    ("folding", "inch", "metric"),
    [
        # A band turned in on both edges and folded over: twice its width and twice the turning (B17, from the numbers
        # in Kinne and Cooley 1916, lines 2412 and 2494 ff.).
        ("turned", "2 3/4 in", "60 mm"),  # 2 × 1 + 2 × 3/8; 2 × 20 + 2 × 10
        # Twice and four times the finished width (B14, B15, from memory, not read).
        ("single fold", "2 in", "40 mm"),
        ("edges to the centre", "2 in", "40 mm"),
        ("in fourths", "4 in", "80 mm"),
        ("plain", "1 3/4 in", "40 mm"),  # an allowance at either side (common practice, no source)
    ],
)
def test_a_strip_is_cut_as_wide_as_its_folding_takes(folding: str, inch: str, metric: str) -> None:
    pattern = f"""\
pieces:
  band:
    strip:
      finished width: 1 in | 20 mm
      length: 10 in | 25 cm
      fold: {folding}
    copies:
      only: canvas
"""
    for table, width, length in zip(tables(pattern), (inch, metric), ("10 3/4 in", "27 cm"), strict=True):
        (row,) = table.chart
        assert row.size == sides(f"{length} × {width}")  # the length with an allowance at each end
        assert row.notes == (Phrase.of(f"chart.fold-{folding.replace(' ', '-')}"),)
        assert not row.template


JOINED = """\
pieces:
  tie:
    strip:
      finished width: 3/4 in | 2 cm
      length: 94 1/2 in | 2.4 m
      fold: in fourths
      joins: allowed
    note: Press the joins open.
    copies:
      long: canvas
      short: cotton
  cord:
    strip:
      finished width: 3/4 in | 2 cm
      length: 77 1/4 in | 2 m
      fold: in fourths
      joins: allowed
    copies:
      only: canvas
  tab:
    strip:
      finished width: 3/4 in | 2 cm
      length: 40 in | 100 cm
      fold: plain
      joins: allowed
    copies:
      only: canvas
"""


def test_a_strip_that_is_longer_than_the_cloth_is_wide_tells_its_joins() -> None:
    """The fewest n with n × W − (n − 1) × w ≥ L (B11, derived): each diagonal join takes the width of the strip.

    The selvages take 1 in or 2 cm off the width (common practice, no source).
    """
    for table in tables(JOINED):
        rows = {row.copy: row for row in table.chart}
        folded, note = Phrase.of("chart.fold-in-fourths"), Phrase.of("chart.note", text="Press the joins open.")
        # 95 1/4 in of 3 in from 41 in: 3 × 41 − 2 × 3 = 117, two give 79. 242 cm of 8 cm from 108 cm: 308, two 208.
        assert [one.key for one in rows["tie long"].notes[1:-1]] == ["chart.joined-diagonal", "chart.joins-clear"]
        assert dict(rows["tie long"].notes[1].values)["count"] == "3"
        assert (rows["tie long"].notes[0], rows["tie long"].notes[-1]) == (folded, note)
        # From the wider cotton two do (53 in: 103; 138 cm: 268), from the narrower three: each is told.
        short = rows["tie short"].notes
        assert (short[0], short[-1]) == (folded, note)
        assert [dict(one.values)["count"] for one in short[1:3]] == ["3", "2"]
        assert {one.key for one in short[1:3]} == {"chart.joined-from-diagonal"}
        assert [one.key for one in short[3:-1]] == ["chart.joins-clear"]
        # 78 in, and two give 79; 202 cm, and two give 208.
        assert [one.key for one in rows["cord"].notes] == [folded.key, "chart.joined-diagonal", "chart.joins-clear"]
        assert dict(rows["cord"].notes[1].values)["count"] == "2"
        # 40 3/4 in of 41 in, 102 cm of 108: not joined.
        assert rows["tab"].notes == (Phrase.of("chart.fold-plain"),)


def test_joins_are_spread_and_how_far_they_stay_away_is_told() -> None:
    """Three lengths of (95 1/4 + 2 × 3) / 3 = 33 3/4 in, (242 + 2 × 8) / 3 = 86 cm. The first join's middle lies at
    33 3/4 - 1 1/2 in, or 82 cm, and reaches half the strip's width to either side: 30 3/4 in, told as 30 1/2; 78 cm."""
    for table, length, apart in zip(tables(JOINED), ("857.25", "860"), ("30 1/2 in", "78 cm"), strict=True):
        (row,) = (row for row in table.chart if row.copy == "tie long")
        assert dict(row.notes[1].values)["cut"] == Phrase.of("chart.each", length=told(length))
        assert row.notes[2] == Phrase.of("chart.joins-clear", apart=told(read_length(apart).amount))


def told(mm: object) -> Phrase:
    return Phrase.of("length", mm=str(Fraction(str(mm))))


MARKED = """\
measures:
  loop place: {at}
pieces:
  tie:
    strip:
      finished width: 1 in | 2 cm
      length: 60 in | 140 cm
      fold: in fourths
      ends: 0
      joins: diagonal
    copies:
      only: interfacing
    marks:
      loop: fold line at loop place from left end
"""


def test_a_join_makes_way_for_a_mark_and_where_it_cannot_that_is_told() -> None:
    """Two lengths of (140 + 8) / 2 = 74 cm from 90 would meet at 70 cm, where a loop is marked. Where they lie as they
    must, as of 172 cm from 90, a mark there is advice."""
    both, findings = proved(MARKED.format(at="30 in | 70 cm"))
    for table in both:
        (row,) = table.chart
        cut = dict(row.notes[1].values)["cut"]
        assert isinstance(cut, Phrase)
        assert cut.key == "chart.in-order"
    assert [finding for finding in findings if finding.name == "join-in-the-way"] == []
    full = MARKED.replace("60 in | 140 cm", "60 in | 172 cm").format(at="30 in | 86 cm")
    both, findings = proved(full)
    advice = found(findings, "join-in-the-way")
    assert advice.severity is Severity.ADVICE
    assert (
        "on cloth 900 mm wide a join of 'tie' lies 0 mm from an end of it, or from where it is marked or caught"
        in advice.says
    )
    (row,) = both[1].chart
    assert row.notes[2] == Phrase.of("chart.joins-near")


FROM_A_FAT_QUARTER = """\
pieces:
  handle:
    strip:
      finished width: 1 in | 2.5 cm
      length: 22 in | 56 cm
      fold: in fourths
      joins: diagonal
    copies:
      only: canvas
"""


def test_a_strip_that_only_a_precut_is_too_narrow_for_is_joined_from_that_alone() -> None:
    """22 3/4 in of 41 in, and of 21 in; 58 cm of 108 cm, and of 55 cm."""
    for table in tables(FROM_A_FAT_QUARTER, THREE.replace("110 cm wide\n", "110 cm wide\n      - fat quarter\n", 1)):
        (row,) = table.chart
        keys = [one.key for one in row.notes[1:]]
        assert keys == ["chart.whole-from", "chart.joined-from-diagonal", "chart.joins-clear"]
        assert dict(row.notes[2].values)["cloth"] == Phrase.of("chart.a-precut", name="fat quarter")
        assert dict(row.notes[2].values)["count"] == "2"


SIZES = """\
sizes:
  - S
  - M
measures:
  head:
    S: 21 1/4 in | 54 cm
    M: 23 in | 58 cm
pieces:
  crown:
    rectangle: head / 2 by 4 in | head / 2 by 10 cm
    copies:
      front: canvas
      lining: cotton
finished size:
  round the head: head
"""


def test_two_sizes_are_kept_apart() -> None:
    variants = tables(SIZES)
    assert [str(table.variant) for table in variants] == ["inch S", "inch M", "metric S", "metric M"]
    # Half the head and twice the allowance: 10 5/8 + 3/4, 11 1/2 + 3/4; 27 + 2, 29 + 2.
    widths = ["11 3/8 in", "12 1/4 in", "29 cm", "31 cm"]
    heights = ["4 3/4 in", "4 3/4 in", "12 cm", "12 cm"]
    for table, width, height in zip(variants, widths, heights, strict=True):
        assert [(row.copy, row.size) for row in table.chart] == [
            ("crown front", sides(f"{width} × {height}")),
            ("crown lining", sides(f"{width} × {height}")),
        ]
    heads = ["21 1/4 in", "23 in", "54 cm", "58 cm"]
    assert [table.finished_size for table in variants] == [
        (("round the head", sides(f"{head} × 0 mm")[0]),) for head in heads
    ]


def test_a_piece_that_cannot_be_drafted_has_no_row_and_takes_none_away() -> None:
    both, findings = proved(CHART.replace("rectangle: 8 in by 5 in", "rectangle: 8 in by depth"))
    assert "no-such-name" in [finding.name for finding in findings]
    inch, metric = both
    assert [row.copy for row in inch.chart] == ["flap outside", "loop", "flap lining", "flap interfacing"]
    assert [row.piece_number for row in inch.chart] == [2, 3, 2, 2]  # the numbers stay those of the pattern
    assert len(metric.chart) == 7


def test_a_copy_of_no_known_material_has_no_row() -> None:
    both, findings = proved(CHART, HEAD)
    assert "no-such-name" in [finding.name for finding in findings]
    assert [row.copy for row in both[1].chart] == ["panel front", "panel back", "flap outside", "loop"]


def test_sixteenths_are_on_the_chart_where_the_pattern_says_so() -> None:
    """3 3/16 in and two allowances of 3/8 in: 3 15/16 in."""
    pattern = """\
    pieces:
      tab:
        rectangle: 3 3/16 in by 2 in
        copies:
          only: canvas
    """
    proof, _ = prove("specimen", files(pattern, head=HEAD + "inch rounding: 1/16\n"))
    assert proof is not None
    (row,) = proof.tables[0].chart
    assert row.size == sides("3 15/16 in × 2 3/4 in")


def test_what_is_cut_without_allowance_says_its_finished_size() -> None:
    pattern = """\
    pieces:
      tab:
        rectangle: 10 cm by 8 cm
        copies:
          only: canvas, to the finished line
    """
    (row,) = tables(pattern)[1].chart
    assert row.size == sides("10 cm × 8 cm")
    assert row.notes == (Phrase.of("chart.without-allowance"),)


def test_a_piece_on_the_crosswise_grain_has_its_length_along_the_cloth() -> None:
    pattern = """\
    pieces:
      tab:
        rectangle: 10 cm by 6 cm
        grain: across
        copies:
          only: canvas
    """
    (row,) = tables(pattern)[1].chart
    assert row.size == sides("8 cm × 12 cm")


WING = """\
pieces:
  wing:
    outline:
      points:
        a: 0 cm, 0 cm
        b: 10 cm, 0 cm
        c: 7 cm, 6 cm
        d: 0 cm, 6 cm
      edges:
        base: line from a to b
        right side: line from b to c
        top: line from c to d
        left side: line from d to a
    copies:
      only: canvas, cut {count}
"""


@pytest.mark.parametrize(("count", "pairs"), [(2, "1"), (4, "2")])
def test_pairs_are_counted(count: int, pairs: str) -> None:
    (row,) = tables(WING.format(count=count))[1].chart
    assert row.cut == Phrase.of("chart.cut-pair", count=pairs)


def test_one_of_an_odd_number_has_no_partner() -> None:
    _, findings = prove_text(WING.format(count=3))
    assert "one is left over" in found(findings, "pair-left-over").says
