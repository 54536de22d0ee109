"""Questions about cloth made of a few shapes."""

from collections.abc import Sequence
from dataclasses import replace

from publisher.cloth import Question
from publisher.cloth.cuts import ANY_WAY, EITHER_END, Cut, ask
from publisher.cloth.forms import form_of
from publisher.geometry import Line, Path, Point

Corners = Sequence[tuple[float, float]]


def ring(corners: Corners) -> Path:
    """A closed path of straight lines, its box at the origin."""
    left, low = min((x for x, _ in corners), default=0), min((y for _, y in corners), default=0)
    points = [Point(x - left, y - low) for x, y in corners]
    return Path(tuple(Line(one, points[(at + 1) % len(points)]) for at, one in enumerate(points)))


def shaped(corners: Corners, turns: tuple[int, ...] = EITHER_END) -> Cut:
    """One cut of that outline."""
    return Cut("shape", 1, form_of(ring(corners)), 0, False, turns)


def panel(across: float, along: float, free: bool = False) -> Cut:
    """One rectangle; `free` of the grain."""
    return shaped([(0, 0), (across, 0), (across, along), (0, along)], ANY_WAY if free else EITHER_END)


def asked(cuts: Sequence[Cut], width: float, gap: float = 0.0, length: float | None = None) -> Question:
    """The question of these cuts."""
    return ask(cuts, width, gap, length)[0]


def many(question: Question, times: int) -> Question:
    """The same order several times."""
    return replace(question, shapes=tuple(replace(shape, count=shape.count * times) for shape in question.shapes))
