"""How long a strip is cut: to the step that a ruler shows, and up to a rounder length where it may be longer. Millimetres."""

from publisher.drafting.bench import AlreadyFound, Bench, head_and_tail
from publisher.drafting.references import copy_name, work_out_length
from publisher.measures import Literal, Matching, Name
from publisher.source import Native, WrittenPiece, WrittenPlacement, WrittenSeam, WrittenStrip
from publisher.terms import Quantity, length, round_cut, round_long_cut

ENDS = {"left end", "right end"}
# Such strips are sewn in along their length, whether or not a seam says so.
SEWN_IN = ("doubled", "plain")


def strip_cut_length(bench: Bench, piece: WrittenPiece, strip: WrittenStrip, ends: float) -> Quantity:
    """The length at which a strip is cut, `ends` of it allowances at both ends together. Raises Unusable."""
    cut = length(work_out_length(bench, strip.length, "the length") + ends)
    as_written = not ends and _is_literal(bench, strip.length)
    if as_written or not _may_be_longer(bench, piece, strip):
        return round_cut(cut, bench.units, bench.inch_step)
    return round_long_cut(cut, bench.units, bench.inch_step)


def _is_literal(bench: Bench, native: Native) -> bool:
    """True for a length that the maker wrote down, there or as a measure."""
    formula = bench.formula(native)
    if isinstance(formula, Name) and formula.text in bench.measures_by_name:
        measure = dict(bench.measures_by_name[formula.text].by_size)
        own = measure.get(bench.variant.size, measure.get(None))
        return own is not None and isinstance(bench.measures.saying(bench.native(own)), Literal)
    return isinstance(formula, Literal)


def _may_be_longer(bench: Bench, piece: WrittenPiece, strip: WrittenStrip) -> bool:
    """True unless a seam takes the strip along its length or closes it to a ring, or it is set between two places."""
    copies = {copy_name(piece, str(copy.name)) for copy in piece.copies}
    return not (
        str(strip.fold) in SEWN_IN
        or any(_takes_its_length(bench, seam, copy) for seam in bench.source.seams for copy in copies)
        or any(_is_set_between(bench, one) for one in bench.source.placements if str(one.place_copy) in copies)
    )


def _takes_its_length(bench: Bench, seam: WrittenSeam, copy: str) -> bool:
    sewn: set[str] = set()
    for side in seam.join:
        try:
            names = bench.saying(side)
        except AlreadyFound:
            continue
        parts = [head_and_tail(name) for name in names if isinstance(name, Name)] if isinstance(names, tuple) else []
        sewn |= {edge for head, edge in parts if head == copy}
    return bool(sewn - ENDS) or sewn == ENDS


def _is_set_between(bench: Bench, placement: WrittenPlacement) -> bool:
    """True where two places along the strip are matched with different ones below; a loop's ends meet on one."""
    spots: set[str] = set()
    for written in placement.matching:
        try:
            pair = bench.saying(written)
        except AlreadyFound:
            continue
        if isinstance(pair, Matching) and "long edge" not in pair.placed.text:
            spots.add(pair.below.text)
    return len(spots) > 1
