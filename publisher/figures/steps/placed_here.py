"""What a step places: its marks, stitched lines and rings are drawn there, once, and not by figures of their own."""

from collections.abc import Sequence

from publisher.assembly import Action
from publisher.drafting import Placement
from publisher.figures.steps.cloth import Bench, Lying
from publisher.figures.steps.facts import StepFacts
from publisher.figures.steps.placing import lines_to_stitch


def placed_here(bench: Bench, facts: StepFacts) -> list[Placement]:
    """What a step places, in its order."""
    by_name = {one.name: one for one in bench.draft.placements}
    named = [action.target for action in facts.step.actions if action.verb == "place"]
    return [by_name[name] for name in named if name in by_name]


def on_rings(bench: Bench, facts: StepFacts) -> set[str]:
    """Copies that a step folds round a ring and places: the figure of the ring shows all of it."""
    placed = {one.placed for one in placed_here(bench, facts)}
    held = [(action.other or "").partition(".") for action in facts.step.actions if action.verb == "attach"]
    return {copy for copy, dot, _ in held if dot and copy in placed}


def stitched_as_placed(bench: Bench, facts: StepFacts) -> set[str]:
    """Copies that a step places and sews down along their lines alone; with their edges they are drawn by themselves."""
    targets = {action.target for action in facts.step.actions if action.verb == "topstitch"}
    edged = {target.partition(".")[0] for target in targets if "." in target}
    placed = {one.placed for one in placed_here(bench, facts)} & targets - edged
    return {copy for copy in placed if lines_to_stitch(bench, Lying(copy))}


def marked_alone(bench: Bench, actions: Sequence[Action], facts: StepFacts) -> list[Action]:
    """The marks that are shown by themselves: not those that the same step places by, or along which it then stitches."""
    by = {f"{one.below}.{below}" for one in placed_here(bench, facts) for _, below in one.matching}
    onto = stitched_as_placed(bench, facts)
    return [one for one in actions if one.target not in by and one.target.partition(".")[0] not in onto]


def stitched_alone(bench: Bench, actions: Sequence[Action], facts: StepFacts) -> list[Action]:
    """The stitching that is shown by itself: not that of lines on what the same step places, nor round a tab on a ring."""
    shown = stitched_as_placed(bench, facts) | on_rings(bench, facts)
    return [one for one in actions if one.target not in shown]
