"""Outlines: rectangles, rounded corners, points with lines and arcs, and their cut lines, with numbers done by hand."""

import math

import pytest

from publisher.drafting import PieceKind
from publisher.terms import UnitSystem
from tests.specimens import draft_text, found

ROUNDED = """\
pieces:
  flap:
    outline:
      rectangle: 14 cm by 10 cm
      round:
        bottom corners: 3 cm
    copies:
      outside: canvas
"""


def test_rounded_rectangle_has_its_corners_as_edges_in_order() -> None:
    draft, findings = draft_text(ROUNDED)
    assert findings == ()
    flap = draft.piece("flap")
    assert [edge.name for edge in flap.edges] == [
        "bottom edge",
        "bottom right corner",
        "right edge",
        "top edge",
        "left edge",
        "bottom left corner",
    ]
    lengths = {edge.name: edge.length for edge in flap.edges}
    assert lengths["bottom edge"] == pytest.approx(80)  # 140 − 2 × 30
    assert lengths["right edge"] == pytest.approx(70)  # 100 − 30
    assert lengths["top edge"] == pytest.approx(140)
    assert lengths["bottom left corner"] == pytest.approx(30 * math.pi / 2)


def test_cut_line_of_a_rounded_rectangle_is_the_parallel_rounded_rectangle() -> None:
    draft, _ = draft_text(ROUNDED)
    flap = draft.piece("flap")
    assert (flap.cut_width, flap.cut_height) == (pytest.approx(160), pytest.approx(120))
    # Two quarter circles of radius 30 + 10, three straight sides, two square corners above.
    assert flap.cut_line.length == pytest.approx(2 * 40 * math.pi / 2 + 80 + 2 * (70 + 10) + 160)


def test_inch_draft_is_native() -> None:
    draft, _ = draft_text(
        ROUNDED.replace("14 cm by 10 cm", "width by 10 cm") + "measures:\n  width: 5 1/2 in | 14 cm\n",
        units=UnitSystem.INCH,
    )
    assert draft.piece("flap").edge("top edge").length == pytest.approx(5.5 * 25.4)


BOXED = """\
measures:
  width: 6 1/2 in | 16.5 cm
  height: 5 in | 12.5 cm
  depth: 2 in | 5 cm
pieces:
  body:
    outline:
      points:
        a: depth / 2, 0
        b: depth / 2 + width, 0
        c: depth / 2 + width, depth / 2
        d: width + depth, depth / 2
        e: width + depth, height + depth / 2
        f: 0, height + depth / 2
        g: 0, depth / 2
        h: depth / 2, depth / 2
      edges:
        base: line from a to b
        right up: line from b to c
        right across: line from c to d
        right edge: line from d to e
        top edge: line from e to f
        left edge: line from f to g
        left across: line from g to h
        left up: line from h to a
    copies:
      front: canvas
"""


def test_boxed_corner_measured_from_the_raw_edges_is_half_the_depth() -> None:
    """Reference fact K24 (derived, not published): with one allowance everywhere the raw corner square is d/2."""
    draft, findings = draft_text(BOXED, units=UnitSystem.INCH)
    assert findings == ()
    cut = draft.piece("body").cut_line
    corners = {(round(s.start.x / 25.4, 6), round(s.start.y / 25.4, 6)) for s in cut.segments}
    a = 3 / 8
    raw_left, raw_bottom = -a, -a
    assert (round(raw_left + 1, 6), round(raw_bottom + 1, 6)) in corners
    # K25: base = W − 2s − d and height = H − d/2 − s − t of the raw panel W × H (seams s, top allowance t).
    raw_width, raw_height = draft.piece("body").cut_width / 25.4, draft.piece("body").cut_height / 25.4
    assert raw_width - 2 * a - 2 == pytest.approx(6.5)
    assert raw_height - 1 - a - a == pytest.approx(5)


