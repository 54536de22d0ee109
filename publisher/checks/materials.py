"""Materials: what is fused has glue, what is hemmed is cloth, backings are cut alike, prints lie one way."""

import re
from collections.abc import Iterator

from publisher.checks.amounts import told
from publisher.checks.deeds import Deed, deeds_of
from publisher.checks.named_edges import drafted_copies
from publisher.checks.values import Proof
from publisher.drafting import Copy, Draft, Grain, Material, Piece, PieceKind
from publisher.terms import Finding, Severity

BACKINGS = ("interfacing", "wadding")
# What is done with the edges and folds of cloth that is seen, and not with what lies behind it.
AS_CLOTH = ("hem", "pleat", "dart", "gather", "fold", "bind", "topstitch")
OPPOSITE = (frozenset({"front", "back"}), frozenset({"left", "right"}))
LINING = "lining"
WADDING = "wadding"


def _material(draft: Draft, copy: Copy) -> Material | None:
    """What a copy is cut from; None where that could not be read, which has been told."""
    return next((material for material in draft.materials if material.key == copy.material), None)


def _kind(draft: Draft, copy: Copy) -> str:
    material = _material(draft, copy)
    return material.kind if material is not None else ""


def fused_without_glue(proof: Proof) -> Iterator[Finding]:
    """A step fuses a copy that is cut from cloth, which has no glue.

    Why: it lies loose under the iron, and the reader looks for her mistake.

    Fix: cut it from a material whose kind is interfacing or wadding; of cloth on a fusible web, let the warning through."""
    for deeds in deeds_of(proof):
        for deed in deeds:
            found = drafted_copies(deed.draft).get(deed.action.target) if deed.action.verb == "fuse" else None
            material = _material(deed.draft, found[1]) if found is not None else None
            if material is not None and material.kind not in BACKINGS:
                yield Finding(
                    "fused-without-glue",
                    Severity.WARNING,
                    deed.action.place,
                    f"step {deed.step.number} fuses '{deed.action.target}', which is cut from '{material.key}' "
                    f"(kind: {material.kind})",
                    "cut it from an interfacing",
                    (deed.draft.variant,),
                )


def backing_sewn_as_cloth(proof: Proof) -> Iterator[Finding]:
    """A copy of wadding or interfacing is hemmed, folded, pleated, bound or edgestitched as if it were cloth.

    Why: it tears or swells where it is turned, and nobody means it to be seen: its material was mistaken.

    Fix: cut it from a cloth; or fuse or lay it behind one, and work on that."""
    for deeds in deeds_of(proof):
        told_of: set[str] = set()
        for deed in deeds:
            name, _, edge = deed.action.target.partition(".")
            found = drafted_copies(deed.draft).get(name) if deed.action.verb in AS_CLOTH else None
            # Layers of wadding are quilted: `topstitch` names the copy then, and no edge of it.
            if found is None or name in told_of or (deed.action.verb == "topstitch" and not edge):
                continue
            material = _material(deed.draft, found[1])
            if material is not None and material.kind in BACKINGS and name not in deed.before.fused:
                told_of.add(name)
                yield Finding(
                    "backing-sewn-as-cloth",
                    Severity.WARNING,
                    deed.action.place,
                    f"step {deed.step.number} says '{deed.action.verb} {deed.action.target}', and '{name}' is cut from "
                    f"'{material.key}' (kind: {material.kind})",
                    f"cut '{name}' from a cloth",
                    (deed.draft.variant,),
                )


def trimmed_but_not_larger(proof: Proof) -> Iterator[Finding]:
    """A step trims a copy to its template that was cut to it already.

    Why: quilting or fusing draws it in; there is nothing to trim, and it comes out smaller than its template.

    Fix: cut it larger (`rough by 1 in`), or take the line out."""
    for deeds in deeds_of(proof):
        on_notions = {deed.action.other for deed in deeds if deed.action.verb == "attach"}
        for deed in deeds:
            found = drafted_copies(deed.draft).get(deed.action.target) if deed.action.verb == "trim" else None
            if found is None or found[0].strip is not None or found[1].rough:
                continue
            if _kind(deed.draft, found[1]) in BACKINGS:
                continue  # it may be trimmed out of the seams
            if deed.action.target not in on_notions and not _sewn_before(deed):
                yield Finding(
                    "trimmed-but-not-larger",
                    Severity.WARNING,
                    deed.action.place,
                    f"step {deed.step.number} trims '{deed.action.target}', which is not cut larger than its template",
                    f"write 'rough by 1 in | 2.5 cm' behind the material of '{deed.action.target}'",
                    (deed.draft.variant,),
                )


