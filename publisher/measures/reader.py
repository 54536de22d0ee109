"""Every saying of a source parsed once, and the circles among its measures found."""

from collections.abc import Callable, Iterator
from dataclasses import fields, is_dataclass
from graphlib import CycleError, TopologicalSorter

from publisher.measures.action_sayings import parse_action, parse_shown
from publisher.measures.formulas import parse_formula
from publisher.measures.mark_sayings import parse_dart, parse_hem, parse_mark, parse_pleat
from publisher.measures.sayings import (
    parse_copy,
    parse_corner,
    parse_edge,
    parse_held,
    parse_matching,
    parse_name,
    parse_pair,
    parse_part,
    parse_point,
    parse_side,
    parse_width,
)
from publisher.measures.values import Asked, Formula, Measures, Name, Operation, Saying, Solved
from publisher.source import Native, Source, WrittenPiece, quotes_of
from publisher.terms import Finding, Place, Severity, UnitSystem, Unusable, Written

Parser = Callable[[Written], Saying]


def read_measures(source: Source) -> tuple[Measures, tuple[Finding, ...]]:
    """All trees by the place of their text, which measure reads which, and findings for what cannot be read."""
    sayings: dict[tuple[Place, str], Saying] = {}
    found: list[Finding] = []
    for written, parser in _written(source):
        key = (written.place, str(written))
        if key in sayings or (not written and written.place.nowhere):  # what was left out has been told
            continue
        try:
            sayings[key] = parser(written)
        except Unusable as reason:
            found.append(reason.finding)
    measures = Measures(tuple(sayings.items()), ())
    circles = [circle for units in UnitSystem for circle in _circles(source, _reads(source, measures, units))]
    reads = _reads(source, measures, None)
    return Measures(tuple(sayings.items()), reads), (*found, *dict.fromkeys(circles))


def _natives(*natives: Native | None) -> Iterator[Written]:
    for native in natives:
        if native is not None:
            yield native.inch
            yield native.metric


def _written(source: Source) -> Iterator[tuple[Written, Parser]]:
    formulas = [native for measure in source.measures for _, native in measure.by_size]
    formulas += [native for _, native in source.finished_size]
    guide = source.facts.size_guide
    formulas += [guide.body, guide.finished, *([guide.ease] if guide.ease is not None else [])] if guide else []
    formulas += [native for notion in source.notions for _, native in notion.sizes]
    optional = [source.allowance, *(notion.count for notion in source.notions)]
    optional += [native for material in source.materials for native in (material.allowance, material.thickness)]
    optional += [native for material in source.materials for native in (material.repeat, material.repeat_across)]
    optional += [native for seam in source.seams for native in (seam.ease, seam.leave_open)]
    for written in _natives(*formulas, *optional):
        yield written, parse_formula
    for piece in source.pieces:
        yield from _written_in_piece(piece)
    for material in source.materials:
        for written in _natives(*material.sold):
            yield written, parse_width
        if material.shrinkage is not None:
            yield material.shrinkage, parse_part
    for seam in source.seams:
        for side in seam.join:
            yield side, parse_side
    for placement in source.placements:
        for pair in placement.matching:
            yield pair, parse_matching
    for binding in source.bindings:
        for edge in binding.binds:
            yield edge, parse_name
        for written in _natives(binding.overlap):
            yield written, parse_formula
    yield from _written_in_prose(source)


def _written_in_piece(piece: WrittenPiece) -> Iterator[tuple[Written, Parser]]:
    shape = piece.outline or piece.rectangle
    if piece.outline is not None:
        for written in _natives(*(native for _, native in piece.outline.points)):
            yield written, parse_point
        for _, written in piece.outline.edges:
            yield written, parse_edge
    if piece.rectangle is not None:
        for written in _natives(piece.rectangle.says):
            yield written, parse_pair
    if piece.form is not None:
        for written in _natives(*piece.form.sizes):
            yield written, parse_pair if piece.form.kind == "ellipse" else parse_formula
    formulas = [corner.size for corner in (shape.corners if shape else ())]
    formulas += [native for _, native in piece.edge_allowances]
    own = [copy.allowances for copy in piece.copies if copy.allowances is not None]
    formulas += [native for one in own for _, native in one.edges]
    optional = [piece.allowance, *(one.whole for one in own)]
    if piece.strip is not None:
        optional += [piece.strip.finished_width, piece.strip.length, piece.strip.ends, piece.strip.thickness]
    for written in _natives(*formulas, *optional):
        yield written, parse_formula
    for written in _natives(piece.holds):
        yield written, parse_held
    for copy in piece.copies:
        yield copy.says, parse_copy
    for mark in piece.marks:
        yield mark.says, parse_mark
    for _, corner in piece.corners:
        yield corner, parse_corner
    for _, hem in piece.hems:
        yield hem, parse_hem
    for dart in piece.darts:
        yield dart.says, parse_dart
    for pleat in piece.pleats:
        yield pleat.says, parse_pleat


