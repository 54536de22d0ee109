"""Layers and what they are made of: heat, thickness, and which way up a print stands."""

import re
from collections.abc import Iterator

from publisher.checks.amounts import told
from publisher.checks.deeds import Deed, copies_of, deeds_of
from publisher.checks.values import Proof
from publisher.drafting import Draft, Seam, SeamEdge
from publisher.geometry import Line
from publisher.terms import Finding, Severity

# What goes under the lifted foot of a home machine and is still sewn (common practice, no source).
THICKEST_SEAM = 6.0  # mm
LAYERS = {"in fourths": 4, "turned": 2, "doubled": 2, "edges to the centre": 2, "single fold": 2, "plain": 1}


def heat_on_what_melts(proof: Proof) -> Iterator[Finding]:
    """A step presses or fuses a cloth that bears no heat, or cloth that a magnet is set in.

    Why: vinyl melts to the iron, and a magnet loses its strength.

    Fix: press before it is sewn in, or fold it with a bone folder or clips; fuse before the magnet is set."""
    for deeds in deeds_of(proof):
        magnets: dict[str, str] = {}
        for deed in deeds:
            action, draft = deed.action, deed.draft
            kinds = {notion.key: notion.kind for notion in draft.notions}
            if action.verb == "attach" and kinds.get(action.target) == "magnetic snap" and action.other:
                magnets[action.other.partition(".")[0]] = action.target
            if action.verb not in ("press", "fuse"):
                continue
            for copy in dict.fromkeys(_touched(deed)):
                material = next((one for one in draft.materials if one.key == draft.copy(copy).material), None)
                if material is None:
                    continue  # it could not be read, which has been told
                if not material.bears_heat:
                    yield _too_hot(deed, f"'{copy}', which is cut from '{material.key}' (heat: none)")
                elif action.verb == "fuse" and copy in magnets:
                    yield _too_hot(deed, f"'{copy}', where '{magnets[copy]}' has been set")


def _touched(deed: Deed) -> Iterator[str]:
    """The copies that the iron touches."""
    names = {copy.name for piece in deed.draft.pieces for copy in piece.copies}
    yield from (name for name in copies_of(deed.action) if name in names)
    for seam in deed.draft.seams:
        if seam.name == deed.action.target:
            yield from (edge.copy for edge in (*seam.first, *seam.second))


def _too_hot(deed: Deed, what: str) -> Finding:
    verb = "fuses to" if deed.action.verb == "fuse" else "presses"
    return Finding(
        "heat-on-what-melts",
        Severity.WARNING,
        deed.action.place,
        f"step {deed.step.number} {verb} {what}",
        "do it earlier, or without the iron",
        (deed.draft.variant,),
    )


def bulky_seam(proof: Proof) -> Iterator[Finding]:
    """The layers that meet in one seam are thicker than a home machine sews, as far as their thickness is stated.

    Why: the cloth does not go under the foot, stitches are skipped and needles break.

    Fix: cut wadding and interfacing without allowance, trim layers back, or sew by hand there."""
    for deeds in deeds_of(proof):
        for deed in deeds:
            seam = next((one for one in deed.draft.seams if one.name == deed.action.target), None)
            if deed.action.verb != "sew" or seam is None:
                continue
            thick = sum(_thickness(deed, side) for side in (seam.first, seam.second))
            if thick > THICKEST_SEAM:
                yield Finding(
                    "bulky-seam",
                    Severity.ADVICE,
                    deed.action.place,
                    f"the layers of '{seam.name}' are {told(thick, deed.draft)} thick together, more than "
                    f"{told(THICKEST_SEAM, deed.draft)}",
                    "cut wadding without allowance ('to the finished line'), or trim layers back",
                    (deed.draft.variant,),
                )


def _thickness(deed: Deed, side: tuple[SeamEdge, ...]) -> float:
    """The thickest stack of one side, mm: its copy, what is fused to it, and what is placed at this edge."""
    return max(_stack(deed, edge) for edge in side)


def _stack(deed: Deed, edge: SeamEdge) -> float:
    draft, state = deed.draft, deed.before
    on_it = [edge.copy]
    fused = (one for one, to in sorted(state.fused_to) if to == edge.copy)
    on_it += [one for one in fused if not draft.copy(one).to_finished_line]
    for placement in draft.placements:
        at_edge = any(below == edge.edge for _, below in placement.matching)
        if placement.name in state.placed and placement.below == edge.copy and at_edge:
            on_it.append(placement.placed)
    return sum(_layer(draft, copy) for copy in on_it)


