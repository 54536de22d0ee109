"""From what was written to a draft of each variant, with findings about everything that cannot be drafted."""

from collections.abc import Callable, Iterable
from typing import TypeVar

from publisher.drafting.bench import AlreadyFound, Bench, unusable
from publisher.drafting.cut_apart import cut_apart
from publisher.drafting.facing import facing_away
from publisher.drafting.goods import draft_material, draft_notion
from publisher.drafting.pieces import draft_piece
from publisher.drafting.placing import laying_of
from publisher.drafting.questions import answer
from publisher.drafting.quotes import quote_all
from publisher.drafting.references import copy_names, measure_quantity, the_copys_piece, work_out, work_out_length
from publisher.drafting.seam_values import SeamEdge
from publisher.drafting.seams import draft_binding, draft_placement, draft_seam
from publisher.drafting.snips import snipped_notches
from publisher.drafting.solving import solve_measure
from publisher.drafting.values import Draft, Piece, PieceKind, Sizing
from publisher.measures import Measures
from publisher.source import Source, WrittenPiece, WrittenSizeGuide
from publisher.terms import Finding, UnitSystem, Unusable, Variant, length, of_variant
from publisher.terms import Written as Name

Written = TypeVar("Written")
Drafted = TypeVar("Drafted")


def variants_of(source: Source, systems: Iterable[UnitSystem] = UnitSystem) -> tuple[Variant, ...]:
    """Every unit system with every size; a pattern without sizes has one size, None."""
    sizes: tuple[str | None, ...] = tuple(map(str, source.sizes)) or (None,)
    return tuple(Variant(units, size) for units in systems for size in sizes)


def draft_variants(
    source: Source, measures: Measures, systems: Iterable[UnitSystem] = UnitSystem
) -> tuple[tuple[Draft, ...], tuple[Finding, ...]]:
    """The draft of each variant, inch first, and what was found; each finding knows the variant it was found in."""
    drafts: list[Draft] = []
    found: list[Finding] = []
    apart = cut_apart(source, measures)
    for variant in variants_of(source, systems):
        draft, findings = draft_variant(apart, measures, variant)
        drafts.append(draft)
        found.extend(of_variant(finding, variant) for finding in findings)
    return tuple(drafts), tuple(found)


def draft_variant(source: Source, measures: Measures, variant: Variant) -> tuple[Draft, tuple[Finding, ...]]:
    """One draft. What cannot be drafted is left out and told; it hides nothing else."""
    bench = Bench(source, measures, variant, answer, laying_of, solve_measure)
    found: list[Finding] = list(_names_used_twice(bench))
    worked = _each(
        source.measures, lambda measure: (str(measure.name), measure_quantity(bench, str(measure.name))), found
    )
    pieces = _pieces(bench, found)
    # A seam of a copy or an edge that could not be drafted is left out with it; why has been told.
    copies = {copy.name for piece in pieces for copy in piece.copies}
    edges = _edges_of_copies(pieces)
    seams = _each(source.seams, lambda seam: draft_seam(bench, seam), found)
    placements = _each(source.placements, lambda placement: draft_placement(bench, placement), found)
    bindings = _each(source.bindings, lambda binding: draft_binding(bench, binding), found)
    quoted, unquoted = quote_all(bench)
    found.extend((*unquoted, *bench.told))
    cover = _each([source.facts.cover_drawing], lambda name: _cover(bench, name, pieces), found)
    sizing = _each([source.facts.size_guide] if source.sizes else [], lambda guide: _sizing(bench, guide), found)
    draft = Draft(
        variant=variant,
        measures=tuple(worked),
        pieces=facing_away(pieces, placements),
        snips=tuple((piece.name, snipped_notches(piece)) for piece in pieces),
        seams=tuple(seam for seam in seams if edges.issuperset(map(_sewn, (*seam.first, *seam.second)))),
        placements=tuple(one for one in placements if {one.placed, one.below} <= copies),
        bindings=tuple(one for one in bindings if one.strip in copies and edges.issuperset(map(_sewn, one.edges))),
        materials=tuple(_each(source.materials, lambda material: draft_material(bench, material), found)),
        notions=tuple(_each(source.notions, lambda notion: draft_notion(bench, notion), found)),
        finished_size=tuple(_each(source.finished_size, lambda side: (str(side[0]), work_out(bench, side[1])), found)),
        quoted=quoted,
        inch_step=bench.inch_step,
        sizing=sizing[0] if sizing else None,
        cover=cover[0] if cover else None,
    )
    return draft, tuple(found)


def _each(written: Iterable[Written], draft: Callable[[Written], Drafted], found: list[Finding]) -> list[Drafted]:
    """Each thing drafted; one that cannot be is told and left out, and hides no other."""
    drafted: list[Drafted] = []
    for thing in written:
        try:
            drafted.append(draft(thing))
        except Unusable as reason:
            found.append(reason.finding)
        except AlreadyFound:
            continue
    return drafted


def _pieces(bench: Bench, found: list[Finding]) -> list[Piece]:
    def draft(numbered: tuple[int, WrittenPiece]) -> Piece:
        number, piece = numbered
        drafted, findings = draft_piece(bench, piece, number)
        found.extend(findings)
        return drafted

    return _each(enumerate(bench.source.pieces, start=1), draft, found)


def _sizing(bench: Bench, guide: WrittenSizeGuide | None) -> Sizing | None:
    """What the size guide says of this variant's size. Raises Unusable."""
    if guide is None:
        return None
    body, finished, ease = (
        length(work_out_length(bench, native, f"'{name}' of the size guide")) if native is not None else None
        for name, native in (("body", guide.body), ("finished", guide.finished), ("ease", guide.ease))
    )
    assert body is not None
    assert finished is not None
    return Sizing(body, finished, ease)


def _cover(bench: Bench, name: Name | None, pieces: list[Piece]) -> str | None:
    """The copy for the cover: the one that is named, else the first of the largest drawn piece."""
    if name is not None:
        the_copys_piece(bench, name)
        return str(name) if any(copy.name == name for piece in pieces for copy in piece.copies) else None
    drawn = [piece for piece in pieces if piece.kind is PieceKind.DRAWN and piece.copies]
    if not drawn:
        return None
    return max(drawn, key=lambda piece: piece.cut_width * piece.cut_height).copies[0].name


def _edges_of_copies(pieces: list[Piece]) -> set[tuple[str, str]]:
    """Every copy with every edge and joint edge that was drafted."""
    return {
        (copy.name, name)
        for piece in pieces
        for copy in piece.copies
        for name in (*(edge.name for edge in piece.edges), *(joint.name for joint in piece.joint_edges))
    }


def _sewn(edge: SeamEdge) -> tuple[str, str]:
    return edge.copy, edge.edge


def _names_used_twice(bench: Bench) -> Iterable[Finding]:
    """One name, one meaning: a quote could not tell a measure from a copy of the same name."""
    things = dict.fromkeys(copy_names(bench), "a copy")
    things |= {str(piece.name): "a piece" for piece in bench.source.pieces}
    things |= {str(notion.key): "a notion" for notion in bench.source.notions}
    for measure in bench.source.measures:
        if str(measure.name) in things:
            yield unusable(
                "same-name-twice",
                measure.name.place,
                f"'{measure.name}' is a measure and also {things[str(measure.name)]}",
                "give one of them another name",
            ).finding
