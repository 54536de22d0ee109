"""The figures of every demo, laid out once for all tests."""

from collections.abc import Iterator
from functools import cache

from publisher.assembly import AssemblyStep
from publisher.drafting import Draft
from publisher.edition.step_figures import step_facts
from publisher.edition.step_letters import StepLetters
from publisher.edition.words import speaker
from publisher.figures.steps import Drawing, Panel, facts_of, lay_out, panels_of
from publisher.terms import UnitSystem
from tests.demo import DEMOS, demo_proof
from tests.specimens import prove_text

LETTERS = {units: StepLetters(speaker("en", units)) for units in UnitSystem}
Drawn = tuple[str, AssemblyStep, tuple[Panel, ...], Drawing]


@cache
def drawn_demo(demo: str, units: UnitSystem) -> tuple[Drawn, ...]:
    """(which step, it, its panels, their drawing) for each step of a demo that has a figure."""
    proof = demo_proof(demo)
    draft: Draft = proof.drafts_of(units)[0]
    assembly = proof.assembly_of(draft.variant)
    found: list[Drawn] = []
    written = {step.id: step for section in proof.source.sections for step in section.steps}
    for step in assembly.steps:
        panels = panels_of(draft, step_facts(proof, draft, written[step.id]))
        if panels:
            found.append((f"{demo} {units.value} step {step.number}", step, panels, lay_out(panels, LETTERS[units])))
    return tuple(found)


def all_drawn() -> Iterator[Drawn]:
    """Those of all demos in both unit systems."""
    for demo in DEMOS:
        for units in UnitSystem:
            yield from drawn_demo(demo, units)


def shown_last(pattern: str, *does: str) -> tuple[Panel, ...]:
    """What the last of several steps shows, each of which does one thing; of a pattern in metric."""
    steps = "".join(f"{at}. Do.\n   Does: {one}\n" for at, one in enumerate(does, start=1))
    proof, _ = prove_text(pattern, f"{steps}{len(does) + 1}. Press.\n")
    draft = proof.drafts_of(UnitSystem.METRIC)[0]
    assembly = proof.assembly_of(draft.variant)
    return panels_of(draft, facts_of(assembly, assembly.steps[len(does) - 1]))
