"""Marks brought through both layers of a piece that is still folded as it was cut. The draft's mm; sections on paper."""

from collections.abc import Sequence

from publisher.drafting import PointMark
from publisher.figures.steps.cloth import Bench, Lying, longer_side, texture_of
from publisher.figures.steps.lines import line, ring
from publisher.figures.steps.marking import mark_shapes, spot_of
from publisher.figures.steps.seams import spot_on
from publisher.figures.steps.strands import Go, strand
from publisher.figures.steps.values import Callout, Look, Panel, Scene, Shape
from publisher.figures.steps.wording import names_of
from publisher.geometry import Line, Path, Point, mapped
from publisher.terms import Phrase

BELOW = 0.014  # of the longer side: how far the lower layer is drawn out from under the upper one
RIGHT = Point(1.0, 0.0)
LONG, APART, PINNED = 34.0, 7.0, 17.0  # mm of two layers in a section, parted, and where the pin goes through
CHALK = 1.6  # half of a mark


def folded_marks(bench: Bench, copy: str, names: Sequence[str]) -> list[Panel]:
    """The half that lies up with the marks that are made through both layers; for points, a pin through them. Nothing of a
    piece that is not cut on the fold."""
    piece = bench.draft.piece(bench.draft.copy(copy).piece)
    half = piece.half
    marks = [mark for mark in half.marks if mark.name in names] if half is not None else []
    if half is None or half.fold_edge is None or not marks:
        return []
    size = longer_side(bench, copy)
    out = Point(BELOW * size, -BELOW * size)
    lower = mapped(half.cut_line, lambda spot: spot + out, turned_over=False)
    wrong, right = texture_of(bench, copy, wrong_up=True), texture_of(bench, copy, wrong_up=False)
    fold = half.edge(half.fold_edge).path
    shapes = [Shape(lower, Look.BEFORE, right, closed=True), Shape(half.cut_line, Look.BEFORE, wrong, closed=True)]
    shapes += [Shape(fold, Look.FOLD), *mark_shapes(marks, Lying(copy), new=True, size=size)]
    spots = [(mark, spot_of(mark)) for mark in marks]
    callouts = (
        *(Callout(Phrase.of("figures.name", name=mark.name), spot, side="right") for mark, spot in spots),
        Callout(Phrase.of("figures.fold"), fold.point_at(fold.length * 0.3), side="left"),
        Callout(Phrase.of("figures.still-folded", copy=copy), spot_on(half.finished_line), piece.number, "left"),
    )
    told = Phrase.of("figures.told-folded-marks", copy=copy, marks=names_of([mark.name for mark in marks]))
    flat = Panel("marked folded", Scene(tuple(shapes), callouts), told, copies=(copy,), wide=len(marks) > 4)
    return [flat, _pinned(copy)] if any(isinstance(mark, PointMark) for mark in marks) else [flat]


def _pinned(copy: str) -> Panel:
    """Two layers from their edge, right sides within, parted; a pin through both, and chalk where it comes through."""
    upper = strand(Point(0.0, APART), RIGHT, (Go(LONG),), wrong_left=True, new=False)
    lower = strand(Point(0.0, 0.0), RIGHT, (Go(LONG),), wrong_left=False, new=False)
    pin = Shape(line(Point(PINNED, APART + 6.0), Point(PINNED, -5.0)), Look.RAW)
    head = Shape(ring(Point(PINNED, APART + 6.8), 0.8), Look.RAW, closed=True)
    chalk = [Shape(_across(high), Look.MARK) for high in (0.9, APART - 0.9)]
    callouts = (
        Callout(Phrase.of("figures.pin"), Point(PINNED, APART + 5.0), side="right"),
        Callout(Phrase.of("figures.chalk-both"), Point(PINNED + CHALK, APART - 0.9), side="right"),
        Callout(Phrase.of("figures.wrong-side-short"), Point(4.0, APART), side="left"),
        Callout(Phrase.of("figures.wrong-side-short"), Point(4.0, 0.0), side="left"),
    )
    told = Phrase.of("figures.told-pinned", copy=copy)
    scene = Scene((*upper, *lower, pin, head, *chalk), callouts, scale=1.0)
    return Panel("pinned through", scene, told, Phrase.of("figures.cut-through"), (copy,))


def _across(high: float) -> Path:
    return Path((Line(Point(PINNED - CHALK, high), Point(PINNED + CHALK, high)),))
