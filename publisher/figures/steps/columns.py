"""Callouts in a column beside a drawing: in the order of what they name, apart, no leader across another. mm on paper."""

from collections.abc import Sequence
from itertools import combinations

from publisher.figures.steps.lettering import Words
from publisher.frozen import dataclass
from publisher.geometry import Point

APART = 1.6  # between callouts
ROUNDS = 60


@dataclass(frozen=True, slots=True)
class Named:
    """Words and the spot they name."""

    words: Words
    at: Point


def stacked(named: Sequence[Named], x: float) -> list[tuple[Named, float]]:
    """Each with the height of its middle, for leaders that begin at `x`; from the top down."""
    order = sorted(named, key=lambda one: (-one.at.y, one.at.x))
    best = _score(order, x)
    improved = True
    while improved:
        improved = False
        for first, second in combinations(range(len(order)), 2):
            trial = list(order)
            trial[first], trial[second] = trial[second], trial[first]
            score = _score(trial, x)
            if score < best:
                order, best, improved = trial, score, True
    return list(zip(order, _heights(order), strict=True))


def _score(order: Sequence[Named], x: float) -> tuple[int, float]:
    """How many leaders cross, and how long they are together."""
    leaders = [(Point(x, height), one.at) for one, height in zip(order, _heights(order), strict=True)]
    crossed = sum(_cross(*one, *other) for one, other in combinations(leaders, 2))
    return crossed, round(sum((start - end).length for start, end in leaders), 3)


def _heights(order: Sequence[Named]) -> list[float]:
    """As near to the spots as they can stand, pushed apart alike."""
    heights = [one.at.y for one in order]
    for _ in range(ROUNDS):
        for at in range(len(order) - 1):
            needed = (order[at].words.height + order[at + 1].words.height) / 2 + APART
            missing = needed - (heights[at] - heights[at + 1])
            if missing > 0:
                heights[at] += missing / 2
                heights[at + 1] -= missing / 2
    for at in range(len(order) - 1):  # what pushing left over
        needed = (order[at].words.height + order[at + 1].words.height) / 2 + APART
        heights[at + 1] = min(heights[at + 1], heights[at] - needed)
    return heights


def column_width(named: Sequence[Named]) -> float:
    """How wide the widest is."""
    return max((one.words.width for one in named), default=0.0)


def _cross(start: Point, end: Point, other: Point, other_end: Point) -> bool:
    way, across = end - start, other_end - other
    turn = way.cross(across)
    if abs(turn) < 1e-9:
        return False
    first = (other - start).cross(across) / turn
    second = (other - start).cross(way) / turn
    return 0.0 < first < 1.0 and 0.0 < second < 1.0
