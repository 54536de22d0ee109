"""Answers that were found earlier and kept: looked up by their question, checked again before use.

A kept file is `cloth-<hash>.json`, its name the question's; for each cut it lists `[shape, x, y, turn, sheet]`, mm and
degrees, shapes numbered in the order of the question.
"""

from collections import Counter

from publisher.cloth.questions import Answer, Question, Spot, placed_by, read_answer
from publisher.geometry import rings_near

SLACK = 0.02  # mm by which numbers may differ


def kept_answer(kept: tuple[tuple[str, bytes], ...], question: Question) -> Answer | None:
    """The kept answer, or None where there is none that holds."""
    content = dict(kept).get(question.name)
    answer = read_answer(content) if content is not None else None
    return answer if answer is not None and holds(question, answer) else None


def holds(question: Question, answer: Answer) -> bool:
    """True when every cut lies on the cloth, turned only as it may be, on the fold where it must, and none overlaps.

    The cloth is as long as all of them one behind the other: none may lie further away.
    """
    counts = Counter(spot.shape for spot in answer)
    if counts != Counter({number: shape.count for number, shape in enumerate(question.shapes)}):
        return False
    if any(spot.turn not in question.shapes[spot.shape].turns for spot in answer):
        return False
    if not _sheets_hold(question, answer):
        return False
    if not all(_on_the_cloth(question, spot) for spot in answer):
        return False
    sheets = [[spot for spot in answer if spot.sheet == sheet] for sheet in {spot.sheet: None for spot in answer}]
    return all(_apart(question, spots) for spots in sheets)


def _apart(question: Question, spots: list[Spot]) -> bool:
    """True where the rings keep the gap, which hold the outlines; of those that do not, the outlines themselves."""
    placed = [(spot.shape, *placed_by(question.shapes[spot.shape], spot)) for spot in spots]
    near = rings_near([shape.ring for shape in question.shapes], placed, question.gap, SLACK)
    if not near:
        return True
    # Of a ring that crosses itself it is not known what it is near to.
    crossed = any(one == other for one, other in near)
    concerned = placed if crossed else [placed[at] for at in sorted({at for pair in near for at in pair})]
    flat = {number: question.shapes[number].form.flat for number, *_ in concerned}
    outlines = [flat.get(number, ()) for number in range(len(question.shapes))]
    return not rings_near(outlines, concerned, question.gap, SLACK)


def _sheets_hold(question: Question, answer: Answer) -> bool:
    sheets = {spot.sheet for spot in answer}
    return sheets == {0} if question.length is None else sheets == set(range(1, len(sheets) + 1))


def _on_the_cloth(question: Question, spot: Spot) -> bool:
    shape = question.shapes[spot.shape]
    box = shape.box(spot.turn)
    # On folded cloth its other half lies as far from the fold.
    left = question.gap / 2 if question.folded and not shape.on_the_fold else 0.0
    if shape.on_the_fold and abs(spot.x) > 1e-6:
        return False
    far = question.length if question.length is not None else question.all_in_a_line
    across = spot.x >= left - SLACK / 2 and spot.x + box.width <= question.width + SLACK / 2
    return across and spot.y >= -SLACK / 2 and spot.y + box.height <= far + SLACK / 2
