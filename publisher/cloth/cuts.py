"""What is cut from a material at one width, as its grain lies on the cloth, and the question it asks. Millimetres."""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from publisher.cloth.forms import Form, Ring, form_of, rectangle
from publisher.cloth.lying import outline_cut, turned
from publisher.cloth.questions import Answer, Question, Shape
from publisher.cloth.values import Laid, StripPlan
from publisher.drafting import Copy, Draft, Grain, Material, Piece
from publisher.frozen import dataclass
from publisher.geometry import Path, Point, mirrored

Key = tuple[Ring, tuple[int, ...], bool]
# By the piece, which the draft holds, how it is cut, and how it lies.
Forms = dict[tuple[int, bool, float, int, bool], Form]
ALIKE, EITHER_END, ANY_WAY = (0,), (0, 180), (0, 90, 180, 270)


@dataclass(frozen=True, slots=True)
class Cut:
    """One cut of a copy, its box at the origin; `turns` are the degrees it may be turned by from there.

    `turn` and `turned_over` say how it lies so, from the template as printed. `halved`: its template shows a half of it;
    `half_on_the_fold`: so it does with the fold along the cloth; `on_the_fold`: it is that half, with the fold on its left.
    """

    copy: str
    nth: int
    form: Form
    turn: int
    turned_over: bool
    turns: tuple[int, ...]
    halved: bool = False
    half_on_the_fold: bool = False
    on_the_fold: bool = False

    @property
    def size(self) -> tuple[float, float]:
        """Its box across and along the cloth, mm."""
        return self.form.size

    @property
    def key(self) -> Key:
        """What it has in common with cuts that are alike."""
        return self.form.ring, self.turns, self.on_the_fold

    @property
    def half(self) -> "Cut":
        """Its right half, the left side on the fold."""
        return replace(self, form=self.form.half, turns=ALIKE, on_the_fold=True)


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


def whole_cuts(
    draft: Draft, material: Material, copies: Sequence[tuple[Piece, Copy]], forms: Forms
) -> dict[tuple[str, int], Cut]:
    """Every cut as it is on cloth that is wide enough for it, by copy and number; `forms` are those known, and grow."""
    return {
        (copy.name, nth): cut_of(draft, piece, copy, nth, material, forms)
        for piece, copy in copies
        for nth in range(1, copy.count + 1)
    }


def cut_of(draft: Draft, piece: Piece, copy: Copy, nth: int, material: Material, forms: Forms) -> Cut:
    """One cut: the piece's y axis runs along the cloth unless its grain says otherwise; of a pair, every other is over."""
    over = copy.turned_over != (copy.mirrored and nth % 2 == 0)
    turn = 0 if material.free else {Grain.ACROSS: 90, Grain.BIAS: 45}.get(piece.grain, 0)
    known = (id(piece), copy.to_finished_line, copy.rough, turn, over)
    way = None if copy.rough else fold_way(piece, turn)
    along = way is not None and abs(way.x) < 1e-6
    if known not in forms:
        half = _right_half(piece, copy, turn, over) if along else None
        forms[known] = form_of(turned(outline_cut(draft, piece, copy), turn, over), half)
    return Cut(copy.name, nth, forms[known], turn, over, turns_of(piece, material), way is not None, along)


def _right_half(piece: Piece, copy: Copy, turn: int, over: bool) -> Path:
    """What the template shows of a cut with its fold along the cloth, right of the fold: both halves are alike."""
    assert piece.half is not None
    assert piece.half.fold_edge is not None
    shown = turned(piece.half.finished_line if copy.to_finished_line else piece.half.cut_line, turn, over)
    fold = turned(piece.half.edge(piece.half.fold_edge).path, turn, over).start
    box = shown.box
    return shown if box.right - fold.x > fold.x - box.left else mirrored(shown, fold, Point(0.0, 1.0))


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
    return Cut(copy.name, nth, rectangle(across, along), 0, False, turns)


def ask(cuts: Sequence[Cut], width: float, gap: float, length: float | None) -> tuple[Question, list[int]]:
    """The question that some cuts ask, and for each cut the number of its shape."""
    keys = [cut.key for cut in cuts]
    ordered = sorted(dict.fromkeys(keys), key=lambda key: (-len(key[0]), key))
    shapes = tuple(
        Shape(ring, turns, keys.count(key), first.form, fold)
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
        outline = cut.form.placed(spot.turn, spot.x, spot.y)
        turn = (cut.turn + spot.turn) % 360
        size = (box.width, box.height)
        yield Laid(
            cut.copy, cut.nth, spot.x, spot.y, *size, turn, cut.turned_over, outline, spot.sheet, opened_out=cut.halved
        )
