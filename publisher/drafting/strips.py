"""How wide a strip is cut for its finished width and its folding."""

from collections.abc import Callable

# The usual arithmetic of the trade (turned band: cut = 2 × finished + 2 × turning, as in McGlauflin and Kinne & Cooley;
# the others are common practice, no source). f: finished width, a: seam allowance, mm. What the folds of thick cloth
# take is added by `thickness:`, as a rule 2 to 3 thicknesses.
CUT_WIDTHS: dict[str, Callable[[float, float], float]] = {
    "in fourths": lambda f, a: 4 * f,
    "turned": lambda f, a: 2 * f + 2 * a,
    "doubled": lambda f, a: 2 * f + 2 * a,
    "edges to the centre": lambda f, a: 2 * f,
    "single fold": lambda f, a: 2 * f,
    "plain": lambda f, a: f + 2 * a,
}
# Their long edges are sewn into a seam, so that they have an allowance.
SEWN_ALONG = ("turned", "doubled", "plain")


def strip_cut_width(folding: str, finished_width: float, allowance: float) -> float:
    """The cut width in mm. Raises KeyError for a folding that is not one of CUT_WIDTHS."""
    return CUT_WIDTHS[folding](finished_width, allowance)


def strip_finished_width(folding: str, cut_width: float, allowance: float) -> float:
    """The finished width in mm that a cut width gives: the other way round, for a width that was rounded."""
    base = CUT_WIDTHS[folding](0.0, allowance)
    return (cut_width - base) / (CUT_WIDTHS[folding](1.0, allowance) - base)
