"""The figure that a step's actions imply: like actions share a drawing, unlike ones have one each, in order."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import groupby

from publisher.assembly import Action, after_action
from publisher.drafting import Draft, Pleat
from publisher.figures.steps.bias_square import square_panels
from publisher.figures.steps.cloth import BACKINGS, Bench, strip_loop
from publisher.figures.steps.drawn_flat import said_flat
from publisher.figures.steps.easing import dart_panels, eased_panel, gathered_panels
from publisher.figures.steps.facings import facing_joint, turned_facing_panel
from publisher.figures.steps.facts import StepFacts, fused_by
from publisher.figures.steps.finished import finished_panels
from publisher.figures.steps.folding import folded_edge_panel, turned_end_panel
from publisher.figures.steps.hem_tips import tip_panel
from publisher.figures.steps.joining import joints_of
from publisher.figures.steps.joins import begun_panel, joined_ends_panel, joined_panels, mitred_panels
from publisher.figures.steps.pinning import folded_marks
from publisher.figures.steps.placed_here import marked_alone, on_rings, stitched_alone, stitched_as_placed
from publisher.figures.steps.placing import fused_panels, placed_panel, stack_panel
from publisher.figures.steps.quilting import quilted_through
from publisher.figures.steps.rolling import folded_over_panel, rolled_panel
from publisher.figures.steps.sections import binding_panels, bound_seam_panels, pleat_section, strip_panels
from publisher.figures.steps.sewing import (
    attach_panels,
    clip_panels,
    close_panels,
    first_of_like,
    open_panels,
    sew_panels,
    trim_panels,
)
from publisher.figures.steps.shaping import is_tube
from publisher.figures.steps.showing import cutting_panels, marked_panels, pleated_panels
from publisher.figures.steps.stitching import hem_panels
from publisher.figures.steps.strips import other_end
from publisher.figures.steps.threading import threaded_panel
from publisher.figures.steps.topstitching import basted_panels, topstitch_panels
from publisher.figures.steps.turned_bands import turned_band_panel
from publisher.figures.steps.turning import turned_panel
from publisher.figures.steps.values import Panel
from publisher.figures.steps.wording import names_of

DEEP = "casing"  # what the name of a measure begins with that says how far a casing reaches from its seam
BESIDE = "topstitch"  # … how far stitching runs from an edge
REACH = "reach"  # a word in the name of a measure that says how far a binding lies past its stitching
OVERLAP = "overlap"  # a word in the name of a measure that says how much of a binding is left for its join
ENDS = ("left end", "right end")  # of a strip
MOST = 6  # panels of one figure


def panels_of(draft: Draft, facts: StepFacts) -> tuple[Panel, ...]:
    """The panels that a step's actions imply, or those that it is said to show; none where nothing of it is drawn."""
    if facts.step.bare:
        return ()
    bench = Bench(draft, facts.step.before, facts.fused, quilted=_quilted(draft, facts))
    panels: list[Panel] = []
    for verb, group in groupby(_in_groups(facts.step.shows or facts.step.actions), key=lambda action: action.verb):
        actions = list(group)
        drawn = DRAWN.get(verb)
        if drawn is not None:
            panels += drawn(bench, actions, facts)
        for action in actions:
            bench = replace(bench, state=after_action(bench.state, action, draft))
        bench = replace(bench, fused=(*bench.fused, *fused_by(actions)))
    shown = said_flat(bench, panels[:MOST], facts.step.before.sewn)
    # What has been rolled up is no more seen from its front.
    return shown if any(panel.kind == "rolled" for panel in shown) else (*shown, *finished_of(draft, facts))


def finished_of(draft: Draft, facts: StepFacts) -> tuple[Panel, ...]:
    """What the last of several steps leaves, from its front and its back; nothing of a step that shows what it is told."""
    if not facts.last or facts.step.shows or facts.step.bare or draft.cover is None:
        return ()
    fused = (*facts.fused, *fused_by(facts.step.actions))
    return tuple(
        finished_panels(Bench(draft, facts.step.after, fused, quilted=_quilted(draft, facts)), draft.cover, facts)
    )


def _quilted(draft: Draft, facts: StepFacts) -> tuple[tuple[str, float], ...]:
    """Every copy that quilting goes through, and how far apart its lines run."""
    placed = facts.step.before.placed
    return tuple((name, apart) for copy, apart in facts.quilted for name in quilted_through(draft, placed, copy))


def _in_groups(actions: Sequence[Action]) -> list[Action]:
    """Like actions together where the step names them by turns: a patch is placed, and fused, and the next one placed."""
    verbs = [action.verb for action in actions]
    if {"place", "fuse"} <= set(verbs):
        return sorted(actions, key=lambda action: verbs.index(action.verb))
    if {"trim", "clip"} <= set(verbs):
        return [*(one for one in actions if one.verb != "clip"), *(one for one in actions if one.verb == "clip")]
    return list(actions)


def _cut(bench: Bench, actions: Sequence[Action], facts: StepFacts) -> list[Panel]:
    everything = [copy.name for piece in bench.draft.pieces for copy in piece.copies]
    named = [action.target for action in actions]
    return cutting_panels(bench, everything if "all" in named else named, facts.nested)


