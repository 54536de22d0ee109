"""Areas: what a closed path holds, whether it crosses itself, what overlaps. The one door to Shapely."""

from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise

import numpy
import shapely
from shapely import LineString, Polygon, STRtree, box
from shapely.affinity import scale, translate
from shapely.geometry.base import BaseGeometry
from shapely.validation import explain_validity

from publisher.geometry.paths import Path
from publisher.geometry.points import Box, Point
from publisher.geometry.segments import Line

MOST_STEPS = 1000
Drawn = BaseGeometry  # lines or areas that are asked about often


@lru_cache(maxsize=512)  # of one outline it is asked by many
def polygon(path: Path, tolerance: float = 0.01) -> Polygon:
    """The area inside a closed path, its curves flattened within `tolerance`.

    Rounded to a billionth of a millimetre, so that ends which agree but for the last digit do not cross.
    """
    return Polygon(numpy.array(path.spots(tolerance)).round(9))


def union_area(paths: Sequence[Path], tolerance: float) -> BaseGeometry:
    """The area that several closed paths hold together."""
    return shapely.union_all([polygon(path, tolerance) for path in paths])


def length_near(path: Path, other: Path, gap: float) -> float:
    """How much of a path lies nearer than `gap` to another."""
    first, second = (LineString(one.spots()) for one in (path, other))
    return float(first.intersection(second.buffer(gap)).length)


def all_lines(lines: Sequence[Line]) -> BaseGeometry:
    """Lines as one thing, to be asked about often."""
    return shapely.multilinestrings([[(end.x, end.y) for end in (line.start, line.end)] for line in lines])


def length_beside(drawn: BaseGeometry, at: float, upright: bool, gap: float) -> float:
    """How much of some lines, taken as one, runs along an endless upright (or level) one at `at`, nearer to it than `gap`.

    What only crosses it is not counted: of each stretch the way across is taken off its way along.
    """
    left, bottom, right, top = drawn.bounds
    band = (
        box(at - gap, bottom - gap, at + gap, top + gap)
        if upright
        else box(left - gap, at - gap, right + gap, at + gap)
    )
    found = 0.0
    for stretch in shapely.get_parts(shapely.line_merge(drawn.intersection(band))):
        across, along = _extent(stretch) if upright else _extent(stretch)[::-1]
        found += max(along - across, 0.0)
    return found


def _extent(stretch: BaseGeometry) -> tuple[float, float]:
    left, bottom, right, top = stretch.bounds
    return float(right - left), float(top - bottom)


def crossing(path: Path, tolerance: float = 0.005) -> Point | None:
    """Where a closed path crosses or touches itself, or None."""
    area = polygon(path, tolerance)
    if area.is_valid:
        return None
    reason = explain_validity(area)
    inside_brackets = reason[reason.find("[") + 1 : reason.find("]")].split()
    return Point(float(inside_brackets[0]), float(inside_brackets[1])) if len(inside_brackets) == 2 else path.start


def inside(path: Path, point: Point) -> bool:
    """True when a point lies inside a closed path."""
    return bool(polygon(path).contains(shapely.Point(point.x, point.y)))


def alike_flips(path: Path, tolerance: float = 0.01) -> tuple[tuple[Point, Point], ...]:
    """The upright and the level axis (a point of it, its direction) on which a closed path turned over covers itself;
    one that has none has a wrong side."""
    area = polygon(path, tolerance)
    width = 4 * tolerance * path.length
    through = Point(area.centroid.x, area.centroid.y)
    turned = (
        (Point(0.0, 1.0), scale(area, -1, 1, origin="centroid")),
        (Point(1.0, 0.0), scale(area, 1, -1, origin="centroid")),
    )
    return tuple((through, along) for along, other in turned if area.symmetric_difference(other).area < width)


