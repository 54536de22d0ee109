"""Arcs from what a maker knows of them, and arcs as cubics for writers."""

import math

from publisher.geometry.points import Point
from publisher.geometry.segments import Arc, Cubic, Line, Segment


def arc_by_radius(start: Point, end: Point, radius: float, bulge_right: bool) -> Arc:
    """The lesser arc of a radius between two points, bulging to the right of the way or to the left.

    Raises ValueError where the chord is longer than twice the radius.
    """
    chord = end - start
    half = chord.length / 2
    if radius <= 0 or half > radius + 1e-9:
        raise ValueError(f"a radius of {radius:.4g} mm does not reach over a chord of {chord.length:.4g} mm")
    beside = math.sqrt(max(radius**2 - half**2, 0.0))
    aside = chord.unit().left() if bulge_right else chord.unit().right()
    centre = start + chord * 0.5 + aside * beside
    sweep = 2 * math.asin(min(half / radius, 1.0))
    return Arc(start, end, centre, sweep if bulge_right else -sweep)


def arc_by_height(start: Point, end: Point, height: float, bulge_right: bool) -> Arc:
    """The arc that rises so high over its chord. r = (c²/4 + s²) / 2s. Raises ValueError for a height of nought."""
    chord = end - start
    if height <= 0:
        raise ValueError(f"an arc {height:.4g} mm high is no arc")
    radius = (chord.length**2 / 4 + height**2) / (2 * height)
    aside = chord.unit().left() if bulge_right else chord.unit().right()
    centre = start + chord * 0.5 + aside * (radius - height)
    sweep = 2 * math.asin(min(chord.length / 2 / radius, 1.0))
    if height > radius:
        sweep = 2 * math.pi - sweep
    return Arc(start, end, centre, sweep if bulge_right else -sweep)


def as_cubics(segment: Segment) -> tuple[Line | Cubic, ...]:
    """The segment as lines and cubics: an arc in parts of at most 45°, each within 4.25·10⁻⁶ of its radius."""
    if not isinstance(segment, Arc):
        return (segment,)
    count = max(math.ceil(abs(segment.sweep) / (math.pi / 4) - 1e-9), 1)
    part = segment.sweep / count
    handle = 4 / 3 * math.tan(part / 4) * segment.radius
    spots = [segment.start, *(segment.at_angle(segment.start_angle + part * at) for at in range(1, count)), segment.end]
    cubics: list[Cubic] = []
    for at in range(count):
        first, second = spots[at], spots[at + 1]
        along_first = (first - segment.centre).unit().left()
        along_second = (second - segment.centre).unit().left()
        cubics.append(Cubic(first, first + along_first * handle, second - along_second * handle, second))
    return tuple(cubics)
