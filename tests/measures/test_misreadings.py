"""What cannot be read is told at the guilty sign, marked «so» in the text, and any text at all is read or told."""

import re
from collections.abc import Callable, Iterator

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from publisher.measures import read_measures
from publisher.measures.action_sayings import parse_action
from publisher.measures.formulas import parse_formula
from publisher.measures.mark_sayings import parse_mark
from publisher.measures.sayings import (
    parse_copy,
    parse_edge,
    parse_matching,
    parse_name,
    parse_pair,
    parse_part,
    parse_point,
    parse_side,
    parse_width,
)
from publisher.source import read_source
from publisher.terms import Finding, Severity, Unusable, Written
from tests.measures.marked import COLUMN, LINE, unmarked, written

Parser = Callable[[Written], object]


def unreadable(parser: Parser, text: Written) -> Finding:
    with pytest.raises(Unusable) as told:
        parser(text)
    finding = told.value.finding
    assert (finding.name, finding.severity) == ("unreadable", Severity.ERROR)
    return finding


SPACE = ("a minus has a space on both sides, for a name may be beside it", "write it as 'width - depth'")
COMMA = ("a comma is a decimal sign only in a length that stands alone", "write the decimals with a point: 5.7 cm")
SIGN_MISSING = "is a sign missing, such as * or +?"
BAR = "a bar parts inches from metric only in a whole value; name the length under measures: and write its name here"
FRACTION = "put it in brackets: depth / (1/2); or leave spaces round both signs: depth / 4 / 2"
LIKE = "write lengths like 2 1/4 in or 5.7 cm, names as they stand in the pattern, and + - * / between them"


def reserved(word: str) -> str:
    return f"'{word}' is a word of the formula language, so no name may contain it"


@pytest.mark.parametrize(
    ("marked", "says", "mend"),
    [
        ("width«-»depth", *SPACE),
        ("width «-»depth", *SPACE),
        ("width«-» depth", *SPACE),
        ("width«−»depth", *SPACE),
        ("10 cm«-»2 cm", *SPACE),
        ("2 * (width + depth)«-»1 cm", *SPACE),
        ("width - depth«-»1 cm", *SPACE),
        ("1 cm + 5«,»7 cm", *COMMA),
        ("5«,»7 cm + 1 cm", *COMMA),
        ("2«,»5", *COMMA),  # a number; only a length may be written so
        ("2 «width»", "'width' cannot stand here", SIGN_MISSING),
        ("2 cm «5» mm", "'5' cannot stand here", SIGN_MISSING),
        ("1 ft «3» in", "'3' cannot stand here", SIGN_MISSING),
        ("(a + b) «c»", "'c' cannot stand here", SIGN_MISSING),
        ("2 «cmm»", "'cmm' cannot stand here", SIGN_MISSING),
        ("«the» bag", "'the' cannot stand here; a length or a name is expected", reserved("the")),
        ("bag + «at» side", "'at' cannot stand here; a length or a name is expected", reserved("at")),
        ("larger of a and b «and» c", "'and' cannot stand here", reserved("and")),
        ("length of «of»", "'of' cannot stand here; a name is expected", reserved("of")),
        ("length of «2» cm", "'2' cannot stand here; a name is expected", LIKE),
        ("larger of a«,» b", "',' cannot stand here", LIKE),
        ("distance from a «and» b", "'and' cannot stand here; 'to' is expected", reserved("and")),
        ("depth «|» width", "'|' cannot stand here", BAR),
        ("2 * (depth «|» width)", "'|' cannot stand here", BAR),
        ("depth «?» width", "'?' cannot stand here", LIKE),
        ("a /« 1/2»", "a fraction straight behind a division sign can be read in two ways", FRACTION),
        ("(a + «b»", "the end cannot stand here; ' - ', ')' or '+' is expected", LIKE),
        ("((a) * «2»", "the end cannot stand here", LIKE),
        ("a + b«)»", "')' cannot stand here; ' - ', '+' or the end is expected", LIKE),
        ("a «+»", "the end cannot stand here; a length or a name is expected", LIKE),
        ("a +«+» b", "'+' cannot stand here; a length or a name is expected", LIKE),
        ("width*«*»2", "'*' cannot stand here; a length or a name is expected", LIKE),
        ("«_»width", "'_' cannot stand here", LIKE),
        ("lid«.».around", "'.' cannot stand here", LIKE),
        ("«1/0 in»", "'1/0 in' is no amount", "write it like 2 1/4 in"),
        ("2 * «1/0»", "'1/0' is no amount", "write it like 2 1/4 in"),
    ],
)
def test_a_formula_that_cannot_be_read(marked: str, says: str, mend: str) -> None:
    text, place = unmarked(marked)
    finding = unreadable(parse_formula, written(text))
    assert finding.place == place
    assert finding.says.startswith(f"in '{text}': {says}")
    assert finding.mend == mend


