"""Counts: as many of each as the steps take, no more and no fewer, and pairs cut as pairs."""

import re
from collections import Counter
from collections.abc import Iterator

from publisher.checks.deeds import deeds_of
from publisher.checks.named_edges import drafted_copies
from publisher.checks.values import Proof
from publisher.drafting import Draft, Placement
from publisher.geometry import alike_flips, mapped
from publisher.terms import Finding, Severity

# What is set in two halves, each of them attached.
HALVES = ("snap", "magnetic snap")
OFF_THE_FOLD = 1.0  # mm
# Words before the name of a copy by which several of it are meant.
SEVERAL = r"\b(?:each|both|every|all|two|three|four|six|pairs?|other|second|another)\b"


def more_bought_than_attached(proof: Proof) -> Iterator[Finding]:
    """The list asks for more of a notion than the steps attach.

    Why: the reader buys one too many, or looks for the place of one that no step tells of.

    Fix: correct the count, or write `Does: attach …` for each place; the two halves of a snap are one."""
    for deeds in deeds_of(proof):
        at: dict[str, Counter[str]] = {}
        for deed in deeds:
            if deed.action.verb == "attach":
                at.setdefault(deed.action.target, Counter())[deed.action.other or ""] += 1
        for notion in deeds[0].draft.notions if deeds else ():
            places = _places(deeds[0].draft, at.get(notion.key, Counter()))
            if not notion.count or not places:
                continue
            attached = (places + 1) // 2 if notion.kind in HALVES else places
            if notion.count > attached:
                halves = " in two halves" if notion.kind in HALVES and places > 1 else ""
                yield Finding(
                    "more-bought-than-attached",
                    Severity.WARNING,
                    notion.place,
                    f"the reader buys {notion.count} × '{notion.key}', and the steps attach {attached}{halves}",
                    "correct the count, or write 'Does: attach …' for each place",
                    (deeds[0].draft.variant,),
                )


def _places(draft: Draft, named: Counter[str]) -> int:
    """At how many spots a notion is set: at each named mark once for every copy that is cut; nought where unknown."""
    copies, spots = drafted_copies(draft), 0
    for name, times in named.items():
        head, _, tail = name.partition(".")
        found = copies.get(head)
        if found is None or not any(mark.name == tail for mark in found[0].marks):
            return 0  # along an edge, or somewhere on a copy: as many as you like
        spots += max(found[1].count, times)
    return spots


# "Pin one {pocket} on each half", "at each end lay one {end} on its upper and one on its lower side": within a sentence.
SENTENCE = re.compile(r"[^.;]+")
ONE_OF = re.compile(r"\bone \{([^{}]*)\}", re.IGNORECASE)
ONE = re.compile(r"\bone\b(?! (?:another|by one|of\b|side|end|half|edge))", re.IGNORECASE)
AT_EACH = re.compile(r"\b(?:each|either) (?:\w+ )?(?:half|end|side|edge)\b", re.IGNORECASE)


def too_few_for_each(proof: Proof) -> Iterator[Finding]:
    """A step lays one copy at each of two sides, halves or ends, and fewer are cut.

    Why: the reader has one in her hand and looks for the other.

    Fix: cut as many as are laid: `cut 2`; or say where the one goes."""
    for draft in proof.drafts:
        copies = drafted_copies(draft)
        for step in (step for section in proof.source.sections for step in section.steps):
            wanted = _wanted(str(step.text))
            for quote in step.quotes:
                name = str(quote).strip()
                if name in wanted and name in copies and copies[name][1].count < wanted[name]:
                    yield Finding(
                        "too-few-for-each",
                        Severity.WARNING,
                        quote.place,
                        f"step {step.number} takes {wanted[name]} × '{name}', at either side, and {copies[name][1].count} "
                        f"{'is' if copies[name][1].count == 1 else 'are'} cut",
                        f"write 'cut {wanted[name]}' behind the material of '{name}'",
                        (draft.variant,),
                    )
                    break


def _wanted(text: str) -> dict[str, int]:
    """How many of each quoted thing a step lays at two sides: as many times two as its sentence says 'one'."""
    return {
        found[1].strip(): 2 * len(ONE.findall(sentence[0]))
        for sentence in SENTENCE.finditer(text)
        if AT_EACH.search(sentence[0])
        for found in ONE_OF.finditer(sentence[0])
    }


