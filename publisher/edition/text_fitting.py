"""Texts set into a box that they must not leave: measured, wrapped, and made smaller until they fit."""

from collections.abc import Iterator, Sequence

from publisher.edition.layouts import font_file
from publisher.edition.text_width import text_width
from publisher.figures import LabelLine
from publisher.frozen import dataclass

LEADING = 1.2  # of the type size
POINT = 25.4 / 72
SMALLER = (1.0, 0.92, 0.84, 0.76, 0.7)  # of the wanted size
SMALLEST = 7.0  # points
MORE = "…"


@dataclass(frozen=True, slots=True)
class Wanted:
    """A text and its size in points where there is room."""

    text: str
    points: float
    bold: bool = False


def fit_texts(texts: Sequence[Wanted], width: float, height: float) -> tuple[LabelLine, ...]:
    """Lines that fill no more than `width` × `height` mm, all texts made smaller alike where they must be.

    Words are parted only at the smallest size, and what even then finds no room ends in three dots.
    """
    for part in SMALLER:
        lines = [line for text in texts for line in _lines(text, part, width, parting=False)]
        if lines_height(lines) <= height and all(_width(line) <= width for line in lines):
            return tuple(lines)
    lines = [line for text in texts for line in _lines(text, SMALLER[-1], width, parting=True)]
    return tuple(_cut_off(lines, width, height))


def lines_needed(text: str, points: float, width: float, bold: bool = False) -> int:
    """How many lines a text takes that is wrapped at its spaces, in a column of `width` mm."""
    return len(list(_lines(Wanted(text, points, bold), 1.0, width, parting=False)))


def lines_height(lines: Sequence[LabelLine]) -> float:
    """How high lines stand on one another, mm."""
    return sum(line.points * POINT * LEADING for line in lines)


def _width(line: LabelLine) -> float:
    return text_width(line.text, font_file(line.bold), line.points)


def _lines(wanted: Wanted, part: float, width: float, parting: bool) -> Iterator[LabelLine]:
    """The text wrapped at its spaces (a no-break space keeps an amount together)."""
    points = max(round(wanted.points * part, 1), SMALLEST)
    line = ""
    for word in wanted.text.split(" "):
        longer = f"{line} {word}" if line else word
        if _width(LabelLine(longer, points, wanted.bold)) <= width:
            line = longer
            continue
        if line:
            yield LabelLine(line, points, wanted.bold)
        line = word
        while parting and _width(LabelLine(line, points, wanted.bold)) > width and len(line) > 1:
            fits = _longest_start(line, points, wanted.bold, width)
            yield LabelLine(line[:fits], points, wanted.bold)
            line = line[fits:]
    if line:
        yield LabelLine(line, points, wanted.bold)


def _longest_start(word: str, points: float, bold: bool, width: float) -> int:
    """How many signs of a word fit, at least one."""
    fits = (at for at in range(len(word), 1, -1) if _width(LabelLine(word[:at], points, bold)) <= width)
    return next(fits, 1)


def _cut_off(lines: Sequence[LabelLine], width: float, height: float) -> list[LabelLine]:
    kept = list(lines)
    while len(kept) > 1 and lines_height(kept) > height:
        kept.pop()
    if len(kept) < len(lines):
        last = kept[-1]
        text = last.text
        while text and _width(LabelLine(text + MORE, last.points, last.bold)) > width:
            text = text[:-1]
        kept[-1] = LabelLine(text.rstrip() + MORE, last.points, last.bold)
    return kept
