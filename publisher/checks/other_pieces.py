"""A step that shows, names or holds another piece than the one that it works on."""

import re
from collections.abc import Iterator

from publisher.checks.deeds import has_errors, told_steps
from publisher.checks.values import Proof
from publisher.drafting import Draft
from publisher.geometry import mapped
from publisher.terms import Finding, Severity

# "its {upper panel} at the hinge's top edge": which piece comes to which edge of another.
AT_EDGE = re.compile(
    r"\bits \{(?P<own>[^{}]*)\} at the (?P<other>[\w ]+?)'s (?P<edge>top|bottom|left|right) edge\b", re.IGNORECASE
)
# "through the back and the front": layers that one line of stitches holds.
THROUGH = re.compile(r"\bthrough (?:the )?(?P<one>\w+) and (?:the )?(?P<other>\w+)(?: together)?\b", re.IGNORECASE)
LONGER = re.compile(
    r"\bthe (?P<which>longer|shorter) (?:side|edge) (?:towards|nearer|next to|to) the middle\b", re.IGNORECASE
)
UPRIGHT = 0.7  # of a direction: how far it points up


def shown_another(proof: Proof) -> Iterator[Finding]:
    """`Shows:` draws work on a piece that the step does not work on, or at an edge where it does not do that.

    Why: the reader follows the figure, and cuts or sews the wrong piece.

    Fix: name a piece that the step works on, or leave `Shows:` out."""
    for draft, step, written in told_steps(proof) if not has_errors(proof) else ():
        copies = {copy.name for piece in draft.pieces for copy in piece.copies}
        every = proof.assembly_of(draft.variant).steps
        elsewhere = {(one.verb, one.target) for other in every for one in other.actions if one.verb == "sew"}
        all_done = {(one.verb, one.target) for other in every for one in other.actions}
        verbs = {one.verb for one in step.actions}
        done = {copy for one in step.actions for copy in _copies(draft, (one.target, one.other))} & copies
        for shown in step.shows:
            drawn = _copies(draft, (shown.target, shown.other)) & copies
            of_another = (shown.verb, shown.target) in elsewhere - {(one.verb, one.target) for one in step.actions}
            undone = shown.verb in verbs and (shown.verb, shown.target) not in all_done
            if done and drawn and (drawn.isdisjoint(done) or of_another or undone):
                yield Finding(
                    "shown-another",
                    Severity.WARNING,
                    shown.place,
                    f"step {written.number} shows '{shown.verb} {shown.target}', and "
                    + ("no line of any step does it" if undone else f"it works on '{sorted(done)[0]}'"),
                    "show what the step does, or leave 'Shows:' out; or write the line that was forgotten",
                    (draft.variant,),
                )


def _copies(draft: Draft, names: tuple[str | None, ...]) -> set[str]:
    """The copies of edges, marks, seams and placements by their names."""
    found = {(name or "").partition(".")[0] for name in names}
    for seam in draft.seams:
        if seam.name in names:
            found |= {side.copy for side in (*seam.first, *seam.second)}
    for one in draft.placements:
        found |= {one.placed, one.below} if one.name in names else set()
    return found


def at_the_other_edge(proof: Proof) -> Iterator[Finding]:
    """The words bring a piece to an edge of another, and a seam of the pattern has another piece there.

    Why: sewn as the words say, the work stands on its head, and the marks of the next seam do not meet.

    Fix: name the piece that comes to that edge."""
    for draft, step, written in told_steps(proof):
        for found in AT_EDGE.finditer(str(written.text)):
            own, other, edge = found["own"].strip(), found["other"].strip(), f"{found['edge'].lower()} edge"
            beside = _beside(draft, other, edge)
            if beside and not any(own in (piece, copy) for piece, copy in beside):
                yield Finding(
                    "at-the-other-edge",
                    Severity.WARNING,
                    written.text.part(found.start("own"), found.end("own")).place,
                    f"step {step.number} has '{own}' at the {edge} of '{other}', and in the seams "
                    f"'{sorted(beside)[0][1]}' comes there",
                    "name the piece that comes to that edge",
                    (draft.variant,),
                )


def _beside(draft: Draft, piece: str, edge: str) -> set[tuple[str, str]]:
    """Piece and copy of what runs on from an edge of a piece in one side of a seam."""
    found: set[tuple[str, str]] = set()
    for seam in draft.seams:
        for side in (seam.first, seam.second):
            if any(one.piece == piece and one.edge == edge for one in side):
                found |= {(one.piece, one.copy) for one in side if one.piece != piece}
    return found


def basted_through_both(proof: Proof) -> Iterator[Finding]:
    """A step lays a piece on one half of the work and bastes it through both halves, which are to open there later.

    Why: the basting shuts the mouth, and what is sewn in next cannot be slipped in.

    Fix: baste through the one half only."""
    for draft, step, written in told_steps(proof):
        laid = [one for one in draft.placements if any(done.target == one.name for done in step.actions)]
        for found in THROUGH.finditer(str(written.text)):
            words = {found["one"].lower(), found["other"].lower()}
            for placement in laid:
                piece = draft.piece(draft.copy(placement.below).piece)
                halves = {copy.name: copy.name.removeprefix(piece.name).strip().lower() for copy in piece.copies}
                held = {name for name, short in halves.items() if short in words}
                if len(held) == len(words) == 2 and placement.below in held:
                    yield Finding(
                        "basted-through-both",
                        Severity.WARNING,
                        written.text.part(found.start(), found.end()).place,
                        f"step {step.number} lays '{placement.placed}' on '{placement.below}', and sews through "
                        f"{' and '.join(repr(name) for name in sorted(held))}",
                        f"sew through '{placement.below}' only",
                        (draft.variant,),
                    )


def other_side_inwards(proof: Proof) -> Iterator[Finding]:
    """The words turn the longer side of a piece towards the middle, and by its place the shorter one lies there.

    Why: laid as the words say, its corners do not lie on their marks.

    Fix: say the other side, or draft it the other way round."""
    for draft, step, written in told_steps(proof):
        found = LONGER.search(str(written.text))
        for placement in draft.placements if found is not None else ():
            if not any(done.target == placement.name for done in step.actions):
                continue
            piece, below = (
                draft.piece(draft.copy(placement.placed).piece),
                draft.piece(draft.copy(placement.below).piece),
            )
            box = below.finished_line.box
            sides = []
            for edge in piece.edges:
                path = mapped(edge.path, placement.laying, placement.laying.turned_over)
                if abs((path.end - path.start).unit().y) > UPRIGHT:
                    sides.append(
                        (abs(path.point_at(path.length / 2).x - (box.left + box.right) / 2), edge.length, edge.name)
                    )
            inner, outer = (min(sides), max(sides)) if sides else ((0.0, 0.0, ""), (0.0, 0.0, ""))
            if (
                found is not None
                and inner[1] != outer[1]
                and (found["which"].lower() == "longer") != (inner[1] > outer[1])
            ):
                yield Finding(
                    "other-side-inwards",
                    Severity.WARNING,
                    written.text.part(found.start(), found.end()).place,
                    f"step {step.number} says '{found[0]}', and by '{placement.name}' the {inner[2]} of '{placement.placed}' "
                    "lies there",
                    "say the other side, or draft it the other way round",
                    (draft.variant,),
                )
