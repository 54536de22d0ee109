"""Edges: cloth allowed for what is turned, folded or sewn along them, hems as the pattern has them, no edge left raw."""

import re
from collections.abc import Iterator, Sequence

from publisher.assembly import Action, AssemblyStep
from publisher.checks.amounts import lengths_meant, lengths_quoted, told
from publisher.checks.deeds import deeds_of
from publisher.checks.named_edges import NamedEdge, atoms_in_seams, drafted_copies, edge_named
from publisher.checks.values import Proof
from publisher.drafting import Draft, Edge, Material, Placement
from publisher.geometry import inside, mapped, nearest
from publisher.terms import Finding, Severity

NOTHING = 0.5  # mm of cloth that cannot be turned or sewn
SAME = 0.05  # mm
NEAR = 1.0  # mm
QUOTE = re.compile(r"\{([^{}]*)\}")
# "fold {hem} to the wrong side", "turn it to the wrong side by {hem}, press, turn it by {hem} once more": the lengths
# that are turned, each soon behind the word and in one clause, and no distance from anything.
TURNED = re.compile(
    r"\b(?:fold|turn|hem)(?:ed|ing|s)?\b(?:(?!stitch|sew|press|pin|mark|cut)[^.:;,{}]){0,40}\{([^{}]*)\}(?! from\b)"
    r"|\{(?P<twice>[^{}]*)\},? and \{(?P=twice)\} once more\b",
    re.IGNORECASE,
)
TWICE = 2
SAME_WAY = re.compile(r"\b(?:in the same way|likewise)\b", re.IGNORECASE)


def hem_without_allowance(proof: Proof) -> Iterator[Finding]:
    """A step hems or folds in an edge for which the pattern allows no cloth.

    Why: what is turned in is missing from the finished size.

    Fix: write the hem under `hems:`, of a strip `ends:`, or give the edge an allowance; or do not turn it."""
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        for step in assembly.steps:
            for action in step.actions:
                named = edge_named(draft, action.target) if action.verb in ("hem", "fold") else None
                if named is None or _along_strip(named):
                    continue
                bare = [part.name for part in named.parts if part.allowance < NOTHING or named.copy.to_finished_line]
                if bare:
                    yield Finding(
                        "hem-without-allowance",
                        Severity.ERROR,
                        action.place,
                        f"step {step.number} turns in '{named.copy.name}.{bare[0]}', and the pattern allows no cloth for it",
                        f"write '{bare[0]}: …, turned twice' below 'hems:' of '{named.piece.name}'"
                        if named.piece.strip is None
                        else f"write below '{named.piece.name}' what is turned in: 'ends: …'",
                        (draft.variant,),
                    )


def _along_strip(named: NamedEdge) -> bool:
    """True for a long edge of a strip: what is folded there its cut width counts."""
    return named.piece.strip is not None and not all(part.name.endswith("end") for part in named.parts)


def seam_without_allowance(proof: Proof) -> Iterator[Finding]:
    """A seam is sewn along an edge that has no allowance.

    Why: it is sewn inside the finished line, and what is sewn comes out smaller by it, or it frays out of the seam.

    Fix: give the edge an allowance: of a strip's ends with `ends:`."""
    for draft in proof.drafts:
        for seam in draft.seams:
            for side in (*seam.first, *seam.second):
                copy = draft.copy(side.copy)
                if min(side.allowances) < NOTHING or copy.to_finished_line:
                    yield Finding(
                        "seam-without-allowance",
                        Severity.WARNING,
                        seam.place,
                        f"'{seam.name}' is sewn along '{side.copy}.{side.edge}', which is cut without allowance",
                        f"give '{side.edge}' of '{side.piece}' an allowance",
                        (draft.variant,),
                    )
                    break


