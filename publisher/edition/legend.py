"""The legend: a sample of every mark that the templates bear, and what it means for cloth as this pattern has it cut."""

from collections.abc import Container, Iterator, Sequence

from publisher.drafting import Draft, Notch
from publisher.edition.words import Speaker
from publisher.figures import LINE_HEIGHT, figure_svg, mark_samples, size_samples
from publisher.frozen import dataclass

# What is done at the fold of a template differs where the piece is cut opened out, or is so of some of its cloths.
AT_THE_FOLD = ("on-the-fold", "notch-on-the-fold", "double-notch-on-the-fold")


@dataclass(frozen=True, slots=True)
class LegendLine:
    """One mark: its sample as SVG and what it means; `low` where the sample is but a level line."""

    svg: str
    words: str
    low: bool


def legend_lines(drafts: Sequence[Draft], laid: Container[str], speak: Speaker, tiled: bool) -> Iterator[LegendLine]:
    """Every mark, after the cut lines those of the sizes; `laid`: how the cloth lies for templates that show a half."""
    sizes_told = False
    for key, figure in mark_samples(drafts, tiled):
        if not sizes_told and not key.startswith("cut-line"):
            yield from _size_lines(drafts, speak)
            sizes_told = True
        words = speak.say(f"legend.{_told_key(key, laid)}")
        yield LegendLine(figure_svg(figure, words, y_up=True), words, figure.height <= LINE_HEIGHT)


def _size_lines(drafts: Sequence[Draft], speak: Speaker) -> Iterator[LegendLine]:
    for size, sample in size_samples(drafts):
        words = speak.say("legend.size-line", size=size)
        yield LegendLine(figure_svg(sample, words, y_up=True), words, low=True)


def _told_key(key: str, laid: Container[str]) -> str:
    if key not in AT_THE_FOLD or "opened" not in laid:
        return key
    return f"{key}-or-opened" if "fold" in laid else f"{key}-opened"


def legend_intro(drafts: Sequence[Draft], speak: Speaker) -> str:
    """How marks come onto the cloth; nothing where all are notches."""
    notched = {isinstance(mark, Notch) for draft in drafts for piece in draft.pieces for mark in piece.as_cut.marks}
    if False not in notched:
        return ""
    return speak.say("legend.intro-and-notches" if True in notched else "legend.intro")
