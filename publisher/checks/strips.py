"""Strips: long enough for where they are held, enough of them outside their seams, cut for the way they are folded."""

import re
from collections.abc import Iterator
from itertools import pairwise

from publisher.checks.amounts import lengths_meant, told
from publisher.checks.deeds import deeds_of
from publisher.checks.named_edges import allowance_at, atoms_in_seams, distance_between, spot_on
from publisher.checks.values import Proof
from publisher.drafting import Draft, Grain, Notch, Piece, Placement, Strip
from publisher.frozen import dataclass
from publisher.terms import Finding, Severity

NEAR = 1.0  # mm that nobody sews nearer to
# A loop of which less than this is left outside its seam holds nothing (common practice, no source).
SHORTEST_LOOP = 6.0  # mm
# Two edges that meet at less than this run on into each other (a rule of the house): the cosine of 20°.
RUNS_ON = 0.94
# "Sew in the fold, {binding width} from the edge": how far in the strip is sewn on.
SEWN_FROM_EDGE = re.compile(
    r"\b(?:sew|sews|stitch|stitches)\b"
    r"(?:(?!\bstop|\bbegin|\bleav)[^.{}])*\{(?P<quoted>[^{}]*)\} from (?:the|its|their) (?:raw )?edges?\b",
    re.IGNORECASE,
)
# What may be added to the width for thick layers.
SLACK = 2.0  # mm


@dataclass(frozen=True, slots=True)
class HeldEnd:
    """One end of a strip, and the spot of the copy below that it is laid on."""

    end: str
    spot: str
    placement: Placement


def _held_twice(draft: Draft) -> Iterator[tuple[Piece, Piece, HeldEnd, HeldEnd]]:
    """Strips that are held by both ends on one copy: strip, the piece below, and the two ends."""
    ends: dict[tuple[str, str], dict[str, HeldEnd]] = {}
    for placement in draft.placements:
        if draft.piece(draft.copy(placement.placed).piece).strip is not None:
            for own, below in placement.matching:
                if own.endswith("end"):
                    held = ends.setdefault((placement.placed, placement.below), {})
                    held.setdefault(own, HeldEnd(own, below, placement))
    for (placed, below), held in ends.items():
        if len(held) == 2:
            one, other = held.values()
            yield draft.piece(draft.copy(placed).piece), draft.piece(draft.copy(below).piece), one, other


def _between_seams(strip: Piece, below: Piece, *ends: HeldEnd) -> float:
    """The length of a strip between the seams that catch its ends, mm: what its own ends do not allow, they take."""
    assert strip.strip is not None
    taken = (max(allowance_at(below, end.spot) - strip.strip.end_allowance, 0.0) for end in ends)
    return strip.strip.finished_length - sum(taken)


def strip_shorter_than_its_place(proof: Proof) -> Iterator[Finding]:
    """A strip is held at both ends, and is shorter than the way from one to the other.

    Why: its second end does not reach the place where it is to be sewn.

    Fix: make the strip as long as the way between, and longer where it is to stand off: a handle wants room for a hand."""
    for draft in proof.drafts:
        for strip, below, one, other in _held_twice(draft):
            spots = spot_on(below, one.spot), spot_on(below, other.spot)
            if spots[0] is None or spots[1] is None:
                continue
            apart, length = distance_between(spots[0], spots[1]), _between_seams(strip, below, one, other)
            if length < apart - NEAR and one.spot != other.spot:
                yield Finding(
                    "strip-shorter-than-its-place",
                    Severity.ERROR,
                    one.placement.place,
                    f"'{one.placement.placed}' is {told(max(length, 0.0), draft)} long between its seams, and "
                    f"'{one.spot}' and '{other.spot}' of '{one.placement.below}' lie {told(apart, draft)} apart",
                    f"make '{strip.name}' longer",
                    (draft.variant,),
                )


def loop_lost_in_the_seam(proof: Proof) -> Iterator[Finding]:
    """A loop is so short that next to nothing of it is left outside the seam that holds its ends.

    Why: the allowances take it, and there is nothing to hang it by.

    Fix: lengthen the strip: twice what is to show, and the allowance of the seam at either end."""
    for draft in proof.drafts:
        for strip, below, one, other in _held_twice(draft):
            shows = _between_seams(strip, below, one, other) / 2
            if one.spot == other.spot and shows < SHORTEST_LOOP:
                yield Finding(
                    "loop-lost-in-the-seam",
                    Severity.ERROR if shows < NEAR else Severity.WARNING,
                    one.placement.place,
                    f"of the loop '{one.placement.placed}' {told(max(shows, 0.0), draft)} are left outside the seam at "
                    f"'{one.spot}'",
                    f"lengthen '{strip.name}': twice what is to show, and the allowance at either end",
                    (draft.variant,),
                )


