"""Which way the folds of a pleat go by the words of a step, and by its kind."""

import re
from collections.abc import Iterator

from publisher.assembly import AssemblyStep
from publisher.checks.amounts import article
from publisher.checks.deeds import piece_of, told_steps
from publisher.checks.values import Proof
from publisher.drafting import Draft, Pleat
from publisher.frozen import dataclass
from publisher.terms import Finding, Severity

APART, TOGETHER = "apart", "together"
# As seen from the right side: the folds of a box pleat point apart, those of an inverted one meet.
POINTS = {"box pleat": APART, "inverted pleat": TOGETHER}
WAYS = re.compile(
    rf"\b(?:(?P<{APART}>apart|away from (?:each other|one another))"
    rf"|(?P<{TOGETHER}>towards? (?:each other|one another)|meet(?= (?:each other|one another|in the (?:middle|centre))|$)))",
    re.IGNORECASE,
)
# "the two folds of the pliers pocket", "those of the brush pocket", and what "and the brush pocket" adds to them.
FOLDS = re.compile(r"\b(?:folds|those) of (?:the|each|every|both) (?P<which>\w+)", re.IGNORECASE)
AND_MORE = re.compile(r"\band (?:those of )?the (?P<which>\w+)", re.IGNORECASE)
LIKEWISE = re.compile(r"\b(?:likewise|in the same way|the same way|as well|too)\b", re.IGNORECASE)
# Seen from behind it is the other way round.
BEHIND = re.compile(
    r"\bwrong side|\bbehind\b|\bunderneath\b|\bbeneath\b|\b(?:from|on|at) the back\b|\binside\b", re.IGNORECASE
)
SENTENCE, PART = re.compile(r"[^.;]+"), re.compile(r"[^,:]+")
EVERY = ("pleat", "pleats")


@dataclass(frozen=True, slots=True)
class _Told:
    """A word that names pleats, and the way in which their folds go by the words around it."""

    which: str
    way: str
    start: int
    end: int


def pleat_folded_otherwise(proof: Proof) -> Iterator[Finding]:
    """The words bring the folds of a pleat together, and it is a box pleat; or apart, and it is an inverted one.

    Why: words and lines of the template say opposite things, and half the readers follow the words.

    Fix: of a box pleat the folds point apart, of an inverted one towards each other."""
    for draft, step, written in told_steps(proof):
        pleats = _pleats(draft, step)
        for told in _told(str(written.text)) if pleats else ():
            for pleat in _meant(pleats, told.which):
                if POINTS[pleat.kind] != told.way:
                    yield Finding(
                        "pleat-folded-otherwise",
                        Severity.WARNING,
                        written.text.part(told.start, told.end).place,
                        f"step {step.number} brings the folds of '{pleat.name}' {told.way}, and it is "
                        f"{article(pleat.kind)} {pleat.kind}",
                        "say 'apart' of a box pleat, 'towards each other' of an inverted one; or draft the other kind",
                        (draft.variant,),
                    )


def _pleats(draft: Draft, step: AssemblyStep) -> list[Pleat]:
    """The pleats that a step closes."""
    opened = [piece_of(draft, one.target).opened for one in step.actions if one.verb == "pleat"]
    return [mark for piece in opened if piece is not None for mark in piece.marks if isinstance(mark, Pleat)]


def _meant(pleats: list[Pleat], which: str) -> list[Pleat]:
    """The box and inverted pleats that a word names; of the word `pleat` itself all, where they are of one kind."""
    if which in EVERY:
        return pleats if len({pleat.kind for pleat in pleats}) == 1 and pleats[0].kind in POINTS else []
    return [one for one in pleats if one.kind in POINTS and one.name.split()[0].lower() == which]


def _told(text: str) -> Iterator[_Told]:
    """Each word behind `folds of the`, with the way told in its part of the sentence, or of one before in the same way."""
    last: str | None = None
    for sentence in SENTENCE.finditer(text):
        if BEHIND.search(sentence[0]):
            last = None
            continue
        for part in PART.finditer(sentence[0]):
            at = sentence.start() + part.start()
            found = list(WAYS.finditer(part[0]))
            ways = {one.lastgroup for one in found}
            way = ways.pop() if len(ways) == 1 else last if not ways and LIKEWISE.search(part[0]) else None
            first = FOLDS.search(part[0])
            if first is None or way is None:
                continue
            last = way
            stop = found[0].start() if found and found[0].start() > first.start() else len(part[0])
            named = [first, *(one for one in AND_MORE.finditer(part[0], first.end(), stop))]
            named += [one for one in FOLDS.finditer(part[0], first.end(), stop) if one["which"] not in EVERY]
            for which in dict.fromkeys(one["which"].lower() for one in named):
                yield _Told(which, way, at + first.start(), at + len(part[0].rstrip()))
