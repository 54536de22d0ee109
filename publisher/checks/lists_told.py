"""Lists in words: what they name from left to right, against where it lies."""

import re
from collections.abc import Iterator, Sequence

from publisher.checks.values import Proof
from publisher.drafting import LineMark, Piece
from publisher.terms import Finding, Severity, Written

ENGLISH = "en"
FROM = re.compile(r"\bfrom the (?P<side>left|right)\b", re.IGNORECASE)
ENOUGH = 3  # that a list and a row of lines have in common


def listed_otherwise(proof: Proof) -> Iterator[Finding]:
    """The words list what lies from left to right in another order than its lines have on the piece.

    Why: the reader puts each tool where the list says, and it does not fit.

    Fix: list them in the order in which they lie."""
    if str(proof.source.facts.language) != ENGLISH or not proof.drafts:
        return
    texts = [(section.intro, section.quotes) for section in proof.source.sections]
    texts += [(step.text, step.quotes) for section in proof.source.sections for step in section.steps]
    for text, quotes in texts:
        sides = {found["side"].lower() for found in FROM.finditer(str(text))}
        for piece in proof.drafts[0].pieces if len(sides) == 1 else ():
            swapped = _swapped(piece, quotes, sides == {"right"})
            if swapped is not None:
                yield Finding(
                    "listed-otherwise",
                    Severity.WARNING,
                    swapped[1].place,
                    f"'{swapped[1]}' is listed behind '{swapped[0]}', and on '{piece.name}' it lies before it",
                    "list them in the order in which they lie",
                    proof.variants,
                )
                break


def _swapped(piece: Piece, quotes: Sequence[Written], from_right: bool) -> tuple[Written, Written] | None:
    """Two neighbours of a list whose lines lie in the other order; each line bears the first word of what is listed."""
    lines = {mark.name.split()[0].lower(): mark.start.x for mark in piece.marks if isinstance(mark, LineMark)}
    listed = [quote for quote in quotes if quote.split() and quote.split()[0].lower() in lines]
    words = [quote.split()[0].lower() for quote in listed]
    if len(set(words)) < ENOUGH or len(set(words)) < len(words):
        return None
    at = [-lines[word] if from_right else lines[word] for word in words]
    return next(((listed[one], listed[one + 1]) for one in range(len(at) - 1) if at[one] > at[one + 1]), None)
