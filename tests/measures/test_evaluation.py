"""Formulas worked out exactly, against numbers done by hand and an evaluation of the tests' own."""

import re
from dataclasses import dataclass
from fractions import Fraction

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from publisher.measures import Asked, Formula, Literal, Name, evaluate, native_literal, parse_formula
from publisher.terms import Dimension, Finding, Quantity, Severity, UnitSystem, Unusable, length, number
from tests.measures.marked import at_place, unmarked, written
from tests.specimens import draft_text, found, pattern_line

INCH, METRIC = UnitSystem.INCH, UnitSystem.METRIC


@dataclass(frozen=True)
class Book:
    """Answers a formula from a list; a length stays as it was written."""

    measures: tuple[tuple[str, Quantity], ...] = ()
    answers: tuple[tuple[str, Quantity], ...] = ()

    def named(self, name: Name) -> Quantity:
        return dict(self.measures)[name.text]

    def asked(self, asked: Asked) -> Quantity:
        about = " ".join(about.text for about in asked.about if isinstance(about, Name))
        return dict(self.answers)[f"{asked.what} {about}"]

    def literal(self, literal: Literal) -> Quantity:
        return literal.quantity


def work_out(text: str, book: Book = Book()) -> Quantity:
    return evaluate(parse_formula(written(text)), book)


def refusal(text: str, book: Book = Book()) -> Finding:
    with pytest.raises(Unusable) as told:
        work_out(text, book)
    assert told.value.finding.severity is Severity.ERROR
    return told.value.finding


@pytest.mark.parametrize(
    ("text", "millimetres"),
    [
        # 1 in is exactly 25.4 mm, a foot 12 of them, a yard 36 (U1, U2: GNU units 2.22, definitions.units).
        ("2 1/4 in", "57.15"),  # 2.25 × 25.4
        ("2¼ in", "57.15"),
        ("2 ¼ in", "57.15"),
        ("2 1⁄4 in", "57.15"),
        ('2.25"', "57.15"),
        ("2.25″", "57.15"),
        ("2.25 inch", "57.15"),
        ("2.25 inches", "57.15"),
        ("9/4 in", "57.15"),
        ("1/3 in", "127/15"),  # 25.4 / 3
        ("2,25 in", "57.15"),
        ("57 mm", "57"),
        ("57mm", "57"),
        ("5.7 cm", "57"),
        ("5,7 cm", "57"),
        ("0.057 m", "57"),
        ("0,057 m", "57"),
        ("1 1/2 ft", "457.2"),  # 18 in
        ("1 yd", "914.4"),
        ("1 3/8 yd", "1257.3"),  # 914.4 + 342.9
        ("1/8 yard", "114.3"),
        ("2 yards", "1828.8"),
    ],
)
def test_a_length_as_people_write_it(text: str, millimetres: str) -> None:
    assert work_out(text) == length(Fraction(millimetres))


@pytest.mark.parametrize(
    ("text", "worked_out"),
    [
        ("2 in + 1 mm", length(Fraction("51.8"))),
        ("1 cm - 1 in", length(Fraction("-15.4"))),
        ("-2 1/2 in", length(Fraction("-63.5"))),
        ("10 cm - -5 mm", length(105)),
        ("2 + 3 * 4", number(14)),
        ("(2 + 3) * 4", number(20)),
        ("20 - 5 - 3", number(12)),
        ("20 - (5 - 3)", number(18)),
        ("10 cm / 4", length(25)),
        ("10 cm / 4 cm", number(Fraction(5, 2))),
        ("(10 cm / 4) / 5 mm", number(5)),
        ("10 cm * 2 cm", Quantity(Fraction(2000), Dimension.AREA)),
        ("10 cm * 2 cm / 4 cm", length(50)),
        ("10 cm * 2 cm / (4 cm * 5 cm)", number(1)),
        ("1 yd / 8", length(Fraction("114.3"))),
        ("3 * 1/3 in", length(Fraction("25.4"))),  # exactly an inch
        ("45 deg * 2", Quantity(Fraction(90), Dimension.ANGLE)),
        ("larger of 1 in and 2.5 cm", length(Fraction("25.4"))),
        ("smaller of 1 in and 2.5 cm", length(25)),
        ("larger of 3 cm and 30 mm", length(30)),
        ("smaller of -2 and -3", number(-3)),
        ("larger of 1 cm + 1 cm and 2 * 15 mm", length(30)),
    ],
)
def test_arithmetic(text: str, worked_out: Quantity) -> None:
    assert work_out(text) == worked_out


