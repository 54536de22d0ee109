"""Rounding, in one place: lengths of the other system converted, cut sizes, cloth to buy, and how all are printed."""

from fractions import Fraction

from publisher.frozen import dataclass
from publisher.terms.lengths import Dimension, Quantity
from publisher.terms.variants import UnitSystem

INCH = Fraction(254, 10)
YARD = 36 * INCH
EIGHTH = Fraction(1, 8)
NO_BREAK = "\N{NO-BREAK SPACE}"
FRACTION_SLASH = "\N{FRACTION SLASH}"
# Long pieces in metric are told in half centimetres from 30 cm and whole ones from 1 m: nobody cuts a metre of cloth
# to the millimetre (common practice, no source).
METRIC_STEPS = ((Fraction(1000), Fraction(10)), (Fraction(300), Fraction(5)), (Fraction(0), Fraction(1)))
# Long strips that may be a little longer are measured off in coarser steps: from 30 cm in half centimetres and from 50 cm
# in whole ones, from 12 in in quarters of an inch (rules of the house).
LONG_STEPS = {
    UnitSystem.INCH: ((12 * INCH, INCH / 4),),
    UnitSystem.METRIC: ((Fraction(500), Fraction(10)), (Fraction(300), Fraction(5))),
}


@dataclass(frozen=True, slots=True)
class NumberStyle:
    """What a language decides about numbers."""

    decimal_sign: str = "."


def _step(amount: Fraction, units: UnitSystem, inch_step: Fraction) -> Fraction:
    if units is UnitSystem.INCH:
        return inch_step * INCH
    return next(step for least, step in METRIC_STEPS if abs(amount) >= least)


def _to_step(amount: Fraction, step: Fraction) -> Fraction:
    """The nearest multiple; a half goes up, away from nought."""
    steps = (abs(amount) / step + Fraction(1, 2)).__floor__()
    return (step * steps) if amount >= 0 else -(step * steps)


def round_length(quantity: Quantity, units: UnitSystem, inch_step: Fraction = EIGHTH) -> Quantity:
    """The nearest length that is printed: 1/8 in (or the declared 1/16), whole millimetres."""
    step = inch_step * INCH if units is UnitSystem.INCH else Fraction(1)
    return Quantity(_to_step(quantity.amount, step), Dimension.LENGTH)


def round_cut(quantity: Quantity, units: UnitSystem, inch_step: Fraction = EIGHTH) -> Quantity:
    """The size at which a measured piece is cut: the nearest 1/8 in (or 1/16), the nearest millimetre, halves up.

    Not always up: every seam is proved at this size, and a piece grown at each rounding would grow along a seam.
    """
    return round_length(quantity, units, inch_step)


def long_cut_step(quantity: Quantity, units: UnitSystem, inch_step: Fraction = EIGHTH) -> Quantity:
    """The step in which the length of a strip is measured off: coarser where it is long."""
    finest = inch_step * INCH if units is UnitSystem.INCH else Fraction(1)
    step = next((step for least, step in LONG_STEPS[units] if quantity.amount >= least), finest)
    return Quantity(step, Dimension.LENGTH)


