"""Cloth folded double, right sides together: pairs are cut at once, and pieces that are printed as a half lie on the fold.

Of the question, x is measured from the fold; of what is laid, from the left edge of the cloth unfolded, so that whatever
reads it need not know of the fold. Millimetres.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from publisher.cloth.arranging import NO_SHORTER, Arranged, KeptFiles, arrange_folded
from publisher.cloth.cuts import Cut, ask
from publisher.cloth.lying import laid
from publisher.cloth.questions import Answer, Question
from publisher.cloth.values import Laid
from publisher.frozen import dataclass
from publisher.geometry import Movement, Path, Point, mirrored, same_area


@dataclass(frozen=True, slots=True)
class Folded:
    """The question of folded cloth: of each of its cuts the number of its shape, and the cut that is got with it."""

    question: Question
    cuts: tuple[Cut, ...]
    mates: tuple[Cut | None, ...]
    numbers: tuple[int, ...]

    @property
    def halves(self) -> bool:
        """True where a piece lies on the fold, its template printed as a half."""
        return any(cut.half_on_the_fold for cut in self.cuts)


def least_folded(cuts: Sequence[Cut], usable: float, gap: float) -> float | None:
    """A length that no layout on folded cloth is shorter than, known at little cost; None where something is too wide."""
    if _too_wide(cuts, usable, gap):
        return None
    on_it = sum(cut.form.chord + gap for cut in cuts if cut.half_on_the_fold) - gap
    return max(on_it, sum(cut.form.area for cut in cuts) / usable)


def fold(cuts: Sequence[Cut], usable: float, gap: float) -> Folded | None:
    """What to lay on folded cloth; None where nothing lies on the fold and nothing is a pair, or something is too wide.

    A cut without a mate takes its place on both layers all the same.
    """
    if _too_wide(cuts, usable, gap):
        return None
    chosen = _with_mates(cuts, usable, gap)
    if not any(cut.half_on_the_fold or mate for cut, mate in chosen):
        return None
    asked = [cut.half if cut.half_on_the_fold else cut for cut, _ in chosen]
    question, halves = ask(asked, usable / 2, gap, None)
    firsts, mates = tuple(cut for cut, _ in chosen), tuple(mate for _, mate in chosen)
    return Folded(replace(question, folded=True), firsts, mates, tuple(halves))


def _too_wide(cuts: Sequence[Cut], usable: float, gap: float) -> bool:
    half = usable / 2
    return any(
        cut.size[0] / 2 > half + 1e-6 if cut.half_on_the_fold else _least_width(cut) > half - gap / 2 for cut in cuts
    )


def _with_mates(cuts: Sequence[Cut], usable: float, gap: float) -> list[tuple[Cut, Cut | None]]:
    """Each cut with the one that is got with it; a mate is not listed again."""
    _, numbers = ask(cuts, usable, gap, None)
    known: dict[tuple[int, int], bool] = {}  # what was found of two shapes: there may be many cuts of each
    left = list(zip(cuts, numbers, strict=True))
    chosen: list[tuple[Cut, Cut | None]] = []
    while left:
        cut, number = left.pop(0)
        mate: int | None = None
        for at, (other, another) in enumerate(left):
            if cut.half_on_the_fold or other.half_on_the_fold:
                continue
            if (number, another) not in known:
                known[number, another] = _are_mates(cut, other)
            if known[number, another]:
                mate = at
                break
        chosen.append((cut, None if mate is None else left.pop(mate)[0]))
    return chosen


def _least_width(cut: Cut) -> float:
    return min(cut.size) if 90 in cut.turns else cut.size[0]


def _are_mates(cut: Cut, other: Cut) -> bool:
    """True when one is the mirror image of the other, left for right."""
    if cut.turns != other.turns:
        return False
    near = max(abs(one - two) for one, two in zip(cut.size, other.size, strict=True)) < 0.01
    return near and same_area(turned_over(cut.form.outline), other.form.outline)


def turned_over(outline: Path) -> Path:
    """Left for right, its box at the origin."""
    return laid(mirrored(outline, Point(0.0, 0.0), Point(0.0, 1.0)), 0, False, 0.0, 0.0)


def placed_folded(folded: Folded, answer: Answer, usable: float) -> Iterator[Laid]:
    """Each cut on the unfolded cloth: on the fold whole, else right of it, and its mate left of it."""
    spots = {number: [spot for spot in answer if spot.shape == number] for number in set(folded.numbers)}
    middle = usable / 2
    for cut, mate, number in zip(folded.cuts, folded.mates, folded.numbers, strict=True):
        spot = spots[number].pop(0)
        box = folded.question.shapes[number].box(spot.turn)
        if cut.half_on_the_fold:
            yield _laid(cut, 0, middle - cut.size[0] / 2, spot.y)
            continue
        yield _laid(cut, spot.turn, middle + spot.x, spot.y)
        if mate is not None:
            yield _laid(mate, -spot.turn % 360, middle - spot.x - box.width, spot.y)


def _laid(cut: Cut, turn: int, x: float, y: float) -> Laid:
    outline = cut.form.placed(turn, x, y)
    width, length = cut.size if turn % 180 == 0 else cut.size[::-1]
    turn = (cut.turn + turn) % 360
    opened_out = cut.halved and not cut.half_on_the_fold
    return Laid(cut.copy, cut.nth, x, y, width, length, turn, cut.turned_over, outline, opened_out=opened_out)


def lay_folded(
    folded: Folded, cuts: Sequence[Cut], usable: float, gap: float, kept: KeptFiles
) -> tuple[Arranged, tuple[Laid, ...]] | None:
    """The shortest at hand on folded cloth, and where each cut lies on it unfolded; None where nothing is.

    What is known of a half, a third … of the order serves it, too, though what was cut from one layer there is a pair here.
    """
    arranged = arrange_folded(folded.question, kept)
    best = None if arranged is None else (arranged, tuple(placed_folded(folded, arranged.answer, usable)))
    for times, part in _parts(cuts):
        smaller = fold(part, usable, gap)
        found = None if smaller is None else arrange_folded(smaller.question, kept)
        if smaller is None or found is None:
            continue
        used = times * found.used + (times - 1) * gap
        if best is None or used < best[0].used - NO_SHORTER:
            laid = tuple(placed_folded(smaller, found.answer, usable))
            answered = arranged is not None and arranged.answered
            best = replace(found, used=used, answered=answered), tuple(_again(laid, times, found.used + gap))
    return best


def _parts(cuts: Sequence[Cut]) -> Iterator[tuple[int, tuple[Cut, ...]]]:
    """A half, a third … of every copy's cuts, and how often they make the whole: where those of each part are alike."""
    by_copy: dict[str, list[Cut]] = {}
    for cut in cuts:
        by_copy.setdefault(cut.copy, []).append(cut)
    common = math.gcd(*(max(cut.nth for cut in own) for own in by_copy.values())) if by_copy else 0
    for times in (one for one in range(2, common + 1) if common % one == 0):
        parts = [(own, len(own) // times) for own in by_copy.values()]
        if all(own[at].key == own[at - size].key for own, size in parts for at in range(size, len(own))):
            yield times, tuple(cut for own, size in parts for cut in own[:size])


def _again(laid: Sequence[Laid], times: int, step: float) -> Iterator[Laid]:
    """A layout several times, one `step` behind the other; its cuts counted on."""
    counts = {one.copy: max(other.nth for other in laid if other.copy == one.copy) for one in laid}
    for at in range(times):
        for one in laid:
            outline = one.outline.moved(Movement(0, Point(0.0, at * step)))
            yield replace(one, nth=one.nth + at * counts[one.copy], y=one.y + at * step, outline=outline)
