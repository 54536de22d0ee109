"""One thing prepares another: what is pleated, hemmed, folded, trimmed and sewn, before what needs it so."""

from collections.abc import Iterator

from publisher.checks.deeds import Deed, deeds_of, piece_of, placement_laid, seam_of, sewn_before
from publisher.checks.values import Proof
from publisher.drafting import Draft, Notch, Placement, PointMark, Seam
from publisher.geometry import nearest
from publisher.terms import Finding, Severity

NEAR = 0.5  # mm: what lies nearer is on the edge, or the same corner
SQUARE = 0.7  # sine of a corner that a binding is mitred round


def pleated_after_placing(proof: Proof) -> Iterator[Finding]:
    """A piece is pleated, darted or gathered when it lies sewn on another already.

    Why: with its pleats open it is wider than its place, and what is sewn down cannot be folded any more.

    Fix: close the pleats in an earlier step."""
    yield from _shaped_after_placing(proof, ("pleat", "dart", "gather"), "pleated-after-placing", "pleated")


def hemmed_after_placing(proof: Proof) -> Iterator[Finding]:
    """An edge is hemmed or folded under when its piece lies sewn on another already.

    Why: what is sewn down cannot be turned under any more, and the raw edge stays.

    Fix: hem it before it is placed."""
    yield from _shaped_after_placing(proof, ("hem", "fold"), "hemmed-after-placing", "turned under")


def _shaped_after_placing(proof: Proof, verbs: tuple[str, ...], name: str, done: str) -> Iterator[Finding]:
    for deeds in deeds_of(proof):
        for deed in deeds:
            copy, _, edge = deed.action.target.partition(".")
            placed = next((one for one in _placed(deed) if one.placed == copy), None)
            flat = edge or deed.action.verb in ("pleat", "dart")
            if deed.action.verb in verbs and placed is not None and flat and not _is_mark(deed.draft, copy, edge):
                yield Finding(
                    name,
                    Severity.ERROR,
                    deed.action.place,
                    f"step {deed.step.number}: '{deed.action.target}' is {done} when '{copy}' is placed on "
                    f"'{placed.below}' already",
                    f"move the line to a step before 'place {placed.name}'",
                    (deed.draft.variant,),
                )


def _placed(deed: Deed) -> list[Placement]:
    return [one for one in deed.draft.placements if one.name in deed.before.placed]


def _is_mark(draft: Draft, copy: str, name: str) -> bool:
    return any(mark.name == name for mark in piece_of(draft, copy).marks)


def folded_after_sewing(proof: Proof) -> Iterator[Finding]:
    """A strip is folded when it is sewn to something along its length, or placed, already.

    Why: the seam holds it open, and folded afterwards it is half as wide as it should be there.

    Fix: fold it first."""
    for deeds in deeds_of(proof):
        for deed in deeds:
            copy = deed.action.target
            copies = {one.name for piece in deed.draft.pieces if piece.strip is not None for one in piece.copies}
            if deed.action.verb != "fold" or copy not in copies:
                continue
            sewn = [one for one in sewn_before(deed) if _joins(one, copy) and not _joins_only(one, copy)]
            placed = [one for one in _placed(deed) if one.placed == copy]
            if sewn or placed:
                held = f"sewn by '{sewn[0].name}'" if sewn else f"placed by '{placed[0].name}'"
                yield Finding(
                    "folded-after-sewing",
                    Severity.ERROR,
                    deed.action.place,
                    f"step {deed.step.number} folds '{copy}', which is {held} already",
                    "move the line to an earlier step",
                    (deed.draft.variant,),
                )


def _joins(seam: Seam, copy: str) -> bool:
    return any(side.copy == copy for side in (*seam.first, *seam.second))


def _joins_only(seam: Seam, copy: str) -> bool:
    return all(side.copy == copy for side in (*seam.first, *seam.second))