def loop_longer_than_its_piece(proof: Proof) -> Iterator[Finding]:
    """A loop whose ends are caught at an edge reaches over the piece to the seam at its other side.

    Why: it lies inwards when the piece is sewn, and the other seam catches its fold.

    Fix: shorten the strip."""
    for draft in proof.drafts:
        for strip, below, one, other in _held_twice(draft):
            notch = next((mark for mark in below.marks if isinstance(mark, Notch) and mark.name == one.spot), None)
            if notch is None or one.spot != other.spot:
                continue
            inwards = (notch.inner_end - notch.cut_end).unit()
            across = max((spot - notch.at).dot(inwards) for spot in below.finished_line.flattened(1.0))
            shows = _between_seams(strip, below, one, other) / 2
            if shows > across:
                yield Finding(
                    "loop-longer-than-its-piece",
                    Severity.WARNING,
                    one.placement.place,
                    f"the loop '{one.placement.placed}' is {told(shows, draft)} long from its seam, and "
                    f"'{one.placement.below}' is {told(across, draft)} wide there",
                    f"make '{strip.name}' shorter",
                    (draft.variant,),
                )


def both_ends_at_one_place(proof: Proof) -> Iterator[Finding]:
    """Two placements lay the two ends of one strip on the same edge or mark, so that it makes a loop.

    Why: a handle that is meant to lead from side to side is often written so by a slip.

    Fix: name the other edge in the second placement; if a loop is meant, leave it as it is."""
    for draft in proof.drafts:
        for _, _, one, other in _held_twice(draft):
            if one.spot == other.spot and one.placement != other.placement:
                # A loop is held at a mark; along an edge it is hardly meant.
                at_a_mark = one.spot in {mark.name for mark in draft.piece(draft.copy(one.placement.below).piece).marks}
                yield Finding(
                    "both-ends-at-one-place",
                    Severity.ADVICE if at_a_mark else Severity.WARNING,
                    other.placement.place,
                    f"'{one.placement.name}' and '{other.placement.name}' lay both ends of '{one.placement.placed}' on "
                    f"'{one.spot}' of '{one.placement.below}'",
                    "name the other edge in one of them, unless a loop is meant",
                    (draft.variant,),
                )


def one_end_held_twice(proof: Proof) -> Iterator[Finding]:
    """Two placements lay the same end of one strip, and none its other end.

    Why: the reader has one end in two places, and the other hangs loose.

    Fix: name the other end in one of them."""
    for draft in proof.drafts:
        held: dict[tuple[str, str], Placement] = {}
        ends = {(one.placed, own) for one in draft.placements for own, _ in one.matching if own.endswith("end")}
        for placement in draft.placements:
            strip = draft.copy(placement.placed)
            for own, _ in placement.matching:
                if not own.endswith("end") or draft.piece(strip.piece).strip is None or strip.count > 1:
                    continue
                first = held.setdefault((strip.name, own), placement)
                other = {"left end": "right end", "right end": "left end"}.get(own, own)
                if first is not placement and (strip.name, other) not in ends:
                    yield Finding(
                        "one-end-held-twice",
                        Severity.WARNING,
                        placement.place,
                        f"'{first.name}' and '{placement.name}' both lay the {own} of '{strip.name}', and none its {other}",
                        f"write '{other}' in one of them",
                        (draft.variant,),
                    )


def strip_caught_in_next_seam(proof: Proof) -> Iterator[Finding]:
    """A strip is held so near the end of an edge that the seam round the corner catches it.

    Why: a part of its width is sewn into that seam, and it cannot lie straight.

    Fix: move its notch away from the end of the edge, by half the strip's width and a little."""
    for draft in proof.drafts:
        sewn = set(atoms_in_seams(draft))
        for placement in draft.placements:
            strip = draft.piece(draft.copy(placement.placed).piece).strip
            below = draft.piece(draft.copy(placement.below).piece)
            spots = {spot for own, spot in placement.matching if own.endswith("end")}
            for mark in below.marks:
                if strip is None or not isinstance(mark, Notch) or mark.name not in spots:
                    continue
                for room, neighbour in _corners_beside(below, mark):
                    if room < strip.finished_width / 2 - NEAR and (placement.below, neighbour) in sewn:
                        yield Finding(
                            "strip-caught-in-next-seam",
                            Severity.WARNING,
                            placement.place,
                            f"the middle of '{placement.placed}' lies {told(room, draft)} from the seam along "
                            f"'{neighbour}' of '{placement.below}', and half its width is "
                            f"{told(strip.finished_width / 2, draft)}",
                            f"move '{mark.name}' further from that end",
                            (draft.variant,),
                        )


