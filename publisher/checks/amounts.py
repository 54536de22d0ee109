"""Amounts as checks tell them."""

import re
from collections.abc import Sequence

from publisher.drafting import Draft
from publisher.source import WrittenStep
from publisher.terms import Dimension, Written, tell_length


def told(millimetres: float, draft: Draft) -> str:
    """A length for the maker, in the units of the draft."""
    return tell_length(millimetres, draft.variant.units)


def article(word: str) -> str:
    """`a` or `an`."""
    return "an" if word[:1] in tuple("aeiou") else "a"


def lengths_quoted(draft: Draft, step: WrittenStep) -> tuple[tuple[Written, float], ...]:
    """The quotes of a step that stand for a length, in order, each with its length in this variant, mm."""
    return lengths_of(draft, step.quotes)


def lengths_of(draft: Draft, quotes: Sequence[Written]) -> tuple[tuple[Written, float], ...]:
    """Those of some quotes that stand for a length, with it, as above."""
    quoted = {where: value.quantity for where, value in draft.quoted}
    found = ((quote, quoted.get((quote.place, str(quote)))) for quote in quotes)
    return tuple(
        (quote, float(quantity.amount))
        for quote, quantity in found
        if quantity is not None and quantity.dimension is Dimension.LENGTH
    )


def lengths_meant(draft: Draft, step: WrittenStep, words: re.Pattern[str]) -> tuple[tuple[Written, float], ...]:
    """Of these, those that stand where a pattern has a group: `{…} below the edge`."""
    meant = {group.strip() for found in words.finditer(str(step.text)) for group in found.groups() if group}
    return tuple((quote, length) for quote, length in lengths_quoted(draft, step) if str(quote).strip() in meant)
