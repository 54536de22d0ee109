"""Prints that repeat: rows of pieces that each begin at the same place of the print. Millimetres."""

import math
from collections.abc import Container, Sequence
from dataclasses import replace
from itertools import groupby

from publisher.cloth.shelves import Rectangle, Shelved, arrange_in_rows
from publisher.drafting import Draft, Grain, Material, Repeat


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
