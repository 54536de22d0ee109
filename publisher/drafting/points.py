"""Points told by others: beside one, between two, on an edge, square to it, where two lines meet. Millimetres, y up."""

import math
from collections.abc import Callable

from publisher.drafting.bench import Bench, unusable
from publisher.drafting.references import as_length, work_out_formula
from publisher.geometry import Path, Point
from publisher.measures import EdgeSpot, Formula, Name, PointSaying
from publisher.source import Native, WrittenPiece
from publisher.terms import Dimension, Written, did_you_mean

WAYS = {"right": Point(1, 0), "left": Point(-1, 0), "top": Point(0, 1), "bottom": Point(0, -1)}
ENDS: dict[str, Callable[[Point], float]] = {
    "left": lambda point: point.x,
    "right": lambda point: -point.x,
    "bottom": lambda point: point.y,
    "top": lambda point: -point.y,
}

PointOf = Callable[[str], Point]
PathOf = Callable[[str], Path]


def told_point(
    bench: Bench, piece: WrittenPiece, said: PointSaying, written: Written, point_of: PointOf, path_of: PathOf
) -> Point:
    """The point that a saying means. `point_of` and `path_of` give the outline's other points and edges.

    Raises Unusable where a name is unknown, a line has no direction, or nothing meets.
    """
    known = [str(name) for name, _ in piece.outline.points] if piece.outline else []

    def spot(name: Name) -> Point:
        if name.text not in known:
            raise unusable(
                "no-such-point", name.place, f"no point called '{name.text}'", did_you_mean(name.text, known)
            )
        return point_of(name.text)

    def millimetres(formula: Formula) -> float:
        return as_length(bench, work_out_formula(bench, formula), Native(written, written), "the distance")

    match said.kind:
        case "beside":
            shift = [WAYS[way] * millimetres(amount) for way, amount in zip(said.ways, said.amounts, strict=True)]
            return sum(shift[1:], spot(said.names[0]) + shift[0])
        case "polar":
            angle = _angle(bench, said.amounts[1], written)
            return spot(said.names[0]) + Point(math.cos(angle), math.sin(angle)) * millimetres(said.amounts[0])
        case "between":
            part = _part(bench, said.amounts[0], written) if said.amounts else 0.5
            start, end = map(spot, said.names)
            return start + (end - start) * part
        case "meeting":
            return _meeting([spot(name) for name in said.names], written)
        case _:
            assert said.spot is not None
            at, along = _on_edge(said.spot, path_of, millimetres, written)
            if said.kind == "on edge":
                return at
            return at + _square(along, said.ways[0], written) * millimetres(said.amounts[0])


def told_direction(bench: Bench, said: object, written: Written) -> tuple[str, float] | None:
    """The point from which a point is told by its direction, and the direction in radians; None for other sayings."""
    if not isinstance(said, PointSaying) or len(said.names) != 1:
        return None
    if said.kind == "polar":
        return said.names[0].text, _angle(bench, said.amounts[1], written)
    if said.kind == "beside" and len(said.ways) == 1:
        way = WAYS[said.ways[0]]
        return said.names[0].text, math.atan2(way.y, way.x) % (2 * math.pi)
    return None


def _angle(bench: Bench, formula: Formula, written: Written) -> float:
    quantity = work_out_formula(bench, formula)
    if quantity.dimension is not Dimension.ANGLE:
        raise unusable(
            "not-an-angle", written.place, "this point needs an angle", "write it in degrees: 5 cm at 30 deg"
        )
    return math.radians(float(quantity.amount))


def _part(bench: Bench, formula: Formula, written: Written) -> float:
    quantity = work_out_formula(bench, formula)
    if quantity.dimension is not Dimension.NUMBER:
        raise unusable(
            "not-a-number", written.place, "a part of the way is a plain number", "write 1/3 of the way from …"
        )
    return float(quantity.amount)


def _meeting(spots: list[Point], written: Written) -> Point:
    start, along = spots[0], spots[1] - spots[0]
    other, across = spots[2], spots[3] - spots[2]
    crossing = along.cross(across)
    if abs(crossing) < 1e-9 * max(along.length * across.length, 1e-9):
        raise unusable(
            "edges-parallel", written.place, "these two lines run side by side and never meet", "name lines at an angle"
        )
    return start + along * ((other - start).cross(across) / crossing)


def _square(along: Point, way: str, written: Written) -> Point:
    """The direction square to an edge that leads to the side named."""
    side = along.left() if along.left().dot(WAYS[way]) > 0 else along.right()
    if abs(side.dot(WAYS[way])) < 1e-6:
        raise unusable(
            "which-side",
            written.place,
            f"the edge runs towards the {way} there, so that no side of it is the {way} one",
            "name the side: left or right of an edge that runs up, top or bottom of one that runs across",
        )
    return side


def _on_edge(
    spot: EdgeSpot, path_of: PathOf, millimetres: Callable[[Formula], float], written: Written
) -> tuple[Point, Point]:
    """The spot on an edge, and the way the edge runs there, in the direction it was written."""
    path = path_of(spot.edge.text)
    distance = path.length / 2 if spot.distance is None else millimetres(spot.distance)
    if not -1e-6 <= distance <= path.length + 1e-6:
        raise unusable(
            "mark-beyond-edge",
            written.place,
            f"{distance:.4g} mm lie beyond '{spot.edge.text}', which is {path.length:.4g} mm long",
            "bring it nearer, or look at the measures of the edge",
        )
    if spot.end is not None:
        start, end = ENDS[spot.end](path.start), ENDS[spot.end](path.end)
        if abs(start - end) < 1e-6:
            raise unusable(
                "which-end",
                written.place,
                f"both ends of '{spot.edge.text}' lie equally far to the {spot.end}",
                "name its other ends: left and right, or top and bottom",
            )
        distance = distance if start < end else path.length - distance
    reach = min(max(distance, 0.0), path.length)
    return path.point_at(reach), path.direction_at(reach)
