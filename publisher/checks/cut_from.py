"""What is cut from which material, and layers that are cut alike."""

import re
from collections.abc import Iterator

from publisher.checks.materials import BACKINGS
from publisher.checks.named_edges import drafted_copies
from publisher.checks.values import Proof
from publisher.drafting import Copy, Draft, Piece
from publisher.terms import Finding, Severity

ENGLISH = "en"
FOR = re.compile(r"\bfor (?:the |a )?(?P<what>.+)$", re.IGNORECASE)
# What is of the outside is not always called so.
OF_ALL = {"outside", "outer", "main"}
INNER = {"inner", "inside"}  # a lining by another word
JOINING = {"and", "or", "the", "a", "an", "all", "both"}


def material_for_another(proof: Proof) -> Iterator[Finding]:
    """The name of a material says for what it is, and what it names is cut from another one; or one layer of a piece is cut
    from it that it does not name, when it names all else.

    Why: the reader buys after the name, and cuts after the chart: the one beside it gets the wrong face, or too little cloth.

    Fix: cut it from the material that says so, or tell in its name what it is for."""
    if str(proof.source.facts.language) != ENGLISH:
        return
    yield from _for_all_but_one(proof)
    for draft in proof.drafts[:1]:
        for material in proof.source.materials:
            found = FOR.search(str(material.name))
            words = re.findall(r"\w+", found["what"].lower()) if found is not None else []
            for word in words:
                cut_from = _cut_from(draft, word)
                if cut_from and str(material.key) not in cut_from.values():
                    copy = next(iter(cut_from))
                    yield Finding(
                        "material-for-another",
                        Severity.WARNING,
                        draft.copy(copy).place,
                        f"'{material.name}' says that it is for the {word}, and '{copy}' is cut from '{cut_from[copy]}'",
                        f"write '{material.key}' behind it, or change the name of the material",
                        proof.variants,
                    )


# A name that lists fewer, or accounts for fewer copies, does not mean to name all (a rule of the house).
LISTED, NAMED = 2, 3


def _for_all_but_one(proof: Proof) -> Iterator[Finding]:
    """A layer that is cut from a material whose name tells of everything else that is cut from it."""
    for draft in proof.drafts[:1]:
        for material in proof.source.materials:
            found = FOR.search(str(material.name))
            words = set(re.findall(r"\w+", found["what"].lower())) - JOINING if found is not None else set()
            cut = [(piece, copy) for piece in draft.pieces for copy in piece.copies if copy.material == material.key]
            meant = {copy.name: {word for word in words if _is_called(copy, word)} for _, copy in cut}
            others = [(piece, copy) for piece, copy in cut if not meant[copy.name]]
            all_found = words == {word for copy in meant.values() for word in copy}
            few = len(cut) - 1 < NAMED or len(words) < LISTED
            if few or not all_found or words & OF_ALL or len(others) != 1:
                continue
            piece, copy = others[0]
            if not _is_of_other_cloth(draft, piece, copy) or INNER & set(copy.name.lower().split()):
                continue
            yield Finding(
                "material-for-another",
                Severity.WARNING,
                copy.place,
                f"'{material.name}' says for what it is, and '{copy.name}', which is cut from it, is none of these",
                f"cut '{copy.name}' from another material, or name it behind '{material.key}', too",
                proof.variants,
            )


def _is_of_other_cloth(draft: Draft, piece: Piece, copy: Copy) -> bool:
    """True where the other layers of a piece are cut from other cloth; a tab has none, and may be of what is left over."""
    backings = {one.key for one in draft.materials if one.kind in BACKINGS}
    fellows = {one.material for one in piece.copies if one.name != copy.name} - backings
    return bool(fellows) and copy.material not in fellows


def _is_called(copy: Copy, word: str) -> bool:
    """True where a word, or its singular or plural, stands in the name of a copy."""
    forms = {word, word.removesuffix("s"), f"{word}s"}
    return not forms.isdisjoint(copy.name.lower().split())


def _cut_from(draft: Draft, word: str) -> dict[str, str]:
    """The material of each copy whose name has a word, or its singular."""
    singular = word.removesuffix("s") if len(word) > len("xxs") else word
    return {
        copy.name: copy.material
        for piece in draft.pieces
        for copy in piece.copies
        if {word, singular} & set(copy.name.lower().split())
    }


def layers_cut_unalike(proof: Proof) -> Iterator[Finding]:
    """Of layers that are laid on one another one is cut larger than its template, and another is not.

    Why: quilting draws all of them in; the smaller one no longer reaches the edge where they are trimmed.

    Fix: cut all of them larger by the same: `rough by …`."""
    for draft in proof.drafts:
        copies = drafted_copies(draft)
        for placement in draft.placements:
            (upper, one), (lower, other) = copies[placement.placed], copies[placement.below]
            if upper.name == lower.name and bool(one.rough) != bool(other.rough):
                smaller, larger = (one, other) if other.rough else (other, one)
                yield Finding(
                    "layers-cut-unalike",
                    Severity.WARNING,
                    smaller.place,
                    f"'{smaller.name}' is cut to its template, and '{larger.name}', which it is laid together with, larger",
                    f"write 'rough by …' behind the material of '{smaller.name}', too",
                    (draft.variant,),
                )
