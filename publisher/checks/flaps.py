"""Flaps that fold over what is held: there is room for it below the fold."""

import re
from collections.abc import Iterator

from publisher.checks.amounts import told
from publisher.checks.deeds import ENGLISH, Deed, deeds_of, piece_of
from publisher.checks.values import Proof
from publisher.checks.words import prose_of
from publisher.drafting import Draft, LineMark
from publisher.geometry import Path, mapped
from publisher.terms import Dimension, Finding, Severity

# "A tool may be up to {longest tool} long, so that the flap folds over it."
LONGEST = re.compile(
    r"\b(?:up to|at most|(?:no|not) longer than) \{(?P<measure>[^{}]*)\}(?= long\b|,)[^.]*\bflap\b", re.IGNORECASE
)
FOLD = "fold line"
NEAR = 1.0  # mm


def too_long_for_the_flap(proof: Proof) -> Iterator[Finding]:
    """What a pocket is said to hold is longer than the room from its bottom to the line along which the flap is folded.

    Why: it sticks out over the fold, and the flap cannot be folded over it.

    Fix: move the fold further up; or hold what is shorter."""
    for deeds in deeds_of(proof):
        folds = {(copy, mark.name): mark for deed in deeds for copy, mark in _folded(deed)}
        if len(folds) != 1:
            continue  # of several, no words tell which of them is meant
        ((copy, _), fold), draft = next(iter(folds.items())), deeds[0].draft
        room = _beyond(piece_of(draft, copy).finished_line, fold)
        held = [(f"'{name}' is", length, room) for name, length in _promised(proof, draft)]
        held += [(f"'{name}' holds", length, below) for name, length, below in _held(draft, copy, fold)]
        for what, length, below in held:
            if length > below + NEAR:
                yield Finding(
                    "too-long-for-the-flap",
                    Severity.WARNING,
                    fold.place,
                    f"{what} {told(length, draft)}, and below '{fold.name}' of '{copy}' lie {told(below, draft)}",
                    "move the fold further up, or hold what is shorter",
                    (draft.variant,),
                )


def _folded(deed: Deed) -> Iterator[tuple[str, LineMark]]:
    """The line along which a deed folds a copy over, and the copy."""
    copy, dot, name = deed.action.target.partition(".")
    for mark in piece_of(deed.draft, copy).marks if dot and deed.action.verb == "fold" else ():
        if isinstance(mark, LineMark) and mark.kind == FOLD and mark.name == name:
            yield copy, mark


def _beyond(line: Path, fold: LineMark) -> float:
    """How far a piece reaches from a fold on its larger side, mm: the smaller one is the flap."""
    along = (fold.end - fold.start).unit()
    apart = [along.cross(point - fold.start) for point in line.flattened(0.1)]
    return max(max(apart), -min(apart))


def _promised(proof: Proof, draft: Draft) -> Iterator[tuple[str, float]]:
    """The measures up to which, by the words, something is held below a flap."""
    if str(proof.source.facts.language) != ENGLISH:
        return
    measures = {name: value for name, value in draft.measures if value.dimension is Dimension.LENGTH}
    named = (
        found["measure"].strip() for _, texts in prose_of(proof) for text in texts for found in LONGEST.finditer(text)
    )
    for name in dict.fromkeys(named):
        if name in measures:
            yield name, float(measures[name].amount)


def _held(draft: Draft, copy: str, fold: LineMark) -> Iterator[tuple[str, float, float]]:
    """Each pocket that is laid on a copy, how high what it holds is, and how far its bottom lies from the fold, mm."""
    for placement in draft.placements:
        piece = piece_of(draft, placement.placed)
        if placement.below == copy and piece.holds is not None:
            laid = mapped(piece.finished_line, placement.laying, placement.laying.turned_over)
            yield placement.placed, piece.holds.height, _beyond(laid, fold)
