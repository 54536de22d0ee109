"""Sizes of rectangles and strips, rounded as they are cut, in mm."""

from publisher.drafting.allowances import (
    edge_allowance,
    long_edge_allowance,
    pleats_take,
    strip_end_allowance,
    usual_allowance,
)
from publisher.drafting.bench import Asker, Bench, unusable
from publisher.drafting.outlines import outline_plan
from publisher.drafting.references import as_length, work_out_formula, work_out_length
from publisher.drafting.strip_lengths import strip_cut_length
from publisher.drafting.strips import CUT_WIDTHS, strip_cut_width
from publisher.drafting.values import Held
from publisher.measures import HeldSaying, Pair
from publisher.source import WrittenPiece, WrittenStrip
from publisher.terms import did_you_mean, length, round_cut


def rectangle_size(bench: Bench, piece: WrittenPiece) -> tuple[float, float]:
    """Width and height of a rectangle on the finished line, mm.

    A measured piece is cut at a size that is rounded once; what is sewn follows from the size that is cut.
    """
    asker = Asker("size", str(piece.name), piece.name.place)
    return bench.work_out(asker, lambda: _rectangle_size(bench, piece))


def _rectangle_size(bench: Bench, piece: WrittenPiece) -> tuple[float, float]:
    if piece.strip is not None:
        return strip_size(bench, piece, piece.strip)
    assert piece.rectangle is not None
    says = piece.rectangle.says
    pair = bench.formula(says)
    assert isinstance(pair, Pair)
    width, height = (
        as_length(bench, work_out_formula(bench, side), says, f"a side of '{piece.name}'")
        for side in (pair.first, pair.second)
    )
    for side in (width, height):
        refuse_nothing(piece, side)
    if piece.drawn:
        return width, height
    plan = outline_plan(bench, piece)
    bottom, right, top, left = (edge_allowance(bench, piece, side.name) for side in plan.sides)
    across, up = pleats_take(bench, piece)
    return (
        cut_to_finished(bench, width, left + right + across),
        cut_to_finished(bench, height, bottom + top + up),
    )


def cut_to_finished(bench: Bench, finished: float, allowances: float) -> float:
    """The finished length that the rounded cut length leaves, mm."""
    cut = round_cut(length(finished + allowances), bench.units, bench.inch_step)
    return float(cut.amount - length(allowances).amount)


def strip_size(bench: Bench, piece: WrittenPiece, strip: WrittenStrip) -> tuple[float, float]:
    """Length between the end allowances of a strip, and width between those of its long edges, mm."""
    folding = str(strip.fold)
    if folding not in CUT_WIDTHS:
        raise unusable(
            "no-such-folding",
            strip.fold.place,
            f"no way of folding called '{folding}'",
            did_you_mean(folding, CUT_WIDTHS),
        )
    finished_width = work_out_length(bench, strip.finished_width, "the finished width")
    for side in (finished_width, work_out_length(bench, strip.length, "the length")):
        refuse_nothing(piece, side)
    width = strip_cut_width(folding, finished_width, usual_allowance(bench, piece)) + strip_thickness(bench, strip)
    cut_width = float(round_cut(length(width), bench.units, bench.inch_step).amount)
    long_edges = 2 * long_edge_allowance(bench, piece, strip)
    ends = 2 * strip_end_allowance(bench, piece, strip)
    cut_length = strip_cut_length(bench, piece, strip, ends)
    return float(cut_length.amount - length(ends).amount), cut_width - long_edges


def strip_thickness(bench: Bench, strip: WrittenStrip) -> float:
    """What thick cloth takes in folding, added to the cut width, mm."""
    return work_out_length(bench, strip.thickness, "the thickness") if strip.thickness else 0.0


def refuse_nothing(piece: WrittenPiece, side: float) -> None:
    """Raises Unusable for a side of no length."""
    if side <= 0:
        raise unusable(
            "no-length",
            piece.name.place,
            f"a side of '{piece.name}' is {side:g} mm long",
            "look at the measures it is made of",
        )


def held_by(bench: Bench, piece: WrittenPiece) -> Held | None:
    """The thing that a piece is said to hold; None where nothing is said. Raises Unusable."""
    if piece.holds is None:
        return None
    said = bench.formula(piece.holds)
    assert isinstance(said, HeldSaying)
    width, height, thickness = (
        as_length(bench, work_out_formula(bench, side), piece.holds, f"what '{piece.name}' holds") if side else 0.0
        for side in (said.width, said.height, said.thickness)
    )
    return Held(width, height, thickness, bench.native(piece.holds).place)
