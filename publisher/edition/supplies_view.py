"""Supplies as text: zips that may stand in for others, needle and thread, tools that the maker does not list."""

from collections.abc import Sequence
from dataclasses import dataclass

from publisher.edition.words import Speaker
from publisher.tables import NotionRow, Tables, Zip
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
class SuppliesView:
    """What stands below the notions, and the tools that follow the maker's own."""

    zips: tuple[ZipLine, ...]
    cut_down: str  # how a zip is cut down; "" where there is none
    needles: tuple[str, ...]
    tools: tuple[str, ...]


def supplies_view(tables: Sequence[Tables], speak: Speaker) -> SuppliesView:
    """The supplies of a unit system, over all its sizes."""
    zips = tuple(_zip_line(rows, speak) for rows in zip(*(table.supplies.zips for table in tables), strict=True))
    return SuppliesView(
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
        tools=tuple(dict.fromkeys(speak.say(tool) for table in tables for tool in table.supplies.tools)),
    )


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
