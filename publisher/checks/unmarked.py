"""Marks that are needed where the reader was never told to make them."""

from collections.abc import Iterator

from publisher.checks.deeds import Deed, deeds_of, piece_of
from publisher.checks.values import Proof
from publisher.drafting import LineMark, PointMark
from publisher.geometry import nearest
from publisher.terms import Finding, Severity

ON_THE_LINE = 0.5  # mm: what lies nearer is a corner or an edge, which needs no mark


def used_unmarked(proof: Proof) -> Iterator[Finding]:
    """A step sets, lays or folds something at a mark that no step has transferred to the cloth, while others are marked.

    Why: the template lies in the drawer by then, and the reader sets the snap by guess.

    Fix: write `Does: mark …` under the step that marks it."""
    for deeds in deeds_of(proof):
        marked = {deed.action.target for deed in deeds if deed.action.verb == "mark"}
        told: set[str] = set()
        for deed in deeds if marked else ():
            for name in _needed(deed):
                if name not in marked | told:
                    told.add(name)
                    yield Finding(
                        "used-unmarked",
                        Severity.WARNING,
                        deed.action.place,
                        f"step {deed.step.number} needs '{name}' on the cloth, and no step marks it",
                        f"write 'Does: mark {name}' under the step that marks it",
                        (deed.draft.variant,),
                    )


def _needed(deed: Deed) -> Iterator[str]:
    """The points and lines within a piece at which a deed works."""
    action = deed.action
    names = [action.other] if action.verb == "attach" else [action.target] if action.verb == "fold" else []
    if action.verb == "place":
        names += [
            f"{one.below}.{spot}"
            for one in deed.draft.placements
            for _, spot in one.matching
            if one.name == action.target
        ]
    for name in names:
        copy, _, tail = (name or "").partition(".")
        piece = piece_of(deed.draft, copy) if tail else None
        for mark in piece.marks if piece is not None else ():
            if mark.name != tail or not isinstance(mark, PointMark | LineMark):
                continue
            spot = mark.at if isinstance(mark, PointMark) else (mark.start + mark.end) * 0.5
            if piece is not None and nearest(piece.finished_line, spot)[2] > ON_THE_LINE:
                yield name or ""