def _mark(bench: Bench, actions: Sequence[Action], facts: StepFacts) -> list[Panel]:
    actions = marked_alone(bench, actions, facts)
    folded: dict[str, list[str]] = {}
    for copy, _dot, mark in (action.target.partition(".") for action in actions if action.still_folded):
        folded.setdefault(copy, []).append(mark)
    panels = [panel for copy, names in folded.items() for panel in folded_marks(bench, copy, names)]
    return panels + marked_panels(bench, [action.target for action in actions if not action.still_folded])


def _topstitch(bench: Bench, actions: Sequence[Action], facts: StepFacts) -> list[Panel]:
    return topstitch_panels(bench, stitched_alone(bench, actions, facts), facts)


def _fuse(bench: Bench, actions: Sequence[Action], facts: StepFacts) -> list[Panel]:
    placed = {one.placed for one in bench.draft.placements if one.name in bench.state.placed}
    pairs = [pair for pair in fused_by(actions) if pair[0] not in placed]
    return fused_panels(bench, pairs)


def _place(bench: Bench, actions: Sequence[Action], facts: StepFacts) -> list[Panel]:
    by_name = {one.name: one for one in bench.draft.placements}
    placements = [by_name[action.target] for action in actions if action.target in by_name]
    placements = [one for one in placements if one.placed not in on_rings(bench, facts)]
    if len(placements) > 1 and any(bench.kind(one.placed) in BACKINGS for one in placements):
        stack = stack_panel(bench, placements)
        if stack is not None:
            return [stack]
    held = {(one.placed, one.below): one for one in reversed(placements)}  # a strip held at two places, once
    placements = [one for one in placements if held[(one.placed, one.below)] is one or not other_end(bench, one)]
    sewn = stitched_as_placed(bench, facts)
    panels = [
        placed_panel(bench, one, _basted_edges(facts, one.placed), facts.length(BESIDE), one.placed in sewn)
        for one in placements
    ]
    return [panel for panel in panels if panel is not None]


def _basted_edges(facts: StepFacts, copy: str) -> list[str]:
    """The edges of a copy along which its step bastes it."""
    named = [action.target.partition(".") for action in facts.step.actions if action.verb == "baste"]
    return [edge for one, dot, edge in named if dot and one == copy]


def _baste(bench: Bench, actions: Sequence[Action], facts: StepFacts) -> list[Panel]:
    by_name = {one.name: one.placed for one in bench.draft.placements}
    shown = {by_name.get(one.target) for one in facts.step.actions if one.verb == "place"}
    rest = [action for action in actions if action.target.partition(".")[0] not in shown]
    return [*_place(bench, actions, facts), *basted_panels(bench, rest, facts)]


def _hem(bench: Bench, actions: Sequence[Action], _: StepFacts) -> list[Panel]:
    panels: list[Panel] = []
    alike: dict[tuple[str, float], list[tuple[str, str]]] = {}
    for action in actions:
        copy, _dot, edge = action.target.partition(".")
        piece = bench.piece_now(copy)
        hem = next((one for one in piece.hems if one.edge == edge), None)
        if hem is not None:
            alike.setdefault((piece.name, hem.depth), []).append((copy, edge))
        elif piece.strip is not None and edge in ENDS:
            alike.setdefault((piece.name, 0.0), []).append((copy, edge))
    for (_piece, depth), edges in alike.items():
        end = turned_end_panel(bench, edges[0][0]) if not depth else None
        panels += [end] if end is not None else hem_panels(bench, edges)
    return panels


def _fold(bench: Bench, actions: Sequence[Action], _: StepFacts) -> list[Panel]:
    panels: list[Panel] = []
    seen: set[str] = set()
    for action in actions:
        copy, _dot, edge = action.target.partition(".")
        piece = bench.draft.piece(bench.draft.copy(copy).piece)
        over = folded_over_panel(bench, copy, edge) if edge else None
        if over is not None:
            panels.append(over)
        if over is not None or piece.name in seen:
            continue
        seen.add(piece.name)
        folds = not edge or any(part.allowance > 0 for part in bench.piece_now(copy).edges_of(edge))
        if folds:
            tip = tip_panel(bench, copy, edge) if edge else None
            panels += [tip] if tip is not None else []
            panels += [folded_edge_panel(bench, copy, edge)] if edge else strip_panels(bench, copy)
    return panels


def _roll(bench: Bench, actions: Sequence[Action], _: StepFacts) -> list[Panel]:
    return [rolled_panel(bench, action.target) for action in actions]


def _pleat(bench: Bench, actions: Sequence[Action], _: StepFacts) -> list[Panel]:
    panels: list[Panel] = []
    for action in actions:
        panels += pleated_panels(bench, action.target)
        pleats = [
            mark for mark in bench.piece_now(action.target).marks if isinstance(mark, Pleat) and mark.kind != "dart"
        ]
        for kind in dict.fromkeys(pleat.kind for pleat in pleats):
            alike = [pleat for pleat in pleats if pleat.kind == kind]
            panels.append(pleat_section(alike[0], names_of([pleat.name for pleat in alike])))
    return panels


