"""Lengths as people write them, read exactly; refusals with plain reasons; quantities that go together or do not."""

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from publisher.terms import UNITS, Dimension, DimensionError, Quantity, length, number, read_amount, read_length

INCH = Fraction(254, 10)


@pytest.mark.parametrize(
    ("text", "millimetres"),
    [
        ("2 1/4 in", "57.15"),  # 2.25 × 25.4
        ("2 1⁄4 in", "57.15"),  # with the fraction slash of a printed page
        ("2  1/4 in", "57.15"),
        ("2¼ in", "57.15"),
        ("2 ¼ in", "57.15"),
        ("2¼in", "57.15"),
        ('2.25"', "57.15"),
        ("2.25″", "57.15"),
        ("2.25 inch", "57.15"),
        ("2.25 inches", "57.15"),
        ("2,25 in", "57.15"),
        ("9/4 in", "57.15"),
        ("½ in", "12.7"),
        ("⅜ in", "9.525"),
        ("⅔ yd", "609.6"),
        ("  3/8 in ", "9.525"),
        ("57 mm", "57"),
        ("57mm", "57"),
        ("5.7 cm", "57"),
        ("5,7 cm", "57"),
        ("0.057 m", "57"),
        ("57\N{NO-BREAK SPACE}mm", "57"),
        ("0 mm", "0"),
        ("1 ft", "304.8"),
        ("1 yd", "914.4"),
        ("1 yard", "914.4"),
        ("1 3/8 yards", "1257.3"),  # 914.4 + 342.9
        ("1/3 yd", "304.8"),
    ],
)
def test_a_length_is_read_exactly(text: str, millimetres: str) -> None:
    assert read_length(text) == Quantity(Fraction(millimetres), Dimension.LENGTH)


def test_a_third_stays_a_third() -> None:
    assert read_length("1/3 in").amount == Fraction(127, 15)  # 25.4 / 3, which no decimal holds


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("57", "'57' has no unit: write mm, cm, m, in or yd behind it"),
        ("2 1/4", "'2 1/4' has no unit: write mm, cm, m, in or yd behind it"),
        ("5,7", "'5,7' has no unit: write mm, cm, m, in or yd behind it"),
        ("½", "'½' has no unit: write mm, cm, m, in or yd behind it"),
        ("", "'' is not a length: write it like 2 1/4 in or 5.7 cm"),
        ("cm", "'cm' is not a length: write it like 2 1/4 in or 5.7 cm"),
        ("long", "'long' is not a length: write it like 2 1/4 in or 5.7 cm"),
        ("3 km", "'3 km' is not a length: write it like 2 1/4 in or 5.7 cm"),
        ("3 CM", "'3 CM' is not a length: write it like 2 1/4 in or 5.7 cm"),
        ("-3 cm", "'-3 cm' is not a length: write it like 2 1/4 in or 5.7 cm"),
        (".5 in", "'.5 in' is not a length: write it like 2 1/4 in or 5.7 cm"),
        ("5. in", "'5. in' is not a length: write it like 2 1/4 in or 5.7 cm"),
        ("1.234,5 mm", "'1.234,5 mm' is not a length: write it like 2 1/4 in or 5.7 cm"),
        ("2 1/4 1/2 in", "'2 1/4 1/2 in' is not a length: write it like 2 1/4 in or 5.7 cm"),
        ("3 cm and a bit", "'3 cm and a bit' is not a length: write it like 2 1/4 in or 5.7 cm"),
        ("1234567890 mm", "'1234567890 mm' is not a length: write it like 2 1/4 in or 5.7 cm"),  # ten digits
        ("1e3 mm", "'1e3 mm' is not a length: write it like 2 1/4 in or 5.7 cm"),
        ("1/0 in", "'1/0' divides by nought"),
        ("2 1/0 in", "'2 1/0' divides by nought"),
    ],
)
def test_what_is_no_length_is_refused_with_a_reason(text: str, reason: str) -> None:
    with pytest.raises(ValueError, match=f"^{re.escape(reason)}$"):
        read_length(text)


@pytest.mark.parametrize(
    ("unit", "millimetres", "source"),
    [
        ("in", "25.4", "U1, GNU units 2.22, definitions.units: inch = 2.54 cm"),
        ("ft", "304.8", "U2, GNU units 2.22, definitions.units: foot = 12 inch"),
        ("yd", "914.4", "U2, GNU units 2.22, definitions.units: yard = 3 ft"),
    ],
)
def test_units_agree_with_the_reference(unit: str, millimetres: str, source: str) -> None:
    assert read_length(f"1 {unit}").amount == Fraction(millimetres), source


def test_a_yard_is_three_feet_and_thirty_six_inches() -> None:
    """U2 (GNU units 2.22): yard = 3 ft, foot = 12 inch."""
    assert read_length("1 yd") == read_length("3 ft") == read_length("36 in")


def test_an_eighth_of_a_yard_is_four_and_a_half_inches() -> None:
    """U8 (derived, not published): 36 / 8 = 4.5."""
    assert read_length("1/8 yd") == read_length("4 1/2 in")