def hem_not_as_told(proof: Proof) -> Iterator[Finding]:
    """A step turns a hem by other lengths than the pattern allows for it.

    Why: it comes out longer or shorter by the difference.

    Fix: quote what the pattern has, first what is folded under and then the hem; or change the hem there."""
    written = {step.number: step for section in proof.source.sections for step in section.steps}
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        before: list[tuple[Action, NamedEdge | None]] = []
        for step in assembly.steps:
            hemmed = [
                (action, edge_named(draft, action.target)) for action in step.actions if action.verb in ("hem", "fold")
            ]
            layers = {layer for _, named in hemmed if named for part in named.parts for layer in _turned_in(part)}
            if not layers:
                continue
            words = written[step.number]
            turned = dict(lengths_meant(draft, words, TURNED))
            quotes = [length for _, length in lengths_quoted(draft, words)]
            if SAME_WAY.search(str(words.text)) is None:
                yield from _untold(draft, step, hemmed, quotes)
            else:
                yield from _unlike_before(draft, step, hemmed, before, quotes)
            before = [one for one in hemmed if one[0].verb == "hem"] or before
            strange = next((one for one in turned if not _among(turned[one], layers)), None)
            untold = [layer for layer in sorted(layers) if not _among(layer, set(quotes))]
            # One width told twice is a hem turned twice; what is folded under a little may go without a number.
            twice = sum(_among(length, layers) for length in quotes) >= TWICE
            if strange is not None:
                says = f"turns in {told(turned[strange], draft)}"
            elif untold and twice:
                says = f"does not tell of {told(untold[0], draft)}"
            else:
                continue
            target = hemmed[0][0].target
            yield Finding(
                "hem-not-as-told",
                Severity.WARNING,
                strange.place if strange is not None else hemmed[0][0].place,
                f"step {step.number} hems '{target}' and {says}, and the pattern's hem is folded in "
                f"{' and '.join(told(one, draft) for one in sorted(layers))}",
                "quote the widths of the hem, or write it otherwise below 'hems:'",
                (draft.variant,),
            )


Hemmed = Sequence[tuple[Action, NamedEdge | None]]


def _widths(hemmed: Hemmed) -> dict[Action, set[float]]:
    """The widths that each hemmed edge is folded in, mm."""
    return {
        action: {layer for part in named.parts for layer in _turned_in(part)}
        for action, named in hemmed
        if named and action.verb == "hem"
    }


def _unlike_before(
    draft: Draft, step: AssemblyStep, hemmed: Hemmed, before: Hemmed, quotes: Sequence[float]
) -> Iterator[Finding]:
    """An edge that is hemmed 'in the same way' as one before it, and is not folded as that is."""
    earlier = list(_widths(before).items())
    for action, layers in _widths(hemmed).items():
        itself = any(_among(one, set(quotes)) for one in layers)
        if earlier and layers and not itself and not any(all(_among(one, its) for one in layers) for _, its in earlier):
            yield Finding(
                "hem-not-as-told",
                Severity.WARNING,
                action.place,
                f"step {step.number} hems '{action.target}' in the same way as '{earlier[-1][0].target}', which is folded in "
                f"{' and '.join(told(one, draft) for one in sorted(earlier[-1][1]))}, and this in "
                f"{' and '.join(told(one, draft) for one in sorted(layers))}",
                "give both the same hem below 'hems:', or tell its widths",
                (draft.variant,),
            )


def _untold(draft: Draft, step: AssemblyStep, hemmed: Hemmed, quotes: Sequence[float]) -> Iterator[Finding]:
    """Of several edges that a step hems, those of which no width is told, while those of the others are."""
    widths = {
        action: {layer for part in named.parts for layer in _turned_in(part)} for action, named in hemmed if named
    }
    told_of = {action: any(_among(layer, set(quotes)) for layer in layers) for action, layers in widths.items()}
    for action, layers in widths.items():
        if layers and not told_of[action] and any(told_of.values()):
            yield Finding(
                "hem-not-as-told",
                Severity.WARNING,
                action.place,
                f"step {step.number} hems '{action.target}' with others, and the widths that it tells are not those of this "
                f"one, {' and '.join(told(one, draft) for one in sorted(layers))}",
                "write its hem below 'hems:', or quote its widths",
                (draft.variant,),
            )


def _turned_in(edge: Edge) -> tuple[float, ...]:
    """The widths that an edge is folded in, mm; of an edge without a hem its allowance, where it has one."""
    return edge.layers or ((edge.allowance,) if edge.allowance > NOTHING else ())


def _among(length: float, others: set[float]) -> bool:
    return any(abs(length - other) < SAME for other in others)


