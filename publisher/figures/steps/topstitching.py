"""The figures of stitching on what is sewn already: topstitching, understitching, basting along edges."""

from collections.abc import Sequence

from publisher.assembly import Action
from publisher.drafting import LineMark
from publisher.figures.steps.cloth import Bench
from publisher.figures.steps.facings import facing_joint, stitched_facing_panel, understitched_panels
from publisher.figures.steps.facts import APART, StepFacts
from publisher.figures.steps.joining import joints_of
from publisher.figures.steps.sewing import first_of_like, is_seam
from publisher.figures.steps.stitching import basted_panel, lines_panel, topstitched_panel
from publisher.figures.steps.turned_edges import sewing_lines
from publisher.figures.steps.values import Panel

BESIDE = "topstitch"  # what the name of a measure begins with that says how far stitching runs from an edge
STAY = "staystitch"  # … how far from the raw edge staystitching runs
ROWS = "rows"  # a word in the name of a measure that says how far apart more rows beside the first run


def topstitch_panels(bench: Bench, actions: Sequence[Action], facts: StepFacts) -> list[Panel]:
    """Stitching along edges and marked lines, or side by side."""
    copies = {copy.name for piece in bench.draft.pieces for copy in piece.copies}
    edges: dict[str, list[str]] = {}
    lines: dict[str, list[LineMark]] = {}
    panels: list[Panel | str] = []  # a copy's name stands for the figure of its edges, which are shown together
    zips = {one.key for one in bench.draft.notions if one.kind == "zip"}
    shown = {one.other for one in facts.step.actions if one.verb == "attach" and one.target in zips}
    for action in actions:
        if action.target in shown:
            continue  # the figure of the zip shows it
        copy, _dot, edge = action.target.partition(".")
        if is_seam(bench, action.target):
            for joint in joints_of(bench.draft, action.target)[:1]:
                panels += understitched_panels(bench, joint, facts.length(BESIDE))
        if copy not in copies:
            continue
        facing = facing_joint(bench, copy) if edge and copy in bench.state.turned else None
        if facing is not None:
            panels.append(stitched_facing_panel(bench, facing, edge, facts.length(BESIDE)))
        elif edge:
            panels += [copy] if copy not in edges else []
            edges.setdefault(copy, []).append(edge)
        elif any(one.target.startswith(f"{copy}.") for one in actions):
            lines[copy] = sewing_lines(bench.piece_now(copy), copy, bench.state)  # shown with the edges
        else:
            marked = lines_panel(bench, copy, facts.length(APART))
            names = [one.name for one in bench.piece_now(copy).edges]
            all_round = [name for name in names if bench.done(copy, name)] or names
            panels.append(marked or topstitched_panel(bench, copy, all_round, facts.length(BESIDE)))
    apart = facts.length_of(ROWS)
    drawn = {
        copy: topstitched_panel(bench, copy, names, facts.length(BESIDE), apart, lines.get(copy, ()))
        for copy, names in edges.items()
    }
    return first_of_like(bench, [drawn[one] if isinstance(one, str) else one for one in panels])


def basted_panels(bench: Bench, actions: Sequence[Action], facts: StepFacts) -> list[Panel]:
    """Edges basted within their allowances, or staystitched; copies of one piece along the same edges in one drawing."""
    edges: dict[str, list[str]] = {}
    for action in actions:
        copy, dot, edge = action.target.partition(".")
        if dot:
            edges.setdefault(copy, []).append(edge)
    alike: dict[tuple[str, tuple[str, ...]], list[str]] = {}
    for copy, names in edges.items():
        alike.setdefault((bench.draft.copy(copy).piece, tuple(names)), []).append(copy)
    return [basted_panel(bench, copies, names, facts.length(STAY)) for (_piece, names), copies in alike.items()]