def test_a_decimal_comma_is_read_in_a_length_that_stands_alone() -> None:
    assert parse_formula(written("5,7 cm")) == parse_formula(written("5.7 cm"))


def test_a_formula_may_have_500_signs_and_no_more() -> None:
    longest = "a + " * 124 + "a  a"  # 124 × 4 + 4
    assert len(longest) == 500
    parse_formula(written(longest))
    finding = unreadable(parse_formula, written(longest + "a"))
    assert finding.place == written(longest + "a").place
    assert finding.says.endswith(": this is 501 signs long")
    assert finding.mend == "keep it under 500 signs"


@pytest.mark.parametrize(("opened", "closed"), [("(", ")"), ("-", ""), ("−", "")])
def test_brackets_nest_forty_deep_and_no_deeper(opened: str, closed: str) -> None:
    parse_formula(written(opened * 40 + "a" + closed * 40))
    finding = unreadable(parse_formula, written(opened * 41 + "a" + closed * 41))
    assert finding.says.endswith(": more than 40 brackets within brackets")
    assert finding.mend == "make measures of the parts"


def test_brackets_side_by_side_are_not_deep() -> None:
    parse_formula(written("(a + b) * " * 45 + "c"))


KNOWN_OPTIONS = "known here: 'cut 2', 'to the finished line', 'alike'"


