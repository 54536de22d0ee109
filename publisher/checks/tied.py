"""Cords and ties: what a step says is left of each end against the length, and whether a bow can be tied of it."""

import re
from collections.abc import Iterator

from publisher.checks.amounts import lengths_meant, told
from publisher.checks.named_edges import drafted_copies, edge_named
from publisher.checks.values import Proof
from publisher.drafting import Draft, Seam
from publisher.source import WrittenStep
from publisher.terms import Finding, Severity, Written

# "{tie} of cord are left at each side", "{bow / 2} of each are left": what both ends have.
OF_EACH = re.compile(
    r"\{(?P<quote>[^{}]*)\}(?! (?:from|below|above|beside|wide|apart)\b)[^.;:{}]*?\b(?:of|at|on) (?:each|both|either)\b",
    re.IGNORECASE,
)
# "leave a loop of {neck} for the neck": what lies between two casings.
IN_A_LOOP = re.compile(r"\bloop of \{(?P<quote>[^{}]*)\}", re.IGNORECASE)
BOW = re.compile(r"\bbows?\b", re.IGNORECASE)
# What each end needs beyond the knot: two loops a finger long and two tails (common practice, no source).
SHORTEST_BOW = 200.0  # mm
TOLERANCE = 10.0  # mm: cords and ties are cut in whole centimetres and eighths of an inch

Quotes = tuple[tuple[Written, float], ...]


def ends_left_not_as_told(proof: Proof) -> Iterator[Finding]:
    """What a step says is left at each end of a cord or a tie does not add up with what it runs through to its length.

    Why: one of them was reckoned without the other, and the reader draws the cord through and has no end to tie.

    Fix: reckon the length as the sum of all that the cord runs through, of what lies between, and of both ends."""
    for draft, step, strip, ends, between in _tied(proof):
        piece, _ = drafted_copies(draft)[strip]
        assert piece.strip is not None
        through = [edge for one in _threaded(proof, draft, strip) if (edge := _casing(draft, one)) is not None]
        wanted = 2 * sum(length for _, length in ends) + sum(length for _, length in between) + sum(through)
        apart = piece.strip.finished_length - wanted
        if abs(apart) > TOLERANCE:
            parts = [f"twice {told(length, draft)}" for _, length in ends]
            parts += [told(length, draft) for _, length in between]
            parts += [f"{told(sum(through), draft)} in casings"] if through else []
            yield Finding(
                "ends-left-not-as-told",
                Severity.WARNING,
                ends[0][0].place,
                f"'{strip}' is {told(piece.strip.finished_length, draft)} long, and step {step} takes {' and '.join(parts)} "
                f"of it: {told(wanted, draft)}",
                f"make '{strip}' {told(abs(apart), draft)} {'longer' if apart < 0 else 'shorter'}, or say what is left",
                (draft.variant,),
            )


def too_short_for_a_bow(proof: Proof) -> Iterator[Finding]:
    """A step ties a bow, and what it says is left of each end is too short to tie one.

    Why: the ends come round, and there is nothing to tie.

    Fix: make the tie longer: a hand's length and more at each end, beyond what it goes round."""
    for draft, step, strip, ends, _ in _tied(proof, says=BOW):
        quote, left = ends[-1]
        if left < SHORTEST_BOW:
            yield Finding(
                "too-short-for-a-bow",
                Severity.WARNING,
                quote.place,
                f"step {step} ties a bow with {told(left, draft)} at each end of '{strip}', and it takes "
                f"{told(SHORTEST_BOW, draft)}",
                "make the tie longer, or knot it",
                (draft.variant,),
            )


Tied = tuple[Draft, int, str, Quotes, Quotes]


def _tied(proof: Proof, says: re.Pattern[str] | None = None) -> Iterator[Tied]:
    """Each draft and step that tells what is left at both ends of a strip: the quotes of one end, and of loops."""
    if str(proof.source.facts.language) != "en":
        return
    steps = [step for section in proof.source.sections for step in section.steps]
    for draft in proof.drafts:
        between: Quotes = ()
        for step in steps:
            between += lengths_meant(draft, step, IN_A_LOOP)
            ends = lengths_meant(draft, step, OF_EACH)
            strip = _strip_named(draft, step)
            if ends and strip and (says is None or says.search(str(step.text))):
                yield draft, step.number, strip, ends, between


def _strip_named(draft: Draft, step: WrittenStep) -> str | None:
    """The strip that the words of a step name."""
    for piece in draft.pieces:
        for copy in piece.copies:
            if piece.strip is not None and re.search(rf"(?<!\w){re.escape(piece.name)}(?!\w)", str(step.text)):
                return copy.name
    return None


def _threaded(proof: Proof, draft: Draft, strip: str) -> tuple[str, ...]:
    """All that a strip is drawn through."""
    actions = (one for step in proof.assembly_of(draft.variant).steps for one in step.actions)
    return tuple(one.other for one in actions if one.verb == "thread" and one.target == strip and one.other)


def _casing(draft: Draft, name: str) -> float | None:
    """How long a casing is, mm: a hemmed edge, or the other side of the seam that a facing is sewn on with."""
    edge = edge_named(draft, name)
    if edge is not None:
        return sum(part.length for part in edge.parts)
    return next((_other_side(seam, name) for seam in draft.seams if _other_side(seam, name)), None)


def _other_side(seam: Seam, copy: str) -> float:
    for mine, other in ((seam.first, seam.second), (seam.second, seam.first)):
        if copy in {one.copy for one in mine}:
            return sum(one.length for one in other)
    return 0.0
