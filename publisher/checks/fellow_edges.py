"""Copies that are worked alike: a line that does to the one at one edge what it does to the other at another."""

from collections.abc import Iterator, Sequence
from itertools import combinations

from publisher.checks.deeds import Deed, deeds_of, seam_of
from publisher.checks.named_edges import across, atoms_in_seams, atoms_of_seam, edge_named
from publisher.checks.values import Proof
from publisher.drafting import Draft
from publisher.frozen import dataclass
from publisher.terms import Finding, Severity

# What prepares an edge for more, and what is then done to it.
PREPARES = ("fold", "gather", "press")
FINISHES = ("topstitch", "hem", "bind")
ON_EDGES = ("trim", "clip", "fold", "hem", "topstitch", "gather", "baste", "bind")
FEWEST = 4  # lines must be alike before one that differs is taken for a slip (a rule of the house)


@dataclass(frozen=True, slots=True)
class _Done:
    """What a deed does to one copy: the verb, and at which of its edges."""

    deed: Deed
    verb: str
    edges: tuple[str, ...]


def fellow_done_at_another_edge(proof: Proof) -> Iterator[Finding]:
    """Two copies of a piece are worked alike in all lines but one, which stitches an edge of the one that was folded in, and
    another edge of the other.

    Why: there the folded edge is never stitched down, and an edge is stitched that was done already.

    Fix: name the same edge of both."""
    for deeds in deeds_of(proof):
        for piece in deeds[0].draft.pieces if deeds else ():
            single = [copy for copy in piece.copies if copy.count == 1]
            for one, other in combinations(single, 2):
                if one.material == other.material and piece.strip is None:
                    yield from _odd_line(_done_to(deeds, one.name), _done_to(deeds, other.name))


def _done_to(deeds: Sequence[Deed], copy: str) -> list[_Done]:
    """All that is done to a copy, in order."""
    done: list[_Done] = []
    for deed in deeds:
        seam = seam_of(deed.draft, deed.action.target)
        named = edge_named(deed.draft, deed.action.target)
        if seam is not None:
            own = tuple(sorted(edge for name, edge in atoms_of_seam(deed.draft, seam) if name == copy))
        else:
            own = tuple(part.name for part in named.parts) if named is not None and named.copy.name == copy else ()
        if own or copy in (deed.action.target, deed.action.other):
            done.append(_Done(deed, deed.action.verb, own))
    return done


def _odd_line(ones: list[_Done], others: list[_Done]) -> Iterator[Finding]:
    if len(ones) != len(others) or len(ones) <= FEWEST:
        return
    odd = [at for at, (one, other) in enumerate(zip(ones, others, strict=True)) if _of(one) != _of(other)]
    if len(odd) != 1:
        return
    at = odd[0]
    for right, wrong in ((ones, others), (others, ones)):
        meant, slip = right[at], wrong[at]
        if meant.verb != slip.verb or meant.verb not in FINISHES or not meant.edges or not slip.edges:
            continue
        if set(meant.edges) & set(slip.edges) or _swapped(meant.edges) == set(slip.edges):
            continue
        before, after = wrong[:at], wrong[at + 1 :]
        waits = any(one.verb in PREPARES and one.edges == meant.edges for one in before)
        later = any(set(one.edges) & set(meant.edges) for one in after)
        if waits and not later and not _is_joined(slip.deed.draft, right, wrong, meant.edges):
            copies = [one.deed.action.target.partition(".")[0] for one in (slip, meant)]
            yield Finding(
                "fellow-done-at-another-edge",
                Severity.WARNING,
                slip.deed.action.place,
                f"step {slip.deed.step.number} says '{slip.verb} {slip.deed.action.target}'; '{copies[1]}', worked alike, is "
                f"stitched at '{meant.edges[0]}', which was prepared on both",
                f"write 'Does: {meant.verb} {copies[0]}.{meant.edges[0]}'",
                (slip.deed.draft.variant,),
            )
            return


def _of(done: _Done) -> tuple[str, tuple[str, ...]]:
    return done.verb, done.edges


def _swapped(edges: tuple[str, ...]) -> set[str]:
    """The names of edges with left for right: of two that mirror one another these are the same."""
    return {across(name) for name in edges}


def _is_joined(draft: Draft, right: list[_Done], wrong: list[_Done], edges: tuple[str, ...]) -> bool:
    """True where the edge is sewn to something, which holds it."""
    copies = {one.deed.action.target.partition(".")[0] for one in (*right, *wrong) if one.edges}
    return any(name in copies and edge in edges for name, edge in atoms_in_seams(draft))


