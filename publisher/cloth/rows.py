"""A question answered plainly: rows across the cloth, or sheet by sheet the largest first. Raises TooWide and TooLong."""

import itertools
from collections.abc import Callable, Sequence
from dataclasses import replace

from publisher.cloth.questions import Answer, Question, Shape, Spot
from publisher.cloth.shelves import Rectangle, Shelved, arrange_in_rows

# How some rectangles are laid on one sheet, or None where they find no room.
Fill = Callable[[Sequence[Rectangle]], Answer | None]


class TooLong(ValueError):
    """A shape is longer than the sheets."""


def rectangles_of(question: Question) -> list[Rectangle]:
    """The box of every cut; its name is the number of its shape."""
    return [
        _rectangle(number, nth, shape) for number, shape in enumerate(question.shapes) for nth in range(shape.count)
    ]


def _rectangle(number: int, nth: int, shape: Shape) -> Rectangle:
    box = shape.box()
    return Rectangle(f"{number:05}", nth, box.width, box.height, free=90 in shape.turns)


def in_rows(question: Question) -> Answer:
    """Rows across the cloth; of sheets, on each of them. Raises TooWide for a shape that no way round fits across."""
    if question.length is None:
        return spots_of(arrange_in_rows(rectangles_of(question), question.width, question.gap)[0])
    return on_sheets(rectangles_of(question), fill_in_rows(question))


def in_rows_on_the_fold(question: Question) -> Answer:
    """On folded cloth: halves one above the other, and behind them rows of the rest, half a gap from the fold."""
    halves = [number for number, shape in enumerate(question.shapes) if shape.on_the_fold for _ in range(shape.count)]
    heights = (question.shapes[number].box().height + question.gap for number in halves)
    *starts, start = itertools.accumulate(heights, initial=0.0)
    spots = (Spot(number, 0.0, at, 0) for number, at in zip(halves, starts, strict=True))
    return (*spots, *behind_halves(question, start))


def behind_halves(question: Question, start: float) -> Answer:
    """Rows of all that does not lie on the fold, from `start` on."""
    rest = [one for one in rectangles_of(question) if not question.shapes[int(one.name)].on_the_fold]
    beside = question.gap / 2  # of the fold
    rows = spots_of(arrange_in_rows(rest, question.width - beside, question.gap)[0])
    return tuple(replace(spot, x=spot.x + beside, y=spot.y + start) for spot in rows)


def spots_of(shelved: Sequence[Shelved]) -> Answer:
    """Places of rectangles as places of their shapes."""
    return tuple(Spot(int(one.rectangle.name), one.x, one.y, 90 if one.turned else 0) for one in shelved)


def fill_in_rows(question: Question) -> Fill:
    """Rows on one sheet of the question's length."""

    def fill(rectangles: Sequence[Rectangle]) -> Answer | None:
        shelved, used = arrange_in_rows(rectangles, question.width, question.gap)
        assert question.length is not None
        return spots_of(shelved) if used <= question.length + 1e-6 else None

    return fill


def on_sheets(rectangles: Sequence[Rectangle], fill: Fill) -> Answer:
    """The largest first, each on the first sheet that still has room with it, else on a new one. Raises TooLong."""
    sheets: list[tuple[list[Rectangle], Answer]] = []
    for rectangle in sorted(rectangles, key=lambda one: (-one.width * one.length, one.name, one.nth)):
        for at, (others, _) in enumerate(sheets):
            filled = fill([*others, rectangle])
            if filled is not None:
                sheets[at] = ([*others, rectangle], filled)
                break
        else:
            alone = fill([rectangle])
            if alone is None:
                raise TooLong(f"{rectangle.width:.4g} × {rectangle.length:.4g} mm is more than one sheet holds")
            sheets.append(([rectangle], alone))
    return tuple(replace(spot, sheet=at) for at, (_, laid) in enumerate(sheets, 1) for spot in laid)
