"""What each quote in braces stands for: a quantity of this variant, or the name of something."""

from publisher.drafting.bench import AlreadyFound, Bench, unknown
from publisher.drafting.references import copy_names, work_out_formula
from publisher.drafting.values import Quoted
from publisher.measures import Formula, Name
from publisher.source import Source, quotes_of
from publisher.terms import Finding, Place, Unusable, Written, did_you_mean_or_gone


def quote_all(bench: Bench) -> tuple[tuple[tuple[tuple[Place, str], Quoted], ...], tuple[Finding, ...]]:
    """Every quote by its place and words, and findings for those that stand for nothing."""
    quoted: list[tuple[tuple[Place, str], Quoted]] = []
    found: list[Finding] = []
    for written in written_quotes(bench.source):
        try:
            quoted.append(((written.place, str(written)), _quote(bench, written)))
        except Unusable as reason:
            found.append(reason.finding)
        except AlreadyFound:
            continue
    return tuple(quoted), tuple(found)


def written_quotes(source: Source) -> list[Written]:
    """All quotes: of the facts, then section by section."""
    quotes = [quote for text in source.facts.prose for quote in quotes_of(text)]
    for section in source.sections:
        quotes.extend(section.all_quotes)
        for step in section.steps:
            quotes.extend(step.all_quotes)
    return quotes


def _quote(bench: Bench, written: Written) -> Quoted:
    formula: Formula = bench.saying(written)  # type: ignore[assignment]
    if isinstance(formula, Name) and formula.text not in bench.measures_by_name:
        shown = shown_name(bench, formula.text)
        if shown is not None:
            return Quoted(None, shown)
        if "." not in formula.text:
            raise _nothing_bears(bench, formula)
    return Quoted(work_out_formula(bench, formula), None)


def shown_name(bench: Bench, name: str) -> str | None:
    """How a thing of that name is printed: copies, pieces, seams and placements as they are, goods by their name."""
    if name in _goods(bench.source):
        return _goods(bench.source)[name]
    return name if name in _things(bench) else None


def _goods(source: Source) -> dict[str, str]:
    """The printed names of materials and notions, by their keys."""
    materials = {str(material.key): str(material.name) for material in source.materials}
    return materials | {str(notion.key): str(notion.name) for notion in source.notions}


def _things(bench: Bench) -> tuple[str, ...]:
    source = bench.source
    return (
        *copy_names(bench),
        *(str(piece.name) for piece in source.pieces),
        *(str(seam.name) for seam in source.seams),
        *(str(placement.name) for placement in source.placements),
    )


def _nothing_bears(bench: Bench, name: Name) -> Exception:
    known = (*bench.measures_by_name, *_things(bench), *_goods(bench.source))
    return unknown(
        bench, name.text, name.place, f"no measure called '{name.text}'", did_you_mean_or_gone(name.text, known)
    )
