"""Small pieces that lie whole on a page, several to a page where they fit: in rows, the tallest first."""

import dataclasses
from collections.abc import Sequence
from dataclasses import field
from itertools import product

from publisher.frozen import dataclass

GAP = 4.0  # mm between pieces, room for scissors


@dataclass(frozen=True, slots=True)
class Item:
    """A piece to place: its box in mm, lying as drafted."""

    key: int
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class Lying:
    """Where an item lies: its upper left corner from the frame's, mm, y down; `turned` by a quarter turn."""

    key: int
    left: float
    top: float
    width: float
    height: float
    turned: bool


@dataclasses.dataclass(slots=True)
class _Row:
    top: float
    height: float
    taken: float
    items: list[tuple[Item, bool]] = field(default_factory=list)


@dataclasses.dataclass(slots=True)
class _Page:
    free_top: float
    rows: list[_Row] = field(default_factory=list)

    @property
    def taken(self) -> float:
        return self.rows[-1].top + self.rows[-1].height + GAP if self.rows else self.free_top


def share_pages(items: Sequence[Item], width: float, height: float, first_top: float) -> list[list[Lying]]:
    """Pages of items in frames of `width` × `height` mm; the first page begins `first_top` lower down.

    The fewest pages of several orders of placing, of equals the first. Every item must fit a frame one way or the
    other. The first page may stay without an item.
    """
    tried = (
        _fill_pages(sorted(items, key=order), flat, width, height, first_top)
        for flat, order in product((True, False), (_by_long_side, _by_short_side, _by_area))
    )
    return [_lying(page, width, height) for page in min(tried, key=len)]


def _by_long_side(item: Item) -> tuple[float, float, int]:
    return (-max(item.width, item.height), -min(item.width, item.height), item.key)


def _by_short_side(item: Item) -> tuple[float, float, int]:
    return (-min(item.width, item.height), -max(item.width, item.height), item.key)


def _by_area(item: Item) -> tuple[float, float, int]:
    return (-item.width * item.height, -max(item.width, item.height), item.key)


def _fill_pages(items: Sequence[Item], flat: bool, width: float, height: float, first_top: float) -> list[_Page]:
    """Each item into the first page with room for it."""
    pages = [_Page(first_top)]
    for item in items:
        if not any(_put(item, page, flat, width, height) for page in pages):
            pages.append(_Page(0.0))
            _put(item, pages[-1], flat, width, height)
    return pages


def _ways(item: Item, flat: bool) -> tuple[tuple[float, float, bool], ...]:
    """Lying flat first, or standing: low rows leave room below them, narrow ones beside them."""
    upright = (item.width, item.height, False)
    turned = (item.height, item.width, True)
    return (upright, turned) if (item.height <= item.width) is flat else (turned, upright)


def _put(item: Item, page: _Page, flat: bool, width: float, height: float) -> bool:
    for wide, high, turned in _ways(item, flat):
        for row in page.rows:
            if high <= row.height + 1e-6 and row.taken + GAP + wide <= width + 1e-6:
                row.taken += GAP + wide
                row.items.append((item, turned))
                return True
    for wide, high, turned in _ways(item, flat):
        if wide <= width + 1e-6 and page.taken + high <= height + 1e-6:
            page.rows.append(_Row(page.taken, high, wide, [(item, turned)]))
            return True
    return False


def _lying(page: _Page, width: float, height: float) -> list[Lying]:
    """Rows centred, and the white below them shared out above and between, so that no page hangs at its top."""
    lying: list[Lying] = []
    spare = (height - page.taken + GAP) / (len(page.rows) + 1) if page.rows else 0.0
    for at, row in enumerate(page.rows, start=1):
        left = (width - row.taken) / 2
        for item, turned in row.items:
            wide, high = (item.height, item.width) if turned else (item.width, item.height)
            lying.append(Lying(item.key, left, row.top + at * spare + (row.height - high) / 2, wide, high, turned))
            left += wide + GAP
    return lying