def span_inside(path: Path, through: Point, direction: Point) -> tuple[Point, Point]:
    """The longest stretch inside a closed path of the line through a point. Raises ValueError where it misses."""
    size = path.box
    reach = size.width + size.height + (through - path.start).length
    way = direction.unit()
    first, last = through - way * reach, through + way * reach
    stretches = polygon(path).intersection(LineString([(first.x, first.y), (last.x, last.y)]))
    pieces: list[BaseGeometry] = [
        one for one in getattr(stretches, "geoms", [stretches]) if isinstance(one, LineString) and one.length > 0
    ]
    if not pieces:
        raise ValueError("the line misses the path")
    longest = max(pieces, key=lambda one: one.length)
    (start_x, start_y), (end_x, end_y) = longest.coords[0], longest.coords[-1]
    start, end = Point(start_x, start_y), Point(end_x, end_y)
    return (start, end) if (end - start).dot(way) > 0 else (end, start)


def boxes_overlap(boxes: Sequence[tuple[float, float, float, float]], gap: float, slack: float = 1e-3) -> bool:
    """True when two boxes (left, low, right, high) lie nearer than `gap`, by more than `slack`."""
    shapes = [box(*one) for one in boxes]
    wide = max(gap - slack, 0.0)
    tree = STRtree(shapes)
    for at, shape in enumerate(shapes):
        shrunk = shape.buffer(-slack, join_style="mitre") if not wide else shape
        for other in tree.query(shape.buffer(wide, join_style="mitre")):
            if other <= at:
                continue
            near = shrunk.distance(shapes[other]) < wide if wide else shrunk.intersects(shapes[other])
            if near:
                return True
    return False


def ring_round(path: Path, tolerance: float = 0.2) -> tuple[tuple[float, float], ...]:
    """A ring of few straight steps that holds all of a closed path and is nowhere further than twice `tolerance` outside.

    A path of straight lines comes back as it is, one that crosses itself as its box. Counter-clockwise, the first point
    not repeated.
    """
    flat = polygon(path, tolerance / 4)
    if not flat.is_valid:
        flat = box(*flat.bounds)
    plain = flat.simplify(tolerance / 2)
    straight = all(isinstance(segment, Line) for segment in path.segments)
    # What simplifying cut off, and what flattening did, is put on again all round.
    off = max(shapely.distance(shapely.points(flat.exterior.coords), plain).max(initial=0.0), 0.0)
    grown = off if straight else off + tolerance / 4
    if grown > 1e-9:
        plain = plain.buffer(grown, join_style="mitre", mitre_limit=2.0)
    assert isinstance(plain, Polygon)
    corners = shapely.get_coordinates(plain.exterior)[:-1].tolist()
    return tuple((x, y) for x, y in (corners if plain.exterior.is_ccw else corners[::-1]))


def reach_beyond(path: Path, area: Path, tolerance: float = 0.05) -> float:
    """How far a closed path reaches beyond another: from its outermost spot to the other's nearest."""
    within = polygon(area, tolerance)
    beyond = polygon(path, tolerance).buffer(0).difference(within)
    spots = shapely.get_coordinates(beyond)
    return max((shapely.Point(spot).distance(within) for spot in spots), default=0.0)


def same_area(path: Path, other: Path, tolerance: float = 0.01) -> bool:
    """True when two closed paths hold the same area, but for a band of `tolerance` along their outlines."""
    one, two = path.box, other.box
    gaps = (one.left - two.left, one.right - two.right, one.bottom - two.bottom, one.top - two.top)
    if max(map(abs, gaps)) > tolerance:
        return False
    differ = polygon(path, tolerance).buffer(0).symmetric_difference(polygon(other, tolerance).buffer(0))
    return bool(differ.area < 4 * tolerance * path.length)


def ring_of_all(rings: Sequence[Sequence[tuple[float, float]]]) -> tuple[tuple[float, float], ...]:
    """The outer ring of several that overlap, counter-clockwise, the first point not repeated; gaps inside are filled."""
    together = shapely.union_all([Polygon(ring) for ring in rings])
    assert isinstance(together, Polygon)
    return tuple((x, y) for x, y in shapely.geometry.polygon.orient(together).exterior.coords[:-1])