@pytest.mark.parametrize(
    ("parser", "marked", "says", "mend"),
    [
        (parse_pair, "10 cm «x» 4 cm", "'by'", SIGN_MISSING),
        (parse_pair, "10 cm by 4 cm «by» 2 cm", "'by' cannot stand here", reserved("by")),
        (parse_point, "«a»", "the end cannot stand here", LIKE),
        (parse_point, "a, b«,» c", "',' cannot stand here", LIKE),
        (
            parse_edge,
            "«bow» from a to b",
            "'arc from … to … with radius …', 'line from … to …' or 'smooth curve from … to … by …' is expected",
            LIKE,
        ),
        (parse_edge, "line from «a»", "the end cannot stand here; 'to' is expected", LIKE),
        (parse_edge, "arc from a to «b»", "the end cannot stand here; ',', 'by' or 'with' is expected", LIKE),
        (
            parse_edge,
            "arc from a to b with «2» cm",
            "'2' cannot stand here; 'centre', 'height' or 'radius' is expected",
            LIKE,
        ),
        (parse_edge, "arc from a to b with radius c, «outwards»", "'inwards' is expected", LIKE),
        (parse_side, "a and «and»", "'and' cannot stand here; a name is expected", reserved("and")),
        (parse_side, "a«,» b", "',' cannot stand here; 'and' or the end is expected", LIKE),
        (parse_matching, "centre to «to»", "'to' cannot stand here; a name is expected", reserved("to")),
        (parse_name, "«a and b»", "one name is expected, not several", "write a line for each"),
        (parse_mark, "«dot» at 2 cm, 3 cm", "'fold line …', 'notch at …' or 'point at …' is expected", LIKE),
        (parse_mark, "notch «on» top edge", "'on' cannot stand here; 'at' is expected", LIKE),
        (parse_mark, "notch at middle «of» top edge", "'of' cannot stand here", ""),
        (parse_mark, "notch at 3 cm from «top» edge", "'top' cannot stand here; 'the left end of …' is expected", LIKE),
        (parse_mark, "fold line from «a»", "the end cannot stand here; 'to' is expected", LIKE),
        (parse_mark, "point at 2 cm, 3 cm, «by» lining", "'for' or 'on the right side' is expected", reserved("by")),
        (parse_copy, "canvas, «alik»", "this says nothing about a copy", "did you mean 'alike'?"),
        (parse_copy, "canvas, «to finished line»", "says nothing", "did you mean 'to the finished line'?"),
        (parse_copy, "canvas, alike,  «cut two»", "says nothing", "did you mean 'cut 2'?"),
        (parse_copy, "canvas, «cut 0»", "says nothing", "did you mean 'cut 2'?"),
        (parse_copy, "canvas, «cut 1000»", "says nothing", "did you mean 'cut 2'?"),
        (parse_copy, "canvas, «mirrored», alike", "says nothing", KNOWN_OPTIONS),
        (parse_copy, "light«-»canvas, cut 2", SPACE[0], SPACE[1]),
        (parse_copy, "«canvas and cotton»", "one name is expected, not several", "write a line for each"),
        (parse_action, "«sow» side seam", "no work called 'sow'", "did you mean 'sew'?"),
        (parse_action, "«Sew» side seam", "no work called 'Sew'", "did you mean 'sew'?"),
        (parse_action, "«knit» side seam", "no work called 'knit'", "known here: 'cut', 'mark', 'fuse'"),
        (parse_action, "«sew»", "'sew' what?", "write: sew and the name of what it is done to"),
        (parse_action, "«fuse to body»", "'fuse' what?", "write: fuse and the name of what it is done to"),
        (parse_action, "«fuse body to»", "to what?", "name something behind 'to'"),
        (parse_action, "sew  side«-»seam", SPACE[0], SPACE[1]),
        (parse_action, "fuse a to  b«,» c", "',' cannot stand here", LIKE),
        (parse_action, "sew «a and b»", "one name is expected, not several", "write a line for each"),
        (parse_width, "«42 in»", "this is no width", "write it like '42 in wide | 110 cm wide'"),
        (parse_width, "«42 wide»", "'42' has no unit", "write it like '42 in wide | 110 cm wide'"),
        (parse_width, "«extra wide»", "'extra' is not a length", "write it like '42 in wide | 110 cm wide'"),
        (parse_width, "«1/0 in wide»", "divides by nought", "write it like '42 in wide | 110 cm wide'"),
        (parse_width, "«2 fat quarters»", "this is no width", "write it like '42 in wide | 110 cm wide'"),
        (parse_part, "«4»", "this is no percentage", "write it like 4%"),
        (parse_part, "«four %»", "this is no percentage", "write it like 4%"),
        (parse_part, "«-4%»", "this is no percentage", "write it like 4%"),
        (parse_part, "«1000%»", "this is no percentage", "write it like 4%"),
        (parse_part, "«4% or so»", "this is no percentage", "write it like 4%"),
    ],
)
def test_a_saying_that_cannot_be_read(parser: Parser, marked: str, says: str, mend: str) -> None:
    text, place = unmarked(marked)
    finding = unreadable(parser, written(text))
    assert finding.place == place
    assert says in finding.says
    assert finding.mend.startswith(mend)


def test_a_quoted_text_is_told_as_a_whole() -> None:
    """Between quotes a sign may stand for another, so that no column could be trusted."""
    text = written("width-depth", exact=False)
    assert unreadable(parse_formula, text).place == text.place


