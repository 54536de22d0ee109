"""Amounts as checks tell them."""

from publisher.drafting import Draft
from publisher.terms import tell_length


def told(millimetres: float, draft: Draft) -> str:
    """A length for the maker, in the units of the draft."""
    return tell_length(millimetres, draft.variant.units)


def article(word: str) -> str:
    """`a` or `an`."""
    return "an" if word[:1] in tuple("aeiou") else "a"
