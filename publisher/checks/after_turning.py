"""What is sewn right sides together inside work that has been turned right side out by then."""

import re
from collections.abc import Iterator

from publisher.checks.deeds import Deed, deeds_of, seam_of, sewn_before
from publisher.checks.inside_out import enclosed_pairs
from publisher.checks.values import Proof
from publisher.drafting import Seam
from publisher.terms import Finding, Severity

INSIDE_OUT = re.compile(r"\b(?:inside out|wrong sides? out)\b|\bturn[^.]* right sides? in\b", re.IGNORECASE)
RIGHT_SIDES = re.compile(r"\bright sides? (?:together|in|inside)\b|\bRST\b", re.IGNORECASE)
TWICE = 2


def sewn_when_turned(proof: Proof) -> Iterator[Finding]:
    """A corner is boxed, or a seam sewn right sides together, in work that has been turned right side out by then.

    Why: its raw edges come to lie outside; or the reader has to turn the work back.

    Fix: sew it before the work is turned."""
    texts = {step.number: str(step.text) for section in proof.source.sections for step in section.steps}
    for deeds in deeds_of(proof):
        for at, deed in enumerate(deeds):
            seam = seam_of(deed.draft, deed.action.target) if deed.action.verb == "sew" else None
            if seam is None or deed.action.wrong_sides:
                continue
            copies = frozenset(side.copy for side in (*seam.first, *seam.second))
            turns = [one for one in deeds[:at] if one.action.verb == "turn" and one.action.target in copies]
            if len(turns) % TWICE == 0 or not _is_inner(seam, copies, turns[-1], texts[deed.step.number]):
                continue
            between = range(turns[-1].step.number, deed.step.number + 1)
            if any(INSIDE_OUT.search(texts.get(number, "")) for number in between):
                continue  # by the words it is turned back
            yield Finding(
                "sewn-when-turned",
                Severity.ERROR,
                deed.action.place,
                f"step {deed.step.number} sews '{seam.name}' inside '{turns[-1].action.target}', which step "
                f"{turns[-1].step.number} has turned right side out",
                f"move 'turn {turns[-1].action.target}' to behind it",
                (deed.draft.variant,),
            )


def _is_inner(seam: Seam, copies: frozenset[str], turn: Deed, text: str) -> bool:
    """True for a seam between copies that were sewn round one another when they were turned."""
    if seam.boxes_a_corner:
        meeting = [one for one in sewn_before(turn) if {side.copy for side in (*one.first, *one.second)} == copies]
        return len(meeting) >= TWICE
    return RIGHT_SIDES.search(text) is not None and copies in enclosed_pairs(turn)
