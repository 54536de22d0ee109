"""What to print at when the large square did not come out true: from the side measured to a percentage."""

from fractions import Fraction

from publisher.tables.values import PrinterScale
from publisher.terms import Quantity, UnitSystem, length

INCH = Fraction(254, 10)
# The side of the large square, mm.
LARGE_SQUARE = {UnitSystem.INCH: length(2 * INCH), UnitSystem.METRIC: length(50)}
# The step of the reader's ruler, mm, and how many of them either way: some 8 per cent. A page that is further out was
# made to fit another paper, and no percentage mends it.
STEPS = {UnitSystem.INCH: (INCH / 16, 3), UnitSystem.METRIC: (Fraction(1), 4)}


def large_square(units: UnitSystem) -> Quantity:
    """The side of the large square by which a reader of this unit system checks: 2 in, 5 cm."""
    return LARGE_SQUARE[units]


def printer_scales(units: UnitSystem) -> tuple[PrinterScale, ...]:
    """From the smallest side to the largest, the true one left out: 100 × true side / measured side, exact."""
    side, (step, steps) = LARGE_SQUARE[units].amount, STEPS[units]
    measured = [side + step * at for at in range(-steps, steps + 1) if at]
    return tuple(PrinterScale(length(one), 100 * side / one) for one in measured)
