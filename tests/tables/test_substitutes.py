"""Another ring, webbing or wadding: what the reader cuts then, worked out by hand. Stock sizes: common practice, no source."""

import re
from html import unescape

import pytest

from publisher.edition.printed import set_edition
from publisher.pipeline import for_many, prove
from publisher.tables import Substitute
from publisher.template_pages import DEFAULT_EDITIONS
from publisher.terms import read_length
from tests.specimens import HEAD, files

STRAP = """\
measures:
  strap width: 3/4 in | 20 mm
  strap length: 30 in | 75 cm
notions:
  ring:
    kind: ring
    name: D-ring
    inner width: strap width
pieces:
  strap:
    strip:
      finished width: strap width
      length: strap length
      fold: in fourths
    copies:
      only: canvas, cut 2
"""
STEPS = """\
## Sew
1. Fold the strap in fourths, to {strap width}, {strap length} long.
   Does: fold strap
2. Slip the ring on, {strap width} wide.
   Does: attach ring at strap.left end
"""


def told(pattern: str, steps: str = STEPS, head: str = HEAD) -> tuple[tuple[Substitute, ...], ...]:
    """The substitutes of each variant, inch first."""
    proof, findings = prove("specimen", files(pattern, steps, head))
    assert proof is not None
    assert [finding.says for finding in findings if finding.severity.value == "error"] == []
    return tuple(table.supplies.substitutes for table in proof.tables)


def cuts(substitutes: tuple[Substitute, ...]) -> list[tuple[str, str, tuple[str, ...]]]:
    """Of each: what it is, what instead, and the widths cut then, as text in mm."""
    return [
        (one.key, f"{one.other.mm:g}", tuple(f"{cut.copy} {cut.size[1].mm:g}" for cut in one.cuts))
        for one in substitutes
    ]


def test_a_straps_cut_width_follows_the_ring() -> None:
    """Folded in fourths, it is cut four times as wide: 2 1/2 or 4 in; 6 or 10 cm."""
    inch, metric = told(STRAP)
    assert cuts(inch) == [
        ("ring", "15.875", ("strap 63.5",)),
        ("ring", "25.4", ("strap 101.6",)),
    ]
    assert cuts(metric) == [("ring", "15", ("strap 60",)), ("ring", "25", ("strap 100",))]
    smaller, larger = inch
    assert (smaller.own, smaller.other) == (read_length("3/4 in"), read_length("5/8 in"))
    assert [(new.step, new.was.mm, new.now.mm) for new in larger.numbers] == [(1, 19.05, 25.4), (2, 19.05, 25.4)]
    # Two strips of 3 in are 6 1/8 + 1 in of cloth, 1/4 yd; of 4 in 8 1/8 + 1, 3/8 yd; of 2 1/2 in 5 1/8 + 1, 1/4 yd.
    assert smaller.lengths == ()
    assert [(new.material, new.width, new.buy) for new in larger.lengths] == [
        ("canvas", read_length("42 in"), read_length("3/8 yd"))
    ]


def test_a_measure_may_follow_the_ring_as_well() -> None:
    pattern = STRAP.replace("inner width: strap width", "inner width: 3/4 in | 20 mm")
    pattern = pattern.replace("strap width: 3/4 in | 20 mm", "strap width: ring.inner width")
    assert [cuts(each) for each in told(pattern)] == [cuts(each) for each in told(STRAP)]


def test_the_last_stock_size_has_no_larger() -> None:
    pattern = STRAP.replace("3/4 in | 20 mm", "2 in | 50 mm")
    assert [cuts(each) for each in told(pattern)] == [
        [("ring", "38.1", ("strap 152.4",))],
        [("ring", "40", ("strap 160",))],
    ]


def test_a_length_that_is_given_once_is_told_in_its_own_system() -> None:
    inch, metric = told(STRAP.replace("3/4 in | 20 mm", "3/4 in"))
    assert len(inch) == 2
    assert metric == ()


@pytest.mark.parametrize(
    ("kind", "size", "others"),
    [
        ("webbing", "width", ["12.7", "25.4"]),
        ("elastic", "width", ["15.875", "25.4"]),
        ("slider", "inner width", ["15.875", "25.4"]),
        ("button", "across", []),
        ("ring", "thickness", []),
    ],
)
def test_kinds_that_shops_stock_in_sizes(kind: str, size: str, others: list[str]) -> None:
    pattern = STRAP.replace("kind: ring", f"kind: {kind}").replace("inner width:", f"{size}:")
    assert [other for _, other, _ in cuts(told(pattern)[0])] == others


