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


def arc_through(start: Point, through: Point, end: Point) -> Arc:
    """The arc from one point through another to a third. Raises ValueError where they lie on one line."""
    first, second = through - start, end - start
    twice = 2 * first.cross(second)
    if abs(twice) <= 2e-9 * max(first.dot(first), second.dot(second), 1e-12):
        raise ValueError("three points on one line make no arc")
    # The circumcentre, from the start.
    away = Point(
        (second.y * first.dot(first) - first.y * second.dot(second)) / twice,
        (first.x * second.dot(second) - second.x * first.dot(first)) / twice,
    )
    return arc_about_to(start + away, start, end, counter_clockwise=twice > 0)


def arc_leaving(start: Point, direction: Point, end: Point) -> Arc:
    """The arc that leaves a point in a direction and ends at another. Raises ValueError where the end lies on that line."""
    way, chord = direction.unit(), end - start
    aside = way.left().dot(chord)
    if abs(aside) <= 1e-9 * max(chord.length, 1e-6):
        raise ValueError("the end lies straight on: that is a line, or no way at all")
    centre = start + way.left() * (chord.dot(chord) / (2 * aside))
    return arc_about_to(centre, start, end, counter_clockwise=aside > 0)


def arc_about(centre: Point, start: Point, sweep: float) -> Arc:
    """The arc about a centre from a point through an angle in radians, counter-clockwise if positive, one turn at most.

    Raises ValueError without a radius or an angle.
    """
    if (start - centre).length < 1e-9 or not 0 < abs(sweep) <= 2 * math.pi + 1e-9:
        raise ValueError("an arc needs a radius, and an angle of one turn at most")
    return Arc(start, start.turned(sweep, centre), centre, sweep)


def arc_about_to(centre: Point, start: Point, end: Point, counter_clockwise: bool) -> Arc:
    """The arc about a centre from a point to another; to the same point, a whole turn.

    Raises ValueError where they lie more than 0.001 mm differently far from the centre.
    """
    first, second = start - centre, end - centre
    if abs(first.length - second.length) > max(1e-3, 1e-9 * first.length) or first.length < 1e-9:
        raise ValueError(
            f"the start lies {first.length:.6g} mm from the centre and the end {second.length:.6g} mm: no arc has both"
        )
    turned = math.atan2(first.cross(second), first.dot(second)) % (2 * math.pi)
    sweep = turned if counter_clockwise else turned - 2 * math.pi
    if (end - start).length < 1e-9 or sweep == 0:
        sweep = 2 * math.pi if counter_clockwise else -2 * math.pi
    return Arc(start, end, centre, sweep)


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
