"""What is done, deed by deed, with the state of the work before each."""

from collections.abc import Iterator
from dataclasses import dataclass

from publisher.assembly import Action, AssemblyStep, WorkState, after_action
from publisher.checks.values import Proof
from publisher.drafting import Draft


@dataclass(frozen=True, slots=True)
class Deed:
    """One action with its step, and the state of the work before it."""

    draft: Draft
    step: AssemblyStep
    action: Action
    before: WorkState


def deeds_of(proof: Proof) -> Iterator[tuple[Deed, ...]]:
    """All actions in order, of each variant."""
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        deeds: list[Deed] = []
        for step in assembly.steps:
            state = step.before
            for action in step.actions:
                deeds.append(Deed(draft, step, action, state))
                state = after_action(state, action, draft)
        yield tuple(deeds)


def copies_of(action: Action) -> tuple[str, ...]:
    """The names before the dots of what an action is done to."""
    return tuple(name.partition(".")[0] for name in (action.target, action.other) if name)
