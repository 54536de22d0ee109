"""The words of figures in the edition's language and fonts: fractions as one sign, as a drawing does not form them."""

import re

from publisher.edition.layouts import font_file
from publisher.edition.text_width import text_width
from publisher.edition.words import Speaker
from publisher.frozen import dataclass
from publisher.terms import Phrase

_FRACTION = re.compile(r"(?:(?<=\d)[ \u00a0])?(\d+)⁄(\d+)")
_SIGNS = {"1/2": "½", "1/3": "⅓", "2/3": "⅔", "1/4": "¼", "3/4": "¾", "1/8": "⅛", "3/8": "⅜", "5/8": "⅝", "7/8": "⅞"}
_RAISED, _LOWERED = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹"), str.maketrans("0123456789", "₀₁₂₃₄₅₆₇₈₉")


@dataclass(frozen=True, slots=True)
class StepLetters:
    """Says the phrases of figures, and measures lines of text."""

    speak: Speaker

    def say(self, phrase: Phrase) -> str:
        """The text of a phrase, its fractions ready to be drawn."""
        return _FRACTION.sub(_one_sign, self.speak.say(phrase))

    def width(self, text: str, points: float, bold: bool) -> float:
        """How wide a line of text is, mm."""
        return text_width(text, font_file(bold), points)


def _one_sign(found: re.Match[str]) -> str:
    over, under = found[1], found[2]
    return _SIGNS.get(f"{over}/{under}", f"{over.translate(_RAISED)}⁄{under.translate(_LOWERED)}")