def pair_cut_alike(proof: Proof) -> Iterator[Finding]:
    """Copies that are no mirror image of themselves are cut alike, and laid on the two halves of a piece cut on the fold.

    Why: on the other half the slant lies the wrong way, and the corners miss their marks.

    Fix: write `cut 2` without `alike`: they are cut as a pair, from double cloth."""
    for draft in proof.drafts:
        copies = drafted_copies(draft)
        for placement in draft.placements:
            piece, copy = copies[placement.placed]
            below, _ = copies[placement.below]
            alike = copy.count == 2 and not copy.mirrored and not alike_flips(piece.cut_line)
            others = [one for one in draft.placements if one.placed == placement.placed]
            if alike and len(others) == 1 and below.half is not None and _beside_the_fold(draft, placement):
                yield Finding(
                    "pair-cut-alike",
                    Severity.WARNING,
                    copy.place,
                    f"2 × '{copy.name}' are cut alike, and lie on the two halves of '{placement.below}', which are mirror "
                    "images",
                    "take 'alike' out, and they are cut as a pair",
                    (draft.variant,),
                )


def _beside_the_fold(draft: Draft, placement: Placement) -> bool:
    """True where a placed copy lies wholly on one half of the piece below."""
    below, placed = (draft.piece(draft.copy(name).piece) for name in (placement.below, placement.placed))
    if below.half is None or below.half.fold_edge is None:
        return False
    fold = below.half.edge(below.half.fold_edge).path
    across = (fold.end - fold.start).unit().left()
    line = mapped(placed.finished_line, placement.laying, placement.laying.turned_over)
    sides = [(segment.start - fold.start).dot(across) for segment in line.segments]
    return min(sides) > -OFF_THE_FOLD or max(sides) < OFF_THE_FOLD


def lining_counted_otherwise(proof: Proof) -> Iterator[Finding]:
    """Of one piece, more linings or fewer are cut than outsides.

    Why: one of them is left over, or missing when the lining is sewn.

    Fix: cut as many of both; a copy that has its own use bears its own name."""
    for draft in proof.drafts:
        for piece in draft.pieces:
            counts = {copy.name.removeprefix(piece.name).strip(): copy for copy in piece.copies}
            outside, lining = counts.get("outside"), counts.get("lining")
            sewn = {side.copy for seam in draft.seams for side in (*seam.first, *seam.second)}
            if outside is None or lining is None or not {outside.name, lining.name} <= sewn:
                continue
            if outside.count != lining.count:
                more = lining if lining.count > outside.count else outside
                yield Finding(
                    "lining-counted-otherwise",
                    Severity.WARNING,
                    more.place,
                    f"{outside.count} × '{outside.name}' and {lining.count} × '{lining.name}' are cut",
                    "cut as many of both",
                    (draft.variant,),
                )


def more_cut_than_sewn(proof: Proof) -> Iterator[Finding]:
    """More of a copy are cut than its seams take: each of its edges is sewn once, to one of another copy, and no step
    speaks of each or of both.

    Why: the reader cuts good cloth for a piece that is left over, and looks for the step that she has missed.

    Fix: cut one; or name the seams of the other, too."""
    if not proof.drafts:
        return
    draft = proof.drafts[0]
    texts = [str(step.text) for section in proof.source.sections for step in section.steps]
    laid = {one.placed for one in draft.placements}
    for copy in (copy for piece in draft.pieces if piece.strip is None for copy in piece.copies):
        if copy.count == 1 or copy.name in laid:
            continue
        if copy.name.removeprefix(copy.piece).strip() == "lining":
            continue  # which is counted against its outside
        sides = [side for seam in draft.seams for side in (*seam.first, *seam.second) if side.copy == copy.name]
        with_it = [seam for seam in draft.seams if any(one.copy == copy.name for one in (*seam.first, *seam.second))]
        partners = {one.copy for seam in with_it for one in (*seam.first, *seam.second)} - {copy.name}
        once = len({side.edge for side in sides}) == len(sides) > 0
        several = any(re.search(rf"{SEVERAL}(?: \w+){{0,2}} \{{?{re.escape(copy.name)}", text, re.I) for text in texts)
        if once and partners and not several and all(draft.copy(one).count == 1 for one in partners):
            yield Finding(
                "more-cut-than-sewn",
                Severity.WARNING,
                copy.place,
                f"{copy.count} × '{copy.name}' are cut, and '{with_it[0].name}' sews one of them",
                "cut one, or name the seams of the others",
                proof.variants,
            )
