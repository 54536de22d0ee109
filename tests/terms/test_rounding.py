"""Lengths rounded, converted and printed in both systems, with numbers done by hand."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from publisher.terms import (
    Dimension,
    NumberStyle,
    Quantity,
    UnitSystem,
    conversion_error,
    convert_length,
    length,
    long_cut_step,
    number,
    print_cloth,
    print_decimal,
    print_fine_length,
    print_length,
    print_quantity,
    read_length,
    round_cut,
    round_length,
    round_long_cut,
    round_off_a_tape,
    round_up_to_step,
    selling_step,
)
from publisher.terms.rounding import print_fraction

INCH, METRIC = UnitSystem.INCH, UnitSystem.METRIC
SIXTEENTH = Fraction(1, 16)
COMMA = NumberStyle(decimal_sign=",")


def _typed(printed: str) -> str:
    """What is printed, with the no-break spaces as one types them."""
    return printed.replace("\N{NO-BREAK SPACE}", " ")


def test_fraction_slash_and_no_break_spaces() -> None:
    assert print_length(length(Fraction("57.15")), INCH) == "2\u00a01\u20444\u00a0in"
    assert print_length(length(Fraction("9.525")), INCH) == "3\u20448\u00a0in"
    assert print_length(length(25), METRIC) == "2.5\u00a0cm"
    assert print_cloth(length(Fraction("1257.3")), INCH) == "1\u00a03\u20448\u00a0yd"
    assert print_cloth(length(1200), METRIC) == "1.2\u00a0m"


@pytest.mark.parametrize(
    ("written", "inch", "metric"),
    [
        ("2 1/4 in", "2 1⁄4 in", "5.7 cm"),  # 57.15
        ("3/8 in", "3⁄8 in", "1 cm"),  # 9.525, which rounds to 10
        ("1/8 in", "1⁄8 in", "3 mm"),
        ("1/16 in", "1⁄8 in", "2 mm"),  # half of an eighth goes up; 1.5875
        ("1/32 in", "1⁄32 in", "1 mm"),  # what rounds to nought is told to 1/32
        ("3/32 in", "1⁄8 in", "2 mm"),
        ("5 in", "5 in", "12.7 cm"),
        ("3 mm", "1⁄8 in", "3 mm"),  # 0.118 in
        ("9 mm", "3⁄8 in", "9 mm"),
        ("9.5 mm", "3⁄8 in", "1 cm"),
        ("10 mm", "3⁄8 in", "1 cm"),
        ("25 mm", "1 in", "2.5 cm"),
        ("12.4 mm", "1⁄2 in", "1.2 cm"),
        ("12.5 mm", "1⁄2 in", "1.3 cm"),
        ("1 m", "39 3⁄8 in", "100 cm"),  # 39.37
        ("0 mm", "0 in", "0 mm"),
    ],
)
def test_a_length_is_printed_in_both_systems(written: str, inch: str, metric: str) -> None:
    assert _typed(print_length(read_length(written), INCH)) == inch
    assert _typed(print_length(read_length(written), METRIC)) == metric


def test_a_length_is_printed_to_sixteenths_where_that_is_declared() -> None:
    assert _typed(print_length(read_length("2 3/16 in"), INCH, inch_step=SIXTEENTH)) == "2 3⁄16 in"
    assert _typed(print_length(read_length("2 3/16 in"), INCH)) == "2 1⁄4 in"


def test_a_length_below_nought_has_a_true_minus() -> None:
    assert _typed(print_length(length(-25), METRIC)) == "−2.5 cm"
    assert _typed(print_length(-read_length("1 1/2 in"), INCH)) == "−1 1⁄2 in"


def test_the_decimal_sign_is_the_language_s() -> None:
    assert _typed(print_length(length(25), METRIC, COMMA)) == "2,5 cm"
    assert _typed(print_cloth(length(1200), METRIC, COMMA)) == "1,2 m"


@pytest.mark.parametrize(
    ("written", "inch", "metric"),
    [
        ("3/8 yd", "3⁄8 yd", "34 cm"),  # 342.9
        ("1 1/4 yd", "1 1⁄4 yd", "1.1 m"),  # 1143
        ("1/2 yd", "1⁄2 yd", "46 cm"),
        ("1 yd", "1 yd", "91 cm"),
        ("30 cm", "3⁄8 yd", "30 cm"),  # 0.328 yd
        ("90 cm", "1 yd", "90 cm"),
        ("1 m", "1 1⁄8 yd", "1 m"),  # 1.094 yd
        ("1.2 m", "1 1⁄4 yd", "1.2 m"),  # 1.3123 yd, 10.499 eighths
    ],
)
def test_cloth_is_printed_in_both_systems(written: str, inch: str, metric: str) -> None:
    assert _typed(print_cloth(read_length(written), INCH)) == inch
    assert _typed(print_cloth(read_length(written), METRIC)) == metric


def test_thirty_six_inches_are_ninety_one_centimetres() -> None:
    """U9 (NIST LC 1137, read at a secondary source): 36 in is told as 91 cm, not 91.44."""
    assert _typed(print_cloth(read_length("36 in"), METRIC)) == "91 cm"


def test_forty_and_a_tenth_inches_keep_one_decimal() -> None:
    """U10 (NIST LC 1137, read at a secondary source): 40.1 in is told as 101.9 cm, not 101.854."""
    assert _typed(print_length(read_length("40.1 in"), METRIC)) == "101.9 cm"


@pytest.mark.parametrize(
    ("millimetres", "inch", "metric"),
    [
        ("10.4", "9.525", "10"),
        ("10.5", "9.525", "11"),  # a half goes up
        ("-10.5", "-9.525", "-11"),  # … away from nought
        ("1.5874", "0", "2"),  # just under 1/16 in
        ("1.5875", "3.175", "2"),  # 1/16 in, the half of the step
        ("57.15", "57.15", "57"),
    ],
)
def test_rounding_to_the_step(millimetres: str, inch: str, metric: str) -> None:
    written = length(Fraction(millimetres))
    assert round_length(written, INCH).amount == Fraction(inch)
    assert round_length(written, METRIC).amount == Fraction(metric)
    assert round_cut(written, INCH) == round_length(written, INCH)
    assert round_cut(written, METRIC) == round_length(written, METRIC)


@pytest.mark.parametrize(
    ("written", "units", "converted"),
    [
        ("3/8 in", METRIC, "10 mm"),  # 9.525
        ("1/4 in", METRIC, "6 mm"),  # 6.35
        ("11 3/4 in", METRIC, "298 mm"),  # 298.45: still below 30 cm
        ("12 in", METRIC, "305 mm"),  # 304.8, to 5 mm
        ("12 1/4 in", METRIC, "310 mm"),  # 311.15, to 5 mm
        ("1 yd", METRIC, "915 mm"),  # 914.4, to 5 mm
        ("40 in", METRIC, "1020 mm"),  # 1016, to 1 cm
        ("1/64 in", METRIC, "0.5 mm"),  # 0.396875: the half millimetre saves it from nought
        ("1 cm", INCH, "3/8 in"),  # 3.15 eighths
        ("16.5 cm", INCH, "6 1/2 in"),  # 51.97 eighths
        ("3 mm", INCH, "1/8 in"),
        ("1 mm", INCH, "1/16 in"),  # 0.315 of an eighth is nought, 0.63 of a sixteenth is one
        ("0.5 mm", INCH, "1/32 in"),  # 0.31 of a sixteenth is nought, 0.63 of 1/32 is one
        ("0.1 mm", INCH, "0.1 mm"),  # shown on no ruler: it stays as it is
    ],
)
def test_a_length_of_the_other_system_is_converted(written: str, units: UnitSystem, converted: str) -> None:
    assert convert_length(read_length(written), units) == read_length(converted)


def test_the_error_of_a_conversion_is_a_part_of_the_length() -> None:
    assert conversion_error(read_length("3/8 in"), METRIC) == Fraction(475, 9525)  # 0.475 of 9.525 mm
    assert conversion_error(read_length("5 cm"), METRIC) == 0
    assert conversion_error(length(0), INCH) == 0


@pytest.mark.parametrize(
    ("needed", "inch", "metric"),
    [
        ("0 mm", "0 mm", "0 mm"),
        ("1 mm", "1/8 yd", "10 cm"),
        ("114.3 mm", "1/8 yd", "20 cm"),
        ("114.4 mm", "1/4 yd", "20 cm"),
        ("300 mm", "3/8 yd", "30 cm"),
        ("300.0009 mm", "3/8 yd", "30 cm"),  # less than a thousandth buys nothing
        ("300.002 mm", "3/8 yd", "40 cm"),
    ],
)
def test_cloth_is_bought_up_to_the_next_step(needed: str, inch: str, metric: str) -> None:
    assert round_up_to_step(read_length(needed), INCH) == read_length(inch)
    assert round_up_to_step(read_length(needed), METRIC) == read_length(metric)


def test_cloth_is_sold_by_the_eighth_of_a_yard_and_by_ten_centimetres() -> None:
    """U8 (derived, not published): 1/8 yd = 4.5 in."""
    assert selling_step(INCH) == read_length("4.5 in")
    assert selling_step(METRIC) == read_length("10 cm")


@pytest.mark.parametrize(
    ("quantity", "inch", "metric"),
    [
        (length(25), "1 in", "2.5 cm"),
        (number(3), "3", "3"),
        (number(Fraction(5, 2)), "2 1⁄2", "2.5"),
        (number(Fraction(-5, 2)), "−2 1⁄2", "−2.5"),
        (number(Fraction(2, 3)), "0.7", "0.7"),
        (Quantity(Fraction(45), Dimension.ANGLE), "45°", "45°"),
    ],
)
def test_a_quantity_is_printed_after_its_kind(quantity: Quantity, inch: str, metric: str) -> None:
    assert _typed(print_quantity(quantity, INCH)) == inch
    assert _typed(print_quantity(quantity, METRIC)) == metric


@pytest.mark.parametrize(
    ("millimetres", "inch", "metric"),
    [
        ("0", "0 in", "0 mm"),
        ("0.3", "0 in", "0.5 mm"),
        ("7.5", "5/16 in", "7.5 mm"),
        ("42.426", "1 11/16 in", "4.25 cm"),
        ("57.15", "2 1/4 in", "5.7 cm"),
        ("165", "6 1/2 in", "16.5 cm"),
        ("165.3", "6 1/2 in", "16.55 cm"),
        ("-20", "−13/16 in", "−2 cm"),
    ],
)
def test_lengths_to_draw_by(millimetres: str, inch: str, metric: str) -> None:
    """42.426 mm: 26.7 sixteenths, 84.85 half millimetres. 57.15: 114.3. 165.3: 104.1 and 330.6. 0.3: 0.19 and 0.6."""
    assert _typed(print_fine_length(length(Fraction(millimetres)), INCH)) == inch.replace("/", "⁄")
    assert _typed(print_fine_length(length(Fraction(millimetres)), METRIC)) == metric


def test_an_area_is_not_printed() -> None:
    with pytest.raises(ValueError, match="an area has no place in the text"):
        print_quantity(length(2) * length(3), METRIC)


@given(st.integers(0, 4000), st.sampled_from([Fraction(1, 8), SIXTEENTH]))
def test_inches_printed_and_read_again_are_the_same(steps: int, step: Fraction) -> None:
    printable = length(steps * step * Fraction("25.4"))
    assert read_length(_typed(print_length(printable, INCH, inch_step=step))) == printable


@given(st.integers(0, 100_000), st.sampled_from([NumberStyle(), COMMA]))
def test_millimetres_printed_and_read_again_are_the_same(millimetres: int, style: NumberStyle) -> None:
    assert read_length(print_length(length(millimetres), METRIC, style)) == length(millimetres)


@given(st.integers(0, 400))
def test_cloth_printed_and_read_again_is_the_same(steps: int) -> None:
    for units in UnitSystem:
        bought = length(steps * selling_step(units).amount)
        assert read_length(_typed(print_cloth(bought, units))) == bought


@given(st.fractions(0, 3000), st.sampled_from(UnitSystem))
def test_rounding_moves_a_length_by_half_a_step_at_most_and_only_once(amount: Fraction, units: UnitSystem) -> None:
    step = Fraction("3.175") if units is INCH else Fraction(1)
    rounded = round_length(length(amount), units)
    assert abs(rounded.amount - amount) <= step / 2
    assert (rounded.amount / step).denominator == 1
    assert round_length(rounded, units) == rounded


@given(st.fractions(0, 30_000), st.sampled_from(UnitSystem))
def test_bought_cloth_is_enough_and_not_a_step_too_much(amount: Fraction, units: UnitSystem) -> None:
    bought, step = round_up_to_step(length(amount), units), selling_step(units)
    assert amount - Fraction(1, 1000) <= bought.amount < amount + step.amount
    assert (bought / step).amount.denominator == 1


@pytest.mark.parametrize(
    ("amount", "decimal", "fraction"), [("-3/2", "−1.5", "−1 1⁄2"), ("-1/4", "−0.3", "−1⁄4"), ("-3", "−3", "−3")]
)
def test_below_nought_whole_and_rest_stay_together(amount: str, decimal: str, fraction: str) -> None:
    assert print_decimal(Fraction(amount), 1, NumberStyle()) == decimal
    assert _typed(print_fraction(Fraction(amount))) == fraction


@pytest.mark.parametrize(
    ("written", "inch", "metric"),
    [
        ("178.7 cm", "70 1/2 in", "179 cm"),  # 70.35 in
        ("50 cm", "19 3/4 in", "50 cm"),  # 19.69 in
        ("49.6 cm", "19 3/4 in", "50 cm"),  # 19.53 in
        ("49.1 cm", "19 1/2 in", "49.5 cm"),  # 19.33 in
        ("30 cm", "11 3/4 in", "30 cm"),  # short in inches, 11.81: as any cut, to the nearest 1/8
        ("29.91 cm", "11 3/4 in", "29.9 cm"),  # short in both: the nearest, down
        ("12 1/16 in", "12 1/4 in", "31 cm"),  # 30.64 cm
        ("66.0001 cm", "26 in", "66 cm"),  # a hair takes no other step
    ],
)
def test_a_long_strip_is_cut_up_to_a_rounder_length(written: str, inch: str, metric: str) -> None:
    for units, cut in ((INCH, inch), (METRIC, metric)):
        assert round_long_cut(read_length(written), units) == read_length(cut)


@pytest.mark.parametrize(
    ("written", "inch", "metric"),
    [
        ("332.6 cm", "131 in", "333 cm"),  # 130.94 in
        ("40 1/8 in", "40 1/4 in", "102 cm"),  # 101.9 cm
        ("79.6 cm", "31 3/8 in", "79.6 cm"),  # short: as any length; 31.34 in
    ],
)
def test_a_tape_shows_a_long_length_in_coarser_steps(written: str, inch: str, metric: str) -> None:
    for units, shown in ((INCH, inch), (METRIC, metric)):
        assert round_off_a_tape(read_length(written), units) == read_length(shown)


@given(st.fractions(1, 4000), st.sampled_from(UnitSystem))
def test_a_long_cut_is_never_shorter_and_lies_in_its_step(amount: Fraction, units: UnitSystem) -> None:
    written = length(amount)
    cut = round_long_cut(written, units)
    long = 304.8 if units is INCH else 300
    assert cut.amount % long_cut_step(written, units).amount == 0
    assert amount < long or 0 <= cut.amount - amount + Fraction(1, 1000) < 10
