"""A piece as lines: cut line, finished line, notches, points, fold lines, grain. Millimetres, y up."""

import math
from collections.abc import Iterable

from publisher.drafting import FoldLine, GrainLine, Mark, Notch, Piece, PointMark
from publisher.figures.values import Figure, Stroke, Style
from publisher.geometry import Arc, Line, Path, Point

POINT_RADIUS = 2.5
POINT_REACH = 4.5  # half the cross, which runs out of its ring so that its middle can be found
HEAD_LENGTH = 5.0
HEAD_WIDTH = 3.2
DOUBLE_APART = 3.0


def piece_figure(piece: Piece) -> Figure:
    """All lines of a drawn piece. Where an edge has no allowance, cut line and finished line are one, drawn as cut."""
    strokes = [Stroke(piece.cut_line, Style.CUT, closed=True)]
    strokes += [Stroke(edge.path, Style.FINISHED) for edge in piece.edges if edge.allowance > 0]
    for mark in piece.marks:
        strokes += mark_strokes(mark)
    if piece.grain_line is not None:
        strokes += grain_strokes(piece.grain_line)
    return Figure(tuple(strokes), piece.cut_width, piece.cut_height)


def mark_strokes(mark: Mark) -> list[Stroke]:
    """The lines of one mark."""
    if isinstance(mark, Notch):
        return notch_strokes(mark.cut_end, mark.inner_end, mark.double)
    if isinstance(mark, PointMark):
        return point_strokes(mark.at)
    assert isinstance(mark, FoldLine)
    return [Stroke(_line(mark.start, mark.end), Style.FOLD)]


def _line(start: Point, end: Point) -> Path:
    return Path((Line(start, end),))


def notch_strokes(cut_end: Point, inner_end: Point, double: bool) -> list[Stroke]:
    """A short line from the cut line inwards; two side by side for a double notch."""
    aside = (inner_end - cut_end).unit().left() * (DOUBLE_APART / 2)
    shifts = (aside, -aside) if double else (Point(0.0, 0.0),)
    return [Stroke(_line(cut_end + shift, inner_end + shift), Style.NOTCH) for shift in shifts]


def point_strokes(at: Point) -> list[Stroke]:
    """A ring with a cross through it: the crossing is the spot."""
    ring = Path((circle(at, POINT_RADIUS),))
    arms = [(Point(POINT_REACH, 0.0), Point(-POINT_REACH, 0.0)), (Point(0.0, POINT_REACH), Point(0.0, -POINT_REACH))]
    return [
        Stroke(ring, Style.POINT, closed=True),
        *(Stroke(_line(at + one, at + other), Style.POINT) for one, other in arms),
    ]


def circle(centre: Point, radius: float) -> Arc:
    """A whole circle, from its right."""
    start = Point(centre.x + radius, centre.y)
    return Arc(start, start, centre, 2 * math.pi)


def grain_strokes(grain: GrainLine) -> list[Stroke]:
    """A line with a head at each end: either way up will do. On a short line the heads are smaller."""
    whole = grain.end - grain.start
    along, size = whole.unit(), min(1.0, whole.length / (3 * HEAD_LENGTH))
    shaft = _line(grain.start + along * (HEAD_LENGTH * size), grain.end - along * (HEAD_LENGTH * size))
    heads = [arrow_head(grain.end, along * size), arrow_head(grain.start, -along * size)]
    return [Stroke(shaft, Style.GRAIN), *(Stroke(head, Style.SOLID, closed=True) for head in heads)]


def arrow_head(tip: Point, along: Point) -> Path:
    """A triangle with its tip at `tip`, pointing along a direction; of its usual size where that has length 1."""
    foot, half = tip - along * HEAD_LENGTH, along.left() * (HEAD_WIDTH / 2)
    corners = (tip, foot + half, foot - half)
    return closed_path(corners)


def closed_path(corners: Iterable[Point]) -> Path:
    """Straight lines through the corners and back to the first."""
    points = tuple(corners)
    return Path(tuple(Line(first, second) for first, second in zip(points, (*points[1:], points[0]), strict=True)))
