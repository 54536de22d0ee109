"""Units: an inch pattern and a metric pattern of one design must be the same design."""

from collections.abc import Iterator

from publisher.checks.values import Proof
from publisher.terms import Dimension, Finding, Severity

# A pair is two round numbers for one length; further apart than this it is two lengths (a rule of the house).
FURTHEST_APART = 0.06


def native_pair_apart(proof: Proof) -> Iterator[Finding]:
    """A measure is more than 6 % longer in one unit system than in the other.

    Why: it is probably a slip, and no seam check can see it, for each edition fits in itself.

    Fix: correct the slip; if the difference is meant, make two measures of it."""
    half = len(proof.drafts) // 2
    for inch, metric in zip(proof.drafts[:half], proof.drafts[half:], strict=True):
        other = dict(metric.measures)
        for name, quantity in inch.measures:
            if name not in other or quantity.dimension is not Dimension.LENGTH:
                continue
            first, second = float(quantity.amount), float(other[name].amount)
            longer = max(abs(first), abs(second))
            if longer and abs(first - second) / longer > FURTHEST_APART:
                measure = next(measure for measure in proof.source.measures if measure.name == name)
                yield Finding(
                    "native-pair-apart",
                    Severity.WARNING,
                    measure.name.place,
                    f"'{name}' is {first / 25.4:.4g} in ({first:.1f} mm) in inches and {second:.1f} mm in metric, "
                    f"{abs(first - second) / longer:.0%} apart",
                    "correct the slip, or make two measures of it",
                    (inch.variant, metric.variant),
                )
