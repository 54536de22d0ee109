"""The outline that an element draws: one closed path with its corners and the elements that its stretches come from."""

import math
from dataclasses import replace

from publisher.drawings.collecting import GROUPS, Collector, DrawnSubpath, element_called
from publisher.drawings.joining import NEAR, chained, closed_up
from publisher.drawings.mistakes import error, shown
from publisher.drawings.shapes import SHAPES
from publisher.drawings.spots import spots_among
from publisher.drawings.values import Drawing, DrawnJoint, DrawnOutline, DrawnStretch
from publisher.geometry import Arc, Box, Cubic, Path, Point, Segment, crossing, signed_area
from publisher.terms import Finding, Place, Unusable, Written

MOST_POINTS = 100_000  # of the outline flattened, to see whether it crosses itself
FLAT = 0.005  # mm
AT_JOINT = 0.5  # mm from a joint to the point that names it


def outline_of(drawing: Drawing, element: str) -> tuple[DrawnOutline | None, tuple[Finding, ...]]:
    """The outline that the element with this id draws, in mm, y up, and what was found. Never raises.

    A group may draw it as one closed shape, or as open stretches end to end, each with an id of its own; small circles
    and crosses in it name the joints that they lie on. Other lines beside a closed shape are no part of the outline.
    """
    id = str(element)
    place = element.place if isinstance(element, Written) else drawing.elements[0].place
    try:
        return _outline(drawing, element_called(drawing, id, place), id), ()
    except Unusable as unusable:
        return None, (unusable.finding,)


def _outline(drawing: Drawing, at: int, id: str) -> DrawnOutline:
    element = drawing.elements[at]
    drawn = Collector(drawing).collect(at)
    spots = spots_among(drawing, drawn) if element.tag in (*GROUPS, "use") and len(drawn) > 1 else ()
    in_spots = {number for _, _, numbers in spots for number in numbers}
    lines = [one for number, one in enumerate(drawn) if number not in in_spots]
    if not lines and element.tag in SHAPES:
        raise _nothing(Box(0.0, 0.0, 0.0, 0.0), id, element.place)
    if not lines:
        raise error(
            "no-outline",
            element.place,
            f"'{shown(id)}', a <{element.tag}>, draws no line",
            "name an element that is a closed path, a shape, or a group of lines",
        )
    stretches = _ring(drawing, lines, id)
    path = Path(tuple(segment for stretch in stretches for segment in stretch.path.segments))
    _check(drawing, path, id, element.place)
    if signed_area(path) < 0:
        path = path.reversed()
        stretches = tuple(replace(stretch, path=stretch.path.reversed()) for stretch in reversed(stretches))
    return DrawnOutline(id, path, stretches, _joints(path, [(spot, name) for spot, name, _ in spots]), element.place)


def _ring(drawing: Drawing, lines: list[DrawnSubpath], id: str) -> tuple[DrawnStretch, ...]:
    closed = [one for one in lines if one.closed or _returns(one.path)]
    by_one_element = len(lines) > 1 and len({one.chain for one in lines}) == 1
    if len(closed) > 1 or by_one_element:
        raise _several(closed if len(closed) > 1 else lines, id)
    if closed:
        return (DrawnStretch(closed[0].id, closed_up(closed[0].path), closed[0].place),)
    chain = chained(lines)
    last = chain.ring[-1]
    if chain.gap:
        behind = f" behind '{shown(last.id)}'" if last.id and len(lines) > 1 else ""
        raise error(
            "outline-open",
            last.place,
            f"'{shown(id)}' is not closed: a gap of {chain.gap:.4g} mm{behind}, {_where(drawing, last.path.end)}",
            "close the path in the editor, or let the ends meet",
        )
    if chain.left_over:
        raise _several([chain.ring[0], *chain.left_over], id)
    return tuple(DrawnStretch(one.id, one.path, one.place) for one in chain.ring)


def _returns(path: Path) -> bool:
    """True when an open path ends where it began, having been somewhere."""
    return (path.end - path.start).length <= NEAR and max(path.box.width, path.box.height) > 2 * NEAR


def _several(lines: list[DrawnSubpath], id: str) -> Unusable:
    return error(
        "several-outlines",
        lines[1].place,
        f"'{shown(id)}' draws {len(lines)} separate lines; an outline is one",
        "take the others out, or give each piece an element with an id of its own",
    )


def _nothing(box: Box, id: str, place: Place) -> Unusable:
    return error(
        "zero-size",
        place,
        f"'{shown(id)}' is {box.width:.4g} mm wide and {box.height:.4g} mm high, and encloses nothing",
        "look at its coordinates, its transform, and the drawing's viewBox",
    )


def _where(drawing: Drawing, point: Point) -> str:
    """A point as an editor shows it, from the upper left corner."""
    return f"{point.x:.4g} mm from the left and {drawing.height - point.y:.4g} mm from the top of the drawing"


def _check(drawing: Drawing, path: Path, id: str, place: Place) -> None:
    """Raises Unusable where the outline encloses nothing, is too fine to be looked at, or crosses itself."""
    box = path.box
    if min(box.width, box.height) < NEAR:
        raise _nothing(box, id, place)
    if sum(_flat_count(segment) for segment in path.segments) > MOST_POINTS:
        raise error(
            "too-much",
            place,
            f"'{shown(id)}' has {len(path.segments):,} stretches that wind through {box.width:.4g} by {box.height:.4g} mm",
            "simplify the path in the editor",
        )
    spot = crossing(path, FLAT)
    if spot is not None:
        raise error(
            "outline-crosses-itself",
            place,
            f"'{shown(id)}' crosses or touches itself {_where(drawing, spot)}",
            "move the nodes there until the line runs round once",
        )


def _flat_count(segment: Segment) -> float:
    """About how many points a segment is flattened into."""
    if isinstance(segment, Arc):
        return 1 + abs(segment.sweep) * math.sqrt(segment.radius / FLAT / 8)
    if isinstance(segment, Cubic):
        first = segment.start - segment.first_handle * 2 + segment.second_handle
        second = segment.first_handle - segment.second_handle * 2 + segment.end
        return 1 + math.sqrt(0.75 * max(first.length, second.length) / FLAT)
    return 1


def _joints(path: Path, named: list[tuple[Point, str | None]]) -> tuple[DrawnJoint, ...]:
    joints: list[DrawnJoint] = []
    for at, segment in enumerate(path.segments):
        first, second = -_way_from(path.segments[at - 1].reversed()), _way_from(segment)
        turn = math.atan2(first.cross(second), first.dot(second))
        near = [((point - segment.start).length, name) for point, name in named if name]
        gap, nearest = min(near, default=(math.inf, None))
        joints.append(DrawnJoint(segment.start, turn, nearest if gap <= AT_JOINT else None))
    return tuple(joints)


def _way_from(segment: Segment) -> Point:
    """The direction in which a segment leaves its start; of any length."""
    if isinstance(segment, Arc):
        away = segment.start - segment.centre
        return away.left() if segment.sweep > 0 else away.right()
    points = [segment.first_handle, segment.second_handle, segment.end] if isinstance(segment, Cubic) else [segment.end]
    ways = [point - segment.start for point in points]
    return next((way for way in ways if way.length > 1e-6), ways[-1])
