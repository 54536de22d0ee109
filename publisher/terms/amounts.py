"""Lengths as findings tell them: in the units of a variant, fine enough to show what is wrong."""

import re
from dataclasses import replace
from fractions import Fraction

from publisher.terms.findings import Finding
from publisher.terms.variants import UnitSystem, Variant

# A length in millimetres as a stage tells it; what stands in quotes is the maker's own.
QUOTED_OR_LENGTH = re.compile(r"(?<!\w)'.+?'(?!\w)|(?<![\w.])(?P<amount>\d+(?:\.\d+)?) mm\b")


def tell_length(millimetres: float, units: UnitSystem) -> str:
    """Tenths of a millimetre, or inches in sixty-fourths with the millimetres beside them."""
    if units is UnitSystem.METRIC:
        return f"{millimetres:.1f} mm"
    parts = Fraction(round(abs(millimetres) / 25.4 * 64), 64)
    whole, rest = divmod(parts, 1)
    shown = f"{whole} {rest}" if whole and rest else f"{rest or whole}"
    sign = "-" if parts and millimetres < 0 else ""
    return f"{sign}{shown} in ({millimetres:.1f} mm)"


def of_variant(finding: Finding, variant: Variant) -> Finding:
    """The finding as found in one variant, its lengths in the units of that one."""
    says = finding.says
    if variant.units is UnitSystem.INCH:
        says = QUOTED_OR_LENGTH.sub(
            lambda found: tell_length(float(found["amount"]), variant.units) if found["amount"] else found[0], says
        )
    return replace(finding, says=says, variants=(variant,))
