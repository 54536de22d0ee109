"""The ends of what is sewn on: joined into a ring before it goes round a ring, hemmed before it is sewn to a hemmed edge."""

import re
from collections.abc import Iterator

from publisher.checks.deeds import Deed, deeds_of, piece_of, seam_of, sewn_before
from publisher.checks.values import Proof
from publisher.drafting import Draft, Seam, SeamEdge
from publisher.terms import Finding, Severity

# Words of a step that sews round and leaves the ends free, to be joined when their length is seen.
LEFT_FREE = re.compile(r"\b(?:leave|leaving|tails?|unsewn|overlap|open|stop|stopping)\b|\bfree ends?\b", re.IGNORECASE)

Atom = tuple[str, str]  # copy and edge


def ends_joined_too_late(proof: Proof) -> Iterator[Finding]:
    """A piece is sewn all round a ring, and its own two ends are joined in a later step.

    Why: they are caught in the seam by then, and whether the length comes out shows when it cannot be changed any more.

    Fix: join the ends first; or leave them free, and say so."""
    texts = {step.number: str(step.text) for section in proof.source.sections for step in section.steps}
    for deeds in deeds_of(proof):
        for deed in deeds:
            joins = seam_of(deed.draft, deed.action.target) if deed.action.verb == "sew" else None
            ends = _both_ends(deed.draft, joins) if joins is not None else None
            for round_ in _sewn_earlier(deeds, deed):
                if ends is None:
                    break
                seam = seam_of(deed.draft, round_.action.target)
                if seam is None or LEFT_FREE.search(texts[round_.step.number]) or not _goes_round(round_, seam, ends):
                    continue
                yield Finding(
                    "ends-joined-too-late",
                    Severity.WARNING,
                    deed.action.place,
                    f"step {deed.step.number} joins the ends of '{next(iter(ends))[0]}', which '{seam.name}' in step "
                    f"{round_.step.number} has sewn round a ring already",
                    f"move the line to a step before step {round_.step.number}",
                    (deed.draft.variant,),
                )


def _sewn_earlier(deeds: tuple[Deed, ...], deed: Deed) -> Iterator[Deed]:
    for earlier in deeds:
        if earlier.action.verb == "sew" and earlier.step.number < deed.step.number:
            yield earlier


def _both_ends(draft: Draft, seam: Seam) -> frozenset[Atom] | None:
    """The two edges of one copy that a seam joins; nothing where it joins others."""
    atoms = _atoms(draft, seam.first) | _atoms(draft, seam.second)
    return frozenset(atoms) if len(atoms) == 2 and len({copy for copy, _ in atoms}) == 1 else None


def _atoms(draft: Draft, sides: tuple[SeamEdge, ...]) -> set[Atom]:
    return {(side.copy, part.name) for side in sides for part in piece_of(draft, side.copy).edges_of(side.edge)}


def _goes_round(deed: Deed, seam: Seam, ends: frozenset[Atom]) -> bool:
    """True for a seam that sews one edge, from end to end of it, to a ring that is closed by then."""
    for near, far in ((seam.first, seam.second), (seam.second, seam.first)):
        own = _atoms(deed.draft, near)
        if {copy for copy, _ in own} == {next(iter(ends))[0]} and _beside(deed.draft, own) == ends:
            return _is_ring(deed, _atoms(deed.draft, far))
    return False


def _beside(draft: Draft, atoms: set[Atom]) -> frozenset[Atom]:
    """The edges round the corners in which these end."""
    found: set[Atom] = set()
    for copy, name in atoms:
        names = [edge.name for edge in piece_of(draft, copy).edges]
        at = names.index(name)
        found |= {(copy, names[at - 1]), (copy, names[(at + 1) % len(names)])}
    return frozenset(found - atoms)


def _is_ring(deed: Deed, atoms: set[Atom]) -> bool:
    """True where edges close a ring: one that ends where it begins, or all that lies round their corners is joined."""
    if _closed_by_itself(deed.draft, atoms):
        return True
    beside = _beside(deed.draft, atoms)
    joined: set[Atom] = set()
    for seam in sewn_before(deed):
        first, second = _atoms(deed.draft, seam.first) & beside, _atoms(deed.draft, seam.second) & beside
        if first and second:
            joined |= first | second
    return bool(beside) and beside <= joined


def _closed_by_itself(draft: Draft, atoms: set[Atom]) -> bool:
    copies = {copy for copy, _ in atoms}
    return len(copies) == 1 and len(atoms) == len(piece_of(draft, next(iter(copies))).edges)


def hemmed_after_joining(proof: Proof) -> Iterator[Finding]:
    """An edge is hemmed when the edge beside it is sewn already, to a piece that was hemmed first at that corner.

    Why: the seam holds the allowance flat that the hem would turn in, and the two do not end level.

    Fix: hem it before the seam."""
    for deeds in deeds_of(proof):
        told: set[str] = set()
        for deed in deeds:
            copy, _, edge = deed.action.target.partition(".")
            if deed.action.verb != "hem" or copy in told or piece_of(deed.draft, copy).strip is not None:
                continue
            met = next((one for one in _met_by_a_hem(deeds, deed, copy, edge)), None)
            if met is not None:
                told.add(copy)
                sewn, hems = met
                between = " and ".join(f"'{one}'" for one in hems)
                yield Finding(
                    "hemmed-after-joining",
                    Severity.WARNING,
                    deed.action.place,
                    f"step {deed.step.number} hems '{deed.action.target}', and '{sewn.action.target}' in step "
                    f"{sewn.step.number} has sewn it on between {between}, which were hemmed before",
                    f"move the line to a step before step {sewn.step.number}",
                    (deed.draft.variant,),
                )


def _met_by_a_hem(deeds: tuple[Deed, ...], deed: Deed, copy: str, edge: str) -> Iterator[tuple[Deed, list[str]]]:
    """Earlier seams of an edge round the corner of this one, and the two hems between which the other side lies."""
    own = {(copy, part.name) for part in piece_of(deed.draft, copy).edges_of(edge)}
    for sewn in _sewn_earlier(deeds, deed):
        seam = seam_of(deed.draft, sewn.action.target)
        for near, far in ((seam.first, seam.second), (seam.second, seam.first)) if seam is not None else ():
            if not own & _beside(deed.draft, _atoms(deed.draft, near)) or {one.copy for one in far} == {copy}:
                continue
            hems = {f"{other}.{name}" for other, name in _beside(deed.draft, _atoms(deed.draft, far))}
            # Only where both ends of the other side are hemmed is it plain that this end meets a hem.
            if len(hems) == 2 and hems <= set(sewn.before.hemmed):
                yield sewn, sorted(hems)
