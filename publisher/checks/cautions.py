"""Cautions where work can hurt, and heat where something melts, by the words of the steps."""

import re
from collections.abc import Iterator

from publisher.checks.values import Proof
from publisher.source import WrittenStep
from publisher.terms import Finding, Severity

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
    (
        "a cord at a neck",
        re.compile(
            r"\b(?:cord|drawstring|lanyard|string|loop)\b[^.]*\b(?:round|for|over|about) (?:the|a|your|her|his|their) neck\b"
            r"(?! (?:edge|line|seam|opening|hole|facing|band)\b)"
        ),
        r"\bneck\b|\bstrang|\bchild|\bgives? way\b",
    ),
)
HOT = re.compile(r"\b(?:hot|hottest) (?:\w+ )?iron\b|\biron (?:is )?(?:hot|at its hottest)\b", re.IGNORECASE)
MELTS = re.compile(r"\b(?:plastic|nylon|vinyl|polyester|foam|wadding)\b", re.IGNORECASE)


def _steps(proof: Proof) -> list[WrittenStep]:
    english = str(proof.source.facts.language) == "en"
    return [step for section in proof.source.sections for step in section.steps] if english else []


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
