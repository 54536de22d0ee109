"""Marks: each must lie where it can be found when the piece has been cut."""

from collections.abc import Iterator

from publisher.checks.amounts import told
from publisher.checks.values import Proof
from publisher.drafting import PieceKind, PointMark
from publisher.geometry import inside, nearest
from publisher.terms import Finding, Severity


def mark_off_piece(proof: Proof) -> Iterator[Finding]:
    """A point lies outside its piece's finished line.

    Why: it is in the allowance or cut away, and nothing is left to transfer.

    Fix: bring it inside the stitching line."""
    for draft in proof.drafts:
        for piece in draft.pieces:
            outline = piece.finished_line
            for mark in piece.marks:
                if isinstance(mark, PointMark) and not inside(outline, mark.at):
                    beyond = nearest(outline, mark.at)[2]
                    if beyond < 0.01:
                        continue
                    yield Finding(
                        "mark-off-piece",
                        Severity.ERROR,
                        mark.place,
                        f"'{mark.name}' lies {told(beyond, draft)} outside the finished line of '{piece.name}'",
                        "bring it inside, or look at the measures of the piece",
                        (draft.variant,),
                    )


def pair_left_over(proof: Proof) -> Iterator[Finding]:
    """An odd number of a piece that is cut in mirrored pairs.

    Why: one of them has no partner, and it is anybody's guess which way round it is cut.

    Fix: cut an even number, or say that they are alike."""
    for draft in proof.drafts:
        for piece in draft.pieces:
            for copy in piece.copies:
                if copy.mirrored and copy.count % 2:
                    yield Finding(
                        "pair-left-over",
                        Severity.WARNING,
                        copy.place,
                        f"'{copy.name}' is cut {copy.count} times, in pairs that mirror each other, and one is left over",
                        f"write 'cut {copy.count + 1}', or add 'alike' when all lie the same way up",
                        (draft.variant,),
                    )


def mark_without_template(proof: Proof) -> Iterator[Finding]:
    """A piece that is cut with a ruler bears a mark, and no step tells where it is.

    Why: it has no template, so the reader never sees the mark.

    Fix: draw the piece (give it an `outline:`), or measure the place off in the words of the step that marks it."""
    measured = _measured_off(proof)
    for draft in proof.drafts:
        for piece in draft.pieces:
            if piece.kind is not PieceKind.DRAWN:
                for mark in piece.marks:
                    if any(f"{copy.name}.{mark.name}" in measured for copy in piece.copies):
                        continue
                    yield Finding(
                        "mark-without-template",
                        Severity.WARNING,
                        mark.place,
                        f"'{piece.name}' is cut with a ruler, so nobody sees its mark '{mark.name}'",
                        "draw the piece with 'outline:', or tell the place in a step",
                        (draft.variant,),
                    )


def _measured_off(proof: Proof) -> set[str]:
    """The marks that are made by steps whose words quote something: how far from an edge they lie."""
    quoting = {step.id for section in proof.source.sections for step in section.steps if step.quotes}
    return {
        action.target
        for assembly in proof.assemblies
        for step in assembly.steps
        if step.id in quoting
        for action in step.actions
        if action.verb == "mark"
    }
