"""Turning the work right side out: through a gap that lets it pass, and nothing set when its wrong side is shut in."""

import re
from collections.abc import Iterator

from publisher.checks.amounts import lengths_meant, told
from publisher.checks.deeds import Deed, deeds_of, piece_of, seam_of, sewn_before, told_steps
from publisher.checks.inside_out import enclosed_pairs
from publisher.checks.values import Proof
from publisher.drafting import Copy, Draft, Piece
from publisher.terms import Finding, Severity, Variant, Written

# A hand's two fingers and the cloth pass through this; stiff layers are rolled, to a third of their narrower side
# (common practice, no source).
SHORTEST_GAP, STIFF_PART = 40.0, 3  # mm; a third
# Layers so thick do not crumple (a rule of the house).
STIFF = 1.5  # mm
# What is set with prongs or a back part, from the wrong side.
SET_FROM_BEHIND = ("magnetic snap", "eyelet", "grommet", "rivet", "snap")

# What is turned through a cut in its lining or backing.
SLIT = re.compile(r"\b(?:slit|slash|hole|cut open)\b", re.IGNORECASE)


def gap_too_short(proof: Proof) -> Iterator[Finding]:
    """The gap is too short to pull the work through: fingers, or the stiffest layer, do not pass.

    Why: the reader unpicks the seam, or creases the wadding for good.

    Fix: leave a longer gap, or leave a longer seam open."""
    for draft in proof.drafts:
        for seam in draft.seams:
            if not seam.leave_open:
                continue
            wanted, stiff = _wanted_gap(draft)
            if seam.leave_open < wanted - 0.5:
                why = (
                    f"'{stiff}' is rolled to {told(wanted, draft)}" if stiff else f"a hand takes {told(wanted, draft)}"
                )
                yield Finding(
                    "gap-too-short",
                    Severity.WARNING,
                    seam.place,
                    f"the gap of '{seam.name}' is {told(seam.leave_open, draft)}, and {why}",
                    "leave a longer gap",
                    (draft.variant,),
                )


def _wanted_gap(draft: Draft) -> tuple[float, str]:
    """The shortest gap that lets everything pass, mm, and the stiff copy that asks for it, if one does."""
    stiff = [
        (min(piece.finished_line.box.width, piece.finished_line.box.height) / STIFF_PART, copy.name)
        for piece, copy in _stiff_copies(draft)
    ]
    widest = max(stiff, default=(0.0, ""))
    return widest if widest[0] > SHORTEST_GAP else (SHORTEST_GAP, "")


def _stiff_copies(draft: Draft) -> Iterator[tuple[Piece, Copy]]:
    stiff = {
        material.key
        for material in draft.materials
        if material.kind == "wadding" or (material.thickness is not None and material.thickness >= STIFF)
    }
    for piece in draft.pieces:
        for copy in piece.copies:
            if copy.material in stiff:
                yield piece, copy


def set_out_of_reach(proof: Proof) -> Iterator[Finding]:
    """A snap, an eyelet or a pocket is set when the wrong side of its cloth is shut in on all sides.

    Why: the back of the snap cannot be reached any more, and a pocket would be sewn through all layers.

    Fix: move the step to before the seam that closes the work."""
    for deeds in deeds_of(proof):
        for deed in deeds:
            copy = _worked_on(deed)
            if copy is not None and _shut_in(deed, copy):
                yield Finding(
                    "set-out-of-reach",
                    Severity.ERROR,
                    deed.action.place,
                    f"step {deed.step.number} works on '{copy}', whose other side is shut in by then",
                    "move the line to a step before the seam that closes it",
                    (deed.draft.variant,),
                )


def _worked_on(deed: Deed) -> str | None:
    """The copy whose wrong side an action needs."""
    action = deed.action
    if action.verb == "attach" and action.other:
        kinds = {notion.key: notion.kind for notion in deed.draft.notions}
        return action.other.partition(".")[0] if kinds.get(action.target) in SET_FROM_BEHIND else None
    if action.verb == "place":
        return next((one.below for one in deed.draft.placements if one.name == action.target), None)
    return None


def _shut_in(deed: Deed, copy: str) -> bool:
    """True where every edge of a copy is sewn to another and no gap that was left is still open; or where it was sewn
    round with another and turned, and what is set needs the side that lies within."""
    if deed.action.verb == "attach" and any(
        copy in pair and not pair.isdisjoint(deed.before.turned) for pair in enclosed_pairs(deed)
    ):
        return True
    sewn = [seam for seam in deed.draft.seams if seam.name in deed.before.sewn]
    closed = {(edge.copy, edge.edge) for seam in sewn for edge in (*seam.first, *seam.second)}
    piece = deed.draft.piece(deed.draft.copy(copy).piece)
    parts = {part.name for name, edge in closed if name == copy for part in piece.edges_of(edge)}
    gaps = {seam.name for seam in sewn if seam.leave_open}
    shut = {edge.name for edge in piece.edges} <= parts
    return shut and gaps <= deed.before.gaps_closed


