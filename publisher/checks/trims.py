"""Allowances trimmed and snipped: to less than they are, and no deeper than they are."""

import re
from collections.abc import Iterator

from publisher.checks.amounts import told
from publisher.checks.deeds import Deed, deeds_of, seam_of
from publisher.checks.named_edges import edge_named
from publisher.checks.values import Proof
from publisher.terms import Finding, Severity, Written

SAME = 0.05  # mm
# "Trim the allowances to {trimmed allowance}": the quote soon behind the word, in one clause.
TRIMMED_TO = re.compile(r"\b(?:trim|cut)\b(?: [^.:;,{}]*)? (?:down )?to \{([^{}]*)\}", re.IGNORECASE)
# "snip both raw edges … {depth} deep": how far it goes in.
SNIPPED = re.compile(r"\b(?:snip|clip|notch)\b[^.:;{}]*\{([^{}]*)\} (?:deep|into the allowances?)\b", re.IGNORECASE)


def trimmed_to_no_less(proof: Proof) -> Iterator[Finding]:
    """A step trims a seam's allowance to a width that is no less than the allowance.

    Why: there is nothing to trim, and the reader takes her seam for wrong; what was to be thin stays thick.

    Fix: give a width that is less than the allowance, and enough to hold the stitches."""
    for deed, allowance, quote, width in _told(proof, ("trim",), TRIMMED_TO):
        if width > allowance - SAME:
            yield Finding(
                "trimmed-to-no-less",
                Severity.WARNING,
                quote.place,
                f"step {deed.step.number} trims '{deed.action.target}' to {told(width, deed.draft)}, and its allowance is "
                f"{told(allowance, deed.draft)}",
                f"give a width below {told(allowance, deed.draft)}",
                (deed.draft.variant,),
            )


def snipped_too_deep(proof: Proof) -> Iterator[Finding]:
    """A step snips an allowance as deep as it is wide, or deeper.

    Why: the scissors go through the stitches, and the seam opens there.

    Fix: stop short of the stitching line: give a depth below the allowance."""
    for deed, allowance, quote, depth in _told(proof, ("clip",), SNIPPED):
        if depth > allowance - SAME:
            yield Finding(
                "snipped-too-deep",
                Severity.ERROR,
                quote.place,
                f"step {deed.step.number} snips '{deed.action.target}' {told(depth, deed.draft)} deep, and its allowance is "
                f"{told(allowance, deed.draft)}",
                f"give a depth below {told(allowance, deed.draft)}",
                (deed.draft.variant,),
            )


def _told(proof: Proof, verbs: tuple[str, ...], words: re.Pattern[str]) -> Iterator[tuple[Deed, float, Written, float]]:
    """Deeds of these verbs on a seam or an edge: the narrowest allowance there, and each length that the words give it, mm."""
    if str(proof.source.facts.language) != "en":
        return
    written = {step.number: step for section in proof.source.sections for step in section.steps}
    for deeds in deeds_of(proof):
        seen: set[tuple[int, str]] = set()
        for deed in deeds:
            allowance = _allowance(deed) if deed.action.verb in verbs else None
            if allowance is None:
                continue
            quoted = {(place, text): value.quantity for (place, text), value in deed.draft.quoted}
            step = written[deed.step.number]
            meant = {found[1].strip() for found in words.finditer(str(step.text))}
            for quote in (one for one in step.quotes if str(one).strip() in meant):
                quantity = quoted.get((quote.place, str(quote)))
                if quantity is not None and (deed.step.number, str(quote)) not in seen:
                    seen.add((deed.step.number, str(quote)))
                    yield deed, allowance, quote, float(quantity.amount)


def _allowance(deed: Deed) -> float | None:
    """The narrowest allowance of a seam or of an edge that a deed names; None for other things, and where there is none."""
    seam, named = seam_of(deed.draft, deed.action.target), edge_named(deed.draft, deed.action.target)
    if seam is not None:
        return min(one for side in (*seam.first, *seam.second) for one in side.allowances) or None
    return min(part.allowance for part in named.parts) or None if named is not None else None
