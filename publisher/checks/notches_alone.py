"""Notches at an edge where nothing is sewn on that they could meet."""

import re
from collections.abc import Iterator

from publisher.assembly import Assembly, AssemblyStep
from publisher.checks.deeds import seams_sewn, told_steps
from publisher.checks.named_edges import atoms_in_seams, atoms_of_seam, edge_named
from publisher.checks.values import Proof
from publisher.drafting import Draft, Notch, Piece
from publisher.terms import Finding, Severity

NOTCH = re.compile(r"\bnotch(?:es|ed)?\b|\b(?:at|on|to|from) (?:the|each|both|these) snips?\b", re.IGNORECASE)
CENTRE = re.compile(r"\b(?:centre|center|middle|mid)\b", re.IGNORECASE)
MARKED = re.compile(r"^\s*Does: mark ", re.IGNORECASE)
ENDS = 5.0  # mm from an end or the middle of its edge: it tells where a fold or a half lies


def notch_on_a_hem(proof: Proof) -> Iterator[Finding]:
    """A notch lies on an edge that is hemmed and sewn to nothing, and no step and no mark makes use of it.

    Why: it meets no other notch, it is missing where one was to be met, and the snip shows in the hem.

    Fix: put it on the edge that is sewn; or take it out."""
    steps = list(told_steps(proof))
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True) if steps else ():
        alone = _on_hems(draft)
        used = _used(draft, assembly) if alone else set()
        spoken = any(_speaks(draft, step, str(written.text)) for of, step, written in steps if alone and of is draft)
        spoken |= any(NOTCH.search(one) for one in _asides(proof))
        for piece, mark in alone if not spoken else ():
            names = {f"{copy.name}.{name}" for copy in piece.copies for name in (mark.edge, mark.name)}
            if names.isdisjoint(used) and not _is_written_of(proof, mark.name):
                yield Finding(
                    "notch-on-a-hem",
                    Severity.WARNING,
                    mark.place,
                    f"'{mark.name}' lies on '{mark.edge}' of '{piece.name}', which is hemmed, and nothing meets it there",
                    "put it on the edge that is sewn, or take it out",
                    (draft.variant,),
                )


def _on_hems(draft: Draft) -> list[tuple[Piece, Notch]]:
    """The notches on hemmed edges, each with its piece."""
    pairs = ((piece, mark) for piece in draft.pieces for mark in piece.marks if isinstance(mark, Notch))
    return [
        (piece, mark)
        for piece, mark in pairs
        if mark.edge in {hem.edge for hem in piece.hems} and not _tells_a_place(piece, mark)
    ]


def _used(draft: Draft, assembly: Assembly) -> set[str]:
    """The edges and marks, by copy, to which something is sewn, laid or set, or that are gathered."""
    used = {f"{copy}.{edge}" for copy, edge in atoms_in_seams(draft)}
    for one in draft.placements:
        for own, there in one.matching:
            used |= _with_parts(draft, f"{one.placed}.{own}") | _with_parts(draft, f"{one.below}.{there}")
    for action in (action for step in assembly.steps for action in step.actions):
        if action.verb in ("gather", "attach", "thread"):
            for name in (action.target, action.other):
                used |= _with_parts(draft, name) if name else set()
    return used


def _with_parts(draft: Draft, name: str) -> set[str]:
    edge = edge_named(draft, name)
    return {name} | ({f"{edge.copy.name}.{part.name}" for part in edge.parts} if edge is not None else set())


def _speaks(draft: Draft, step: AssemblyStep, text: str) -> bool:
    """True where the words of a step use notches otherwise than to mark them, or to sew a seam that has some."""
    if not NOTCH.search(text) or any(one.verb in ("mark", "clip") for one in step.actions):
        return False
    return not any(
        notch.edge == edge
        for seam in seams_sewn(draft, step)
        for copy, edge in atoms_of_seam(draft, seam)
        for notch in draft.notches_of(copy)
    )


def _asides(proof: Proof) -> Iterator[str]:
    for section in proof.source.sections:
        yield str(section.intro)
        yield from (str(one.text) for one in section.asides)
        yield from (str(one.text) for step in section.steps for one in step.asides)


def _tells_a_place(piece: Piece, mark: Notch) -> bool:
    """True at an end or in the middle of an edge, where a notch tells how it is folded."""
    length = piece.edge(mark.edge).length
    near = min(mark.distance, length - mark.distance, abs(mark.distance - length / 2))
    return near < ENDS or CENTRE.search(mark.name) is not None


def _is_written_of(proof: Proof, name: str) -> bool:
    """True where the pattern speaks of a mark elsewhere than where it is written and marked."""
    lines = [line for _, text in proof.source.texts for line in text.splitlines() if name in line]
    return len([line for line in lines if not MARKED.match(line)]) > 1
