"""Work in its turn: strips joined, then folded, then sewn on; hems before pleats; pockets laid before they are divided."""

from collections.abc import Iterator

from publisher.checks.deeds import Deed, deeds_of, piece_of, placement_laid
from publisher.checks.named_edges import atoms_in_seams, edge_named
from publisher.checks.values import Proof
from publisher.drafting import LineMark
from publisher.terms import Finding, Severity

# In what order a binding is sewn on: begun, mitred at corners, its ends joined, folded over.
TURNS = {"begin": 0, "mitre": 1, "join": 2, "bind": 3}
FOLDED_IN = ("fold", "hem", "press")


def joined_after_folding(proof: Proof) -> Iterator[Finding]:
    """The lengths of a strip are joined when the strip is folded already, or sewn on.

    Why: the join has to be opened out flat, and what was pressed is pressed again.

    Fix: join the lengths first."""
    for deeds in deeds_of(proof):
        for at, deed in enumerate(deeds):
            target = deed.action.target
            strip = any(one.name == target for piece in deed.draft.pieces for one in piece.copies if piece.strip)
            before = next(
                (
                    one
                    for one in deeds[:at]
                    if (one.action.verb == "fold" and one.action.target == target)
                    or (one.action.verb in ("begin", "bind") and target in _strips_of(one))
                ),
                None,
            )
            if deed.action.verb == "join" and strip and before is not None:
                yield Finding(
                    "joined-after-folding",
                    Severity.ERROR,
                    deed.action.place,
                    f"step {deed.step.number} joins the lengths of '{target}', and step {before.step.number} says "
                    f"'{before.action.verb} {before.action.target}'",
                    f"move the line to a step before step {before.step.number}",
                    (deed.draft.variant,),
                )


def _strips_of(deed: Deed) -> tuple[str, ...]:
    """The strips that an action begins to bind with, or binds with."""
    bindings = {one.name: one.strip for one in deed.draft.bindings}
    return tuple(one for one in (bindings.get(deed.action.target), deed.action.other) if one)


def binding_out_of_turn(proof: Proof) -> Iterator[Finding]:
    """A binding is folded over, joined or mitred in a step before the one that comes before it; or begun unfolded.

    Why: a binding is pressed, begun, mitred at each corner, joined at its ends and only then folded over: out of that
    order a step asks for what is not there yet.

    Fix: bring the steps into that order."""
    for deeds in deeds_of(proof):
        for at, deed in enumerate(deeds):
            verb, target = deed.action.verb, deed.action.target
            bindings = {one.name: one.strip for one in deed.draft.bindings}
            if target not in bindings or verb not in TURNS:
                continue
            late = next(
                (
                    one
                    for one in deeds[at + 1 :]
                    if one.step.number != deed.step.number
                    and (
                        (one.action.target == target and TURNS.get(one.action.verb, 9) < TURNS[verb])
                        or (one.action.verb == "fold" and one.action.target == bindings[target])
                    )
                ),
                None,
            )
            if late is not None:
                yield Finding(
                    "binding-out-of-turn",
                    Severity.ERROR,
                    deed.action.place,
                    f"step {deed.step.number} says '{verb} {target}', and only step {late.step.number} says "
                    f"'{late.action.verb} {late.action.target}'",
                    f"move step {late.step.number} before it",
                    (deed.draft.variant,),
                )


def hemmed_after_pleating(proof: Proof) -> Iterator[Finding]:
    """An edge that pleats run out into is hemmed when the pleats are closed already.

    Why: the hem goes over three layers at each fold, and the pleats cannot open at the hem any more.

    Fix: hem the flat edge first, then close the pleats."""
    for deeds in deeds_of(proof):
        pleated: dict[str, int] = {}
        for deed in deeds:
            copy, _, edge = deed.action.target.partition(".")
            if deed.action.verb == "pleat":
                pleated.setdefault(copy, deed.step.number)
            elif deed.action.verb == "hem" and copy in pleated and _runs_across(deed, copy, edge):
                yield Finding(
                    "hemmed-after-pleating",
                    Severity.WARNING,
                    deed.action.place,
                    f"step {deed.step.number} hems '{deed.action.target}', and step {pleated[copy]} has closed its pleats",
                    f"move the line to a step before step {pleated[copy]}",
                    (deed.draft.variant,),
                )