def _layer(draft: Draft, copy: str) -> float:
    piece = draft.piece(draft.copy(copy).piece)
    key = draft.copy(copy).material
    thickness = next((one.thickness for one in draft.materials if one.key == key), None)
    folded = LAYERS.get(piece.strip.folding, 1) if piece.strip is not None else 1
    return folded * (thickness or 0.0)


def print_upside_down(proof: Proof) -> Iterator[Finding]:
    """A piece of one-way cloth is folded at its base and sewn to itself: behind the base the print stands on its head.

    Why: the reader sees it when the bag is finished.

    Fix: cut front and back as two pieces with a seam at the base, or say that the print is to run over it."""
    for draft in proof.drafts:
        for seam in draft.seams:
            copy = _folded_at_the_base(draft, seam)
            if copy is not None:
                yield Finding(
                    "print-upside-down",
                    Severity.ADVICE,
                    seam.place,
                    f"'{seam.name}' sews '{copy}' to itself below a fold across the grain, and its cloth lies one way",
                    "cut two pieces with a seam at the base, or choose a print without an up and a down",
                    (draft.variant,),
                )


def _folded_at_the_base(draft: Draft, seam: Seam) -> str | None:
    """The one-way copy of which two straight lengthwise edges in one line are sewn to each other."""
    if len(seam.first) != 1 or len(seam.second) != 1 or seam.first[0].copy != seam.second[0].copy:
        return None
    piece = draft.piece(seam.first[0].piece)
    (one, *more), (other, *others) = (piece.edges_of(side[0].edge) for side in (seam.first, seam.second))
    straight = all(isinstance(segment, Line) for edge in (one, other) for segment in edge.path.segments)
    if not piece.one_way or more or others or not straight:
        return None
    along = (one.path.end - one.path.start).unit()
    in_line = abs((other.path.start - one.path.start).dot(along.left())) < 1.0
    return seam.first[0].copy if in_line and abs(along.y) > 0.9 else None


TWICE = ("slider", "buckle")  # a strap passes them there and back


def strap_too_thick(proof: Proof) -> Iterator[Finding]:
    """The layers of a strap are thicker than the opening of the ring or the slider that it passes.

    Why: it is dragged through by force, or does not pass at all.

    Fix: use hardware with a higher opening, thinner cloth, or a strap of fewer layers."""
    for deeds in deeds_of(proof):
        for deed in deeds:
            notion = next((one for one in deed.draft.notions if one.key == deed.action.target), None)
            copy = (deed.action.other or "").partition(".")[0]
            copies = {one.name for piece in deed.draft.pieces if piece.strip is not None for one in piece.copies}
            high = dict(notion.sizes).get("inner height") if notion is not None else None
            if deed.action.verb != "attach" or notion is None or high is None or copy not in copies:
                continue
            thick = _layer(deed.draft, copy) * (2 if notion.kind in TWICE else 1)
            if thick > float(high.amount) + 0.05:
                yield Finding(
                    "strap-too-thick",
                    Severity.WARNING,
                    deed.action.place,
                    f"'{copy}' is {told(thick, deed.draft)} thick where it passes '{notion.key}', which is "
                    f"{told(float(high.amount), deed.draft)} high inside",
                    "use a higher one, thinner cloth, or fewer layers",
                    (deed.draft.variant,),
                )


CROSSWISE = re.compile(r"\bfold\w*\b[^.]{0,60}\bcrosswise\b|\bcrosswise fold\b", re.IGNORECASE)


def folded_against_the_nap(proof: Proof) -> Iterator[Finding]:
    """A step folds one-way cloth crosswise to cut it.

    Why: the lower layer then lies with its nap or its print the other way, and one piece of each pair is upside down.

    Fix: cut it from single cloth, or fold it lengthwise."""
    one_way = [copy for draft in proof.drafts for piece in draft.pieces if piece.one_way for copy in piece.copies]
    if str(proof.source.facts.language) != "en" or not one_way:
        return
    for section in proof.source.sections:
        for step in section.steps:
            found = CROSSWISE.search(str(step.text))
            if found is not None:
                yield Finding(
                    "folded-against-the-nap",
                    Severity.WARNING,
                    step.text.part(found.start(), found.end()).place,
                    f"step {step.number} folds the cloth crosswise, and '{one_way[0].name}' lies one way",
                    "cut it from single cloth, or fold it lengthwise",
                    proof.variants,
                )
