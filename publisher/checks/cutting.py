"""Cutting: what a reader could confuse, and hardware that does not fit where it is set."""

from collections.abc import Iterator
from itertools import combinations

from publisher.checks.amounts import told
from publisher.checks.values import Proof
from publisher.drafting import Draft, LineMark, Notion, Piece, PieceKind, PointMark
from publisher.geometry import Line, Path, line_within, nearest
from publisher.terms import Finding, Severity

# Two rectangles that differ by less than a quarter of an inch look alike on the table (common practice, no source).
CONFUSED = 6.35  # mm
# What a zip foot needs between the needle and what it passes (common practice, no source).
PASSES = 2.0  # mm


def pieces_easily_confused(proof: Proof) -> Iterator[Finding]:
    """Two pieces that are cut by measure from one material are nearly, and not quite, of one size.

    Why: they lie on one pile, and the wrong one is sewn in.

    Fix: make them the same size, or tell the reader to mark one as soon as it is cut."""
    for draft in proof.drafts:
        cut = [
            (copy.name, copy.material, sorted((piece.cut_width, piece.cut_height)), copy.place)
            for piece in draft.pieces
            if piece.kind is not PieceKind.DRAWN
            for copy in piece.copies
        ]
        for (one, material, size, _), (other, more, sides, place) in combinations(cut, 2):
            apart = max(abs(first - second) for first, second in zip(size, sides, strict=True))
            if material == more and 0.01 < apart < CONFUSED:
                yield Finding(
                    "pieces-easily-confused",
                    Severity.ADVICE,
                    place,
                    f"'{one}' and '{other}' are cut from '{material}' and differ by {told(apart, draft)} only",
                    "make them alike, or tell the reader to mark one as soon as it is cut",
                    (draft.variant,),
                )


def hardware_in_the_seam(proof: Proof) -> Iterator[Finding]:
    """A snap, an eyelet or a button reaches into the stitching line at the mark where it is set, or so near that no foot
    passes.

    Why: the machine's foot cannot pass it, and the needle breaks on it.

    Fix: move the mark into the piece, or use a smaller one."""
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        notions = {notion.key: notion for notion in draft.notions}
        for step in assembly.steps:
            for action in step.actions:
                notion = notions.get(action.target)
                if action.verb != "attach" or notion is None or action.other is None:
                    continue
                room, reach = _room_at(draft, action.other), _half(notion)
                if room is not None and reach is not None and room < reach + PASSES - 0.01:
                    yield Finding(
                        "hardware-in-the-seam",
                        Severity.WARNING,
                        action.place,
                        f"'{notion.key}' reaches {told(reach, draft)} from its middle, and '{action.other}' lies "
                        f"{told(room, draft)} from the finished line",
                        "move the mark further into the piece, or use a smaller one",
                        (draft.variant,),
                    )


def _half(notion: Notion) -> float | None:
    across = dict(notion.sizes).get("across")
    return float(across.amount) / 2 if across is not None else None


def _room_at(draft: Draft, name: str) -> float | None:
    """How far a point mark lies from the finished line of its piece, mm."""
    head, _, tail = name.partition(".")
    copies = {copy.name: piece for piece in draft.pieces for copy in piece.copies}
    if head not in copies:
        return None
    outline = Path(tuple(segment for edge in copies[head].edges for segment in edge.path.segments))
    marks = [mark for mark in copies[head].marks if isinstance(mark, PointMark) and mark.name == tail]
    return nearest(outline, marks[0].at)[2] if marks else None


def ring_too_narrow(proof: Proof) -> Iterator[Finding]:
    """A strap is wider than the ring or the slide that is set on it.

    Why: it does not pass, or bunches up and wears through at the edges.

    Fix: use a wider ring, or a narrower strap."""
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        pieces = {copy.name: piece for piece in draft.pieces for copy in piece.copies}
        widths = {notion.key: dict(notion.sizes).get("inner width") for notion in draft.notions}
        for step in assembly.steps:
            for action in step.actions:
                head, _, tail = (action.other or "").partition(".")
                inner = widths.get(action.target)
                wide = _width_at(pieces[head], tail) if head in pieces else None
                if action.verb != "attach" or wide is None or inner is None:
                    continue
                if wide > float(inner.amount) + 0.5:
                    yield Finding(
                        "ring-too-narrow",
                        Severity.ERROR,
                        action.place,
                        f"'{action.target}' is {told(float(inner.amount), draft)} wide inside, and the strap "
                        f"'{action.other}' is {told(wide, draft)} wide",
                        "use a wider ring, or a narrower strap",
                        (draft.variant,),
                    )


def _width_at(piece: Piece, mark: str) -> float | None:
    """How wide what passes a ring is, mm: a strip when finished, a tab along the line that it is folded on."""
    if piece.strip is not None:
        return piece.strip.finished_width
    for line in piece.marks:
        if isinstance(line, LineMark) and line.name == mark and line.kind == "fold line":
            within = line_within(Path((Line(line.start, line.end),)), piece.finished_line)
            return sum(stretch.length for stretch in within)
    return None


# Narrower than this a tube is turned with a loop turner or not at all (common practice, no source).
NARROWEST_TUBE = 10.0  # mm


def tube_too_narrow(proof: Proof) -> Iterator[Finding]:
    """A strip that is sewn into a tube is too narrow to be turned.

    Why: with its allowances inside there is no room left for the cloth to pass.

    Fix: make it wider, or fold it in fourths and sew it flat."""
    for draft in proof.drafts:
        for piece in draft.pieces:
            strip = piece.strip
            if strip is not None and strip.folding == "turned" and strip.finished_width < NARROWEST_TUBE - 0.5:
                yield Finding(
                    "tube-too-narrow",
                    Severity.WARNING,
                    piece.place,
                    f"'{piece.name}' is turned right side out and is {told(strip.finished_width, draft)} wide, less than "
                    f"{told(NARROWEST_TUBE, draft)}",
                    "make it wider, or write 'fold: in fourths'",
                    (draft.variant,),
                )


# Interfacing that holds a snap reaches this far beyond it on every side, or the snap tears out beside it (common
# practice, no source).
BEYOND_SNAP = 3.0  # mm


def patch_too_small(proof: Proof) -> Iterator[Finding]:
    """A patch that is laid behind a snap is hardly larger than the snap, or smaller.

    Why: the prongs go through the cloth beside it, and tear out.

    Fix: make the patch wider than the snap by a quarter of an inch or more."""
    for draft, assembly in zip(proof.drafts, proof.assemblies, strict=True):
        notions = {notion.key: notion for notion in draft.notions}
        set_at = {
            action.other: notions[action.target]
            for step in assembly.steps
            for action in step.actions
            if action.verb == "attach" and action.target in notions and action.other
        }
        for placement in draft.placements:
            piece = draft.piece(draft.copy(placement.placed).piece)
            for own, below in placement.matching:
                notion = set_at.get(f"{placement.below}.{below}")
                half = _half(notion) if notion is not None and own == "centre" else None
                least = min(piece.cut_width, piece.cut_height) / 2
                if notion is not None and half is not None and least < half + BEYOND_SNAP - 0.05:
                    yield Finding(
                        "patch-too-small",
                        Severity.WARNING,
                        placement.place,
                        f"'{placement.placed}' is {told(2 * least, draft)} across and '{notion.key}' "
                        f"{told(2 * half, draft)}: less than {told(BEYOND_SNAP, draft)} are left on each side",
                        "make the patch larger",
                        (draft.variant,),
                    )
