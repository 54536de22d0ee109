"""What the words of a step take for done, or for how it lies, against what its lines and those before it do."""

import re
from collections.abc import Iterator

from publisher.checks.deeds import Deed, deeds_of, has_errors, piece_of, seam_of
from publisher.checks.named_edges import edge_named
from publisher.checks.values import Proof
from publisher.drafting import Draft, Seam
from publisher.source import WrittenStep
from publisher.terms import Finding, Severity, Written

ENGLISH = "en"
JUST_SEWN = re.compile(r"\b(?:seam|stitching|line) (?:you have |you )?just (?:sewn|stitched|made)\b", re.IGNORECASE)
# "over the hemmed sides": an edge, and that it is hemmed.
HEMMED = re.compile(r"\bthe hemmed (?P<edge>\w+(?: \w+)?)\b", re.IGNORECASE)
# "Pin the folded edge of each facing flat."
FOLDED_EDGE = re.compile(r"\bthe folded (?:\w+ )?edges?\b", re.IGNORECASE)
WRONG_TOGETHER = re.compile(r"\bwrong sides? together\b", re.IGNORECASE)
RIGHT_TOGETHER = re.compile(r"\bright sides? together\b", re.IGNORECASE)
# What is folded upon itself tells of its own two faces, and not of a seam.
FOLDED = re.compile(r"\b(?:fold|press)\w*\b[^.:;]*$", re.IGNORECASE)
SEWN = ("sew", "baste", "close")


def just_sewn_is_another(proof: Proof) -> Iterator[Finding]:
    """A step speaks of the seam just sewn, and no seam sewn in this step or the one before lies where it works.

    Why: the reader takes the seam that she sewed last, and sews to the wrong one; the one that is meant may not be there yet.

    Fix: put the steps into the order that the words tell of, or name the edge."""
    for step, found in _worded(proof, JUST_SEWN) if not has_errors(proof) else ():
        for deeds in deeds_of(proof):
            own = [one for one in deeds if one.step.number == step.number]
            seams = [seam for one in own if (seam := _seam_in(one)) is not None]
            last = [
                seam
                for one in deeds
                if one.action.verb == "sew" and one.step.number in (step.number - 1, step.number)
                if (seam := seam_of(one.draft, one.action.target)) is not None
            ]
            if not seams or any(_touch(seam, other) for seam in seams for other in last if seam != other):
                continue
            yield Finding(
                "just-sewn-is-another",
                Severity.WARNING,
                found.place,
                f"step {step.number} speaks of '{found}' at '{seams[0].name}', and "
                + (f"step {step.number - 1} has sewn '{last[0].name}'" if last else "none has been sewn just before"),
                "put the steps into the order that the words tell of, or name the edge",
                (own[0].draft.variant,),
            )


def _worded(proof: Proof, words: re.Pattern[str]) -> Iterator[tuple[WrittenStep, Written]]:
    """Each place in English steps where such words stand."""
    if str(proof.source.facts.language) != ENGLISH:
        return
    for section in proof.source.sections:
        for step in section.steps:
            for found in words.finditer(str(step.text)):
                yield step, step.text.part(found.start(), found.end())


def _seam_in(deed: Deed) -> Seam | None:
    return seam_of(deed.draft, deed.action.target) if deed.action.verb in SEWN else None


def _touch(one: Seam, other: Seam) -> bool:
    """True where two seams run along one edge of one copy."""
    atoms = [{(side.copy, side.edge) for side in (*seam.first, *seam.second)} for seam in (one, other)]
    return bool(atoms[0] & atoms[1])


