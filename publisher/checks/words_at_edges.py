"""What the words of a step say of the edges and seams that it works on: ease, rows, notches, folds, which way pressed."""

import re
from collections.abc import Iterator

from publisher.checks.amounts import lengths_meant, told
from publisher.checks.deeds import piece_of, seams_sewn, told_steps
from publisher.checks.values import Proof
from publisher.drafting import Draft, Seam, SeamEdge
from publisher.terms import Finding, Severity

# "The rim of the crown is {crown ease} longer than the band."
LONGER_BY = re.compile(r"\bis \{(?P<quote>[^{}]*)\} (?:longer|larger|wider) than\b", re.IGNORECASE)
# "press it towards the band, and topstitch the band".
PRESSED = re.compile(
    r"\bpress (?:it|them|this|the (?:seam )?allowances?) towards the (?P<to>\w+)"
    r"(?:[^.;]*|\. )\btopstitch (?:round )?the (?P<on>\w+)\b",
    re.IGNORECASE,
)
FOLD_LEVEL = re.compile(
    r"\b(?:its|the) folds? (?:is |lies )?(?:level|even|flush) with (?:the|all) raw edges\b", re.IGNORECASE
)
# "side notches": which of the notches of an edge.
NAMED_NOTCH = re.compile(r"\b(?P<which>front|back|side|centre|middle|top|waist)(?: notch(?:es)?\b)", re.IGNORECASE)
SAME = 0.3  # mm


def ease_not_as_told(proof: Proof) -> Iterator[Finding]:
    """A step says by how much one side of its seam is longer, and the pattern gives the seam another ease.

    Why: the reader measures, and believes that she has cut it wrong.

    Fix: quote the ease of the seam."""
    for draft, step, written in told_steps(proof):
        seams = seams_sewn(draft, step)
        eased = [seam for seam in seams if seam.ease]
        quote = next(iter(lengths_meant(draft, written, LONGER_BY)), None) if eased else None
        if quote is not None and all(abs(abs(seam.ease) - quote[1]) > SAME for seam in eased):
            yield Finding(
                "ease-not-as-told",
                Severity.WARNING,
                quote[0].place,
                f"step {step.number} says {told(quote[1], draft)}, and the ease of '{eased[0].name}' is "
                f"{told(abs(eased[0].ease), draft)}",
                "quote the ease of the seam, or change it",
                (draft.variant,),
            )


def pressed_away_from_stitching(proof: Proof) -> Iterator[Finding]:
    """The words press an allowance towards one piece and topstitch another.

    Why: the stitches go through one layer and hold nothing down.

    Fix: topstitch the piece that the allowance is pressed towards."""
    for draft, step, written in told_steps(proof):
        for found in PRESSED.finditer(str(written.text)):
            if found["to"].lower() != found["on"].lower() and any(one.verb == "topstitch" for one in step.actions):
                yield Finding(
                    "pressed-away-from-stitching",
                    Severity.WARNING,
                    written.text.part(found.start("to"), found.end("to")).place,
                    f"step {step.number} presses the allowance towards the {found['to']}, and topstitches the {found['on']}",
                    f"press it towards the {found['on']}, or topstitch the {found['to']}",
                    (draft.variant,),
                )


def fold_at_the_raw_edges(proof: Proof) -> Iterator[Finding]:
    """The words lay the fold of a doubled strip level with the raw edges of a seam.

    Why: the fold is sewn in, and its raw edges come out on the other side.

    Fix: lay its raw edges level with the others."""
    for draft, step, written in told_steps(proof):
        found = FOLD_LEVEL.search(str(written.text))
        seams = seams_sewn(draft, step)
        strips = [side.copy for seam in seams for side in (*seam.first, *seam.second) if _is_doubled(draft, side.copy)]
        if found is not None and strips:
            yield Finding(
                "fold-at-the-raw-edges",
                Severity.WARNING,
                written.text.part(found.start(), found.end()).place,
                f"step {step.number} sews the fold of '{strips[0]}' into the seam",
                "lay its raw edges level with the others",
                (draft.variant,),
            )


def _is_doubled(draft: Draft, copy: str) -> bool:
    strip = piece_of(draft, copy).strip
    return strip is not None and strip.folding == "doubled"


def named_notch_missing(proof: Proof) -> Iterator[Finding]:
    """The words match notches by a name that no notch of the edges bears which the step sews.

    Why: the reader looks for a notch that is at another edge, or nowhere.

    Fix: name the notches that are there."""
    for draft, step, written in told_steps(proof):
        seams = seams_sewn(draft, step)
        there = {word for seam in seams for name in _notches_along(draft, seam) for word in name.lower().split()}
        there |= {"side"} if {"left", "right"} <= there else set()
        for found in NAMED_NOTCH.finditer(str(written.text)) if seams and there else ():
            if found["which"].lower() not in there:
                yield Finding(
                    "named-notch-missing",
                    Severity.WARNING,
                    written.text.part(found.start(), found.end()).place,
                    f"step {step.number} speaks of '{found[0]}', and along '{seams[0].name}' no notch is called so",
                    "name the notches that are there, or add one to both sides",
                    (draft.variant,),
                )


def _notches_along(draft: Draft, seam: Seam) -> Iterator[str]:
    for side in (*seam.first, *seam.second):
        yield from _names_of(draft, side)


def _names_of(draft: Draft, side: SeamEdge) -> Iterator[str]:
    piece = draft.piece(side.piece)
    edges = {part.name for part in piece.edges_of(side.edge)}
    for notch in draft.notches_of(side.copy):
        if notch.edge in edges:
            yield notch.name
            yield from (one.name for one in piece.marks if one is not notch and getattr(one, "at", None) == notch.at)
