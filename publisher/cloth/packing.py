"""Boxes packed by a rectangle packer: quick, and better than rows where sizes are mixed. The one door to rectpack."""

from collections.abc import Sequence
from importlib.util import find_spec

from publisher.cloth.questions import Answer, Question, Spot
from publisher.cloth.rows import Fill, rectangles_of
from publisher.cloth.shelves import Rectangle

STEPS = 1000  # to the millimetre: the packer reckons in whole numbers
MOST = 120  # boxes: its time grows with more than their square


def in_boxes(question: Question) -> Answer | None:
    """The shortest of some ways to pack the boxes on cloth by the length; None where the packer is not installed."""
    rectangles = rectangles_of(question)
    endless = sum(max(one.width, one.length) + question.gap for one in rectangles)
    ways = [way for way in _ways(rectangles, question, endless) if way is not None]
    return min(ways, key=lambda way: way[1])[0] if ways else None


def fill_with_boxes(question: Question) -> Fill:
    """Boxes packed on one sheet of the question's length."""

    def fill(rectangles: Sequence[Rectangle]) -> Answer | None:
        assert question.length is not None
        ways = (way for way in _ways(rectangles, question, question.length) if way is not None)
        return next(ways, (None, 0.0))[0]

    return fill


def _ways(rectangles: Sequence[Rectangle], question: Question, length: float) -> Sequence[tuple[Answer, float] | None]:
    if find_spec("rectpack") is None or len(rectangles) > MOST:
        return []
    import rectpack

    orders = (rectpack.SORT_AREA, rectpack.SORT_LSIDE, rectpack.SORT_SSIDE, rectpack.SORT_PERI)
    turned = (False, True) if all(one.free for one in rectangles) else (False,)
    return [_packed(rectangles, question, length, order, turn) for order in orders for turn in turned]


def _packed(
    rectangles: Sequence[Rectangle], question: Question, length: float, order: object, turned: bool
) -> tuple[Answer, float] | None:
    """The places and the length they take; None where not all find room. Each box takes its gap with it."""
    import rectpack

    packer = rectpack.newPacker(
        mode=rectpack.PackingMode.Offline, pack_algo=rectpack.MaxRectsBl, sort_algo=order, rotation=turned
    )
    packer.add_bin(_whole(question.width + question.gap), _whole(length + question.gap))
    for at, one in enumerate(rectangles):
        packer.add_rect(_whole(one.width + question.gap), _whole(one.length + question.gap), at)
    packer.pack()
    found = packer.rect_list()
    if len(found) < len(rectangles):
        return None
    spots: list[Spot] = []
    for _, x, y, width, _, at in found:
        across = width != _whole(rectangles[at].width + question.gap)
        spots.append(Spot(int(rectangles[at].name), x / STEPS, y / STEPS, 90 if across else 0))
    return tuple(spots), max((y + height for _, _, y, _, height, _ in found), default=0) / STEPS


def _whole(number: float) -> int:
    return round(number * STEPS)
