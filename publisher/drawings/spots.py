"""Small circles and small crosses: what marks a point in a drawing."""

from collections.abc import Sequence

from publisher.drawings.collecting import DrawnSubpath
from publisher.drawings.values import Drawing
from publisher.geometry import Box, Line, Point, intersections

SMALL_RING = 6.0  # mm across: a closed shape of at most this is a point
SMALL_CROSS = 10.0  # mm from end to end of its strokes
NEAR = 0.01  # mm

Spot = tuple[Point, str | None, tuple[int, ...]]  # where, its id, which of the subpaths draw it


def spot_of(drawn: Sequence[DrawnSubpath]) -> Point | None:
    """The centre of a small closed shape (or of two round one centre), or of two short strokes that cross."""
    if not 1 <= len(drawn) <= 2:
        return None
    boxes = [one.path.box for one in drawn]
    if all(one.closed or one.path.closed for one in drawn):
        small = all(max(box.width, box.height) <= SMALL_RING for box in boxes)
        centres = [_middle(box) for box in boxes]
        return centres[0] if small and (centres[0] - centres[-1]).length <= NEAR else None
    if len(drawn) != 2 or any(max(box.width, box.height) > SMALL_CROSS for box in boxes):
        return None
    strokes = [one.path.segments for one in drawn]
    first, second = strokes[0][0], strokes[1][0]
    if len(strokes[0]) > 1 or len(strokes[1]) > 1 or not (isinstance(first, Line) and isinstance(second, Line)):
        return None
    spot = next(iter(intersections(first, second)), None)
    if spot is None or min((spot - end).length for one in (first, second) for end in (one.start, one.end)) <= NEAR:
        return None  # strokes that meet at an end make a corner, no cross
    return spot


def spots_among(drawing: Drawing, drawn: Sequence[DrawnSubpath]) -> tuple[Spot, ...]:
    """The points among what a group draws: one element or an inner group each, the innermost first."""
    found: list[Spot] = []
    taken: set[int] = set()
    for depth in range(max((len(one.chain) for one in drawn), default=0), 1, -1):
        groups: dict[tuple[int, ...], list[int]] = {}
        for at, one in enumerate(drawn):
            if at not in taken and len(one.chain) >= depth:
                groups.setdefault(one.chain[:depth], []).append(at)
        for chain, numbers in groups.items():
            ones = [drawn[at] for at in numbers]
            spot = spot_of(ones)
            if spot is not None:
                ids = {one.id for one in ones}
                found.append((spot, ids.pop() if len(ids) == 1 else drawing.elements[chain[-1]].id, tuple(numbers)))
                taken.update(numbers)
    return tuple(found)


def _middle(box: Box) -> Point:
    return Point((box.left + box.right) / 2, (box.bottom + box.top) / 2)
