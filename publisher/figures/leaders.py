"""The thin line from a label to what it names, and what it must not run over. On paper: mm, y down."""

import math

from publisher.figures.on_paper import OnPaper
from publisher.figures.pieces import DOT, circle
from publisher.figures.values import Stroke, Style
from publisher.geometry import Box, Crowd, Line, Path, Point, place_box

CLEAR = 1.2  # mm between a label and any line
LEADER_GAP = 0.8  # mm between a label's words and its leader
ALONG_STEP = 1.5  # mm: a leader that lies on lines at three such steps runs along one
NO_WHITE = 0.6  # mm from a line's middle: nearer, no white is left between it and a leader
WELL_INSIDE = (6.0, 3.0, 1.0)  # mm, the sides of a square clear of lines in whose middle a leader to a piece ends


def leader_from(box: Box, one: OnPaper, near: Point | None, reach: float) -> Line | None:
    """From a label's edge to `reach` mm before the mark that it names, or to a spot well inside the piece (no mark); None
    where it stands so near that it needs none."""
    target = near or _well_inside(one, middle_of(box))
    if target is None:
        return None
    start = nearest_of(box, target)
    way = target - start
    if way.length <= reach + CLEAR:
        return None
    return Line(start + way.unit() * LEADER_GAP, target - way.unit() * reach)


def _well_inside(one: OnPaper, near: Point) -> Point | None:
    sizes = ((side, side) for side in WELL_INSIDE)
    spots = (place_box(one.outline, one.lines, (), size, one.within, 0.0, near) for size in sizes)
    return next((middle_of(spot) for spot in spots if spot is not None), None)


def dot(leader: Line) -> Stroke:
    """The dot in which a leader ends."""
    return Stroke(Path((circle(leader.end, DOT),)), Style.SOLID, closed=True)


def runs_along(leader: Line, lines: Crowd) -> bool:
    """True where a leader lies on a line and not only crosses it: no one would see that it is one."""
    spots = [leader.point_at(at * ALONG_STEP) for at in range(1, int(leader.length / ALONG_STEP))]
    on_it = [not lines.keeps_clear(_round(spot), NO_WHITE) for spot in spots]
    return any(all(on_it[at : at + 3]) for at in range(len(on_it) - 2))


def _round(spot: Point) -> Box:
    return Box(spot.x - 0.01, spot.y - 0.01, spot.x + 0.01, spot.y + 0.01)


def runs_over(line: Line, box: Box) -> bool:
    """True when a line enters a box: cut to the box's extent in x, then in y, something of it is left."""
    first, last = 0.0, 1.0
    way = line.end - line.start
    for start, along, low, high in (
        (line.start.x, way.x, box.left, box.right),
        (line.start.y, way.y, box.bottom, box.top),
    ):
        if math.isclose(along, 0.0, abs_tol=1e-9):
            if not low < start < high:
                return False
            continue
        enter, leave = sorted(((low - start) / along, (high - start) / along))
        first, last = max(first, enter), min(last, leave)
    return first < last


def nearest_of(box: Box, point: Point) -> Point:
    """The spot of a box that is nearest to a point."""
    return Point(min(max(point.x, box.left), box.right), min(max(point.y, box.bottom), box.top))


def middle_of(box: Box) -> Point:
    """The middle of a box."""
    return Point((box.left + box.right) / 2, (box.bottom + box.top) / 2)
