"""Lengths in findings, in the units of the variant that they were found in."""

import pytest

from publisher.terms import Finding, Severity, UnitSystem, Variant, of_variant, tell_length


@pytest.mark.parametrize(
    ("millimetres", "inches"),
    [
        (25.4, "1 in (25.4 mm)"),
        (9.525, "3/8 in (9.5 mm)"),
        (0.0, "0 in (0.0 mm)"),
        (40.0, "1 37/64 in (40.0 mm)"),
        (-6.35, "-1/4 in (-6.3 mm)"),
        (-31.75, "-1 1/4 in (-31.8 mm)"),
        (-50.8, "-2 in (-50.8 mm)"),
    ],
)
def test_inches_are_told_in_sixty_fourths_with_the_millimetres(millimetres: float, inches: str) -> None:
    assert tell_length(millimetres, UnitSystem.INCH) == inches
    assert tell_length(millimetres, UnitSystem.METRIC) == f"{millimetres:.1f} mm"


def test_what_the_maker_wrote_in_quotes_stays_as_it_is() -> None:
    found = Finding("no-length", Severity.ERROR, None, "'5 mm' of 'flap' is 25.4 mm long", "make it longer")
    inch, metric = Variant(UnitSystem.INCH, None), Variant(UnitSystem.METRIC, None)
    assert of_variant(found, inch).says == "'5 mm' of 'flap' is 1 in (25.4 mm) long"
    assert of_variant(found, metric).says == found.says
    assert of_variant(found, inch).variants == (inch,)
