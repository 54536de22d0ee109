"""Random segments and paths, and spots on them reckoned here from their definition, without the geometry's own methods."""

import itertools
import math

import numpy
from hypothesis import strategies as st
from shapely import Polygon

from publisher.geometry import Arc, Cubic, Line, Path, Point, Segment

places = st.builds(Point, st.floats(-300, 300), st.floats(-300, 300))


def apart(first: Point, second: Point) -> float:
    """Distance, mm."""
    return math.hypot(first.x - second.x, first.y - second.y)


def arc(centre: Point, radius: float, start_angle: float, sweep: float) -> Arc:
    """An arc from its centre; angles in radians."""
    start, end = (
        Point(centre.x + radius * math.cos(angle), centre.y + radius * math.sin(angle))
        for angle in (start_angle, start_angle + sweep)
    )
    return Arc(start, end, centre, sweep)


@st.composite
def lines(draw: st.DrawFn) -> Line:
    start = draw(places)
    length, angle = draw(st.floats(1, 300)), draw(st.floats(0, 2 * math.pi))
    return Line(start, Point(start.x + length * math.cos(angle), start.y + length * math.sin(angle)))


@st.composite
def arcs(draw: st.DrawFn) -> Arc:
    sweep = draw(st.floats(0.05, 2 * math.pi)) * draw(st.sampled_from((1, -1)))
    return arc(draw(places), draw(st.floats(1, 300)), draw(st.floats(-math.pi, math.pi)), sweep)


@st.composite
def cubics(draw: st.DrawFn) -> Cubic:
    """Curves that run on, as an edge does: each handle leads forwards."""
    start, turned = draw(places), draw(st.floats(0, 2 * math.pi))
    steps = [Point(draw(st.floats(5, 100)), draw(st.floats(-100, 100))).turned(turned) for _ in range(3)]
    return Cubic(start, start + steps[0], start + steps[0] + steps[1], start + steps[0] + steps[1] + steps[2])


@st.composite
def wild_cubics(draw: st.DrawFn) -> Cubic:
    """Curves with loops and cusps among them."""
    start, first, second = (draw(places) for _ in range(3))
    away = draw(lines())
    return Cubic(start, first, second, start + (away.end - away.start))


segments = st.one_of(lines(), arcs(), cubics())


@st.composite
def paths(draw: st.DrawFn) -> Path:
    """Two to four segments end to end."""
    chained: list[Segment] = []
    at = draw(places)
    for segment in draw(st.lists(segments, min_size=2, max_size=4)):
        chained.append(shifted(segment, at - segment.start))
        at = chained[-1].end
    return Path(tuple(chained))


@st.composite
def convex_corners(draw: st.DrawFn) -> tuple[tuple[float, float], ...]:
    """Corners of a convex polygon, counter-clockwise, none of them sharper than a mitre reaches."""
    count = draw(st.integers(3, 9))
    gaps = [draw(st.floats(1.0, 1.6)) for _ in range(count)]
    across, up, turned = draw(st.floats(40, 200)), draw(st.floats(40, 200)), draw(st.floats(0, math.pi))
    angles = [turned + 2 * math.pi * sum(gaps[:at]) / sum(gaps) for at in range(count)]
    polygon = [(across * math.cos(angle), up * math.sin(angle)) for angle in angles]
    return tuple(polygon)


def shifted(segment: Segment, by: Point) -> Segment:
    """The segment somewhere else."""
    return mapped(segment, lambda point: Point(point.x + by.x, point.y + by.y))


def mirrored(segment: Segment) -> Segment:
    """The segment turned over on the vertical axis."""
    return mapped(segment, lambda point: Point(-point.x, point.y), turn=-1)


