"""The phrases that figures share: lengths, lists, faces."""

from collections.abc import Sequence

from publisher.terms import Phrase


def length_words(mm: float) -> Phrase:
    """A length, as the edition prints it."""
    return Phrase.of("length", mm=f"{mm:.6f}")


def fine_words(mm: float) -> Phrase:
    """A length that may lie between those that the edition prints: half of one, to be measured with a ruler."""
    return Phrase.of("fine-length", mm=f"{mm:.6f}")


def listed(phrases: Sequence[Phrase]) -> Phrase:
    """Several phrases as a list in words."""
    return Phrase("list", tuple((f"{at:03}", phrase) for at, phrase in enumerate(phrases)))


def names_of(names: Sequence[str]) -> Phrase:
    """Names as a list in words, each once."""
    return listed([Phrase.of("figures.name", name=name) for name in dict.fromkeys(names)])


def face_words(copy: str, wrong_up: bool) -> Phrase:
    """A copy and which of its faces lies up."""
    return Phrase.of("figures.wrong-side", copy=copy) if wrong_up else Phrase.of("figures.right-side", copy=copy)