def test_boxed_corner_with_unequal_allowances() -> None:
    """Across: d/2 + side − corner allowance; up: d/2 + base − corner allowance (arithmetic of the trade, derived)."""
    uneven = BOXED.replace(
        "    copies:",
        "    allowance:\n      all: 1 cm\n      left edge: 2 cm\n      base: 15 mm\n      left across: 5 mm\n"
        "      left up: 5 mm\n    copies:",
    )
    draft, findings = draft_text(uneven)
    assert findings == ()
    cut = draft.piece("body").cut_line
    box = cut.box
    inner = min((segment.start for segment in cut.segments), key=lambda point: math.hypot(point.x - 20, point.y - 20))
    assert inner.x - box.left == pytest.approx(25 + 20 - 5)
    assert inner.y - box.bottom == pytest.approx(25 + 15 - 5)


def test_arcs_by_radius_and_by_height_bulge_outwards() -> None:
    draft, findings = draft_text("""\
        pieces:
          tongue:
            outline:
              points:
                left: 0, 0
                right: 60 mm, 0
              edges:
                straight: line from left to right
                curve: arc from right to left with radius 50 mm
            copies:
              one: canvas
          lid:
            outline:
              points:
                left: 0, 0
                right: 80 mm, 0
              edges:
                straight: line from left to right
                curve: arc from right to left with height 20 mm
            copies:
              one: canvas
        """)
    assert findings == ()
    # Sagitta of a chord of 60 on a circle of 50: 50 − √(50² − 30²) = 10.
    assert draft.piece("tongue").finished_line.box.top == pytest.approx(10)
    # Radius from chord 80 and height 20: (40² + 20²) / 40 = 50.
    assert draft.piece("lid").edge("curve").length == pytest.approx(2 * 50 * math.asin(40 / 50))
    assert draft.piece("lid").finished_line.box.top == pytest.approx(20)


def test_clockwise_outlines_are_turned() -> None:
    draft, findings = draft_text("""\
        pieces:
          kite:
            outline:
              points:
                low: 0, 0
                left: -30 mm, 40 mm
                top: 0, 90 mm
                right: 30 mm, 40 mm
              edges:
                first: line from low to left
                second: line from left to top
                third: line from top to right
                fourth: line from right to low
            copies:
              one: canvas
        """)
    assert findings == ()
    kite = draft.piece("kite")
    assert [edge.name for edge in kite.edges] == ["fourth", "third", "second", "first"]
    assert kite.cut_width > 60


def test_measured_piece_is_proved_at_its_printed_size() -> None:
    draft, findings = draft_text(
        "pieces:\n  pocket:\n    rectangle: 100.4 mm by 80 mm\n    copies:\n      only: canvas\n"
    )
    assert findings == ()
    pocket = draft.piece("pocket")
    assert pocket.kind is PieceKind.MEASURED
    assert pocket.cut_width == pytest.approx(120)  # 100.4 + 2 × 10, to the whole millimetre
    assert pocket.edge("top edge").length == pytest.approx(100)  # what that leaves to sew
    assert pocket.copies[0].name == "pocket"


@pytest.mark.parametrize(
    ("folding", "cut_width"),
    [
        ("in fourths", 100),  # 4 × 25
        ("turned", 70),  # 2 × 25 + 2 × 10 (Kinne & Cooley 1916: cut = 2 × finished + 2 × turning)
        ("edges to the centre", 50),  # 2 × 25
        ("single fold", 50),  # 2 × 25
        ("plain", 45),  # 25 + 2 × 10
    ],
)
def test_strip_is_cut_as_its_folding_asks(folding: str, cut_width: float) -> None:
    draft, findings = draft_text(f"""\
        pieces:
          handle:
            strip:
              finished width: 25 mm
              length: 30 cm
              fold: {folding}
            copies:
              only: canvas
        """)
    assert findings == ()
    handle = draft.piece("handle")
    assert (handle.cut_width, handle.cut_height) == (pytest.approx(320), pytest.approx(cut_width))
    assert handle.strip is not None
    assert handle.strip.finished_width == pytest.approx(25)
    assert handle.strip.finished_length == pytest.approx(300)


