"""Seams on a curve: what holds both sides together there, and what must not lie there."""

from collections.abc import Iterator, Sequence

from publisher.checks.amounts import told
from publisher.checks.values import Proof
from publisher.drafting import Draft, Notch, PathMark, PieceKind, SeamEdge
from publisher.geometry import Line, Path
from publisher.terms import Finding, Severity

# Over a longer curve two edges creep apart unless something says where they meet (common practice, no source).
LONGEST_WITHOUT = 200.0  # mm


def long_curve_without_notches(proof: Proof) -> Iterator[Finding]:
    """Two different curves are sewn together over more than 20 cm, and no notch says where they meet.

    Why: one side creeps ahead of the other, and the last stretch is stretched or tucked.

    Fix: put a notch on both sides, at the middle or where one piece meets another."""
    for draft in proof.drafts:
        for seam in draft.seams:
            sides = (seam.first, seam.second)
            pairs = {(edge.piece, edge.edge) for side in sides for edge in side}
            curved = any(_curved(draft, side) for side in sides)
            notched = [any(_notches(draft, edge) for edge in side) for side in sides]
            drawn = all(draft.piece(piece).kind is PieceKind.DRAWN for piece, _ in pairs)
            if drawn and curved and len(pairs) > 1 and seam.length > LONGEST_WITHOUT and not all(notched):
                yield Finding(
                    "long-curve-without-notches",
                    Severity.WARNING,
                    seam.place,
                    f"'{seam.name}' runs {told(seam.length, draft)} along a curve, and {_lacking(sides, notched)} has no notch",
                    "add a notch to both sides: 'notch at the middle of …'",
                    (draft.variant,),
                )


def _lacking(sides: tuple[tuple[SeamEdge, ...], tuple[SeamEdge, ...]], notched: Sequence[bool]) -> str:
    side = sides[notched.index(False)]
    return " with ".join(f"'{edge.copy}.{edge.edge}'" for edge in side)


def _paths(draft: Draft, edge: SeamEdge) -> list[tuple[str, Path]]:
    return [(part.name, part.path) for part in draft.piece(edge.piece).edges_of(edge.edge)]


def _curved(draft: Draft, side: Sequence[SeamEdge]) -> bool:
    return any(
        not isinstance(segment, Line) for edge in side for _, path in _paths(draft, edge) for segment in path.segments
    )


def _notches(draft: Draft, edge: SeamEdge) -> bool:
    names = {name for name, _ in _paths(draft, edge)}
    return any(isinstance(mark, Notch) and mark.edge in names for mark in draft.piece(edge.piece).marks)


def gap_on_a_curve(proof: Proof) -> Iterator[Finding]:
    """A gap to turn the work through lies on a curve.

    Why: its edges cannot be turned in level, and the place shows when it is closed.

    Fix: leave a straight seam open instead."""
    for draft in proof.drafts:
        told_of: set[str] = set()
        for piece in draft.pieces:
            for mark in piece.marks:
                gap = isinstance(mark, PathMark) and mark.kind == "turning gap" and mark.name not in told_of
                if gap and isinstance(mark, PathMark) and any(not isinstance(one, Line) for one in mark.path.segments):
                    told_of.add(mark.name)
                    yield Finding(
                        "gap-on-a-curve",
                        Severity.WARNING,
                        mark.place,
                        f"the gap of '{mark.name}' lies on a curve of '{piece.name}'",
                        "leave a straight seam open instead",
                        (draft.variant,),
                    )
