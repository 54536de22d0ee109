"""How bias strips are got on each width: from a square, from strips, or from what is left, whichever takes least cloth."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from publisher.cloth.arranging import KeptFiles
from publisher.cloth.bias_strips import LEAST_SIDE, Wanted, cut_lines, lowest_block, narrowed
from publisher.cloth.forms import as_path
from publisher.cloth.layouts import lay_out
from publisher.cloth.questions import Question
from publisher.cloth.usable import BIAS_SEAM, GAP, SQUARE_STEP, SQUARING_UP, to_buy, usable_width
from publisher.cloth.values import Cloth, ClothLayout, Laid, StripPlan
from publisher.drafting import Copy, Draft, Grain, Material, Piece, PieceKind, Width
from publisher.frozen import dataclass
from publisher.geometry import Box, Movement, Path, Point, ring_round
from publisher.terms import Finding, UnitSystem

# A lower block may waste less at its corners, a higher one may fit better beside what else is cut.
HIGHER = (1.0, 1.5, 2.0)
LONGEST = 20  # widths: a block is no longer
MOST_EDGES = 80  # of what is laid; among more of them a place that is left is not looked for


@dataclass(frozen=True, slots=True)
class Way:
    """How one bias strip is got: from a square where there is no block, from a block, or from one that is left over."""

    block: tuple[float, float] | None = None  # mm across and along
    left_over: bool = False


Ways = dict[str, Way]  # by copy


def lay_with_bias(draft: Draft, kept: KeptFiles = ()) -> tuple[Cloth, tuple[Finding, ...]]:
    """All layouts as `lay_out` makes them, each bias strip on each width in the way for which least is bought.

    Each way is compared as it is known, in rows or kept. The questions of all that could save cloth are among those that a
    solver may be asked, so that what it finds decides.
    """
    parts: list[_Part] = []
    for material in draft.materials:
        if not _bias_copies(draft, material):
            parts.append(_part(*lay_out(replace(draft, materials=(material,)), kept)))
            continue
        for width in material.sold:
            alone = replace(draft, materials=(replace(material, sold=(width,)),))
            parts.append(_least(alone, material, width, kept))
    cloth = Cloth(
        variant=draft.variant,
        layouts=tuple(layout for part in parts for layout in part.cloth.layouts),
        strips=tuple(plan for part in parts for plan in part.cloth.strips),
        questions=tuple(dict.fromkeys(one for part in parts for one in part.questions)),
        unanswered=tuple(dict.fromkeys(one for part in parts for one in part.unanswered)),
    )
    return cloth, tuple(finding for part in parts for finding in part.found)


@dataclass(frozen=True, slots=True)
class _Part:
    """What is laid of some materials, with all that a solver may be asked to choose the way."""

    cloth: Cloth
    found: tuple[Finding, ...]
    questions: tuple[Question, ...]
    unanswered: tuple[Question, ...]

    @property
    def bought(self) -> tuple[int, int, float]:
        """What is compared: first whether something has no place, then how much is bought."""
        if not self.cloth.layouts:
            return len(self.found) + 1, 0, 0.0
        layout = self.cloth.layouts[0]
        return len(self.found), layout.precut_count, round(layout.buy_length, 3)


def _part(cloth: Cloth, found: tuple[Finding, ...]) -> _Part:
    return _Part(cloth, found, cloth.questions, cloth.unanswered)


def _bias_copies(draft: Draft, material: Material) -> list[tuple[Piece, Copy]]:
    """The bias strips of a material that may be joined."""
    return [
        (piece, copy)
        for piece in draft.pieces
        if piece.strip is not None and piece.strip.joins is not None and piece.grain is Grain.BIAS
        for copy in piece.copies
        if copy.material == material.key
    ]


def _least(draft: Draft, material: Material, width: Width, kept: KeptFiles) -> _Part:
    """The way of each bias strip for which least is bought; a square, which needs least sewing, where others save nothing."""
    ways: Ways = {}
    least = _part(*_lay(draft, ways, kept))
    for piece, copy in _bias_copies(draft, material):
        if _as_little_as_can_be(draft, material, least, piece, copy):
            continue
        for way in _ways(draft, material, width, ways, piece, copy):
            trial = {**ways, copy.name: way}
            tried = _part(*_lay(draft, trial, kept))
            if not _may_save(draft, material, tried, least):
                continue
            questions = (*least.questions, *tried.questions)
            unanswered = (*least.unanswered, *tried.unanswered)
            if tried.bought < least.bought:
                ways, least = trial, tried
            least = replace(least, questions=questions, unanswered=unanswered)
    return least


def _as_little_as_can_be(draft: Draft, material: Material, least: _Part, piece: Piece, copy: Copy) -> bool:
    """True where as much is bought if the strip takes no more cloth than its own, and everything lies without a gap."""
    nowhere, precuts, bought = least.bought
    if nowhere or precuts:
        return not nowhere and precuts == 1
    layout, wanted = least.cloth.layouts[0], _wanted(draft.variant.units, piece, copy)
    others = [one for one in layout.laid if one.copy != copy.name]
    area = wanted.length * wanted.strip + sum(_area(one.outline) for one in others)
    used = max([area / layout.usable_width, *(one.length for one in others)])
    return to_buy(material, draft.variant.units, used)[1] >= bought - 1e-3


def _area(outline: Path) -> float:
    spots = ring_round(outline)
    return abs(sum(one[0] * other[1] - one[1] * other[0] for one, other in pairwise([*spots, spots[0]]))) / 2


def _may_save(draft: Draft, material: Material, tried: _Part, least: _Part) -> bool:
    """True where less is bought, or would be if a solver found the shortest layout that there can be."""
    nowhere, precuts, bought = least.bought
    if tried.bought < least.bought or nowhere or not tried.questions:
        return tried.bought < least.bought
    bound = min(question.bound for question in tried.questions)
    return bound < precuts if precuts else to_buy(material, draft.variant.units, bound)[1] < bought - 1e-3


def _ways(draft: Draft, material: Material, width: Width, ways: Ways, piece: Piece, copy: Copy) -> list[Way]:
    """What else there is than a square: what is left over, and the block that fits best where all lies in rows."""
    units = draft.variant.units
    usable, step, wanted = usable_width(material, width, units), SQUARE_STEP[units], _wanted(units, piece, copy)
    low = lowest_block(wanted, usable, step, LONGEST * usable)
    heights = dict.fromkeys(round(low * higher / step) * step for higher in HIGHER) if low is not None else ()
    blocks = [Way((narrowed(wanted, usable, along, step), along)) for along in heights]
    best = sorted(blocks, key=lambda way: _part(*_lay(draft, {**ways, copy.name: way}, ())).bought)[:1]
    others = any(one.material == material.key for other in draft.pieces for one in other.copies if one != copy)
    return best if width.precut or not others else [Way(left_over=True), *best]


def _wanted(units: UnitSystem, piece: Piece, copy: Copy) -> Wanted:
    """What all strips of a copy come to, each squared at its ends."""
    whole = copy.count * (piece.cut_width + piece.cut_height) - piece.cut_height
    return Wanted(whole, piece.cut_height, BIAS_SEAM[units])


def _lay(draft: Draft, ways: Ways, kept: KeptFiles) -> tuple[Cloth, tuple[Finding, ...]]:
    """One material on one width, its bias strips got in these ways."""
    (material,) = draft.materials
    pieces = tuple(part for piece in draft.pieces for part in _as_blocks(piece, ways))
    cloth, found = lay_out(replace(draft, pieces=pieces), kept)
    if not cloth.layouts:
        return cloth, found
    layout, plans = cloth.layouts[0], list(cloth.strips)
    for piece, copy in _bias_copies(draft, material):
        way = ways.get(copy.name, Way())
        wanted = _wanted(draft.variant.units, piece, copy)
        if way.left_over:
            layout, way = _on_what_is_left(draft, material, layout, copy, wanted)
        if way.block is not None:
            layout = _with_cuts(layout, copy, wanted, way.block)
            plans.append(_plan(layout, piece, copy, wanted, way))
    return replace(cloth, layouts=(layout,), strips=tuple(plans)), found


def _as_blocks(piece: Piece, ways: Ways) -> Iterator[Piece]:
    """A piece, its copies apart where some are cut from blocks: as such rectangles. What is cut from the rest comes later."""
    if not any(copy.name in ways for copy in piece.copies):
        yield piece
        return
    for copy in piece.copies:
        way = ways.get(copy.name, Way())
        if way.block is not None:
            yield _rectangle(piece, copy, way.block)
        elif not way.left_over:
            yield replace(piece, copies=(copy,))


def _rectangle(piece: Piece, copy: Copy, block: tuple[float, float]) -> Piece:
    return replace(
        piece,
        kind=PieceKind.MEASURED,
        cut_line=as_path(Box(0.0, 0.0, *block)),
        cut_width=block[0],
        cut_height=block[1],
        grain=Grain.UP,
        strip=None,
        copies=(replace(copy, count=1, to_finished_line=False, mirrored=False),),
    )


def _with_cuts(layout: ClothLayout, copy: Copy, wanted: Wanted, block: tuple[float, float]) -> ClothLayout:
    """A layout with the lines along which a block is cut into strips."""
    lines = cut_lines(*block, wanted.strip, wanted.chosen(*block))
    laid = tuple(
        replace(one, cuts=tuple(line.moved(Movement(0, Point(one.x, one.y))) for line in lines))
        if one.copy == copy.name
        else one
        for one in layout.laid
    )
    return replace(layout, laid=laid)


def _plan(layout: ClothLayout, piece: Piece, copy: Copy, wanted: Wanted, way: Way) -> StripPlan:
    assert way.block is not None
    return StripPlan(
        copy=copy.name,
        material=copy.material,
        cut_width=piece.cut_height,
        total_length=piece.cut_width,
        sold_width=layout.width,
        from_width=layout.usable_width,
        count=wanted.from_block(*way.block),
        joins="bias",
        join_loss=wanted.join,
        block=way.block,
        left_over=way.left_over,
    )


def _on_what_is_left(
    draft: Draft, material: Material, layout: ClothLayout, copy: Copy, wanted: Wanted
) -> tuple[ClothLayout, Way]:
    """The layout with a block of what is bought and left, or behind everything where none will do."""
    units = draft.variant.units
    step, usable = SQUARE_STEP[units], layout.usable_width
    # On folded cloth all that is cut from one layer lies right of the fold.
    start = usable / 2 if layout.folded else 0.0
    bought = layout.buy_length * (1 - material.shrinkage) - SQUARING_UP[units] if layout.laid else 0.0
    places = empty_places(layout.laid, (start, usable), bought, GAP[units])
    fitting = [place for place in places if wanted.from_block(place.width, place.height)]
    if fitting:
        place = min(fitting, key=lambda place: (round(place.width * place.height), place.bottom, place.left))
        along = lowest_block(wanted, place.width, step, place.height) or place.height
    else:
        above = layout.used_length + (GAP[units] if layout.laid else 0.0)
        along = lowest_block(wanted, usable - start, step, LONGEST * usable) or 0.0
        place = Box(start, above, usable, above + along)
    across = narrowed(wanted, place.width, along, step)
    block = Box(place.left, place.bottom, place.left + across, place.bottom + along)
    laid = Laid(copy.name, 1, block.left, block.bottom, across, along, 0, False, as_path(block))
    used = max(layout.used_length, block.top)
    needed, more = to_buy(material, draft.variant.units, used)
    bigger = replace(layout, laid=(*layout.laid, laid), used_length=used, needed_length=needed, buy_length=more)
    return bigger, Way((across, along), bool(fitting))


def empty_places(laid: Sequence[Laid], within: tuple[float, float], length: float, gap: float) -> Iterator[Box]:
    """Empty rectangles, as wide and as high as they can be, from side to side, of a size for strips to be cut from."""
    sides = sorted({*within, *(one.x - gap for one in laid), *(one.x + one.width + gap for one in laid)})
    sides = [side for side in sides if within[0] <= side <= within[1]]
    for left in sides if len(sides) <= MOST_EDGES else ():
        for right in sides:
            if right - left < LEAST_SIDE:
                continue
            bottom = 0.0
            between = [one for one in laid if one.x - gap < right - 1e-6 and one.x + one.width + gap > left + 1e-6]
            for one in sorted(between, key=lambda one: one.y):
                if one.y - gap - bottom >= LEAST_SIDE:
                    yield Box(left, bottom, right, one.y - gap)
                bottom = max(bottom, one.y + one.length + gap)
            if length - bottom >= LEAST_SIDE:
                yield Box(left, bottom, right, length)
