"""Zips: long enough for what they close, clear of the seams at their ends, open when the work is turned through them."""

from collections.abc import Iterator, Sequence

from publisher.assembly import Action
from publisher.checks.amounts import told
from publisher.checks.deeds import Deed, deeds_of
from publisher.checks.named_edges import drafted_copies, edge_named
from publisher.checks.values import Proof
from publisher.drafting import Draft, Edge, Notion, PathMark, Piece
from publisher.terms import Finding, Severity

APART = 1.0  # mm that nobody sews nearer to
# What a foot needs beside a stop so that no needle meets it (common practice, no source).
CLEAR = 3.0  # mm
# A zip closes most of the edge that it is sewn to; what it leaves is closed by cloth (a rule of the house).
LEAST_CLOSED = 0.6
TAPES = 2  # sides of a zip


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


# What an end of cloth takes to be sewn to the tape, and a seam to catch it (common practice, no source).
SEWN_ON, CAUGHT = 6.0, 3.0  # mm


def zip_ends_too_short(proof: Proof) -> Iterator[Finding]:
    """A zip is shorter than its opening, and the cloth that closes its ends does not reach the seams beside it.

    Why: beyond the stop a hole is left, or the end pulls out of the seam.

    Fix: choose a longer zip, cut its ends longer, or make the opening shorter."""
    for deeds in deeds_of(proof):
        for draft, zip_, end, opening in _closed_at_the_ends(deeds):
            length = _length(zip_)
            edges = _edges_of(draft, opening)
            along = sum(edge.length for edge in edges)
            if length is None or not edges or length > along:
                continue
            beyond = (along - length) / 2
            reach = max(end.cut_width, end.cut_height, key=lambda side: abs(side - _tape(zip_, end))) - SEWN_ON
            if reach < beyond + CAUGHT:
                yield Finding(
                    "zip-ends-too-short",
                    Severity.ERROR if reach < beyond else Severity.WARNING,
                    _sewn_first(deeds, zip_).place,
                    f"'{zip_.key}' is {told(length, draft)} long and '{opening}' {told(along, draft)}: "
                    f"{told(beyond, draft)} are left beyond each stop, and '{end.name}', once "
                    f"sewn on, reaches {told(max(reach, 0.0), draft)}",
                    "choose a longer zip, or cut its ends longer",
                    (draft.variant,),
                )


def _closed_at_the_ends(deeds: Sequence[Deed]) -> Iterator[tuple[Draft, Notion, Piece, str]]:
    """Each zip at whose ends pieces of cloth are sewn: the zip, the piece, and the first edge that the zip is sewn to."""
    for deed in deeds:
        zip_ = next((one for one in deed.draft.notions if one.kind == "zip" and one.key == deed.action.target), None)
        found = drafted_copies(deed.draft).get(deed.action.other or "")
        if deed.action.verb != "attach" or zip_ is None or found is None:
            continue
        others = [
            one.action.other or "" for one in deeds if (one.action.verb, one.action.target) == ("attach", zip_.key)
        ]
        opening = next((name for name in others if "." in name), None)
        if opening is not None:
            yield deed.draft, zip_, found[0], opening


def _tape(zip_: Notion, end: Piece) -> float:
    """How wide the tape is, mm; where that is not said, as the narrower side of what is sewn on."""
    width = dict(zip_.sizes).get("tape width")
    return float(width.amount) if width is not None else min(end.cut_width, end.cut_height)


def _sewn_first(deeds: Sequence[Deed], zip_: Notion) -> Action:
    return next(deed.action for deed in deeds if (deed.action.verb, deed.action.target) == ("attach", zip_.key))


def zip_sides_differ(proof: Proof) -> Iterator[Finding]:
    """The two edges that one zip is sewn to have different allowances.

    Why: laid edge on edge, the tape is caught deeper on one side; the zip shows narrower than said, or crooked.

    Fix: give both edges the allowance of the zip."""
    for deeds in deeds_of(proof):
        beside: dict[str, tuple[str, float]] = {}
        for deed in deeds:
            zips = {notion.key for notion in deed.draft.notions if notion.kind == "zip"}
            edges = _edges_of(deed.draft, deed.action.other or "")
            if deed.action.verb != "attach" or deed.action.target not in zips or not edges:
                continue
            allowance = max(edge.allowance for edge in edges)
            name, other = beside.setdefault(deed.action.target, (deed.action.other or "", allowance))
            if abs(allowance - other) > APART / 2:
                yield Finding(
                    "zip-sides-differ",
                    Severity.WARNING,
                    deed.action.place,
                    f"'{deed.action.target}' is sewn to '{name}' with an allowance of {told(other, deed.draft)} and to "
                    f"'{deed.action.other}' with {told(allowance, deed.draft)}",
                    "give both edges the same allowance",
                    (deed.draft.variant,),
                )


def _edges_of(draft: Draft, name: str) -> tuple[Edge, ...]:
    named = edge_named(draft, name)
    return named.parts if named is not None else ()


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


def zip_showing_not_as_seamed(proof: Proof) -> Iterator[Finding]:
    """A zip joins two pieces that go into one side of a seam, and the seam counts more or less of the zip than shows.

    Why: what shows of the zip is a part of that length: with another amount the side comes out longer or shorter than what
    it is sewn to.

    Fix: reckon what shows as the width of the tape less both allowances, and give that as the ease of the seam."""
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        actions = [action for step in assembly.steps for action in step.actions if action.verb == "attach"]
        for notion in draft.notions:
            tape = dict(notion.sizes).get("tape width")
            edges = [edge_named(draft, one.other or "") for one in actions if one.target == notion.key]
            sewn = {edge.copy.name: max(part.allowance for part in edge.parts) for edge in edges if edge is not None}
            for seam in draft.seams if tape is not None and notion.kind == "zip" else ():
                for side in (seam.first, seam.second):
                    joined = [one.copy for one in side if one.copy in sewn]
                    if len(joined) != TAPES or len(side) != TAPES or not seam.ease:
                        continue
                    shows = float(tape.amount) - sum(sewn[copy] for copy in joined) if tape is not None else 0.0
                    if abs(abs(seam.ease) - shows) > APART:
                        yield Finding(
                            "zip-showing-not-as-seamed",
                            Severity.ERROR,
                            seam.place,
                            f"between '{joined[0]}' and '{joined[1]}' {told(shows, draft)} of '{notion.key}' show, and "
                            f"'{seam.name}' counts {told(abs(seam.ease), draft)}",
                            "reckon it as the width of the tape less both allowances",
                            (draft.variant,),
                        )
