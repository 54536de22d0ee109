"""Other sizes of what is bought: the pattern drafted once more with each, proved again, and compared."""

from collections.abc import Iterator
from dataclasses import replace

from publisher.assembly import assemble
from publisher.checks import Proof, check
from publisher.cloth import Cloth, cut_for_many, plan_cloth
from publisher.drafting import Draft, draft_variants
from publisher.measures import read_measures
from publisher.tables import Candidate, Substitute, candidates, what_changes
from publisher.terms import Finding, Severity, UnitSystem

# Only one unit system is given another size.
OF_BOTH = "native-pair-apart"


def with_substitutes(proof: Proof) -> Proof:
    """The proof, its tables telling what changes where a ring, webbing, tape or wadding of another stock size is taken.

    Told is only what leaves every template and every proof as it is, in all sizes.
    """
    found = [one for units in UnitSystem for one in _substitutes(proof, units)]
    if not found:
        return proof
    tables = tuple(
        replace(
            table,
            supplies=replace(table.supplies, substitutes=tuple(one for at, one in found if proof.tables[at] is table)),
        )
        for table in proof.tables
    )
    return replace(proof, tables=tables)


def _substitutes(proof: Proof, units: UnitSystem) -> Iterator[tuple[int, Substitute]]:
    """Each with the number of the variant that it holds for."""
    own = [at for at, draft in enumerate(proof.drafts) if draft.variant.units is units]
    texts = [text for (_, text), _ in proof.measures.sayings]
    for candidate in candidates(proof.source, units):
        # A measure is read by what is bought itself, too.
        if sum(candidate.told_by in text for text in texts) < (1 if "." in candidate.told_by else 2):
            continue
        tried = _drafted(proof, candidate)
        if tried is None:
            continue
        before = [(proof.drafts[at], proof.cloths[at]) for at in own]
        told = [
            what_changes(candidate, one, other) for one, other in zip(before, [tried[at] for at in own], strict=True)
        ]
        yield from ((at, one) for at, one in zip(own, told, strict=True) if one is not None and None not in told)


def _drafted(proof: Proof, candidate: Candidate) -> list[tuple[Draft, Cloth]] | None:
    """Every variant with the other size, or None where something would no longer be right."""
    source = candidate.source
    measures, unparsed = read_measures(source)
    drafts, undrafted = draft_variants(source, measures)
    if len(drafts) != len(proof.drafts):
        return None  # a proof of some sizes alone
    if not any(_cut_otherwise(*both) for both in zip(proof.drafts, drafts, strict=True)):
        return None
    assembled = [assemble(source, measures, draft) for draft in drafts]
    laid_out = [plan_cloth(cut_for_many(draft, proof.make), source.kept) for draft in drafts]
    other = replace(
        proof,
        source=source,
        measures=measures,
        drafts=drafts,
        assemblies=tuple(assembly for assembly, _ in assembled),
        cloths=tuple(cloth for cloth, _ in laid_out),
    )
    found = [*unparsed, *undrafted, *check(other)]
    found += [finding for _, findings in (*assembled, *laid_out) for finding in findings]
    if any(_new(proof, finding, candidate.units) for finding in found):
        return None
    return [(draft, cloth) for draft, (cloth, _) in zip(drafts, laid_out, strict=True)]


def _cut_otherwise(one: Draft, other: Draft) -> bool:
    """True where something is cut to another size."""
    return [(piece.cut_width, piece.cut_height) for piece in one.pieces] != [
        (piece.cut_width, piece.cut_height) for piece in other.pieces
    ]


def _new(proof: Proof, finding: Finding, units: UnitSystem) -> bool:
    """True where it stops or warns of the changed unit system, and did not before."""
    if finding.severity is Severity.ADVICE or finding.name == OF_BOTH:
        return False
    holds = not finding.variants or any(variant.units is units for variant in finding.variants)
    return holds and not any((one.name, one.place) == (finding.name, finding.place) for one in proof.findings)