def turned_without_gap(proof: Proof) -> Iterator[Finding]:
    """The work is turned when all edges of all that is sewn together are sewn, and no seam leaves a gap.

    Why: there is nothing to turn it through.

    Fix: write `leave open: …` under a seam, and say in its step that it is left open; or turn before the last seam."""
    texts = {step.number: str(step.text) for section in proof.source.sections for step in section.steps}
    for deeds in deeds_of(proof):
        for deed in deeds:
            if deed.action.verb != "turn" or any(SLIT.search(texts[number]) for number in texts):
                continue
            together = _sewn_together(deed, deed.action.target)
            if len(together) > 1 and not _opens(deeds, deed, together):
                yield Finding(
                    "turned-without-gap",
                    Severity.ERROR,
                    deed.action.place,
                    f"step {deed.step.number} turns '{deed.action.target}', and it is sewn shut all round: no seam leaves a gap",
                    "write 'leave open: …' under a seam of it, or turn it in a step before its last seam",
                    (deed.draft.variant,),
                )


def _sewn_together(deed: Deed, copy: str) -> frozenset[str]:
    """All copies that hang together with one by seams."""
    groups = [frozenset(side.copy for side in (*seam.first, *seam.second)) for seam in sewn_before(deed)]
    together = frozenset({copy})
    while True:
        wider = together.union(*(group for group in groups if group & together))
        if wider == together:
            return together
        together = wider


def _opens(deeds: tuple[Deed, ...], deed: Deed, together: frozenset[str]) -> bool:
    """True where what hangs together has an edge that no seam closes, a gap, or a zip."""
    closed: set[tuple[str, str]] = set()
    for seam in sewn_before(deed):
        if seam.leave_open and {one.copy for one in seam.first} & together:
            return True  # one that is closed too soon is told where it is closed
        for side in (*seam.first, *seam.second):
            closed |= {(side.copy, part.name) for part in piece_of(deed.draft, side.copy).edges_of(side.edge)}
    edges = {(copy, edge.name) for copy in together for edge in piece_of(deed.draft, copy).edges}
    zips = {notion.key for notion in deed.draft.notions if notion.kind == "zip"}
    zipped = any(one.action.verb == "attach" and one.action.target in zips for one in deeds)
    return zipped or not edges <= closed


# "Open the zip to within {kept closed} of its end", "leave {x} of it closed": what stays shut; "open the zip by {x}".
KEPT_SHUT = re.compile(
    r"\bopen the zip\b[^.;{}]*?(?: to(?: within)? \{([^{}]*)\} (?:of|from)\b| \{([^{}]*)\} short of\b)"
    r"|\bleav(?:e|ing) (?:only )?\{([^{}]*)\} of (?:it|the zip) closed\b",
    re.IGNORECASE,
)
OPENED_BY = re.compile(r"\bopen the zip (?:by|for) \{([^{}]*)\}", re.IGNORECASE)


def zip_opened_too_little(proof: Proof) -> Iterator[Finding]:
    """The work is turned through a zip that the words open by less than what is turned needs.

    Why: fingers, or stiff layers, do not pass; pulled through, the ends of the zip tear.

    Fix: let the reader open it further."""
    opened: dict[Variant, tuple[float, Written]] = {}
    for draft, step, written in told_steps(proof):
        zips = _zip_lengths(draft)
        shut = lengths_meant(draft, written, KEPT_SHUT) if len(zips) == 1 else ()
        by = lengths_meant(draft, written, OPENED_BY) if len(zips) == 1 else ()
        for quote, length in (*((quote, min(zips.values()) - one) for quote, one in shut), *by):
            opened[draft.variant] = length, quote
        turned = next((one for one in step.actions if one.verb == "turn"), None)
        if turned is None or draft.variant not in opened:
            continue
        zipped = {spot.partition(".")[0] for notion, spot in step.before.attached_to if notion in zips}
        if zipped.isdisjoint(_sewn_together(Deed(draft, step, turned, step.before), turned.target)):
            continue
        opening, quote = opened.pop(draft.variant)
        gaps = any(seam.leave_open and seam.name in step.before.sewn for seam in draft.seams)
        wanted, stiff = _wanted_gap(draft)
        if not gaps and opening < wanted - 0.5:
            yield Finding(
                "zip-opened-too-little",
                Severity.WARNING,
                quote.place,
                f"the zip opens by {told(max(opening, 0.0), draft)}, step {step.number} turns '{turned.target}' through it, and "
                + (f"'{stiff}' is rolled to {told(wanted, draft)}" if stiff else f"a hand takes {told(wanted, draft)}"),
                "let the reader open it further",
                (draft.variant,),
            )


def _zip_lengths(draft: Draft) -> dict[str, float]:
    """How long each zip is from stop to stop, by its key, mm, where that is said."""
    zips = [(one.key, dict(one.sizes).get("length")) for one in draft.notions if one.kind == "zip"]
    return {key: float(size.amount) for key, size in zips if size is not None}


def no_gap_to_close(proof: Proof) -> Iterator[Finding]:
    """A step closes the gap of a seam that leaves none.

    Why: the reader looks for a gap, and what was to be turned through it is shut in.

    Fix: write `leave open: …` under the seam, or name the one that leaves a gap."""
    for deeds in deeds_of(proof):
        for deed in deeds:
            seam = seam_of(deed.draft, deed.action.target) if deed.action.verb == "close" else None
            if seam is not None and not seam.leave_open:
                gaps = ", ".join(f"'{one.name}'" for one in deed.draft.seams if one.leave_open)
                yield Finding(
                    "no-gap-to-close",
                    Severity.ERROR,
                    deed.action.place,
                    f"step {deed.step.number} closes the gap of '{seam.name}', and that seam leaves none",
                    f"write 'leave open: …' under '{seam.name}'"
                    + (f", or name one that leaves a gap: {gaps}" if gaps else ""),
                    (deed.draft.variant,),
                )
