"""The work step by step: what is done so far before and after each step, and what a copy should measure then."""

from dataclasses import replace

from publisher.assembly.actions import Known, known_names, read_actions
from publisher.assembly.values import Action, Assembly, AssemblyStep, Checkpoint, WorkState
from publisher.drafting import Draft, LineMark, SeamEdge
from publisher.geometry import Box, offset_outline
from publisher.measures import Measures, Name
from publisher.source import Source, WrittenStep
from publisher.terms import Finding, Severity, did_you_mean, of_variant


def assemble(source: Source, measures: Measures, draft: Draft) -> tuple[Assembly, tuple[Finding, ...]]:
    """All steps of one variant in order, and findings about actions and checkpoints that name nothing."""
    known = known_names(source, draft)
    state = WorkState()
    steps: list[AssemblyStep] = []
    found: list[Finding] = []
    for section in source.sections:
        for written in section.steps:
            actions, unread = read_actions(written.does, measures, known)
            shows, unshown = read_actions(written.shown, measures, known)
            before = state
            for action in actions:
                state = after_action(state, action, draft)
            checkpoints, unmeasured = _checkpoints(written, measures, draft, state, known)
            found.extend((*unread, *unshown, *unmeasured))
            done = (actions, before, state, checkpoints, written.place)
            steps.append(AssemblyStep(written.id, written.number, *done, shows=shows, bare=written.shows_nothing))
    return Assembly(tuple(steps)), tuple(of_variant(finding, draft.variant) for finding in found)


def after_action(state: WorkState, action: Action, draft: Draft) -> WorkState:
    """The state of the work when an action has been done."""
    match action.verb:
        case "cut":
            every = [copy.name for piece in draft.pieces for copy in piece.copies]
            return replace(state, cut=state.cut | set(every if action.target == "all" else [action.target]))
        case "mark":
            return replace(state, marked=state.marked | {action.target})
        case "fuse":
            onto = {(action.target, action.other)} if action.other else set()
            return replace(state, fused=state.fused | {action.target}, fused_to=state.fused_to | onto)
        case "place":
            return replace(state, placed=state.placed | {action.target})
        case "sew":
            return replace(
                state,
                sewn=(*state.sewn, action.target),
                wrong_sides=state.wrong_sides | ({action.target} if action.wrong_sides else set()),
                closed_edges=state.closed_edges | _edges_of_seam(draft, action.target),
            )
        case "pleat" | "dart":
            return replace(state, pleated=state.pleated | {action.target})
        case "trim":
            return replace(state, trimmed=state.trimmed | {action.target})
        case "bind" if action.target in {binding.name for binding in draft.bindings}:
            return replace(state, closed_edges=state.closed_edges | _edges_of_binding(draft, action.target))
        case "bind" if action.target in {seam.name for seam in draft.seams}:
            return state  # its edges are closed already
        case "hem" | "bind":
            copy, _, edge = action.target.partition(".")
            hemmed = (*state.hemmed, action.target) if action.verb == "hem" else state.hemmed
            return replace(state, closed_edges=state.closed_edges | _atomic(draft, copy, edge), hemmed=hemmed)
        case "topstitch":
            return replace(state, topstitched=(*state.topstitched, action.target))
        case "fold" if _is_mark(draft, action.target):
            return state  # work folded over along a line: no edge of it is done by that
        case "fold":
            return replace(state, folded=state.folded | {action.target})
        case "close":
            return replace(state, gaps_closed=state.gaps_closed | {action.target})
        case "turn":
            return replace(state, turned=(*state.turned, action.target))
        case "attach":
            folds = {action.other} if action.other and _is_fold(draft, action.other) else set()
            onto = {(action.target, action.other)} if action.other else set()
            return replace(
                state,
                attached=state.attached | {action.target},
                attached_to=state.attached_to | onto,
                held_folds=state.held_folds | folds,
            )
        case _:
            return state


def _is_mark(draft: Draft, name: str) -> bool:
    copy, _, mark = name.partition(".")
    return any(one.name == mark for one in draft.piece(draft.copy(copy).piece).marks)


def _is_fold(draft: Draft, name: str) -> bool:
    copy, dot, mark = name.partition(".")
    marks = draft.piece(draft.copy(copy).piece).marks if dot else ()
    return any(isinstance(one, LineMark) and one.name == mark and one.kind == "fold line" for one in marks)


def _edges_of_seam(draft: Draft, name: str) -> frozenset[tuple[str, str]]:
    seam = next(seam for seam in draft.seams if seam.name == name)
    sides: tuple[SeamEdge, ...] = (*seam.first, *seam.second)
    return frozenset(pair for side in sides for pair in _atomic(draft, side.copy, side.edge))


def _edges_of_binding(draft: Draft, name: str) -> frozenset[tuple[str, str]]:
    binding = next(binding for binding in draft.bindings if binding.name == name)
    return frozenset(pair for side in binding.edges for pair in _atomic(draft, side.copy, side.edge))


def _atomic(draft: Draft, copy: str, edge: str) -> frozenset[tuple[str, str]]:
    piece = draft.piece(draft.copy(copy).piece)
    return frozenset((copy, part.name) for part in piece.edges_of(edge))


def _checkpoints(
    written: WrittenStep, measures: Measures, draft: Draft, state: WorkState, known: Known
) -> tuple[tuple[Checkpoint, ...], tuple[Finding, ...]]:
    checkpoints: list[Checkpoint] = []
    found: list[Finding] = []
    copies = [copy.name for piece in draft.pieces for copy in piece.copies]
    for line in written.now:
        name = measures.saying(line)
        if not isinstance(name, Name) or known.kept_out(name.text):
            continue
        if name.text in copies:
            checkpoints.append(measure_copy(draft, name.text, state, written))
            continue
        says = f"no copy called '{name.text}' to measure now"
        found.append(Finding("no-such-name", Severity.ERROR, name.place, says, did_you_mean(name.text, copies)))
    return tuple(checkpoints), tuple(found)


def measure_copy(draft: Draft, name: str, state: WorkState, written: WrittenStep) -> Checkpoint:
    """What a copy measures laid flat, mm: an edge that has been sewn or hemmed has lost its allowance."""
    box = _box_now(draft, name, state)
    return Checkpoint(name, box.width, box.height, written.place)


def _box_now(draft: Draft, name: str, state: WorkState) -> Box:
    copy = draft.copy(name)
    piece = draft.piece(copy.piece)
    if piece.strip is not None and name in state.folded:
        turned_in = sum(edge.allowance for edge in piece.edges if (name, edge.name) in state.closed_edges)
        return Box(0.0, 0.0, piece.cut_width - turned_in, piece.strip.finished_width)
    if piece.opened is not None and name not in state.pleated:
        piece = piece.opened
    if copy.to_finished_line:
        return piece.finished_line.box
    if copy.rough and name not in state.trimmed:
        box = piece.cut_line.box
        return Box(box.left - copy.rough, box.bottom - copy.rough, box.right + copy.rough, box.top + copy.rough)
    edges = [(edge.path, 0.0 if (name, edge.name) in state.closed_edges else edge.allowance) for edge in piece.edges]
    return offset_outline(edges)[0].box
