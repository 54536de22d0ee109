"""The cutting chart as text: one line for each copy, over all sizes, with the shape of its piece."""

from collections.abc import Container, Iterator, Sequence
from dataclasses import replace
from itertools import groupby

from publisher.drafting import Copy, Draft, Piece, PieceKind
from publisher.edition.words import Speaker
from publisher.figures import chart_scale, chart_shape, figure_svg
from publisher.frozen import dataclass
from publisher.tables import ChartRow, Tables
from publisher.template_pages import nested_pieces
from publisher.terms import Phrase, Quantity, length

LAID = {
    "fold": "chart.fold-intro",
    "opened": "chart.opened-intro",
    "pair": "chart.pair-intro",
    "single": "chart.single-intro",
    "one way": "chart.one-way-intro",
}
# Which notes of pieces whose template shows a half call for which sentence.
HALVES = {
    "fold": {"chart.on-the-fold", "chart.on-the-fold-or-opened"},
    "opened": {"chart.opened-out", "chart.on-the-fold-or-opened"},
}


@dataclass(frozen=True, slots=True)
class ChartLine:
    """One row of the cutting chart, of a copy or of several that are cut alike; `shape` is its piece drawn small, as SVG.

    How many to cut, and how large, are (sizes, text) each: one with "" where all sizes agree.
    """

    number: str
    shape: str
    copy: str
    cut: tuple[tuple[str, str], ...]
    material: str
    size: tuple[tuple[str, str], ...]
    grain: str
    notes: tuple[str, ...]
    ticks: int = 1  # boxes to tick off, one for each copy


def chart_lines(tables: Sequence[Tables], drafts: Sequence[Draft], speak: Speaker) -> tuple[ChartLine, ...]:
    """The chart of a unit system. Of several sizes the shapes are those of the first."""
    if not tables[0].chart:
        return ()
    scale = chart_scale([piece.as_cut for piece in drafts[0].pieces if piece.copies])
    nests = nested_pieces(drafts)
    lines = [(rows[0], _chart_line(rows, drafts, nests, scale, speak)) for rows in _same_copies(tables)]
    return tuple(_together([*alike], speak) for _, alike in groupby(lines, key=_cut_alike))


def _cut_alike(told: tuple[ChartRow, ChartLine]) -> ChartLine:
    """What neighbours have in common that are cut alike: all but their names."""
    return replace(told[1], copy=told[0].piece, shape="")


def _together(alike: Sequence[tuple[ChartRow, ChartLine]], speak: Speaker) -> ChartLine:
    """Copies that are cut alike, as right and left, in one line, so that none is forgotten."""
    row, line = alike[0]
    if len(alike) == 1:
        return line
    names = [one.copy.removeprefix(f"{row.piece} ") for one, _ in alike]
    copy = speak.say("chart.copies", piece=row.piece, copies=speak.listed(names))
    cut = tuple((sizes, speak.say("chart.of-each", cut=text)) for sizes, text in line.cut)
    return replace(line, copy=copy, cut=cut, ticks=len(alike))


def halves_laid(tables: Sequence[Tables]) -> frozenset[str]:
    """How cloth lies for pieces whose template shows a half: on the fold, opened out, or each for some."""
    notes = {note.key for table in tables for row in table.chart for note in row.notes}
    return frozenset(lay for lay, keys in HALVES.items() if notes & keys)


def chart_intro(tables: Sequence[Tables], drafts: Sequence[Draft], speak: Speaker) -> tuple[str, ...]:
    """Sentences above the chart: what its sizes mean, and how the cloth lies for which copies."""
    drawn = [piece for draft in drafts for piece in draft.pieces if piece.kind is PieceKind.DRAWN]
    lying = {_lying(piece, copy) for piece in drawn if piece.half is None for copy in piece.copies}
    lying |= halves_laid(tables)
    if any(piece.one_way for draft in drafts for piece in draft.pieces):
        lying |= {"one way"}
    laid = [said for lay, said in LAID.items() if lay in lying] if lying - {"single"} else []
    measured = [row for table in tables for row in table.chart if row.size is not None]
    slant = ["chart.bias-intro"] if any(row.grain.key == "chart.grain-bias" for row in measured) else []
    return (*map(speak.say, ("chart.intro", *slant, "chart.intro-more")), *map(speak.say, laid))


def _lying(piece: Piece, copy: Copy) -> str:
    """How the cloth lies for a copy whose template shows the whole: as a pair, or in a single layer."""
    return "pair" if copy.mirrored and copy.count % 2 == 0 else "single"


def _same_copies(tables: Sequence[Tables]) -> list[tuple[ChartRow, ...]]:
    """The chart's rows, those of one copy in all sizes together."""
    return [
        tuple(row for table in tables for row in table.chart if row.copy == first.copy) for first in tables[0].chart
    ]


def _chart_line(
    rows: tuple[ChartRow, ...], drafts: Sequence[Draft], nests: Container[str], scale: float, speak: Speaker
) -> ChartLine:
    first, sizes = rows[0], [draft.variant.size for draft in drafts]
    notes = [[speak.say(_in_nest(note, first, nests, drafts[0])) for note in row.notes] for row in rows]
    return ChartLine(
        number=str(first.piece_number),
        shape=_shape(first, drafts[0], scale, speak),
        copy=first.copy,
        cut=speak.by_size([speak.say(row.cut) for row in rows], sizes),
        material=first.material,
        size=speak.by_size([_told_size(row, speak) for row in rows], sizes),
        grain=speak.say(first.grain),
        notes=tuple(_notes(notes, [size or "" for size in sizes], speak)),
    )


def _notes(notes: Sequence[Sequence[str]], sizes: Sequence[str], speak: Speaker) -> Iterator[str]:
    """The notes of a copy in all sizes; what not all of them say, with the sizes that do."""
    for note in dict.fromkeys(note for own in notes for note in own):
        own = [size for size, said in zip(sizes, notes, strict=True) if note in said]
        yield note if len(own) == len(sizes) else speak.say("chart.for-sizes", sizes=speak.listed(own), note=note)


def _in_nest(note: Phrase, row: ChartRow, nests: Container[str], draft: Draft) -> Phrase:
    """A template that holds several sizes has no inner line to cut along: its copy is cut as the others and trimmed."""
    if note.key != "chart.to-finished-line" or row.piece not in nests:
        return note
    allowance = draft.piece(row.piece).template.one_allowance
    if allowance is None:
        return Phrase.of("chart.trimmed-to-finished-line")
    return Phrase.of("chart.trimmed-by", amount=Phrase.of("length", mm=str(length(allowance).amount)))


def _shape(row: ChartRow, draft: Draft, scale: float, speak: Speaker) -> str:
    piece = next(piece for piece in draft.pieces if piece.name == row.piece)
    inner = any(copy.name == row.copy and copy.to_finished_line for copy in piece.copies)
    return figure_svg(chart_shape(piece.as_cut, inner, scale), speak.say("chart.shape", copy=row.copy))


def _told_size(row: ChartRow, speak: Speaker) -> str:
    return speak.say("chart.template") if row.size is None else _sides(row.size, speak)


def _sides(size: tuple[Quantity, Quantity], speak: Speaker) -> str:
    return speak.say("chart.sides", width=speak.length(size[0]), height=speak.length(size[1]))
