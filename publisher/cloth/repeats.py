"""Prints that repeat: rows of pieces that each begin at the same place of the print. Millimetres."""

import math
from collections.abc import Container, Sequence
from dataclasses import replace
from itertools import groupby

from publisher.cloth.lying import moved
from publisher.cloth.shelves import Rectangle, Shelved, arrange_in_rows
from publisher.cloth.values import Laid
from publisher.drafting import Draft, Grain, Material, Repeat
from publisher.geometry import lie_apart

MOST_LOWERED = 60  # cuts: of more, moving them down one by one takes too long


def washed(material: Material) -> Repeat | None:
    """The repeat of a print once its cloth has shrunk; it is counted along the cloth and shrinks with it."""
    if material.repeat is None:
        return None
    return replace(material.repeat, along=material.repeat.along * (1 - material.shrinkage))


def must_match(draft: Draft, material: Material) -> frozenset[str]:
    """The copies whose print is matched: all but strips, pieces on the bias, and those that may lie either way."""
    return frozenset(
        copy.name
        for piece in draft.pieces
        if piece.strip is None and piece.grain in (Grain.UP, Grain.ACROSS)
        for copy in piece.copies
        if copy.material == material.key
    )


def arrange_to_match(
    rectangles: Sequence[Rectangle], matching: Container[str], width: float, gap: float, repeat: Repeat
) -> tuple[tuple[Shelved, ...], float]:
    """Rows as `arrange_in_rows` makes them, each that holds a piece that must match as long as whole repeats.

    So each of them begins at the same place of the print, as drops of a curtain do (common practice, no source); where
    the print repeats across the cloth too, so does each of their pieces. Raises TooWide.
    """
    numbered = [replace(_grown(one, matching, width, gap, repeat), nth=at) for at, one in enumerate(rectangles)]
    shelved, _ = arrange_in_rows(numbered, width, gap)
    rows = [list(row) for _, row in groupby(sorted(shelved, key=lambda one: one.y), key=lambda one: one.y)]
    laid: list[Shelved] = []
    start = used = 0.0
    # First those that match, so that none of the others shifts them against the print.
    for row in sorted(rows, key=lambda row: not _matches(row, matching)):
        laid += [Shelved(rectangles[one.rectangle.nth], one.x, start, one.turned) for one in row]
        length = max(one.length for one in row)
        used = start + (_whole(length + gap, repeat.along) if _matches(row, matching) else length)
        start = used if _matches(row, matching) else used + gap
    return tuple(laid), used


def shifted_to_match(laid: Sequence[Laid], matching: Container[str], gap: float, repeat: Repeat) -> list[Laid] | None:
    """The cuts of a layout moved along the cloth until each that must match begins at a whole repeat from its end.

    None where a cut that lay between others would lie on one of them, or where the print repeats across the cloth too.
    """
    if repeat.across is not None:
        return None
    found: list[Laid] = []
    shift = 0.0
    for one in sorted(laid, key=lambda one: one.y):
        at = one.y + shift
        if one.copy in matching:
            at = _whole(at, repeat.along)
            # What lies further on is moved as far, so that it keeps its distance.
            shift = max(shift, at - one.y)
        found.append(moved(one, one.x, at, turned=False))
    if not lie_apart([one.outline for one in found], gap):
        return None
    for at, one in enumerate(found if len(found) <= MOST_LOWERED else ()):
        if one.copy in matching:
            found[at] = _lowered(one, [other for other in found if other is not one], gap, repeat)
    return found


def _lowered(one: Laid, others: Sequence[Laid], gap: float, repeat: Repeat) -> Laid:
    """The cut at the lowest whole repeat at which it lies apart from the others."""
    for at in range(round(one.y / repeat.along)):
        lower = moved(one, one.x, at * repeat.along, turned=False)
        near = [other for other in others if _boxes_meet(lower, other, gap)]
        if all(lie_apart([lower.outline, other.outline], gap) for other in near):
            return lower
    return one


def _boxes_meet(one: Laid, other: Laid, gap: float) -> bool:
    across = one.x < other.x + other.width + gap and other.x < one.x + one.width + gap
    return across and one.y < other.y + other.length + gap and other.y < one.y + one.length + gap


def whole_repeats(used: float, repeat: Repeat) -> float:
    """The length that goes up to a whole repeat."""
    return _whole(used, repeat.along)


def _matches(row: Sequence[Shelved], matching: Container[str]) -> bool:
    return any(one.rectangle.name in matching for one in row)


def _grown(one: Rectangle, matching: Container[str], width: float, gap: float, repeat: Repeat) -> Rectangle:
    """As wide as whole repeats, where that leaves it on the cloth."""
    if repeat.across is None or one.name not in matching:
        return one
    grown = _whole(one.width + gap, repeat.across) - gap
    return replace(one, width=min(grown, max(width, one.width)))


def _whole(length: float, repeat: float) -> float:
    """Up to a whole number of repeats; what exceeds one by less than 1/1000 mm takes no other."""
    return math.ceil((length - 1e-3) / repeat) * repeat
