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


# From so many on that are marked of one kind, the one that is not was forgotten (a rule of the house).
MOST_OF_THEM = 2


def mark_left_out(proof: Proof) -> Iterator[Finding]:
    """All lines of one kind on a copy are marked but one.

    Why: the words say all of them; the figure shows all but one, and the reader who follows it has no line to sew on.

    Fix: write `Does: mark …` for it, too."""
    for deeds in deeds_of(proof):
        marking = {deed.action.target: deed for deed in deeds if deed.action.verb == "mark"}
        by_copy: dict[str, list[str]] = {}
        for target in marking:
            copy, _, name = target.partition(".")
            by_copy.setdefault(copy, []).append(name)
        for copy, names in by_copy.items():
            deed = marking[f"{copy}.{names[-1]}"]
            lines = [mark for mark in piece_of(deed.draft, copy).marks if isinstance(mark, LineMark)]
            for kind in dict.fromkeys(mark.kind for mark in lines):
                marked = [mark.name for mark in lines if mark.kind == kind and mark.name in names]
                left = [mark.name for mark in lines if mark.kind == kind and mark.name not in names]
                if len(marked) >= MOST_OF_THEM and len(left) == 1:
                    yield Finding(
                        "mark-left-out",
                        Severity.WARNING,
                        marking[f"{copy}.{marked[-1]}"].action.place,
                        f"each {kind} of '{copy}' is marked but '{left[0]}'",
                        f"write 'Does: mark {copy}.{left[0]}' below it, too",
                        (deed.draft.variant,),
                    )
