"""What is cut as it lies on the cloth, its box at the origin: all that is asked of it again and again, worked out once.

Copies of one piece in several materials and widths share a form. Millimetres.
"""

from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from publisher.geometry import Box, Line, Movement, Path, Point, flat_ring, ring_round
from publisher.terms import Walked, walked

# Numbers are rounded for a hash away from where exact eighths and tenths fall, so that the last digit, in which machines
# differ, tips none of them over.
AWAY = 0.00027
FLAT = 0.01  # mm: how near its outline's straight steps lie, when it is checked whether two overlap

Ring = tuple[tuple[float, float], ...]


def rounded(number: float) -> float:
    """A length for a hash, mm, to a thousandth."""
    return round(number + AWAY, 3)


def as_path(box: Box) -> Path:
    """A box as a closed path, counter-clockwise from its lower left corner."""
    corners = [
        Point(box.left, box.bottom),
        Point(box.right, box.bottom),
        Point(box.right, box.top),
        Point(box.left, box.top),
    ]
    return Path(tuple(Line(one, corners[(at + 1) % 4]) for at, one in enumerate(corners)))


def form_of(outline: Path, half: Path | None = None) -> "Form":
    """The form of a closed outline, and that of its right half where it has one, wherever they lie."""
    box = outline.box
    return Form(outline.moved(Movement(0, Point(-box.left, -box.bottom))), (box.width, box.height), half)


def rectangle(across: float, along: float) -> "Form":
    """The form of a rectangle."""
    return Form(as_path(Box(0.0, 0.0, across, along)), (across, along))


@dataclass(frozen=True, eq=False)
class Form:
    """A closed outline with its box at the origin, and the `size` of that across and along the cloth.

    `right_half` is what lies right of a fold along the cloth, where its template shows a half, anywhere.
    """

    outline: Path
    size: tuple[float, float]
    right_half: Path | None = None

    @cached_property
    def ring(self) -> Ring:
        """Few straight steps that hold the outline, from the least point on; what it has in common with forms alike."""
        ring = tuple((round(x + AWAY, 3), round(y + AWAY, 3)) for x, y in ring_round(self.outline))
        first = ring.index(min(ring))
        return (*ring[first:], *ring[:first])

    @cached_property
    def walked(self) -> Walked:
        """The ring as a hash takes it."""
        return walked(self.ring)

    @cached_property
    def flat(self) -> Ring:
        """The outline in straight steps."""
        return flat_ring(self.outline, FLAT)

    @cached_property
    def half(self) -> "Form":
        """Its right half, the fold on its left."""
        assert self.right_half is not None
        return form_of(self.right_half)

    @cached_property
    def chord(self) -> float:
        """How far it reaches along the line through the middle of its box that runs along the cloth, mm."""
        middle = self.size[0] / 2
        spots = [
            low + (high - low) * (middle - left) / (right - left)
            for (left, low), (right, high) in pairwise((*self.ring, self.ring[0]))
            if (left <= middle) != (right <= middle)
        ]
        return max(spots, default=0.0) - min(spots, default=0.0)

    @cached_property
    def area(self) -> float:
        """What its ring holds, mm²."""
        turned = pairwise((*self.ring, self.ring[0]))
        return abs(sum(one[0] * other[1] - one[1] * other[0] for one, other in turned)) / 2

    def placed(self, turn: int, x: float, y: float) -> Path:
        """The outline turned by a quarter turn or several, its box at (x, y)."""
        across, along = self.size
        # Where the box comes to lie that is turned about the origin.
        left, low = {0: (0.0, 0.0), 90: (-along, 0.0), 180: (-across, -along), 270: (0.0, -across)}[turn % 360]
        return self.outline.moved(Movement(turn % 360 // 90, Point(x - left, y - low)))
