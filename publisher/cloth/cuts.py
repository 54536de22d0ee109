"""What is cut from a material at one width, as its grain lies on the cloth, and the question it asks. Millimetres."""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from publisher.cloth.lying import as_path, laid, outline_cut
from publisher.cloth.questions import Answer, Question, Shape, rounded
from publisher.cloth.values import Laid, StripPlan
from publisher.drafting import Copy, Draft, Grain, Material, Piece
from publisher.geometry import Box, Path, Point, area_within, ring_round

Key = tuple[tuple[tuple[float, float], ...], tuple[int, ...], bool]
ALIKE, EITHER_END, ANY_WAY = (0,), (0, 180), (0, 90, 180, 270)


@dataclass(frozen=True)
class Cut:
    """One cut of a copy, its box at the origin; `turns` are the degrees it may be turned by from there.

    `turn` and `turned_over` say how it lies so, from the template as printed. `halved`: its template shows a half of it;
    `half_on_the_fold`: so it does with the fold along the cloth; `on_the_fold`: it is that half, with the fold on its left.
    """

    copy: str
    nth: int
    outline: Path
    turn: int
    turned_over: bool
    turns: tuple[int, ...]
    halved: bool = False
    half_on_the_fold: bool = False
    on_the_fold: bool = False

    @cached_property
    def size(self) -> tuple[float, float]:
        """Its box across and along the cloth, mm."""
        box = self.outline.box
        return box.width, box.height

    @cached_property
    def key(self) -> Key:
        """What it has in common with cuts that are alike."""
        ring = tuple((rounded(point.x), rounded(point.y)) for point in ring_round(self.outline))
        first = ring.index(min(ring))
        return (*ring[first:], *ring[:first]), self.turns, self.on_the_fold

    @cached_property
    def half(self) -> "Cut":
        """Its right half, the left side on the fold."""
        across, along = self.size
        right = as_path(Box(across / 2, -1.0, across + 1, along + 1))
        (half, *_) = area_within(self.outline, right, tolerance=0.05)
        return replace(self, outline=laid(half, 0, False, 0.0, 0.0), turns=ALIKE, on_the_fold=True)


def cuts_from(
    material: Material,
    copies: Sequence[tuple[Piece, Copy]],
    plans: Sequence[StripPlan],
    whole: Mapping[tuple[str, int], Cut],
) -> tuple[Cut, ...]:
    """All that is cut, in the order of the copies; of a strip that is pieced each length, of a bias strip its square.

    `whole` are the cuts that are the same on every width, by copy and number.
    """
    cuts: list[Cut] = []
    for _, copy in copies:
        plan = next((plan for plan in plans if plan.copy == copy.name), None)
        for nth in range(1, copy.count + 1):
            if plan is None:
                cuts.append(whole[copy.name, nth])
            elif plan.square:
                cuts.append(_rectangle(material, copy, nth, plan.square, plan.square))
            else:
                cuts += _lengths(material, copy, nth, plan)
    return tuple(cuts)


def _lengths(material: Material, copy: Copy, nth: int, plan: StripPlan) -> Iterator[Cut]:
    """The lengths that a strip is pieced of, as they lie."""
    for length in plan.lengths:
        across, along = (plan.cut_width, length) if plan.along else (length, plan.cut_width)
        yield _rectangle(material, copy, nth, across, along)


def whole_cuts(draft: Draft, material: Material, copies: Sequence[tuple[Piece, Copy]]) -> dict[tuple[str, int], Cut]:
    """Every cut as it is on cloth that is wide enough for it, by copy and number."""
    return {
        (copy.name, nth): cut_of(draft, piece, copy, nth, material)
        for piece, copy in copies
        for nth in range(1, copy.count + 1)
    }


def cut_of(draft: Draft, piece: Piece, copy: Copy, nth: int, material: Material) -> Cut:
    """One cut: the piece's y axis runs along the cloth unless its grain says otherwise; of a pair, every other is over."""
    over = copy.turned_over != (copy.mirrored and nth % 2 == 0)
    turn = 0 if material.free else {Grain.ACROSS: 90, Grain.BIAS: 45}.get(piece.grain, 0)
    outline = laid(outline_cut(draft, piece, copy), turn, over, 0.0, 0.0)
    way = None if copy.rough else fold_way(piece, turn)
    along = way is not None and abs(way.x) < 1e-6
    return Cut(copy.name, nth, outline, turn, over, turns_of(piece, material), way is not None, along)


def fold_way(piece: Piece, turn: int) -> Point | None:
    """Which way the fold runs on the cloth of a piece whose template shows a half; None where it shows the whole."""
    if piece.half is None or piece.half.fold_edge is None:
        return None
    return piece.half.edge(piece.half.fold_edge).path.direction_at(0.0).turned(math.radians(turn))


def turns_of(piece: Piece, material: Material) -> tuple[int, ...]:
    """How a piece may be turned on the cloth: one way where it or the cloth says so, any way where there is no grain."""
    if material.free:
        return ANY_WAY
    if piece.one_way or material.one_way:
        return ALIKE
    return ANY_WAY if piece.grain is Grain.EITHER else EITHER_END


def _rectangle(material: Material, copy: Copy, nth: int, across: float, along: float) -> Cut:
    turns = ALIKE if material.one_way else ANY_WAY if material.free else EITHER_END
    return Cut(copy.name, nth, as_path(Box(0.0, 0.0, across, along)), 0, False, turns)


def ask(cuts: Sequence[Cut], width: float, gap: float, length: float | None) -> tuple[Question, list[int]]:
    """The question that some cuts ask, and for each cut the number of its shape."""
    keys = [cut.key for cut in cuts]
    ordered = sorted(dict.fromkeys(keys), key=lambda key: (-len(key[0]), key))
    shapes = tuple(
        Shape(ring, turns, keys.count(key), first.outline, first.size, fold)
        for key in ordered
        for ring, turns, fold in [key]
        for first in [cuts[keys.index(key)]]
    )
    return Question(shapes, width, gap, length), [ordered.index(key) for key in keys]


def placed(cuts: Sequence[Cut], numbers: Sequence[int], question: Question, answer: Answer) -> Iterator[Laid]:
    """Each cut where the answer has its shape, in the order of the cuts."""
    spots = {number: [spot for spot in answer if spot.shape == number] for number in set(numbers)}
    for cut, number in zip(cuts, numbers, strict=True):
        spot = spots[number].pop(0)
        box = question.shapes[number].box(spot.turn)
        outline = laid(cut.outline, spot.turn, False, spot.x, spot.y)
        turn = (cut.turn + spot.turn) % 360
        size = (box.width, box.height)
        yield Laid(
            cut.copy, cut.nth, spot.x, spot.y, *size, turn, cut.turned_over, outline, spot.sheet, opened_out=cut.halved
        )
