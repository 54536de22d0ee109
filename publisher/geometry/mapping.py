"""Paths moved rigidly by any rule that keeps distances: turned, shifted, mirrored."""

from collections.abc import Callable

from publisher.geometry.paths import Path
from publisher.geometry.points import Point
from publisher.geometry.segments import Arc, Cubic, Line, Segment

Rule = Callable[[Point], Point]


def mapped(path: Path, rule: Rule, turned_over: bool) -> Path:
    """The path with every point moved by a rule that keeps distances; `turned_over` when the rule mirrors."""
    return Path(tuple(_mapped(segment, rule, turned_over) for segment in path.segments))


def _mapped(segment: Segment, rule: Rule, turned_over: bool) -> Segment:
    if isinstance(segment, Line):
        return Line(rule(segment.start), rule(segment.end))
    if isinstance(segment, Arc):
        sweep = -segment.sweep if turned_over else segment.sweep
        return Arc(rule(segment.start), rule(segment.end), rule(segment.centre), sweep)
    return Cubic(rule(segment.start), rule(segment.first_handle), rule(segment.second_handle), rule(segment.end))


def mirrored_point(point: Point, through: Point, along: Point) -> Point:
    """The point on the other side of the line through a point, in a direction, at the same distance."""
    way = along.unit()
    beside = way.left() * (point - through).dot(way.left())
    return point - beside * 2


def mirrored(path: Path, through: Point, along: Point) -> Path:
    """The path on the other side of a line; it runs the same way, so a ring changes its turn."""
    return mapped(path, lambda point: mirrored_point(point, through, along), turned_over=True)
