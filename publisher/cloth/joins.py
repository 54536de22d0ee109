"""The joins of a pieced strip, spread so that none lies where it hurts. Millimetres."""

import itertools
import math
from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise

from publisher.drafting import Copy, Draft, LineMark, Notch, Piece, PointMark
from publisher.frozen import dataclass

# A join nearer than this to an end, or to what is marked, set or caught on the strip, is in the way (common practice,
# no source).
TOO_NEAR = 50.0
FINE = 0.01  # to which the best place is looked for
MOST_WAYS = 1024  # of lengths cut a step longer or shorter


@dataclass(frozen=True, slots=True)
class Joins:
    """How long each length of a strip is cut, from its start on, and how far the nearest join is from a tender spot."""

    lengths: tuple[float, ...]
    apart: float


def spread_joins(
    length: float,
    width: float,
    count: int,
    loss: float,
    spots: Sequence[float] = (),
    step: Callable[[float], float] | None = None,
) -> Joins:
    """The joins of `count` lengths, none longer than `width`, that make up a strip of `length` or a little more.

    A join takes `loss` of both lengths together and reaches as far along the strip. They are spread evenly where that
    leaves them clear of both ends and of `spots`, else as near to that as leaves them as far away as can be. Where a `step`
    is said, each length is a multiple of that of its like, and the strip's end has a little over. Raises ValueError where
    so few lengths do not reach.
    """
    strip = _Strip(length, width, count, loss, tuple(sorted({0.0, length, *spots})))
    joins = evenly = strip.evenly
    clear = TOO_NEAR + loss / 2
    if not strip.holds(evenly):
        raise ValueError(f"{count} lengths of {width:.4g} mm do not make up {length:.4g} mm")
    # Steps move a join by half of one: as much further away, where there is room.
    spare = max(step(one) for one in strip.lengths(evenly)) / 2 if step else 0.0
    if strip.nearest(evenly) < clear:
        joins = strip.clear_of(clear + spare) or strip.clear_of(clear) or strip.clear_of(_most(strip, clear)) or evenly
    lengths = _in_steps(strip, joins, step) if step else strip.lengths(joins)
    return Joins(lengths, max(strip.nearest(strip.joins_of(lengths)) - loss / 2, 0.0))


def _in_steps(strip: "_Strip", joins: Sequence[float], step: Callable[[float], float]) -> tuple[float, ...]:
    """The lengths for some joins, each in its step: alike where they were, else with joins as far away as can be."""
    exact = strip.lengths(joins)
    clear = TOO_NEAR + strip.loss / 2

    def up(one: float) -> float:
        return min(math.ceil((one - FINE) / step(one)) * step(one), strip.width)

    def down(one: float) -> float:
        return math.floor((one + FINE) / step(one)) * step(one)

    def rank(lengths: Sequence[float]) -> tuple[float, float, float]:
        # A hair is no better; then what wastes least, and then what is most alike.
        return round(min(strip.nearest(strip.joins_of(lengths)), clear), 1), -sum(lengths), -max(lengths)

    alike = (up(max(exact)),) * strip.count
    if max(exact) - min(exact) < FINE and rank(alike)[0] >= rank(exact)[0]:
        return alike
    ways: list[tuple[float, ...]] = []
    choices = [sorted({down(one), up(one)}) for one in exact[:-1]]
    for firsts in itertools.islice(itertools.product(*choices), MOST_WAYS):
        last = up(strip.length + (strip.count - 1) * strip.loss - sum(firsts))
        if strip.makes_up((*firsts, last)):
            ways.append((*firsts, last))
    return max(ways, key=rank, default=tuple(exact))


def tender_spots(draft: Draft, copy: Copy) -> Iterator[float]:
    """Where a strip must not be joined, from the left end of it as it is cut: at marks, and where it is caught."""
    piece = draft.piece(copy.piece)
    left = piece.cut_line.box.left
    yield from (at - left for at in _marked(piece))
    if _caught_in_the_middle(draft, copy):
        box = piece.finished_line.box
        yield (box.left + box.right) / 2 - left