def slid_down(ring: Sequence[tuple[float, float]], onto: Sequence[Sequence[tuple[float, float]]], gap: float) -> float:
    """How far a ring that lies above others slides down until it is `gap` from one of them; nought where it does not.

    Each step is as long as the way that is free, so that it passes nothing (to 0.01).
    """
    sliding, below = Polygon(ring), shapely.union_all([Polygon(one) for one in onto])
    down = 0.0
    for _ in range(MOST_STEPS):
        free = translate(sliding, 0.0, -down).distance(below) - gap
        if free < 0.01 or below.is_empty:
            break
        down += free
    return down


def flat_ring(path: Path, tolerance: float) -> tuple[tuple[float, float], ...]:
    """A closed path in straight steps within `tolerance` of it, the first point not repeated."""
    return tuple(path.spots(tolerance)[:-1])


def lie_apart(paths: Sequence[Path], gap: float, slack: float = 0.02) -> bool:
    """True when no two closed paths overlap, or lie nearer than `gap`, by more than `slack`."""
    rings = [flat_ring(path, slack / 2) for path in paths]
    return not rings_near(rings, [(at, 0, 0.0, 0.0) for at in range(len(rings))], gap, slack)


def rings_near(
    rings: Sequence[Sequence[tuple[float, float]]],
    placed: Sequence[tuple[int, int, float, float]],
    gap: float,
    slack: float = 0.02,
) -> tuple[tuple[int, int], ...]:
    """Which two that are placed overlap, or lie nearer than `gap`, by more than `slack`: their places in the sequence.

    Each is a ring, by its number, turned by so many quarter turns about the origin and then shifted; one that crosses
    itself is near to itself.
    """
    areas = _placed_areas(rings, placed)
    crossed = tuple((int(at), int(at)) for at in (~shapely.is_valid(areas)).nonzero()[0])
    if gap > slack:
        first, second = STRtree(areas).query(areas, predicate="dwithin", distance=gap - slack)
    else:
        # What only touches has lines in common and no room.
        first, second = STRtree(areas).query(shapely.buffer(areas, -slack), predicate="intersects")
    return (*crossed, *((int(one), int(other)) for one, other in zip(first, second, strict=True) if one < other))


def _placed_areas(
    rings: Sequence[Sequence[tuple[float, float]]], placed: Sequence[tuple[int, int, float, float]]
) -> "numpy.ndarray":
    """The areas of rings where they are placed, rounded as in `polygon`."""
    flat = {number: numpy.asarray(rings[number], dtype=float) for number in {number for number, *_ in placed}}
    spots, which = [], []
    for at, (number, quarters, x, y) in enumerate(placed):
        corners = flat[number]
        for _ in range(quarters % 4):
            corners = numpy.column_stack((-corners[:, 1], corners[:, 0]))
        spots.append(corners + numpy.array([x, y]))
        which.append(numpy.full(len(corners), at))
    if not spots:
        return numpy.array([], dtype=object)
    lines = shapely.linearrings(numpy.concatenate(spots).round(9), indices=numpy.concatenate(which))
    return numpy.asarray(shapely.polygons(lines))


def grown(area: BaseGeometry, margin: float) -> BaseGeometry:
    """An area grown by `margin` all round, to be asked about often."""
    larger = area.buffer(margin)
    shapely.prepare(larger)
    return larger


def fills_box(area: BaseGeometry, within: Box) -> bool:
    """True when something of an area lies in an upright box."""
    return bool(area.intersects(box(within.left, within.bottom, within.right, within.top)))


def fills_boxes(area: BaseGeometry, within: Sequence[Box]) -> list[bool]:
    """The same of many upright boxes at once."""
    sides = numpy.array([(one.left, one.bottom, one.right, one.top) for one in within])
    return [bool(held) for held in shapely.intersects(area, shapely.box(*sides.T))]


def stretches_within(path: Path, within: Box, tolerance: float) -> tuple[Path, ...]:
    """The stretches of a path inside an upright box, as few straight lines as keep within `tolerance` of it.

    For small drawings: a curve, or a chain of many short lines, becomes what can be seen of it.
    """
    points = path.spots(tolerance / 2)
    plain = LineString(points).simplify(tolerance / 2)
    cut = plain.intersection(box(within.left, within.bottom, within.right, within.top))
    lines = [one for one in getattr(cut, "geoms", [cut]) if isinstance(one, LineString) and one.length > 0]
    if not lines:
        return ()
    # A closed path may begin inside the box: what lies before and behind its start is one stretch.
    merged = shapely.line_merge(shapely.MultiLineString(lines))
    return tuple(_straight(one) for one in getattr(merged, "geoms", [merged]))


