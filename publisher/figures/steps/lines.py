"""Short ways to make paths: straight, through spots, rings, parallels of lines, arrows with their heads."""

from collections.abc import Iterable
from itertools import pairwise

from publisher.figures.steps.values import Arrow, DrawnShape, Look
from publisher.geometry import Box, Line, Path, Point, circle

HEAD_LENGTH = 2.6  # mm on paper
HEAD_WIDTH = 2.0
SMALL_HEAD = 0.62  # of that, at dimensions


def line(start: Point, end: Point) -> Path:
    """A straight way."""
    return Path((Line(start, end),))


def chain(spots: Iterable[Point], closed: bool = False) -> Path:
    """Straight ways through spots, and back to the first where it is closed."""
    points = list(spots)
    if closed:
        points.append(points[0])
    return Path(tuple(Line(one, other) for one, other in pairwise(points)))


def box_path(left: float, bottom: float, right: float, top: float) -> Path:
    """An upright rectangle."""
    return chain((Point(left, bottom), Point(right, bottom), Point(right, top), Point(left, top)), closed=True)


def ring(middle: Point, radius: float) -> Path:
    """A circle."""
    return circle(middle, radius)


def head(tip: Point, way: Point, size: float = 1.0) -> Path:
    """The filled head of an arrow that points along `way`."""
    back, aside = way.unit() * (HEAD_LENGTH * size), way.unit().left() * (HEAD_WIDTH * size / 2)
    return chain((tip, tip - back + aside, tip - back - aside), closed=True)


def arrow_shapes(arrow: Arrow, look: Look = Look.ARROW, size: float = 1.0) -> tuple[DrawnShape, ...]:
    """A movement on paper: its shaft, curved by its bulge, and its head."""
    way = arrow.tip - arrow.foot
    length = way.length
    if arrow.bulge:
        middle = (arrow.foot + arrow.tip) * 0.5 + way.left() * arrow.bulge
        spots = [_between(arrow.foot, middle, arrow.tip, at / 12) for at in range(13)]
        shaft, along = spots, spots[-1] - spots[-3]
    else:
        shaft, along = [arrow.foot, arrow.tip], way
    size = min(size, length / (1.4 * HEAD_LENGTH))
    shaft = [*shaft[:-1], shaft[-1] - along.unit() * (HEAD_LENGTH * size * 0.8)]
    return (
        DrawnShape(chain(shaft), look, None, False),
        DrawnShape(head(arrow.tip, along, size), Look.SOLID, None, True),
    )


def _between(start: Point, handle: Point, end: Point, part: float) -> Point:
    """A spot of the quadratic curve whose middle lies half way to twice the bulge."""
    rest = 1 - part
    return start * (rest * rest) + (handle * 2 - (start + end) * 0.5) * (2 * rest * part) + end * (part * part)


def runs_over(path: Path, box: Box) -> bool:
    """True where a path enters a box."""
    spots = [path.point_at(path.length * part / 60) for part in range(61)]
    return any(box.left <= spot.x <= box.right and box.bottom <= spot.y <= box.top for spot in spots)