SLIPS = """\
title: Slips
revision: "1"
measures:
  width: 10 in | 26 cm
  side: 2 * width | width«-»2 cm
  half: (2 i«n» | 5 cm«)»
allowance: 1 cm «5» mm
finished size:
  width: width«,»
materials:
  canvas:
    kind: fabric
    name: Canvas
    sold:
      - «42 in» | 110 cm wide
    shrinkage: «some»
notions:
  snap:
    name: Snap
    across: 2 cm «by» 3 cm
    count: 2 «snaps»
pieces:
  panel:
    outline:
      points:
        low: 0«;» 0
        high: 0, 20 cm
      edges:
        base: line from low«,» high
        back: arc from high to low with radius 20 cm, «outward»
      round:
        low: 1.2«.»3
    allowance:
      base: 1 cm «and»
    copies:
      front: canvas, «cut twice»
    marks:
      top: notch «on» base
  band:
    rectangle: 20 cm «x» 8 cm
    allowance: 1 cm«?»
    copies:
      only: canvas
  tie:
    strip:
      finished width: 2 cm«?»
      length: length o«f»
      fold: plain
      ends: 1 cm «+»
    copies:
      only: canvas
seams:
  base seam:
    join:
      - panel.base «&» band.base
      - band.top«-»edge
    ease: 5 «%»
    leave open: 2 * (3 c«m»
placements:
  band on panel:
    place: band
    on: panel
    matching:
      - top «>» middle
"""
SLIPS_IN_STEPS = """\
Make {width «+»} of it.
1. Sew {side seam«!»} now.
   Does: «sow» base seam
   Now: band«,» panel
"""


def test_a_misreading_anywhere_in_the_pattern_is_told_at_its_column() -> None:
    marked = {"pattern.yaml": SLIPS, "steps.md": SLIPS_IN_STEPS}
    guilty = {
        (file, number, len(part[0]) + 1, len(part[0]) + 1 + len(part[1]))
        for file, text in marked.items()
        for number, line in enumerate(text.splitlines(), start=1)
        for part in _marked_parts(line)
    }
    bare = {file: text.replace("«", "").replace("»", "").encode() for file, text in marked.items()}
    source, unread = read_source("slips", bare)
    assert source is not None
    assert unread == ()
    _, findings = read_measures(source)
    places = [finding.place for finding in findings if finding.place]
    assert {(at.file, at.line, at.column, at.end_column) for at in places} == guilty
    assert {finding.name for finding in findings} == {"unreadable"}


def _marked_parts(line: str) -> Iterator[tuple[str, str]]:
    """What stands before each marked part, without marks, and the part itself."""
    before = ""
    for nth, part in enumerate(re.split("[«»]", line)):
        if nth % 2:
            yield before, part
        before += part


PARSERS = [
    parse_formula,
    parse_pair,
    parse_point,
    parse_edge,
    parse_side,
    parse_matching,
    parse_name,
    parse_mark,
    parse_copy,
    parse_action,
    parse_width,
    parse_part,
    parse_point,
]
WORDS = (
    *("of", "from", "to", "and", "at", "the", "with", "by", "for", "width", "lid.around", "body", "on", "é", "_", "’"),
    *("2", "1/4", "½", "2.5", "5,7", "1/0", "999999999", "²", "٣", "in", "cm", "yd", "°", '"', "%"),
    *("+", "-", "−", "*", "/", "÷", "(", ")", ",", ".", "|", "line", "arc", "radius", "height", "inwards", "notch"),
    *("larger", "distance", "double", "point", "fold", "middle", "left", "end", "right", "side"),
    *("cut", "sew", "fuse", "alike", "finished", "wide"),
)
texts = st.one_of(
    st.text(max_size=30),
    st.text("0123456789 ,.()+-−*/÷½⅔abin'’\"″°%|_\n\t\N{NO-BREAK SPACE}", max_size=30),
    st.lists(st.sampled_from([*WORDS, " ", "  "]), max_size=14).map("".join),
    st.lists(st.sampled_from(WORDS), max_size=14).map(" ".join),
).map(str.strip)  # a value comes stripped from the file


@pytest.mark.parametrize("parser", PARSERS)
@settings(max_examples=300, deadline=None)
@given(text=texts)
@example(text="")
@example(text="canvas,")
@example(text="(" * 500)
@example(text="-" * 501)
def test_any_text_is_read_or_told_within_the_text(parser: Parser, text: str) -> None:
    finding = None
    try:
        parser(written(text))
    except Unusable as unusable:
        finding = unusable.finding
    if finding is not None:
        # An empty text has a column of its own; what is missing behind a last comma is told just behind it.
        end = COLUMN + max(len(text), 1) + text.endswith(",")
        assert finding.place is not None
        assert finding.place.line == finding.place.end_line == LINE
        assert COLUMN <= finding.place.column < finding.place.end_column <= end
        assert finding.says
        assert finding.mend