def mapped(segment: Segment, movement: object, turn: int = 1) -> Segment:
    assert callable(movement)
    if isinstance(segment, Line):
        return Line(movement(segment.start), movement(segment.end))
    if isinstance(segment, Arc):
        return Arc(movement(segment.start), movement(segment.end), movement(segment.centre), turn * segment.sweep)
    return Cubic(*map(movement, (segment.start, segment.first_handle, segment.second_handle, segment.end)))


def bezier(cubic: Cubic, part: float) -> Point:
    """A point of a cubic, by de Casteljau."""
    spots = [cubic.start, cubic.first_handle, cubic.second_handle, cubic.end]
    while len(spots) > 1:
        spots = [Point(a.x + (b.x - a.x) * part, a.y + (b.y - a.y) * part) for a, b in itertools.pairwise(spots)]
    return spots[0]


def followed(segment: Segment, count: int = 2000) -> list[Point]:
    """Spots along a segment, both ends among them."""
    if isinstance(segment, Line):
        return [segment.start, segment.end]
    if isinstance(segment, Cubic):
        return [bezier(segment, at / count) for at in range(count + 1)]
    away = segment.start - segment.centre
    radius, start = math.hypot(away.x, away.y), math.atan2(away.y, away.x)
    angles = (start + segment.sweep * at / count for at in range(count + 1))
    return [
        Point(segment.centre.x + radius * math.cos(angle), segment.centre.y + radius * math.sin(angle))
        for angle in angles
    ]


def coordinates(path: Path, count: int = 2000) -> list[tuple[float, float]]:
    """Spots along a path as Shapely wants them."""
    return [(spot.x, spot.y) for segment in path.segments for spot in followed(segment, count)]


def area_of(path: Path, count: int = 2000) -> Polygon:
    """What a closed path encloses, its curves in `count` chords each."""
    return Polygon(coordinates(path, count))


def spots_and_speeds(cubic: Cubic, count: int) -> tuple[numpy.ndarray, numpy.ndarray]:
    """Evenly parted points of a cubic and the derivatives there, from the Bernstein form."""
    part = numpy.linspace(0, 1, count + 1)[:, None]
    rest = 1 - part
    a, b, c, d = (
        numpy.array([one.x, one.y]) for one in (cubic.start, cubic.first_handle, cubic.second_handle, cubic.end)
    )
    spots = a * rest**3 + 3 * b * rest**2 * part + 3 * c * rest * part**2 + d * part**3
    return spots, 3 * ((b - a) * rest**2 + 2 * (c - b) * rest * part + (d - c) * part**2)


@st.composite
def curved_outlines(draw: st.DrawFn) -> tuple[Path, ...]:
    """The edges of a counter-clockwise outline, lines, arcs and cubics, with corners that go in and out."""
    corners = [Point(x, y) for x, y in draw(convex_corners())]
    pulled = draw(st.lists(st.floats(0.75, 1.0), min_size=len(corners), max_size=len(corners)))
    corners = [corner * factor for corner, factor in zip(corners, pulled, strict=True)]
    edges = []
    for start, end in zip(corners, (*corners[1:], corners[0]), strict=True):
        chord = end - start
        out, slant = draw(st.floats(-0.15, 0.25)) * chord.length, draw(st.floats(-0.1, 0.1)) * chord.length
        right = chord.unit().right()
        kind = draw(st.sampled_from(("line", "cubic", "arc")))
        if kind == "line" or (kind == "arc" and abs(out) < 0.02 * chord.length):
            edges.append(Path((Line(start, end),)))
        elif kind == "cubic":
            first, second = start + chord * 0.3 + right * (out + slant), start + chord * 0.7 + right * (out - slant)
            edges.append(Path((Cubic(start, first, second, end),)))
        else:
            radius = (chord.length**2 / 4 + out**2) / (2 * abs(out))
            centre = start + chord * 0.5 + right * (out - math.copysign(radius, out))
            turn = 2 * math.asin(chord.length / 2 / radius)
            edges.append(Path((Arc(start, end, centre, math.copysign(turn, out)),)))
    return tuple(edges)
