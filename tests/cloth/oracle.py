"""Layouts looked at by Shapely alone: what overlaps, and what hangs over the cloth."""

from collections.abc import Sequence
from itertools import combinations

from shapely import Polygon, box

from publisher.cloth.questions import Answer, Question
from publisher.geometry import Path


def areas(paths: Sequence[Path]) -> list[Polygon]:
    """The outlines as areas."""
    return [Polygon([(point.x, point.y) for point in path.flattened(0.005)]) for path in paths]


def overlap(paths: Sequence[Path]) -> float:
    """The greatest area that two have in common, mm²."""
    return max((one.intersection(other).area for one, other in combinations(areas(paths), 2)), default=0.0)


def outside(paths: Sequence[Path], width: float, length: float) -> float:
    """The greatest area that hangs over the cloth, mm²."""
    cloth = box(0, 0, width, length)
    return max((area.difference(cloth).area for area in areas(paths)), default=0.0)


def least_gap(paths: Sequence[Path]) -> float:
    """The least distance between two, mm."""
    return min((one.distance(other) for one, other in combinations(areas(paths), 2)), default=float("inf"))


def placed_areas(question: Question, answer: Answer) -> list[Polygon]:
    """Each spot's shape, turned and moved by Shapely."""
    from shapely.affinity import rotate, translate

    found: list[Polygon] = []
    for spot in answer:
        (area,) = areas([question.shapes[spot.shape].outline])
        turned = rotate(area, spot.turn, origin=(0, 0))
        left, bottom, _, _ = turned.bounds
        found.append(translate(turned, spot.x - left, spot.y - bottom))
    return found
