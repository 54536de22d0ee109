"""A nest as figures: what all sizes share, then what belongs to fewer, so that sizes can be layers. mm, y up."""

from collections.abc import Iterable

from publisher.drafting import Notch, PointMark
from publisher.figures.line_gaps import LineGap, between_gaps, fold_of, sized_stretches
from publisher.figures.pieces import (
    SMALL_POINT,
    fold_bracket,
    fold_stroke,
    grain_strokes,
    mark_strokes,
    notch_dots,
    notch_strokes,
    notch_wedges,
)
from publisher.figures.symbols import symbol_strokes
from publisher.figures.values import Figure, Stroke, Style
from publisher.template_pages import Nest, NestedMark, NotchSign

# By the place of a size among those printed on one another.
SIZE_STYLES = (
    Style.CUT,
    Style.CUT_LONG_DASH,
    Style.CUT_DASH_DOT,
    Style.CUT_DASH_DOT_DOT,
    Style.CUT_SHORT_DASH,
    Style.CUT_DOTTED,
)
NOTCH_SIGNS = {NotchSign.LINE: notch_strokes, NotchSign.WEDGE: notch_wedges, NotchSign.DOT: notch_dots}


def nest_figures(nest: Nest, gaps: Iterable[LineGap] = ()) -> tuple[tuple[tuple[str, ...], Figure], ...]:
    """(the sizes that see it, its lines): () for what every size sees. A line that sizes share is solid, and heavier;
    `gaps` are left out of the lines, for the sizes that stand in them."""
    layers: dict[tuple[str, ...], list[Stroke]] = {(): []}
    spans: dict[int, list[tuple[float, float]]] = {}
    for gap in gaps:
        spans.setdefault(gap.stretch, []).append((gap.start, gap.end))
    for number, stretch in enumerate(sized_stretches(nest)):
        style = SIZE_STYLES[nest.sizes.index(stretch.sizes[0])] if len(stretch.sizes) == 1 else Style.CUT_SHARED
        layers.setdefault(_layer(nest, stretch.sizes), []).extend(
            Stroke(path, style, path.closed) for path in between_gaps(stretch.path, spans.get(number, ()))
        )
    for mark in nest.marks:
        layers.setdefault(_layer(nest, mark.sizes), []).extend(_mark_strokes(nest, mark))
    if nest.grain_line is not None:
        layers[()] += grain_strokes(nest.grain_line)
    fold = fold_of(nest.inner)
    if fold is not None:
        layers[()] += [fold_stroke([line.path for line in nest.lines], fold), *fold_bracket(fold.start, fold.end)]
    order = sorted(layers, key=lambda sizes: [nest.sizes.index(size) for size in sizes])
    return tuple((sizes, Figure(tuple(layers[sizes]))) for sizes in order if layers[sizes])


def _mark_strokes(nest: Nest, mark: NestedMark) -> list[Stroke]:
    if isinstance(mark.mark, PointMark) and mark.sizes != nest.sizes:
        return symbol_strokes(mark.mark.symbol, mark.mark.at, SMALL_POINT)
    if isinstance(mark.mark, Notch):
        notch = mark.mark
        return NOTCH_SIGNS[mark.sign](notch.cut_end, notch.inner_end, notch.double, notch.side)
    return mark_strokes(mark.mark)


def _layer(nest: Nest, sizes: tuple[str, ...]) -> tuple[str, ...]:
    return () if sizes == nest.sizes else sizes
