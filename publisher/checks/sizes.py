"""Sizes: lines that a reader must tell apart, ease as it is told, steps from one size to the next."""

import re
from collections.abc import Iterator, Sequence
from itertools import combinations, pairwise

from publisher.checks.amounts import told
from publisher.checks.values import Proof
from publisher.drafting import Draft
from publisher.geometry import length_near
from publisher.template_pages import Nest, nest_of, nested, templates_of
from publisher.terms import Dimension, Finding, Place, Quantity, Severity, UnitSystem

# Two lines so near are one to scissors; over more than this part of a line it matters (rules of the house).
NEAR, PART = 1.0, 0.1
HAIR = 1e-3  # mm: less is no difference
DEPTH, HEIGHT = "depth", "height"  # finished sizes by their usual names
ROUNDED = 2.0  # mm, that a lining or a rounded measure may differ by


def size_guide_ease(proof: Proof) -> Iterator[Finding]:
    """The ease that the size guide names is not what the finished measure has more than the body's.

    Why: the reader chooses by the one, and wears the other.

    Fix: use the ease in the formulas of the piece, or correct it."""
    guide = proof.source.facts.size_guide
    for draft in proof.drafts:
        sizing = draft.sizing
        if guide is None or guide.ease is None or sizing is None or sizing.ease is None:
            continue
        made = float(sizing.finished.amount - sizing.body.amount)
        named = float(sizing.ease.amount)
        if abs(made - named) > _rounding(draft) / 2 + HAIR:
            yield Finding(
                "size-guide-ease",
                Severity.WARNING,
                (guide.ease.inch if draft.variant.units is UnitSystem.INCH else guide.ease.metric).place,
                f"the ease is {told(named, draft)}, but size {draft.variant.size} finishes "
                f"{told(float(sizing.finished.amount), draft)} for a body of {told(float(sizing.body.amount), draft)}, "
                f"which is {told(abs(made), draft)} {'more' if made >= 0 else 'less'}",
                "use this ease in the formulas of the piece, or correct it",
                (draft.variant,),
            )


# "Between two sizes take the larger, and make the band {half size} shorter."
TAKEN_IN = re.compile(r"\{(?P<name>[^{}]*)\} (?:shorter|smaller|narrower|tighter)\b", re.IGNORECASE)
PART_OF_A_STEP = 0.75


def between_is_a_whole_size(proof: Proof) -> Iterator[Finding]:
    """Between two sizes the larger is to be taken, and made smaller by as much as a whole size.

    Why: that is the smaller one again, and too tight for who is between the two.

    Fix: take it in by half of what lies between the sizes."""
    guide = proof.source.facts.size_guide
    for units in UnitSystem if guide is not None else ():
        drafts = proof.drafts_of(units)
        bodies = [float(draft.sizing.body.amount) for draft in drafts if draft.sizing is not None]
        step = min((abs(second - first) for first, second in pairwise(bodies)), default=0.0)
        for found in TAKEN_IN.finditer(str(guide.between)) if guide is not None and step > HAIR else ():
            quantity = dict(drafts[0].measures).get(found["name"].strip())
            if quantity is not None and float(quantity.amount) > PART_OF_A_STEP * step:
                yield Finding(
                    "between-is-a-whole-size",
                    Severity.WARNING,
                    guide.between.part(found.start("name"), found.end("name")).place if guide is not None else None,
                    f"between two sizes it is made {told(float(quantity.amount), drafts[0])} smaller, and from one size to the "
                    f"next are {told(step, drafts[0])}",
                    "make it smaller by half of that",
                    tuple(draft.variant for draft in drafts),
                )


def uneven_grading(proof: Proof) -> Iterator[Finding]:
    """The sizes of a measure do not grow by even steps.

    Why: it is often a slip of the pen; one size then fits nobody, or two sizes are nearly one.

    Fix: correct the slip; where the steps are meant to differ, nothing needs to be done."""
    guide = proof.source.facts.size_guide
    for units in UnitSystem:
        drafts = proof.drafts_of(units)
        for measure in proof.source.measures:
            values = [dict(draft.measures).get(str(measure.name)) for draft in drafts]
            if len(measure.by_size) > 1:
                yield from _uneven(f"'{measure.name}'", measure.name.place, values, drafts)
        if guide is not None:
            body, finished = (
                [getattr(draft.sizing, what) if draft.sizing else None for draft in drafts]
                for what in ("body", "finished")
            )
            even = not list(_uneven("", guide.place, body, drafts))
            if even:  # else the body's own measure has been told
                yield from _uneven(
                    "the finished measure of the size guide", guide.finished.inch.place, finished, drafts
                )


def _uneven(name: str, place: Place, values: Sequence[Quantity | None], drafts: tuple[Draft, ...]) -> Iterator[Finding]:
    """The smallest step against the largest: advice, or a warning where a size does not grow or grows twice as much."""
    lengths = [float(one.amount) for one in values if one is not None and one.dimension is Dimension.LENGTH]
    if len(lengths) != len(drafts) or len(lengths) < 3:
        return
    steps = [(second - first, at) for at, (first, second) in enumerate(pairwise(lengths))]
    (least, low), (most, high) = min(steps), max(steps)
    if most - least <= _rounding(drafts[0]) + HAIR:
        return
    sizes = [draft.variant.size for draft in drafts]
    severe = least * most <= 0 or max(abs(least), abs(most)) >= 2 * min(abs(least), abs(most))
    yield Finding(
        "uneven-grading",
        Severity.WARNING if severe else Severity.ADVICE,
        place,
        f"{name} grows by {told(least, drafts[0])} from {sizes[low]} to {sizes[low + 1]} and by "
        f"{told(most, drafts[0])} from {sizes[high]} to {sizes[high + 1]}",
        "correct the slip; if the steps are meant to differ, leave it as it is",
        tuple(draft.variant for draft in drafts),
    )


def _rounding(draft: Draft) -> float:
    """The step to which lengths are rounded, mm."""
    return float(draft.inch_step) * 25.4 if draft.variant.units is UnitSystem.INCH else 1.0


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


def depth_not_the_corners(proof: Proof) -> Iterator[Finding]:
    """The finished depth is not the depth of the corners that are boxed.

    Why: a boxed corner sewn across by as much makes the work as deep, and the cover promises another size.

    Fix: ask the seam: `length of right corner seam`."""
    names = {str(name): name for name, _ in proof.source.finished_size}
    for draft in proof.drafts:
        told_sizes = dict(draft.finished_size)
        corners = [seam for seam in draft.seams if seam.boxes_a_corner]
        depth = told_sizes.get(DEPTH)
        # Without a height beside it the depth may be how far down a bag reaches.
        if depth is None or HEIGHT not in told_sizes or depth.dimension is not Dimension.LENGTH or not corners:
            continue
        deep = float(depth.amount)
        if all(abs(seam.length - deep) > max(ROUNDED, _rounding(draft)) for seam in corners):
            nearest = min(corners, key=lambda seam: abs(seam.length - deep))
            yield Finding(
                "depth-not-the-corners",
                Severity.WARNING,
                names[DEPTH].place,
                f"the finished depth is {told(deep, draft)}, and the corner '{nearest.name}' is {told(nearest.length, draft)} "
                "long, which is how deep it makes the work",
                f"write 'length of {nearest.name}'",
                (draft.variant,),
            )
