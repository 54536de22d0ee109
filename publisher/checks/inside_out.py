"""What is sewn round right sides together: snipped while it can be reached, and turned before it is worked on."""

import math
from collections.abc import Iterable, Iterator

from publisher.checks.deeds import Deed, deeds_of, piece_of, seam_of, sewn_before
from publisher.checks.named_edges import edge_named
from publisher.checks.values import Proof
from publisher.drafting import Draft, Seam, SeamEdge
from publisher.geometry import Arc, Line
from publisher.terms import Finding, Severity

# Of an outline: what is sewn together along more of it has an inside (a rule of the house).
ROUND = 0.55
# A seam that bends more than that in all puckers when it is turned unclipped (common practice, no source).
BENDS = 0.6  # radians
# Of an edge that curves inwards the raw edge is shorter than its stitching line; cloth gives about so much of it.
GIVES, LEAST = 0.05, 10.0  # of the length; mm


def clipped_too_late(proof: Proof) -> Iterator[Finding]:
    """A seam's allowance is trimmed or snipped when it is stitched down, bound, or turned inside, already.

    Why: it can be reached no more, and the curve stays tight.

    Fix: trim and snip first."""
    for deeds in deeds_of(proof):
        shut: dict[str, int] = {}
        bound: dict[tuple[str, str], int] = {}
        for deed in deeds:
            verb, target = deed.action.verb, deed.action.target
            seam = seam_of(deed.draft, target)
            late = target in shut and seam is not None and verb in ("trim", "clip", "bind")
            within = [bound[one] for one in _edges_of(deed) if one in bound] if verb in ("trim", "clip") else []
            if late or within:
                shut.setdefault(target, *within[:1])
                yield Finding(
                    "clipped-too-late",
                    Severity.ERROR,
                    deed.action.place,
                    f"step {deed.step.number} cuts into the allowance of '{target}', which step {shut[target]} has "
                    "stitched down, bound or turned inside",
                    "move the line to an earlier step",
                    (deed.draft.variant,),
                )
            if verb == "topstitch" and seam is not None:
                shut.setdefault(target, deed.step.number)
            if verb == "topstitch" and seam is None:
                sewn = deed.before.closed_edges
                bound |= {edge: deed.step.number for edge in _edges_of(deed) if edge in sewn}
            if verb == "bind":
                bound |= dict.fromkeys(_edges_of(deed), deed.step.number)
            if verb == "turn":
                for name in (*_round_seams(deed, target), *_seams_of(deed, target)):
                    shut.setdefault(name, deed.step.number)


def _edges_of(deed: Deed) -> list[tuple[str, str]]:
    """A seam by its name; of an edge, and of a binding, each copy and edge that it names."""
    draft, target = deed.draft, deed.action.target
    if seam_of(draft, target) is not None:
        return [("", target)]
    names = [f"{one.copy}.{one.edge}" for binding in draft.bindings if binding.name == target for one in binding.edges]
    edges = [edge_named(draft, name) for name in names or [target]]
    return [(edge.copy.name, part.name) for edge in edges if edge is not None for part in edge.parts]


def _seams_of(deed: Deed, copy: str) -> list[str]:
    """The seams by which a copy is sewn to others when the whole is turned: of a bag, not of a facing."""
    seams = [seam for seam in sewn_before(deed) if copy in {side.copy for side in (*seam.first, *seam.second)}]
    others = {side.copy for seam in seams for side in (*seam.first, *seam.second)} - {copy}
    return [seam.name for seam in seams] if len(others) > 1 else []


def _round_seams(deed: Deed, copy: str) -> list[str]:
    """The seams that have been sewn most of the way round a copy and one other."""
    return [name for pair, names in enclosed_pairs(deed).items() if copy in pair for name in names]


def enclosed_pairs(deed: Deed) -> dict[frozenset[str], list[str]]:
    """Two copies that are sewn together right sides together most of the way round, and by which seams."""
    pairs: dict[frozenset[str], list[Seam]] = {}
    for seam in sewn_before(deed):
        copies = frozenset(side.copy for side in (*seam.first, *seam.second))
        if len(copies) == 2 and seam.name not in deed.before.wrong_sides and not seam.boxes_a_corner:
            pairs.setdefault(copies, []).append(seam)
    found: dict[frozenset[str], list[str]] = {}
    for copies, seams in pairs.items():
        longest = max(piece_of(deed.draft, copy).finished_line.length for copy in copies)
        if sum(seam.length for seam in seams) > ROUND * longest:
            found[copies] = [seam.name for seam in seams]
    return found


def never_turned(proof: Proof) -> Iterator[Finding]:
    """Two copies are sewn together most of the way round, right sides in, and worked on from outside without being turned.

    Why: the reader topstitches and sews on what is still inside out.

    Fix: turn it, and say so: `Does: turn …`."""
    for deeds in deeds_of(proof):
        turned = {deed.action.target for deed in deeds if deed.action.verb == "turn"}
        told: set[frozenset[str]] = set()
        for deed in deeds:
            for pair in enclosed_pairs(deed):
                if pair in told or not turned.isdisjoint(pair) or not _works_from_outside(deed, pair):
                    continue
                told.add(pair)
                one, other = sorted(pair)
                yield Finding(
                    "never-turned",
                    Severity.ERROR,
                    deed.action.place,
                    f"step {deed.step.number} works on '{one}' and '{other}', which are sewn round right sides together and "
                    "turned in no step",
                    f"write 'Does: turn {one}' under the step that turns it right side out",
                    (deed.draft.variant,),
                )


