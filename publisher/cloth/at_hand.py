"""Whether what is cut from a material comes from the cloth that is at hand, and where each cut lies. Millimetres."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from publisher.cloth.arranging import KeptFiles
from publisher.cloth.layouts import lay_out
from publisher.cloth.planning import plan_layouts
from publisher.cloth.questions import Question
from publisher.cloth.repeats import must_match, washed
from publisher.cloth.sharing import Cut, Room, Sort, share_out
from publisher.cloth.usable import GAP, SQUARING_UP, usable_width
from publisher.cloth.values import Cloth, ClothLayout, Laid
from publisher.drafting import Copy, Draft, Grain, Material, Piece, Width
from publisher.frozen import dataclass

ENDLESS = 100_000.0  # mm: a width on which every piece lies whole


@dataclass(frozen=True, slots=True)
class AtHand:
    """A length of cloth as it came from the shop, not yet washed: `width` as sold; or one precut."""

    length: float
    width: float
    precut: str | None = None


@dataclass(frozen=True, slots=True)
class LaidOn:
    """A cloth at hand with what is cut from it; x from the left edge of its usable width, y from its squared end."""

    cloth: AtHand
    usable_width: float
    usable_length: float  # what shrinking and squaring up leave
    laid: tuple[Laid, ...] = ()

    @property
    def used_length(self) -> float:
        """How far up the cloth the cuts reach."""
        return max((one.y + one.length for one in self.laid), default=0.0)


@dataclass(frozen=True, slots=True)
class NotLaid:
    """Cuts of a copy that find no room: how many, and the box of one; `too_wide` for all that is at hand."""

    copy: str
    count: int
    width: float
    length: float
    too_wide: bool


@dataclass(frozen=True, slots=True)
class FromStock:
    """Whether the cuts of a material come from the cloth at hand, and how.

    What is missing is told in cloth as wide as the widest at hand: so many mm more of the one length that is there, or
    of another one beside several; of precuts, how many. Nought where no length of that width will do.
    """

    material: str
    on: tuple[LaidOn, ...]
    not_laid: tuple[NotLaid, ...] = ()
    missing_length: float = 0.0
    missing_precuts: int = 0

    @property
    def fits(self) -> bool:
        """True when every cut has its place."""
        return not self.not_laid

    @property
    def widest(self) -> AtHand:
        """The widest cloth at hand."""
        return max((on.cloth for on in self.on), key=lambda cloth: cloth.width)


def from_stock(draft: Draft, material: Material, cloths: Sequence[AtHand], kept: KeptFiles = ()) -> FromStock:
    """Whether all cuts of a material come from these cloths: by a layout on a single length, else in rows on each."""
    empty = tuple(_empty(draft, material, cloth) for cloth in cloths)
    layout = _layout_on(draft, material, cloths[0], kept) if len(cloths) == 1 else None
    if layout is not None and layout.used_length <= empty[0].usable_length + 1e-6:
        return FromStock(material.key, (replace(empty[0], laid=layout.laid),))
    copies = list(_copies_of(draft, material))
    sorts = [_sort(draft, material, piece, copy, cloths) for piece, copy in copies]
    rooms = [_room(draft, material, on) for on in empty]
    laid, placed = max((share_out(sorts, rooms, order) for order in _orders(rooms)), key=lambda share: sum(share[1]))
    on = tuple(replace(one, laid=tuple(lies)) for one, lies in zip(empty, laid, strict=True))
    left = [(piece, copy, done) for (piece, copy), done in zip(copies, placed, strict=True) if done < copy.count]
    not_laid = tuple(
        _not_laid(draft, material, piece, copy, done, not any(sorts[copies.index((piece, copy))].on))
        for piece, copy, done in left
    )
    answer = FromStock(material.key, on, not_laid)
    return answer if answer.fits else _with_missing(draft, material, answer, layout, kept)


def _copies_of(draft: Draft, material: Material) -> Iterator[tuple[Piece, Copy]]:
    return ((piece, copy) for piece in draft.pieces for copy in piece.copies if copy.material == material.key)


def _empty(draft: Draft, material: Material, cloth: AtHand) -> LaidOn:
    """A cloth at hand with nothing on it; a precut is square."""
    units = draft.variant.units
    left = cloth.length * (1 - material.shrinkage)
    usable = usable_width(material, Width(cloth.width, cloth.precut), units)
    return LaidOn(cloth, usable, left if cloth.precut else left - SQUARING_UP[units])


def _room(draft: Draft, material: Material, on: LaidOn) -> Room:
    gap = GAP[draft.variant.units]
    # A precut is too small to choose where its print begins.
    repeat = washed(material) if on.cloth.precut is None else None
    return Room(on.usable_width, on.usable_length, gap, repeat, must_match(draft, material))


def _orders(rooms: Sequence[Room]) -> list[list[int]]:
    """In which orders the rooms are filled: as they were named, smallest first, largest first."""
    named = list(range(len(rooms)))
    by_size = sorted(named, key=lambda at: rooms[at].width * rooms[at].length)
    return [named, by_size, by_size[::-1]]


def _layout_on(draft: Draft, material: Material, cloth: AtHand, kept: KeptFiles) -> ClothLayout | None:
    """All that the draft cuts of a material, on a width as wide as the cloth; None where that is too narrow."""
    plan = _plan_on(draft, material, cloth, kept)
    return plan.layouts[0] if plan is not None and plan.layouts else None


def unanswered_on(draft: Draft, material: Material, cloth: AtHand, kept: KeptFiles) -> tuple[Question, ...]:
    """What a solver may be asked about a cloth at hand, where it has not been asked."""
    plan = _plan_on(draft, material, cloth, kept)
    return plan.unanswered if plan is not None else ()


def _plan_on(draft: Draft, material: Material, cloth: AtHand, kept: KeptFiles) -> Cloth | None:
    width = replace(material, sold=(Width(cloth.width, cloth.precut),))
    try:
        plan, found = plan_layouts(replace(draft, materials=(width,)), kept)
    except ValueError:  # narrower than what one join of a strip takes
        return None
    return None if found else plan


def _only(draft: Draft, piece: Piece, copy: Copy) -> Draft:
    """The draft as if nothing else were cut."""
    return replace(draft, pieces=(replace(piece, copies=(copy,)),))


def _sort(draft: Draft, material: Material, piece: Piece, copy: Copy, cloths: Sequence[AtHand]) -> Sort:
    alone = _only(draft, piece, copy)
    layouts = [_layout_on(alone, material, cloth, ()) for cloth in cloths]
    turns = material.free or (piece.grain is Grain.EITHER and piece.strip is None)
    return Sort(turns, tuple(_by_number(layout) if layout is not None else () for layout in layouts))


def _by_number(layout: ClothLayout) -> tuple[Cut, ...]:
    parts: dict[int, list[Laid]] = {}
    for lies in layout.laid:
        parts.setdefault(lies.nth, []).append(lies)
    return tuple(tuple(parts[nth]) for nth in sorted(parts))


def _not_laid(draft: Draft, material: Material, piece: Piece, copy: Copy, done: int, too_wide: bool) -> NotLaid:
    endless = replace(_only(draft, piece, copy), materials=(replace(material, sold=(Width(ENDLESS),)),))
    (whole,) = lay_out(endless)[0].layouts
    return NotLaid(copy.name, copy.count - done, whole.laid[0].width, whole.laid[0].length, too_wide)


def _with_missing(
    draft: Draft, material: Material, answer: FromStock, layout: ClothLayout | None, kept: KeptFiles
) -> FromStock:
    """The answer with how much more cloth would do."""
    if layout is not None and layout.precut is None:
        return replace(answer, missing_length=layout.needed_length - answer.on[0].cloth.length)
    counts = {one.copy: one.count for one in answer.not_laid}
    pieces = tuple(
        replace(piece, copies=(replace(copy, count=counts[copy.name]),))
        for piece, copy in _copies_of(draft, material)
        if copy.name in counts
    )
    rest, widest = replace(draft, pieces=pieces), answer.widest
    if widest.precut is not None:
        return replace(answer, missing_precuts=_more_precuts(rest, material, widest))
    more = _layout_on(rest, material, widest, kept)
    return replace(answer, missing_length=more.needed_length) if more is not None else answer


def _more_precuts(rest: Draft, material: Material, precut: AtHand) -> int:
    """How many more of a precut hold the rest; nought where one piece is larger than it."""
    count = sum(copy.count for piece in rest.pieces for copy in piece.copies)
    room = _room(rest, material, _empty(rest, material, precut))
    sorts = [_sort(rest, material, piece, copy, [precut]) for piece, copy in _copies_of(rest, material)]
    for more in range(1, count + 1):
        each = [Sort(sort.free, sort.on * more) for sort in sorts]
        if sum(share_out(each, [room] * more, range(more))[1]) == count:
            return more
    return 0
