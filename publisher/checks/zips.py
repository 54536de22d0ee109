"""Zips: long enough for what they close, clear of the seams at their ends, open when the work is turned through them."""

from collections.abc import Iterator

from publisher.assembly import Action
from publisher.checks.amounts import told
from publisher.checks.deeds import Deed, deeds_of
from publisher.checks.values import Proof
from publisher.drafting import Draft, Notion, PathMark
from publisher.terms import Finding, Severity

APART = 1.0  # mm that nobody sews nearer to
# What a foot needs beside a stop so that no needle meets it (common practice, no source).
CLEAR = 3.0  # mm
# A zip closes most of the edge that it is sewn to; what it leaves is closed by cloth (a rule of the house).
LEAST_CLOSED = 0.6


def zip_apart_from_opening(proof: Proof) -> Iterator[Finding]:
    """A zip is longer than the edge it is sewn to, closes little more than half of it, or not all that is marked for it.

    Why: it sticks out into the seam, or leaves a hole beside it.

    Fix: choose a length that shops stock and make the opening after it, or cut the zip down and say so in the steps."""
    for draft, zip_, action in _sewn_in(proof):
        opening, marked = _opening(draft, action)
        length = _length(zip_)
        if opening is None or length is None:
            continue
        if length > opening + APART or length < (opening - APART if marked else opening * LEAST_CLOSED):
            yield Finding(
                "zip-apart-from-opening",
                Severity.ERROR,
                action.place,
                f"'{zip_.key}' is {told(length, draft)} long from stop to stop, and '{action.other}' is "
                f"{told(opening, draft)}: {told(abs(length - opening), draft)} apart",
                "make the opening after the zip, or choose another length that shops stock",
                (draft.variant,),
            )


def stop_in_the_seam(proof: Proof) -> Iterator[Finding]:
    """A zip that runs from end to end of an edge has its stops in or close beside the seams across them.

    Why: the needle meets a stop and breaks.

    Fix: choose a shorter zip, and close its ends with pieces of cloth; or lengthen the edge."""
    for draft, zip_, action in _sewn_in(proof):
        opening, marked = _opening(draft, action)
        length = _length(zip_)
        if opening is None or length is None or marked:
            continue
        room = (opening - length) / 2
        if -APART / 2 <= room < CLEAR - 0.01:
            yield Finding(
                "stop-in-the-seam",
                Severity.WARNING,
                action.place,
                f"the stops of '{zip_.key}' lie {told(max(room, 0.0), draft)} from the seams at the ends of "
                f"'{action.other}', less than {told(CLEAR, draft)}",
                "choose a shorter zip and close its ends with cloth, or lengthen the edge",
                (draft.variant,),
            )


def zip_left_closed(proof: Proof) -> Iterator[Finding]:
    """The work is turned through a zip, and no step before the last seam opens it.

    Why: once the last seam is sewn, the slider is inside and the way out is shut.

    Fix: tell the reader to open it half way before that seam, and write `Does: open …` under the step."""
    for deeds in deeds_of(proof):
        zips = {notion.key for deed in deeds[:1] for notion in deed.draft.notions if notion.kind == "zip"}
        shut: dict[str, Deed | None] = {}  # by zip: the last seam sewn while it was shut
        for deed in deeds:
            action = deed.action
            if action.verb == "attach" and action.target in zips:
                shut.setdefault(action.target, None)
            elif action.verb == "open":
                shut.pop(action.target, None)
            elif action.verb == "sew":
                shut = dict.fromkeys(shut, deed)
            elif action.verb == "turn" and not _gaps(deed):
                for name, last in shut.items():
                    if last is not None:
                        yield _left_closed(name, last, deed)
                shut = {}


def _gaps(deed: Deed) -> bool:
    """True where a seam was left open to turn the work through."""
    return any(seam.leave_open and seam.name in deed.before.sewn for seam in deed.draft.seams)


def _left_closed(name: str, last: Deed, turned: Deed) -> Finding:
    return Finding(
        "zip-left-closed",
        Severity.WARNING,
        last.action.place,
        f"'{name}' is sewn in, step {last.step.number} sews '{last.action.target}' and step {turned.step.number} turns the "
        "work, and no step before has opened the zip",
        f"write 'Does: open {name}' under the step that opens it, before the last seam",
        (last.draft.variant,),
    )


def _sewn_in(proof: Proof) -> Iterator[tuple[Draft, Notion, Action]]:
    for deeds in deeds_of(proof):
        for deed in deeds:
            notions = {notion.key: notion for notion in deed.draft.notions if notion.kind == "zip"}
            if deed.action.verb == "attach" and deed.action.target in notions:
                yield deed.draft, notions[deed.action.target], deed.action


def _length(zip_: Notion) -> float | None:
    length = dict(zip_.sizes).get("length")
    return float(length.amount) if length is not None else None


def _opening(draft: Draft, action: Action) -> tuple[float | None, bool]:
    """How long the edge or the marked stretch is that a zip is sewn to, mm, and whether it is a mark."""
    head, _, tail = (action.other or "").partition(".")
    if not tail:
        return None, False
    piece = draft.piece(draft.copy(head).piece)
    for mark in piece.marks:
        if isinstance(mark, PathMark) and mark.name == tail:
            return mark.path.length, True
    try:
        return sum(edge.length for edge in piece.edges_of(tail)), False
    except KeyError:
        return None, False