def _works_from_outside(deed: Deed, pair: frozenset[str]) -> bool:
    """True for topstitching, placing and setting on one of two copies, and for a seam that joins them to another."""
    verb, target = deed.action.verb, deed.action.target
    if verb == "topstitch":
        return target.partition(".")[0] in pair
    if verb in ("place", "baste"):
        placements = [one for one in deed.draft.placements if one.name == target]
        return any(not pair.isdisjoint((one.placed, one.below)) for one in placements)
    if verb == "attach" and deed.action.other:
        return deed.action.other.partition(".")[0] in pair
    seam = seam_of(deed.draft, target) if verb == "sew" else None
    if seam is None:
        return False
    copies = {side.copy for side in (*seam.first, *seam.second)}
    return bool(copies & pair) and bool(copies - pair)


def curve_not_clipped(proof: Proof) -> Iterator[Finding]:
    """A curved seam is turned, and its allowance is snipped in no step.

    Why: round an outward curve the allowance crumples, in an inward one it holds the seam back; it cannot lie flat.

    Fix: trim it and snip it, and say so: `Does: clip …`."""
    for deeds in deeds_of(proof):
        clipped = {deed.action.target for deed in deeds if deed.action.verb == "clip"}
        told: set[str] = set()
        for deed in deeds:
            if deed.action.verb != "turn":
                continue
            for seam in sewn_before(deed):
                copies = {side.copy for side in (*seam.first, *seam.second)}
                known = clipped & (copies | {seam.name}) or _edges(deed.draft, clipped) & _edges_sewn(deed.draft, seam)
                if seam.name in told or known or deed.action.target not in copies or len(copies) != 2:
                    continue
                if _bend(deed.draft, seam) < BENDS or not _one_each(seam) or _has_doubled(deed, seam):
                    continue
                told.add(seam.name)
                yield Finding(
                    "curve-not-clipped",
                    Severity.WARNING,
                    deed.action.place,
                    f"step {deed.step.number} turns '{deed.action.target}', and no step snips the allowance of the curved "
                    f"seam '{seam.name}'",
                    f"write 'Does: clip {seam.name}' under a step before it",
                    (deed.draft.variant,),
                )


def _edges(draft: Draft, names: Iterable[str]) -> set[tuple[str, str]]:
    """Copy and name of each single edge that is named `copy.edge`."""
    named = (edge_named(draft, name) for name in names)
    return {(one.copy.name, part.name) for one in named if one is not None for part in one.parts}


def _edges_sewn(draft: Draft, seam: Seam) -> set[tuple[str, str]]:
    return _edges(draft, (f"{side.copy}.{side.edge}" for side in (*seam.first, *seam.second)))


def _one_each(seam: Seam) -> bool:
    return len({side.copy for side in seam.first}) == 1 == len({side.copy for side in seam.second})


def _has_doubled(deed: Deed, seam: Seam) -> bool:
    """True for a seam of a strip, which is folded and not turned out of the seam."""
    return any(piece_of(deed.draft, side.copy).strip is not None for side in (*seam.first, *seam.second))


def _bend(draft: Draft, seam: Seam) -> float:
    """By how much the curves of a seam turn in all, radians; corners are none."""
    bent = [
        sum(
            abs(segment.direction_at(0.0).cross(segment.direction_at(segment.length / 2)))
            + abs(segment.direction_at(segment.length / 2).cross(segment.direction_at(segment.length)))
            for part in piece_of(draft, side.copy).edges_of(side.edge)
            for segment in part.path.segments
            if not isinstance(segment, Line)
        )
        for side in seam.first
    ]
    return sum(bent)


def inward_curve_not_snipped(proof: Proof) -> Iterator[Finding]:
    """An edge that curves inwards is sewn to another piece, and its allowance is snipped in no step.

    Why: the raw edge is shorter than the line that is sewn: it holds the seam in, and cannot open to lie along the other
    piece.

    Fix: snip it almost to the stitching line, and say so: `Does: clip …`."""
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        actions = [one for step in assembly.steps for one in step.actions]
        clipped = {one.target for one in actions if one.verb == "clip"}
        edges = _edges(draft, clipped)
        sewn = {one.target: one for one in actions if one.verb == "sew"}
        for seam in draft.seams:
            if seam.name not in sewn or seam.name in clipped or edges & _edges_sewn(draft, seam) or not _one_each(seam):
                continue
            side = max((seam.first[0], seam.second[0]), key=lambda one: _shorter(draft, one))
            short = _shorter(draft, side)
            same = seam.first[0].piece == seam.second[0].piece
            if not same and short > max(LEAST, GIVES * side.length):
                yield Finding(
                    "inward-curve-not-snipped",
                    Severity.WARNING,
                    sewn[seam.name].place,
                    f"'{side.copy}.{side.edge}' curves inwards: its raw edge is {short:.0f} mm shorter than the line that "
                    f"'{seam.name}' is sewn on, and no step snips it",
                    f"write 'Does: clip {side.copy}.{side.edge}' under a step before it is sewn",
                    (draft.variant,),
                )


def _shorter(draft: Draft, side: SeamEdge) -> float:
    """By how much the raw edge is shorter than the stitching line where it curves inwards, mm: allowance × angle."""
    turned = 0.0
    for part in piece_of(draft, side.copy).edges_of(side.edge):
        for segment in part.path.segments:
            if not isinstance(segment, Line):
                before, behind = segment.direction_at(0.0), segment.direction_at(segment.length)
                angle = (
                    segment.sweep if isinstance(segment, Arc) else math.atan2(before.cross(behind), before.dot(behind))
                )
                turned -= part.allowance * min(angle, 0.0)
    return turned