def test_turned_band_agrees_with_a_published_example() -> None:
    """Kinne & Cooley, Clothing and Health (1916), lines 2412, 2494: 2 1/2 in cut, 1/4 in turned each side, 1 in finished."""
    draft, _ = draft_text(
        "pieces:\n  band:\n    strip:\n      finished width: 1 in\n      length: 10 in\n      fold: turned\n"
        "    allowance: 1/4 in\n    copies:\n      only: canvas\n",
        units=UnitSystem.INCH,
    )
    assert draft.piece("band").cut_height == pytest.approx(2.5 * 25.4)


@pytest.mark.parametrize(
    ("pattern", "name", "line", "words"),
    [
        (
            "pieces:\n  a:\n    outline:\n      points:\n        p: 0, 0\n        q: 9 cm, 0\n        r: 0, 9 cm\n"
            "        s: 9 cm, 9 cm\n"
            "      edges:\n        e: line from p to q\n        f: line from q to r\n        g: line from r to s\n"
            "        h: line from s to p\n    copies:\n      one: canvas\n",
            "outline-crosses-itself",
            12,
            "x 1 3/4 in (44.5 mm), y 1 3/4 in",
        ),
        (
            "pieces:\n  a:\n    outline:\n      points:\n        p: 0, 0\n        q: 9 cm, 0\n        r: 0, 9 cm\n"
            "      edges:\n        e: line from p to q\n        f: line from r to p\n    copies:\n      one: canvas\n",
            "outline-open",
            20,
            "ends at 'q'",
        ),
        (
            "pieces:\n  a:\n    outline:\n      rectangle: 5 cm by 5 cm\n      round:\n        all corners: 3 cm\n"
            "    copies:\n      one: canvas\n",
            "rounding-does-not-fit",
            16,
            "1 1/8 in (28.6 mm)",
        ),
        (
            "pieces:\n  a:\n    outline:\n      points:\n        p: 0, 0\n        q: 9 cm, 0\n      edges:\n"
            "        e: line from p to q\n        f: arc from q to p with radius 4 cm\n    copies:\n      one: canvas\n",
            "arc-does-not-fit",
            19,
            "1 5/8 in (41.3 mm) does not reach over a chord of 3 1/2 in (88.9 mm)",
        ),
        (
            "pieces:\n  a:\n    rectangle: 5 cm by 5 cm\n    copies:\n      one: canvass\n",
            "no-such-name",
            15,
            "canvass",
        ),
    ],
)
def test_outlines_that_cannot_be(pattern: str, name: str, line: int, words: str) -> None:
    _, findings = draft_text(pattern)
    finding = next(finding for finding in findings if finding.name == name)
    assert finding.place is not None
    assert finding.place.line == line, finding
    assert words in finding.says


def test_one_bad_piece_hides_no_other() -> None:
    draft, findings = draft_text(
        ROUNDED + "  bad:\n    rectangle: pokcet by 5 cm\n    copies:\n      only: canvas\nmeasures:\n  pocket: 5 cm\n"
    )
    assert [piece.name for piece in draft.pieces] == ["flap"]
    finding = next(finding for finding in findings if finding.name == "no-such-name")
    assert finding.mend == "did you mean 'pocket'?"


def test_circle_through_an_edge() -> None:
    _, findings = draft_text("""\
        measures:
          side: length of lid.top edge
        pieces:
          lid:
            outline:
              rectangle: side by 5 cm
            copies:
              one: canvas
        """)
    metric = [finding for finding in findings if str(finding.variants[0]) == "metric"]
    finding = found(tuple(metric[:1]), "circle-of-formulas")
    assert "side" in finding.says
    assert "lid" in finding.says
