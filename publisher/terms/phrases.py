"""A phrase: a key of the words file and what fills its gaps. Only layouts/ turns it into text."""

from typing import Union

from publisher.frozen import dataclass

PhraseValue = Union[str, "Phrase"]


@dataclass(frozen=True, slots=True)
class Phrase:
    """`key` names a line of layouts/words/<language>.toml; `values` fill the {gaps} of that line, in pairs."""

    key: str
    values: tuple[tuple[str, PhraseValue], ...] = ()

    @classmethod
    def of(cls, key: str, **values: PhraseValue) -> "Phrase":
        """The phrase `key` with its gaps filled by name."""
        return cls(key, tuple(sorted(values.items())))