def trimmed_before_quilting(proof: Proof) -> Iterator[Finding]:
    """Layers that are cut larger are trimmed to the template before they are quilted.

    Why: quilting draws the layers in, and what was trimmed to size first comes out too small.

    Fix: quilt first, then trim."""
    for deeds in deeds_of(proof):
        trimmed: dict[str, int] = {}
        for deed in deeds:
            copy, _, edge = deed.action.target.partition(".")
            known = {one.name for piece in deed.draft.pieces for one in piece.copies}
            if deed.action.verb == "trim" and copy in known and deed.draft.copy(copy).rough > 0:
                trimmed.setdefault(copy, deed.step.number)
            elif deed.action.verb == "topstitch" and not edge and copy in trimmed:
                yield Finding(
                    "trimmed-before-quilting",
                    Severity.WARNING,
                    deed.action.place,
                    f"step {deed.step.number} stitches across '{copy}', which step {trimmed[copy]} has trimmed to its size",
                    "quilt before you trim",
                    (deed.draft.variant,),
                )


def boxed_too_early(proof: Proof) -> Iterator[Finding]:
    """A corner is boxed before both seams that meet in it are sewn.

    Why: there is no seam to lay on the other, and the corner cannot be flattened.

    Fix: sew sides and base first."""
    for deeds in deeds_of(proof):
        for deed in deeds:
            seam = seam_of(deed.draft, deed.action.target) if deed.action.verb == "sew" else None
            if seam is None or not seam.boxes_a_corner:
                continue
            missing = [one.name for one in deed.draft.seams if _ends_at(deed.draft, one, seam)]
            missing = [name for name in missing if name not in deed.before.sewn]
            if missing:
                yield Finding(
                    "boxed-too-early",
                    Severity.ERROR,
                    deed.action.place,
                    f"step {deed.step.number} sews the corner '{seam.name}', and '{missing[0]}', which ends in it, is not "
                    "sewn by then",
                    f"sew '{missing[0]}' in an earlier step",
                    (deed.draft.variant,),
                )


def _ends_at(draft: Draft, seam: Seam, corner: Seam) -> bool:
    """True for a seam between the same two copies that ends where an edge of the corner does."""
    if seam.boxes_a_corner or {side.copy for side in seam.first} == {side.copy for side in seam.second}:
        return False
    for side in (*corner.first, *corner.second):
        parts = piece_of(draft, side.copy).edges_of(side.edge)
        ends = (parts[0].path.start, parts[-1].path.end)
        for other in (*seam.first, *seam.second):
            if other.copy == side.copy and {one.copy for one in (*seam.first, *seam.second)} == {
                one.copy for one in (*corner.first, *corner.second)
            }:
                theirs = piece_of(draft, other.copy).edges_of(other.edge)
                spots = (theirs[0].path.start, theirs[-1].path.end)
                if any((one - spot).length < NEAR for one in ends for spot in spots):
                    return True
    return False


def placed_after_sewing(proof: Proof) -> Iterator[Finding]:
    """A raw edge is laid on an edge that is sewn, hemmed or bound already.

    Why: it was to be caught in that seam or under that binding, and now hangs by its basting.

    Fix: place it before that edge is sewn."""
    for deeds in deeds_of(proof):
        for deed in deeds:
            placement = placement_laid(deed)
            late = _closed_below(deed, placement) if placement is not None else None
            if placement is not None and late is not None:
                yield Finding(
                    "placed-after-sewing",
                    Severity.ERROR,
                    deed.action.place,
                    f"step {deed.step.number} lays '{placement.placed}' on '{late}' of '{placement.below}', which is sewn, "
                    "hemmed or bound by then",
                    "move the line to a step before that",
                    (deed.draft.variant,),
                )


