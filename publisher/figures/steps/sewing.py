"""The figures of what is sewn, attached, trimmed and stitched: like seams share a drawing."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import groupby

from publisher.assembly import Action
from publisher.drafting import Notion, Seam
from publisher.figures.steps.cloth import Bench
from publisher.figures.steps.facts import StepFacts
from publisher.figures.steps.fastening import attached_panels
from publisher.figures.steps.hem_corners import trimmed_corners_panel
from publisher.figures.steps.joining import Joint, joints_of
from publisher.figures.steps.parts import between_two, has_parts, layers_panel, parts_panel
from publisher.figures.steps.seam_sections import seam_section
from publisher.figures.steps.seams import flat_seams
from publisher.figures.steps.setting_in import is_other_end, is_set_in, set_in_panel
from publisher.figures.steps.shaping import (
    boxed_panels,
    closed_gap,
    folded_seam,
    is_boxed,
    is_tube,
    parted_seam,
    tube_panel,
)
from publisher.figures.steps.trimming import Cutting, clipped_panel, snipped_edge_panel, trimmed_panel
from publisher.figures.steps.values import Panel
from publisher.figures.steps.wording import names_of
from publisher.figures.steps.zip_ends import open_zip_panel, trimmed_zip_panel, zip_end_panels
from publisher.figures.steps.zips import folded_away_panel, zip_panels, zip_place
from publisher.terms import Phrase

BESIDE = "topstitch"  # what the name of a measure begins with that says how far stitching runs from an edge
LEFT = ("bind", "trim")  # … or how wide an allowance is left, to be bound or otherwise
APART = "snip"  # … or how far apart it is snipped
ROUNDED = "rounding"  # … or how far before its corners the arc begins that they are rounded off in
UP = "corner"  # … or how far up a corner is cut off that a hem will hide


def attach_panels(bench: Bench, actions: Sequence[Action], facts: StepFacts) -> list[Panel]:
    """What is set on a mark or sewn to an edge."""
    notions = {one.key: one for one in bench.draft.notions}
    panels: list[Panel] = []
    for action in actions:
        if action.other is None or action.target not in notions:
            continue
        notion = notions[action.target]
        if notion.kind == "zip" and "." not in action.other:
            panels += zip_end_panels(bench, notion, action.other, facts)
        elif notion.kind == "zip":
            panels += _zipped(bench, notion, action.other, facts)
        else:
            panels += attached_panels(bench, notion, action.other, facts)
    return panels


def _zipped(bench: Bench, notion: Notion, spot: str, facts: StepFacts) -> list[Panel]:
    """A zip on an edge that the step sews into a seam, which says what else lies on it."""
    for seam in _zip_seams(bench, facts):
        for here, there in ((seam.first, seam.second), (seam.second, seam.first)):
            side = next((one for one in here if f"{one.copy}.{one.edge}" == spot), None)
            if side is not None:
                place = zip_place(bench, notion, side, there[0].copy, facts)
                panels = zip_panels(bench, place)
                if any(one.verb == "topstitch" and one.target == spot for one in facts.step.actions):
                    panels.append(folded_away_panel(bench, place, facts.length(BESIDE)))
                return panels
    return []


def _zip_seams(bench: Bench, facts: StepFacts) -> list[Seam]:
    """The seams of a step at whose edges it attaches a zip: the figure of the zip shows them."""
    actions = facts.step.shows or facts.step.actions
    zips = {one.key for one in bench.draft.notions if one.kind == "zip"}
    spots = {action.other for action in actions if action.verb == "attach" and action.target in zips}
    named = {action.target for action in actions if action.verb == "sew"}
    return [
        seam
        for seam in bench.draft.seams
        if seam.name in named and any(f"{side.copy}.{side.edge}" in spots for side in (*seam.first, *seam.second))
    ]


def sew_panels(bench: Bench, actions: Sequence[Action], facts: StepFacts) -> list[Panel]:
    """Seams: flat, folded, parted, boxed, round two bags."""
    seams = {one.name: one for one in bench.draft.seams}
    bench = replace(bench, stops_short=any(action.stops_short for action in actions))
    if any(action.wrong_sides or action.basted for action in actions):
        return [
            seam_section(bench, joint, action.wrong_sides, action.basted)
            for action in actions
            for joint in joints_of(bench.draft, action.target)
        ]
    named = [seams[action.target] for action in actions if action.target in seams]
    panels: list[Panel] = []
    zipped = _zip_seams(bench, facts)
    onto_parts = [one for one in named if has_parts(one)]
    set_in = [one for one in named if is_set_in(bench, one)]
    plain = [one for one in named if not (is_boxed(one) or is_tube(one)) and one not in (*zipped, *set_in)]
    joints = [joint for one in plain for joint in joints_of(bench.draft, one.name)]
    for _, group in groupby(joints, key=lambda joint: (joint.first, joint.second)):
        panels += _of_pair(bench, list(group))
    if len(onto_parts) == 2 and between_two(*onto_parts):
        # One seam through all layers: the plan shows the upper ones, the section all.
        panels += [parts_panel(bench, onto_parts[0]), layers_panel(bench, onto_parts)]
    else:
        panels += [parts_panel(bench, one) for one in onto_parts]
    panels = first_of_like(bench, panels)
    for one in set_in:
        panels += [] if is_other_end(bench, one) else [set_in_panel(bench, one)]
        panels += [seam_section(bench, joints_of(bench.draft, one.name)[0])]
    boxed = [one for one in named if is_boxed(one)]
    panels += boxed_panels(bench, boxed) if boxed else []
    turns = any(action.verb == "turn" for action in facts.step.actions)
    return panels + [tube_panel(bench, one, turns) for one in named if is_tube(one)]


def close_panels(bench: Bench, actions: Sequence[Action], _: StepFacts) -> list[Panel]:
    """Gaps sewn shut."""
    named = {action.target for action in actions}
    return [closed_gap(one) for one in bench.draft.seams if one.name in named]


def _of_pair(bench: Bench, joints: Sequence[Joint]) -> list[Panel]:
    """The seams between two copies; those of a piece with itself are folded."""
    if joints[0].first == joints[0].second:
        return [folded_seam(bench, joint) or seam_section(bench, joint) for joint in joints]
    panel = flat_seams(bench, joints)
    return [panel] if panel is not None else parted_seam(bench, joints[0])


def first_of_like(bench: Bench, panels: Sequence[Panel]) -> list[Panel]:
    """Of panels that draw copies of the same pieces in the same way, the first; what it stands for besides is named once,
    by the panel that draws most of it."""
    like: dict[tuple[str, tuple[str, ...]], list[Panel]] = {}
    for panel in panels:
        pieces = tuple(bench.draft.copy(copy).piece for copy in panel.copies)
        like.setdefault((panel.kind, pieces), []).append(panel)
    groups = list(like.values())
    others = [_copies_besides(group) for group in groups]
    return [
        _named_for_all(group, mine, elsewhere=any(set(mine) < set(more) for more in others))
        for group, mine in zip(groups, others, strict=True)
    ]


def _copies_besides(group: Sequence[Panel]) -> tuple[str, ...]:
    """What the later panels of a group draw and its first does not."""
    copies = dict.fromkeys(copy for panel in group for copy in panel.copies)
    return tuple(copy for copy in copies if copy not in group[0].copies)


def _named_for_all(group: Sequence[Panel], others: Sequence[str], *, elsewhere: bool) -> Panel:
    copies = (*group[0].copies, *others)
    own, alike = group[0].caption, Phrase.of("figures.alike", copies=names_of(others))
    caption = (
        own if elsewhere or not others else alike if own is None else Phrase.of("figures.both", first=own, second=alike)
    )
    return replace(group[0], caption=caption, copies=copies)


def trim_panels(bench: Bench, actions: Sequence[Action], facts: StepFacts) -> list[Panel]:
    """Rough copies, and allowances cut narrower."""
    copies = {copy.name for piece in bench.draft.pieces for copy in piece.copies if copy.rough > 0}
    rough = [action.target for action in actions if action.target in copies]
    panels = [trimmed_panel(bench, rough)] if rough else []
    also = {action.target for action in facts.step.actions if action.verb == "clip"}
    zips = [one for one in bench.draft.notions if one.kind == "zip"]
    for action in actions:
        if zips and action.target in facts.zip_ends:
            zipped = trimmed_zip_panel(bench, zips[0], action.target, facts)
            panels += [zipped] if zipped is not None else []
        joints = joints_of(bench.draft, action.target) if is_seam(bench, action.target) else ()
        if joints:
            left = next((wide for wide in map(facts.length, LEFT) if wide is not None), None)
            how = Cutting(True, action.target in also, left, facts.length(APART), facts.length(ROUNDED))
            panels.append(clipped_panel(bench, joints, how))
    panels += trimmed_hems(bench, actions, facts)
    return _named_for_others(bench, panels, [action.target for action in actions if is_seam(bench, action.target)])


def trimmed_hems(bench: Bench, actions: Sequence[Action], facts: StepFacts) -> list[Panel]:
    """Hems thinned at the corners that another will hide, by the copy."""
    edges: dict[str, list[str]] = {}
    for action in actions:
        copy, dot, edge = action.target.partition(".")
        if dot and any(hem.edge == edge for hem in bench.piece_now(copy).hems):
            edges.setdefault(copy, []).append(edge)
    panels = [trimmed_corners_panel(bench, copy, names, facts.length(UP)) for copy, names in edges.items()]
    return [panel for panel in panels if panel is not None]


def _named_for_others(bench: Bench, panels: Sequence[Panel], seams: Sequence[str]) -> list[Panel]:
    """The first, which says what else is treated as it shows: by the copies that are not in it, else by the seams."""
    joints = [joint for name in seams[1:] for joint in joints_of(bench.draft, name)]
    copies = [copy for joint in joints for copy in (joint.first, joint.second)]
    others = [copy for copy in copies if panels and copy not in panels[0].copies] or list(seams[1:])
    caption = Phrase.of("figures.alike", copies=names_of(others)) if others else None
    return [replace(panel, caption=panel.caption or caption) for panel in panels[:1]]


def open_panels(bench: Bench, actions: Sequence[Action], _: StepFacts) -> list[Panel]:
    """Zips opened half way."""
    named = {action.target for action in actions}
    return [open_zip_panel(one) for one in bench.draft.notions if one.key in named and one.kind == "zip"]


def clip_panels(bench: Bench, actions: Sequence[Action], facts: StepFacts) -> list[Panel]:
    """Allowances snipped."""
    trimmed = {action.target for action in facts.step.actions if action.verb == "trim"}
    panels: list[Panel] = []
    for action in actions:
        if action.target not in trimmed and is_seam(bench, action.target):
            joints = joints_of(bench.draft, action.target)
            panels += [clipped_panel(bench, joints, Cutting(False, True, apart=facts.length(APART)))] if joints else []
        elif action.target not in trimmed and "." in action.target:
            copy, _, edge = action.target.partition(".")
            panels.append(snipped_edge_panel(bench, copy, edge, facts.length(APART)))
    return panels[:1]


def is_seam(bench: Bench, name: str) -> bool:
    """True for the name of a seam."""
    return any(seam.name == name for seam in bench.draft.seams)
