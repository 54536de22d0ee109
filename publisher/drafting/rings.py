"""Circles and ellipses as outlines: a right half from the bottom to the top, and a left half back. Millimetres."""

import math

from publisher.drafting.bench import Bench, unusable
from publisher.drafting.elsewhere import DrawnEdge
from publisher.drafting.references import as_length, work_out_formula
from publisher.geometry import Arc, Path, Point, ellipse_arc
from publisher.measures import Pair
from publisher.source import WrittenPiece, WrittenRing
from publisher.terms import did_you_mean

HALVES = ("right half", "left half")


def ring_edges(bench: Bench, piece: WrittenPiece, ring: WrittenRing) -> tuple[DrawnEdge, ...]:
    """Both halves, counter-clockwise, the box's lower left corner at nought. Raises Unusable without a size."""
    said = bench.saying(bench.native(ring.says))
    sides = (said.first, said.second) if isinstance(said, Pair) else (said, said)
    width, height = (
        as_length(bench, work_out_formula(bench, side), ring.says, f"the size of '{piece.name}'")  # type: ignore[arg-type]
        for side in sides
    )
    if min(width, height) <= 0:
        raise unusable(
            "no-length",
            bench.native(ring.says).place,
            f"'{piece.name}' is {width:g} mm wide and {height:g} mm high",
            "look at the measures it is made of",
        )
    for key, _ in ring.edges:
        if str(key) not in HALVES:
            raise unusable("no-such-edge", key.place, f"a ring has no edge called '{key}'", did_you_mean(key, HALVES))
    renamed = {str(key): name for key, name in ring.edges}
    return tuple(
        DrawnEdge(str(renamed.get(half, half)), path, renamed[half].place if half in renamed else piece.name.place)
        for half, path in zip(HALVES, _halves(width / 2, height / 2), strict=True)
    )


def _halves(across: float, up: float) -> tuple[Path, Path]:
    centre, bottom, top = Point(across, up), Point(across, 0.0), Point(across, 2 * up)
    if abs(across - up) < 1e-9:
        return Path((Arc(bottom, top, centre, math.pi),)), Path((Arc(top, bottom, centre, math.pi),))
    right = ellipse_arc(centre, across, up, -math.pi / 2, math.pi)
    left = ellipse_arc(centre, across, up, math.pi / 2, math.pi)
    return right, left
