"""From the measured side of a square to the percentage to print at, by numbers worked out on paper."""

from fractions import Fraction

import pytest

from publisher.edition import set_edition
from publisher.tables import large_square, printer_scales
from publisher.template_pages import Edition, Paper
from publisher.terms import UnitSystem
from tests.demo import demo_proof

INCH = Fraction(254, 10)


def test_metric_goes_by_millimetres() -> None:
    # 100 × 50 / 46 = 5000 / 46, and so on: the square that came out 46 mm was printed at 92 %.
    rows = printer_scales(UnitSystem.METRIC)
    assert [row.measured.amount for row in rows] == [46, 47, 48, 49, 51, 52, 53, 54]
    assert [row.percent for row in rows] == [Fraction(5000, side) for side in (46, 47, 48, 49, 51, 52, 53, 54)]


def test_inch_goes_by_sixteenths() -> None:
    # 2 in are 32/16; a side of 29/16 in wants 100 × 32/29 per cent.
    rows = printer_scales(UnitSystem.INCH)
    assert [row.measured.amount / INCH for row in rows] == [Fraction(n, 16) for n in (29, 30, 31, 33, 34, 35)]
    assert [row.percent for row in rows] == [Fraction(3200, n) for n in (29, 30, 31, 33, 34, 35)]


@pytest.mark.parametrize("units", UnitSystem)
def test_printed_again_at_that_percentage_the_side_is_true(units: UnitSystem) -> None:
    for row in printer_scales(units):
        assert row.measured.amount * row.percent / 100 == large_square(units).amount


@pytest.mark.parametrize(
    ("edition", "measured", "percent", "square"),
    [
        (
            Edition(UnitSystem.METRIC, Paper.A4),
            "4.6 cm|4.7 cm|4.8 cm|4.9 cm|5.1 cm|5.2 cm|5.3 cm|5.4 cm",
            # 108.70 106.38 104.17 102.04 98.04 96.15 94.34 92.59
            "108.7 %|106.4 %|104.2 %|102 %|98 %|96.2 %|94.3 %|92.6 %",
            "a side of the 5 cm square",
        ),
        (
            Edition(UnitSystem.INCH, Paper.LETTER),
            "1 13⁄16 in|1 7⁄8 in|1 15⁄16 in|2 1⁄16 in|2 1⁄8 in|2 3⁄16 in",
            # 110.34 106.67 103.23 96.97 94.12 91.43
            "110.3 %|106.7 %|103.2 %|97 %|94.1 %|91.4 %",
            "a side of the 2 in square",
        ),
    ],
)
def test_the_edition_prints_the_table(edition: Edition, measured: str, percent: str, square: str) -> None:
    html = set_edition(demo_proof(), edition).html.replace("\N{NO-BREAK SPACE}", " ")
    assert square in html
    for row in (measured, percent):
        places = [html.index(f">{cell}</t") for cell in row.split("|")]
        assert places == sorted(places)
