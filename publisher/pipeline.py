"""The way through: from the bytes of a pattern folder to a proof, stage by stage. Reads no disk."""

import sys
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from itertools import chain
from typing import TypeVar

from publisher.assembly import Assembly, assemble
from publisher.checks import Allowed, Proof, allowed_in, check, let_through
from publisher.cloth import Cloth, cut_for_many, plan_cloth
from publisher.drafting import Draft, draft_variants
from publisher.frozen import dataclass
from publisher.measures import Measures, read_measures
from publisher.parting import both
from publisher.source import Source, read_source
from publisher.substituting import with_substitutes
from publisher.tables import Tables, tabulate
from publisher.template_pages import EDITIONS, TemplatePages, plan_pages
from publisher.terms import Finding, Severity, UnitSystem, merge_findings

# Formulas that read one another are worked out one within the other: drafting bounds how many, and brackets are bounded
# too, so that this is never reached.
DEEPEST_CALLS = 20_000
# What follows where a whole group of names, or the seam allowance, could not be read: told, it would hide the cause.
FOLLOWING = ("no-such-name", "no-allowance", "copy-never-used")


Value = TypeVar("Value")


def prove(
    name: str, files: Mapping[str, bytes], allow: Sequence[Allowed] = ()
) -> tuple[Proof | None, tuple[Finding, ...]]:
    """The proof of a pattern and all that was found, in order of place; no proof where nothing could be read.

    A proof with errors among its findings is there to be looked at, not to be printed. What the pattern, or `allow`,
    lets through is marked.
    """
    sys.setrecursionlimit(max(sys.getrecursionlimit(), DEEPEST_CALLS))
    source, unread = read_source(name, files)
    if source is None:
        return None, merge_findings(unread)
    measures, unparsed = read_measures(source)
    parts = both(
        lambda: _of_system(source, measures, UnitSystem.INCH), lambda: _of_system(source, measures, UnitSystem.METRIC)
    )
    proof = Proof(
        source=source,
        measures=measures,
        drafts=_together(part.drafts for part in parts),
        assemblies=_together(part.assemblies for part in parts),
        cloths=_together(part.cloths for part in parts),
        tables=_together(part.tables for part in parts),
        template_pages=_together(part.template_pages for part in parts),
    )
    found = [*unparsed, *_together(part.findings for part in parts)]
    found += check(replace(proof, findings=(*unread, *found)))
    if source.unread_groups:
        found = [finding for finding in found if finding.name not in FOLLOWING]
    findings = let_through(merge_findings((*unread, *found)), (*allowed_in(source), *allow))
    proof = replace(proof, findings=findings)
    return (proof if errors_in(findings) else with_substitutes(proof)), findings


@dataclass(frozen=True, slots=True)
class _Part:
    """What is computed of one unit system for itself: a value of each a size."""

    drafts: tuple[Draft, ...]
    assemblies: tuple[Assembly, ...]
    cloths: tuple[Cloth, ...]
    tables: tuple[Tables, ...]
    template_pages: tuple[TemplatePages, ...]
    findings: tuple[Finding, ...]


def _of_system(source: Source, measures: Measures, units: UnitSystem) -> _Part:
    drafts, undrafted = draft_variants(source, measures, (units,))
    assembled = [assemble(source, measures, draft) for draft in drafts]
    laid_out = [plan_cloth(draft, source.kept) for draft in drafts]
    planned = [plan_pages(drafts, edition) for edition in EDITIONS if edition.units is units]
    assemblies = tuple(assembly for assembly, _ in assembled)
    cloths = tuple(cloth for cloth, _ in laid_out)
    return _Part(
        drafts=drafts,
        assemblies=assemblies,
        cloths=cloths,
        tables=tuple(
            tabulate(draft, cloth, assembly, source.facts.tools)
            for draft, cloth, assembly in zip(drafts, cloths, assemblies, strict=True)
        ),
        template_pages=tuple(pages for pages, _ in planned),
        findings=(*undrafted, *_together(findings for _, findings in (*assembled, *laid_out, *planned))),
    )


def _together(parts: Iterable[tuple[Value, ...]]) -> tuple[Value, ...]:
    return tuple(chain.from_iterable(parts))


def only_sizes(proof: Proof, sizes: Sequence[str]) -> Proof:
    """The proof of these sizes alone, in the pattern's order, for an edition that prints no others; no sizes: all."""
    if not sizes:
        return proof
    kept = [at for at, draft in enumerate(proof.drafts) if draft.variant.size in sizes]
    drafts = tuple(proof.drafts[at] for at in kept)
    # What is printed of fewer sizes takes no more room than what is printed of all, which has been proved.
    planned = tuple(plan_pages(_drafts_in(drafts, edition.units), edition)[0] for edition in EDITIONS)
    return replace(
        proof,
        source=replace(proof.source, sizes=tuple(size for size in proof.source.sizes if size in sizes)),
        drafts=drafts,
        assemblies=tuple(proof.assemblies[at] for at in kept),
        cloths=tuple(proof.cloths[at] for at in kept),
        tables=tuple(proof.tables[at] for at in kept),
        template_pages=planned,
        only=tuple(str(size) for size in proof.source.sizes if size in sizes),
    )


def for_many(proof: Proof, make: int) -> Proof:
    """The proof with cloth, chart and notions for so many of the pattern; its pieces and templates stay one set."""
    if make == proof.make:
        return proof
    drafts = [cut_for_many(draft, make) for draft in proof.drafts]
    # What one of them proves of its cloth holds for many.
    cloths = tuple(plan_cloth(draft, proof.source.kept)[0] for draft in drafts)
    tables = tuple(
        tabulate(draft, cloth, assembly, proof.source.facts.tools)
        for draft, cloth, assembly in zip(drafts, cloths, proof.assemblies, strict=True)
    )
    return with_substitutes(replace(proof, cloths=cloths, tables=tables, make=make))


def _drafts_in(drafts: tuple[Draft, ...], units: UnitSystem) -> tuple[Draft, ...]:
    return tuple(draft for draft in drafts if draft.variant.units is units)


def errors_in(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """The findings that stop publishing."""
    return tuple(finding for finding in findings if finding.severity is Severity.ERROR and finding.allowed is None)
