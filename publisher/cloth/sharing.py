"""Cuts shared out over several lengths of cloth, in rows on each. Millimetres."""

from bisect import bisect_left
from collections.abc import Sequence

from publisher.cloth.lying import moved
from publisher.cloth.repeats import arrange_to_match
from publisher.cloth.shelves import Rectangle, TooWide, arrange_in_rows
from publisher.cloth.values import Laid
from publisher.drafting import Repeat
from publisher.frozen import dataclass

Cut = tuple[Laid, ...]  # what one cut takes: itself, or each length that a strip is pieced of


@dataclass(frozen=True, slots=True)
class Room:
    """A length of cloth as far as it may be used; the shape of its cuts may depend on its width."""

    width: float
    length: float
    gap: float
    repeat: Repeat | None = None  # of its print
    matching: frozenset[str] = frozenset()  # copies whose print is matched


@dataclass(frozen=True, slots=True)
class Sort:
    """All cuts of one copy: for each room how each of them lies there, none where it is too narrow."""

    free: bool  # they may lie along or across
    on: tuple[tuple[Cut, ...], ...]


def share_out(sorts: Sequence[Sort], rooms: Sequence[Room], order: Sequence[int]) -> tuple[list[list[Laid]], list[int]]:
    """What lies in each room, and how many cuts of each sort found a place: as many as will go, room by room in `order`.

    The cuts of a sort are taken by number; those left over are its last.
    """
    full: list[list[tuple[Laid, bool]]] = [[] for _ in rooms]
    placed = [0] * len(sorts)
    for at in sorted(range(len(sorts)), key=lambda at: -_longest(sorts[at])):
        for room in order:
            cuts = sorts[at].on[room][placed[at] :]
            more = _how_many(cuts, sorts[at].free, full[room], rooms[room])
            full[room] += [(part, sorts[at].free) for cut in cuts[:more] for part in cut]
            placed[at] += more
    return [_in_rows(lies, room) or [] for lies, room in zip(full, rooms, strict=True)], placed


def _longest(sort: Sort) -> float:
    return max((part.length for cuts in sort.on for cut in cuts[:1] for part in cut), default=0.0)


def _how_many(cuts: Sequence[Cut], free: bool, full: list[tuple[Laid, bool]], room: Room) -> int:
    """How many of some like cuts go into a room beside what lies there."""

    def too_many(more: int) -> bool:
        return _in_rows(full + [(part, free) for cut in cuts[:more] for part in cut], room) is None

    return bisect_left(range(1, len(cuts) + 1), True, key=too_many)


def _in_rows(lies: Sequence[tuple[Laid, bool]], room: Room) -> list[Laid] | None:
    """All of it in rows, or None where the room is too small."""
    rectangles = [Rectangle(part.copy, at, part.width, part.length, free) for at, (part, free) in enumerate(lies)]
    try:
        if room.repeat is None:
            shelved, used = arrange_in_rows(rectangles, room.width, room.gap)
        else:
            shelved, used = arrange_to_match(rectangles, room.matching, room.width, room.gap, room.repeat)
    except TooWide:
        return None
    if used > room.length + 1e-6:
        return None
    return [moved(lies[at.rectangle.nth][0], at.x, at.y, at.turned) for at in shelved]
