"""A label as a value: its lines of text, where it stands, and how large it is. On paper: mm, y down."""

from collections.abc import Iterator
from typing import Protocol

from publisher.figures.label_words import Words
from publisher.figures.line_gaps import LineGap
from publisher.figures.values import Stroke
from publisher.frozen import dataclass
from publisher.geometry import Box
from publisher.terms import Phrase

LINE_HEIGHT = 1.25  # of the type size
TIGHT = 0.75  # … of a line whose letters reach neither below its foot nor, much, above capitals
DESCENDING = frozenset("gjpqyJQ,;()[]{}/|_@ç")
POINT = 25.4 / 72
SMALLER = (1.0, 0.85, 0.7)  # of the wanted size; never below the smallest
SMALLEST = 8.0  # points


@dataclass(frozen=True, slots=True)
class LabelLine:
    """One line of text at its size in points."""

    text: str
    points: float
    bold: bool
    leading: float = LINE_HEIGHT  # from line to line, of the type size


@dataclass(frozen=True, slots=True)
class Label:
    """Text in place; `leader` leads to what it names where the label found no room inside the piece."""

    lines: tuple[LabelLine, ...]
    left: float
    top: float
    width: float
    height: float
    piece: str
    leader: Stroke | None = None
    leader_end: Stroke | None = None  # a dot on the line that the leader means, where it runs over others
    sizes: tuple[str, ...] = ()  # whose layer it belongs to; none: it always shows
    gap: LineGap | None = None  # of the line that it stands in

    @property
    def box(self) -> Box:
        """Where it stands; y runs down, so the box's bottom is the label's top."""
        return Box(self.left, self.top, self.left + self.width, self.top + self.height)


class TextFitter(Protocol):
    """Turns a phrase into text and says how wide it is."""

    def __call__(self, phrase: Phrase, points: float, bold: bool) -> tuple[str, float]:
        """The text and its width in mm at a size in points."""


def fitted(words: tuple[Words, ...], fit: TextFitter) -> Iterator[tuple[tuple[LabelLine, ...], float, float]]:
    """The lines of a label with their width and height, mm, from its full size down to the smallest."""
    tried: set[tuple[LabelLine, ...]] = set()
    for factor in SMALLER:
        lines: list[LabelLine] = []
        width = height = 0.0
        for word in words:
            points = round(max(word.points * factor, min(SMALLEST, word.points)), 2)
            text, wide = fit(word.phrase, points, word.bold)
            leading = TIGHT if word.tight and not DESCENDING.intersection(text) else LINE_HEIGHT
            lines.append(LabelLine(text, points, word.bold, leading))
            width, height = max(width, wide), height + points * leading * POINT
        if tuple(lines) not in tried:
            tried.add(tuple(lines))
            yield tuple(lines), width, height
