"""Dimensions on paper: arrows between two spots with their words in the line, or, where that is narrow, pointing in from
outside. mm on paper, y up."""

from collections.abc import Callable

from publisher.figures.steps.columns import Named
from publisher.figures.steps.lettering import LINE, POINTS, set_words
from publisher.figures.steps.lines import SMALL_HEAD, arrow_shapes, line
from publisher.figures.steps.values import Arrow, Dimension, DrawnShape, DrawnText, Lettering, Look
from publisher.frozen import dataclass
from publisher.geometry import Box, Path, Point

SLACK = 1.2  # on either side of words in a line
TAIL = 4.0  # of an arrow that points in from outside
EXTENSION = 1.2  # how far an extension line runs beyond its dimension


@dataclass(frozen=True, slots=True)
class Measured:
    """A dimension on paper: its lines, and words in the line or beside the drawing."""

    shapes: tuple[DrawnShape, ...]
    texts: tuple[DrawnText, ...] = ()
    named: Named | None = None


def measured(
    one: Dimension,
    place: Callable[[Point], Point],
    letters: Lettering,
    widest: float,
    inline: bool = True,
) -> Measured:
    """A dimension set on paper by `place`, its words in its line where that is long enough and `inline`."""
    begin, end = place(one.start), place(one.end)
    aside = (end - begin).unit().left() * one.away
    start, tip = begin + aside, end + aside
    shapes = [_thin(line(spot, spot + _longer(aside))) for spot in (begin, end) if one.away]
    words = letters.say(one.says)
    wide = letters.width(words, POINTS, False)
    way = tip - start
    level, upright = abs(way.y) < 0.01, abs(way.x) < 0.01
    needed = (wide if level else LINE) + 2 * SLACK + 7.0
    if inline and (level or upright) and way.length >= needed:
        gap = ((wide if level else LINE) + 2 * SLACK) / 2
        middle, along = (start + tip) * 0.5, way.unit()
        shapes += _headed(middle - along * gap, start)
        shapes += _headed(middle + along * gap, tip)
        box = Box(middle.x - wide / 2, middle.y - LINE / 2, middle.x + wide / 2, middle.y + LINE / 2)
        return Measured(tuple(shapes), (DrawnText(words, box, POINTS, False),))
    if way.length >= 4.2:
        shapes += [*_headed((start + tip) * 0.5, start), *_headed((start + tip) * 0.5, tip)]
        at = (start + tip) * 0.5
    else:
        shapes += _headed(start - way.unit() * TAIL, start) + _headed(tip + way.unit() * TAIL, tip)
        at = tip + way.unit() * TAIL
    return Measured(tuple(shapes), (), Named(set_words(letters, one.says, widest), at))


def _longer(aside: Point) -> Point:
    return aside + aside.unit() * EXTENSION if aside.length else aside


def _headed(foot: Point, tip: Point) -> list[DrawnShape]:
    shapes = arrow_shapes(Arrow(foot, tip), Look.THIN, SMALL_HEAD)
    return [DrawnShape(one.path, one.look, one.texture, one.closed) for one in shapes]


def _thin(path: Path) -> DrawnShape:
    return DrawnShape(path, Look.THIN, None, False)
