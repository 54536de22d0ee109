"""The cutting layouts as the layouts set them: a drawing of each way to buy a material, and what it says in words."""

from collections.abc import Iterator, Sequence

from publisher.checks import Proof
from publisher.cloth import ClothLayout, Laid, has_selvages
from publisher.drafting import Draft, Material
from publisher.edition.step_figures import PlacedWords, words_on
from publisher.edition.step_letters import StepLetters
from publisher.edition.text_fitting import lines_needed
from publisher.edition.words import Speaker
from publisher.figures import LayoutWords, drawing_svg, in_rows, layout_drawing, layout_scale
from publisher.frozen import dataclass
from publisher.geometry import signed_area
from publisher.terms import Phrase, UnitSystem, length

# What is left at the end is told from here on: less is no piece of cloth (a rule of the house).
WORTH_TELLING = 50.0  # mm
TOUCHING = 5.0  # mm from the fold: nearer, a cut looks as if it lay on it


# The words below a drawing as edition.css sets them.
COLUMN, POINTS, LEADING = 49.0, 11.0, 1.36 * 25.4 / 72  # a hair wider than there, for widths are reckoned generously
HEAD_POINTS, HEAD_LEADING, HEAD_MARGINS = 12.0, 1.15 * 25.4 / 72, 2.0
BELOW = 4.0  # mm, a row
MEASURE = 128.0  # mm, of the words before the first
ANY_SCALE = 25  # for how long they are


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
class LayoutRow:
    """Layouts side by side; their captions are at least `caption` mm high, so that their headings stand level."""

    layouts: tuple[LayoutView, ...]
    caption: float


@dataclass(frozen=True, slots=True)
class LayoutsView:
    """All layouts of one unit system in rows, and the sentences before them; none where nothing is cut."""

    intro: tuple[str, ...]
    rows: tuple[LayoutRow, ...]


def build_layouts(proof: Proof, units: UnitSystem, speak: Speaker) -> LayoutsView:
    """Of several sizes the largest is drawn, since it takes most cloth."""
    draft = proof.drafts_of(units)[-1]
    layouts = [layout for layout in proof.cloth_of(draft.variant).layouts if layout.laid]
    if not layouts:
        return LayoutsView((), ())
    captions = [_caption(draft, layout, speak) for layout in layouts]
    heights = [_height(caption) for caption in captions]
    words = " ".join(_intro(draft, layouts, ANY_SCALE, speak))
    above = lines_needed(words, POINTS, MEASURE) * POINTS * LEADING
    scale = layout_scale(layouts, above, [height + BELOW for height in heights])
    views = [_layout(draft, one, scale, caption, speak) for one, caption in zip(layouts, captions, strict=True)]
    rows = tuple(
        LayoutRow(tuple(views[at] for at in row), _level([(views[at].height, heights[at]) for at in row]))
        for row in in_rows([view.width for view in views])
    )
    return LayoutsView(tuple(_intro(draft, layouts, scale, speak)), rows)


def _level(sizes: Sequence[tuple[float, float]]) -> float:
    """How high captions may be, mm, without making the row of these drawings and captions any higher."""
    return max(drawing + caption for drawing, caption in sizes) - max(drawing for drawing, _ in sizes)


def _intro(draft: Draft, layouts: Sequence[ClothLayout], scale: int, speak: Speaker) -> Iterator[str]:
    yield speak.say("layouts.intro", scale=scale)
    if draft.variant.size is not None:
        yield speak.say("layouts.size", size=draft.variant.size)
    by_key = {material.key: material for material in draft.materials}
    if any(has_selvages(by_key[one.material], one.width) for one in layouts if one.precut is None):
        yield speak.say("layouts.selvages")
    if any(layout.folded for layout in layouts):
        yield speak.say("layouts.folded-intro")
    if any(layout.folded and by_key[layout.material].kind == "interfacing" for layout in layouts):
        yield speak.say("layouts.folded-interfacing")
    if any(one.opened_out for layout in layouts for one in layout.laid):
        yield speak.say("layouts.opened-intro")
    if any(one.turned_over for layout in layouts if not layout.folded for one in layout.laid):
        yield speak.say("layouts.turned-over")


