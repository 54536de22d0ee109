"""The order of the work: nothing is used before it is there, and nothing is done when it can no longer be reached."""

from collections.abc import Iterator

from publisher.checks.deeds import Deed, copies_of, deeds_of, misspelt
from publisher.checks.values import Proof
from publisher.terms import Finding, Severity


def used_before_cut(proof: Proof) -> Iterator[Finding]:
    """A step works on a copy that no step before it has cut.

    Why: the reader looks for a piece that she does not have yet.

    Fix: cut it earlier, or move the step down."""
    for deeds in deeds_of(proof):
        copies = {copy.name for deed in deeds[:1] for piece in deed.draft.pieces for copy in piece.copies}
        if not any(deed.action.verb == "cut" for deed in deeds):
            continue
        for deed in deeds:
            early = [name for name in copies_of(deed.action) if name in copies - deed.before.cut]
            if deed.action.verb != "cut" and early:
                yield Finding(
                    "used-before-cut",
                    Severity.ERROR,
                    deed.action.place,
                    f"step {deed.step.number} uses '{early[0]}', which is not cut by then",
                    f"write 'Does: cut {early[0]}' (or 'cut all') under an earlier step",
                    (deed.draft.variant,),
                )


def fused_after_sewing(proof: Proof) -> Iterator[Finding]:
    """Interfacing is fused to a copy that has been sewn already.

    Why: it no longer lies flat, and the interfacing is not caught in the seam.

    Fix: fuse it before the first seam of this copy."""
    for deeds in deeds_of(proof):
        for deed in deeds:
            sewn = sorted(edge for copy, edge in deed.before.closed_edges if copy == deed.action.other)
            if deed.action.verb == "fuse" and sewn:
                yield Finding(
                    "fused-after-sewing",
                    Severity.ERROR,
                    deed.action.place,
                    f"'{deed.action.target}' is fused to '{deed.action.other}' in step {deed.step.number}, "
                    f"when its edge '{sewn[0]}' is sewn already",
                    "move the line to a step before that seam",
                    (deed.draft.variant,),
                )


def marked_after_use(proof: Proof) -> Iterator[Finding]:
    """A mark is transferred after the step that needs it.

    Why: the reader has set the snap, or laid the pocket, by guess.

    Fix: mark it in an earlier step."""
    for deeds in deeds_of(proof):
        needed: dict[str, int] = {}
        for deed in deeds:
            if deed.action.verb == "mark" and deed.action.target in needed:
                yield Finding(
                    "marked-after-use",
                    Severity.ERROR,
                    deed.action.place,
                    f"'{deed.action.target}' is marked in step {deed.step.number}, "
                    f"and step {needed[deed.action.target]} needs it",
                    "move the line to an earlier step",
                    (deed.draft.variant,),
                )
            for name in _marks_needed(deed):
                needed.setdefault(name, deed.step.number)


def _marks_needed(deed: Deed) -> Iterator[str]:
    if deed.action.verb == "attach" and deed.action.other:
        yield deed.action.other
    if deed.action.verb in ("place", "baste"):
        for placement in deed.draft.placements:
            if placement.name == deed.action.target:
                for placed, below in placement.matching:
                    yield f"{placement.placed}.{placed}"
                    yield f"{placement.below}.{below}"


def gap_never_closed(proof: Proof) -> Iterator[Finding]:
    """A seam leaves a gap open, and no step closes it.

    Why: the reader is left with a hole and no word about it.

    Fix: add `Does: close …` to the step that closes it."""
    for deeds in deeds_of(proof):
        closed = {deed.action.target for deed in deeds if deed.action.verb == "close"}
        sewn = {deed.action.target: deed for deed in deeds if deed.action.verb == "sew"}
        for seam in deeds[0].draft.seams if deeds else ():
            if seam.leave_open and seam.name in sewn and seam.name not in closed:
                yield Finding(
                    "gap-never-closed",
                    Severity.WARNING,
                    sewn[seam.name].action.place,
                    f"'{seam.name}' is sewn in step {sewn[seam.name].step.number} with a gap, and no step closes it",
                    f"write 'Does: close {seam.name}' under the step that closes it",
                    (deeds[0].draft.variant,),
                )


