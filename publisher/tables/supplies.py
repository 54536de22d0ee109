"""What the pattern asks for beside what its maker lists: needles, feet, a zip in the place of another, spare length.

All amounts and pairings here are common practice, no source.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from publisher.assembly import Assembly
from publisher.drafting import Draft, Notion, PieceKind
from publisher.tables.values import Needle, Supplies, Zip
from publisher.terms import Phrase, Quantity, UnitSystem, length, round_up_to_step

INCH = Fraction(254, 10)
# Lengths of zips that shops stock, from stop to stop.
ZIPS = {
    UnitSystem.INCH: tuple(INCH * inches for inches in (4, 5, 6, 7, 8, 9, 10, 12, 14, 16, 18, 20, 22, 24, 30, 36)),
    UnitSystem.METRIC: tuple(
        Fraction(cm * 10) for cm in (10, 12, 15, 18, 20, 22, 25, 30, 35, 40, 45, 50, 55, 60, 70, 80, 90)
    ),
}
LONGER = 2  # how many longer zips are told
BY_LENGTH = ("cord", "elastic", "tape", "ribbon", "webbing", "piping", "bias binding", "hook-and-loop tape")
# What is cut off the ends of each length: they fray, and are seldom cut square.
SPARE = {UnitSystem.INCH: INCH, UnitSystem.METRIC: Fraction(25)}
# The tool that setting a notion takes, by its kind, and by what other words a maker lists it.
TOOLS = (
    ("zip", Phrase.of("tools.zip-foot"), ("zip foot", "zipper foot", "zip-foot")),
    ("eyelet", Phrase.of("tools.setter"), ("eyelet", "setting tool", "setter")),
    ("rivet", Phrase.of("tools.setter"), ("rivet", "setting tool", "setter")),
    ("button", Phrase.of("tools.hand-needle"), ("hand needle", "hand-sewing needle", "sewing needle")),
)
# What draws these through a casing.
DRAWN = ("cord", "elastic", "ribbon")
BODKIN = ("bodkin", "safety pin")
TAPE = ("sticky tape", "adhesive tape")


def supplies_of(draft: Draft, assembly: Assembly | None, listed: Sequence[str]) -> Supplies:
    """All of it for one variant; `listed` are the maker's own tools, of which none is told twice."""
    return Supplies(
        zips=tuple(_zip(notion, draft) for notion in draft.notions if notion.kind == "zip" and _length(notion)),
        needles=tuple(_needles(draft, listed)),
        tools=tuple(dict.fromkeys(_tools(draft, assembly, listed))),
    )


def _length(notion: Notion) -> Quantity | None:
    return dict(notion.sizes).get("length")


def bought_by_length(notion: Notion, units: UnitSystem) -> tuple[Quantity, Quantity] | None:
    """How much of a notion to buy that is cut from a length, up to the selling step, and what of it is spare for each."""
    one = _length(notion)
    if notion.kind not in BY_LENGTH or one is None:
        return None
    spare = SPARE[units]
    return round_up_to_step(length((one.amount + spare) * (notion.count or 1)), units), length(spare)


def _zip(notion: Notion, draft: Draft) -> Zip:
    own = _length(notion)
    assert own is not None
    stock = ZIPS[draft.variant.units]
    longer = tuple(length(one) for one in stock if one > own.amount)[:LONGER]
    return Zip(notion.key, notion.name, own, own.amount in stock, longer, dict(notion.sizes).get("tape width"))


def _needles(draft: Draft, listed: Sequence[str]) -> Iterator[Needle]:
    """A needle and thread for all materials of one weight; none where the maker lists needles for the machine."""
    if is_among(("machine needle", "machine needles"), listed):
        return
    used = {copy.material for piece in draft.pieces for copy in piece.copies}
    stated = [one for one in draft.materials if one.weight is not None and one.key in used]
    for weight in dict.fromkeys(one.weight for one in stated):
        assert weight is not None
        keys = tuple(one.key for one in stated if one.weight == weight)
        sort = f"-{weight.sort}" if weight.sort else ""
        yield Needle(keys, Phrase.of(f"needles.{weight.heaviness}{sort}"), Phrase.of(f"threads.{weight.heaviness}"))


def _tools(draft: Draft, assembly: Assembly | None, listed: Sequence[str]) -> Iterator[Phrase]:
    yield from _cutting_tools(draft, listed)
    deeds = [action for step in assembly.steps for action in step.actions] if assembly is not None else []
    attached = {action.target for action in deeds if action.verb == "attach"}
    kinds = {notion.kind for notion in draft.notions if notion.key in attached}
    for kind, tool, words in TOOLS:
        if kind in kinds and not is_among(words, listed):
            yield tool
    casings = any(hem.casing for piece in draft.pieces for hem in piece.hems)
    if casings and any(notion.kind in DRAWN for notion in draft.notions) and not is_among(BODKIN, listed):
        yield Phrase.of("tools.bodkin")
    sorts = {material.weight.sort for material in draft.materials if material.weight is not None}
    if "coated" in sorts and not is_among(("clips",), listed):
        yield Phrase.of("tools.clips")


def _cutting_tools(draft: Draft, listed: Sequence[str]) -> Iterator[Phrase]:
    """What templates are cut out with, what is measured is measured with, and what a rotary cutter cuts upon."""
    cut = [piece for piece in draft.pieces if piece.copies]
    if any(piece.kind is PieceKind.DRAWN for piece in cut) and not is_among(("paper scissors",), listed):
        yield Phrase.of("tools.paper-scissors")
    measured = any(piece.kind is not PieceKind.DRAWN or any(copy.rough for copy in piece.copies) for piece in cut)
    if measured and not is_among(("ruler",), listed):
        yield Phrase.of("tools.ruler")
    if is_among(("rotary cutter",), listed) and not is_among(("cutting mat", "self-healing mat"), listed):
        yield Phrase.of("tools.cutting-mat")


def joining_tools(tiled: bool, listed: Sequence[str]) -> tuple[Phrase, ...]:
    """What the pages of a large template are joined with, where there is one and the maker does not list it."""
    return (Phrase.of("tools.tape"),) if tiled and not is_among(TAPE, listed) else ()


def is_among(words: Sequence[str], listed: Sequence[str]) -> bool:
    """True where a listed tool bears one of these words."""
    return any(word in tool.casefold() for word in words for tool in listed)
