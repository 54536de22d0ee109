"""Amounts as findings tell them: in the units of the variant, fine enough to show what is wrong."""

from fractions import Fraction

from publisher.drafting import Draft
from publisher.terms import UnitSystem


def told(millimetres: float, draft: Draft) -> str:
    """A length for the maker: tenths of a millimetre, or inches in sixty-fourths with the millimetres beside them."""
    if draft.variant.units is UnitSystem.METRIC:
        return f"{millimetres:.1f} mm"
    parts = Fraction(round(millimetres / 25.4 * 64), 64)
    whole, rest = divmod(parts, 1)
    shown = f"{whole} {rest}" if whole and rest else f"{rest or whole}"
    return f"{shown} in ({millimetres:.1f} mm)"
