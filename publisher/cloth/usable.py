"""What of a cloth can be used, and what is allowed for beside the pieces. Millimetres."""

from publisher.drafting import Material, Width
from publisher.terms import UnitSystem, length, round_up_to_step

# Common practice, no source: what the selvages take off a woven width, what squaring up the cut end takes, and the
# room left between neighbours so that each can be cut on its own line.
SELVAGES = {UnitSystem.INCH: 25.4, UnitSystem.METRIC: 20.0}
SQUARING_UP = {UnitSystem.INCH: 25.4, UnitSystem.METRIC: 25.0}
GAP = {UnitSystem.INCH: 25.4 / 8, UnitSystem.METRIC: 3.0}
# A square for bias strips is cut in these steps, and sewn with this seam (common practice, no source).
SQUARE_STEP = {UnitSystem.INCH: 25.4 / 2, UnitSystem.METRIC: 10.0}
BIAS_SEAM = {UnitSystem.INCH: 25.4 / 4, UnitSystem.METRIC: 6.0}
WOVEN_WITH_SELVAGE = ("fabric", "lining")


def usable_width(material: Material, width: Width, units: UnitSystem) -> float:
    """What a width leaves between its selvages after the first wash, mm; precuts and interfacing have none.

    What a material is said to shrink is counted across as well as along: a cloth that shrinks less across leaves a
    little more beside the pieces, one that was laid to its full width would leave one of them short.
    """
    washed = width.width * (1 - material.shrinkage)
    if width.precut or material.kind not in WOVEN_WITH_SELVAGE:
        return washed
    return washed - SELVAGES[units]


def has_selvages(material: Material, width: float) -> bool:
    """True for a cloth that is sold in this width with a selvage on either side, to be left out.

    Of a precut at most one edge is a selvage, and which one nobody knows (common practice, no source).
    """
    by_length = any(sold.width == width and not sold.precut for sold in material.sold)
    return by_length and material.kind in WOVEN_WITH_SELVAGE


def to_buy(material: Material, units: UnitSystem, used: float) -> tuple[float, float]:
    """What is needed for a length used, with squaring up and shrinkage, and that up to the selling step."""
    needed = (used + SQUARING_UP[units]) / (1 - material.shrinkage)
    return needed, round_up_to_step(length(needed), units).mm


def usable_sheet(material: Material, width: Width) -> float | None:
    """How long a precut is after its first wash, mm; None of cloth by the length."""
    return None if width.precut_length is None else width.precut_length * (1 - material.shrinkage)