def _dart(bench: Bench, actions: Sequence[Action], _: StepFacts) -> list[Panel]:
    return [panel for action in actions for panel in dart_panels(bench, action.target)]


def _gather(bench: Bench, actions: Sequence[Action], facts: StepFacts) -> list[Panel]:
    folded = {action.target for action in facts.step.actions if action.verb == "fold"}
    eased: dict[tuple[str, str], list[str]] = {}  # edges that are drawn up to lie flat where they are folded
    panels: list[Panel] = []
    for copy, _dot, edge in (action.target.partition(".") for action in actions):
        if f"{copy}.{edge}" in folded:
            eased.setdefault((bench.draft.copy(copy).piece, edge), []).append(copy)
        elif edge:
            panels += gathered_panels(bench, copy, edge)
    return panels + [eased_panel(bench, copies, edge, facts.length(BESIDE)) for (_, edge), copies in eased.items()]


def _bind(bench: Bench, actions: Sequence[Action], facts: StepFacts) -> list[Panel]:
    named = {action.target for action in actions}
    bindings = [one for one in bench.draft.bindings if one.name in named]
    reach = facts.length_of(REACH)
    panels = [
        panel for one in bindings for panel in binding_panels(bench, one, reach)[1 if one.name in facts.begun else 0 :]
    ]
    seams = {one.name for one in bench.draft.seams}
    bound = [action for action in actions if action.target in seams]
    if bound and bound[0].other is not None and strip_loop(bench, bound[0].other):
        joints = joints_of(bench.draft, bound[0].target)
        panels += bound_seam_panels(bench, bound[0].other, joints[0]) if joints else []
    return panels


def _begin(bench: Bench, actions: Sequence[Action], facts: StepFacts) -> list[Panel]:
    named = {action.target for action in actions}
    bindings = [one for one in bench.draft.bindings if one.name in named]
    return [
        panel
        for one in bindings
        for panel in (begun_panel(bench, one, facts.length_of(OVERLAP)), binding_panels(bench, one)[0])
    ]


def _join(bench: Bench, actions: Sequence[Action], facts: StepFacts) -> list[Panel]:
    bindings = {one.name: one for one in bench.draft.bindings}
    panels: list[Panel] = []
    for action in actions:
        bound = bindings.get(action.target)
        if bound is not None:
            panels.append(joined_ends_panel(bench, bound, facts.length_of(OVERLAP)))
            panels += joined_panels(bench, bound.strip)  # how two ends are laid and sewn
        else:
            square = next((one for one in facts.squares if one.copy == action.target), None)
            panels += square_panels(bench, square) if square else joined_panels(bench, action.target)
    return panels


def _mitre(bench: Bench, actions: Sequence[Action], _: StepFacts) -> list[Panel]:
    named = {action.target for action in actions}
    return [panel for one in bench.draft.bindings if one.name in named for panel in mitred_panels(bench, one)]


def _turn(bench: Bench, actions: Sequence[Action], facts: StepFacts) -> list[Panel]:
    if any(is_tube(seam) for seam in bench.draft.seams if seam.name in {one.target for one in facts.step.actions}):
        return []  # the figure of the seam shows how
    panel = turned_band_panel(bench, actions[0].target) or turned_panel(bench, actions[0].target)
    if panel is not None:
        return [panel]
    joints = [facing_joint(bench, action.target) for action in actions]
    return first_of_like(
        bench, [turned_facing_panel(bench, joint, facts.length(DEEP)) for joint in joints if joint is not None]
    )


def _assembled(bench: Bench, actions: Sequence[Action], facts: StepFacts) -> list[Panel]:
    return [panel for action in actions for panel in finished_panels(bench, action.target, facts)]


def _thread(bench: Bench, actions: Sequence[Action], facts: StepFacts) -> list[Panel]:
    ways: dict[str, list[str]] = {}
    for action in actions:
        if action.other is not None:
            ways.setdefault(action.target, []).append(action.other)
    quoted = facts.quoted[0][1] if len(facts.quoted) == 1 else None
    panels = [threaded_panel(bench, thread, through, quoted) for thread, through in ways.items()]
    return [panel for panel in panels if panel is not None]


Drawn = Callable[[Bench, Sequence[Action], StepFacts], list[Panel]]
DRAWN: dict[str, Drawn] = {
    "cut": _cut,
    "mark": _mark,
    "fuse": _fuse,
    "place": _place,
    "baste": _baste,
    "attach": attach_panels,
    "sew": sew_panels,
    "close": close_panels,
    "trim": trim_panels,
    "clip": clip_panels,
    "hem": _hem,
    "fold": _fold,
    "roll": _roll,
    "pleat": _pleat,
    "dart": _dart,
    "gather": _gather,
    "bind": _bind,
    "begin": _begin,
    "topstitch": _topstitch,
    "turn": _turn,
    "join": _join,
    "mitre": _mitre,
    "thread": _thread,
    "assembled": _assembled,
    "open": open_panels,
}
