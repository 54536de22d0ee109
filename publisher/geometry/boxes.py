"""A free place for an upright box: inside an area, clear of every line, as near to a spot as can be."""

import itertools
from collections.abc import Iterable

import numpy
import shapely
from shapely import LineString, Polygon, STRtree, box
from shapely.geometry.base import BaseGeometry
from shapely.ops import nearest_points

from publisher.geometry.paths import Path
from publisher.geometry.points import Box, Point


def place_box(
    area: Path,
    lines: Iterable[Path],
    taken: Iterable[Box],
    size: tuple[float, float],
    within: Box,
    clear: float,
    near: Point | None = None,
) -> Box | None:
    """A box of `size` inside a closed path and `within`, `clear` of all lines and of boxes taken; None without room.

    The places of its lower left corner that a line forbids are the line swept by the box turned round (Minkowski);
    what is left of the area is free. Nearest to `near` if given, else the middle of the largest free part.
    """
    width, height = size
    free: BaseGeometry = Polygon(area.spots(0.2))
    # The lower left corner stays inside the area and `within`; no line is crossed, so the rest of the box does too.
    free = free.intersection(
        box(within.left + clear, within.bottom + clear, within.right - width - clear, within.top - height - clear)
        if within.width > width + 2 * clear and within.height > height + 2 * clear
        else Polygon()
    )
    forbidden = _swept(lines, width, height, clear)
    forbidden += [
        box(one.left - width - clear, one.bottom - height - clear, one.right + clear, one.top + clear) for one in taken
    ]
    free = free.difference(shapely.union_all(forbidden)) if forbidden else free
    corner = _choose(free, width, height, near)
    return None if corner is None else Box(corner.x, corner.y, corner.x + width, corner.y + height)


def _swept(lines: Iterable[Path], width: float, height: float, clear: float) -> list[BaseGeometry]:
    """What each straight step of the lines forbids: the hull of the turned box at both its ends, all at once."""
    steps = [step for line in lines for step in itertools.pairwise(line.spots(0.2))]
    if not steps:
        return []
    ends = numpy.array(steps)
    turned = numpy.array([(x, y) for x in (-width - clear, clear) for y in (-height - clear, clear)])
    corners = (ends[:, :, None, :] + turned[None, None, :, :]).reshape(len(steps), -1, 2)
    return list(shapely.convex_hull(shapely.multipoints(corners)))


def _choose(free: BaseGeometry, width: float, height: float, near: Point | None) -> Point | None:
    parts: list[Polygon] = [
        part for part in getattr(free, "geoms", [free]) if isinstance(part, Polygon) and not part.is_empty
    ]
    if not parts:
        return None
    if near is not None:
        wanted = shapely.Point(near.x - width / 2, near.y - height / 2)
        found, _ = nearest_points(shapely.union_all(parts), wanted)
        return Point(found.x, found.y)
    largest = max(parts, key=lambda part: part.area)
    middle = largest.centroid
    if not largest.contains(middle):
        middle = shapely.Point(shapely.maximum_inscribed_circle(largest).coords[0])
    return Point(middle.x, middle.y)


class Crowd:
    """The lines and boxes of a page that further boxes keep clear of."""

    def __init__(self, lines: Iterable[Path], boxes: Iterable[Box]) -> None:
        shapes: list[BaseGeometry] = [LineString(line.spots(0.05)) for line in lines]
        shapes += [box(one.left, one.bottom, one.right, one.top) for one in boxes]
        self._tree = STRtree(shapes)

    def keeps_clear(self, one: Box, gap: float) -> bool:
        """True when nothing lies nearer to a box than `gap`."""
        shape = box(one.left, one.bottom, one.right, one.top)
        return len(self._tree.query(shape, predicate="dwithin", distance=gap)) == 0
