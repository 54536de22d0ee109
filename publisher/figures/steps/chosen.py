"""The figure that a step's actions imply: like actions share a drawing, unlike ones have one each, in order."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from publisher.assembly import Action, Assembly, AssemblyStep, after_action
from publisher.drafting import Draft, Pleat
from publisher.figures.steps.cloth import BACKINGS, Bench
from publisher.figures.steps.fastening import attached_panels
from publisher.figures.steps.folding import folded_edge_panel
from publisher.figures.steps.joining import Joint, joints_of
from publisher.figures.steps.joins import joined_panels, mitred_panels
from publisher.figures.steps.placing import fused_panels, placed_panel, stack_panel
from publisher.figures.steps.seams import flat_seams
from publisher.figures.steps.sections import binding_panels, pleat_section, strip_panels
from publisher.figures.steps.shaping import (
    boxed_panels,
    closed_gap,
    folded_seam,
    is_boxed,
    is_tube,
    parted_seam,
    seam_section,
    tube_panel,
)
from publisher.figures.steps.showing import cutting_panels, marked_panels, pleated_panels
from publisher.figures.steps.stitching import clipped_panel, hem_panels, lines_panel, topstitched_panel, trimmed_panel
from publisher.figures.steps.turning import turned_panel
from publisher.figures.steps.values import Panel
from publisher.figures.steps.wording import names_of
from publisher.terms import Phrase

MOST = 6  # panels of one figure
BESIDE = "topstitch"  # what the name of a measure begins with that says how far stitching runs from an edge
APART = "quilt"  # … or how far apart its lines run


@dataclass(frozen=True, slots=True)
class StepFacts:
    """A step, what was fused before it, and the lengths that its words quote, by the names of their measures."""

    step: AssemblyStep
    fused: tuple[tuple[str, str], ...]
    begun: frozenset[str] = frozenset()  # bindings of which a step before has shown the beginning
    quoted: tuple[tuple[str, float], ...] = ()

    def length(self, begins: str) -> float | None:
        """The first quoted length whose measure's name begins so, mm."""
        return next((amount for name, amount in self.quoted if name.startswith(begins)), None)


def facts_of(assembly: Assembly, step: AssemblyStep, quoted: Sequence[tuple[str, float]] = ()) -> StepFacts:
    """A step of an assembly with what was done before it."""
    before = [one for one in assembly.steps if one.number < step.number]
    fused = [pair for one in before for pair in _fused(one.actions)]
    begun = frozenset(action.target for one in before for action in one.shows if action.verb == "begin")
    return StepFacts(step, tuple(fused), begun, tuple(quoted))


def _fused(actions: Iterable[Action]) -> list[tuple[str, str]]:
    return [(action.target, action.other) for action in actions if action.verb == "fuse" and action.other]


def panels_of(draft: Draft, facts: StepFacts) -> tuple[Panel, ...]:
    """The panels that a step's actions imply, or those that it is said to show; none where nothing of it is drawn."""
    if facts.step.bare:
        return ()
    bench = Bench(draft, facts.step.before, facts.fused)
    panels: list[Panel] = []
    for verb, group in groupby(_in_groups(facts.step.shows or facts.step.actions), key=lambda action: action.verb):
        actions = list(group)
        drawn = DRAWN.get(verb)
        if drawn is not None:
            panels += drawn(bench, actions, facts)
        for action in actions:
            bench = replace(bench, state=after_action(bench.state, action, draft))
        bench = replace(bench, fused=(*bench.fused, *_fused(actions)))
    return tuple(panels[:MOST])


def _in_groups(actions: Sequence[Action]) -> list[Action]:
    """Like actions together where the step names them by turns: a patch is placed, and fused, and the next one placed."""
    verbs = [action.verb for action in actions]
    if {"place", "fuse"} <= set(verbs):
        return sorted(actions, key=lambda action: verbs.index(action.verb))
    if {"trim", "clip"} <= set(verbs):
        return [*(one for one in actions if one.verb != "clip"), *(one for one in actions if one.verb == "clip")]
    return list(actions)


def _cut(bench: Bench, actions: Sequence[Action], _: StepFacts) -> list[Panel]:
    everything = [copy.name for piece in bench.draft.pieces for copy in piece.copies]
    named = [action.target for action in actions]
    return cutting_panels(bench, everything if "all" in named else named)


def _mark(bench: Bench, actions: Sequence[Action], _: StepFacts) -> list[Panel]:
    return marked_panels(bench, [action.target for action in actions])


