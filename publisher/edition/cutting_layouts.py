"""The cutting layouts as the layouts set them: a drawing of each way to buy a material, and what it says in words."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from publisher.checks import Proof
from publisher.cloth import ClothLayout
from publisher.drafting import Draft, Material
from publisher.edition.step_figures import PlacedWords, words_on
from publisher.edition.step_letters import StepLetters
from publisher.edition.words import Speaker
from publisher.figures import LayoutWords, drawing_svg, in_rows, layout_drawing, layout_scale
from publisher.geometry import signed_area
from publisher.terms import Phrase, UnitSystem, length

# What is left at the end is told from here on: less is no piece of cloth (a rule of the house).
WORTH_TELLING = 50.0  # mm


@dataclass(frozen=True, slots=True)
class LayoutView:
    """One layout: its drawing with the words that stand on it, and below it a heading and sentences."""

    svg: str
    width: float
    height: float
    words: tuple[PlacedWords, ...]
    heading: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class LayoutsView:
    """All layouts of one unit system in rows, and the sentences before them; none where nothing is cut."""

    intro: tuple[str, ...]
    rows: tuple[tuple[LayoutView, ...], ...]  # side by side


def build_layouts(proof: Proof, units: UnitSystem, speak: Speaker) -> LayoutsView:
    """Of several sizes the largest is drawn, since it takes most cloth."""
    draft = proof.drafts_of(units)[-1]
    layouts = [layout for layout in proof.cloth_of(draft.variant).layouts if layout.laid]
    if not layouts:
        return LayoutsView((), ())
    scale = layout_scale(layouts)
    views = [_layout(draft, layout, scale, speak) for layout in layouts]
    rows = tuple(tuple(views[at] for at in row) for row in in_rows([view.width for view in views]))
    return LayoutsView(tuple(_intro(draft, layouts, scale, speak)), rows)


def _intro(draft: Draft, layouts: Sequence[ClothLayout], scale: int, speak: Speaker) -> Iterator[str]:
    yield speak.say("layouts.intro", scale=scale)
    if draft.variant.size is not None:
        yield speak.say("layouts.size", size=draft.variant.size)
    if any(layout.usable_width < layout.width for layout in layouts):
        yield speak.say("layouts.selvages")
    if any(layout.folded for layout in layouts):
        yield speak.say("layouts.folded-intro")
    if any(one.turned_over for layout in layouts if not layout.folded for one in layout.laid):
        yield speak.say("layouts.turned-over")


def _layout(draft: Draft, layout: ClothLayout, scale: int, speak: Speaker) -> LayoutView:
    material = next(one for one in draft.materials if one.key == layout.material)
    wide = speak.length(length(layout.width))
    long = (
        speak.length(length(_precut_length(material, layout)))
        if layout.precut
        else speak.cloth(length(layout.buy_length))
    )
    across = Phrase.of("layouts.wide", amount=wide)
    if layout.folded:
        across = Phrase.of("layouts.half", amount=speak.length(length(layout.width / 2)))
    words = LayoutWords(Phrase.of("layouts.long", amount=long), across, Phrase("layouts.fold"))
    drawing = layout_drawing(layout, draft, words, StepLetters(speak), scale)
    how = (
        speak.say("layouts.precut", name=layout.precut) if layout.precut else speak.say("layouts.of-width", width=wide)
    )
    heading = speak.say("layouts.heading", material=layout.material, how=how)
    numbers = {copy.name: piece.number for piece in draft.pieces for copy in piece.copies}
    pieces = speak.listed([str(number) for number in sorted({numbers[one.copy] for one in layout.laid})])
    told = speak.say("layouts.told", heading=heading, long=long, count=len(layout.laid), pieces=pieces)
    svg = drawing_svg(drawing, told, words=False)
    alone = sorted({numbers[name] for name in cut_alone(layout)})
    lines = (*_lines(material, layout, speak), *_alone(alone, speak))
    return LayoutView(svg, drawing.width, drawing.height, words_on(drawing), heading, lines)


def _precut_length(material: Material, layout: ClothLayout) -> float:
    """How long a precut is as it is sold, before its first wash, mm."""
    return next(sold.precut_length for sold in material.sold if sold.precut == layout.precut and sold.precut_length)


def _lines(material: Material, layout: ClothLayout, speak: Speaker) -> Iterator[str]:
    if layout.precut:
        yield speak.say("layouts.buy-precuts", count=layout.precut_count)
        bought = layout.precut_count * layout.width * layout.precut_length
    else:
        amount = speak.cloth(length(layout.buy_length))
        yield speak.say("layouts.buy-folded" if layout.folded else "layouts.buy", amount=amount)
        bought = layout.width * layout.buy_length
    part = sum(abs(signed_area(one.outline)) for one in layout.laid) / bought
    yield speak.say("layouts.yield", percent=round(part * 100))
    # What is bought has shrunk by now.
    left = layout.buy_length * (1 - material.shrinkage) - layout.used_length
    if not layout.precut and left >= WORTH_TELLING:
        yield speak.say("layouts.left", amount=speak.length(length(left)))


def cut_alone(layout: ClothLayout) -> Iterator[str]:
    """The copies that lie on one layer only of cloth that is folded double: those that nothing lies opposite of."""
    for one in layout.laid if layout.folded else ():
        opposite = layout.usable_width - one.x - one.width
        if not any(abs(other.x - opposite) < 0.1 and abs(other.y - one.y) < 0.1 for other in layout.laid):
            yield one.copy


def _alone(numbers: Sequence[int], speak: Speaker) -> Iterator[str]:
    if numbers:
        yield speak.say("layouts.alone", pieces=speak.listed([str(number) for number in numbers]))
