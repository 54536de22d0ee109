"""Units: an inch pattern and a metric pattern of one design must be the same design."""

from collections.abc import Container, Iterator, Mapping
from dataclasses import fields, is_dataclass

from publisher.checks.values import Proof
from publisher.drafting import Draft
from publisher.measures import names_within
from publisher.source import Native
from publisher.terms import Dimension, Finding, Quantity, Severity, Written

# A pair is two round numbers for one length; further apart than this it is two lengths (a rule of the house).
FURTHEST_APART = 0.06


def native_pair_apart(proof: Proof) -> Iterator[Finding]:
    """A measure, or a size of a notion, is more than 6 % longer in one unit system than in the other.

    Why: it is probably a slip, and no seam check can see it, for each edition fits in itself. A formula that is given once
    for both is judged by the numbers it reads: a difference of two nearly equal lengths makes much of their rounding.

    Fix: correct the slip; if the difference is meant, make two measures of it."""
    half = len(proof.drafts) // 2
    places = {str(measure.name): measure.name.place for measure in proof.source.measures}
    places |= {f"{notion.key}.{size}": size.place for notion in proof.source.notions for size, _ in notion.sizes}
    read_by = _reads(proof)
    typed = _typed_twice(proof)
    for inch, metric in zip(proof.drafts[:half], proof.drafts[half:], strict=True):
        lengths, other = _lengths(inch), _lengths(metric)
        apart = {
            name: (float(quantity.amount), float(other[name].amount))
            for name, quantity in lengths.items()
            if name in other and name in places and _apart(float(quantity.amount), float(other[name].amount))
        }
        for name, (first, second) in apart.items():
            if _reads_of(name, apart, read_by, set()) or (read_by.get(name) and min(first, second) <= 0):
                continue  # told at its cause; and of what is left below nought a ratio means nothing
            if name not in typed and not _reads_of(name, typed - places.keys(), read_by, set()):
                continue  # each number that it reads has been judged by itself
            yield Finding(
                "native-pair-apart",
                Severity.WARNING,
                places[name],
                f"'{name}' is {first / 25.4:.4g} in ({first:.1f} mm) in inches and {second:.1f} mm in metric, "
                f"{abs(first - second) / max(abs(first), abs(second)):.0%} apart",
                "correct the slip, or make two measures of it",
                (inch.variant, metric.variant),
            )


def _apart(first: float, second: float) -> bool:
    longer = max(abs(first), abs(second))
    return longer > 0 and abs(first - second) / longer > FURTHEST_APART


def _reads(proof: Proof) -> dict[str, set[str]]:
    """The names that each measure and each size of a notion reads, in either unit system."""
    written = [(str(measure.name), native) for measure in proof.source.measures for _, native in measure.by_size]
    sizes = {f"{notion.key}.{size}" for notion in proof.source.notions for size, _ in notion.sizes}
    written += [(f"{notion.key}.{size}", native) for notion in proof.source.notions for size, native in notion.sizes]
    reads: dict[str, set[str]] = {str(piece.name): set(_read_in(proof, piece)) for piece in proof.source.pieces}
    for name, native in written:
        for text in (native.inch, native.metric):
            # What a formula asks of a piece, `length of lid.around`, follows from what that piece is drawn with.
            named = names_within(proof.measures.saying(text))
            reads.setdefault(name, set()).update(one.partition(".")[0] if one not in sizes else one for one in named)
    return reads


def _read_in(proof: Proof, written: object) -> Iterator[str]:
    """The names that the formulas of a piece as it was written read, wherever they stand in it."""
    if isinstance(written, Written):
        yield from names_within(proof.measures.saying(written))
    elif isinstance(written, tuple):
        for one in written:
            yield from _read_in(proof, one)
    elif is_dataclass(written):
        for part in fields(written):
            yield from _read_in(proof, getattr(written, part.name))


def _reads_of(name: str, these: Container[str], reads: Mapping[str, set[str]], seen: set[str]) -> bool:
    """True where a name reads, itself or through others, one of these."""
    seen.add(name)
    return any(
        read in these or (read not in seen and _reads_of(read, these, reads, seen)) for read in reads.get(name, ())
    )


def _typed_twice(proof: Proof) -> set[str]:
    """The measures, sizes of notions and pieces of which something is written once for each unit system."""
    source = proof.source
    twice = {str(one.name) for one in source.measures if not all(native.given_once for _, native in one.by_size)}
    twice |= {f"{notion.key}.{size}" for notion in source.notions for size, one in notion.sizes if not one.given_once}
    return twice | {str(piece.name) for piece in source.pieces if _has_pair(piece)}


def _has_pair(written: object) -> bool:
    if isinstance(written, Native):
        return not written.given_once
    if isinstance(written, tuple):
        return any(_has_pair(one) for one in written)
    return is_dataclass(written) and any(_has_pair(getattr(written, part.name)) for part in fields(written))


def _lengths(draft: Draft) -> dict[str, Quantity]:
    """Measures, and sizes of notions as `snap.across`."""
    sizes = {f"{notion.key}.{size}": quantity for notion in draft.notions for size, quantity in notion.sizes}
    return {
        name: quantity for name, quantity in (*draft.measures, *sizes.items()) if quantity.dimension is Dimension.LENGTH
    }