def hemmed_and_stitched_shut(proof: Proof) -> Iterator[Finding]:
    """A hemmed edge is stitched down with the others when its piece is sewn on.

    Why: the hem is where a hand goes in; stitched down all round, a pocket is shut.

    Fix: leave the hemmed edge out of the joint edge that is topstitched."""
    for deeds in deeds_of(proof):
        hemmed: set[tuple[str, str]] = set()
        for deed in deeds:
            named = edge_named(deed.draft, deed.action.target)
            if named is None:
                continue
            if deed.action.verb == "hem":
                hemmed |= {(named.copy.name, part.name) for part in named.parts}
            laid = {one.placed for one in deed.draft.placements if one.name in deed.before.placed}
            shut = [part.name for part in named.parts if (named.copy.name, part.name) in hemmed]
            if deed.action.verb == "topstitch" and named.copy.name in laid and shut and len(named.parts) > 1:
                yield Finding(
                    "hemmed-and-stitched-shut",
                    Severity.WARNING,
                    deed.action.place,
                    f"step {deed.step.number} stitches down '{deed.action.target}' all along, and its edge '{shut[0]}' has "
                    "been hemmed to stay open",
                    f"take '{shut[0]}' out of '{deed.action.target.partition('.')[2]}'",
                    (deed.draft.variant,),
                )


# Copies of such kinds are not seen, and wadding does not fray.
HIDDEN = ("interfacing", "wadding")
# What a seam must have hold of, mm, of an edge that has an allowance (common practice, no source).
CAUGHT = 3.0
FINISHES = ("hem", "fold", "bind", "topstitch")


def raw_edge_left(proof: Proof) -> Iterator[Finding]:
    """A raw edge that is basted on another piece ends within it, where no seam and no binding can catch it.

    Why: once the basting is out, it is loose and frays.

    Fix: let it reach to the edge of the piece below; or hem it, or fold it in, before it is laid on."""
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        actions = [action for step in assembly.steps for action in step.actions]
        basted = {edge for action in actions if action.verb == "baste" for edge in _atoms(draft, action.target)}
        waiting = basted - edges_finished(draft, actions)
        laid = {action.target for action in actions if action.verb in ("place", "baste")}
        materials = {material.key: material for material in draft.materials}
        for placement in (one for one in draft.placements if one.name in laid):
            piece, copy = drafted_copies(draft)[placement.placed]
            if piece.strip is not None or not _frays(materials[copy.material]):
                continue
            within = {
                edge.name: _lies_within(draft, placement, edge)
                for edge in piece.edges
                if (copy.name, edge.name) in waiting
            }
            raw = [f"'{name}'" for name, by in within.items() if by]
            if raw:
                yield Finding(
                    "raw-edge-left",
                    Severity.WARNING,
                    placement.place,
                    f"{' and '.join(raw)} of '{copy.name}', raw and basted, "
                    f"{'ends' if len(raw) == 1 else 'end'} {told(max(within.values()), draft)} within "
                    f"'{placement.below}' that it is laid on",
                    "let it reach to the edge below, or hem or fold it first",
                    (draft.variant,),
                )


def _frays(material: Material) -> bool:
    return material.kind not in HIDDEN and (material.weight is None or material.weight.sort is None)


def edges_finished(draft: Draft, actions: Sequence[Action]) -> set[tuple[str, str]]:
    """Copy and name of each single edge that is sewn, hemmed, folded in, bound or topstitched by itself."""
    done = {edge for action in actions if action.verb in FINISHES for edge in _atoms(draft, action.target)}
    for side in (side for one in draft.bindings for side in one.edges):
        done |= set(_atoms(draft, f"{side.copy}.{side.edge}"))
    return done | set(atoms_in_seams(draft))


def _atoms(draft: Draft, name: str) -> Iterator[tuple[str, str]]:
    named = edge_named(draft, name)
    if named is not None:
        yield from ((named.copy.name, part.name) for part in named.parts)


def _lies_within(draft: Draft, placement: Placement, edge: Edge) -> float:
    """How far the middle of a laid raw edge ends within the finished line below, mm; nought where the seam catches it."""
    path = mapped(edge.path, placement.laying, placement.laying.turned_over)
    middle = path.point_at(path.length / 2)
    line = draft.piece(draft.copy(placement.below).piece).finished_line
    within = nearest(line, middle)[2] if inside(line, middle) else 0.0
    return within if within > max(edge.allowance - CAUGHT, NEAR) else 0.0