def _marked(piece: Piece) -> Iterator[float]:
    """Where marks lie along it; lines that run along it lie everywhere."""
    for mark in piece.marks:
        if isinstance(mark, Notch | PointMark):
            yield mark.at.x
        elif isinstance(mark, LineMark) and abs(mark.end.x - mark.start.x) < abs(mark.end.y - mark.start.y):
            yield (mark.start.x + mark.end.x) / 2


def _caught_in_the_middle(draft: Draft, copy: Copy) -> bool:
    """True where it is placed by its centre, or by both ends on one spot: it is folded across there; or bears a centre."""
    for placement in draft.placements:
        if placement.placed == copy.name:
            held = dict(placement.matching)
            if "centre" in held or (held.get("left end") is not None and held.get("left end") == held.get("right end")):
                return True
        if placement.below == copy.name and "centre" in dict(placement.matching).values():
            return True
    return False


@dataclass(frozen=True, slots=True)
class _Strip:
    """A strip to be pieced; joins are told by their middles, `spots` are the ends and what is tender between them."""

    length: float
    width: float
    count: int
    loss: float
    spots: tuple[float, ...]

    @property
    def evenly(self) -> list[float]:
        """The joins of lengths that are all alike."""
        each = (self.length + (self.count - 1) * self.loss) / self.count
        return [at * each - (at - 0.5) * self.loss for at in range(1, self.count)]

    def lengths(self, joins: Sequence[float]) -> tuple[float, ...]:
        """What is cut for these joins."""
        stops = [self.loss / 2, *joins, self.length - self.loss / 2]
        return tuple(end - start + self.loss for start, end in pairwise(stops))

    def joins_of(self, lengths: Sequence[float]) -> list[float]:
        """Where the joins of these lengths lie, from the start of the strip on."""
        ends = itertools.accumulate((each - self.loss for each in lengths[:-1]), initial=self.loss / 2)
        return list(ends)[1:]

    def makes_up(self, lengths: Sequence[float]) -> bool:
        """True where these lengths reach, and none is longer than the cloth or too short to be joined."""
        reach = sum(lengths) - (self.count - 1) * self.loss
        return reach > self.length - FINE and all(self.loss < each <= self.width + FINE for each in lengths)

    def holds(self, joins: Sequence[float]) -> bool:
        """True where no length is longer than the cloth, or too short to be joined."""
        return all(self.loss < each <= self.width + FINE for each in self.lengths(joins))

    def nearest(self, joins: Sequence[float]) -> float:
        """How near the nearest join comes to a spot."""
        return min((abs(join - spot) for join in joins for spot in self.spots), default=self.length)

    def beside(self, join: float, away: float) -> float:
        """The place nearest to a join's that is so far away from all spots."""
        edges = [join, *(spot + side for spot in self.spots for side in (-away, away))]
        free = [at for at in edges if 0 < at < self.length and self.nearest([at]) >= away - FINE / 2]
        return min(free, key=lambda at: abs(at - join), default=join)

    def clear_of(self, away: float) -> list[float] | None:
        """Joins so far from all spots, near to where they would lie evenly where that holds; None where none are."""
        joins = [self.beside(join, away) for join in self.evenly]
        if self.holds(joins) and self.nearest(joins) >= away - FINE:
            return joins
        return self.farthest(away)

    def farthest(self, away: float) -> list[float] | None:
        """Joins so far from all spots, each as far on as the cloth reaches; None where they do not reach the end."""
        joins: list[float] = []
        reach = self.width - self.loss / 2
        for _ in range(self.count - 1):
            join = reach
            for spot in reversed(self.spots):
                if abs(join - spot) < away:
                    join = spot - away
            if join <= (joins[-1] if joins else 0.0):
                return None
            joins.append(join)
            reach = join + self.width - self.loss
        return joins if self.holds(joins) else None


def _most(strip: _Strip, clear: float) -> float:
    """How far from all spots joins can be, where not `clear` of them."""
    low, high = 0.0, clear
    while high - low > FINE:
        middle = (low + high) / 2
        low, high = (middle, high) if strip.clear_of(middle) is not None else (low, middle)
    return low