def _fuse(bench: Bench, actions: Sequence[Action], facts: StepFacts) -> list[Panel]:
    placed = {one.placed for one in bench.draft.placements if one.name in bench.state.placed}
    pairs = [pair for pair in _fused(actions) if pair[0] not in placed]
    return fused_panels(bench, pairs)


def _place(bench: Bench, actions: Sequence[Action], _: StepFacts) -> list[Panel]:
    by_name = {one.name: one for one in bench.draft.placements}
    placements = [by_name[action.target] for action in actions if action.target in by_name]
    if len(placements) > 1 and any(bench.kind(one.placed) in BACKINGS for one in placements):
        stack = stack_panel(bench, placements)
        if stack is not None:
            return [stack]
    panels = [placed_panel(bench, one) for one in placements]
    return [panel for panel in panels if panel is not None]


def _attach(bench: Bench, actions: Sequence[Action], _: StepFacts) -> list[Panel]:
    notions = {one.key: one for one in bench.draft.notions}
    return [
        panel
        for action in actions
        if action.other is not None and action.target in notions
        for panel in attached_panels(bench, notions[action.target], action.other)
    ]


def _sew(bench: Bench, actions: Sequence[Action], facts: StepFacts) -> list[Panel]:
    seams = {one.name: one for one in bench.draft.seams}
    if any(action.wrong_sides for action in actions):
        joints = [joint for action in actions for joint in joints_of(bench.draft, action.target)]
        return [seam_section(bench, joint, wrong_sides=True) for joint in joints]
    named = [seams[action.target] for action in actions if action.target in seams]
    panels: list[Panel] = []
    plain = [one for one in named if not is_boxed(one) and not is_tube(one)]
    joints = [joint for one in plain for joint in joints_of(bench.draft, one.name)]
    for _, group in groupby(joints, key=lambda joint: (joint.first, joint.second)):
        panels += _of_pair(bench, list(group))
    panels = _first_of_like(bench, panels)
    boxed = [one for one in named if is_boxed(one)]
    panels += boxed_panels(bench, boxed) if boxed else []
    turns = any(action.verb == "turn" for action in facts.step.actions)
    return panels + [tube_panel(bench, one, turns) for one in named if is_tube(one)]


def _close(bench: Bench, actions: Sequence[Action], _: StepFacts) -> list[Panel]:
    named = {action.target for action in actions}
    return [closed_gap(one) for one in bench.draft.seams if one.name in named]


def _of_pair(bench: Bench, joints: Sequence[Joint]) -> list[Panel]:
    """The seams between two copies; those of a piece with itself are folded."""
    if joints[0].first == joints[0].second:
        return [folded_seam(bench, joint) or seam_section(bench, joint) for joint in joints]
    panel = flat_seams(bench, joints)
    return [panel] if panel is not None else parted_seam(bench, joints[0])


def _first_of_like(bench: Bench, panels: Sequence[Panel]) -> list[Panel]:
    """Of panels that draw copies of the same pieces in the same way, the first, which names all."""
    like: dict[tuple[str, tuple[str, ...]], list[Panel]] = {}
    for panel in panels:
        pieces = tuple(bench.draft.copy(copy).piece for copy in panel.copies)
        like.setdefault((panel.kind, pieces), []).append(panel)
    return [_named_for_all(group) for group in like.values()]


def _named_for_all(group: Sequence[Panel]) -> Panel:
    if len(group) == 1:
        return group[0]
    copies = [copy for panel in group for copy in panel.copies]
    return replace(group[0], caption=Phrase.of("figures.alike", copies=names_of(copies)), copies=tuple(copies))


def _trim(bench: Bench, actions: Sequence[Action], facts: StepFacts) -> list[Panel]:
    copies = {copy.name for piece in bench.draft.pieces for copy in piece.copies if copy.rough > 0}
    rough = [action.target for action in actions if action.target in copies]
    panels = [trimmed_panel(bench, rough)] if rough else []
    also = {action.target for action in facts.step.actions if action.verb == "clip"}
    for action in actions:
        joints = joints_of(bench.draft, action.target) if _is_seam(bench, action.target) else ()
        panels += [clipped_panel(bench, joint, trim=True, clip=action.target in also) for joint in joints[:1]]
    return panels[:1]


def _clip(bench: Bench, actions: Sequence[Action], facts: StepFacts) -> list[Panel]:
    trimmed = {action.target for action in facts.step.actions if action.verb == "trim"}
    panels: list[Panel] = []
    for action in actions:
        if action.target not in trimmed and _is_seam(bench, action.target):
            joints = joints_of(bench.draft, action.target)[:1]
            panels += [clipped_panel(bench, joint, trim=False, clip=True) for joint in joints]
    return panels[:1]


