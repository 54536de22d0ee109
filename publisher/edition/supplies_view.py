"""Supplies as text: zips that may stand in for others, needle and thread, tools that the maker does not list."""

from collections.abc import Iterator, Sequence

from publisher.edition.words import Speaker
from publisher.frozen import dataclass
from publisher.tables import NotionRow, Substitute, Tables, Zip, joining_tools
from publisher.terms import UnitSystem, length

# What is left of a zip behind its new end (common practice, no source).
TAIL = {UnitSystem.INCH: length(19.05), UnitSystem.METRIC: length(20)}


@dataclass(frozen=True, slots=True)
class ZipLine:
    """A zip, the longer ones that may be cut down to it, and how wide its tape must be."""

    zip: str
    instead: str
    tape: str


@dataclass(frozen=True, slots=True)
class SubstituteLine:
    """Another size of something, and what the reader then does."""

    instead: str
    then: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SuppliesView:
    """What stands below the notions, and the tools that follow the maker's own."""

    substitutes: tuple[SubstituteLine, ...]

    zips: tuple[ZipLine, ...]
    cut_down: str  # how a zip is cut down; "" where there is none
    needles: tuple[str, ...]
    tools: tuple[str, ...]


def supplies_view(tables: Sequence[Tables], speak: Speaker, tiled: bool, listed: Sequence[str]) -> SuppliesView:
    """The supplies of a unit system, over all its sizes; `listed` are the maker's own tools, `tiled` when some template
    takes several pages."""
    tools = [*(tool for table in tables for tool in table.supplies.tools), *joining_tools(tiled, listed)]
    zips = tuple(_zip_line(rows, speak) for rows in zip(*(table.supplies.zips for table in tables), strict=True))
    return SuppliesView(
        substitutes=tuple(_substitute_lines(tables, speak)),
        zips=zips,
        cut_down=speak.say("zips.cut-down", tail=speak.length(TAIL[speak.units])) if zips else "",
        needles=tuple(
            speak.say(
                "needles.line",
                materials=speak.listed(list(needle.materials)),
                needle=needle.needle,
                thread=needle.thread,
            )
            for needle in tables[0].supplies.needles
        ),
        tools=tuple(dict.fromkeys(map(speak.say, tools))),
    )


def _substitute_lines(tables: Sequence[Tables], speak: Speaker) -> Iterator[SubstituteLine]:
    for rows in zip(*(table.supplies.substitutes for table in tables), strict=True):
        first = rows[0]
        sizes = [speak.length(size) for size in (first.other, first.own)]
        told = {"name": first.name, "size": first.size, "other": sizes[0], "own": sizes[1]}
        by_size = [tuple(_then(row, speak)) for row in rows]
        names = [table.variant.size for table in tables]
        then = speak.by_size(["\n".join(lines) for lines in by_size], names)
        yield SubstituteLine(
            speak.say("substitutes.instead", **told),
            tuple(f"{size}: {line}" if size else line for size, lines in then for line in lines.split("\n")),
        )


def _then(substitute: Substitute, speak: Speaker) -> Iterator[str]:
    """What the reader does otherwise: cuts, then cloth, then numbers of the steps."""
    for cut in substitute.cuts:
        sides = speak.say("chart.sides", width=speak.length(cut.size[0]), height=speak.length(cut.size[1]))
        notes = [speak.say(note) for note in cut.notes]
        yield " ".join([speak.say("substitutes.cut", copy=cut.copy, size=sides), *notes])
    for new in substitute.lengths:
        width = speak.say("materials.wide", width=speak.length(new.width))
        yield speak.say("substitutes.buy", amount=speak.cloth(new.buy), material=new.material, width=width)
    read: dict[tuple[str, str], list[str]] = {}
    for number in substitute.numbers:
        told = speak.quantity(number.was), speak.quantity(number.now)
        if told[0] != told[1]:
            read.setdefault(told, []).append(str(number.step))
    for (was, now), steps in read.items():
        yield speak.say("substitutes.read", count=len(steps), steps=speak.listed(steps), was=was, now=now)


def _zip_line(zips: Sequence[Zip], speak: Speaker) -> ZipLine:
    first = zips[0]
    size = speak.per_size([speak.length(one.length) for one in zips])
    stocked = all(one.stocked for one in zips)
    instead = speak.per_size([speak.either([speak.length(longer) for longer in one.longer]) for one in zips])
    return ZipLine(
        zip=speak.say("zips.stocked" if stocked else "zips.unusual", name=first.notion, length=size),
        instead=instead or speak.say("zips.none"),
        tape=speak.length(first.tape) if first.tape is not None else speak.say("zips.any-tape"),
    )


def by_length(rows: Sequence[NotionRow], speak: Speaker) -> str:
    """How much of a notion to buy that is cut from a length; "" of any other."""
    if any(row.buy is None or row.spare is None for row in rows):
        return ""
    bought = speak.per_size([speak.cloth(row.buy) for row in rows if row.buy is not None])
    spare = rows[0].spare
    assert spare is not None
    return speak.say("materials.by-length", amount=bought, spare=speak.length(spare))
