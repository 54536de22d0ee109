"""Outlines nested on cloth that is folded double: those on the fold joined into one, as the solver knows no fold.

Millimetres, x from the fold. The halves stand one above the other on a thin spine outside the cloth; a post across the
whole height of the solver's strip keeps the spine where it is.
"""

import itertools
from dataclasses import replace

from publisher.cloth.nesting import Effort, Item, Strip, nest
from publisher.cloth.outlines import HEADROOM, SPARE, fit_to_ask, item_of, onto_the_cloth, spot_of
from publisher.cloth.questions import Answer, Question, Spot
from publisher.cloth.rows import behind_halves
from publisher.geometry import ring_of_all, slid_down

THIN = 1.0  # mm, spine and post
MOST_ORDERS = 120  # of the halves on the fold that are tried

Rings = list[tuple[tuple[float, float], ...]]


def in_rows_on_fold(question: Question) -> Answer:
    """The halves piled as close as they go, and behind them rows of the rest: an answer where the solver has none."""
    halves = _on_the_fold(question)
    start = max((_top(question, spot) + question.gap for spot in halves), default=0.0)
    return (*halves, *behind_halves(question, start))


def nested_on_fold(question: Question, effort: Effort) -> Answer | None:
    """The shortest layout found; None where the solver finds nothing."""
    if not fit_to_ask(question.shapes):
        return None
    halves = _on_the_fold(question)
    rest = [number for number, shape in enumerate(question.shapes) if not shape.on_the_fold]
    if not rest:
        return halves
    gap = question.gap + SPARE
    items = tuple(item_of(question.shapes[number]) for number in rest)
    left = THIN if halves else -question.gap / 2  # the strip's upper border, to the left of the fold
    if halves:
        items = (*items, Item(tuple((y, -x) for x, y in _joined(question, halves, gap)), 1, (0,)))
    strip = Strip(question.width + left + 2 * gap + HEADROOM, gap, items)
    # Spine and post lie in front of what is counted.
    laid = nest(strip, effort, question.bound + 2 * gap + (THIN + gap if halves else 0.0))
    if laid is None:
        return None
    spots = [spot_of(question, rest[one.item], one, question.width + gap) for one in laid if one.item < len(rest)]
    up = next((one.x for one in laid if one.item == len(rest)), 0.0)
    everything = (*spots, *(replace(half, y=half.y + up) for half in halves))
    return tuple(
        replace(spot, x=0.0) if question.shapes[spot.shape].on_the_fold else spot
        for spot in onto_the_cloth(question, everything, 0.0, 0.0 if halves else question.gap / 2)
    )


def _on_the_fold(question: Question) -> Answer:
    """The halves one above the other as close as they go, in the order that takes least."""
    each = [number for number, shape in enumerate(question.shapes) for _ in range(shape.count) if shape.on_the_fold]
    orders = dict.fromkeys(itertools.islice(itertools.permutations(each), MOST_ORDERS))
    piled = [_piled(question, order) for order in orders]
    return min(piled, key=lambda pile: max((_top(question, spot) for spot in pile), default=0.0))


def _top(question: Question, spot: Spot) -> float:
    return spot.y + question.shapes[spot.shape].box().height


def _piled(question: Question, order: tuple[int, ...]) -> Answer:
    spots: list[Spot] = []
    rings: Rings = []
    for number in order:
        above = max((_top(question, spot) for spot in spots), default=-question.gap) + question.gap
        ring = _raised(question, Spot(number, 0.0, above, 0))
        y = max(above - slid_down(ring, rings, question.gap), 0.0)
        spots.append(Spot(number, 0.0, y, 0))
        rings.append(_raised(question, spots[-1]))
    return tuple(spots)


def _raised(question: Question, spot: Spot) -> tuple[tuple[float, float], ...]:
    return tuple((x, y + spot.y) for x, y in question.shapes[spot.shape].ring)


def _joined(question: Question, halves: Answer, gap: float) -> tuple[tuple[float, float], ...]:
    """The halves with spine and post; these lie outside what is counted, so that others may lie beside them."""
    top = max(_top(question, spot) for spot in halves)
    spine = ((-THIN, -gap - THIN), (0.0, -gap - THIN), (0.0, top), (-THIN, top))
    post = ((-THIN, -gap - THIN), (question.width, -gap - THIN), (question.width, -gap), (-THIN, -gap))
    # A hair to the left, so that they hang together.
    rings = [tuple((x - 0.01, y) for x, y in _raised(question, spot)) for spot in halves]
    return ring_of_all([spine, post, *rings])