def _straight(line: LineString) -> Path:
    points = [Point(x, y) for x, y in line.coords]
    return Path(tuple(Line(first, second) for first, second in pairwise(points)))


def folded_along(
    path: Path, start: Point, end: Point, at: Point, tolerance: float = 0.05
) -> tuple[tuple[Path, ...], Path]:
    """A closed path folded along the line from start to end: what stays, and the part beyond that is nearest to `at`.

    What lies to the left of the line stays, and so does any other part beyond it. Raises ValueError where nothing lies
    beyond it.
    """
    area, half = polygon(path, tolerance).buffer(0), _left_of(path, start, end)
    beyond = [one for one in shapely.get_parts(area.difference(half)) if isinstance(one, Polygon) and one.area > 1e-6]
    if not beyond:
        raise ValueError("nothing lies beyond the line")
    over = min(beyond, key=lambda one: one.distance(shapely.Point(at.x, at.y)))
    # Taking the part beyond away would leave a hair where its corner lies a rounding error beside the outline.
    kept = area.intersection(half) if len(beyond) == 1 else area.difference(over)
    return _rings(kept), _rings(over)[0]


def outside_of(path: Path, area: Path, tolerance: float = 0.05) -> tuple[Path, ...]:
    """The stretches of an open path that lie outside a closed one."""
    drawn = LineString(path.spots(tolerance))
    kept = drawn.difference(polygon(area, tolerance).buffer(1e-6))
    lines = [one for one in shapely.get_parts(kept) if isinstance(one, LineString) and one.length > 0]
    return tuple(_through(list(one.coords)) for one in lines)


def line_within(path: Path, area: Path, tolerance: float = 0.02) -> tuple[Path, ...]:
    """The stretches of a path inside a closed one, as straight steps."""
    drawn = LineString(path.spots(tolerance))
    kept = shapely.line_merge(drawn.intersection(polygon(area, tolerance)))
    lines = [one for one in shapely.get_parts(kept) if isinstance(one, LineString) and one.length > 0]
    return tuple(_through(list(one.coords)) for one in lines)


def area_within(path: Path, area: Path, tolerance: float = 0.02) -> tuple[Path, ...]:
    """What of the area in a closed path lies inside another, as straight steps."""
    return _rings(polygon(path, tolerance).buffer(0).intersection(polygon(area, tolerance)))


def parallel_beside(path: Path, by: float, tolerance: float = 0.05) -> tuple[Path, ...]:
    """The line at a distance to the left of an open path, straight steps; in parts where it is too tight."""
    drawn = LineString(path.spots(tolerance))
    beside = drawn.offset_curve(by, join_style="mitre")
    lines = [one for one in shapely.get_parts(beside) if isinstance(one, LineString) and one.length > 0]
    return tuple(_through(list(one.simplify(tolerance).coords)) for one in lines)


def _left_of(path: Path, start: Point, end: Point) -> Polygon:
    """A rectangle to the left of a line, larger than the path."""
    size, way = path.box, (end - start).unit()
    far = 4 * (size.width + size.height) + 2 * (start - path.start).length
    corners = (
        start - way * far,
        start + way * far,
        start + way * far + way.left() * far,
        start - way * far + way.left() * far,
    )
    return Polygon([(corner.x, corner.y) for corner in corners])


def _rings(area: BaseGeometry) -> tuple[Path, ...]:
    parts = [one for one in shapely.get_parts(area) if isinstance(one, Polygon) and one.area > 1e-6]
    return tuple(_through(list(shapely.geometry.polygon.orient(part).exterior.coords)) for part in parts)


def _through(spots: Sequence[Sequence[float]]) -> Path:
    return Path(tuple(Line(Point(one[0], one[1]), Point(other[0], other[1])) for one, other in pairwise(spots)))
