"""Cautions where work can hurt, and heat where something melts, by the words of the steps."""

import re
from collections.abc import Iterator

from publisher.checks.values import Proof
from publisher.source import WrittenStep
from publisher.terms import Finding, Severity

AT_A_NECK = "a cord at a neck"
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
        AT_A_NECK,
        re.compile(
            r"\b(?:cord|drawstring|lanyard|string|loop)\b[^.]*\b(?:round|for|over|about) (?:the|a|your|her|his|their) neck\b"
            r"(?! (?:edge|line|seam|opening|hole|facing|band)\b)"
        ),
        r"\bneck\b|\bstrang|\bchild|\bgives? way\b",
    ),
)
# Who wears it is grown, or works beside what turns: then what is said of children is not said to the wearer.
GROWN = re.compile(
    r"\bfor (?:grown(?:-ups?| people| persons?)|adults)\b|\b(?:workshops?|workbench(?:es)?|lathes?)\b", re.IGNORECASE
)
OF_CHILDREN = re.compile(r"\b(?:child(?:ren)?|kids?|bab(?:y|ies)|toddlers?|infants?)\b", re.IGNORECASE)
OF_ANYBODY = re.compile(r"\bstrang|\bgives? way\b", re.IGNORECASE)
SENTENCE = re.compile(r"(?<=[.;!?])\s+")
# What is fused and melts on a hot iron, unless it is of cotton or wool; and words that tell how hot, or of trying it first.
FUSED_AND_MELTS = re.compile(
    r"^(?!.*\b(?:cotton|wool|woollen|linen|bamboo)\b).*\b(?:wadding|batting|foam|fleece|vinyl|polyester|nylon|plastic)\b",
    re.IGNORECASE,
)
# Wadding that does not say what it is of may be of cotton.
SURELY_MELTS = re.compile(r"\b(?:foam|vinyl|polyester|nylon|plastic)\b", re.IGNORECASE)
HEED = re.compile(
    r"\bheat\b|\bmelt|\bscorch|\b(?:cool|warm|low|medium|moderate) (?:iron|heat|setting)\b|\biron (?:is )?(?:cool|warm)\b"
    r"|\bcloth between\b|\b(?:press(?:ing)? cloth|baking paper|damp cloth)\b|\btoo hot\b|\btemperature\b"
    r"|\b(?:try|test)\b[^.;]*\bscraps?\b",
    re.IGNORECASE,
)
HOT = re.compile(r"\b(?:hot|hottest) (?:\w+ )?iron\b|\biron (?:is )?(?:hot|at its hottest)\b", re.IGNORECASE)
MELTS = re.compile(r"\b(?:plastic|nylon|vinyl|polyester|foam|wadding)\b", re.IGNORECASE)


def _steps(proof: Proof) -> list[WrittenStep]:
    english = str(proof.source.facts.language) == "en"
    return [step for section in proof.source.sections for step in section.steps] if english else []


def _cautions(proof: Proof) -> list[str]:
    """The cautions of the whole pattern, sentence by sentence."""
    asides = [
        aside
        for section in proof.source.sections
        for aside in (*section.asides, *(one for step in section.steps for one in step.asides))
    ]
    return [one for aside in asides if aside.kind == "caution" for one in SENTENCE.split(str(aside.text))]


def caution_missing(proof: Proof) -> Iterator[Finding]:
    """A step sews close beside metal, puts a cord to a neck, rolls up blades, or fuses what melts, and no caution says what
    may happen; or grown people wear the cord, and the cautions speak of children alone.

    Why: a needle that meets metal breaks, and splinters fly; a cord does not give way, whoever wears it; wadding that melts
    sticks and burns.

    Fix: write `Caution: …` below the step: what may happen, and what to do."""
    cautions = _cautions(proof)
    warnings = {what: cautions for what, _, _ in HURTS}
    facts = " ".join(str(one) for one in (proof.source.facts.title, proof.source.facts.about) if one is not None)
    if GROWN.search(" ".join([facts, *cautions])) and not OF_CHILDREN.search(facts):
        warnings[AT_A_NECK] = [one for one in cautions if OF_ANYBODY.search(one) or not OF_CHILDREN.search(one)]
    for step in _steps(proof):
        for what, words, warned in HURTS:
            found = words.search(str(step.text))
            if found is not None and not re.search(warned, " ".join(warnings[what]), re.IGNORECASE):
                yield Finding(
                    "caution-missing",
                    Severity.WARNING,
                    step.text.part(found.start(), found.end()).place,
                    f"step {step.number} has {what}, and no caution of the pattern speaks of it"
                    f"{' but for children' if len(warnings[what]) < len(cautions) else ''}",
                    "write 'Caution: …' below the step",
                    proof.variants,
                )

    yield from _melts_unheeded(proof)


def _melts_unheeded(proof: Proof) -> Iterator[Finding]:
    """The first step that fuses what melts, where no word of the pattern speaks of heat."""
    steps, sections = {step.number: step for step in _steps(proof)}, proof.source.sections
    asides = [
        *(one for section in sections for one in section.asides),
        *(one for s in steps.values() for one in s.asides),
    ]
    fusing = [step.number for one in proof.assemblies for step in one.steps for do in step.actions if do.verb == "fuse"]
    # What is said of the iron later, of a zip or of a seam, comes too late.
    spoken = [step.text for step in steps.values() if step.number <= max(fusing, default=0)]
    texts = (*spoken, *(section.intro for section in sections), *(aside.text for aside in asides))
    if not steps or HEED.search(" ".join(map(str, texts))):
        return
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        names = {str(one.key): str(one.name) for one in proof.source.materials if FUSED_AND_MELTS.search(str(one.name))}
        melts = {
            copy.name: names[copy.material] for one in draft.pieces for copy in one.copies if copy.material in names
        }
        fused = ((step, one) for step in assembly.steps for one in step.actions if one.verb == "fuse")
        first = next(((step, one) for step, one in fused if one.target in melts), None)
        if first is not None:
            step, action = first
            sure = SURELY_MELTS.search(melts[action.target]) is not None
            yield Finding(
                "caution-missing",
                Severity.WARNING if sure else Severity.ADVICE,
                steps[step.number].text.place,
                f"step {step.number} fuses '{action.target}', which {'melts' if sure else 'may melt'} on a hot iron, and no "
                "caution of the pattern speaks of the heat",
                "write 'Caution: …' below the step",
                (draft.variant,),
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
