"""Cloth folded double, right sides together: pairs are cut at once, and pieces that are printed as a half lie on the fold.

Of the question, x is measured from the fold; of what is laid, from the left edge of the cloth unfolded, so that whatever
reads it need not know of the fold. Millimetres.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from publisher.cloth.cuts import ALIKE, Cut, ask
from publisher.cloth.lying import as_path, laid
from publisher.cloth.questions import Answer, Question
from publisher.cloth.values import Laid
from publisher.geometry import Box, Path, Point, area_within, mirrored, same_area


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


def fold(cuts: Sequence[Cut], usable: float, gap: float) -> Folded | None:
    """What to lay on folded cloth; None where nothing lies on the fold and nothing is a pair, or something is too wide.

    A cut without a mate takes its place on both layers all the same.
    """
    question, numbers = ask(cuts, usable, gap, None)
    mirror = _mirror_images(question)
    left = list(zip(cuts, numbers, strict=True))
    chosen: list[tuple[Cut, Cut | None]] = []
    while left:
        cut, number = left.pop(0)
        of_pair = (at for at, one in enumerate(left) if one[1] == mirror.get(number) and not cut.half_on_the_fold)
        at = next(of_pair, None)
        chosen.append((cut, None if at is None else left.pop(at)[0]))
    half = usable / 2
    asked = [_half(cut) if cut.half_on_the_fold else cut for cut, _ in chosen]
    gained = any(cut.half_on_the_fold or mate for cut, mate in chosen)
    if not gained or any(_least_width(cut) > half - (0 if cut.on_the_fold else gap / 2) for cut in asked):
        return None
    question, halves = ask(asked, half, gap, None)
    firsts, mates = tuple(cut for cut, _ in chosen), tuple(mate for _, mate in chosen)
    return Folded(replace(question, folded=True), firsts, mates, tuple(halves))


def _least_width(cut: Cut) -> float:
    return cut.along if 90 in cut.turns and cut.along < cut.across else cut.across


def _half(cut: Cut) -> Cut:
    """The right half of a cut, its left side on the fold."""
    box = cut.outline.box
    right = as_path(Box(box.left + box.width / 2, box.bottom - 1, box.right + 1, box.top + 1))
    (half, *_) = area_within(cut.outline, right)
    return replace(cut, outline=laid(half, 0, False, 0.0, 0.0), turns=ALIKE, on_the_fold=True)


def _mirror_images(question: Question) -> dict[int, int]:
    """Of each shape the one that is its mirror image, left for right."""
    found: dict[int, int] = {}
    for number, shape in enumerate(question.shapes):
        image = turned_over(shape.outline)
        for other, candidate in enumerate(question.shapes):
            if candidate.turns == shape.turns and same_area(image, candidate.outline):
                found[number] = other
                break
    return found


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
            yield _laid(cut, 0, middle - cut.across / 2, spot.y)
            continue
        yield _laid(cut, spot.turn, middle + spot.x, spot.y)
        if mate is not None:
            yield _laid(mate, -spot.turn % 360, middle - spot.x - box.width, spot.y)


def _laid(cut: Cut, turn: int, x: float, y: float) -> Laid:
    outline = laid(cut.outline, turn, False, x, y)
    box = outline.box
    return Laid(cut.copy, cut.nth, x, y, box.width, box.height, (cut.turn + turn) % 360, cut.turned_over, outline)