@pytest.mark.parametrize(
    ("text", "worked_out"),
    [
        ("20 cm / 2 / 2", length(50)),
        ("10 cm / 4 / 2", length(Fraction("12.5"))),
        ("4 cm / 2.5", length(16)),
        ("10 cm / 2½", length(40)),
        ("6 cm / (1/2)", length(120)),
        ("1/2 * 6 cm", length(30)),
        ("3 / 4 * 8 cm", length(60)),
    ],
)
def test_spaces_part_a_division_from_a_fraction(text: str, worked_out: Quantity) -> None:
    assert work_out(text) == worked_out


def test_a_row_of_hundreds_of_terms_is_worked_out() -> None:
    assert work_out("1+" * 240 + "1") == number(241)


def test_names_and_questions_are_answered_by_whoever_knows() -> None:
    book = Book(
        measures=(("turning gap", length(90)), ("snap.across", length(18))),
        answers=(
            ("length lining.base", length(159)),
            ("distance body.snap body.top edge", length(45)),
            ("width body", length(215)),
        ),
    )
    assert work_out("(length of lining.base - turning gap) / 2", book) == length(Fraction("34.5"))
    assert work_out("distance from body.snap to body.top edge - snap.across / 2", book) == length(36)
    assert work_out("larger of width of body and 20 cm", book) == length(215)


@pytest.mark.parametrize(
    ("marked", "says"),
    [
        ("10 cm «+» 3", "a length cannot be added to a number"),
        ("3 «+» 10 cm", "a number cannot be added to a length"),
        ("10 cm «-» 3", "a number cannot be taken from a length"),
        ("1 cm * 2 cm «+» 1 cm", "an area cannot be added to a length"),
        ("1 cm * 2 cm «*» 3 cm", "an area cannot be multiplied by a length"),
        ("(2) «/» 3 cm", "a number cannot be divided by a length"),
        ("1 cm «/» (1 cm * 1 cm)", "a length cannot be divided by an area"),
        ("45 deg «*» 1 cm", "an angle cannot be multiplied by a length"),
        ("45 deg «-» 1 cm", "a length cannot be taken from an angle"),
        ("2 * (1 cm + 2 * (3 mm «−» 1)) + 1", "a number cannot be taken from a length"),
        ("1 cm + «larger of» 2 and 2 cm", "cannot be compared with"),
        ("«smaller  of» 2 cm and 1 cm * 1 cm", "cannot be compared with"),
    ],
)
def test_what_does_not_go_together_is_told_at_the_sign(marked: str, says: str) -> None:
    text, place = unmarked(marked)
    finding = refusal(text)
    assert finding.name == "wrong-dimension"
    assert finding.place == place
    assert says in finding.says
    assert finding.mend == "look at the units on both sides of the sign: 10 cm + 5 mm, 2 * depth"


@pytest.mark.parametrize("marked", ["10 cm «/» 0", "10 cm «/» (2 - 2)", "2 cm «÷» (1 in - 25.4 mm)", "2 + (3) «/» 0"])
def test_nothing_is_divided_by_nought(marked: str) -> None:
    text, place = unmarked(marked)
    finding = refusal(text)
    assert (finding.place, finding.says) == (place, "this divides by nought")


@pytest.mark.parametrize(
    "marked",
    [
        "100001 «*» 10000",
        "-100001 «*» 10000",
        "999999999 «+» 2",
        "1000 m «*» 1001 mm",  # 1 001 000 000 mm²
        "1/999999999 * 1/999999999 «*» 1/2",  # nearly 10¹⁸ twice over below the bar
    ],
)
def test_what_grows_beyond_all_sewing_is_told(marked: str) -> None:
    """No measure goes beyond 10⁹, nor a fraction into parts finer than 10¹⁸: it would only eat time."""
    text, place = unmarked(marked)
    finding = refusal(text)
    assert (finding.place, finding.says) == (place, "this grows beyond anything that is sewn")


def test_what_is_just_within_the_bounds_is_worked_out() -> None:
    assert work_out("100000 * 10000") == number(10**9)
    assert work_out("1/999999999 * 1/999999999") == number(Fraction(1, 999_999_999**2))


# Random formulas, worked out a second time without the product: an amount and a power of lengths
# (0 a number, 1 a length, 2 an area).

Worked = tuple[Fraction, int]


class Refused(Exception):
    """What the maker has to be told."""


class Node:
    """A part of a formula: how it is written, and what it comes to."""

    def text(self) -> str:
        raise NotImplementedError

    def worked(self) -> Worked:
        raise NotImplementedError


@dataclass(frozen=True)
class Leaf(Node):
    """A number, a length or a name."""

    written: str
    amount: Fraction
    power: int

    def text(self) -> str:
        return self.written

    def worked(self) -> Worked:
        return self.amount, self.power