def _written_in_prose(source: Source) -> Iterator[tuple[Written, Parser]]:
    for text in source.facts.prose:
        for quote in quotes_of(text):
            yield quote, parse_formula
    for section in source.sections:
        for quote in section.all_quotes:
            yield quote, parse_formula
        for step in section.steps:
            for quote in step.all_quotes:
                yield quote, parse_formula
            for line in step.does:
                yield line, parse_action
            for line in step.now:
                yield line, parse_name
            for line in step.shown:
                yield line, parse_shown


def names_in(formula: Formula, asked: bool = True) -> Iterator[str]:
    """Every name that a formula reads; with `asked` false, not the pieces, edges and seams that it asks about."""
    match formula:
        case Name():
            yield formula.text
        case Operation():
            if formula.left is not None:
                yield from names_in(formula.left, asked)
            yield from names_in(formula.right, asked)
        case Solved():
            for side in (formula.left, formula.right, formula.low, formula.high):
                yield from names_in(side, asked)
        case Asked():
            for about in formula.about if asked or formula.what in ("larger", "smaller") else ():
                yield from names_in(about, asked)


def names_read(measures: Measures) -> frozenset[str]:
    """Every name that any formula of the source reads, that of a quote included."""
    return frozenset(names_within([tree for _, tree in measures.sayings]))


def names_within(value: object) -> Iterator[str]:
    """The names in a tree of sayings, wherever they stand in it."""
    if isinstance(value, Name):
        yield value.text
    elif isinstance(value, list | tuple | frozenset):
        for one in value:
            yield from names_within(one)
    elif is_dataclass(value):
        for part in fields(value):
            yield from names_within(getattr(value, part.name))


def _reads(source: Source, measures: Measures, units: UnitSystem | None) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Which measures each measure reads, in one unit system or (None) in either."""
    known = {str(measure.name) for measure in source.measures}
    read: list[tuple[str, tuple[str, ...]]] = []
    for measure in source.measures:
        names: dict[str, None] = {}
        for _, native in measure.by_size:
            for written, system in ((native.inch, UnitSystem.INCH), (native.metric, UnitSystem.METRIC)):
                formula = measures.saying(written) if units in (None, system) else None
                if formula is not None:
                    names.update(dict.fromkeys(name for name in names_in(formula, asked=False) if name in known))  # type: ignore[arg-type]
        read.append((str(measure.name), tuple(names)))
    return tuple(read)


def _circles(source: Source, reads: tuple[tuple[str, tuple[str, ...]], ...]) -> Iterator[Finding]:
    """One finding for each circle; the measures in it are taken out before the next is looked for."""
    graph = {name: set(others) for name, others in reads}
    places = {str(measure.name): measure.name.place for measure in source.measures}
    while True:
        try:
            TopologicalSorter(graph).prepare()
            return
        except CycleError as circle:
            # graphlib tells the chain from what is read to who reads it; the maker wrote it the other way round.
            chain: list[str] = list(reversed(circle.args[1]))
            first = min(chain, key=lambda name: (places[name].line, places[name].column))
            turned = chain[chain.index(first) : -1] + chain[: chain.index(first)] + [first]
            told = " → ".join(f"'{name}'" for name in turned)
            yield Finding(
                "circle-of-formulas",
                Severity.ERROR,
                places[first],
                f"a circle: {told}",
                "give one of them a length that does not depend on the others",
            )
            for name in set(chain):
                graph[name] = set()
