"""Words of a figure set into lines: wrapped at their spaces, the piece's number bold before the first. mm on paper."""

from publisher.figures.steps.values import DrawnText, Lettering
from publisher.frozen import dataclass
from publisher.geometry import Box
from publisher.terms import Phrase

POINTS = 10.0
EM = POINTS * 25.4 / 72
LINE = 1.14 * EM  # from line to line
NUMBER_GAP = 1.2  # between a piece's number and its name


@dataclass(frozen=True, slots=True)
class Words:
    """Lines of text and the room they take; `number` stands bold before the first."""

    lines: tuple[str, ...]
    number: str
    indent: float  # where the words begin behind the number
    width: float

    @property
    def height(self) -> float:
        """The room they take upwards."""
        return len(self.lines) * LINE


def set_words(letters: Lettering, words: Phrase, widest: float, number: int | None = None) -> Words:
    """A phrase in lines no wider than `widest`, but for a word that is wider alone; its own line breaks are kept."""
    shown = "" if number is None else str(number)
    indent = letters.width(shown, POINTS, True) + NUMBER_GAP if shown else 0.0
    lines: list[str] = []
    for stretch in letters.say(words).split("\n"):
        lines.append("")
        for word in stretch.split(" "):
            longer = f"{lines[-1]} {word}".strip()
            if lines[-1] and letters.width(longer, POINTS, False) > widest - indent:
                lines.append(word)
            else:
                lines[-1] = longer
    return Words(tuple(lines), shown, indent, indent + max(letters.width(line, POINTS, False) for line in lines))


def placed_words(letters: Lettering, words: Words, left: float, middle: float) -> tuple[DrawnText, ...]:
    """The lines, from `left`, their middle at the height `middle`."""
    top = middle + words.height / 2
    texts: list[DrawnText] = []
    if words.number:
        wide = letters.width(words.number, POINTS, True)
        texts.append(DrawnText(words.number, Box(left, top - LINE, left + wide, top), POINTS, True))
    for at, line in enumerate(words.lines):
        begin = left + words.indent
        box = Box(begin, top - (at + 1) * LINE, begin + letters.width(line, POINTS, False), top - at * LINE)
        texts.append(DrawnText(line, box, POINTS, False))
    return tuple(texts)
