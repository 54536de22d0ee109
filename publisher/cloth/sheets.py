"""How few precuts will do: sheet by sheet, boxes first, and outlines nested where boxes find no room."""

import time
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import replace

from publisher.cloth.nesting import Effort
from publisher.cloth.packing import fill_with_boxes
from publisher.cloth.questions import Answer, Question, length_of
from publisher.cloth.rows import fill_in_rows, on_sheets, rectangles_of
from publisher.cloth.shelves import Rectangle

PROBE = 1.0  # seconds: the solver counts whole ones
FULLEST = 0.97  # of a sheet's area: no nesting fills more

# The outlines nested on cloth by the length, until they take no more than that.
Nest = Callable[[Question, Effort, float], Answer | None]


def in_sheets(question: Question, effort: Effort, nest: Nest) -> Answer | None:
    """The fewest sheets that some ways find, within the effort's seconds; shapes that lack room next to others alone."""
    until = time.monotonic() + effort.seconds
    rows, boxes = fill_in_rows(question), fill_with_boxes(question)

    def quickly(rectangles: Sequence[Rectangle]) -> Answer | None:
        return rows(rectangles) or boxes(rectangles)

    def thoroughly(rectangles: Sequence[Rectangle]) -> Answer | None:
        quick = quickly(rectangles)
        left = until - time.monotonic()
        if quick is not None or left < PROBE / 2:
            return quick
        if effort.stop.is_set():
            return None
        return _probe(question, rectangles, replace(effort, seconds=min(PROBE, left)), nest)

    best = on_sheets(rectangles_of(question), quickly)
    if length_of(question, best) > question.bound:
        tried = on_sheets(rectangles_of(question), thoroughly)
        best = min(best, tried, key=lambda answer: length_of(question, answer))
    return best


def _probe(question: Question, rectangles: Sequence[Rectangle], effort: Effort, nest: Nest) -> Answer | None:
    """These shapes on one sheet by their outlines, or None."""
    counts = Counter(int(one.name) for one in rectangles)
    assert question.length is not None
    area = sum(question.shapes[number].area * count for number, count in counts.items())
    if len(rectangles) < 2 or area > FULLEST * question.width * question.length:
        return None
    shapes = tuple(replace(question.shapes[number], count=count) for number, count in counts.items())
    sheet = replace(question, shapes=shapes, length=None)
    answer = nest(sheet, effort, question.length)
    if answer is None or length_of(sheet, answer) > question.length:
        return None
    numbers = list(counts)
    return tuple(replace(spot, shape=numbers[spot.shape]) for spot in answer)
