"""Facings: stitched to their allowances while seam and allowances can still be laid out by themselves."""

import re
from collections.abc import Iterator, Sequence

from publisher.checks.deeds import Deed, deeds_of, seam_of, told_steps
from publisher.checks.named_edges import atoms_of_seam, edge_named
from publisher.checks.values import Proof
from publisher.terms import Finding, Severity

# "Understitch", "through facing and allowances and not through the apron", "through facing and allowances only".
UNDERSTITCHES = re.compile(
    r"\bunderstitch|\bnot (?:through|into)\b|\bthrough [^.;]*\ballowances? (?:only|alone)\b", re.IGNORECASE
)


def understitched_too_late(proof: Proof) -> Iterator[Finding]:
    """A facing is stitched to the allowances of its seam when its other edge has been stitched down already.

    Why: it no longer folds away from the work, and the machine cannot reach facing and allowances without the outside.

    Fix: stitch it to the allowances before it is turned to the wrong side."""
    words = {step.number: str(written.text) for _, step, written in told_steps(proof)}
    for deeds in deeds_of(proof):
        for at, deed in enumerate(deeds):
            if deed.action.verb != "topstitch" or not UNDERSTITCHES.search(words.get(deed.step.number, "")):
                continue
            down = _stitched_down(deeds[:at], deed)
            if down is not None:
                yield Finding(
                    "understitched-too-late",
                    Severity.WARNING,
                    deed.action.place,
                    f"step {deed.step.number} stitches beside '{deed.action.target}' and not through the outside, and step "
                    f"{down.step.number} has stitched '{down.action.target}' down to it",
                    f"move the line to a step before step {down.step.number}",
                    (deed.draft.variant,),
                )


def _stitched_down(before: Sequence[Deed], deed: Deed) -> Deed | None:
    """What stitched down another edge of a facing, turned by then, than that at which a deed topstitches its seam."""
    draft = deed.draft
    seam = seam_of(draft, deed.action.target)
    atoms = atoms_of_seam(draft, seam) if seam is not None else set()
    facings = {copy for copy, _ in atoms}
    for one in before:
        edge = edge_named(draft, one.action.target) if one.action.verb == "topstitch" else None
        if edge is None or edge.copy.name not in facings or edge.copy.name not in one.before.turned:
            continue
        if one.step.number != deed.step.number and atoms.isdisjoint((edge.copy.name, part.name) for part in edge.parts):
            return one
    return None
