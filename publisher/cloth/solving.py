"""Questions answered as well as can be in some seconds: rows, boxes, and outlines nested; the shortest that holds."""

import itertools
import os
from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor, as_completed
from dataclasses import replace

from publisher.cloth.arranging import NO_SHORTER
from publisher.cloth.kept import holds
from publisher.cloth.nesting import Effort, Item, Nested, Strip, nest
from publisher.cloth.packing import in_boxes
from publisher.cloth.questions import Answer, Question, Shape, Spot, length_of
from publisher.cloth.rows import in_rows
from publisher.cloth.sheets import in_sheets

WORKERS = 2
FIRST_SECONDS, AGAIN_SECONDS = 2.0, 20.0  # for a layout, in one of the workers
# What is added to the gap that the solver keeps, mm: it reckons in single precision.
SPARE = 0.06
# Its strip must be higher than what lies on it; layouts are moved onto the cloth afterwards.
HEADROOM = 0.05
LARGEST, SMALLEST = 50_000.0, 0.5  # mm: it panics on greater numbers and on slivers


def solve_all(questions: Sequence[Question], seconds: float, seed: int = 0) -> Iterator[tuple[Question, Answer]]:
    """Each question with the best answer found, as they come, in about `seconds` × their number ÷ workers."""
    workers = min(WORKERS, os.cpu_count() or 1)
    threads = 1 if len(questions) > 1 else workers
    with ThreadPoolExecutor(workers) as pool:
        asked = {pool.submit(solve, one, Effort(seconds, threads, seed)): one for one in questions}
        try:
            for done in as_completed(asked):
                answer = done.result()
                if answer is not None:
                    yield asked[done], answer
        finally:
            pool.shutdown(wait=False, cancel_futures=True)


def solve(question: Question, effort: Effort) -> Answer | None:
    """The shortest answer that holds, of all ways to find one; None where there is none, as on folded cloth."""
    best: Answer | None = None
    for answer in _ways(question, effort):
        if answer is None or not holds(question, answer):
            continue
        if best is None or length_of(question, answer) < length_of(question, best):
            best = answer
        if length_of(question, best) <= question.bound + NO_SHORTER:
            break
    return best


def _ways(question: Question, effort: Effort) -> Iterator[Answer | None]:
    if question.length is not None:
        yield in_rows(question)
        yield in_sheets(question, effort, nested)
        return
    yield in_rows(question)
    yield in_boxes(question)
    yield nested(question, effort)


def nested(question: Question, effort: Effort, enough: float = 0.0) -> Answer | None:
    """The outlines nested on cloth by the length; None where the solver finds nothing, or cannot take the shapes."""
    bands = [number for number, shape in enumerate(question.shapes) if question.is_band(shape)]
    rest = [number for number in range(len(question.shapes)) if number not in bands]
    if any(not _fit_to_ask(question.shapes[number]) for number in rest):
        return None
    across = _stacked(question, bands)
    if not rest:
        return across
    gap = question.gap + SPARE
    strip = Strip(question.width + 2 * gap + HEADROOM, gap, tuple(_item(question.shapes[number]) for number in rest))
    others = replace(question, shapes=tuple(question.shapes[number] for number in rest))
    laid = nest(strip, effort, max(enough, others.bound) + 2 * gap)
    if laid is None:
        return None
    spots = [_spot(question, rest[one.item], one, gap) for one in laid]
    return _onto_the_cloth(question, spots, length_of(question, across) + question.gap if across else 0.0, across)


def _fit_to_ask(shape: Shape) -> bool:
    box = shape.box()
    return min(box.width, box.height) > SMALLEST and max(box.width, box.height) < LARGEST


def _stacked(question: Question, bands: Sequence[int]) -> Answer:
    """Bands one behind the other."""
    each = [number for number in bands for _ in range(question.shapes[number].count)]
    heights = [question.shapes[number].box().height + question.gap for number in each]
    starts = itertools.accumulate(heights, initial=0.0)
    return tuple(Spot(number, 0.0, start, 0) for number, start in zip(each, starts, strict=False))


def _item(shape: Shape) -> Item:
    """A shape as it lies on the solver's strip, which runs to the right: a quarter turn clockwise."""
    return Item(tuple((y, -x) for x, y in shape.ring), shape.count, shape.turns)


def _spot(question: Question, number: int, one: Nested, gap: float) -> Spot:
    """Where an item of the strip lies on the cloth."""
    whole = question.shapes[number].box()
    # The lower left corner of the outline's box when it is turned about the origin.
    corners = {0: (0.0, 0.0), 90: (-whole.height, 0.0), 180: (-whole.width, -whole.height), 270: (0.0, -whole.width)}
    left, bottom = corners[one.turn]
    # The strip's (x, y) is the cloth's (−y, x), its lower border the right selvage.
    return Spot(number, question.width + gap - one.y + left, one.x - gap + bottom, one.turn)


def _onto_the_cloth(question: Question, spots: Sequence[Spot], start: float, across: Answer) -> Answer:
    """The layout moved to where the bands end; what hangs over an edge by less than the spare room is moved in."""
    low = min(spot.y for spot in spots)
    moved: list[Spot] = []
    for spot in spots:
        room = question.width - question.shapes[spot.shape].box(spot.turn).width
        moved.append(replace(spot, x=min(max(spot.x, 0.0), max(room, 0.0)), y=spot.y - low + start))
    return (*across, *moved)