def test_wadding_that_a_strip_is_folded_round() -> None:
    head = HEAD + (
        "  wadding:\n    kind: wadding\n    name: Wadding\n    sold:\n      - 45 in wide | 115 cm wide\n"
        "    thickness: loft\n"
    )
    pattern = STRAP.replace("measures:\n", "measures:\n  loft: 1/4 in | 5 mm\n").replace(
        "      fold: in fourths\n", "      fold: in fourths\n      thickness: 2 * loft\n"
    )
    pattern = pattern.replace("    inner width: strap width\n", "")
    # 4 × 3/4 in and twice the loft: 3 1/4 or 3 3/4 in; 8 cm and 6 or 20 mm.
    inch, metric = told(pattern, STEPS, head)
    assert cuts(inch) == [("wadding", "3.175", ("strap 82.55",)), ("wadding", "9.525", ("strap 95.25",))]
    assert cuts(metric) == [("wadding", "3", ("strap 86",)), ("wadding", "10", ("strap 100",))]


PANEL = """\
  panel:
    {shape}
    copies:
      only: canvas
"""
DRAWN = PANEL.format(shape="outline:\n      rectangle: strap width * 4 by 10 cm")
MEASURED = PANEL.format(shape="rectangle: strap width * 4 by 10 cm")
SEWN = """\
seams:
  end seam:
    join:
      - strap.left end
      - tab.top edge
"""


@pytest.mark.parametrize(
    "pattern",
    [
        STRAP.replace("inner width: strap width", "inner width: 1 in | 25 mm"),  # nothing follows it
        STRAP.replace("inner width: strap width", "inner width: strap width + 1/8 in"),  # a formula
        STRAP.replace("strap width: 3/4 in | 20 mm", "strap width: strap length / 40"),
        STRAP + DRAWN,  # its template would be another
    ],
    ids=["unlinked", "formula", "measure of a formula", "template"],
)
def test_nothing_is_told_where_it_cannot_be_changed_alone(pattern: str) -> None:
    assert told(pattern) == ((), ())


def test_nothing_is_told_where_a_seam_would_no_longer_fit() -> None:
    tab = PANEL.format(shape="rectangle: 3 in by 4 in | 8 cm by 10 cm").replace("panel", "tab")
    assert told(STRAP + tab + SEWN, STEPS + "   Does: sew end seam\n") == ((), ())
    follows = tab.replace("3 in by 4 in | 8 cm by 10 cm", "strap width * 4 by 10 cm")
    assert [len(each) for each in told(STRAP + follows + SEWN, STEPS + "   Does: sew end seam\n")] == [2, 2]


def test_pieces_that_are_measured_change_with_the_strap() -> None:
    (_, larger), _ = told(STRAP + MEASURED)
    # 4 × 1 in and two allowances of 3/8.
    assert [(cut.copy, cut.size[0]) for cut in larger.cuts][1] == ("panel", read_length("4 3/4 in"))


SIZED = STRAP.replace("measures:\n", "sizes:\n  - S\n  - M\nmeasures:\n").replace(
    "  strap length: 30 in | 75 cm\n", "  strap length:\n    S: 30 in | 75 cm\n    M: 36 in | 90 cm\n"
)


def test_in_several_sizes_each_is_told_and_a_graded_width_is_not() -> None:
    small, medium, *_ = told(SIZED)
    lengths = [cut.size[0] for one in (small[1], medium[1]) for cut in one.cuts]
    assert lengths == [read_length("30 3/4 in"), read_length("36 3/4 in")]
    graded = SIZED.replace(
        "  strap width: 3/4 in | 20 mm\n", "  strap width:\n    S: 3/4 in | 20 mm\n    M: 1 in | 25 mm\n"
    )
    assert told(graded) == ((), (), (), ())


def _text(html: str) -> str:
    return re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]*>", " ", html)).replace("\N{NO-BREAK SPACE}", " "))


def test_the_edition_tells_it_below_the_notions_and_for_many() -> None:
    proof, _ = prove("specimen", files(STRAP, STEPS))
    assert proof is not None
    inch, metric = (_text(set_edition(proof, edition).html) for edition in DEFAULT_EDITIONS)
    assert (
        "D-ring, inner width 1 in instead of 3⁄4 in Cut strap 30 3⁄4 in × 4 in. Buy 3⁄8 yd of canvas, 42 in wide. "
        "In steps 1 and 2 read 1 in for 3⁄4 in."
    ) in inch
    assert "D-ring, inner width 1.5 cm instead of 2 cm Cut strap 77 cm × 6 cm." in metric
    (many, _) = (_text(set_edition(for_many(proof, 12), edition).html) for edition in DEFAULT_EDITIONS)
    # One strap lies across 41 in; 24 of 4 in: 24 × 4 + 23 × 1/8 + 1 in are 99 7/8, 2 7/8 yd.
    assert "Buy 2 7⁄8 yd of canvas, 42 in wide." in many


def test_the_edition_tells_each_size_its_own() -> None:
    proof, _ = prove("specimen", files(SIZED, STEPS))
    assert proof is not None
    text = _text(set_edition(proof, DEFAULT_EDITIONS[1]).html)
    assert "S: Cut strap 77 cm × 10 cm." in text
    assert "M: Cut strap 92 cm × 10 cm." in text