@dataclass(frozen=True)
class Minus(Node):
    """A sign before a term."""

    of: Node

    def text(self) -> str:
        return f"-{_in_brackets(self.of)}"

    def worked(self) -> Worked:
        amount, power = self.of.worked()
        return -amount, power


@dataclass(frozen=True)
class Which(Node):
    """The larger or the smaller of two."""

    what: str
    left: Node
    right: Node

    def text(self) -> str:
        return f"({self.what} of {self.left.text()} and {self.right.text()})"

    def worked(self) -> Worked:
        (left, power), (right, other) = self.left.worked(), self.right.worked()
        if power != other:
            raise Refused("compared")
        return (max if self.what == "larger" else min)(left, right), power


@dataclass(frozen=True)
class Both(Node):
    """Two sides and a sign."""

    left: Node
    sign: str
    right: Node

    def text(self) -> str:
        """No more brackets than needed; a fraction that divides stands in brackets, for it could be read two ways."""
        closes = self.sign in "*/"
        left = _in_brackets(self.left) if closes and _adds(self.left) else self.left.text()
        if self.sign == "/" and re.match(r"\d+[/⁄]", self.right.text()):
            return f"{left} / ({self.right.text()})"
        inner = _adds(self.right) or (closes and isinstance(self.right, Both))
        return f"{left} {self.sign} {_in_brackets(self.right) if inner else self.right.text()}"

    def worked(self) -> Worked:
        (left, power), (right, other) = self.left.worked(), self.right.worked()
        if self.sign in "+-":
            if power != other:
                raise Refused("added" if self.sign == "+" else "taken")
            return _within_bounds(left + right if self.sign == "+" else left - right), power
        if self.sign == "*":
            if power + other > 2:
                raise Refused("multiplied")
            return _within_bounds(left * right), power + other
        if power < other:
            raise Refused("divided")
        if right == 0:
            raise Refused("nought")
        return _within_bounds(left / right), power - other


def _adds(node: Node) -> bool:
    return isinstance(node, Both) and node.sign in "+-"


def _in_brackets(node: Node) -> str:
    return f"({node.text()})" if isinstance(node, Both) else node.text()


def _within_bounds(amount: Fraction) -> Fraction:
    if abs(amount) > 10**9 or amount.denominator > 10**18:
        raise Refused("beyond")
    return amount


MILLIMETRES = {"mm": "1", "cm": "10", "m": "1000", "in": "25.4", '"': "25.4", "ft": "304.8", "yd": "914.4"}
NAMES = (
    Leaf("width", Fraction(165), 1),
    Leaf("lid.across", Fraction("50.8"), 1),
    Leaf("beads", Fraction(7), 0),
    Leaf("nothing", Fraction(0), 1),
)
BOOK = Book(tuple((leaf.written, (length if leaf.power else number)(leaf.amount)) for leaf in NAMES))


@st.composite
def leaves(draw: st.DrawFn) -> Leaf:
    if draw(st.booleans()):
        return draw(st.sampled_from(NAMES))
    whole, above, below = draw(st.integers(0, 40)), draw(st.integers(0, 9)), draw(st.sampled_from([2, 3, 4, 8, 10]))
    text, amount = draw(
        st.sampled_from(
            [
                (f"{whole}", Fraction(whole)),
                (f"{whole}.{above}", whole + Fraction(above, 10)),
                (f"{above}/{below}", Fraction(above, below)),
                (f"{whole} {above}/{below}", whole + Fraction(above, below)),
                (f"{whole}½", whole + Fraction(1, 2)),
            ]
        )
    )
    unit = draw(st.sampled_from(["", *MILLIMETRES]))
    return Leaf(f"{text} {unit}".strip(), amount * Fraction(MILLIMETRES.get(unit, "1")), 1 if unit else 0)


def _grown(parts: st.SearchStrategy[Node]) -> st.SearchStrategy[Node]:
    return st.one_of(
        st.builds(Both, parts, st.sampled_from("+-*/"), parts),
        st.builds(Both, parts, st.sampled_from("+-*/"), parts),
        st.builds(Minus, parts),
        st.builds(Which, st.sampled_from(["larger", "smaller"]), parts, parts),
    )


formulas: st.SearchStrategy[Node] = st.recursive(leaves(), _grown, max_leaves=10)
WORDS = {
    "compared": "cannot be compared with",
    "added": "cannot be added to",
    "taken": "cannot be taken from",
    "multiplied": "cannot be multiplied by",
    "divided": "cannot be divided by",
    "nought": "this divides by nought",
    "beyond": "this grows beyond anything that is sewn",
}


