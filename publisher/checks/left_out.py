"""What was prepared and then left out: a strip that nobody folds, a patch that nobody fuses, a half that nobody sets."""

from collections.abc import Container, Iterator

from publisher.assembly import Action, Assembly
from publisher.checks.amounts import told
from publisher.checks.deeds import deeds_of, has_errors, piece_of
from publisher.checks.materials import BACKINGS
from publisher.checks.named_edges import atoms_in_seams, edge_named
from publisher.checks.values import Proof
from publisher.drafting import Copy, Draft, Edge, LineMark, Piece, PointMark
from publisher.terms import Finding, Severity

FOLDED_FIRST = ("in fourths", "doubled", "edges to the centre", "single fold")
FOLDS = ("fold", "press", "turn")
SET_AT_MARKS = ("snap", "button", "eyelet", "ring")
COVERS = 2.0  # mm that an end must reach beyond what it covers (common practice, no source)
# What sees to an edge, so that it is no raw edge.
SEES_TO = ("hem", "fold", "bind", "topstitch", "baste", "gather", "trim")


def _actions(assembly: Assembly) -> tuple[Action, ...]:
    return tuple(action for step in assembly.steps for action in step.actions)


def strip_never_folded(proof: Proof) -> Iterator[Finding]:
    """A strip that is cut to be folded is sewn on, laid on or threaded, and no step folds it.

    Why: it is cut two or four times as wide as it finishes, and the reader sews it on flat.

    Fix: fold it, and say so: `Does: fold …` under the step that presses it."""
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        actions = _actions(assembly)
        folded = {action.target.partition(".")[0] for action in actions if action.verb in FOLDS}
        for piece, copy in _strips(draft):
            use = next((action for action in actions if _uses(draft, action, copy.name)), None)
            if use is not None and copy.name not in folded:
                assert piece.strip is not None
                yield Finding(
                    "strip-never-folded",
                    Severity.WARNING,
                    use.place,
                    f"'{copy.name}' is cut to be folded {piece.strip.folding}, and no step folds it",
                    f"write 'Does: fold {copy.name}' under the step that folds it",
                    (draft.variant,),
                )


def _strips(draft: Draft) -> Iterator[tuple[Piece, Copy]]:
    for piece in draft.pieces:
        for copy in piece.copies:
            if piece.strip is not None and piece.strip.folding in FOLDED_FIRST:
                yield piece, copy


def _uses(draft: Draft, action: Action, copy: str) -> bool:
    """True where an action sews a strip on, lays it on another, binds with it or threads it."""
    if action.verb in ("place", "baste"):
        return any(one.name == action.target and one.placed == copy for one in draft.placements)
    if action.verb == "bind":
        return action.other == copy or any(one.name == action.target and one.strip == copy for one in draft.bindings)
    return action.verb == "thread" and action.target == copy


def strip_never_joined(proof: Proof) -> Iterator[Finding]:
    """A strip has to be cut in several lengths, and no step joins them.

    Why: the reader has three strips in her hand, and a step that speaks of one.

    Fix: join them, and say how: `Does: join …` under a step before it is folded."""
    for draft, assembly, cloth in zip(proof.drafts, proof.assemblies, proof.cloths, strict=True):
        joined = {action.target for action in _actions(assembly) if action.verb == "join"}
        fewest: dict[str, int] = {}
        for plan in cloth.strips:
            fewest[plan.copy] = min(fewest.get(plan.copy, plan.count), plan.count)
        for piece, copy in _strips(draft):
            used = next((one for one in _actions(assembly) if _uses(draft, one, copy.name)), None)
            if used is not None and fewest.get(copy.name, 1) > 1 and copy.name not in joined:
                yield Finding(
                    "strip-never-joined",
                    Severity.WARNING,
                    piece.place,
                    f"'{copy.name}' is joined of {fewest[copy.name]} lengths, and no step joins them",
                    f"write 'Does: join {copy.name}' under the step that joins them",
                    (draft.variant,),
                )


