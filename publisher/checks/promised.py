"""What the words promise or leave out: things that the pattern has not, cautions that are missing, an iron too hot."""

import re
from collections.abc import Iterator

from publisher.checks.values import Proof
from publisher.source import WrittenStep
from publisher.terms import Finding, Severity

# What an introduction speaks of, and the words of names by which the pattern would have it.
PROMISED = (
    ("zip", re.compile(r"\bzip(?:per)?s?\b", re.IGNORECASE)),
    ("button", re.compile(r"\bbuttons?\b", re.IGNORECASE)),
    ("snap", re.compile(r"\bsnaps?\b", re.IGNORECASE)),
    ("magnet", re.compile(r"\bmagnet(?:ic)?s?\b", re.IGNORECASE)),
    ("elastic", re.compile(r"\belastic\b", re.IGNORECASE)),
    ("ring", re.compile(r"\b(?:[DO]-?)?rings?\b", re.IGNORECASE)),
    ("pocket", re.compile(r"\bpockets?\b", re.IGNORECASE)),
    ("handle", re.compile(r"\bhandles?\b", re.IGNORECASE)),
    ("strap", re.compile(r"\bstraps?\b", re.IGNORECASE)),
    ("flap", re.compile(r"\bflaps?\b", re.IGNORECASE)),
    ("cord", re.compile(r"\bcords?\b", re.IGNORECASE)),
    ("hood", re.compile(r"\bhoods?\b", re.IGNORECASE)),
)
DENIED = re.compile(r"\b(?:no|not|without|instead of|rather than|for a|into a|in a) (?:an? )?$", re.IGNORECASE)
# Work that can hurt, by the words of a step, and the words of which its caution has one (common practice, no source).
HURTS = (
    (
        "a needle beside metal",
        re.compile(r"\bbeyond the stops?\b|\bacross the (?:chain|zip)\b"),
        r"\bstops?\b|\bchain\b",
    ),
    (
        "a needle beside metal",
        re.compile(r"\bclose (?:below|to|beside|above) the (?:D-)?(?:ring|buckle|slider|snap)\b"),
        r"needle|wheel|by hand",
    ),
    (
        "a point or an edge",
        re.compile(r"\b(?:awl|chisel|scalpel|craft knife)\b[^.]*\broll\b|\bpoints? down"),
        r"point|edge|blade",
    ),
)
HOT = re.compile(r"\b(?:hot|hottest) (?:\w+ )?iron\b|\biron (?:is )?(?:hot|at its hottest)\b", re.IGNORECASE)
MELTS = re.compile(r"\b(?:plastic|nylon|vinyl|polyester|foam|wadding)\b", re.IGNORECASE)


def _steps(proof: Proof) -> list[WrittenStep]:
    english = str(proof.source.facts.language) == "en"
    return [step for section in proof.source.sections for step in section.steps] if english else []


def promised_and_missing(proof: Proof) -> Iterator[Finding]:
    """The introduction speaks of a zip, a button, a pocket, and nothing in the pattern is one.

    Why: it was written for another pattern, or before a change; the reader looks for what she was promised.

    Fix: tell what there is."""
    about = proof.source.facts.about
    if about is None or str(proof.source.facts.language) != "en" or not proof.drafts:
        return
    has = _all_names(proof)
    for thing, words in PROMISED:
        found = next((one for one in words.finditer(str(about)) if not DENIED.search(str(about)[: one.start()])), None)
        if found is not None and not words.search(has):
            yield Finding(
                "promised-and-missing",
                Severity.WARNING,
                about.part(found.start(), found.end()).place,
                f"the introduction speaks of a {thing}, and no piece, edge or notion is one",
                "tell what there is, or add what was promised",
                proof.variants,
            )


def _all_names(proof: Proof) -> str:
    """The names of everything in the pattern, and the words of its steps."""
    source = proof.source
    names = [str(piece.name) for piece in source.pieces]
    names += [f"{notion.key} {notion.name} {notion.kind}" for notion in source.notions]
    names += [f"{material.key} {material.name}" for material in source.materials]
    names += [str(measure.name) for measure in source.measures]
    return ", ".join([*names, *(str(step.text) for section in source.sections for step in section.steps)])


def caution_missing(proof: Proof) -> Iterator[Finding]:
    """A step sews close beside metal, puts a cord to a neck or rolls up blades, and no caution says what may happen.

    Why: a needle that meets metal breaks, and splinters fly; a cord does not give way.

    Fix: write `Caution: …` below the step: what may happen, and what to do."""
    cautions = " ".join(
        str(aside.text)
        for section in proof.source.sections
        for aside in (*section.asides, *(one for step in section.steps for one in step.asides))
        if aside.kind == "caution"
    )
    for step in _steps(proof):
        for what, words, warned in HURTS:
            found = words.search(str(step.text))
            if found is not None and not re.search(warned, cautions, re.IGNORECASE):
                yield Finding(
                    "caution-missing",
                    Severity.WARNING,
                    step.text.part(found.start(), found.end()).place,
                    f"step {step.number} has {what}, and no caution of the pattern speaks of it",
                    "write 'Caution: …' below the step",
                    proof.variants,
                )


def iron_too_hot(proof: Proof) -> Iterator[Finding]:
    """The words of a step take a hot iron, where a notion or a material of the pattern melts.

    Why: the teeth of a plastic zip warp, and wadding sticks to the iron.

    Fix: say a cool iron, or a cloth between; or keep the iron away from it."""
    source = proof.source
    goods = [(notion.key, notion.name) for notion in source.notions]
    goods += [(material.key, material.name) for material in source.materials]
    melts = [key for key, name in goods if MELTS.search(str(name))]
    for step in _steps(proof):
        found = HOT.search(str(step.text))
        if found is not None and melts:
            yield Finding(
                "iron-too-hot",
                Severity.WARNING,
                step.text.part(found.start(), found.end()).place,
                f"step {step.number} takes a hot iron, and '{melts[0]}' melts",
                "say a cool iron, or lay a cloth between",
                proof.variants,
            )
