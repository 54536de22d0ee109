"""A small arrow that lies as the grain of a measured piece does, for the label that is pinned on it."""

from publisher.drafting import Grain
from publisher.figures.pieces import HEAD_LENGTH, arrow_head
from publisher.figures.values import Figure, Stroke, Style
from publisher.geometry import Line, Path, Point

WIDTH, HEIGHT = 11.0, 16.0
_ENDS = {
    Grain.UP: (Point(WIDTH / 2, 0.0), Point(WIDTH / 2, HEIGHT)),
    Grain.ACROSS: (Point(0.0, HEIGHT / 2), Point(WIDTH, HEIGHT / 2)),
    Grain.BIAS: (Point(1.0, HEIGHT / 2 - WIDTH / 2 + 1.0), Point(WIDTH - 1.0, HEIGHT / 2 + WIDTH / 2 - 1.0)),
}


def grain_arrow(grain: Grain) -> Figure | None:
    """The arrow in a box of 11 × 16 mm, y up, the piece lying as on the chart; None where any grain will do."""
    if grain is Grain.EITHER:
        return None
    start, end = _ENDS[grain]
    along = (end - start).unit()
    shaft = Path((Line(start, end - along * HEAD_LENGTH),))
    head = Stroke(arrow_head(end, along), Style.SOLID, closed=True)
    return Figure((Stroke(shaft, Style.GRAIN), head), WIDTH, HEIGHT)