def wadding_not_quilted(proof: Proof) -> Iterator[Finding]:
    """Wadding that is cut larger than its template is trimmed to it, and no step quilts or fuses the layers.

    Why: it is cut larger because quilting draws it in; trimmed and not quilted it shifts between the layers, and balls.

    Fix: quilt the layers first: `Does: topstitch …` on one of them; or cut the wadding to its template."""
    for deeds in deeds_of(proof):
        for at, deed in enumerate(deeds):
            found = drafted_copies(deed.draft).get(deed.action.target) if deed.action.verb == "trim" else None
            if found is None or not found[1].rough or found[0].name in _held(deeds, at):
                continue
            if _kind(deed.draft, found[1]) == WADDING:
                yield Finding(
                    "wadding-not-quilted",
                    Severity.WARNING,
                    deed.action.place,
                    f"step {deed.step.number} trims '{deed.action.target}', which is cut {told(found[1].rough, deed.draft)} "
                    "larger all round to be quilted, and no step stitches across its layers",
                    "write 'Does: topstitch …' under the step that quilts them, before this one",
                    (deed.draft.variant,),
                )


def _held(deeds: tuple[Deed, ...], trimmed: int) -> set[str]:
    """The pieces of which a layer is stitched across or fused to another, or, before they are trimmed, what lies on it."""
    held: set[str] = set()
    for at, deed in enumerate(deeds):
        copies = drafted_copies(deed.draft)
        if deed.action.verb in ("topstitch", "fuse"):
            below = [one.below for one in deed.draft.placements if one.placed == deed.action.target and at < trimmed]
            held |= {copies[name][0].name for name in (deed.action.target, deed.action.other, *below) if name in copies}
    return held


def _sewn_before(deed: Deed) -> bool:
    """True where a seam of the trimmed copy is sewn: it is its allowances that are trimmed then."""
    return any(copy == deed.action.target for copy, _ in deed.before.closed_edges)


def backings_cut_unalike(proof: Proof) -> Iterator[Finding]:
    """Of one fusible interfacing or wadding some copies are cut with their allowances, and others to the finished line.

    Why: the reader cuts them in one go and by one rule; and what has its allowance is caught in the seams and stiffens them.

    Fix: write `to the finished line` for all of them, or for none."""
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        fused = {action.target for step in assembly.steps for action in step.actions if action.verb == "fuse"}
        for material in draft.materials:
            cut = [
                (piece, copy)
                for piece in draft.pieces
                for copy in piece.copies
                if copy.material == material.key and material.kind in BACKINGS and copy.name in fused
            ]
            without = [copy for _, copy in cut if copy.to_finished_line]
            for piece, copy in cut:
                if without and not copy.to_finished_line and any(edge.allowance > 0 for edge in piece.edges):
                    yield Finding(
                        "backings-cut-unalike",
                        Severity.WARNING,
                        copy.place,
                        f"'{copy.name}' is cut from '{material.key}' with its allowance, and '{without[0].name}' to the "
                        "finished line",
                        "write 'to the finished line' behind its material, too",
                        (draft.variant,),
                    )


def print_on_its_side(proof: Proof) -> Iterator[Finding]:
    """A piece is cut across the cloth, of which the print or the nap lies along the others.

    Why: the print lies on its side there, and matches nothing beside it.

    Fix: take `grain: across` out; where it is meant, let the warning through and say so to the reader."""
    for draft in proof.drafts:
        for material in draft.materials:
            if not material.one_way and material.repeat is None:
                continue
            cut = [
                piece
                for piece in draft.pieces
                if piece.kind is not PieceKind.STRIP and any(copy.material == material.key for copy in piece.copies)
            ]
            along = [piece for piece in cut if piece.grain is Grain.UP]
            for piece in cut:
                if along and piece.grain is Grain.ACROSS:
                    yield Finding(
                        "print-on-its-side",
                        Severity.WARNING,
                        piece.place,
                        f"the grain of '{piece.name}' runs across, and that of '{along[0].name}' along '{material.key}', "
                        f"{_why_one_way(draft, material)}",
                        "take 'grain: across' out",
                        (draft.variant,),
                    )


def _why_one_way(draft: Draft, material: Material) -> str:
    if material.repeat is not None:
        return f"whose print repeats after {told(material.repeat.along, draft)}"
    return "which lies one way"


