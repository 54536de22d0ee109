"""What is fused, and to what: each backing to a copy that has its shape, and only where it has glue."""

import re
from collections.abc import Iterator

from publisher.assembly import Action
from publisher.checks.deeds import deeds_of, piece_of, seam_of
from publisher.checks.materials import BACKINGS
from publisher.checks.named_edges import drafted_copies
from publisher.checks.values import Proof
from publisher.drafting import Copy, Draft, Material, Piece
from publisher.terms import Finding, Severity

# What a material's name says of its glue.
SEWN_IN = re.compile(r"\b(?:sew|sewn|stitch)[- ]in\b|\bnon-?fusible\b|\bnot fusible\b|\bwithout glue\b", re.IGNORECASE)
FUSIBLE = re.compile(r"\bfusible\b|\biron-on\b", re.IGNORECASE)
# Below this share of the other one it is a patch (a rule of the house).
SMALLER = 0.5


def fused_to_another(proof: Proof) -> Iterator[Finding]:
    """A backing that is a copy of one piece is fused to a copy of another, and its own piece is left without it.

    Why: it has another shape than what it is fused to, and what should be stiff is limp.

    Fix: name the copy of its own piece; for a patch, draft a piece of its own."""
    for deeds in deeds_of(proof):
        for deed in deeds:
            copies = drafted_copies(deed.draft)
            backing, cloth = copies.get(deed.action.target), copies.get(deed.action.other or "")
            if deed.action.verb != "fuse" or backing is None or cloth is None or backing[0] == cloth[0]:
                continue
            own = [copy for copy in backing[0].copies if not _is_backing(deed.draft, copy)]
            if own and _is_backing(deed.draft, backing[1]) and not _alike(backing[0], cloth[0]):
                yield Finding(
                    "fused-to-another",
                    Severity.WARNING,
                    deed.action.place,
                    f"step {deed.step.number} fuses '{deed.action.target}', which has the shape of '{backing[0].name}', to "
                    f"'{deed.action.other}', which has not",
                    f"write 'fuse {deed.action.target} to {own[0].name}', or draft a piece of its own for a patch",
                    (deed.draft.variant,),
                )


def _is_backing(draft: Draft, copy: Copy) -> bool:
    return any(material.key == copy.material and material.kind in BACKINGS for material in draft.materials)


def _alike(one: Piece, other: Piece) -> bool:
    """True for pieces whose cut lines take the same room; a mirrored one does."""
    return abs(one.cut_width - other.cut_width) < 1 and abs(one.cut_height - other.cut_height) < 1


def patch_under_interfacing(proof: Proof) -> Iterator[Finding]:
    """Interfacing is fused over a patch that was fused to the same piece in an earlier step.

    Why: the edge of the patch shows through, and the larger layer does not stick along it.

    Fix: fuse the larger one first, and the patch on it."""
    for deeds in deeds_of(proof):
        for deed in deeds:
            action, draft = deed.action, deed.draft
            if action.verb != "fuse":
                continue
            below = [one for one, onto in deed.before.fused_to if onto == action.other and one != action.target]
            smaller = [one for one in below if _area(draft, one) < SMALLER * _area(draft, action.target)]
            if smaller:
                yield Finding(
                    "patch-under-interfacing",
                    Severity.WARNING,
                    action.place,
                    f"step {deed.step.number} fuses '{action.target}' to '{action.other}', where '{smaller[0]}', which is "
                    "smaller, is fused already",
                    f"fuse '{action.target}' in a step before '{smaller[0]}'",
                    (draft.variant,),
                )


def _area(draft: Draft, copy: str) -> float:
    box = piece_of(draft, copy).finished_line.box
    return box.width * box.height


def fused_and_sewn_in(proof: Proof) -> Iterator[Finding]:
    """A step fuses a copy cut from a material that is sewn in, by its name.

    Why: it has no glue: the reader irons it and it stays loose, or slips when the work is sewn.

    Fix: list a fusible one, or baste it within the allowance in place of fusing it."""
    for deeds in deeds_of(proof):
        told: set[str] = set()
        for deed in deeds:
            found = drafted_copies(deed.draft).get(deed.action.target) if deed.action.verb == "fuse" else None
            material = next((one for one in deed.draft.materials if found and one.key == found[1].material), None)
            if material is None or material.key in told or not _is_sewn_in(material):
                continue
            told.add(material.key)
            yield Finding(
                "fused-and-sewn-in",
                Severity.WARNING,
                material.place,
                f"'{material.name}' is sewn in, and step {deed.step.number} fuses '{deed.action.target}', which is cut from it",
                "list a fusible one, or baste it in the step",
                (deed.draft.variant,),
            )


def _is_sewn_in(material: Material) -> bool:
    return material.kind in BACKINGS and SEWN_IN.search(material.name) is not None


def placed_not_fused(proof: Proof) -> Iterator[Finding]:
    """A fusible interfacing is laid in its place or sewn in, and no step fuses it.

    Why: it slips when the work is turned, and what it was to strengthen tears.

    Fix: fuse it, and say so: `Does: fuse … to …`."""
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        actions = [action for step in assembly.steps for action in step.actions]
        fusible = {one.key for one in draft.materials if _is_fusible(one)}
        fused = {action.target for action in actions if action.verb == "fuse"}
        done = {action.target.partition(".")[0] for action in actions if action.verb in ("topstitch", "baste")} | fused
        for placement in draft.placements:
            place = next((one for one in actions if one.verb == "place" and one.target == placement.name), None)
            if place is None or placement.placed in done or draft.copy(placement.placed).material not in fusible:
                continue
            yield _not_fused(draft, place, placement.placed, f"laid on '{placement.below}'", placement.below)
        for action in actions:
            seam = seam_of(draft, action.target) if action.verb == "sew" else None
            sides = [*seam.first, *seam.second] if seam is not None else []
            loose = [one.copy for one in sides if one.copy not in fused and draft.copy(one.copy).material in fusible]
            if seam is not None and loose:
                yield _not_fused(draft, action, loose[0], f"sewn in '{seam.name}'", "…")
                fused.update(loose)


def _is_fusible(material: Material) -> bool:
    name = material.name
    return material.kind in BACKINGS and FUSIBLE.search(name) is not None and SEWN_IN.search(name) is None


def _not_fused(draft: Draft, action: Action, copy: str, done: str, to: str) -> Finding:
    return Finding(
        "placed-not-fused",
        Severity.WARNING,
        action.place,
        f"'{copy}', a fusible one, is {done}, and no step fuses it",
        f"write 'Does: fuse {copy} to {to}' under the step that fuses it",
        (draft.variant,),
    )
