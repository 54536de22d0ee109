"""What the cover tells in figures: how large the thing is, in which sizes, how hard, how long."""

from collections.abc import Sequence

from publisher.checks import Proof
from publisher.edition.times import minutes_of, told_time
from publisher.edition.words import Speaker
from publisher.frozen import dataclass
from publisher.tables import Tables


@dataclass(frozen=True, slots=True)
class Fact:
    """What the cover tells: what, and how much, on a line or on several."""

    name: str
    lines: tuple[str, ...]


def cover_facts(proof: Proof, tables: Sequence[Tables], speak: Speaker) -> list[Fact]:
    """Finished size, sizes, level, time, and for how many the materials are; of each only what is known."""
    source = proof.source
    told: list[Fact] = []
    if tables[0].finished_size:
        told.append(Fact(speak.say("cover.finished"), _finished(tables, speak)))
    if source.sizes:
        sizes = speak.listed(list(map(str, source.sizes)))
        told.append(Fact(speak.say("cover.sizes", count=len(source.sizes)), (sizes,)))
    if source.facts.level:
        told.append(Fact(speak.say("cover.level"), (str(source.facts.level),)))
    minutes = sum(minutes_of(section) for section in source.sections)
    if minutes:
        told.append(Fact(speak.say("cover.time"), (told_time(minutes, speak),)))
    if proof.make > 1:
        told.append(Fact(speak.say("cover.makes"), (speak.say("cover.makes-many", make=proof.make),)))
    return told


def _finished(tables: Sequence[Tables], speak: Speaker) -> tuple[str, ...]:
    """The finished size on one line; where sizes differ, each side on its own, the amounts with their sizes."""
    sides: list[str] = []
    differ = False
    for name, _ in tables[0].finished_size:
        texts = [speak.quantity(dict(table.finished_size)[name]) for table in tables]
        by_size = speak.by_size(texts, [table.variant.size for table in tables])
        if len(by_size) == 1:
            sides.append(speak.say("cover.side", side=name, amount=texts[0]))
            continue
        differ = True
        amounts = [speak.say("cover.amount-of", sizes=sizes, amount=text) for sizes, text in by_size]
        told = speak.say("numbers.list-separator").join(amounts)
        sides.append(speak.say("cover.side-by-size", side=name, amounts=told))
    return tuple(sides) if differ else (speak.say("numbers.list-separator").join(sides),)