def other_side_left_out(proof: Proof) -> Iterator[Finding]:
    """A step works on the left and on the right edge of a copy, and does one more thing to one of them alone.

    Why: a line was forgotten; the figure shows one side, and the reader leaves the other as it is.

    Fix: write the line for the other side, too."""
    for deeds in deeds_of(proof):
        done: dict[str, set[str]] = {}
        by_step: dict[int, list[Deed]] = {}
        for deed in deeds:
            done.setdefault(deed.action.verb, set()).add(deed.action.target)
            by_step.setdefault(deed.step.number, []).append(deed)
        for own in by_step.values():
            names = {(deed.action.verb, deed.action.target) for deed in own}
            for deed in own:
                verb, target = deed.action.verb, deed.action.target
                copy, _, edge = target.partition(".")
                other = f"{copy}.{across(edge)}"
                if other == target or edge_named(deed.draft, other) is None or other in done[verb]:
                    continue
                both = sorted(one for one, name in names if one != verb and name == target and (one, other) in names)
                if both and verb in ON_EDGES:
                    yield Finding(
                        "other-side-left-out",
                        Severity.WARNING,
                        deed.action.place,
                        f"step {deed.step.number} does this to '{target}' and not to '{other}', of which it says "
                        f"'{both[0]}', too",
                        f"write 'Does: {verb} {other}' below it",
                        (deed.draft.variant,),
                    )


def fellow_layer_left_out(proof: Proof) -> Iterator[Finding]:
    """A step does one thing to two edges of one copy, and to one of them alone of the copy that lies with it.

    Why: a line was forgotten; the layer that is left out is not snipped, and does not open round the curve.

    Fix: write the line for the other layer, too."""
    for deeds in deeds_of(proof):
        done = {(deed.action.verb, deed.action.target) for deed in deeds}
        by_verb: dict[tuple[int, str, str], list[tuple[Deed, str, str]]] = {}
        for deed in deeds:
            named = edge_named(deed.draft, deed.action.target)
            if named is not None and deed.action.verb in ("clip", "trim", "baste"):
                edge = deed.action.target.partition(".")[2]
                group = (deed.step.number, deed.action.verb, named.piece.name)
                by_verb.setdefault(group, []).append((deed, named.copy.name, edge))
        for (number, verb, _), found in by_verb.items():
            copies, edges = sorted({copy for _, copy, _ in found}), sorted({edge for _, _, edge in found})
            left = [(copy, edge) for copy in copies for edge in edges if (verb, f"{copy}.{edge}") not in done]
            if len(copies) > 1 and len(edges) > 1 and len(left) == 1:
                yield Finding(
                    "fellow-layer-left-out",
                    Severity.WARNING,
                    found[-1][0].action.place,
                    f"step {number} says '{verb}' of {' and '.join(edges)} of '{copies[0]}' and '{copies[1]}', and not of "
                    f"'{'.'.join(left[0])}'",
                    f"write 'Does: {verb} {'.'.join(left[0])}' below it",
                    (found[-1][0].draft.variant,),
                )


def fellow_worked_elsewhere(proof: Proof) -> Iterator[Finding]:
    """A step does one thing to an edge of one copy and to another edge of its fellow, and the next thing to the same edge of
    both.

    Why: a line names the wrong edge; the edge that is meant is snipped without its staystitching.

    Fix: name the same edge of both."""
    for deeds in deeds_of(proof):
        by_step: dict[tuple[int, str], dict[str, dict[str, Deed]]] = {}
        for deed in deeds:
            named = edge_named(deed.draft, deed.action.target)
            if named is not None and deed.action.verb in ON_EDGES:
                group = by_step.setdefault((deed.step.number, named.piece.name), {})
                group.setdefault(deed.action.verb, {})[deed.action.target] = deed
        for group in by_step.values():
            pairs = {verb: [one.partition(".")[::2] for one in done] for verb, done in group.items() if len(done) == 2}
            alike = {
                (frozenset((one, other)), edge)
                for (one, edge), (other, its) in pairs.values()
                if edge == its and one != other
            }
            for verb, ((one, edge), (other, its)) in pairs.items():
                copies = frozenset((one, other))
                wrong = next((name for name in (edge, its) if (copies, name) not in alike), None)
                if edge == its or one == other or wrong is None or not {(copies, edge), (copies, its)} & alike:
                    continue
                meant = its if wrong == edge else edge
                deed = group[verb][f"{one if wrong == edge else other}.{wrong}"]
                yield Finding(
                    "fellow-worked-elsewhere",
                    Severity.WARNING,
                    deed.action.place,
                    f"step {deed.step.number} does this to '{deed.action.target}', and to '{meant}' of its fellow, which both "
                    "are then worked on",
                    f"name '{meant}' here, too",
                    (deed.draft.variant,),
                )
