"""Marks of a piece as a figure shows them: those on a copy, their lines, large enough to be seen. The draft's mm."""

from collections.abc import Iterable
from dataclasses import replace

from publisher.drafting import LineMark, Mark, Notch, PathMark, Pleat, PointMark, snipped_notches
from publisher.figures.pieces import mark_strokes
from publisher.figures.steps.cloth import Bench, Lying, Rule, moved
from publisher.figures.steps.values import Look, Shape
from publisher.figures.symbols import symbol_strokes
from publisher.figures.values import Stroke, Style
from publisher.geometry import Point, mapped

SYMBOL = 2.0  # times its size on the template, which a figure makes small
SYMBOL_PART = 0.009  # … at least, for each mm of the piece's longer side
NOTCH_PART = 0.055  # of the piece's longer side: how long a notch is drawn at least
MARK_LOOKS = {
    Style.FOLD: Look.FOLD,
    Style.INNER_FOLD: Look.INNER_FOLD,
    Style.PLACEMENT: Look.PLACEMENT,
    Style.SOLID: Look.SOLID,
    Style.LEADER: Look.THIN,
}


def mark_shapes(marks: Iterable[Mark], lying: Lying, new: bool, size: float = 0.0) -> list[Shape]:
    """Marks as on the template, those at a spot as large as they must be on a piece of that `size`, its longer side;
    lines that are folded by keep their dashes."""
    usual = Look.MARK if new else Look.MARK_BEFORE
    shapes: list[Shape] = []
    for mark in marks:
        for stroke in _strokes(mark, size):
            look = MARK_LOOKS.get(stroke.style, usual)
            if stroke.style in (Style.STITCHING, Style.TRIM) and isinstance(mark, LineMark):
                look = Look.PLACEMENT if not new else Look.MARK
            shapes.append(Shape(moved(stroke.path, lying), look, closed=stroke.closed))
    return shapes


def _strokes(mark: Mark, size: float) -> list[Stroke]:
    """The lines of a mark; a notch is drawn larger than on the template, and what it is larger by stands out beyond the raw
    edge: within, it is as deep as it is snipped."""
    if isinstance(mark, PointMark):
        return symbol_strokes(mark.symbol, mark.at, max(SYMBOL, SYMBOL_PART * size))
    if not isinstance(mark, Notch):
        return mark_strokes(mark)
    deep = (mark.inner_end - mark.cut_end).length
    larger = max(1.0, NOTCH_PART * size / deep) if deep > 0 else 1.0
    away: Rule = lambda spot: mark.inner_end + (spot - mark.inner_end) * larger  # noqa: E731
    return [replace(stroke, path=mapped(stroke.path, away, turned_over=False)) for stroke in mark_strokes(mark)]


def marks_on(bench: Bench, copy: str) -> list[Mark]:
    """The marks that a copy bears."""
    piece = bench.piece_now(copy)
    short = copy.removeprefix(piece.name).strip()
    return [mark for mark in piece.marks if not mark.copies or short in mark.copies]


def notches_of(bench: Bench, copy: str) -> list[Notch]:
    """The notches that a copy bears, on both halves of what was cut on the fold."""
    piece = bench.piece_now(copy)
    short = copy.removeprefix(piece.name).strip()
    return [notch for notch in snipped_notches(piece) if not notch.copies or short in notch.copies]


def spot_of(mark: Mark) -> Point:
    """Where a mark is, for words that name it."""
    if isinstance(mark, Notch):
        return mark.at
    if isinstance(mark, PointMark):
        return mark.at
    if isinstance(mark, LineMark):
        return mark.start + (mark.end - mark.start) * 0.8
    if isinstance(mark, Pleat):
        spans = mark.outer or mark.inner
        return spans[0][1]
    assert isinstance(mark, PathMark)
    return mark.path.point_at(mark.path.length / 2)