def round_long_cut(quantity: Quantity, units: UnitSystem, inch_step: Fraction = EIGHTH) -> Quantity:
    """How long a strip is cut that may be longer but not shorter: up to the next step of its length.

    What exceeds a step by less than 1/1000 mm takes no other; what is short is rounded as any cut.
    """
    step = long_cut_step(quantity, units, inch_step)
    if quantity.amount < LONG_STEPS[units][-1][0]:
        return round_cut(quantity, units, inch_step)
    return Quantity(-((-(quantity.amount - Fraction(1, 1000))) // step.amount) * step.amount, Dimension.LENGTH)


def round_off_a_tape(quantity: Quantity, units: UnitSystem, inch_step: Fraction = EIGHTH) -> Quantity:
    """What a tape shows of a length that is laid along it: from a metre, or a yard, whole centimetres or quarters of an
    inch; what is shorter as any length."""
    least, step = {UnitSystem.INCH: (YARD, INCH / 4), UnitSystem.METRIC: METRIC_STEPS[0]}[units]
    if quantity.amount < least:
        return round_length(quantity, units, inch_step)
    return Quantity(_to_step(quantity.amount, step), Dimension.LENGTH)


def convert_length(quantity: Quantity, units: UnitSystem, inch_step: Fraction = EIGHTH) -> Quantity:
    """A length written for the other system, at a size that this one's rulers show.

    To 1/8 in (or 1/16), whole mm, 5 mm from 30 cm, 1 cm from 1 m; never to nought: a length too short for the step
    takes the next finer one, and stays exact where none will do.
    """
    steps = [_step(quantity.amount, units, inch_step)]
    steps += (
        [step for step in (INCH / 16, INCH / 32) if step < steps[0]] if units is UnitSystem.INCH else [Fraction(1, 2)]
    )
    for step in steps:
        rounded = _to_step(quantity.amount, step)
        if rounded != 0:
            return Quantity(rounded, Dimension.LENGTH)
    return quantity


def conversion_error(quantity: Quantity, units: UnitSystem, inch_step: Fraction = EIGHTH) -> Fraction:
    """How far convert_length moves a length, as a part of it (0 for nought)."""
    if quantity.amount == 0:
        return Fraction(0)
    return abs(convert_length(quantity, units, inch_step).amount - quantity.amount) / abs(quantity.amount)


def selling_step(units: UnitSystem) -> Quantity:
    """The step in which cloth is sold: 1/8 yd; 10 cm."""
    return Quantity(YARD / 8 if units is UnitSystem.INCH else Fraction(100), Dimension.LENGTH)


def round_up_to_step(quantity: Quantity, units: UnitSystem) -> Quantity:
    """Up to the next selling step; what exceeds a step by less than 1/1000 mm does not buy another."""
    step = selling_step(units).amount
    steps = -((-(quantity.amount - Fraction(1, 1000))) // step)
    return Quantity(step * max(steps, 0), Dimension.LENGTH)


def print_length(
    quantity: Quantity, units: UnitSystem, style: NumberStyle = NumberStyle(), inch_step: Fraction = EIGHTH
) -> str:
    """`2 1⁄4 in`, `3⁄8 in`; `3 mm`, `2.5 cm`: rounded for the system, with real fractions and no-break spaces."""
    rounded = round_length(quantity, units, inch_step).amount
    if rounded == 0 and quantity.amount != 0 and units is UnitSystem.INCH:
        rounded = _to_step(quantity.amount, INCH / 32)
    sign, size = ("−" if rounded < 0 else ""), abs(rounded)
    if units is UnitSystem.INCH:
        return f"{sign}{print_fraction(size / INCH)}{NO_BREAK}in"
    if size < 10:
        return f"{sign}{size}{NO_BREAK}mm"
    return f"{sign}{print_decimal(size / 10, 1, style)}{NO_BREAK}cm"


def fine_step(units: UnitSystem) -> Quantity:
    """The finest step that a reader can measure off a ruler: 1/16 in; 1/2 mm."""
    return Quantity(INCH / 16 if units is UnitSystem.INCH else Fraction(1, 2), Dimension.LENGTH)


def print_fine_length(quantity: Quantity, units: UnitSystem, style: NumberStyle = NumberStyle()) -> str:
    """A length to draw by, to 1/16 in or 1/2 mm: `2 3⁄16 in`; `2.5 mm`, `16.55 cm`."""
    rounded = _to_step(quantity.amount, fine_step(units).amount)
    sign, size = ("−" if rounded < 0 else ""), abs(rounded)
    if units is UnitSystem.INCH:
        return f"{sign}{print_fraction(size / INCH)}{NO_BREAK}in"
    if size < 10:
        return f"{sign}{print_decimal(size, 1, style)}{NO_BREAK}mm"
    return f"{sign}{print_decimal(size / 10, 2, style)}{NO_BREAK}cm"


def print_cloth(quantity: Quantity, units: UnitSystem, style: NumberStyle = NumberStyle()) -> str:
    """A length of cloth to buy: `1 1⁄4 yd`; `30 cm`, from a metre on `1.2 m`."""
    if units is UnitSystem.INCH:
        return f"{print_fraction(_to_step(quantity.amount / YARD, EIGHTH))}{NO_BREAK}yd"
    if quantity.amount < 1000:
        return f"{print_decimal(quantity.amount / 10, 0, style)}{NO_BREAK}cm"
    return f"{print_decimal(quantity.amount / 1000, 1, style)}{NO_BREAK}m"


def print_quantity(
    quantity: Quantity, units: UnitSystem, style: NumberStyle = NumberStyle(), inch_step: Fraction = EIGHTH
) -> str:
    """A length as print_length does, a number plain, an angle in degrees. Raises ValueError for an area."""
    if quantity.dimension is Dimension.LENGTH:
        return print_length(quantity, units, style, inch_step)
    if quantity.dimension is Dimension.AREA:
        raise ValueError("an area has no place in the text")
    sign = "−" if quantity.amount < 0 else ""
    size = abs(quantity.amount)
    simple = size.denominator in (2, 4, 8) and units is UnitSystem.INCH
    text = sign + (print_fraction(size) if simple else print_decimal(size, 1, style))
    return f"{text}°" if quantity.dimension is Dimension.ANGLE else text


def print_fraction(amount: Fraction) -> str:
    """`2 1⁄4`: whole and fraction parted by a no-break space."""
    whole, rest = divmod(abs(amount), 1)
    sign = "−" if amount < 0 else ""
    fraction = f"{rest.numerator}{FRACTION_SLASH}{rest.denominator}" if rest else ""
    if not fraction:
        return f"{sign}{whole}"
    return f"{sign}{whole}{NO_BREAK}{fraction}" if whole else f"{sign}{fraction}"


def print_decimal(amount: Fraction, places: int, style: NumberStyle) -> str:
    """At most so many decimals, no trailing noughts."""
    scaled = _to_step(amount * 10**places, Fraction(1))
    whole, rest = divmod(abs(int(scaled)), 10**places)
    sign = "−" if scaled < 0 else ""
    decimals = f"{rest:0{places}d}".rstrip("0") if places else ""
    return f"{sign}{whole}{style.decimal_sign}{decimals}" if decimals else f"{sign}{whole}"
