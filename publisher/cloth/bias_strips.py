"""Strips cut on the bias from a rectangle of cloth and joined at their ends. Millimetres."""

import math
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from itertools import pairwise

from publisher.frozen import dataclass
from publisher.geometry import Line, Point

ROOT = math.sqrt(2)
# A strip shorter than this is not worth a join (100 mm in an exercise of the Indian trade manual, Dress Making, 2024).
SHORTEST = 100.0
# A block is no lower or narrower than this, so that its strips are some 20 cm long and joins few (a rule of the house).
LEAST_SIDE = 150.0


@dataclass(frozen=True, slots=True)
class BiasStrip:
    """A strip of a block: `start` is where its first edge meets the block's lower edge, produced; `length` what it gives."""

    start: float
    length: float


@dataclass(frozen=True, slots=True)
class Wanted:
    """How much bias is wanted: in all, how wide it is cut, and with what seam its parts are joined."""

    length: float
    strip: float
    seam: float

    @property
    def join(self) -> float:
        """What one join of ends that are cut along the grain takes: 2√2·s (derived)."""
        return 2 * ROOT * self.seam

    def chosen(self, width: float, length: float) -> tuple[BiasStrip, ...]:
        """The strips of a block that make up the length, the longest; none where all of them do not.

        Joins are taken off, and w for squaring both ends (derived).
        """
        if width * length < self.length * self.strip:
            return ()
        gained = -self.strip
        strips = sorted(strips_of(width, length, self.strip), key=lambda one: (-one.length, abs(one.start)))
        for count, strip in enumerate(strips, 1):
            gained += strip.length - (self.join if count > 1 else 0.0)
            if gained >= self.length - 1e-6:
                return tuple(strips[:count])
        return ()

    def from_block(self, width: float, length: float) -> int:
        """How many strips from a block make up the length; nought where all of them do not."""
        return len(self.chosen(width, length))


def along_selvage(strip: float) -> float:
    """What a strip at 45° takes along the selvage: w·√2 (derived; old handbooks print it in eighths of an inch)."""
    return strip * ROOT


def strips_of(width: float, length: float, strip: float) -> Iterator[BiasStrip]:
    """The strips that a block gives, side by side to either hand of a first cut from its lower left corner.

    Each counts by its middle's length. Strips across a corner have one end along the grain and one across it, and are
    joined like to like; one that ends in a corner of the block loses its own width there, where it is cut to join
    (derived). What is shorter than SHORTEST at one of its edges is left.
    """
    across = along_selvage(strip)
    for at in range(-math.floor(length / across + 1e-9), math.floor(width / across + 1e-9)):
        start, stop = at * across, (at + 1) * across
        if ROOT * min(_edge(width, length, start), _edge(width, length, stop)) >= SHORTEST - 1e-6:
            corner = start + 1e-6 < width - length < stop - 1e-6
            yield BiasStrip(start, _area(width, length, start, stop) / strip - (strip if corner else 0.0))


def cut_lines(width: float, length: float, strip: float, strips: Sequence[BiasStrip]) -> tuple[Line, ...]:
    """Where a block is cut for some of its strips: each line once, from edge to edge, from the block's lower left corner."""
    across = along_selvage(strip)
    starts = sorted({round(at, 6) for one in strips for at in (one.start, one.start + across)})
    lines = []
    for at in starts:
        left, right = max(0.0, at), min(width, at + length)
        if right - left > 1e-3:
            lines.append(Line(Point(left, left - at), Point(right, right - at)))
    return tuple(lines)


def _edge(width: float, length: float, at: float) -> float:
    """How far across the block a line at 45° runs that meets its lower edge, produced, at `at`."""
    return max(min(width, at + length) - max(0.0, at), 0.0)


def _area(width: float, length: float, start: float, stop: float) -> float:
    """The block's area between two lines at 45° that meet its lower edge, produced, at `start` and at `stop`."""
    bends = [start, *sorted(bend for bend in (0.0, width - length) if start < bend < stop), stop]

    return sum(
        (_edge(width, length, one) + _edge(width, length, other)) / 2 * (other - one) for one, other in pairwise(bends)
    )


def lowest_block(wanted: Wanted, width: float, step: float, longest: float) -> float | None:
    """How long a block of this width must be, in whole steps; None where the longest that may be is too short."""
    steps = range(math.ceil(LEAST_SIDE / step - 1e-9), math.floor(longest / step + 1e-9) + 1)
    at = bisect_left(steps, True, key=lambda at: wanted.from_block(width, at * step) > 0)
    return steps[at] * step if at < len(steps) else None


def narrowed(wanted: Wanted, width: float, length: float, step: float) -> float:
    """How wide a block of this length must be that is wide enough at `width`, in whole steps."""
    steps = range(math.ceil(LEAST_SIDE / step - 1e-9), math.floor(width / step + 1e-9) + 1)
    at = bisect_left(steps, True, key=lambda at: wanted.from_block(at * step, length) > 0)
    return steps[at] * step if at < len(steps) else width
