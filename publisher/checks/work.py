"""The work: every seam is sewn once, every placement placed, every copy that is cut is used."""

from collections import Counter
from collections.abc import Collection, Iterator, Mapping, Sequence

from publisher.assembly import Assembly
from publisher.checks.deeds import misspelt
from publisher.checks.edges import edges_finished
from publisher.checks.named_edges import edge_named
from publisher.checks.values import Proof
from publisher.drafting import Draft, Seam
from publisher.measures import Name
from publisher.terms import Finding, Severity

ALIKE = 1.0  # mm


def seam_never_sewn(proof: Proof) -> Iterator[Finding]:
    """A seam of the pattern is sewn in no step.

    Why: the reader is left with an open edge and no word about it.

    Fix: add `Does: sew …` to the step that sews it, or take the seam out."""
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        sewn = {action.target for step in assembly.steps for action in step.actions if action.verb == "sew"}
        names = [seam.name for seam in draft.seams]
        meant = misspelt(proof, ("sew",), names, [name for name in names if name not in sewn])
        for seam in draft.seams:
            if assembly.steps and seam.name not in sewn | meant:
                yield Finding(
                    "seam-never-sewn",
                    Severity.ERROR,
                    seam.place,
                    f"no step sews '{seam.name}'",
                    f"write 'Does: sew {seam.name}' under the step that sews it",
                    (draft.variant,),
                )


def seam_sewn_twice(proof: Proof) -> Iterator[Finding]:
    """A seam is sewn in two steps.

    Why: one of the two steps speaks of work that is done already.

    Fix: take one of the lines out, or name the other seam."""
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        times: Counter[str] = Counter()
        for step in assembly.steps:
            for action in step.actions:
                if action.verb != "sew":
                    continue
                times[action.target] += 1
                if times[action.target] == 2:
                    yield Finding(
                        "seam-sewn-twice",
                        Severity.ERROR,
                        action.place,
                        f"step {step.number} sews '{action.target}', which an earlier step has sewn",
                        "take one of the two lines out, or name another seam",
                        (draft.variant,),
                    )


def placement_never_placed(proof: Proof) -> Iterator[Finding]:
    """A placement of the pattern is done in no step.

    Why: its marks are printed, and no step says what they are for.

    Fix: add `Does: place …` to the step that lays it on."""
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        placed = {
            action.target for step in assembly.steps for action in step.actions if action.verb in ("place", "baste")
        }
        names = [placement.name for placement in draft.placements]
        meant = misspelt(proof, ("place",), names, [name for name in names if name not in placed])
        for placement in draft.placements:
            if assembly.steps and placement.name not in placed | meant:
                yield Finding(
                    "placement-never-placed",
                    Severity.ERROR,
                    placement.place,
                    f"no step places '{placement.name}'",
                    f"write 'Does: place {placement.name}' under the step that does it",
                    (draft.variant,),
                )


def copy_never_used(proof: Proof) -> Iterator[Finding]:
    """A copy is cut and appears in no seam, no placement and no action.

    Why: the reader cuts cloth for nothing, or a step is missing.

    Fix: use it in a step, or do not cut it."""
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        used = _named_where_sewn(proof)
        for step in assembly.steps:
            for action in step.actions:
                if action.verb not in ("cut", "mark"):
                    used |= {name.partition(".")[0] for name in (action.target, action.other or "")}
        for piece in draft.pieces:
            for copy in piece.copies:
                if copy.name not in used:
                    yield Finding(
                        "copy-never-used",
                        Severity.WARNING,
                        copy.place,
                        f"'{copy.name}' is cut, and nothing is done with it",
                        "use it in a seam, a placement or a step's Does, or do not cut it",
                        (draft.variant,),
                    )


def _named_where_sewn(proof: Proof) -> set[str]:
    """The copies of all seams, placements and bindings as they were written, whether or not these could be drafted."""
    source = proof.source
    sewn = [side for seam in source.seams for side in seam.join]
    sewn += [edge for binding in source.bindings for edge in binding.binds]
    names = {str(binding.strip) for binding in source.bindings}
    names |= {str(name) for placement in source.placements for name in (placement.place_copy, placement.on)}
    for written in sewn:
        said = proof.measures.saying(written)
        edges = said if isinstance(said, tuple) else (said,)
        names |= {edge.text.partition(".")[0].strip() for edge in edges if isinstance(edge, Name)}
    return names


def edge_sewn_twice(proof: Proof) -> Iterator[Finding]:
    """An edge is sewn in two seams, and another of the same length in none, of its own piece or of another.

    Why: left and right were confused, or one piece with another; the pieces can be sewn so, and the thing comes out twisted
    or closed at the wrong place.

    Fix: name the other edge in one of the two seams."""
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        finished = _finished(draft, assembly)
        seams: dict[tuple[str, str], list[Seam]] = {}
        for seam in draft.seams:
            for copy, part in dict.fromkeys(_parts_of(draft, seam)):
                seams.setdefault((copy, part), []).append(seam)
        for (copy, part), of_edge in seams.items():
            idle = _idle_twin(draft, copy, part, seams, finished) if len(of_edge) > 1 else None
            if idle is None and len(of_edge) > 1 and assembly.steps and not _takes_in_layers(draft, of_edge):
                idle = _idle_elsewhere(draft, copy, part, finished)
            if idle is not None:
                yield Finding(
                    "edge-sewn-twice",
                    Severity.WARNING,
                    of_edge[1].place,
                    f"'{copy}.{part}' is sewn in '{of_edge[0].name}' and in '{of_edge[1].name}', and '{idle}', as long, in none",
                    f"name '{idle}' in one of them",
                    (draft.variant,),
                )