def closed_before_turning(proof: Proof) -> Iterator[Finding]:
    """The gap of a seam is closed before the work has been turned through it.

    Why: there is nothing left to turn it through.

    Fix: turn the work first; write `Does: turn …` under that step."""
    for deeds in deeds_of(proof):
        gaps = {seam.name for deed in deeds[:1] for seam in deed.draft.seams if seam.leave_open}
        opened: set[str] = set()
        for deed in deeds:
            if deed.action.verb == "sew" and deed.action.target in gaps:
                opened.add(deed.action.target)
            elif deed.action.verb == "turn":
                opened.clear()
            elif deed.action.verb == "close" and deed.action.target in opened:
                yield Finding(
                    "closed-before-turning",
                    Severity.ERROR,
                    deed.action.place,
                    f"step {deed.step.number} closes the gap of '{deed.action.target}', "
                    "and nothing has been turned since it was sewn",
                    "turn the work first, and write 'Does: turn …' under that step",
                    (deed.draft.variant,),
                )


def notion_never_attached(proof: Proof) -> Iterator[Finding]:
    """A notion that is counted out is attached in no step; or one that no step attaches or speaks of.

    Why: the reader buys it and is never told where it goes.

    Fix: add `Does: attach … at …` to the step that sets it, or take it out."""
    for deeds in deeds_of(proof):
        attached = {deed.action.target for deed in deeds if deed.action.verb in ("attach", "thread")}
        spoken = " ".join(str(step.text).lower() for section in proof.source.sections for step in section.steps)
        for notion in deeds[0].draft.notions if deeds else ():
            named = {notion.key, *(notion.key.split()), *([notion.kind] if notion.kind else [])}
            unspoken = not any(word.lower() in spoken for word in named) and "thread" not in notion.name.lower()
            if notion.count is None and notion.key not in attached and unspoken:
                yield Finding(
                    "notion-never-attached",
                    Severity.WARNING,
                    notion.place,
                    f"the reader buys '{notion.key}', and no step attaches it or speaks of it",
                    f"write 'Does: attach {notion.key} at …' under the step that sets it, or take it out",
                    (deeds[0].draft.variant,),
                )
            if notion.count and notion.key not in attached:
                yield Finding(
                    "notion-never-attached",
                    Severity.WARNING,
                    notion.place,
                    f"the reader buys {notion.count} × '{notion.key}', and no step attaches it",
                    f"write 'Does: attach {notion.key} at …' under the step that sets it",
                    (deeds[0].draft.variant,),
                )


def topstitched_too_early(proof: Proof) -> Iterator[Finding]:
    """An edge is topstitched before the seam that it belongs to has been sewn.

    Why: the seam allowance is not caught, and the stitching has to be unpicked to sew the seam.

    Fix: move the topstitching to a step after the seam."""
    for deeds in deeds_of(proof):
        for deed in deeds:
            later = _seams_to_come(deed) if deed.action.verb == "topstitch" else []
            if later and not misspelt(proof, ("sew",), [seam.name for seam in deed.draft.seams], later):
                yield Finding(
                    "topstitched-too-early",
                    Severity.WARNING,
                    deed.action.place,
                    f"step {deed.step.number} topstitches '{deed.action.target}', and '{later[0]}' is not sewn by then",
                    "move the line to a step after that seam",
                    (deed.draft.variant,),
                )


def _seams_to_come(deed: Deed) -> list[str]:
    """The seams of a topstitched edge, or the topstitched seam itself, where none has been sewn and nothing else done."""
    target = deed.action.target
    copy, _, edge = target.partition(".")
    seams = [
        seam.name
        for seam in deed.draft.seams
        if seam.name == target or any((one.copy, one.edge) == (copy, edge) for one in (*seam.first, *seam.second))
    ]
    return [] if (copy, edge) in deed.before.closed_edges or any(name in deed.before.sewn for name in seams) else seams


# What is done once to each thing; a snap has two halves, and an edge may be pressed and clipped again.
ONCE = ("place", "hem", "bind", "pleat", "dart", "close", "fuse")


def done_twice(proof: Proof) -> Iterator[Finding]:
    """Two steps do the same thing to the same piece.

    Why: the reader looks for a second pocket, or unpicks what was right.

    Fix: take one of the lines out, or name the other piece."""
    for deeds in deeds_of(proof):
        first: dict[tuple[str, str], int] = {}
        for deed in deeds:
            done = deed.action.verb, deed.action.target
            if deed.action.verb in ONCE and done in first:
                yield Finding(
                    "done-twice",
                    Severity.WARNING,
                    deed.action.place,
                    f"step {deed.step.number} says '{' '.join(done)}', and step {first[done]} has done it",
                    "take one of the lines out, or name the other piece",
                    (deed.draft.variant,),
                )
            first.setdefault(done, deed.step.number)
