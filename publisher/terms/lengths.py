"""Exact quantities: lengths in millimetres, areas, angles and plain numbers, and a length read as people write it."""

import re
from enum import Enum
from fractions import Fraction
from functools import total_ordering

from publisher.frozen import dataclass


class Dimension(Enum):
    """What a quantity measures."""

    NUMBER = "a number"
    LENGTH = "a length"
    AREA = "an area"
    ANGLE = "an angle"


class DimensionError(ValueError):
    """Two quantities that do not go together."""


@total_ordering
@dataclass(frozen=True, slots=True)
class Quantity:
    """An exact amount: mm, mm², degrees, or a plain number."""

    amount: Fraction
    dimension: Dimension

    def __add__(self, other: "Quantity") -> "Quantity":
        self._must_match(other, "added to")
        return Quantity(self.amount + other.amount, self.dimension)

    def __sub__(self, other: "Quantity") -> "Quantity":
        self._must_match(other, "taken from", turned=True)
        return Quantity(self.amount - other.amount, self.dimension)

    def __mul__(self, other: "Quantity") -> "Quantity":
        if other.dimension is Dimension.NUMBER:
            return Quantity(self.amount * other.amount, self.dimension)
        if self.dimension is Dimension.NUMBER:
            return Quantity(self.amount * other.amount, other.dimension)
        if self.dimension is other.dimension is Dimension.LENGTH:
            return Quantity(self.amount * other.amount, Dimension.AREA)
        raise DimensionError(f"{self.dimension.value} cannot be multiplied by {other.dimension.value}")

    def __truediv__(self, other: "Quantity") -> "Quantity":
        """The quotient. Raises ZeroDivisionError and DimensionError."""
        if other.dimension is Dimension.NUMBER:
            return Quantity(self.amount / other.amount, self.dimension)
        if self.dimension is other.dimension:
            return Quantity(self.amount / other.amount, Dimension.NUMBER)
        if self.dimension is Dimension.AREA and other.dimension is Dimension.LENGTH:
            return Quantity(self.amount / other.amount, Dimension.LENGTH)
        raise DimensionError(f"{self.dimension.value} cannot be divided by {other.dimension.value}")

    def __neg__(self) -> "Quantity":
        return Quantity(-self.amount, self.dimension)

    def __lt__(self, other: "Quantity") -> bool:
        self._must_match(other, "compared with")
        return self.amount < other.amount

    def _must_match(self, other: "Quantity", done: str, turned: bool = False) -> None:
        if self.dimension is not other.dimension:
            first, second = (other, self) if turned else (self, other)
            raise DimensionError(f"{first.dimension.value} cannot be {done} {second.dimension.value}")

    @property
    def mm(self) -> float:
        """The amount of a length as a float, mm."""
        return float(self.amount)


def length(millimetres: Fraction | int | float) -> Quantity:
    """A length. What comes from geometry as a float is rounded to 10⁻⁶ mm, and exact from there."""
    if isinstance(millimetres, float):
        return Quantity(Fraction(round(millimetres * 1_000_000), 1_000_000), Dimension.LENGTH)
    return Quantity(Fraction(millimetres), Dimension.LENGTH)


def number(amount: Fraction | int) -> Quantity:
    """A plain number."""
    return Quantity(Fraction(amount), Dimension.NUMBER)


# Exact: the inch is 25.4 mm, the yard 36 in.
UNITS: dict[str, Fraction] = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "in": Fraction(254, 10),
    "inch": Fraction(254, 10),
    "inches": Fraction(254, 10),
    '"': Fraction(254, 10),
    "″": Fraction(254, 10),
    "ft": Fraction(3048, 10),
    "yd": Fraction(9144, 10),
    "yard": Fraction(9144, 10),
    "yards": Fraction(9144, 10),
}
VULGAR: dict[str, Fraction] = {
    "½": Fraction(1, 2),
    "¼": Fraction(1, 4),
    "¾": Fraction(3, 4),
    "⅛": Fraction(1, 8),
    "⅜": Fraction(3, 8),
    "⅝": Fraction(5, 8),
    "⅞": Fraction(7, 8),
    "⅓": Fraction(1, 3),
    "⅔": Fraction(2, 3),
}
_SIGNS = "".join(VULGAR)
_DECIMAL = r"\d{1,9}(?:\.\d{1,9})?"
# A fraction has no spaces round its slash: 1 / 2 is a division, and width / 2 / 2 divides twice.
AMOUNT_PATTERN = (
    rf"(?:\d{{1,9}} +)?\d{{1,9}}[/⁄]\d{{1,9}}(?![\d.,{_SIGNS}])|{_DECIMAL} ?[{_SIGNS}]|[{_SIGNS}]|{_DECIMAL}"
)
UNIT_PATTERN = r'inches|inch|in|mm|cm|ft|yards|yard|yd|m|"|″'
_LENGTH = re.compile(rf"(?P<amount>{AMOUNT_PATTERN}|\d{{1,9}},\d{{1,9}})\s*(?P<unit>{UNIT_PATTERN})")


def read_amount(text: str) -> Fraction:
    """A number as people write it: 2, 2.25, 2,25, 1/2, 2 1/4, 2¼. Raises ValueError."""
    written = text.strip().replace("⁄", "/").replace(",", ".")
    if written and written[-1] in VULGAR:
        whole = written[:-1].strip()
        return (Fraction(whole) if whole else Fraction(0)) + VULGAR[written[-1]]
    if "/" in written:
        *whole_part, fraction = written.rsplit(" ", 1)
        numerator, denominator = fraction.split("/")
        if int(denominator) == 0:
            raise ValueError(f"'{text.strip()}' divides by nought")
        return (Fraction(int(whole_part[0])) if whole_part else Fraction(0)) + Fraction(
            int(numerator), int(denominator)
        )
    return Fraction(written)


def read_length(text: str) -> Quantity:
    """One length that stands alone, exactly: `2 1/4 in`, `2¼ in`, `2.25"`, `57 mm`, `5.7 cm`, `5,7 cm`.

    Raises ValueError with a plain reason.
    """
    match = _LENGTH.fullmatch(text.strip())
    if match is None:
        if re.fullmatch(rf"{AMOUNT_PATTERN}|\d+,\d+", text.strip()):
            raise ValueError(f"'{text.strip()}' has no unit: write mm, cm, m, in or yd behind it")
        raise ValueError(f"'{text.strip()}' is not a length: write it like 2 1/4 in or 5.7 cm")
    return Quantity(read_amount(match["amount"]) * UNITS[match["unit"]], Dimension.LENGTH)
