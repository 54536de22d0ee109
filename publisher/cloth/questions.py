"""The question that a layout answers: which shapes, how they may be turned, on what cloth; and answers to it.

It knows no names: pieces that are renamed, or listed in another order, ask the same. Millimetres.
"""

import dataclasses
import json
import math
from collections.abc import Sequence
from dataclasses import field, replace
from functools import cached_property

from publisher.cloth.forms import Form, Ring, rounded
from publisher.frozen import dataclass
from publisher.geometry import Box, Path
from publisher.terms import content_hash

# Part of every question: a change in what an answer means asks it anew.
MEANING = "outlines with a gap, 2"
FOLD_BAND = 0.3  # mm: a ring is no further outside of its outline


@dataclass(frozen=True, slots=True)
class Shape:
    """Cuts that are alike: `ring` holds the outline of their form; `count` of them, each turned by one of `turns`.

    `on_the_fold`: its left side lies on the fold of cloth that is folded double.
    """

    ring: Ring
    turns: tuple[int, ...]
    count: int
    form: Form = field(compare=False)
    on_the_fold: bool = False

    @property
    def size(self) -> tuple[float, float]:
        """Of the outline's box, across and along, mm."""
        return self.form.size

    @property
    def outline(self) -> Path:
        """The outline, its box at the origin."""
        return self.form.outline

    def box(self, turn: int = 0) -> Box:
        """The box of its outline turned, with the lower left corner at the origin."""
        across, along = self.size if turn % 180 == 0 else self.size[::-1]
        return Box(0.0, 0.0, across, along)

    @property
    def on_fold(self) -> float:
        """How much of the fold it takes, mm."""
        along = [y for x, y in self.ring if x < FOLD_BAND]
        return max(along) - min(along) if self.on_the_fold else 0.0

    @property
    def area(self) -> float:
        """What its ring holds, mm²."""
        return self.form.area

    @property
    def rectangular(self) -> bool:
        """True when it fills its box."""
        box = self.box()
        return math.isclose(self.area, box.width * box.height, rel_tol=1e-9, abs_tol=1e-6)


@dataclasses.dataclass(frozen=True)
class Question:
    """Shapes to lay on cloth of `width` with `gap` between neighbours; on sheets of `length`, where there are sheets.

    `folded`: the cloth lies double, `width` is half of it, the fold at its left, and each shape is cut twice at once.
    """

    shapes: tuple[Shape, ...]
    width: float
    gap: float
    length: float | None = None
    folded: bool = False

    @cached_property
    def name(self) -> str:
        """What names its kept answer, the same on every machine."""
        told = [(shape.form.walked, shape.turns, shape.count, shape.on_the_fold) for shape in self.shapes]
        numbers = (rounded(self.width), rounded(self.gap), rounded(self.length or 0.0))
        return f"cloth-{content_hash((MEANING, told, numbers, self.folded))}.json"

    @property
    def count(self) -> int:
        """How many cuts."""
        return sum(shape.count for shape in self.shapes)

    @cached_property
    def all_in_a_line(self) -> float:
        """What all of them take one behind the other, each turned so that it takes most, mm."""
        most = (max(shape.box(turn).height for turn in shape.turns) for shape in self.shapes)
        return sum(shape.count * (along + self.gap) for shape, along in zip(self.shapes, most, strict=True))

    def is_band(self, shape: Shape) -> bool:
        """True for a rectangle so wide that nothing lies beside it, and no part of what is no rectangle."""
        others = [
            other.box(turn).width if other.rectangular else 0.0
            for other in self.shapes
            if other is not shape
            for turn in other.turns
        ]
        others += [shape.box().width] if shape.count > 1 else []
        left = self.width - shape.box().width - self.gap
        return shape.rectangular and 90 not in shape.turns and left < min(others, default=self.width)

    @cached_property
    def bound(self) -> float:
        """A length of cloth that no layout can be shorter than, mm; of sheets: their number."""
        if self.length is not None:
            return float(math.ceil(_area(self.shapes) / self.width / self.length - 1e-9))
        bands = [shape for shape in self.shapes if self.is_band(shape)]
        rest = [shape for shape in self.shapes if shape not in bands]
        # Of rectangles wider than half the cloth no two lie side by side either.
        half = (self.width - self.gap) / 2
        wide = [one for one in rest if one.rectangular and min(one.box(turn).width for turn in one.turns) > half]
        tallest = (min(shape.box(turn).height for turn in shape.turns) for shape in rest)
        # Nor do halves on the fold, as far as they lie on it.
        halves = sum(shape.count * (shape.on_fold + self.gap) for shape in rest if shape.on_the_fold) - self.gap
        least = max([_area(rest) / self.width, self._stacked(wide), halves, *tallest])
        across = self._stacked(bands)
        return across + least + (self.gap if across and least else 0.0)

    def _stacked(self, shapes: Sequence[Shape]) -> float:
        """What shapes take one behind the other, mm."""
        taken = (one.count * (min(one.box(turn).height for turn in one.turns) + self.gap) for one in shapes)
        return max(sum(taken) - self.gap, 0.0)


