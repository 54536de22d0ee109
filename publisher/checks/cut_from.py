"""What is cut from which material, and layers that are cut alike."""

import re
from collections.abc import Iterator

from publisher.checks.named_edges import drafted_copies
from publisher.checks.values import Proof
from publisher.drafting import Draft
from publisher.terms import Finding, Severity

FOR = re.compile(r"\bfor (?:the |a )?(?P<what>.+)$", re.IGNORECASE)


def material_for_another(proof: Proof) -> Iterator[Finding]:
    """The name of a material says for what it is, and what it names is cut from another one.

    Why: the reader buys after the name, and cuts after the chart.

    Fix: cut it from the material that says so, or tell in its name what it is for."""
    if str(proof.source.facts.language) != "en":
        return
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
