"""Cloth seen from its edge: a line that goes straight and folds, short strokes on its wrong side. mm on paper, y up."""

import math

from publisher.figures.steps.lines import line
from publisher.figures.steps.values import Look, Shape
from publisher.frozen import dataclass
from publisher.geometry import Arc, Line, Path, Point, Segment

GAP = 1.7  # between two layers
TICKS = 0.65  # from the cloth to the middle of the strokes on its wrong side


@dataclass(frozen=True, slots=True)
class Go:
    """Straight on."""

    length: float


@dataclass(frozen=True, slots=True)
class Fold:
    """Back on the other side of a gap; to the left of the way, or to the right."""

    left: bool
    gap: float = GAP


Move = Go | Fold


def strand(start: Point, way: Point, moves: tuple[Move, ...], wrong_left: bool, new: bool = True) -> list[Shape]:
    """A cloth from its raw edge at `start`, its wrong side to the left of the way or to the right."""
    aside = TICKS if wrong_left else -TICKS
    look = Look.CLOTH if new else Look.CLOTH_BEFORE
    return [Shape(_beside(start, way, moves, 0.0), look), Shape(_beside(start, way, moves, aside), Look.WRONG_TICKS)]


def bare_strand(start: Point, way: Point, moves: tuple[Move, ...], look: Look) -> Shape:
    """A layer without faces that matter."""
    return Shape(_beside(start, way, moves, 0.0), look)


def _beside(start: Point, way: Point, moves: tuple[Move, ...], aside: float) -> Path:
    at = start + way.left() * aside
    parts: list[Segment] = []
    for move in moves:
        if isinstance(move, Go):
            parts.append(Line(at, at + way * move.length))
        else:
            turn = 1.0 if move.left else -1.0
            radius = max(move.gap / 2 - turn * aside, 0.05)
            centre = at + way.left() * (turn * radius)
            end = centre * 2 - at
            parts.append(Arc(at, end, centre, math.pi * turn))
            way = -way
        at = parts[-1].end
    return Path(tuple(parts))


def stitch(top: Point, foot: Point, new: bool = True) -> Shape:
    """Stitching through layers, seen from their edge."""
    return Shape(line(top, foot), Look.STITCHING if new else Look.STITCHED)
