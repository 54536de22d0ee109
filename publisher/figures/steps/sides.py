"""One side of what is assembled so far: its panel and the words for it."""

from collections.abc import Sequence

from publisher.figures.steps.values import Callout, Panel, Scene, Shape
from publisher.figures.steps.wording import names_of
from publisher.terms import Phrase

SIDES = {
    "front": ("figures.front", "figures.told-finished-front"),
    "back": ("figures.back", "figures.told-finished-back"),
}


def side_panel(side: str, shapes: Sequence[Shape], callouts: Sequence[Callout], copies: Sequence[str]) -> Panel:
    """The front or the back, the copies that are seen on it."""
    caption, told = SIDES[side]
    scene = Scene(tuple(shapes), tuple(callouts))
    return Panel(f"finished {side}", scene, Phrase.of(told, copies=names_of(copies)), Phrase.of(caption), tuple(copies))
