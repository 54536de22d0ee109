"""Seam allowances that would be counted twice: drawn into an outline, or added by the reader."""

import re
from collections.abc import Iterator

from publisher.checks.values import Proof
from publisher.checks.words import prose_of
from publisher.measures import Formula, Name, Operation, names_within
from publisher.terms import Finding, Severity, Written

NOT_INCLUDED = re.compile(
    r"\ballowances?\b[^.]*\bnot included\b|\bnot included: add\b"
    r"|\badd (?:it|the (?:seam )?allowances?) (?:round|around|when|to)\b",
    re.IGNORECASE,
)


def allowance_in_the_outline(proof: Proof) -> Iterator[Finding]:
    """The outline of a piece adds the seam allowance, and the piece has an allowance besides.

    Why: an outline is the finished line, to which the allowance is added by itself: the piece comes out larger by it.

    Fix: take it out of the formula; or give the piece an allowance of 0."""
    if not proof.drafts:
        return
    reads = dict(proof.measures.reads)
    for written in proof.source.pieces:
        drafted = next((one for one in proof.drafts[0].pieces if one.name == str(written.name)), None)
        usual = written.allowance or proof.source.allowance
        formula = proof.measures.saying(usual.inch) if usual is not None else None
        if drafted is None or written.outline is None or not isinstance(formula, Name):
            continue
        if all(edge.allowance == 0 for edge in drafted.edges):
            continue
        for _, native in written.outline.points:
            for name in names_within(proof.measures.saying(native.inch)):
                added = _adds(proof, name, formula.text, reads)
                if added is not None:
                    yield Finding(
                        "allowance-in-the-outline",
                        Severity.WARNING,
                        added.place,
                        f"'{name}' adds '{formula.text}', and the outline of '{written.name}' that is drawn with it gets its "
                        "allowance by itself",
                        f"take '{formula.text}' out of it, or write 'allowance: 0' below '{written.name}'",
                        proof.variants,
                    )
                    return


def _adds(proof: Proof, name: str, allowance: str, reads: dict[str, tuple[str, ...]]) -> Written | None:
    """The formula of a measure that adds the allowance, where it reads it itself."""
    if allowance not in reads.get(name, ()):
        return None
    for measure in proof.source.measures:
        written = measure.by_size[0][1].inch
        formula = proof.measures.saying(written) if str(measure.name) == name else None
        if isinstance(formula, Operation) and formula.sign == "+" and _is(formula.right, allowance):
            return written
    return None


def _is(formula: Formula, name: str) -> bool:
    return isinstance(formula, Name) and formula.text == name


def allowance_told_as_missing(proof: Proof) -> Iterator[Finding]:
    """The words have the reader add the seam allowance, and templates and chart include it.

    Why: she cuts everything larger by it, and nothing fits.

    Fix: say that it is included."""
    if str(proof.source.facts.language) != "en" or not proof.drafts:
        return
    included = any(edge.allowance > 0 for piece in proof.drafts[0].pieces for edge in piece.edges)
    for where, texts in prose_of(proof) if included else ():
        for text in texts:
            found = NOT_INCLUDED.search(str(text))
            if found is not None:
                yield Finding(
                    "allowance-told-as-missing",
                    Severity.ERROR,
                    text.part(found.start(), found.end()).place,
                    f"{where} has the reader add the allowance, and templates and chart include it",
                    "say that it is included in every piece",
                    proof.variants,
                )
