"""A path drawn small: scaled, cut off at a box, no more corners than the eye can see."""

from collections.abc import Callable

from publisher.figures.values import Stroke, Style
from publisher.geometry import Box, Line, Path, Point, stretches_within

# On paper, mm: half the thinnest line, so that no one sees the difference.
SEEN = 0.05


def small_strokes(path: Path, within: Box, scale: float, place: Callable[[Point], Point], style: Style) -> list[Stroke]:
    """The stretches of a path inside `within` (both mm, true size), each point taken by `place` to the drawing.

    `place` scales by `scale` and may turn and flip; it is given points of the path's own coordinates.
    """
    strokes = []
    for stretch in stretches_within(path, within, SEEN / scale):
        segments = tuple(Line(place(part.start), place(part.end)) for part in stretch.segments)
        strokes.append(Stroke(Path(segments), style, closed=stretch.closed))
    return strokes
