"""Spots on edges: how far along, from which end, in mm."""

from collections.abc import Callable

from publisher.drafting.bench import Bench, unusable
from publisher.drafting.edges import atomic_edges, edge_path
from publisher.drafting.references import work_out_formula
from publisher.frozen import dataclass
from publisher.geometry import Path, Point
from publisher.measures import EdgeSpot, Formula, Name
from publisher.source import WrittenMark, WrittenPiece
from publisher.terms import Dimension

ENDS: dict[str, Callable[[Point], float]] = {
    "left": lambda point: point.x,
    "right": lambda point: -point.x,
    "bottom": lambda point: point.y,
    "top": lambda point: -point.y,
}


@dataclass(frozen=True, slots=True)
class Spot:
    """A spot on one edge: how far along it (in the direction it was written), and where."""

    edge: str
    distance: float
    at: Point
    direction: Point


def edge_spot(bench: Bench, piece: WrittenPiece, spot: EdgeSpot, written: WrittenMark) -> Spot:
    """The spot a mark names on an edge or a joint edge. Raises Unusable where it lies beyond the edge."""
    parts = atomic_edges(bench, piece, own_edge(piece, spot.edge), spot.edge)
    paths = [edge_path(bench, piece, part) for part in parts]
    whole = sum(path.length for path in paths)
    distance = whole / 2 if spot.distance is None else mark_length(bench, spot.distance, written)
    if not -1e-6 <= distance <= whole + 1e-6:
        raise unusable(
            "mark-beyond-edge",
            written.says.place,
            f"'{written.name}' lies {distance:.4g} mm along '{spot.edge.text}', which is {whole:.4g} mm long",
            "bring it nearer, or look at the measures of the edge",
        )
    if spot.distance is not None and not _begins_at(paths, spot, written):
        distance = whole - distance
    return _along(parts, paths, min(max(distance, 0.0), whole))


def own_edge(piece: WrittenPiece, name: Name) -> str:
    """`base` or, said in full, `lining.base`."""
    return name.text.removeprefix(f"{piece.name}.").removeprefix(f"{piece.as_written.name}.")


def _begins_at(paths: list[Path], spot: EdgeSpot, written: WrittenMark) -> bool:
    """True when the end that is named is where the first of the paths begins."""
    assert spot.end is not None
    if (paths[-1].end - paths[0].start).length < 1e-6:
        # All round: the left end is the one from which the edge runs off to the right.
        return ENDS[spot.end](paths[0].direction_at(0.0)) > 0
    start, end = ENDS[spot.end](paths[0].start), ENDS[spot.end](paths[-1].end)
    if abs(start - end) < 1e-6:
        other = "top or bottom" if spot.end in ("left", "right") else "left or right"
        raise unusable(
            "which-end",
            written.says.place,
            f"both ends of '{spot.edge.text}' lie equally far to the {spot.end}",
            f"say {other} end",
        )
    return start < end


def _along(parts: tuple[str, ...], paths: list[Path], distance: float) -> Spot:
    for part, path in zip(parts, paths, strict=True):
        if distance <= path.length + 1e-9 or part == parts[-1]:
            reach = min(distance, path.length)
            return Spot(part, reach, path.point_at(reach), path.direction_at(reach))
        distance -= path.length
    raise AssertionError("an edge has at least one part")


def mark_length(bench: Bench, formula: Formula, written: WrittenMark) -> float:
    """A length that a mark says, mm; a plain nought counts as one. Raises Unusable."""
    quantity = work_out_formula(bench, formula)
    if quantity.dimension is Dimension.LENGTH or quantity.amount == 0:
        return float(quantity.amount)
    raise unusable(
        "not-a-length", written.says.place, f"the place of '{written.name}' is not a length", "write it with a unit"
    )
