"""Seams as the words of a step name them: which edge stays open, which seams are matched, on which face a backing lies."""

import re
from collections.abc import Iterator

from publisher.assembly import AssemblyStep
from publisher.checks.deeds import seam_of, seams_sewn, told_steps
from publisher.checks.edges_told import SIDES, edge_pattern
from publisher.checks.materials import BACKINGS
from publisher.checks.named_edges import atoms_of_seam, drafted_copies
from publisher.checks.values import Proof
from publisher.drafting import Draft, Notch, Seam
from publisher.terms import Finding, Severity

LEFT_OPEN = re.compile(r"\bleave (?:the|its) (?P<rest>[^.:;,]*?) open\b", re.IGNORECASE)
# "back seam on back seam", "matching back seams".
MATCHED = re.compile(
    r"\b(?P<on>[\w-]+) seams? (?:on|to|against) (?:the )?(?P=on) seams?\b"
    r"|\bmatch(?:ing)? (?:the |all |both )?(?P<all>[\w-]+) seams\b",
    re.IGNORECASE,
)
LAID_ON = re.compile(
    r"\bon(?:to)? the right side of (?:the )?(?:\{(?P<quote>[^{}]*)\}|(?P<words>[^.,:;{}]+))", re.IGNORECASE
)
DOUBLES = re.compile(
    r"\bdouble notch(?:es)? (?:stands?|lies?|is|are|marks?|means?) (?:at |in |on )?(?:the )?(?:(?:middle|centre) )?(?:of )?"
    r"(?:the )?(?P<at>front|back)\b",
    re.IGNORECASE,
)
OTHER = {"front": "back", "back": "front"}


def left_open_and_sewn(proof: Proof) -> Iterator[Finding]:
    """The words of a step leave an edge open that its seam sews.

    Why: the reader leaves it open, and closes what is to be turned through; figure and proof sew it.

    Fix: name the edge that is in no seam, or take the other one out of this."""
    for draft, step, written in told_steps(proof):
        for seam in (one for one in seams_sewn(draft, step) if not one.leave_open):
            atoms = atoms_of_seam(draft, seam)
            for found in LEFT_OPEN.finditer(str(written.text)):
                told = _edge_called(draft, seam, found["rest"])
                if told is not None and len({edge for _, edge in atoms}) > 1:
                    yield Finding(
                        "left-open-and-sewn",
                        Severity.WARNING,
                        written.text.part(found.start(), found.end()).place,
                        f"step {step.number} leaves the '{told}' open, and '{seam.name}' sews it",
                        "name the edge that is in no seam, or join other edges in this one",
                        (draft.variant,),
                    )
                    break


def _edge_called(draft: Draft, seam: Seam, words: str) -> str | None:
    """The single edge of a side that words begin with, where the seam sews it."""
    for copy, edge in sorted(atoms_of_seam(draft, seam), key=lambda one: -len(one[1])):
        found = re.match(edge_pattern(edge), words, re.IGNORECASE) if SIDES.isdisjoint(edge.split()) else None
        if found is not None and (found["of"] is None or found["of"].lower() in copy):
            return edge
    return None


def matched_before_it_is_sewn(proof: Proof) -> Iterator[Finding]:
    """A step brings one seam on another, and one of them is not sewn yet.

    Why: the reader looks for a seam that is not there; sewn flat, what was to be a ring can't be closed any more.

    Fix: sew these seams in a step before it."""
    for draft, step, written in told_steps(proof):
        sewing = seams_sewn(draft, step)
        copies = {side.copy for seam in sewing for side in (*seam.first, *seam.second)}
        for found in MATCHED.finditer(str(written.text)) if copies else ():
            name = f"{(found['on'] or found['all']).lower()} seam"
            waiting = [
                seam
                for seam in draft.seams
                if seam not in sewing
                and seam.name not in step.before.sewn
                and _is_called(seam, name)
                and {side.copy for side in (*seam.first, *seam.second)} <= copies
                and _is_sewn_later(proof, draft, step, seam)
            ]
            if waiting:
                yield Finding(
                    "matched-before-it-is-sewn",
                    Severity.WARNING,
                    written.text.part(found.start(), found.end()).place,
                    f"step {step.number} speaks of '{found[0]}', and '{waiting[0].name}' is sewn after it",
                    "sew it in a step before",
                    (draft.variant,),
                )
                break


def _is_called(seam: Seam, name: str) -> bool:
    """True where a seam, or the edges that it joins, are called so: `right back seam`."""
    return any(one.lower().endswith(name) for one in (seam.name, *(side.edge for side in (*seam.first, *seam.second))))


def _is_sewn_later(proof: Proof, draft: Draft, step: AssemblyStep, seam: Seam) -> bool:
    """True where a later step sews it; what none sews is told so elsewhere."""
    later = (one for one in proof.assembly_of(draft.variant).steps if one.number > step.number)
    return any(
        action.verb == "sew" and seam_of(draft, action.target) == seam for one in later for action in one.actions
    )


def fused_to_the_right_side(proof: Proof) -> Iterator[Finding]:
    """The words of a step lay an interfacing on the right side of what it is fused to.

    Why: it shows on the finished thing, and the stitches do not hide it.

    Fix: say the wrong side."""
    for draft, step, written in told_steps(proof):
        for action in (one for one in step.actions if one.verb == "fuse" and one.other):
            fused = drafted_copies(draft).get(action.target)
            kinds = {one.key: one.kind for one in draft.materials}
            if fused is None or kinds.get(fused[1].material) not in BACKINGS:
                continue
            for found in LAID_ON.finditer(str(written.text)):
                if (found["quote"] or found["words"]).strip().lower() == str(action.other).partition(".")[0].lower():
                    yield Finding(
                        "fused-to-the-right-side",
                        Severity.WARNING,
                        written.text.part(found.start(), found.end()).place,
                        f"step {step.number} lays '{action.target}' on the right side of '{action.other}', and fuses it there",
                        "say the wrong side",
                        (draft.variant,),
                    )


def double_notches_elsewhere(proof: Proof) -> Iterator[Finding]:
    """The words say that double notches are at the front, and by their names they are at the back; or the reverse.

    Why: the reader takes the back for the front, and sews every piece in the wrong way round.

    Fix: say where they are, or make the other notches double."""
    for draft, step, written in told_steps(proof):
        doubles = [
            mark.name.lower()
            for piece in draft.pieces
            for mark in piece.marks
            if isinstance(mark, Notch) and mark.double
        ]
        for found in DOUBLES.finditer(str(written.text)):
            at = found["at"].lower()
            if any(OTHER[at] in name.split() for name in doubles) and not any(at in name.split() for name in doubles):
                yield Finding(
                    "double-notches-elsewhere",
                    Severity.WARNING,
                    written.text.part(found.start(), found.end()).place,
                    f"step {step.number} has the double notches at the {at}, and '{doubles[0]}' is one",
                    f"say the {OTHER[at]}, or make the notches of the {at} double",
                    (draft.variant,),
                )