def half_cut_from_lining(proof: Proof) -> Iterator[Finding]:
    """Of a front and a back that are sewn to each other one is cut from fabric and the other from lining; or what is called
    the outside is cut from the lining's cloth.

    Why: half of the outside is of the thin cloth then, and it was perhaps a slip.

    Fix: name the same material for both; if it is meant, leave it as it is."""
    for draft in proof.drafts:
        for piece in draft.pieces:
            of_lining = [copy for copy in piece.copies if _kind(draft, copy) == LINING]
            for copy in of_lining:
                other = _other_half(piece, copy) or _outside_of_lining(piece, copy)
                outside = other is not None and LINING in other.name.split()
                together = other is not None and _sewn_together(draft, copy, other)
                if other is not None and (outside or (_kind(draft, other) == "fabric" and together)):
                    yield Finding(
                        "half-cut-from-lining",
                        Severity.WARNING if outside else Severity.ADVICE,
                        copy.place,
                        f"'{copy.name}' is cut from '{copy.material}', a lining"
                        + (", as its lining is" if outside else f", and '{other.name}' from '{other.material}'"),
                        "write the material of the outside, if it is a slip",
                        (draft.variant,),
                    )


def _other_half(piece: Piece, copy: Copy) -> Copy | None:
    """The copy of a piece that bears the opposite name, `back` of `front`; None for what is called a lining."""
    words = set(copy.name.split())
    if LINING in words:
        return None
    return next((one for one in piece.copies if frozenset(words ^ set(one.name.split())) in OPPOSITE), None)


def _outside_of_lining(piece: Piece, copy: Copy) -> Copy | None:
    """The copy that lines this one, of the same material, where this is called the outside."""
    own = {f"{copy.name} {LINING}"} | ({one.name for one in piece.copies} if "outside" in copy.name.split() else set())
    linings = (one for one in piece.copies if one.name in own and LINING in one.name.split())
    return next((one for one in linings if one.material == copy.material and copy.name != one.name), None)


def _sewn_together(draft: Draft, one: Copy, other: Copy) -> bool:
    return any({one.name, other.name} <= {side.copy for side in (*seam.first, *seam.second)} for seam in draft.seams)


# "Cut {brim interfacing} without its allowance": a quoted copy, and these words behind it in one clause.
WITHOUT = re.compile(r"\bcut\b[^.:;]*?\{([^{}]*)\}[^.:;{}]*\bwithout (?:its |any |the |seam )*allowance", re.IGNORECASE)


def cut_not_as_told(proof: Proof) -> Iterator[Finding]:
    """A step says that a copy is cut without its allowance, and the cutting chart cuts it with it.

    Why: chart and step contradict each other; and with its allowance it is caught in the seams.

    Fix: write `to the finished line` behind its material, or take the words out of the step."""
    for draft in proof.drafts:
        copies = drafted_copies(draft)
        for step in (step for section in proof.source.sections for step in section.steps):
            told_without = {found[1].strip() for found in WITHOUT.finditer(str(step.text))}
            for quote in step.quotes:
                found = copies.get(str(quote).strip()) if str(quote).strip() in told_without else None
                if found is None or found[1].to_finished_line:
                    continue
                if any(edge.allowance > 0 for edge in found[0].edges):
                    yield Finding(
                        "cut-not-as-told",
                        Severity.WARNING,
                        quote.place,
                        f"step {step.number} cuts '{found[1].name}' without its allowance, and the chart with it",
                        f"write 'to the finished line' behind '{found[1].material}'",
                        (draft.variant,),
                    )


def fused_twice(proof: Proof) -> Iterator[Finding]:
    """Two backings of one piece are fused to the same copy.

    Why: one half of the work is stiff and the other limp, and the reader has one left over when she comes to it.

    Fix: name the copy that each belongs to."""
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        copies, first = drafted_copies(draft), dict[tuple[str, str], str]()
        for action in (action for step in assembly.steps for action in step.actions):
            found = copies.get(action.target) if action.verb == "fuse" else None
            if found is None or action.other is None or _kind(draft, found[1]) not in BACKINGS:
                continue
            held = first.setdefault((found[0].name, action.other), action.target)
            if held != action.target:
                yield Finding(
                    "fused-twice",
                    Severity.WARNING,
                    action.place,
                    f"'{action.target}' is fused to '{action.other}', and so is '{held}'",
                    "name the copy that each belongs to",
                    (draft.variant,),
                )
