"""Other sizes that shops stock of a ring, webbing, tape or wadding, and what changes where one of them is taken."""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from publisher.cloth import Cloth
from publisher.drafting import Draft, PieceKind
from publisher.frozen import dataclass
from publisher.source import Native, Source, WrittenMeasure
from publisher.tables.chart import cutting_chart
from publisher.tables.goods import material_rows
from publisher.tables.values import NewCut, NewLength, NewNumber, Substitute
from publisher.terms import Quantity, UnitSystem, Written, length, read_length

INCH = Fraction(254, 10)


def _sizes(inches: str, millimetres: str) -> dict[UnitSystem, tuple[Fraction, ...]]:
    return {
        UnitSystem.INCH: tuple(INCH * Fraction(one) for one in inches.split()),
        UnitSystem.METRIC: tuple(Fraction(one) for one in millimetres.split()),
    }


# Widths that shops stock (common practice, no source); of wadding, how thick one layer is.
HARDWARE = _sizes("1/2 5/8 3/4 1 5/4 3/2 2", "12 15 20 25 30 40 50")
WEBBING = _sizes("1/2 3/4 1 5/4 3/2 2", "15 20 25 30 40 50")
TAPE = _sizes("1/4 3/8 1/2 5/8 3/4 1 3/2 2", "6 10 12 15 20 25 40 50")
STOCK = {
    **{(kind, "inner width"): HARDWARE for kind in ("ring", "slider", "buckle", "hook")},
    ("webbing", "width"): WEBBING,
    **{(kind, "width"): TAPE for kind in ("tape", "ribbon", "elastic")},
    ("wadding", "thickness"): _sizes("1/8 1/4 3/8 1/2", "3 5 10 15"),
}


@dataclass(frozen=True, slots=True)
class Candidate:
    """A source in which one thing that is bought has another size, in one unit system."""

    key: str  # of the notion, or of the wadding
    name: str
    size: str
    own: Quantity
    other: Quantity
    units: UnitSystem
    source: Source
    told_by: str  # the measure that tells it, or as formulas call the size itself: ring.inner width


def candidates(source: Source, units: UnitSystem) -> Iterator[Candidate]:
    """The next smaller and the next larger stock size of everything whose size is told by one length alone."""
    told = [
        (str(notion.key), str(notion.kind), str(notion.name), str(size), native)
        for notion in source.notions
        for size, native in notion.sizes
    ]
    told += [
        (str(material.key), str(material.kind), str(material.name), "thickness", material.thickness)
        for material in source.materials
        if material.thickness is not None
    ]
    for key, kind, name, size, native in told:
        stock, own = STOCK.get((kind, size)), _length_behind(source, native, units)
        if stock is None or own is None:
            continue
        written, amount, measure = own
        smaller = [one for one in stock[units] if one < amount.amount][-1:]
        larger = [one for one in stock[units] if one > amount.amount][:1]
        for other in (*smaller, *larger):
            changed = _with_length(source, written, other, units)
            yield Candidate(key, name, size, amount, length(other), units, changed, measure or f"{key}.{size}")


def _side(native: Native, units: UnitSystem) -> Written:
    return native.inch if units is UnitSystem.INCH else native.metric


def _length_behind(source: Source, native: Native, units: UnitSystem) -> tuple[Written, Quantity, str | None] | None:
    """The length as it is written that a size stands for: its own, or that of the measure that it names."""
    measures = {str(measure.name): measure for measure in source.measures}
    named: str | None = None
    for _ in range(len(measures) + 1):
        written = _side(native, units)
        measure = measures.get(str(written))
        if measure is None:
            break
        if [size for size, _ in measure.by_size] != [None]:
            return None  # it differs from size to size
        native, named = measure.by_size[0][1], str(measure.name)
    if native.given_once and _foreign(written, units):
        return None  # it is the other system's, rounded
    try:
        return written, read_length(str(written)), named
    except ValueError:
        return None  # a formula: it cannot be changed alone


def _foreign(written: Written, units: UnitSystem) -> bool:
    return str(written).rstrip().endswith(("mm", "cm", "m")) is (units is UnitSystem.INCH)


def _with_length(source: Source, written: Written, other: Fraction, units: UnitSystem) -> Source:
    """The source with another length in the place of one, in one unit system."""
    text = f"{other / INCH} in" if units is UnitSystem.INCH else f"{other} mm"
    new = Written(text, written.place)

    def changed(native: Native) -> Native:
        if _side(native, units) is not written:
            return native
        return Native(new, native.metric) if units is UnitSystem.INCH else Native(native.inch, new)

    def measure(one: WrittenMeasure) -> WrittenMeasure:
        return replace(one, by_size=tuple((size, changed(native)) for size, native in one.by_size))

    return replace(
        source,
        measures=tuple(map(measure, source.measures)),
        notions=tuple(
            replace(one, sizes=tuple((size, changed(native)) for size, native in one.sizes)) for one in source.notions
        ),
        materials=tuple(
            replace(one, thickness=changed(one.thickness)) if one.thickness is not None else one
            for one in source.materials
        ),
    )


def what_changes(candidate: Candidate, before: tuple[Draft, Cloth], after: tuple[Draft, Cloth]) -> Substitute | None:
    """What the reader does otherwise; None where a template would be another, or where nothing changes."""
    draft, other = before[0], after[0]
    if _drawn(draft) != _drawn(other):
        return None
    cuts = tuple(_new_cuts(before, after))
    if not cuts:
        return None
    lengths, numbers = tuple(_new_lengths(before, after)), tuple(_new_numbers(candidate.source, draft, other))
    return Substitute(
        candidate.key, candidate.name, candidate.size, candidate.own, candidate.other, cuts, lengths, numbers
    )


def _drawn(draft: Draft) -> list[object]:
    """All that stands on templates."""
    drawn = [piece.template for piece in draft.pieces if piece.kind is PieceKind.DRAWN]
    return [(piece.name, piece.edges, piece.cut_line, piece.marks) for piece in drawn]


def _new_cuts(before: tuple[Draft, Cloth], after: tuple[Draft, Cloth]) -> Iterator[NewCut]:
    own = {row.copy: row for row in cutting_chart(*before)}
    for row in cutting_chart(*after):
        was = own[row.copy]
        if row.size is not None and (row.size, row.notes) != (was.size, was.notes):
            yield NewCut(row.copy, row.size, tuple(note for note in row.notes if note not in was.notes))


def _new_lengths(before: tuple[Draft, Cloth], after: tuple[Draft, Cloth]) -> Iterator[NewLength]:
    own = {row.key: row for row in material_rows(*before)}
    for row in material_rows(*after):
        for (width, bought), was in zip(row.buy, own[row.key].buy, strict=True):
            if bought != was[1]:
                yield NewLength(row.key, width, bought)


def _new_numbers(source: Source, before: Draft, after: Draft) -> Iterator[NewNumber]:
    """The numbers in the steps that would be others, each once a step."""
    own, other = dict(before.quoted), dict(after.quoted)
    told: set[NewNumber] = set()
    for section in source.sections:
        for step in section.steps:
            for quote in step.all_quotes:
                was, now = (quotes.get((quote.place, str(quote))) for quotes in (own, other))
                if was is None or now is None or was == now or was.quantity is None or now.quantity is None:
                    continue
                new = NewNumber(step.number, was.quantity, now.quantity)
                if new not in told:
                    told.add(new)
                    yield new
