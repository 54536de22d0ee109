"""Bindings, hems and trimming: strips long enough, edges cut for what is done to them, and done by some step."""

from collections.abc import Iterator

from publisher.assembly import Action, Assembly
from publisher.checks.amounts import told
from publisher.checks.named_edges import edge_named
from publisher.checks.values import Proof
from publisher.drafting import Draft, Grain, Pleat, Seam
from publisher.frozen import dataclass
from publisher.geometry import Line
from publisher.terms import Finding, Place, Severity

# A turned hem lies flat on a curve only while it is narrow: 1/2 in (common practice, no source; circular skirts take
# 1/4 in, Oregon State extension, 1961).
DEEPEST_ON_CURVE = 12.7
# A binding is sewn in its own width, turned in by as much, and lies as wide on either side of the edge (common
# practice, no source).
WIDTHS_OF_BINDING = 4
NEAR = 0.5  # mm


@dataclass(frozen=True, slots=True)
class BoundInStep:
    """What a step binds with a strip: a seam or an edge; its length in mm."""

    action: Action
    strip: str  # copy
    length: float
    edges: tuple[tuple[str, str, str], ...]  # copy, piece and edge
    seam: Seam | None


def _bound_in_steps(draft: Draft, assembly: Assembly) -> Iterator[BoundInStep]:
    """All that steps bind with a strip, `bind lid seam with strip`, in order."""
    seams = {seam.name: seam for seam in draft.seams}
    for step in assembly.steps:
        for action in step.actions:
            if action.verb != "bind" or action.other is None:
                continue
            seam, edge = seams.get(action.target), edge_named(draft, action.target)
            if seam is not None:
                sides = tuple((one.copy, one.piece, one.edge) for one in (*seam.first, *seam.second))
                yield BoundInStep(action, action.other, seam.length, sides, seam)
            elif edge is not None:
                length = sum(part.length for part in edge.parts)
                parts = tuple((edge.copy.name, edge.piece.name, part.name) for part in edge.parts)
                yield BoundInStep(action, action.other, length, parts, None)


def by_strip(draft: Draft, assembly: Assembly) -> dict[str, list[BoundInStep]]:
    """What steps bind with each strip."""
    bound: dict[str, list[BoundInStep]] = {}
    for one in _bound_in_steps(draft, assembly):
        bound.setdefault(one.strip, []).append(one)
    return bound


def binding_too_short(proof: Proof) -> Iterator[Finding]:
    """A binding strip is shorter than the edges it binds, their corners and its overlap.

    Why: the reader finds it out a hand short of the beginning.

    Fix: lengthen the strip; a formula can ask the edge: length of roll outside.around."""
    for draft in proof.drafts:
        for binding in draft.bindings:
            strip = draft.piece(draft.copy(binding.strip).piece).strip
            if strip is not None and strip.finished_length < binding.needed - 0.05:
                bound = sum(edge.length for edge in binding.edges)
                yield Finding(
                    "binding-too-short",
                    Severity.ERROR,
                    binding.place,
                    f"'{binding.strip}' is {told(strip.finished_length, draft)} long and takes {told(binding.needed, draft)}: "
                    f"{told(bound, draft)} of edges, {binding.corners} corners and {told(binding.overlap, draft)} of overlap",
                    "lengthen the strip",
                    (draft.variant,),
                )
    yield from _too_short_for_steps(proof)


def _too_short_for_steps(proof: Proof) -> Iterator[Finding]:
    """Strips that are shorter than all together that steps bind with them."""
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        for name, work in by_strip(draft, assembly).items():
            copy = draft.copy(name)
            strip = draft.piece(copy.piece).strip
            needed = sum({one.action.target: one.length for one in work}.values())
            if strip is not None and strip.finished_length * copy.count < needed - NEAR:
                targets = " and ".join(f"'{target}'" for target in dict.fromkeys(one.action.target for one in work))
                yield Finding(
                    "binding-too-short",
                    Severity.ERROR,
                    work[0].action.place,
                    f"'{name}' is {told(strip.finished_length * copy.count, draft)} long, and {targets} that are bound "
                    f"with it take {told(needed, draft)}, without any overlap",
                    "lengthen the strip by what is missing, and an overlap for each",
                    (draft.variant,),
                )


