"""The table by which a reader mends a page that was printed too large or too small, as text."""

from dataclasses import replace
from fractions import Fraction

from publisher.edition.words import Speaker
from publisher.frozen import dataclass
from publisher.tables import printer_scales
from publisher.terms import UnitSystem


@dataclass(frozen=True, slots=True)
class ScaleLine:
    """A side measured on paper, and what to print at to make it true."""

    measured: str
    percent: str


def scale_lines(units: UnitSystem, speak: Speaker) -> tuple[ScaleLine, ...]:
    """In sixteenths of an inch or in millimetres, whatever the pattern rounds its own lengths to."""
    fine = replace(speak, inch_step=Fraction(1, 16))
    return tuple(
        ScaleLine(fine.length(one.measured), speak.say("before.percent", percent=speak.decimal(one.percent)))
        for one in printer_scales(units)
    )
