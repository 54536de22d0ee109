"""Strips cut on the bias from a rectangle of cloth and joined at their ends. Millimetres."""

import math
from bisect import bisect_left
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

ROOT = math.sqrt(2)
# A strip shorter than this is not worth a join (100 mm in an exercise of the Indian trade manual, Dress Making, 2024).
SHORTEST = 100.0
# A block is no lower or narrower than this, so that its strips are some 20 cm long and joins few (a rule of the house).
LEAST_SIDE = 150.0


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

    def from_block(self, width: float, length: float) -> int:
        """How many strips from a block make up the length; nought where all of them do not.

        Joins are taken off, and w for squaring both ends (derived).
        """
        if width * length < self.length * self.strip:
            return 0
        gained = -self.strip
        for count, strip in enumerate(sorted(strips_of(width, length, self.strip), reverse=True), 1):
            gained += strip - (self.join if count > 1 else 0.0)
            if gained >= self.length - 1e-6:
                return count
        return 0


def along_selvage(strip: float) -> float:
    """What a strip at 45° takes along the selvage: w·√2 (derived; old handbooks print it in eighths of an inch)."""
    return strip * ROOT


def strips_of(width: float, length: float, strip: float) -> Iterator[float]:
    """The strips that a block gives, side by side from one corner to the opposite one, each by its middle's length.

    Strips across a corner have one end along the grain and one across it, and are joined like to like. The corners
    themselves, whose edges are shorter than SHORTEST, are left.
    """
    across = along_selvage(strip)
    start, stop = SHORTEST / ROOT - length, width - SHORTEST / ROOT
    for at in range(math.floor((stop - start) / across + 1e-9) if stop > start else 0):
        yield _area(width, length, start + at * across, start + (at + 1) * across) / strip


def _area(width: float, length: float, start: float, stop: float) -> float:
    """The block's area between two lines at 45° that meet its lower edge, produced, at `start` and at `stop`."""
    bends = [start, *sorted(bend for bend in (0.0, width - length) if start < bend < stop), stop]

    def edge(at: float) -> float:
        return max(min(width, at + length) - max(0.0, at), 0.0)

    return sum((edge(one) + edge(other)) / 2 * (other - one) for one, other in pairwise(bends))


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