# More than this beyond what it binds is no overlap any more, but an edge that was forgotten (a rule of the house).
LEFT_OVER, SPARE = 1.4, 300.0  # times; mm


def binding_left_over(proof: Proof) -> Iterator[Finding]:
    """A strip is far longer than all that the steps bind with it.

    Why: an edge that it was reckoned for is bound in no step, and stays raw.

    Fix: bind that edge, too; or make the strip shorter."""
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        for name, work in by_strip(draft, assembly).items():
            copy = draft.copy(name)
            strip = draft.piece(copy.piece).strip
            needed = sum({one.action.target: one.length for one in work}.values())
            if strip is not None and strip.finished_length * copy.count > max(LEFT_OVER * needed, needed + SPARE):
                targets = " and ".join(f"'{target}'" for target in dict.fromkeys(one.action.target for one in work))
                yield Finding(
                    "binding-left-over",
                    Severity.WARNING,
                    work[0].action.place,
                    f"'{name}' is {told(strip.finished_length * copy.count, draft)} long, and all that is bound with it, "
                    f"{targets}, takes {told(needed, draft)}",
                    "bind what was forgotten, or make the strip shorter",
                    (draft.variant,),
                )


def bound_edge_with_allowance(proof: Proof) -> Iterator[Finding]:
    """An edge that is bound has an allowance.

    Why: binding lies round the raw edge, so the piece would come out larger by the allowance.

    Fix: give the edge an allowance of 0."""
    for draft in proof.drafts:
        for binding in draft.bindings:
            for edge in binding.edges:
                if max(edge.allowances) > 0.01:
                    yield Finding(
                        "bound-edge-with-allowance",
                        Severity.ERROR,
                        binding.place,
                        f"'{edge.copy}.{edge.edge}' is bound and has an allowance of {told(max(edge.allowances), draft)}",
                        f"give it 0 under 'allowance:' of '{edge.piece}'",
                        (draft.variant,),
                    )


def binding_not_on_bias(proof: Proof) -> Iterator[Finding]:
    """A curved edge is bound with a strip cut on the straight grain.

    Why: it does not stretch round the curve and lies in folds.

    Fix: cut the strip on the bias."""
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        bound: list[tuple[Place, str, tuple[tuple[str, str, str], ...]]] = [
            (binding.place, binding.strip, tuple((edge.copy, edge.piece, edge.edge) for edge in binding.edges))
            for binding in draft.bindings
        ]
        bound += [(one.action.place, one.strip, one.edges) for one in _bound_in_steps(draft, assembly)]
        for place, name, edges in bound:
            strip = draft.piece(draft.copy(name).piece)
            curved = [f"{copy}.{edge}" for copy, piece, edge in edges if _curved(draft, piece, edge)]
            if curved and strip.grain is not Grain.BIAS:
                yield Finding(
                    "binding-not-on-bias",
                    Severity.WARNING,
                    place,
                    f"'{curved[0]}' is curved, and '{name}' is cut on the straight grain",
                    f"add 'grain: bias' to '{strip.name}'",
                    (draft.variant,),
                )


def binding_wider_than_allowance(proof: Proof) -> Iterator[Finding]:
    """A seam is bound with a strip that finishes wider than the allowance it is to enclose.

    Why: laid level with the raw edges it is sewn beside the seam, inside the finished line, and shows.

    Fix: make the binding as wide as the allowance or narrower; or give the edges a wider allowance."""
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        for bound in _bound_in_steps(draft, assembly):
            strip = draft.piece(draft.copy(bound.strip).piece).strip
            if bound.seam is None or strip is None:
                continue
            sides = (*bound.seam.first, *bound.seam.second)
            allowance = min(allowance for edge in sides for allowance in edge.allowances)
            if strip.finished_width > allowance + NEAR:
                yield Finding(
                    "binding-wider-than-allowance",
                    Severity.WARNING,
                    bound.action.place,
                    f"the binding '{bound.strip}' finishes {told(strip.finished_width, draft)} wide, and "
                    f"'{bound.seam.name}' has an allowance of {told(allowance, draft)}",
                    "make the binding narrower, or the allowance wider",
                    (draft.variant,),
                )


