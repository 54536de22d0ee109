"""Labels to cut out and pin on measured pieces and strips, which have no template that names them: one for each cut."""

from collections.abc import Iterator, Sequence

from publisher.checks import Proof
from publisher.drafting import Draft, Grain
from publisher.edition.layouts import font_file
from publisher.edition.text_fitting import Wanted, fit_texts, lines_height
from publisher.edition.text_width import text_width
from publisher.edition.words import Speaker
from publisher.figures import Figure, LabelLine, figure_svg, grain_arrow
from publisher.frozen import dataclass
from publisher.tables import ChartRow
from publisher.terms import UnitSystem

WIDTH, HEIGHT = 62.0, 38.0  # mm, of a label
COLUMNS = 3
PADDING = 3.0
NUMBER_SIZE = 26.0  # points
NUMBER_HEIGHT = 10.0  # mm
NAME_HEIGHT = 12.0  # mm, at most
APART = 2.0  # mm between number, name and arrow
GRAIN_WORDS = {
    Grain.UP: "pin.grain-up",
    Grain.ACROSS: "pin.grain-across",
    Grain.BIAS: "pin.grain-across",
    Grain.EITHER: "pin.grain-either",
}


@dataclass(frozen=True, slots=True)
class TextBlock:
    """Lines of text, one below the other, from their upper left corner on the label, mm, y down."""

    lines: tuple[LabelLine, ...]
    left: float
    top: float


@dataclass(frozen=True, slots=True)
class PinOnLabel:
    """One label: its texts in place, and the arrow along the grain as SVG ("" where any grain will do)."""

    blocks: tuple[TextBlock, ...]
    arrow: str
    arrow_left: float


@dataclass(frozen=True, slots=True)
class _Pinned:
    """What a label says before it is set."""

    row: ChartRow
    grain: Grain
    size: str | None  # None where all sizes are cut alike
    at: int  # of row.count


def pin_on_labels(proof: Proof, units: UnitSystem, speak: Speaker) -> tuple[tuple[PinOnLabel, ...], ...]:
    """All labels in rows of three, in the chart's order: first those for all sizes, then those of each size."""
    labels = [_label(pinned, speak) for pinned in _all_pinned(proof, proof.drafts_of(units))]
    return tuple(tuple(labels[at : at + COLUMNS]) for at in range(0, len(labels), COLUMNS))


def _all_pinned(proof: Proof, drafts: Sequence[Draft]) -> Iterator[_Pinned]:
    charts = [[row for row in proof.tables_of(draft.variant).chart if not row.template] for draft in drafts]
    alike = [row for row in charts[0] if all(row in chart for chart in charts[1:])]
    yield from _pinned(alike, drafts[0], None)
    for draft, chart in zip(drafts, charts, strict=True):
        yield from _pinned([row for row in chart if row not in alike], draft, draft.variant.size)


def _pinned(rows: Sequence[ChartRow], draft: Draft, size: str | None) -> Iterator[_Pinned]:
    for row in rows:
        for at in range(1, row.count + 1):
            yield _Pinned(row, draft.piece(row.piece).grain, size, at)


def _label(pinned: _Pinned, speak: Speaker) -> PinOnLabel:
    row, arrow = pinned.row, grain_arrow(pinned.grain)
    whole = WIDTH - 2 * PADDING
    beside = whole - (arrow.width + APART if arrow else 0.0)
    number = LabelLine(str(row.piece_number), NUMBER_SIZE, True)
    number_width = text_width(number.text, font_file(True), NUMBER_SIZE) + APART
    name = fit_texts([Wanted(row.copy, 13.0, True)], beside - number_width, NAME_HEIGHT)
    words = speak.say(GRAIN_WORDS[pinned.grain])
    grain = fit_texts([Wanted(words, 9.5)], whole, HEIGHT / 4)
    above, below = PADDING + max(NUMBER_HEIGHT, lines_height(name)), HEIGHT - PADDING - lines_height(grain)
    detail = fit_texts(list(_details(pinned, speak)), beside, below - above)
    blocks = (
        TextBlock((number,), PADDING, PADDING - 1.0),
        TextBlock(name, PADDING + number_width, PADDING),
        TextBlock(detail, PADDING, above),
        TextBlock(grain, PADDING, below),
    )
    return PinOnLabel(blocks, _svg(arrow, words), WIDTH - PADDING - (arrow.width if arrow else 0.0))


def _svg(arrow: Figure | None, words: str) -> str:
    return figure_svg(arrow, words, y_up=True) if arrow else ""


def _details(pinned: _Pinned, speak: Speaker) -> Iterator[Wanted]:
    row = pinned.row
    assert row.size is not None
    width, height = row.size
    yield Wanted(speak.say("chart.sides", width=speak.length(width), height=speak.length(height)), 13.0, True)
    if row.count == 1:
        yield Wanted(speak.say("pin.from", material=row.material), 11.0)
    else:
        yield Wanted(speak.say("pin.cut-from", many=row.count, material=row.material), 11.0)
        yield Wanted(speak.say("pin.which", at=pinned.at, of=row.count), 11.0)
    if pinned.size is not None:
        yield Wanted(speak.say("pin.size", size=pinned.size), 11.0, True)