def _parts_of(draft: Draft, seam: Seam) -> Iterator[tuple[str, str]]:
    """Copy and name of each single edge that a seam sews."""
    for edge in (*seam.first, *seam.second):
        for part in draft.piece(edge.piece).edges_of(edge.edge):
            yield edge.copy, part.name


def _idle_twin(
    draft: Draft, copy: str, sewn: str, seams: Mapping[tuple[str, str], object], finished: Collection[tuple[str, str]]
) -> str | None:
    """An edge of the same length that no seam sews, and that is neither hemmed nor bound nor laid on another."""
    piece = draft.piece(draft.copy(copy).piece)
    held = {one.placed for one in draft.placements}
    # The same edge of another copy of the piece.
    for other in piece.copies:
        if other.name != copy and (other.name, sewn) not in seams and piece.strip is None and other.count == 1:
            if any(name == other.name for name, _ in seams):
                # Outside and lining confused: the other one is sewn along its other edges, and here its fellow twice.
                idle = other.name not in held and (other.name, sewn) not in finished
            else:
                idle = draft.copy(copy).material == other.material
            if idle:
                return f"{other.name}.{sewn}"
    bound = {edge.edge for binding in draft.bindings for edge in binding.edges if edge.copy == copy}
    laid = {placed for one in draft.placements if one.placed == copy for placed, _ in one.matching}
    length = piece.edge(sewn).length
    for edge in piece.edges:
        free = (copy, edge.name) not in seams and not edge.layers and edge.name not in bound | laid
        if free and edge.name != sewn and edge.allowance > 0 and abs(edge.length - length) < ALIKE:
            return f"{copy}.{edge.name}"
    return None


def _takes_in_layers(draft: Draft, seams: Sequence[Seam]) -> bool:
    """True where seams of one edge take in the same edge of an outside and of its lining: two layers, one after the other."""
    cloths: dict[tuple[str, str], set[str]] = {}
    for copy, part in (one for seam in seams for one in _parts_of(draft, seam)):
        cloths.setdefault((draft.copy(copy).piece, part), set()).add(draft.copy(copy).material)
    return any(len(of_edge) > 1 for of_edge in cloths.values())


def _finished(draft: Draft, assembly: Assembly) -> set[tuple[str, str]]:
    """Copy and name of each edge that is sewn, finished, or has something set along it; basted ones are not."""
    actions = [action for step in assembly.steps for action in step.actions]
    set_along = [edge_named(draft, one.other) for one in actions if one.verb == "attach" and one.other]
    return edges_finished(draft, actions) | {
        (edge.copy.name, part.name) for edge in set_along if edge is not None for part in edge.parts
    }


def _idle_elsewhere(draft: Draft, copy: str, sewn: str, finished: Collection[tuple[str, str]]) -> str | None:
    """An edge as long of another piece of the same cloth, whose other edges are sewn; this one is basted at most."""
    own = draft.copy(copy)
    length = draft.piece(own.piece).edge(sewn).length
    laid = {one.placed for one in draft.placements}
    for piece in draft.pieces:
        handled = {edge for other in piece.copies for name, edge in finished if name == other.name}
        idle = [
            edge
            for edge in piece.edges
            if edge.name not in handled and edge.allowance > 0 and abs(edge.length - length) < ALIKE
        ]
        if not idle or not handled or piece.name == own.piece or piece.strip is not None:
            continue
        for other in piece.copies:
            sewn_too = any(name == other.name for name, _ in finished)
            if other.material == own.material and other.count == 1 and sewn_too and other.name not in laid:
                return f"{other.name}.{idle[0].name}"
    return None


def sewn_to_itself(proof: Proof) -> Iterator[Finding]:
    """A seam joins an edge of a copy with the same edge of the same copy.

    Why: it has nothing to be sewn to; the other edge of the two was meant.

    Fix: name the other edge on one of the two sides."""
    for draft in proof.drafts:
        for seam in draft.seams:
            sides = [
                {(one.copy, part.name) for one in side for part in draft.piece(one.piece).edges_of(one.edge)}
                for side in (seam.first, seam.second)
            ]
            twice = sorted((copy, edge) for copy, edge in sides[0] & sides[1] if draft.copy(copy).count == 1)
            if twice:
                copy, edge = twice[0]
                yield Finding(
                    "sewn-to-itself",
                    Severity.ERROR,
                    seam.place,
                    f"'{seam.name}' sews '{copy}.{edge}' to itself",
                    "name the other edge on one of its two sides",
                    (draft.variant,),
                )