def binding_cut_narrow(proof: Proof) -> Iterator[Finding]:
    """A strip that binds is cut less than four times as wide as it is said to finish.

    Why: it lies on both sides of the edge and is turned in on both; cut narrower, it finishes narrower, or does not
    reach round.

    Fix: write `fold: in fourths` for it."""
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        places = {binding.strip: binding.place for binding in draft.bindings}
        for bound in _bound_in_steps(draft, assembly):
            places.setdefault(bound.strip, bound.action.place)
        for name, place in places.items():
            piece = draft.piece(draft.copy(name).piece)
            if piece.strip is None:
                continue
            cut, finished = min(piece.cut_width, piece.cut_height), piece.strip.finished_width
            # A cut width is rounded to what a ruler shows.
            if cut < WIDTHS_OF_BINDING * finished - 2.0:
                yield Finding(
                    "binding-cut-narrow",
                    Severity.WARNING,
                    place,
                    f"the binding '{name}' is cut {told(cut, draft)} wide, '{piece.strip.folding}', and a binding that "
                    f"finishes {told(finished, draft)} wide takes {told(WIDTHS_OF_BINDING * finished, draft)}",
                    f"write 'fold: in fourths' under '{piece.name}'",
                    (draft.variant,),
                )


def _curved(draft: Draft, piece: str, edge: str) -> bool:
    parts = draft.piece(piece).edges_of(edge)
    return any(not isinstance(segment, Line) for part in parts for segment in part.path.segments)


def hem_on_curve(proof: Proof) -> Iterator[Finding]:
    """A deep hem or a casing is turned on a curved edge.

    Why: the cloth that is turned has not the length of the line it is sewn to, and lies in pleats.

    Fix: make the hem narrow, or face the edge with a piece of the same curve or with bias."""
    for draft in proof.drafts:
        for piece in draft.pieces:
            for hem in piece.hems:
                deep = hem.casing or hem.depth > DEEPEST_ON_CURVE
                if deep and _curved(draft, piece.name, hem.edge):
                    yield Finding(
                        "hem-on-curve",
                        Severity.WARNING,
                        hem.place,
                        f"'{hem.edge}' of '{piece.name}' is curved, and {told(hem.depth, draft)} of it are turned",
                        f"turn {told(DEEPEST_ON_CURVE, draft)} at most, or face the edge",
                        (draft.variant,),
                    )


def left_undone(proof: Proof) -> Iterator[Finding]:
    """A binding, a hem, pleats, darts or a rough cut that no step sees to.

    Why: the reader has cut cloth for it, and is never told what it is for.

    Fix: add the `Does:` line to the step that does it."""
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        if not assembly.steps:
            continue
        done = {(action.verb, action.target) for step in assembly.steps for action in step.actions}
        for place, verb, target in _wanted(draft):
            if (verb, target) not in done:
                yield Finding(
                    "left-undone",
                    Severity.ERROR,
                    place,
                    f"no step says '{verb} {target}'",
                    f"write 'Does: {verb} {target}' under the step that does it",
                    (draft.variant,),
                )


def _wanted(draft: Draft):  # type: ignore[no-untyped-def]
    """Where it is written, the verb and the target of all that must be done once."""
    for binding in draft.bindings:
        yield binding.place, "bind", binding.name
    for piece in draft.pieces:
        for copy in piece.copies:
            for hem in piece.hems:
                yield hem.place, "hem", f"{copy.name}.{hem.edge}"
            if piece.opened is not None:
                darts = any(isinstance(mark, Pleat) and mark.kind == "dart" for mark in piece.opened.marks)
                yield copy.place, "dart" if darts else "pleat", copy.name
            if copy.rough:
                yield copy.place, "trim", copy.name
