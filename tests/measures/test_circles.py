"""Which measure reads which, the circles among them, and names that nothing bears."""

import re

import pytest

from publisher.measures import Measures, parse_formula, read_measures
from publisher.source import Source, read_source
from publisher.terms import Finding, UnitSystem, length
from tests.measures.marked import written
from tests.specimens import draft_text, files, found, pattern_line, prove_text

PANEL = """\
pieces:
  panel:
    outline:
      rectangle: side by 8 cm
    copies:
      front: canvas
      back: canvas
seams:
  base seam:
    join:
      - panel front.bottom edge
      - panel back.bottom edge
"""
STEPS = """\
1. Sew.
   Does: sew base seam
"""


def read(measures: str) -> tuple[Source, Measures, tuple[Finding, ...]]:
    source, unread = read_source("specimen", files(measures + PANEL, STEPS))
    assert source is not None
    assert unread == ()
    return source, *read_measures(source)


def circles(findings: tuple[Finding, ...]) -> list[tuple[int, int, str]]:
    """Line, column and words of every circle that was told."""
    return [
        (finding.place.line, finding.place.column, finding.says)
        for finding in findings
        if finding.name == "circle-of-formulas" and finding.place
    ]


def test_which_measure_reads_which() -> None:
    _, measures, findings = read("""\
measures:
  depth: 2 in | 5 cm
  side: 2 * width + depth - depth / 2 | width + 3 * drop
  width: 20 cm
  drop: length of panel.bottom edge + snap.across
""")
    assert findings == ()
    assert measures.reads == (("depth", ()), ("side", ("width", "depth", "drop")), ("width", ()), ("drop", ()))


def test_every_saying_is_found_by_its_place_and_words() -> None:
    source, measures, _ = read("""\
measures:
  side: 20 cm
  half: side / 2 | side /
""")
    half = dict(source.measures[1].by_size)[None]
    assert measures.saying(half.inch) == parse_formula(written("side / 2"))
    assert measures.saying(half.metric) is None  # it had a finding
    assert measures.saying(written("side / 2")) is None  # written somewhere else


@pytest.mark.parametrize(
    ("measures", "told"),
    [
        (
            """\
measures:
  side: 20 cm
  first: 2 * second
  second: side + first
""",
            [("first:", "a circle: 'first' → 'second' → 'first'")],
        ),
        (
            """\
measures:
  side: 20 cm
  third: first
  first: 1 cm + second
  second: third / 2
""",
            [("third:", "a circle: 'third' → 'first' → 'second' → 'third'")],
        ),
        (
            """\
measures:
  side: 20 cm
  first: larger of first and side
""",
            [("first: l", "a circle: 'first' → 'first'")],
        ),
        (
            """\
measures:
  egg: hen
  side: 20 cm
  chick: side + grown
  hen: 2 * egg
  grown: chick / 2
""",
            [("egg:", "a circle: 'egg' → 'hen' → 'egg'"), ("chick:", "a circle: 'chick' → 'grown' → 'chick'")],
        ),
        (
            """\
measures:
  hangs: first + 1 cm
  side: 20 cm
  first: second | 5 cm
  second: first | 6 cm
""",
            [("first: s", "a circle: 'first' → 'second' → 'first'")],
        ),
    ],
)
def test_a_circle_is_told_once_at_its_first_measure(measures: str, told: list[tuple[str, str]]) -> None:
    expected = [(pattern_line(measures, measure), 3, says) for measure, says in told]
    _, _, findings = read(measures)
    assert sorted(circles(findings)) == expected
    _, proved = prove_text(measures + PANEL, STEPS)
    assert circles(proved) == expected
    mends = {finding.mend for finding in proved if finding.name == "circle-of-formulas"}
    assert mends == {"give one of them a length that does not depend on the others"}


def test_what_stands_beside_a_circle_is_worked_out() -> None:
    measures = """\
measures:
  hangs: first + 1 cm
  side: 20 cm
  first: second
  second: first
  twice: 2 * side
"""
    draft, _ = draft_text(measures + PANEL, STEPS)
    assert dict(draft.measures) == {"side": length(200), "twice": length(400)}
    assert draft.piece("panel").cut_width == pytest.approx(220)


def test_what_only_looks_like_a_circle_is_none() -> None:
    """A measure and an edge may bear one name, and two measures may read a third."""
    measures = """\
measures:
  bottom edge: 2 * side
  side: 20 cm
  base: length of panel.bottom edge
  sum: base + bottom edge + side
"""
    draft, findings = draft_text(measures + PANEL, STEPS)
    assert findings == ()
    assert dict(draft.measures)["sum"] == length(800)  # 20 + 40 + 20 cm


@pytest.mark.parametrize(
    ("asks", "by_way_of"),
    [
        ("length of panel.bottom edge + 1 cm", "panel.bottom edge"),
        ("width of panel", "panel.bottom edge"),
        ("2 * length of base seam", "panel.bottom edge"),
        ("distance from panel.left edge to panel.right edge", "edge"),
        ("distance from panel.snap to panel.left edge", "panel.snap"),
    ],
)
def test_a_circle_through_the_pieces_is_told_at_the_measure(asks: str, by_way_of: str) -> None:
    pattern = f"measures:\n  other: side\n  side: {asks}\n{PANEL}".replace(
        "    copies:", "    marks:\n      snap: point at side, 1 cm\n    copies:"
    )
    _, findings = draft_text(pattern, STEPS)
    told = circles(findings)
    assert {(line, column) for line, column, _ in told} == {(pattern_line(pattern, "side: "), 3)}
    for _, _, says in told:
        assert re.fullmatch(r"a circle: ('[^']+') → .* → \1", says)
        assert "'side'" in says
        assert by_way_of in says
    _, proved = prove_text(pattern, STEPS)
    assert [finding.name for finding in proved] == ["circle-of-formulas"]
    assert {variant.units for variant in proved[0].variants} == set(UnitSystem)


def test_a_circle_through_a_notion_is_told_once() -> None:
    pattern = f"""\
measures:
  side: 2 * ring.across
notions:
  ring:
    name: Ring
    across: side / 2
{PANEL}"""
    _, proved = prove_text(pattern, STEPS)
    finding = found(proved, "circle-of-formulas")
    assert finding.place is not None
    assert (finding.place.line, finding.place.column) == (pattern_line(pattern, "side: 2"), 3)
    assert "'ring.across'" in finding.says


ABROAD = [
    "__class__",
    "__import__('os')",
    "import os",
    "lambda",
    "side.__class__",
    "side.real",
    "side.amount.numerator",
    "panel.__init__",
    "exec",
    "open('pattern.yaml')",
    "().__class__.__base__",
    "[1]",
    "side if side else side",
    "{side}",
    "side**9",
    "None",
    "True",
    "self",
    "bench.source",
    "os.environ",
]


NO_BREAK, NARROW = "\N{NO-BREAK SPACE}", "\N{NARROW NO-BREAK SPACE}"


@pytest.mark.parametrize("text", [f"57{NO_BREAK}mm", f"2{NARROW}*{NO_BREAK}28.5 mm", f"5,7{NO_BREAK}cm"])
def test_other_spaces_are_spaces(text: str) -> None:
    draft, findings = draft_text(f"measures:\n  side: {text}\n" + PANEL, STEPS)
    assert findings == ()
    assert dict(draft.measures)["side"] == length(57)
