"""Lines to stitch along: each is sewn by some step."""

from collections.abc import Iterator

from publisher.checks.deeds import Deed, deeds_of
from publisher.checks.values import Proof
from publisher.drafting import LineMark
from publisher.terms import Finding, Severity

STITCHING = "stitching line"


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
