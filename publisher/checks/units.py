"""Units: an inch pattern and a metric pattern of one design must be the same design."""

from collections.abc import Iterator

from publisher.checks.values import Proof
from publisher.drafting import Draft
from publisher.terms import Dimension, Finding, Quantity, Severity

# A pair is two round numbers for one length; further apart than this it is two lengths (a rule of the house).
FURTHEST_APART = 0.06


def native_pair_apart(proof: Proof) -> Iterator[Finding]:
    """A measure, or a size of a notion, is more than 6 % longer in one unit system than in the other.

    Why: it is probably a slip, and no seam check can see it, for each edition fits in itself.

    Fix: correct the slip; if the difference is meant, make two measures of it."""
    half = len(proof.drafts) // 2
    places = {str(measure.name): measure.name.place for measure in proof.source.measures}
    places |= {f"{notion.key}.{size}": size.place for notion in proof.source.notions for size, _ in notion.sizes}
    for inch, metric in zip(proof.drafts[:half], proof.drafts[half:], strict=True):
        other = _lengths(metric)
        for name, quantity in _lengths(inch).items():
            if name not in other or name not in places:
                continue
            first, second = float(quantity.amount), float(other[name].amount)
            longer = max(abs(first), abs(second))
            if longer and abs(first - second) / longer > FURTHEST_APART:
                yield Finding(
                    "native-pair-apart",
                    Severity.WARNING,
                    places[name],
                    f"'{name}' is {first / 25.4:.4g} in ({first:.1f} mm) in inches and {second:.1f} mm in metric, "
                    f"{abs(first - second) / longer:.0%} apart",
                    "correct the slip, or make two measures of it",
                    (inch.variant, metric.variant),
                )


def _lengths(draft: Draft) -> dict[str, Quantity]:
    """Measures, and sizes of notions as `snap.across`."""
    sizes = {f"{notion.key}.{size}": quantity for notion in draft.notions for size, quantity in notion.sizes}
    return {
        name: quantity for name, quantity in (*draft.measures, *sizes.items()) if quantity.dimension is Dimension.LENGTH
    }