def _corners_beside(piece: Piece, notch: Notch) -> Iterator[tuple[float, str]]:
    """How far a notch lies from each end of its edge, mm, and the edge round that corner."""
    ring = [*piece.edges, piece.edges[0]]
    for before, after in pairwise(ring):
        turns = before.path.direction_at(before.length).dot(after.path.direction_at(0.0)) < RUNS_ON
        if turns and before.name == notch.edge:
            yield before.length - notch.distance, after.name
        if turns and after.name == notch.edge:
            yield notch.distance, before.name


def folded_strip_cut_plain(proof: Proof) -> Iterator[Finding]:
    """A step folds a strip that is cut plain: as wide as it finishes, and its allowances.

    Why: folded lengthwise it comes out half as wide as the pattern says.

    Fix: say how it is folded: `fold: doubled`, `in fourths`; or do not fold it."""
    for deeds in deeds_of(proof):
        plain = {
            copy.name: piece
            for deed in deeds[:1]
            for piece in deed.draft.pieces
            for copy in piece.copies
            if piece.strip is not None and piece.strip.folding == "plain"
        }
        for deed in deeds:
            if deed.action.verb == "fold" and deed.action.target in plain:
                piece = plain[deed.action.target]
                assert piece.strip is not None
                yield Finding(
                    "folded-strip-cut-plain",
                    Severity.WARNING,
                    deed.action.place,
                    f"step {deed.step.number} folds '{deed.action.target}', which is cut plain: as wide as it is said to "
                    f"finish, {told(piece.strip.finished_width, deed.draft)}",
                    f"write under '{piece.name}' how it is folded: 'fold: doubled' or 'fold: in fourths'",
                    (deed.draft.variant,),
                )


def binding_sewn_too_far_in(proof: Proof) -> Iterator[Finding]:
    """A step sews a binding on further from the edge than the binding finishes wide.

    Why: it is sewn on beside its crease, and folded over it does not reach round the edge.

    Fix: sew it on in its crease: quote its finished width."""
    written = {step.number: step for section in proof.source.sections for step in section.steps}
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        strips = {binding.name: binding.strip for binding in draft.bindings}
        for step in assembly.steps:
            named = [strips.get(one.target) or one.other for one in step.actions if one.verb in ("begin", "bind")]
            pieces = [draft.piece(draft.copy(name).piece) for name in named if name is not None]
            widths = [_reach(piece, piece.strip) for piece in pieces if piece.strip is not None]
            for quote, length in lengths_meant(draft, written[step.number], SEWN_FROM_EDGE) if widths else ():
                if length > max(widths):
                    far = told(length, draft)
                    strip = next(piece.strip for piece in pieces if piece.strip is not None)
                    yield Finding(
                        "binding-sewn-too-far-in",
                        Severity.ERROR,
                        quote.place,
                        f"step {step.number} sews '{named[0]}' on '{quote}' from the edge, {far}, "
                        f"and it finishes {told(strip.finished_width, draft)} wide",
                        "quote the finished width of the binding",
                        (draft.variant,),
                    )


def _reach(piece: Piece, strip: Strip) -> float:
    """How far from the edge a strip may be sewn on, mm: at its first crease, a quarter of its cut width in."""
    return max(strip.finished_width, min(piece.cut_width, piece.cut_height) / 4) + SLACK


# Folded so, a strip is topstitched and keeps its shape; narrower ones are made of bought bias tape (a rule of the house).
STRAP_FOLDS, NARROWEST_STRAP = ("in fourths", "edges to the centre"), 15.0  # mm


def strap_on_the_bias(proof: Proof) -> Iterator[Finding]:
    """A strip that is held by its ends alone, as a handle or a strap is, is cut on the bias.

    Why: it stretches under the load, and twists when it is topstitched.

    Fix: cut it along the grain or across it; only what goes round a curve is cut on the bias."""
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        actions = [action for step in assembly.steps for action in step.actions]
        bound = {binding.strip for binding in draft.bindings} | {one.other for one in actions if one.verb == "bind"}
        spots = [(one.placed, own) for one in draft.placements for own, _ in one.matching]
        spots += [(side.copy, side.edge) for seam in draft.seams for side in (*seam.first, *seam.second)]
        for piece in draft.pieces:
            strip, copies = piece.strip, {copy.name for copy in piece.copies}
            held = {spot for copy, spot in spots if copy in copies}
            wide = strip is not None and strip.folding in STRAP_FOLDS and strip.finished_width >= NARROWEST_STRAP - 0.01
            if wide and piece.grain is Grain.BIAS and held and held <= {"left end", "right end"} and not copies & bound:
                yield Finding(
                    "strap-on-the-bias",
                    Severity.WARNING,
                    piece.place,
                    f"'{piece.name}' is held by its ends, and cut on the bias",
                    f"take 'grain: bias' out of '{piece.name}'",
                    (draft.variant,),
                )
