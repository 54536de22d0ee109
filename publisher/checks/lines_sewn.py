"""Lines to stitch along: each is sewn by some step, and lies where it is seen then."""

from collections.abc import Iterator

from publisher.checks.deeds import Deed, deeds_of, piece_of, placement_laid, told_steps
from publisher.checks.sides import MOVED
from publisher.checks.values import Proof
from publisher.drafting import Draft, LineMark, Placement, PointMark
from publisher.measures import MarkSaying
from publisher.terms import Finding, Severity

STITCHING = "stitching line"
RIGHT = "right side"
TURNS_BACK = ("turn", "fold", "press")  # after it another face may be up


def stitching_line_never_sewn(proof: Proof) -> Iterator[Finding]:
    """A copy bears a line to stitch along, and no step stitches across that copy.

    Why: the reader marks a line and waits for its use; a pocket without its division is one wide pocket.

    Fix: write `Does: topstitch` and the copy under the step that stitches it, or take the line out."""
    for deeds in deeds_of(proof):
        stitched = {name for deed in deeds for name in _stitched(deed)}
        for piece in deeds[0].draft.pieces if deeds else ():
            for copy in piece.copies:
                short = copy.name.removeprefix(piece.name).strip()
                for mark in piece.marks:
                    if not isinstance(mark, LineMark) or mark.kind != STITCHING or copy.name in stitched:
                        continue
                    if not mark.copies or short in mark.copies:
                        yield Finding(
                            "stitching-line-never-sewn",
                            Severity.WARNING,
                            mark.place,
                            f"no step stitches along '{copy.name}.{mark.name}'",
                            f"write 'Does: topstitch {copy.name}' under the step that stitches it, or take the line out",
                            (deeds[0].draft.variant,),
                        )


def _stitched(deed: Deed) -> Iterator[str]:
    """The copies that a deed may stitch across: itself, what lies below it, and what lies on it."""
    if deed.action.verb != "topstitch":
        return
    name = deed.action.target.partition(".")[0]
    yield name
    for placement in deed.draft.placements:
        if name in (placement.placed, *placement.below):
            yield from (placement.placed, *placement.below)


def line_on_the_hidden_face(proof: Proof) -> Iterator[Finding]:
    """A piece is laid face down on the right side of another, and sewn down along lines that are marked on its right side.

    Why: the lines lie below, where nobody sees them, and what was to be on the left comes to lie on the right.

    Fix: take `face: down` out; or mark the lines on the wrong side."""
    words = {step.number: str(written.text) for _, step, written in told_steps(proof)}
    for deeds in deeds_of(proof) if words else ():
        for at, deed in enumerate(deeds):
            placement = placement_laid(deed)
            if (
                placement is None
                or not placement.laying.turned_over
                or not _lies_on_the_right_side(proof, deed, placement)
            ):
                continue
            lines = [one for one in _lines_of(deed.draft, placement.placed) if one.face == RIGHT]
            sewn = next((one for one in deeds[at:] if one.action.target == placement.placed and _moves(one)), None)
            if not lines or sewn is None or sewn.action.verb != "topstitch":
                continue
            if not any(MOVED.search(words[number]) for number in range(deed.step.number, sewn.step.number + 1)):
                yield Finding(
                    "line-on-the-hidden-face",
                    Severity.WARNING,
                    placement.place,
                    f"'{placement.name}' lays '{placement.placed}' face down, and step {sewn.step.number} sews along its "
                    f"'{lines[0].name}', which is marked on its right side",
                    f"take 'face: down' out under '{placement.name}', or mark the lines on the wrong side",
                    (deed.draft.variant,),
                )


def _moves(deed: Deed) -> bool:
    return deed.action.verb in (*TURNS_BACK, "topstitch")


def _lines_of(draft: Draft, name: str) -> list[LineMark]:
    """The stitching lines that a copy bears."""
    piece = piece_of(draft, name)
    short = name.removeprefix(piece.name).strip()
    lines = [one for one in piece.marks if isinstance(one, LineMark) and one.kind == STITCHING]
    return [one for one in lines if not one.copies or short in one.copies]


def _lies_on_the_right_side(proof: Proof, deed: Deed, placement: Placement) -> bool:
    """True where marks on the right side of the piece below tell where the other lies, or follow its own."""
    below = piece_of(deed.draft, placement.below)
    spots = {there for _, there in placement.matching}
    marks = [one for one in below.marks if isinstance(one, PointMark | LineMark) and one.face == RIGHT]
    if any(one.name in spots for one in marks):
        return True
    written = next((one for one in proof.source.pieces if str(one.name) == below.name), None)
    said = [proof.measures.saying(one.says) for one in written.marks] if written is not None else []
    derived = [one for one in said if isinstance(one, MarkSaying) and one.kind == "derived" and one.face == RIGHT]
    return any(one.end is not None and one.end.text == placement.name for one in derived)
