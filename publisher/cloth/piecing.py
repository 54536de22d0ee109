"""Whether a smaller cut of cloth would do with its strips pieced of more lengths than they must be. Millimetres.

A strip that fits on the cloth lies there whole, and one that does not is joined of as few lengths as reach: each join is
work, and shows. Where its maker allows joins, shorter lengths may lie beside other pieces.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace

from publisher.cloth.arranging import KeptFiles
from publisher.cloth.bias_ways import lay_with_bias
from publisher.cloth.forms import as_path
from publisher.cloth.questions import Question
from publisher.cloth.strips import pieced
from publisher.cloth.usable import to_buy
from publisher.cloth.values import ClothLayout, Pieced, StripPlan
from publisher.drafting import Copy, Draft, Grain, Material, Piece, PieceKind, Width
from publisher.frozen import dataclass
from publisher.geometry import Box, signed_area

MORE = (1, 2)  # lengths than it must be of
MOST_STRIPS = 4  # of different sorts: of more of them each is not tried by itself

Finish = Callable[[ClothLayout], ClothLayout]


@dataclass(frozen=True, slots=True)
class Further:
    """A smaller cut where there is one, and what a solver may be asked to find one."""

    pieced: Pieced | None = None
    questions: tuple[Question, ...] = ()
    unanswered: tuple[Question, ...] = ()


def pieced_further(
    draft: Draft, layout: ClothLayout, plans: Sequence[StripPlan], kept: KeptFiles, finish: Finish
) -> Further:
    """The least that would be bought of a width if strips were joined of more lengths, with the fewest of them.

    Only where a whole selling step is saved. `finish` makes of a layout what the reader buys.
    """
    if layout.precut is not None or not layout.laid:
        return Further()
    material, width = _sold(draft, layout)
    strips = [
        (piece, copy)
        for piece in draft.pieces
        if piece.strip is not None and piece.strip.joins is not None and piece.grain is not Grain.BIAS
        for copy in piece.copies
        if copy.material == material.key
    ]
    if not strips or _least(draft, layout, strips) >= layout.buy_length:
        return Further()
    counts = {plan.copy: plan.count for plan in plans if plan.sold_width == layout.width}
    alone = replace(draft, materials=(replace(material, sold=(width,)),))
    best, further = layout.buy_length, Further()
    for choice in _choices([(piece, copy, counts.get(copy.name, 1)) for piece, copy in strips]):
        try:
            chosen = tuple(pieced(alone, material, width, piece, copy, count) for piece, copy, count in choice)
        except ValueError:  # lengths so short that they cannot be joined
            continue
        cloth, found = lay_with_bias(_as_rectangles(alone, chosen), kept)
        if found or not cloth.layouts:
            continue
        bought = finish(cloth.layouts[0]).buy_length
        bound = min((one.bound for one in cloth.questions), default=None)
        if bound is not None and to_buy(material, draft.variant.units, bound)[1] < best:
            further = replace(
                further,
                questions=(*further.questions, *cloth.questions),
                unanswered=(*further.unanswered, *cloth.unanswered),
            )
        if bought < best:
            best, further = bought, replace(further, pieced=Pieced(bought, chosen))
    return further


def _choices(strips: Sequence[tuple[Piece, Copy, int]]) -> Iterator[tuple[tuple[Piece, Copy, int], ...]]:
    """Which strips are pieced of how many lengths, beside what they are else: each by itself, then all of them."""
    for more in MORE if len(strips) <= MOST_STRIPS else ():
        yield from (((piece, copy, count + more),) for piece, copy, count in strips)
    for more in MORE if len(strips) > 1 else ():
        yield tuple((piece, copy, count + more) for piece, copy, count in strips)


def _as_rectangles(draft: Draft, plans: Sequence[StripPlan]) -> Draft:
    """The draft with these strips as so many rectangles, which lie as the strip would."""
    by_copy = {plan.copy: plan for plan in plans}
    pieces = tuple(part for piece in draft.pieces for part in _parts(piece, by_copy))
    return replace(draft, pieces=pieces)


def _parts(piece: Piece, plans: Mapping[str, StripPlan]) -> Iterator[Piece]:
    others = tuple(copy for copy in piece.copies if copy.name not in plans)
    if others or not piece.copies:
        yield replace(piece, copies=others)
    for copy in piece.copies:
        for length in plans[copy.name].lengths if copy.name in plans else ():
            yield replace(
                piece,
                kind=PieceKind.MEASURED,
                cut_line=as_path(Box(0.0, 0.0, length, piece.cut_height)),
                cut_width=length,
                strip=None,
                copies=(replace(copy, mirrored=False),),
            )


def _sold(draft: Draft, layout: ClothLayout) -> tuple[Material, Width]:
    material = next(one for one in draft.materials if one.key == layout.material)
    return material, next(one for one in material.sold if one.width == layout.width and one.precut is None)


def _least(draft: Draft, layout: ClothLayout, strips: Sequence[tuple[Piece, Copy]]) -> float:
    """What must be bought even if the strips took no more than their own cloth, and all lay without a gap."""
    material, _ = _sold(draft, layout)
    names = {copy.name for _, copy in strips}
    area = sum(copy.count * piece.cut_width * piece.cut_height for piece, copy in strips)
    area += sum(abs(signed_area(one.outline)) for one in layout.laid if one.copy not in names)
    others = [one.length for one in layout.laid if one.copy not in names]
    return to_buy(material, draft.variant.units, max([area / layout.usable_width, *others]))[1]