def _caption(draft: Draft, layout: ClothLayout, speak: Speaker) -> tuple[str, tuple[str, ...]]:
    """The heading of a layout and the sentences below it."""
    material = next(one for one in draft.materials if one.key == layout.material)
    wide = speak.length(length(layout.width))
    how = (
        speak.say("layouts.precut", name=layout.precut) if layout.precut else speak.say("layouts.of-width", width=wide)
    )
    heading = speak.say("layouts.heading", material=layout.material, how=how)
    numbers = {copy.name: piece.number for piece in draft.pieces for copy in piece.copies}
    alone = sorted({numbers[name] for name in cut_alone(layout)})
    opened = sorted({numbers[one.copy] for one in layout.laid if one.opened_out})
    touching = sorted({numbers[one.copy] for one in layout.laid if _touches_the_fold(layout, one)})
    lines = (*_lines(material, layout, speak), *_alone(alone, speak), *_opened(layout, opened, speak))
    if touching:
        pieces = speak.listed([str(number) for number in touching])
        lines = (*lines, speak.say("layouts.fold-cut-open", pieces=pieces))
    return heading, lines


def _height(caption: tuple[str, tuple[str, ...]]) -> float:
    """How high a caption stands, mm."""
    heading, lines = caption
    high = lines_needed(heading, HEAD_POINTS, COLUMN, bold=True) * HEAD_POINTS * HEAD_LEADING + HEAD_MARGINS
    return high + sum(lines_needed(line, POINTS, COLUMN) for line in lines) * POINTS * LEADING


def _layout(
    draft: Draft, layout: ClothLayout, scale: int, caption: tuple[str, tuple[str, ...]], speak: Speaker
) -> LayoutView:
    material = next(one for one in draft.materials if one.key == layout.material)
    long = (
        speak.length(length(_precut_length(material, layout)))
        if layout.precut
        else speak.cloth(length(layout.buy_length))
    )
    across = Phrase.of("layouts.wide", amount=speak.length(length(layout.width)))
    if layout.folded:
        across = Phrase.of("layouts.half", amount=speak.length(length(layout.width / 2)))
    words = LayoutWords(Phrase.of("layouts.long", amount=long), across, Phrase("layouts.fold"))
    drawing = layout_drawing(layout, draft, words, StepLetters(speak), scale)
    heading, lines = caption
    numbers = {copy.name: piece.number for piece in draft.pieces for copy in piece.copies}
    pieces = speak.listed([str(number) for number in sorted({numbers[one.copy] for one in layout.laid})])
    told = speak.say("layouts.told", heading=heading, long=long, count=len(layout.laid), pieces=pieces)
    svg = drawing_svg(drawing, told, words=False)
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


def _touches_the_fold(layout: ClothLayout, one: Laid) -> bool:
    """True for a cut that begins at the fold of doubled cloth, and does not lie across it as a half on the fold does."""
    return layout.folded and abs(one.x - layout.usable_width / 2) < TOUCHING


def _alone(numbers: Sequence[int], speak: Speaker) -> Iterator[str]:
    if numbers:
        yield speak.say("layouts.alone", pieces=speak.listed([str(number) for number in numbers]))


def _opened(layout: ClothLayout, numbers: Sequence[int], speak: Speaker) -> Iterator[str]:
    """What is cut opened out though its template shows a half, and how much cloth that saves."""
    if not numbers:
        return
    pieces = speak.listed([str(number) for number in numbers])
    yield speak.say("layouts.opened" if layout.folded or layout.precut else "layouts.not-folded", pieces=pieces)
    if layout.folded_buy_length > layout.buy_length:
        yield speak.say("layouts.folded-takes", amount=speak.cloth(length(layout.folded_buy_length)))
