"""What is fused, and to what: each backing to a copy that has its shape."""

from collections.abc import Iterator

from publisher.checks.deeds import deeds_of, piece_of
from publisher.checks.materials import BACKINGS
from publisher.checks.named_edges import drafted_copies
from publisher.checks.values import Proof
from publisher.drafting import Copy, Draft, Piece
from publisher.terms import Finding, Severity

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
