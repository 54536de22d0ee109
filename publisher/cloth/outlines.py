"""A question put to the solver: outlines on a strip there, and where they lie on the cloth here. Millimetres."""

import itertools
from collections.abc import Sequence
from dataclasses import replace

from publisher.cloth.nesting import Effort, Item, Nested, Strip, nest
from publisher.cloth.questions import Answer, Question, Shape, Spot, length_of

# The solver's strip must be higher than what lies on it, mm (it panics at 0.05 on long thin shapes); layouts are moved
# onto the cloth afterwards, which the gap makes up for.
HEADROOM = 0.15
SPARE = HEADROOM + 0.01  # it reckons in single precision
LARGEST, SMALLEST = 50_000.0, 0.5  # mm: it panics on greater numbers and on slivers


def nested(question: Question, effort: Effort, enough: float = 0.0) -> Answer | None:
    """The outlines nested on cloth by the length; None where the solver finds nothing, or cannot take the shapes.

    What is as wide as the cloth lies across it in front: the solver fails on what fits exactly.
    """
    bands = [number for number, shape in enumerate(question.shapes) if question.is_band(shape)]
    rest = [number for number in range(len(question.shapes)) if number not in bands]
    if not fit_to_ask([question.shapes[number] for number in rest]):
        return None
    across = _stacked(question, bands)
    if not rest:
        return across
    gap = question.gap + SPARE
    strip = Strip(question.width + 2 * gap + HEADROOM, gap, tuple(item_of(question.shapes[number]) for number in rest))
    others = replace(question, shapes=tuple(question.shapes[number] for number in rest))
    laid = nest(strip, effort, max(enough, others.bound) + 2 * gap)
    if laid is None:
        return None
    spots = [spot_of(question, rest[one.item], one, question.width + gap) for one in laid]
    start = length_of(question, across) + question.gap if across else 0.0
    return (*across, *onto_the_cloth(question, spots, start))


def fit_to_ask(shapes: Sequence[Shape]) -> bool:
    """True for shapes that the solver takes."""
    boxes = [shape.box() for shape in shapes]
    return all(min(box.width, box.height) > SMALLEST and max(box.width, box.height) < LARGEST for box in boxes)


def _stacked(question: Question, bands: Sequence[int]) -> Answer:
    """Bands one behind the other."""
    each = [number for number in bands for _ in range(question.shapes[number].count)]
    heights = [question.shapes[number].box().height + question.gap for number in each]
    starts = itertools.accumulate(heights, initial=0.0)
    return tuple(Spot(number, 0.0, start, 0) for number, start in zip(each, starts, strict=False))


def item_of(shape: Shape) -> Item:
    """A shape as it lies on the solver's strip, which runs to the right: a quarter turn clockwise."""
    return Item(tuple((y, -x) for x, y in shape.ring), shape.count, shape.turns)


def spot_of(question: Question, number: int, one: Nested, right: float) -> Spot:
    """Where an item of the strip lies on the cloth; the strip's lower border is `right` from the cloth's left side."""
    whole = question.shapes[number].box()
    # The lower left corner of the outline's box when it is turned about the origin.
    corners = {0: (0.0, 0.0), 90: (-whole.height, 0.0), 180: (-whole.width, -whole.height), 270: (0.0, -whole.width)}
    left, bottom = corners[one.turn]
    # The strip's (x, y) is the cloth's (−y, x).
    return Spot(number, right - one.y + left, one.x + bottom, one.turn)


def onto_the_cloth(question: Question, spots: Sequence[Spot], start: float, left: float = 0.0) -> Answer:
    """The layout moved so that it begins at `start`; what hangs over a side by less than the spare room is moved in."""
    low = min(spot.y for spot in spots)
    moved: list[Spot] = []
    for spot in spots:
        room = question.width - question.shapes[spot.shape].box(spot.turn).width
        moved.append(replace(spot, x=min(max(spot.x, left), max(room, left)), y=spot.y - low + start))
    return tuple(moved)
