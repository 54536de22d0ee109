"""Bindings, hems and trimming: strips long enough, edges cut for what is done to them, and done by some step."""

from collections.abc import Iterator

from publisher.checks.amounts import told
from publisher.checks.values import Proof
from publisher.drafting import Draft, Grain, Pleat
from publisher.geometry import Line
from publisher.terms import Finding, Severity

# A turned hem lies flat on a curve only while it is narrow: 1/2 in (common practice, no source; circular skirts take
# 1/4 in, Oregon State extension, 1961).
DEEPEST_ON_CURVE = 12.7


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
    for draft in proof.drafts:
        for binding in draft.bindings:
            strip = draft.piece(draft.copy(binding.strip).piece)
            curved = [edge for edge in binding.edges if _curved(draft, edge.piece, edge.edge)]
            if curved and strip.grain is not Grain.BIAS:
                yield Finding(
                    "binding-not-on-bias",
                    Severity.WARNING,
                    binding.place,
                    f"'{curved[0].copy}.{curved[0].edge}' is curved, and '{binding.strip}' is cut on the straight grain",
                    f"add 'grain: bias' to '{strip.name}'",
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
