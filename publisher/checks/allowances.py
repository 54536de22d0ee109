"""Seam allowances that would be counted twice, drawn into an outline or added by the reader; and those that are not as told."""

import re
from collections.abc import Iterator

from publisher.checks.amounts import lengths_of, told
from publisher.checks.values import Proof
from publisher.checks.words import prose_of
from publisher.measures import Formula, Name, Operation, names_within
from publisher.terms import Finding, Severity, Written

SAME = 0.5  # mm
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


# "The seam allowance is {seam allowance} throughout".
THROUGHOUT = re.compile(
    r"\ballowances? (?:is|are) \{(?P<quote>[^{}]*)\} (?:throughout|everywhere|all round|on all (?:edges|sides))\b",
    re.IGNORECASE,
)


def allowance_not_throughout(proof: Proof) -> Iterator[Finding]:
    """The words say one seam allowance throughout, and the edges of a seam have another.

    Why: the reader sews all seams by the one number, and this piece comes out too small or too large.

    Fix: give these edges the same allowance, or tell theirs where they are sewn and take "throughout" out."""
    if str(proof.source.facts.language) != "en":
        return
    for section in proof.source.sections:
        found = THROUGHOUT.search(str(section.intro))
        if found is None:
            continue
        for draft in proof.drafts:
            lengths = {str(quote).strip(): length for quote, length in lengths_of(draft, section.quotes)}
            told_for_all = lengths.get(found["quote"].strip())
            if told_for_all is None:
                continue
            for seam in draft.seams:
                wide = {
                    round(part.allowance, 3)
                    for side in (*seam.first, *seam.second)
                    for part in draft.piece(side.piece).edges_of(side.edge)
                }
                if len(wide) == 1 and max(wide) > SAME and abs(max(wide) - told_for_all) > SAME:
                    yield Finding(
                        "allowance-not-throughout",
                        Severity.WARNING,
                        seam.place,
                        f"the words say {told(told_for_all, draft)} throughout, and the edges of '{seam.name}' have "
                        f"{told(max(wide), draft)}",
                        "give them the same allowance, or say in the words which edges have another",
                        (draft.variant,),
                    )
