"""What is to go inside: things into pockets, elastic into casings, a lining into its outside."""

from collections.abc import Iterator, Sequence

from publisher.checks.amounts import told
from publisher.checks.deeds import Deed, deeds_of
from publisher.checks.named_edges import atoms_in_seams, drafted_copies, spot_on
from publisher.checks.values import Proof
from publisher.drafting import Copy, Draft, Hem, LineMark, Piece
from publisher.geometry import Path, nearest
from publisher.terms import Finding, Severity, UnitSystem

# Room beside a thing in a flat pocket, so that it slides (common practice, no source): 1/4 in, 6 mm.
POCKET_EASE = {UnitSystem.INCH: 6.35, UnitSystem.METRIC: 6.0}
ALIKE = 1.0  # mm


def pocket_too_small(proof: Proof) -> Iterator[Finding]:
    """A pocket is too narrow for the thing it is said to hold, or holds less than half of it.

    Why: the thing does not go in, or falls out.

    Fix: make the pocket wider or higher: the width of the thing, its thickness, and a little to slide."""
    for draft in proof.drafts:
        for piece in draft.pieces:
            held = piece.holds
            if held is None:
                continue
            box = piece.finished_line.box
            ease = POCKET_EASE[draft.variant.units]
            wanted = held.width + held.thickness + ease
            if box.width < wanted - 0.05:
                yield Finding(
                    "pocket-too-small",
                    Severity.ERROR,
                    held.place,
                    f"'{piece.name}' is {told(box.width, draft)} wide, and what it holds takes {told(wanted, draft)}: "
                    f"{told(held.width, draft)} wide, {told(held.thickness, draft)} thick, {told(ease, draft)} to slide",
                    "make the pocket wider",
                    (draft.variant,),
                )
            elif box.height < held.height / 2:
                yield Finding(
                    "pocket-too-small",
                    Severity.WARNING,
                    held.place,
                    f"'{piece.name}' is {told(box.height, draft)} high, less than half of the {told(held.height, draft)} "
                    "that it holds",
                    "make the pocket higher, or the thing falls out",
                    (draft.variant,),
                )


def casing_too_narrow(proof: Proof) -> Iterator[Finding]:
    """Elastic, a cord or a ribbon is wider than the casing it runs through, or longer than the casing.

    Why: it jams and twists; and elastic that is longer than its edge gathers nothing.

    Fix: write the casing for it: `casing for elastic.width`; or use a narrower one."""
    for deeds in deeds_of(proof):
        for deed in deeds:
            found = _casing(deed.draft, deed.action.other or "") if deed.action.verb == "attach" else None
            notion = next((one for one in deed.draft.notions if one.key == deed.action.target), None)
            if found is None or notion is None:
                continue
            hem, along = found
            width, length = (dict(notion.sizes).get(size) for size in ("width", "length"))
            room = hem.depth - POCKET_EASE[deed.draft.variant.units]
            if width is not None and float(width.amount) > room + 0.5:
                yield Finding(
                    "casing-too-narrow",
                    Severity.ERROR,
                    deed.action.place,
                    f"'{notion.key}' is {told(float(width.amount), deed.draft)} wide, and the casing of "
                    f"'{deed.action.other}' is for {told(room, deed.draft)}",
                    f"write 'casing for {notion.key}.width', or use a narrower one",
                    (deed.draft.variant,),
                )
            if notion.kind == "elastic" and length is not None and float(length.amount) >= along:
                yield Finding(
                    "casing-too-narrow",
                    Severity.WARNING,
                    deed.action.place,
                    f"'{notion.key}' is {told(float(length.amount), deed.draft)} long, and '{deed.action.other}' "
                    f"{told(along, deed.draft)}: it gathers nothing",
                    "make the elastic shorter than the edge",
                    (deed.draft.variant,),
                )
        yield from _faced_too_narrow(deeds)


def _faced_too_narrow(deeds: tuple[Deed, ...]) -> Iterator[Finding]:
    """What is threaded through a facing, or a hem, that leaves it no room."""
    topstitched = [deed.action.target for deed in deeds if deed.action.verb == "topstitch"]
    for deed in deeds:
        action, draft = deed.action, deed.draft
        width = _threaded(draft, action.target) if action.verb == "thread" else None
        hem = _casing(draft, action.other or "")
        room = hem[0].depth if hem is not None else _faced(draft, action.other or "", topstitched)
        if width is None or room is None or room >= width + POCKET_EASE[draft.variant.units] - 0.05:
            continue
        passes = room >= width
        yield Finding(
            "casing-too-narrow",
            Severity.WARNING if passes else Severity.ERROR,
            action.place,
            f"'{action.target}' is {told(width, draft)} wide, and the casing '{action.other}' {told(room, draft)} from "
            f"edge to edge: "
            + (f"{told(room - width, draft)} are left to run, and for its stitching" if passes else "it does not pass"),
            f"make the casing wider than what runs in it by {told(POCKET_EASE[draft.variant.units], draft)} or more, and "
            "by what its stitching takes",
            (draft.variant,),
        )


def _threaded(draft: Draft, name: str) -> float | None:
    """How wide what is threaded is, mm: a strip as it finishes, a notion as it is bought."""
    found = drafted_copies(draft).get(name)
    if found is not None:
        return found[0].strip.finished_width if found[0].strip is not None else None
    sizes = next((dict(notion.sizes) for notion in draft.notions if notion.key == name), {})
    return float(sizes["width"].amount) if "width" in sizes else None