def half_never_set(proof: Proof) -> Iterator[Finding]:
    """A place is marked for a snap, a button or an eyelet; one is set elsewhere, and none here.

    Why: the reader has a mark and half a snap in her hand, and no step tells of them.

    Fix: write `Does: attach … at …` under the step that sets it, or take the mark out."""
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        notions = {notion.key for notion in draft.notions}
        attached = [one for one in _actions(assembly) if one.verb == "attach" and one.target in notions and one.other]
        at = {one.other for one in attached}
        of_kind = {mark.symbol: one.target for one in attached for mark in _points(draft, one.other or "")}
        for piece in draft.pieces:
            for mark in piece.marks:
                if not isinstance(mark, PointMark) or mark.symbol not in set(SET_AT_MARKS) & of_kind.keys():
                    continue
                bearers = [copy.name for copy in piece.copies if _bears(piece, copy, mark)]
                # Where no copy bears it, its copy could not be drafted, which has been told.
                if bearers and not any(f"{copy}.{mark.name}" in at for copy in bearers):
                    yield Finding(
                        "half-never-set",
                        Severity.WARNING,
                        mark.place,
                        f"'{bearers[0]}.{mark.name}' is a place for a {mark.symbol}, and no step sets one there",
                        f"write 'Does: attach {of_kind[mark.symbol]} at {bearers[0]}.{mark.name}' under the step that sets it",
                        (draft.variant,),
                    )


def _points(draft: Draft, name: str) -> list[PointMark]:
    copy, _, tail = name.partition(".")
    if not tail:
        return []
    return [one for one in piece_of(draft, copy).marks if isinstance(one, PointMark) and one.name == tail]


def _bears(piece: Piece, copy: Copy, mark: PointMark) -> bool:
    return not mark.copies or copy.name.removeprefix(piece.name).strip() in mark.copies


def zip_on_one_side_only(proof: Proof) -> Iterator[Finding]:
    """A zip is sewn to one edge, and to no second one.

    Why: the other half of its tape hangs loose, and nothing opens and closes.

    Fix: write `Does: attach … at …` for its other edge, too."""
    for deeds in deeds_of(proof):
        zips = {notion.key for deed in deeds[:1] for notion in deed.draft.notions if notion.kind == "zip"}
        for key in sorted(zips):
            sewn = [deed for deed in deeds if deed.action.verb == "attach" and deed.action.target == key]
            edges = [deed for deed in sewn if edge_named(deed.draft, deed.action.other or "") is not None]
            copies = {(deed.action.other or "").partition(".")[0] for deed in edges}
            if len(edges) == 1 and not _closes_itself(edges[0].draft, copies.pop(), edges[0].action.other or ""):
                yield Finding(
                    "zip-on-one-side-only",
                    Severity.WARNING,
                    edges[0].action.place,
                    f"'{key}' is sewn to '{edges[0].action.other}', and its other side to no edge",
                    f"write 'Does: attach {key} at …' for the edge of its other side",
                    (edges[0].draft.variant,),
                )


def _closes_itself(draft: Draft, copy: str, edge: str) -> bool:
    """True where more than one is cut of the copy, so that the other edge bears the same name."""
    return draft.copy(copy).count > 1 or not edge


def edge_left_raw(proof: Proof) -> Iterator[Finding]:
    """Of a copy whose other edges are sewn or bound, one is sewn, hemmed, bound or basted in no step.

    Why: it was left out of a seam, and frays open there.

    Fix: take the edge into the seam or the binding; or give it a hem, or an allowance of 0."""
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        if not assembly.steps or has_errors(proof):
            continue
        seen_to = _seen_to(draft, _actions(assembly))
        # Layers of one outline that lie level are not seen to by lying so: they are bound together, or they stay open.
        without_layers = _seen_to(draft, _actions(assembly), of_one_outline=False)
        hidden = {one.key for one in draft.materials if one.kind in BACKINGS}
        for piece in draft.pieces:
            handled = {edge for copy in piece.copies for name, edge in seen_to if name == copy.name}
            raw = [] if _folded_round(draft, assembly, piece) else _raw_edges(piece, handled)
            raw += _unbound(
                draft, piece, {edge for copy in piece.copies for name, edge in without_layers if name == copy.name}
            )
            sewn = any((copy.name, edge.name) in seen_to for copy in piece.copies for edge in piece.edges)
            if piece.strip is None and sewn and raw and any(copy.material not in hidden for copy in piece.copies):
                yield Finding(
                    "edge-left-raw",
                    Severity.WARNING,
                    raw[0].place,
                    f"'{raw[0].name}' of '{piece.name}' is cut, and no step sews, hems, binds or bastes it",
                    "take it into a seam; or give it a hem, or an allowance of 0"
                    if raw[0].allowance
                    else "bind it with the others, or take it into a seam",
                    (draft.variant,),
                )