def _area(shapes: Sequence[Shape]) -> float:
    return sum(shape.area * shape.count for shape in shapes)


@dataclass(frozen=True, slots=True)
class Spot:
    """Where one cut of a shape lies: the corner of its turned outline's box, mm; `sheet` from 1, where there are sheets."""

    shape: int
    x: float
    y: float
    turn: int
    sheet: int = 0


Answer = tuple[Spot, ...]


def placed_by(shape: Shape, spot: Spot) -> tuple[int, float, float]:
    """How its form comes there: so many quarter turns about the origin, then a shift, mm."""
    across, along = shape.size
    # The corner of its box that is turned about the origin.
    left, low = {0: (0.0, 0.0), 90: (-along, 0.0), 180: (-across, -along), 270: (0.0, -across)}[spot.turn]
    return spot.turn // 90, spot.x - left, spot.y - low


def length_of(question: Question, answer: Answer) -> float:
    """The length of cloth that an answer takes, mm; of sheets: their number."""
    if question.length is not None:
        return float(max((spot.sheet for spot in answer), default=0))
    return max((spot.y + question.shapes[spot.shape].box(spot.turn).height for spot in answer), default=0.0)


def repeated(question: Question, answer: Answer, times: int) -> Answer:
    """An answer laid several times, one behind the other."""
    if question.length is not None:
        sheets = round(length_of(question, answer))
        return tuple(replace(spot, sheet=spot.sheet + sheets * at) for at in range(times) for spot in answer)
    step = length_of(question, answer) + question.gap
    return tuple(replace(spot, y=spot.y + step * at) for at in range(times) for spot in answer)


def parts_of(question: Question) -> tuple[tuple[int, Question], ...]:
    """The same question of a half, a third … of every count, where there is one, with how often that makes the whole."""
    common = math.gcd(*(shape.count for shape in question.shapes))
    times = [one for one in range(2, min(common, 1000) + 1) if common % one == 0]
    return tuple(
        (one, replace(question, shapes=tuple(replace(shape, count=shape.count // one) for shape in question.shapes)))
        for one in times
    )


def written_answer(answer: Answer) -> bytes:
    """An answer as it is kept: small, one line a cut, made for git."""
    ordered = sorted(answer, key=lambda spot: (spot.shape, spot.sheet, spot.y, spot.x))
    lines = ",\n".join(f"  [{one.shape}, {one.x:.3f}, {one.y:.3f}, {one.turn}, {one.sheet}]" for one in ordered)
    return f"[\n{lines}\n]\n".encode()


def read_answer(content: bytes) -> Answer | None:
    """A kept answer, not yet checked; None where it is damaged."""
    try:
        rows = json.loads(content)
        answer = tuple(Spot(int(shape), float(x), float(y), int(turn), int(sheet)) for shape, x, y, turn, sheet in rows)
    except (ValueError, TypeError, OverflowError, RecursionError):
        return None
    return answer if all(math.isfinite(spot.x) and math.isfinite(spot.y) for spot in answer) else None
