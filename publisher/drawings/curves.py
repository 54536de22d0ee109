"""Segments of a drawing mapped into millimetres: arcs that are circular stay arcs, other ellipses become cubics."""

import math
from collections.abc import Iterable
from dataclasses import replace

from publisher.drawings.numbers import BadValue
from publisher.drawings.path_data import MOST_SEGMENTS, EllipticArc, RawSegment, TooMany
from publisher.drawings.transforms import Matrix
from publisher.geometry import Arc, Cubic, Line, Point, Segment

TOLERANCE = 5e-4  # mm, of an ellipse drawn as cubics: half of what is promised
ROUND = 2e-4  # mm; an ellipse whose axes differ by less is a circle, a curve that bends by less is straight
WIDEST = 1e7  # mm, radius of an arc: 10 km
TINY = 1e-4  # mm; shorter segments are slips of the pen and are left out
# A cubic over t radians of a unit circle is off by about 1.814·10⁻⁵ t⁶ (2.73·10⁻⁴ over a quarter turn).
_OFF = 1.814e-5


def mapped_segments(segments: Iterable[RawSegment], matrix: Matrix) -> tuple[Segment, ...]:
    """The segments in millimetres, each beginning exactly where the one before ends; none of no length.

    Raises BadValue for an arc that no drawing of cloth could hold, and TooMany.
    """
    done: list[Segment] = []
    at: Point | None = None
    for raw in segments:
        for segment in _mapped(raw, matrix):
            if at is not None:
                segment = replace(segment, start=at)
            if _is_tiny(segment):
                at = at or segment.start
                continue
            done.append(segment)
            if len(done) > MOST_SEGMENTS:
                raise TooMany
            at = segment.end
    return tuple(done)


def _mapped(raw: RawSegment, matrix: Matrix) -> tuple[Segment, ...]:
    if isinstance(raw, Line):
        return (Line(matrix(raw.start), matrix(raw.end)),)
    if isinstance(raw, Cubic):
        points = (matrix(point) for point in (raw.start, raw.first_handle, raw.second_handle, raw.end))
        return (_plain(Cubic(*points)),)
    arc = replace(
        raw,
        start=matrix(raw.start),
        end=matrix(raw.end),
        centre=matrix(raw.centre),
        u=matrix.way(raw.u),
        v=matrix.way(raw.v),
    )
    longest = max(arc.u.length, arc.v.length)
    if not longest <= WIDEST:
        raise BadValue(f"an arc with a radius of {longest / 1e6:.4g} km")
    if abs(arc.u.length - arc.v.length) <= ROUND and abs(arc.u.dot(arc.v)) <= ROUND * longest:
        return (_circular(arc),)
    return tuple(_plain(cubic) for cubic in _as_cubics(arc))


def _circular(arc: EllipticArc) -> Line | Arc:
    """An arc, or a line where it rises over its chord by next to nothing."""
    sweep = arc.sweep if arc.u.cross(arc.v) > 0 else -arc.sweep
    if abs(sweep) < math.pi and arc.u.length * (1 - math.cos(sweep / 2)) < ROUND:
        return Line(arc.start, arc.end)
    return Arc(arc.start, arc.end, arc.centre, sweep)


def _as_cubics(arc: EllipticArc) -> tuple[Cubic, ...]:
    """As many parts, alike in angle, as keep each cubic within TOLERANCE (the error grows with the longer axis)."""
    reach = math.hypot(arc.u.length, arc.v.length)
    widest = min((TOLERANCE / (_OFF * max(reach, 1e-9))) ** (1 / 6), math.pi / 2)
    count = max(math.ceil(abs(arc.sweep) / widest - 1e-9), 1)
    part = arc.sweep / count
    handle = 4 / 3 * math.tan(part / 4)
    angles = [arc.begin + part * at for at in range(count + 1)]
    spots = [arc.start, *(arc.at(angle) for angle in angles[1:-1]), arc.end]
    ways = [(arc.v * math.cos(angle) - arc.u * math.sin(angle)) * handle for angle in angles]
    return tuple(
        Cubic(spots[at], spots[at] + ways[at], spots[at + 1] - ways[at + 1], spots[at + 1]) for at in range(count)
    )


def _plain(cubic: Cubic) -> Line | Cubic:
    """A line where a curve is straight in all but name: handles on the chord, neither before it nor beyond."""
    chord = cubic.end - cubic.start
    size = chord.length
    if size < TINY:
        return cubic
    way = chord.unit()
    for handle in (cubic.first_handle, cubic.second_handle):
        away = handle - cubic.start
        if abs(way.cross(away)) > ROUND or not -ROUND <= way.dot(away) <= size + ROUND:
            return cubic
    return Line(cubic.start, cubic.end)


def _is_tiny(segment: Segment) -> bool:
    if isinstance(segment, Arc):
        return segment.length < TINY
    points = [segment.end]
    if isinstance(segment, Cubic):
        points += [segment.first_handle, segment.second_handle]
    return all((point - segment.start).length < TINY for point in points)