@settings(max_examples=500, deadline=None)
@given(formulas)
@example(Both(Both(NAMES[0], "-", NAMES[1]), "-", Both(NAMES[1], "-", NAMES[3])))
@example(Both(NAMES[0], "/", Both(NAMES[1], "-", NAMES[1])))
def test_any_formula_comes_to_what_fractions_come_to(formula: Node) -> None:
    text, refused = formula.text(), ""
    try:
        amount, power = formula.worked()
    except Refused as reason:
        refused = str(reason)
    if not refused:
        dimension = (Dimension.NUMBER, Dimension.LENGTH, Dimension.AREA)[power]
        assert work_out(text, BOOK) == Quantity(amount, dimension)
        return
    finding = refusal(text, BOOK)
    assert WORDS[refused] in finding.says
    assert finding.place is not None
    assert at_place(text, finding.place) in ("+", "-", "*", "/", "larger of", "smaller of")


# What a length given for the other system becomes; the steps are those of tests/terms/test_rounding.py.


def _literal(text: str) -> Literal:
    formula: Formula = parse_formula(written(text))
    assert isinstance(formula, Literal)
    return formula


@pytest.mark.parametrize(
    ("text", "inch", "metric"),
    [
        ("3/8 in", "9.525", "10"),
        ('2 1/4"', "57.15", "57"),
        ("2 1/4″", "57.15", "57"),
        ("1 inch", "25.4", "25"),
        ("12 inches", "304.8", "305"),  # to 5 mm from 30 cm
        ("1 ft", "304.8", "305"),
        ("1/8 yd", "114.3", "114"),
        ("1 yard", "914.4", "915"),
        ("2 yards", "1828.8", "1830"),  # to 1 cm from 1 m
        ("1 cm", "9.525", "10"),  # 3.15 eighths
        ("1,7 cm", "15.875", "17"),  # 5.35 eighths
        ("5 mm", "6.35", "5"),  # 1.57 eighths
        ("1.2 m", "1200.15", "1200"),  # 377.95 eighths
    ],
)
def test_a_literal_of_the_other_system_is_rounded(text: str, inch: str, metric: str) -> None:
    eighth = Fraction(1, 8)
    assert native_literal(_literal(text), INCH, eighth) == length(Fraction(inch))
    assert native_literal(_literal(text), METRIC, eighth) == length(Fraction(metric))


def test_a_literal_is_rounded_to_sixteenths_where_that_is_declared() -> None:
    assert native_literal(_literal("5 mm"), INCH, Fraction(1, 16)) == length(Fraction("4.7625"))  # 3.15 sixteenths


@pytest.mark.parametrize("text", ["3", "2 1/3", "45 deg"])
def test_what_is_no_length_belongs_to_both_systems(text: str) -> None:
    literal = _literal(text)
    for units in UnitSystem:
        assert native_literal(literal, units, Fraction(1, 8)) == literal.quantity


MEASURES = """\
measures:
  allowance twice: 2 * 3/8 in
  pair: 4 in | 10 cm
  mixed: pair + 1 in - 5 mm
  part: larger of pair / 3 and 1 cm
pieces:
  panel:
    rectangle: 10 cm by 10 cm
    copies:
      only: canvas
"""


def test_every_literal_is_rounded_by_itself_and_what_comes_of_it_is_exact() -> None:
    inch, unread = draft_text(MEASURES, units=INCH)
    metric, _ = draft_text(MEASURES, units=METRIC)
    assert unread == ()
    assert dict(inch.measures) == {
        "allowance twice": length(Fraction("19.05")),
        "pair": length(Fraction("101.6")),
        "mixed": length(Fraction("120.65")),  # 4 + 1 - 1/4 in, for 5 mm are two eighths
        "part": length(Fraction("101.6") / 3),
    }
    assert dict(metric.measures) == {
        "allowance twice": length(20),  # 3/8 in are 10 mm
        "pair": length(100),
        "mixed": length(120),  # 100 + 25 - 5
        "part": length(Fraction(100, 3)),
    }


def test_lengths_come_out_in_sixteenths_where_the_pattern_says_so() -> None:
    draft, _ = draft_text(f"inch rounding: 1/16\n{MEASURES}", units=INCH)
    assert dict(draft.measures)["mixed"] == length(Fraction("122.2375"))  # 4 + 1 - 3/16 in


def test_a_measure_that_does_not_go_together_is_told_in_its_line() -> None:
    pattern = MEASURES.replace("pair / 3 and 1 cm", "pair / 3 and 1")
    draft, findings = draft_text(pattern, units=METRIC)
    told = found(tuple(finding for finding in findings if finding.variants[0].units is METRIC), "wrong-dimension")
    assert told.place is not None
    assert (told.place.line, told.place.column) == (pattern_line(pattern, "part:"), len("  part: ") + 1)
    assert [name for name, _ in draft.measures] == ["allowance twice", "pair", "mixed"]