def _closed_below(deed: Deed, placement: Placement) -> str | None:
    """The first edge below that is done, and on which something lies that was to be caught in it."""
    above, below = (piece_of(deed.draft, name) for name in (placement.placed, placement.below))
    done = deed.before.closed_edges
    edges = {edge.name for edge in below.edges} | {joint.name for joint in below.joint_edges}
    for own, there in placement.matching:
        if there in edges:
            parts = {edge.name for edge in above.edges} | {joint.name for joint in above.joint_edges}
            raw = own in parts and any(
                part.allowance > 0 and (placement.placed, part.name) not in done for part in above.edges_of(own)
            )
            folded = any(name == f"{placement.placed}.{own}" for name in deed.before.folded)
            closed = all((placement.below, part.name) in done for part in below.edges_of(there))
            if raw and not folded and closed:
                return there
        for mark in below.marks:
            if mark.name == there and above.strip is not None and isinstance(mark, Notch | PointMark):
                at = [edge.name for edge in below.edges if nearest(edge.path, mark.at)[2] < NEAR]
                if at and all((placement.below, edge) in done for edge in at):
                    return there
    return None


def corner_not_mitred(proof: Proof) -> Iterator[Finding]:
    """A binding goes round a square corner, and no step says how it is folded there.

    Why: led straight on, it bunches at the corner, or cuts it off.

    Fix: tell how to fold it, with `Does: mitre …`; or round the corner."""
    for deeds in deeds_of(proof):
        if not deeds:
            continue
        draft = deeds[0].draft
        mitred = {deed.action.target for deed in deeds if deed.action.verb == "mitre"}
        for binding in draft.bindings:
            bound = next(
                (deed for deed in deeds if deed.action.verb == "bind" and deed.action.target == binding.name), None
            )
            corner = next((name for side in binding.edges for name in _corners(draft, side.copy, side.edge)), None)
            if bound is not None and corner is not None and binding.name not in mitred:
                yield Finding(
                    "corner-not-mitred",
                    Severity.WARNING,
                    bound.action.place,
                    f"'{binding.name}' goes round the corner between {corner}, and no step mitres it",
                    f"tell how the strip is folded there, and write 'Does: mitre {binding.name}' below it",
                    (draft.variant,),
                )


def _corners(draft: Draft, copy: str, name: str) -> Iterator[str]:
    """Between which edges of one joint edge the outline turns squarely outwards."""
    parts = piece_of(draft, copy).edges_of(name)
    for before, after in zip(parts, (*parts[1:], parts[0]), strict=True):
        meets = (before.path.end - after.path.start).length < NEAR
        leaving, entering = before.path.direction_at(before.path.length), after.path.direction_at(0.0)
        if meets and before is not after and leaving.cross(entering) > SQUARE:
            yield f"'{before.name}' and '{after.name}'"


def threaded_too_early(proof: Proof) -> Iterator[Finding]:
    """A cord is drawn through a casing that is sewn in a later step only.

    Why: there is nothing to draw it through yet.

    Fix: sew the casing first."""
    for deeds in deeds_of(proof):
        for at, deed in enumerate(deeds):
            if deed.action.verb != "thread" or deed.action.other is None:
                continue
            casing = deed.action.other.partition(".")[0]
            later = next((one for one in deeds[at + 1 :] if _makes(one, casing, deed.action.other)), None)
            if later is not None and later.step.number > deed.step.number:
                yield Finding(
                    "threaded-too-early",
                    Severity.ERROR,
                    deed.action.place,
                    f"step {deed.step.number} draws '{deed.action.target}' through '{deed.action.other}', which step "
                    f"{later.step.number} sews only then",
                    f"move the line behind step {later.step.number}",
                    (deed.draft.variant,),
                )


def _makes(deed: Deed, copy: str, casing: str) -> bool:
    """True for what makes a casing: the seam of a facing, its being turned and stitched down; the hem of an edge."""
    verb, target = deed.action.verb, deed.action.target
    if "." in casing:
        return verb in ("hem", "topstitch") and target == casing
    seam = seam_of(deed.draft, target) if verb == "sew" else None
    return (seam is not None and _joins(seam, copy)) or (
        verb in ("turn", "topstitch") and target.partition(".")[0] == copy
    )
