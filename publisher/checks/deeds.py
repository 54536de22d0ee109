"""What is done, deed by deed, with the state of the work before each."""

from collections.abc import Collection, Iterator

from publisher.assembly import Action, AssemblyStep
from publisher.checks.values import Deed, Proof
from publisher.drafting import Draft, Piece, Placement, Seam
from publisher.measures import ActionSaying
from publisher.source import WrittenStep
from publisher.terms import Severity, nearest_name

__all__ = [
    "Deed",
    "copies_of",
    "deeds_of",
    "has_errors",
    "misspelt",
    "piece_of",
    "seam_of",
    "sewn_before",
    "told_steps",
]

ENGLISH = "en"


def deeds_of(proof: Proof) -> Iterator[tuple[Deed, ...]]:
    """All actions in order, of each variant."""
    return iter(proof.deeds)


def copies_of(action: Action) -> tuple[str, ...]:
    """The names before the dots of what an action is done to."""
    return tuple(name.partition(".")[0] for name in (action.target, action.other) if name)


def piece_of(draft: Draft, copy: str) -> Piece:
    """The piece of a copy."""
    return draft.piece(draft.copy(copy).piece)


def seam_of(draft: Draft, name: str) -> Seam | None:
    """The seam of that name, if there is one."""
    return next((one for one in draft.seams if one.name == name), None)


def placement_laid(deed: Deed) -> Placement | None:
    """The placement that a deed lays, or bastes, if it does."""
    if deed.action.verb not in ("place", "baste"):
        return None
    return next((one for one in deed.draft.placements if one.name == deed.action.target), None)


def seams_sewn(draft: Draft, step: AssemblyStep) -> list[Seam]:
    """The seams that a step sews, in its order."""
    return [seam for one in step.actions if one.verb == "sew" and (seam := seam_of(draft, one.target)) is not None]


def sewn_before(deed: Deed) -> list[Seam]:
    """The seams that have been sewn before a deed."""
    return [one for one in deed.draft.seams if one.name in deed.before.sewn]


def told_steps(proof: Proof) -> Iterator[tuple[Draft, AssemblyStep, WrittenStep]]:
    """Each step of each variant with its words, where they are English: other words no check reads."""
    if str(proof.source.facts.language) != ENGLISH:
        return
    written = {step.number: step for section in proof.source.sections for step in section.steps}
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        for step in assembly.steps:
            yield draft, step, written[step.number]


def has_errors(proof: Proof) -> bool:
    """True where something could not be drafted or understood: what is missing then is told there, and not as left out."""
    return any(finding.severity is Severity.ERROR for finding in proof.findings)


def misspelt(proof: Proof, verbs: Collection[str], known: Collection[str], undone: Collection[str]) -> frozenset[str]:
    """Those of what is left undone that are meant by lines whose names nothing known bears, which has been told there."""
    meant: set[str] = set()
    for line in (line for section in proof.source.sections for step in section.steps for line in step.does):
        said = proof.measures.saying(line)
        if isinstance(said, ActionSaying) and said.verb in verbs and said.target.text not in known:
            name = nearest_name(said.target.text, undone)
            meant |= {name} if name is not None else set()
    return frozenset(meant)