def _faced(draft: Draft, name: str, topstitched: Sequence[str]) -> float | None:
    """How wide a facing is between the edge that is sewn and the one that is topstitched, mm; None where none is."""
    found = drafted_copies(draft).get(name)
    if found is None:
        return None
    sewn = [edge for copy, edge in atoms_in_seams(draft) if copy == name]
    stitched = [edge for copy, edge in (one.split(".", 1) for one in topstitched if "." in one) if copy == name]
    lines = [(spot_on(found[0], one), spot_on(found[0], other)) for one in sewn for other in stitched if one != other]
    widths = [
        nearest(other, one.point_at(one.length / 2))[2]
        for one, other in lines
        if isinstance(one, Path) and isinstance(other, Path)
    ]
    return min(widths, default=None)


def _casing(draft: Draft, name: str) -> tuple[Hem, float] | None:
    """The casing of an edge named as `copy.edge`, and how long the edge is, mm."""
    head, _, tail = name.partition(".")
    pieces = {copy.name: piece for piece in draft.pieces for copy in piece.copies}
    for hem in pieces[head].hems if head in pieces else ():
        if hem.casing and hem.edge == tail:
            return hem, pieces[head].edge(tail).length
    return None


def lining_larger_than_outside(proof: Proof) -> Iterator[Finding]:
    """A lining finishes wider or higher than the outside it lies in.

    Why: it lies in folds inside, and peeps out at the edge.

    Fix: sew it with a larger allowance or draw it smaller, but for the edge that joins the outside."""
    for draft in proof.drafts:
        for (inner, lining), (outer, outside) in _lined(draft):
            over = [
                (called, mine - its)
                for called, mine, its in (
                    ("wider", inner.finished_line.box.width, outer.finished_line.box.width),
                    ("higher", inner.finished_line.box.height, outer.finished_line.box.height),
                )
                if mine - its > ALIKE
            ]
            for called, by in over[:1]:
                yield Finding(
                    "lining-larger-than-outside",
                    Severity.WARNING,
                    inner.place,
                    f"'{lining.name}' finishes {told(by, draft)} {called} than '{outside.name}'",
                    "draw the lining smaller, or sew it with a larger allowance",
                    (draft.variant,),
                )


# A lining is a little smaller than its outside; shorter than this it pulls the base up (common practice, no source).
MUCH_SHORTER = 15.0  # mm


def lining_shorter_than_outside(proof: Proof) -> Iterator[Finding]:
    """A lining finishes much shorter or narrower than the outside it is sewn into.

    Why: it hangs in the air inside, takes all the pull, and drags the outside up or together.

    Fix: draw the lining as large as the outside, less an eighth of an inch or two; or mark the fold line at which the
    outside turns in."""
    for draft in proof.drafts:
        for (inner, lining), (outer, outside) in _lined(draft):
            turned_in = any(isinstance(mark, LineMark) and mark.kind == "fold line" for mark in outer.marks)
            if turned_in or outer.hems:
                continue  # what is turned in is no lining's to reach
            mine, its = inner.finished_line.box, outer.finished_line.box
            under = [("shorter", its.height - mine.height), ("narrower", its.width - mine.width)]
            for called, by in [one for one in under if one[1] > MUCH_SHORTER][:1]:
                yield Finding(
                    "lining-shorter-than-outside",
                    Severity.WARNING,
                    inner.place,
                    f"'{lining.name}' finishes {told(by, draft)} {called} than '{outside.name}'",
                    "draw the lining larger, or mark the fold line at which the outside turns in",
                    (draft.variant,),
                )


Drafted = tuple[Piece, Copy]


def _lined(draft: Draft) -> Iterator[tuple[Drafted, Drafted]]:
    """Copies that bear the same name but for the word lining, sewn to each other: `lining front` and `body front`."""
    copies = {copy.name: (piece, copy) for piece in draft.pieces for copy in piece.copies}
    seen: set[tuple[str, str]] = set()
    for seam in draft.seams:
        for one in (*seam.first, *seam.second):
            for other in (*seam.first, *seam.second):
                pair = one.copy, other.copy
                words = set(one.copy.split()) - {"lining"}
                lines = "lining" in one.copy.split() and "lining" not in other.copy.split()
                if lines and one.piece != other.piece and words <= set(other.copy.split()) and pair not in seen:
                    seen.add(pair)
                    yield copies[one.copy], copies[other.copy]


def casing_left_out(proof: Proof) -> Iterator[Finding]:
    """A cord runs through one copy of a piece, and through another that is sewn like it no step draws it.

    Why: the reader has a second casing and nothing in it, and the work hangs on one side.

    Fix: draw the cord through both: a line `Does: thread … through …` for each."""
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        actions = [action for step in assembly.steps for action in step.actions if action.verb == "thread"]
        through = {(action.other or "") for action in actions}
        sewn = {side.copy for seam in draft.seams for side in (*seam.first, *seam.second)}
        for piece in draft.pieces:
            copies = {copy.name: copy for copy in piece.copies}
            drawn = next((action for action in actions if action.other in copies), None)
            if drawn is None or drawn.other is None:
                continue
            like = copies[drawn.other]
            empty = [
                name
                for name, copy in copies.items()
                if name not in through and name in sewn and copy.material == like.material
            ]
            if empty:
                yield Finding(
                    "casing-left-out",
                    Severity.WARNING,
                    drawn.place,
                    f"'{drawn.target}' is drawn through '{drawn.other}', and in no step through '{empty[0]}'",
                    f"write 'Does: thread {drawn.target} through {empty[0]}' under the step that does it",
                    (draft.variant,),
                )
