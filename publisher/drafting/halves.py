"""Outlines drafted as a half: the names and parts of the whole's edges, mirrored along one straight edge."""

import math

from publisher.drafting.bench import unusable
from publisher.frozen import dataclass
from publisher.geometry import Arc, Line, Path, Point, mirrored, mirrored_point
from publisher.source import WrittenHalf, WrittenPiece
from publisher.terms import Place, Unusable

SMOOTH = 1e-6  # sine of the turn below which an edge runs on over the axis
ON_AXIS = 1e-6  # mm


@dataclass(frozen=True, slots=True)
class Axis:
    """The line an outline is mirrored along; `sides` are the words for the half that was drafted and for the other."""

    start: Point
    along: Point
    sides: tuple[str, str]

    def point(self, point: Point) -> Point:
        """The point on the other side."""
        return mirrored_point(point, self.start, self.along)

    def path(self, path: Path) -> Path:
        """The path on the other side, run the other way, so that the whole keeps its turn."""
        return mirrored(path, self.start, self.along).reversed()


@dataclass(frozen=True, slots=True)
class WholeEdge:
    """An edge of the whole: one or two edges of the half in order, each as drafted or mirrored."""

    name: str
    parts: tuple[tuple[str, bool], ...]


def half_of(piece: WrittenPiece) -> WrittenHalf | None:
    """What a piece says of its half, if it is one."""
    shape = piece.outline or piece.rectangle
    return shape.half if shape else None


def axis_of(piece: WrittenPiece, half: WrittenHalf, edge: Path, following: Path) -> Axis:
    """The axis along an edge of the half. Raises Unusable for one that is neither upright nor level."""
    (line, *more) = edge.segments
    direction = edge.direction_at(0.0)
    upright, level = abs(direction.x) < 1e-9, abs(direction.y) < 1e-9
    if more or not isinstance(line, Line) or not (upright or level):
        raise unusable(
            "axis-not-straight",
            half.along.place,
            f"'{half.along}' of '{piece.name}' is neither upright nor level, and a half is mirrored along one that is",
            "let it run straight up or straight across",
        )
    beside = following.point_at(following.length / 2) - line.start
    words = ("right", "left") if upright else ("top", "bottom")
    ahead = (beside.x if upright else beside.y) > 0
    return Axis(line.start, direction, words if ahead else words[::-1])


def whole_edges(axis: Axis, names: tuple[str, ...], paths: dict[str, Path]) -> tuple[WholeEdge, ...]:
    """The edges of the whole in order. `names` are the half's edges from the axis on; paths needed: first and last.

    An edge that runs smoothly over the axis stays one edge; every other one comes twice, named by its side.
    """
    first, last = names[0], names[-1]
    joined_first = _square(axis, paths[first].direction_at(0.0))
    joined_last = _square(axis, paths[last].direction_at(paths[last].length))
    if len(names) == 1:
        if joined_first and joined_last:
            return (WholeEdge(first, ((first, False), (first, True))),)
        return (_sided(axis, first, False), _sided(axis, first, True))
    middle = names[1:-1]
    edges = [WholeEdge(first, ((first, True), (first, False))) if joined_first else _sided(axis, first, False)]
    edges += [_sided(axis, name, False) for name in middle]
    if joined_last:
        edges.append(WholeEdge(last, ((last, False), (last, True))))
    else:
        edges += [_sided(axis, last, False), _sided(axis, last, True)]
    edges += [_sided(axis, name, True) for name in reversed(middle)]
    if not joined_first:
        edges.append(_sided(axis, first, True))
    return tuple(edges)


def _sided(axis: Axis, name: str, turned_over: bool) -> WholeEdge:
    return WholeEdge(sided_name(axis.sides, name, turned_over), ((name, turned_over),))


def sided_name(sides: tuple[str, str], name: str, turned_over: bool) -> str:
    """What an edge or point of the half is called in the whole: `left side`; `right edge` becomes `left edge`."""
    if set(name.split()) & set(sides):
        return (
            " ".join(sides[1 - sides.index(word)] if word in sides else word for word in name.split())
            if turned_over
            else name
        )
    return f"{sides[1] if turned_over else sides[0]} {name}"


def _square(axis: Axis, direction: Point) -> bool:
    return abs(axis.along.dot(direction)) < SMOOTH


def corner_on_axis(piece: WrittenPiece, edge: str, axis: Axis, path: Path) -> Unusable | None:
    """What is told of an edge of the half that ends on the axis, and not square to it; nothing of any other."""
    for at, spot in ((0.0, path.start), (path.length, path.end)):
        direction = path.direction_at(at)
        if (axis.point(spot) - spot).length > ON_AXIS or _square(axis, direction):
            continue
        bend = 2 * math.degrees(math.asin(min(1.0, abs(axis.along.unit().dot(direction)))))
        other = f"'{sided_name(axis.sides, edge, False)}' and '{sided_name(axis.sides, edge, True)}'"
        turned = _bent_the_other_way(path, direction)
        mend = (
            "bent the other way it is square to the middle: say ', inwards' behind it, or take that out"
            if turned is not None and _square(axis, turned)
            else "let it end square to the middle, as an arc does whose centre lies on it"
        )
        return unusable(
            "halves-meet-in-a-corner",
            _place_of(piece, edge),
            f"the two halves of '{edge}' of '{piece.name}' meet in a corner that turns by {bend:.0f}°, and it is spoken of as "
            "one edge",
            f"{mend}; or name its halves, {other}",
        )
    return None


def _bent_the_other_way(path: Path, direction: Point) -> Point | None:
    """The direction at an end of an arc, were it bent to the other side of its chord."""
    (segment, *more) = path.segments
    if more or not isinstance(segment, Arc):
        return None
    chord = (segment.end - segment.start).unit()
    return chord * (2 * chord.dot(direction)) - direction


def _place_of(piece: WrittenPiece, edge: str) -> Place:
    edges = piece.outline.edges if piece.outline is not None else ()
    return next((name.place for name, _ in edges if name == edge), piece.name.place)
