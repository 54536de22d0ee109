"""Phrases turned into the reader's language by its words file."""

import tomllib
from collections.abc import Mapping, Sequence
from fractions import Fraction
from pathlib import Path

from publisher.edition.layouts import layouts_folder
from publisher.frozen import dataclass
from publisher.terms import (
    Dimension,
    NumberStyle,
    Phrase,
    Quantity,
    UnitSystem,
    print_cloth,
    print_decimal,
    print_fine_length,
    print_length,
    print_quantity,
    round_off_a_tape,
)


class NoSuchLanguage(LookupError):
    """A pattern's language for which there is no words file."""

    def __init__(self, language: str, known: tuple[str, ...]) -> None:
        super().__init__(language)
        self.language, self.known = language, known


def languages() -> tuple[str, ...]:
    """The codes of all languages that have a words file."""
    return tuple(sorted(path.stem for path in (layouts_folder() / "words").glob("*.toml")))


@dataclass(frozen=True, slots=True)
class Speaker:
    """Says phrases in one language and one unit system."""

    language: str
    lines: Mapping[str, str]
    units: UnitSystem
    inch_step: Fraction

    @property
    def style(self) -> NumberStyle:
        """How this language writes numbers."""
        return NumberStyle(self.lines["numbers.decimal-sign"])

    def say(self, phrase: Phrase | str, **values: object) -> str:
        """The text of a phrase, or of a key with its gaps. Raises KeyError for a key that the words file lacks."""
        if isinstance(phrase, str):
            phrase = Phrase(
                phrase,
                tuple((name, value if isinstance(value, Phrase) else str(value)) for name, value in values.items()),
            )
        if phrase.key == "length":
            return self.length(Quantity(Fraction(str(dict(phrase.values)["mm"])), Dimension.LENGTH))
        if phrase.key == "fine-length":
            return self.fine_length(Quantity(Fraction(str(dict(phrase.values)["mm"])), Dimension.LENGTH))
        if phrase.key == "cloth":
            return self.cloth(Quantity(Fraction(str(dict(phrase.values)["mm"])), Dimension.LENGTH))
        if phrase.key == "list":
            return self.listed([self._value(value) for _, value in phrase.values])
        said = {name: self._value(value) for name, value in phrase.values}
        return self.line(phrase.key, said.get("count")).format_map(said)

    def _value(self, value: Phrase | str) -> str:
        return self.say(value) if isinstance(value, Phrase) else value

    def line(self, key: str, count: str | None = None) -> str:
        """The bare line of a key, for one or for many. Raises KeyError for a key that the words file lacks."""
        if key in self.lines:
            return self.lines[key]
        return self.lines[f"{key}.one" if count == "1" else f"{key}.other"]

    def has(self, key: str) -> bool:
        """True when the words file knows the key."""
        return key in self.lines

    def length(self, quantity: Quantity) -> str:
        """A length as the edition prints it."""
        return print_length(quantity, self.units, self.style, self.inch_step)

    def quantity(self, quantity: Quantity) -> str:
        """Any quantity as the edition prints it."""
        return print_quantity(quantity, self.units, self.style, self.inch_step)

    def fine_length(self, quantity: Quantity) -> str:
        """A length to draw by, finer than the edition's others."""
        return print_fine_length(quantity, self.units, self.style)

    def off_a_tape(self, quantity: Quantity) -> Quantity:
        """A length that the reader measures, in the steps in which a tape is read."""
        return round_off_a_tape(quantity, self.units, self.inch_step)

    def decimal(self, amount: Fraction) -> str:
        """A plain number, to a tenth."""
        return print_decimal(amount, 1, self.style)

    def cloth(self, quantity: Quantity) -> str:
        """A length of cloth to buy."""
        return print_cloth(quantity, self.units, self.style)

    def listed(self, words: list[str]) -> str:
        """`a, b and c`."""
        if len(words) < 2:
            return "".join(words)
        return self.line("numbers.list-separator").join(words[:-1]) + self.line("numbers.list-last") + words[-1]

    def either(self, words: list[str]) -> str:
        """`a, b or c`."""
        if len(words) < 2:
            return "".join(words)
        return self.line("numbers.list-separator").join(words[:-1]) + self.line("numbers.list-or") + words[-1]

    def by_size(self, texts: Sequence[str], sizes: Sequence[str | None]) -> tuple[tuple[str, str], ...]:
        """(sizes, text) for each text that differs, in order of size; ("", text) where all sizes agree."""
        together: dict[str, list[str]] = {}
        for text, size in zip(texts, sizes, strict=True):
            together.setdefault(text, []).append(size or "")
        if len(together) == 1:
            return (("", next(iter(together))),)
        return tuple((self.listed(own), text) for text, own in together.items())

    def per_size(self, texts: list[str]) -> str:
        """One text where all sizes agree, else `S (M, L)`."""
        if len(set(texts)) <= 1:
            return texts[0] if texts else ""
        rest = self.line("numbers.list-separator").join(texts[1:])
        return self.say("numbers.between-sizes", first=texts[0], rest=rest)


def speaker(language: str, units: UnitSystem, inch_step: Fraction = Fraction(1, 8)) -> Speaker:
    """The speaker of a language. Raises NoSuchLanguage."""
    if language not in languages():
        raise NoSuchLanguage(language, languages())
    return Speaker(language, _read_lines(layouts_folder() / "words" / f"{language}.toml"), units, inch_step)


def _read_lines(path: Path) -> Mapping[str, str]:
    lines: dict[str, str] = {}

    def walk(table: dict[str, object], prefix: str) -> None:
        for key, value in table.items():
            if isinstance(value, dict):
                walk(value, f"{prefix}{key}.")
            else:
                lines[prefix + key] = str(value)

    walk(tomllib.loads(path.read_text("utf-8")), "")
    return lines
