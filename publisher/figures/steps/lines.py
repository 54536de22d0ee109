"""Short ways to make paths: straight, through spots, rings, parallels of lines, arrows with their heads."""

from collections.abc import Iterable
from itertools import pairwise

from publisher.figures.steps.values import Arrow, DrawnShape, Look
from publisher.geometry import Box, Line, Path, Point, circle

HEAD_LENGTH = 2.6  # mm on paper
HEAD_WIDTH = 2.0
SHORT = 8.0  # mm on paper: a shorter cut bears no scissors
LOOP = 0.75  # mm: radius of a handle of a pair of scissors
ALONG = 0.12  # of a cut: where they are
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


def scissors(cut: Path) -> tuple[DrawnShape, ...]:
    """A pair of scissors on a line on paper that is cut along; none where it is short."""
    if cut.length < SHORT:
        return ()
    at = cut.length * ALONG
    spot, along = cut.point_at(at), cut.direction_at(at)
    aside = along.left()
    shapes: list[DrawnShape] = []
    for side in (1.0, -1.0):
        handle, tip = spot - along * 2.0 + aside * (side * 1.1), spot + along * 3.0 - aside * (side * 1.0)
        shapes.append(DrawnShape(line(handle + (tip - handle).unit() * LOOP, tip), Look.SIGN, None, False))
        shapes.append(DrawnShape(ring(handle, LOOP), Look.SIGN, None, True))
    return tuple(shapes)


def _between(start: Point, handle: Point, end: Point, part: float) -> Point:
    """A spot of the quadratic curve whose middle lies half way to twice the bulge."""
    rest = 1 - part
    return start * (rest * rest) + (handle * 2 - (start + end) * 0.5) * (2 * rest * part) + end * (part * part)


def runs_over(path: Path, box: Box) -> bool:
    """True where a path enters a box."""
    spots = [path.point_at(path.length * part / 60) for part in range(61)]
    return any(box.left <= spot.x <= box.right and box.bottom <= spot.y <= box.top for spot in spots)