def _is_seam(bench: Bench, name: str) -> bool:
    return any(seam.name == name for seam in bench.draft.seams)


def _hem(bench: Bench, actions: Sequence[Action], _: StepFacts) -> list[Panel]:
    panels: list[Panel] = []
    seen: set[tuple[str, float]] = set()
    for action in actions:
        copy, _dot, edge = action.target.partition(".")
        piece = bench.piece_now(copy)
        hem = next((one for one in piece.hems if one.edge == edge), None)
        if hem is not None and (piece.name, hem.depth) not in seen:
            seen.add((piece.name, hem.depth))
            panels += hem_panels(bench, copy, edge)
    return panels


def _fold(bench: Bench, actions: Sequence[Action], _: StepFacts) -> list[Panel]:
    panels: list[Panel] = []
    seen: set[str] = set()
    for action in actions:
        copy, _dot, edge = action.target.partition(".")
        piece = bench.draft.piece(bench.draft.copy(copy).piece)
        if piece.name in seen:
            continue
        seen.add(piece.name)
        panels += [folded_edge_panel(bench, copy, edge)] if edge else strip_panels(bench, copy)
    return panels


def _pleat(bench: Bench, actions: Sequence[Action], _: StepFacts) -> list[Panel]:
    panels: list[Panel] = []
    for action in actions:
        panels += pleated_panels(bench, action.target)
        pleats = [mark for mark in bench.piece_now(action.target).marks if isinstance(mark, Pleat)]
        for kind in dict.fromkeys(pleat.kind for pleat in pleats):
            alike = [pleat for pleat in pleats if pleat.kind == kind]
            panels.append(pleat_section(alike[0], names_of([pleat.name for pleat in alike])))
    return panels


def _bind(bench: Bench, actions: Sequence[Action], facts: StepFacts) -> list[Panel]:
    named = {action.target for action in actions}
    bindings = [one for one in bench.draft.bindings if one.name in named]
    return [panel for one in bindings for panel in binding_panels(bench, one)[1 if one.name in facts.begun else 0 :]]


def _begin(bench: Bench, actions: Sequence[Action], _: StepFacts) -> list[Panel]:
    named = {action.target for action in actions}
    return [binding_panels(bench, one)[0] for one in bench.draft.bindings if one.name in named]


def _join(bench: Bench, actions: Sequence[Action], _: StepFacts) -> list[Panel]:
    return [panel for action in actions for panel in joined_panels(bench, action.target)]


def _mitre(bench: Bench, actions: Sequence[Action], _: StepFacts) -> list[Panel]:
    named = {action.target for action in actions}
    return [panel for one in bench.draft.bindings if one.name in named for panel in mitred_panels(bench, one)]


def _topstitch(bench: Bench, actions: Sequence[Action], facts: StepFacts) -> list[Panel]:
    copies = {copy.name for piece in bench.draft.pieces for copy in piece.copies}
    edges: dict[str, list[str]] = {}
    panels: list[Panel] = []
    for action in actions:
        copy, _dot, edge = action.target.partition(".")
        if copy not in copies:
            continue
        if edge:
            edges.setdefault(copy, []).append(edge)
        else:
            panels.append(lines_panel(bench, copy, facts.length(APART)))
    panels += [topstitched_panel(bench, copy, names, facts.length(BESIDE)) for copy, names in edges.items()]
    return _first_of_like(bench, panels)


def _turn(bench: Bench, actions: Sequence[Action], facts: StepFacts) -> list[Panel]:
    if any(is_tube(seam) for seam in bench.draft.seams if seam.name in {one.target for one in facts.step.actions}):
        return []  # the figure of the seam shows how
    panel = turned_panel(bench, actions[0].target)
    return [panel] if panel is not None else []


Drawn = Callable[[Bench, Sequence[Action], StepFacts], list[Panel]]
DRAWN: dict[str, Drawn] = {
    "cut": _cut,
    "mark": _mark,
    "fuse": _fuse,
    "place": _place,
    "baste": _place,
    "attach": _attach,
    "sew": _sew,
    "close": _close,
    "trim": _trim,
    "clip": _clip,
    "hem": _hem,
    "fold": _fold,
    "pleat": _pleat,
    "bind": _bind,
    "begin": _begin,
    "topstitch": _topstitch,
    "turn": _turn,
    "join": _join,
    "mitre": _mitre,
}
