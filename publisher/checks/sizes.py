"""Sizes: what a reader must tell apart on one template, and cut by."""

from collections.abc import Iterator
from itertools import combinations

from publisher.checks.amounts import told
from publisher.checks.values import Proof
from publisher.drafting import Draft
from publisher.geometry import length_near
from publisher.template_pages import Nest, nest_of, nested, templates_of
from publisher.terms import Finding, Severity, UnitSystem

# Two lines so near are one to scissors; over more than this part of a line it matters (rules of the house).
NEAR, PART = 1.0, 0.1


def nested_lines_close(proof: Proof) -> Iterator[Finding]:
    """The cut lines of two sizes of a piece run so close to each other that nobody can tell which is which.

    Why: the reader follows the wrong line, and the piece is cut in a size of its own.

    Fix: let the sizes differ by more, or not at all; or publish the sizes one by one, with --size."""
    for units in UnitSystem:
        drafts = proof.drafts_of(units)
        for together in nested(templates_of(drafts)):
            if len(together) > 1:
                yield from _close(nest_of(together), drafts)


def _close(nest: Nest, drafts: tuple[Draft, ...]) -> Iterator[Finding]:
    """The closest pair of a nest, where it is too close."""
    worst: tuple[float, float, str, str] | None = None
    for first, second in combinations(range(len(nest.sizes)), 2):
        line, other = nest.pieces[first].cut_line, nest.pieces[second].cut_line
        pair = nest.sizes[first], nest.sizes[second]
        shared = sum(one.path.length for one in nest.lines if set(pair) <= set(one.sizes))
        near = length_near(line, other, NEAR) - shared
        if near > PART * line.length and (worst is None or near / line.length > worst[0]):
            worst = near / line.length, near, *pair
    if worst is None:
        return
    part, near, one, other_size = worst
    of_pair = [draft for draft in drafts if draft.variant.size in (one, other_size)]
    yield Finding(
        "nested-lines-close",
        Severity.WARNING,
        nest.inner.place,
        f"the cut lines of sizes {one} and {other_size} of '{nest.inner.name}' lie nearer than {NEAR:g} mm to each "
        f"other over {told(near, of_pair[0])}, {part:.0%} of the line",
        f"let the sizes differ by more, or not at all; or publish them one by one: --size {one}",
        tuple(draft.variant for draft in of_pair),
    )