def _runs_across(deed: Deed, copy: str, edge: str) -> bool:
    """True for an edge that is longer with the pleats open."""
    piece = piece_of(deed.draft, copy)
    if piece.opened is None:
        return False
    return piece.opened.edge(edge).length > piece.edge(edge).length + 1.0


def stitched_before_placing(proof: Proof) -> Iterator[Finding]:
    """The dividing lines of a pocket are stitched before the pocket is laid on what it divides.

    Why: the stitches go through the pocket alone, and hold nothing.

    Fix: lay it on first."""
    for deeds in deeds_of(proof):
        for at, deed in enumerate(deeds):
            copy = deed.action.target
            if deed.action.verb != "topstitch" or "." in copy or not _has_lines(deed, copy):
                continue
            later = next((one for one in deeds[at:] if _lays(one, copy)), None)
            if later is not None:
                yield Finding(
                    "stitched-before-placing",
                    Severity.ERROR,
                    deed.action.place,
                    f"step {deed.step.number} sews along the lines of '{copy}', which step {later.step.number} lays in its "
                    "place",
                    f"move the line to a step after step {later.step.number}",
                    (deed.draft.variant,),
                )


def _has_lines(deed: Deed, copy: str) -> bool:
    if not any(one.name == copy for piece in deed.draft.pieces for one in piece.copies):
        return False
    marks = piece_of(deed.draft, copy).marks
    return any(isinstance(mark, LineMark) and mark.kind == "stitching line" for mark in marks)


def _lays(deed: Deed, copy: str) -> bool:
    placed = placement_laid(deed)
    return placed is not None and placed.placed == copy


def stitched_down_raw(proof: Proof) -> Iterator[Finding]:
    """An edge with an allowance is stitched down on the piece below, and no step folds the allowance in.

    Why: the raw edge lies open beside the stitches, and the pocket comes out larger by its allowance.

    Fix: press the allowance in first: `Does: fold …`; or give the edge an allowance of 0."""
    for deeds in deeds_of(proof):
        done = {deed.action.target for deed in deeds if deed.action.verb in FOLDED_IN}
        folded = {atom for deed in deeds[:1] for name in done for atom in _atoms(deed, name)}
        pressed = {name for name in done if "." not in name}  # all its edges, by the words
        for deed in deeds:
            laid = {one.placed for one in deed.draft.placements if one.name in deed.before.placed}
            copy = deed.action.target.partition(".")[0]
            if deed.action.verb != "topstitch" or "." not in deed.action.target or copy not in laid - pressed:
                continue
            sewn = set(atoms_in_seams(deed.draft))
            piece = piece_of(deed.draft, copy)
            raw = [
                name
                for _, name in _atoms(deed, deed.action.target)
                if (copy, name) not in folded | sewn and piece.edge(name).allowance > 0 and piece.strip is None
            ]
            if raw and not _lies_at_a_seam(deed, copy, raw[0]):
                yield Finding(
                    "stitched-down-raw",
                    Severity.WARNING,
                    deed.action.place,
                    f"step {deed.step.number} stitches '{raw[0]}' of '{copy}' down, and no step folds its allowance in",
                    f"write 'Does: fold {copy}.{raw[0]}' under the step that presses it in, or give it an allowance of 0",
                    (deed.draft.variant,),
                )


def _atoms(deed: Deed, name: str) -> list[tuple[str, str]]:
    edge = edge_named(deed.draft, name)
    return [(edge.copy.name, part.name) for part in edge.parts] if edge is not None else []


def _lies_at_a_seam(deed: Deed, copy: str, edge: str) -> bool:
    """True for an edge that lies along one of the piece below, where a seam or a binding is to catch it."""
    return any(own == edge for one in deed.draft.placements if one.placed == copy for own, _ in one.matching)