def hemmed_only_later(proof: Proof) -> Iterator[Finding]:
    """A step speaks of an edge as hemmed, and a later step hems it.

    Why: the reader works over a raw edge, and its own hem then cannot be turned at that corner.

    Fix: hem that edge first, or take the word out."""
    for step, found in _worded(proof, HEMMED):
        word = str(found).lower().removeprefix("the hemmed ")
        for deeds in deeds_of(proof):
            own = {one.action.target.partition(".")[0] for one in deeds if one.step.number == step.number}
            later = [one for one in deeds if one.action.verb == "hem" and one.step.number > step.number]
            for one in later:
                copy, _, edge = one.action.target.partition(".")
                if copy in own and _is_called(one.draft, copy, edge, word):
                    yield Finding(
                        "hemmed-only-later",
                        Severity.WARNING,
                        found.place,
                        f"step {step.number} speaks of '{found}', and '{one.action.target}' is hemmed in step "
                        f"{one.step.number}",
                        f"hem it before step {step.number}, or take the word out",
                        (one.draft.variant,),
                    )
                    break


def folded_edge_is_raw(proof: Proof) -> Iterator[Finding]:
    """A step stitches an edge that its words call folded, and no step has folded it.

    Why: the edge is raw, lies further out than the words say, and frays.

    Fix: fold the edge in an earlier step, and say so: `Does: fold …`."""
    for step, found in _worded(proof, FOLDED_EDGE):
        for deeds in deeds_of(proof):
            folded: set[tuple[str, str]] = set()
            for one in deeds:
                named = edge_named(one.draft, one.action.target)
                atoms = {(named.copy.name, part.name) for part in named.parts} if named is not None else set()
                if one.action.verb in ("fold", "hem", "mitre", "turn"):
                    folded |= atoms
                whole = named is None or named.piece.strip is not None
                if one.step.number != step.number or one.action.verb != "topstitch" or whole or folded & atoms:
                    continue
                if not atoms & one.before.closed_edges:
                    yield Finding(
                        "folded-edge-is-raw",
                        Severity.ERROR,
                        found.place,
                        f"step {step.number} stitches '{one.action.target}', which it calls folded, and no step folds it",
                        f"write 'Does: fold {one.action.target}' under an earlier step that folds it",
                        (one.draft.variant,),
                    )
                    break


def _is_called(draft: Draft, copy: str, edge: str, word: str) -> bool:
    """True where a word or its plural is the name of an edge, or of edges that it is one of: `sides` of `left side`."""
    names = {edge, edge.split()[-1]}
    names |= {joint.name for joint in piece_of(draft, copy).joint_edges if edge in joint.edges}
    said = {word, word.split()[0]}
    return bool(said & {form for name in names for form in (name, f"{name}s")})


def sides_together_not_as_told(proof: Proof) -> Iterator[Finding]:
    """The words of a step lay wrong sides together, and its line sews the seam right sides together; or the other way round.

    Why: words and figure contradict each other, and the allowances come to lie on the side where they are not wanted.

    Fix: write `, wrong sides together` behind the line's seam, or take it out; or mend the words."""
    if str(proof.source.facts.language) != ENGLISH:
        return
    written = {step.number: step for section in proof.source.sections for step in section.steps}
    for deeds in deeds_of(proof):
        for deed in deeds:
            alone = [one for one in deeds if one.step == deed.step and _seam_in(one) is not None]
            if alone != [deed] or edge_named(deed.draft, deed.action.target) is not None:
                continue  # which of several seams the words mean they do not say plainly
            text = str(written[deed.step.number].text)
            wrong = any(not FOLDED.search(text[: found.start()]) for found in WRONG_TOGETHER.finditer(text))
            right = RIGHT_TOGETHER.search(text) is not None
            if wrong == right or deed.action.wrong_sides == wrong or deed.action.verb == "close":
                continue
            told, lies = ("wrong", "right") if wrong else ("right", "wrong")
            yield Finding(
                "sides-together-not-as-told",
                Severity.WARNING,
                deed.action.place,
                f"the words of step {deed.step.number} lay {told} sides together, and this line sews "
                f"'{deed.action.target}' {lies} sides together",
                "write ', wrong sides together' behind it" if wrong else "take ', wrong sides together' out",
                (deed.draft.variant,),
            )