def _seen_to(draft: Draft, actions: tuple[Action, ...], of_one_outline: bool = True) -> set[tuple[str, str]]:
    """Copy and name of each single edge that a seam sews, or that something else is done to."""
    seen = set(atoms_in_seams(draft))
    names = [f"{side.copy}.{side.edge}" for one in draft.bindings for side in one.edges]
    names += [name for one in actions if one.verb in (*SEES_TO, "attach") for name in (one.target, one.other) if name]
    laid = [
        one
        for one in draft.placements
        if of_one_outline or piece_of(draft, one.placed).name != piece_of(draft, one.below).name
    ]
    names += [f"{one.placed}.{own}" for one in laid for own, _ in one.matching]
    for name in names:
        edge = edge_named(draft, name)
        if edge is not None:
            seen |= {(edge.copy.name, part.name) for part in edge.parts}
    return seen


def _raw_edges(piece: Piece, handled: Container[str]) -> list[Edge]:
    return [one for one in piece.edges if one.allowance > 0 and not one.layers and one.name not in handled]


def _unbound(draft: Draft, piece: Piece, handled: Container[str]) -> list[Edge]:
    """The edges without an allowance of a piece of which others are bound."""
    bound = {side.copy for one in draft.bindings for side in one.edges}
    if bound.isdisjoint(copy.name for copy in piece.copies):
        return []
    return [one for one in piece.edges if one.allowance == 0 and not one.layers and one.name not in handled]


def _folded_round(draft: Draft, assembly: Assembly, piece: Piece) -> list[LineMark]:
    """The fold lines of a piece that is folded round a ring, so that one end of it covers the other."""
    at = {one.other for one in _actions(assembly) if one.verb == "attach"}
    names = {copy.name for copy in piece.copies}
    lines = [one for one in piece.marks if isinstance(one, LineMark) and one.kind == "fold line"]
    return [line for line in lines if any(f"{name}.{line.name}" in at for name in names)]


def raw_end_not_covered(proof: Proof) -> Iterator[Finding]:
    """A tab is folded round a ring, and its finished end does not reach over its raw one.

    Why: the raw end shows beside the stitching, and frays.

    Fix: move the fold nearer to the raw end, or make the tab longer."""
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        seen_to = _seen_to(draft, _actions(assembly))
        for piece in draft.pieces:
            handled = {edge for copy in piece.copies for name, edge in seen_to if name == copy.name}
            for fold in _folded_round(draft, assembly, piece):
                along = (fold.end - fold.start).unit()
                for edge in _raw_edges(piece, handled):
                    raw = (edge.path.point_at(edge.length / 2) - fold.start).cross(along)
                    beyond = [
                        -(spot - fold.start).cross(along) * _sign(raw) for spot in piece.finished_line.flattened(0.1)
                    ]
                    if max(beyond) < abs(raw) + COVERS:
                        yield Finding(
                            "raw-end-not-covered",
                            Severity.WARNING,
                            fold.place,
                            f"folded on '{fold.name}', '{piece.name}' reaches {told(max(beyond), draft)} back, and its raw end "
                            f"'{edge.name}' lies {told(abs(raw), draft)} from the fold",
                            "move the fold nearer to the raw end, or make the piece longer",
                            (draft.variant,),
                        )


def _sign(number: float) -> int:
    return 1 if number > 0 else -1


def strip_end_left_raw(proof: Proof) -> Iterator[Finding]:
    """A strip's ends have an allowance, and of its two ends one is turned in, sewn or laid on in no step.

    Why: the raw end of a tie frays at the first wash.

    Fix: turn it in: `Does: hem tie.left end`; or write `ends: 0` where nothing is to be turned in."""
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        actions = _actions(assembly)
        seen_to = _seen_to(draft, actions)
        for piece, copy in _strips(draft):
            threaded = any(action.verb in ("thread", "fold") and action.target == copy.name for action in actions)
            ends = [edge for edge in piece.edges if edge.name.endswith("end") and edge.allowance > 0]
            raw = [edge for edge in ends if (copy.name, edge.name) not in seen_to]
            bound = any(_uses(draft, action, copy.name) and action.verb == "bind" for action in actions)
            if threaded and raw and len(raw) < len(ends) and not bound:
                yield Finding(
                    "strip-end-left-raw",
                    Severity.WARNING,
                    piece.place,
                    f"the {raw[0].name} of '{copy.name}' has an allowance of {told(raw[0].allowance, draft)}, and no step turns "
                    "it in or sews it",
                    f"write 'Does: hem {copy.name}.{raw[0].name}' under the step that turns it in",
                    (draft.variant,),
                )