@pytest.mark.parametrize(
    ("fraction", "millimetres"),  # U16 (derived, not published): n / d × 25.4
    [
        ("1/32", "0.79375"),
        ("1/16", "1.5875"),
        ("1/8", "3.175"),
        ("1/4", "6.35"),
        ("3/8", "9.525"),
        ("1/2", "12.7"),
        ("5/8", "15.875"),
        ("3/4", "19.05"),
        ("7/8", "22.225"),
    ],
)
def test_fractions_of_an_inch_agree_with_the_reference(fraction: str, millimetres: str) -> None:
    assert read_length(f"{fraction} in").amount == Fraction(millimetres)


@pytest.mark.parametrize(
    ("fraction", "inches", "millimetres"),  # U17 (derived, not published): n / d × 36 in, × 914.4 mm
    [
        ("1/8", "4.5", "114.3"),
        ("1/4", "9", "228.6"),
        ("1/3", "12", "304.8"),
        ("3/8", "13.5", "342.9"),
        ("1/2", "18", "457.2"),
        ("5/8", "22.5", "571.5"),
        ("2/3", "24", "609.6"),
        ("3/4", "27", "685.8"),
        ("7/8", "31.5", "800.1"),
    ],
)
def test_fractions_of_a_yard_agree_with_the_reference(fraction: str, inches: str, millimetres: str) -> None:
    assert read_length(f"{fraction} yd").amount == Fraction(millimetres)
    assert read_length(f"{fraction} yd") == read_length(f"{inches} in")


@pytest.mark.parametrize(
    ("text", "amount"),
    [
        ("2", Fraction(2)),
        ("2.25", Fraction(9, 4)),
        ("2,25", Fraction(9, 4)),
        ("1/2", Fraction(1, 2)),
        ("2 1/4", Fraction(9, 4)),
        ("2¼", Fraction(9, 4)),
        ("¾", Fraction(3, 4)),
    ],
)
def test_an_amount_without_a_unit(text: str, amount: Fraction) -> None:
    assert read_amount(text) == amount


@given(st.integers(0, 999), st.integers(0, 63), st.integers(1, 64), st.sampled_from(sorted(UNITS)))
def test_whole_and_fraction_add_up_exactly(whole: int, numerator: int, denominator: int, unit: str) -> None:
    expected = (whole + Fraction(numerator, denominator)) * UNITS[unit]
    assert read_length(f"{whole} {numerator}/{denominator} {unit}").amount == expected


@given(st.decimals(0, 9999, places=4), st.sampled_from([".", ","]), st.sampled_from(["mm", "cm", "m", "in", "yd"]))
def test_point_and_comma_say_the_same(decimal: object, sign: str, unit: str) -> None:
    assert read_length(f"{str(decimal).replace('.', sign)} {unit}").amount == Fraction(str(decimal)) * UNITS[unit]


@given(st.one_of(st.text(max_size=20), st.text('0123456789 ,./⁄½¼⅔cminydft"″-', max_size=14)))
def test_any_text_is_a_length_or_refused_with_words(text: str) -> None:
    refused = ""
    try:
        assert read_length(text).dimension is Dimension.LENGTH
    except ValueError as reason:
        refused = str(reason)
    assert not refused or re.search("is not a length|has no unit|divides by nought", refused)


AREA = length(20) * length(30)


def test_quantities_that_go_together() -> None:
    assert length(20) + length(5) == length(25)
    assert length(20) - length(25) == length(-5)
    assert length(20) * number(3) == number(3) * length(20) == length(60)
    assert Quantity(Fraction(600), Dimension.AREA) == AREA
    assert AREA / length(20) == length(30)
    assert length(30) / length(20) == number(Fraction(3, 2))
    assert length(30) / number(4) == length(Fraction(15, 2))
    assert -length(3) == length(-3)
    assert max(length(3), length(2), length(1)) == length(3)


@pytest.mark.parametrize(
    ("sign", "left", "right", "says"),
    [
        ("+", length(1), number(1), "a length cannot be added to a number"),
        ("-", length(1), number(1), "a number cannot be taken from a length"),
        ("<", AREA, length(1), "an area cannot be compared with a length"),
        ("*", AREA, length(1), "an area cannot be multiplied by a length"),
        ("/", number(1), length(1), "a number cannot be divided by a length"),
    ],
)
def test_quantities_that_do_not(sign: str, left: Quantity, right: Quantity, says: str) -> None:
    work = {
        "+": lambda: left + right,
        "-": lambda: left - right,
        "<": lambda: left < right,
        "*": lambda: left * right,
        "/": lambda: left / right,
    }
    with pytest.raises(DimensionError) as refused:
        work[sign]()
    assert str(refused.value) == says


def test_a_length_from_geometry_is_exact_from_the_millionth_of_a_millimetre() -> None:
    assert length(0.1 + 0.2).amount == Fraction(3, 10)
    assert length(1 / 3).amount == Fraction(333_333, 1_000_000)
    assert length(Fraction(1, 3)).mm == pytest.approx(1 / 3)
