"""What is done to a seam needs the seam: trimmed, snipped, closed when it is sewn, and topstitched when it is turned."""

import re
from collections.abc import Iterator, Sequence

from publisher.checks.deeds import Deed, deeds_of, seam_of
from publisher.checks.inside_out import enclosed_pairs
from publisher.checks.named_edges import atoms_of_seam, edge_named
from publisher.checks.values import Proof
from publisher.drafting import Draft
from publisher.terms import Finding, Severity

SLIPPED = re.compile(r"\bslip\b[^.;]*\binto\b[^.;]*\bright sides together\b", re.IGNORECASE)
NEEDS_THE_SEAM = ("trim", "clip", "close", "press", "topstitch", "bind")


def worked_before_sewn(proof: Proof) -> Iterator[Finding]:
    """A step trims, snips, presses or closes a seam that a later step sews.

    Why: there is nothing to trim yet, and what is cut away is missing when the seam is sewn.

    Fix: sew the seam in an earlier step."""
    for deeds in deeds_of(proof):
        sewn_in = {deed.action.target: deed.step.number for deed in reversed(deeds) if deed.action.verb == "sew"}
        for deed in deeds:
            verb, target = deed.action.verb, deed.action.target
            early = verb in NEEDS_THE_SEAM and target not in deed.before.sewn
            if early and target in sewn_in and seam_of(deed.draft, target) is not None:
                yield Finding(
                    "worked-before-sewn",
                    Severity.ERROR,
                    deed.action.place,
                    f"step {deed.step.number} says '{verb} {target}', and step {sewn_in[target]} sews it",
                    "move the line to a step after the one that sews it",
                    (deed.draft.variant,),
                )


def topstitched_before_turning(proof: Proof) -> Iterator[Finding]:
    """An edge is topstitched when it has been sewn right sides together and not yet turned right side out.

    Why: the stitches hold it as it lies, inside out, and it cannot be turned any more.

    Fix: turn it first."""
    for deeds in deeds_of(proof):
        for at, deed in enumerate(deeds):
            shut = _inside_out(deed) if deed.action.verb == "topstitch" else frozenset()
            turned = next((one for one in deeds[at:] if one.action.verb == "turn" and one.action.target in shut), None)
            turned = turned or (_slipped_in(deeds, at) if deed.action.verb == "topstitch" else None)
            if turned is not None:
                yield Finding(
                    "topstitched-before-turning",
                    Severity.ERROR,
                    deed.action.place,
                    f"step {deed.step.number} topstitches '{deed.action.target}', which is turned right side out only in "
                    f"step {turned.step.number}",
                    "move the line to a step after it is turned",
                    (deed.draft.variant,),
                )


def _slipped_in(deeds: Sequence[Deed], at: int) -> Deed | None:
    """The turn that comes after topstitching beside the seam which joins two rings, one slipped into the other right sides
    together, with nothing sewn in between."""
    edge = edge_named(deeds[at].draft, deeds[at].action.target)
    parts = {(edge.copy.name, part.name) for part in edge.parts} if edge is not None else set()
    sewn = next((one for one in reversed(deeds[:at]) if one.action.verb == "sew"), None)
    later = next((one for one in deeds[at:] if one.action.verb in ("sew", "turn")), None)
    seam = seam_of(deeds[at].draft, sewn.action.target) if sewn is not None else None
    if seam is None or sewn is None or sewn.action.wrong_sides or later is None or later.action.verb != "turn":
        return None
    rings = [{side.copy for side in sides} for sides in (seam.first, seam.second)]
    between = range(deeds.index(sewn), at)
    turned = any(deeds[one].action.verb == "turn" for one in between)
    joined = later.action.target in rings[0] | rings[1] and parts & atoms_of_seam(deeds[at].draft, seam)
    return later if all(len(ring) > 1 for ring in rings) and joined and not turned else None


def _inside_out(deed: Deed) -> frozenset[str]:
    """The two copies that are sewn round at the edge which a deed names, and of which none is turned yet."""
    edge = edge_named(deed.draft, deed.action.target)
    parts = {(edge.copy.name, part.name) for part in edge.parts} if edge is not None else set()
    for pair, names in enclosed_pairs(deed).items():
        seams = [seam for name in names if (seam := seam_of(deed.draft, name)) is not None]
        sewn = {atom for seam in seams for atom in atoms_of_seam(deed.draft, seam)}
        if parts & sewn and pair.isdisjoint(deed.before.turned):
            return pair
    return frozenset()


def trimmed_before_the_next(proof: Proof) -> Iterator[Finding]:
    """The allowance of a seam is trimmed, and a later step sews another piece to the same edge.

    Why: what is sewn on there is laid level with a trimmed edge, and its stitches come to lie too far in.

    Fix: trim when the last of them is sewn."""
    for deeds in deeds_of(proof):
        trimmed: dict[str, Deed] = {}
        for deed in deeds:
            if deed.action.verb == "trim" and seam_of(deed.draft, deed.action.target) is not None:
                trimmed.setdefault(deed.action.target, deed)
            elif deed.action.verb == "sew":
                own = _edges_of(deed.draft, deed.action.target)
                first = next((one for name, one in trimmed.items() if _edges_of(deed.draft, name) & own), None)
                if first is not None and deed.action.target not in trimmed:
                    yield Finding(
                        "trimmed-before-the-next",
                        Severity.WARNING,
                        first.action.place,
                        f"step {first.step.number} trims '{first.action.target}', and step {deed.step.number} sews "
                        f"'{deed.action.target}' to the same edge",
                        f"trim it after step {deed.step.number}",
                        (deed.draft.variant,),
                    )


def _edges_of(draft: Draft, name: str) -> set[tuple[str, str]]:
    seam = seam_of(draft, name)
    return atoms_of_seam(draft, seam) if seam is not None else set()


def slipped_in_and_not_turned(proof: Proof) -> Iterator[Finding]:
    """A lining is slipped in right sides together, and nothing of it is turned afterwards.

    Why: the hat or bag stays inside out, its allowances outside.

    Fix: slip it in wrong sides together; or turn the work, and say so."""
    if str(proof.source.facts.language) != "en":
        return
    written = {step.number: step for section in proof.source.sections for step in section.steps}
    for deeds in deeds_of(proof):
        for at, deed in enumerate(deeds):
            found = SLIPPED.search(str(written[deed.step.number].text)) if deed.action.verb == "sew" else None
            copies = {copy for copy, _ in _edges_of(deed.draft, deed.action.target)}
            turned = {one.action.target for one in deeds[at:] if one.action.verb == "turn"}
            pieces = {deed.draft.copy(copy).piece for copy in copies}
            if found is not None and not any(deed.draft.copy(one).piece in pieces for one in turned):
                yield Finding(
                    "slipped-in-and-not-turned",
                    Severity.WARNING,
                    written[deed.step.number].text.part(found.start(), found.end()).place,
                    f"step {deed.step.number} slips one into the other right sides together, and no step turns "
                    f"'{sorted(copies)[0]}' afterwards",
                    "say 'wrong sides together'; or turn the work in a later step, and say so",
                    (deed.draft.variant,),
                )
