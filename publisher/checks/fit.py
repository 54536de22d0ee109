"""Fit: edges that are sewn together must agree. Every check yields findings for one thing that goes wrong at the machine."""

from collections.abc import Iterator
from itertools import combinations

from publisher.checks.amounts import told
from publisher.checks.values import Proof
from publisher.drafting import Draft, LineMark, Notch, PathMark, Placement, PointMark, Seam, SeamEdge
from publisher.geometry import Point, mapped, nearest, reach_beyond
from publisher.terms import Finding, Severity

# Less than the width of a needle hole at each end: nobody sews nearer (common practice, no source).
SEAM_TOLERANCE = 1.0  # mm
# Cloth gathered to less than a quarter of its length makes a seam too thick to sew (common practice, no source).
MOST_GATHERED = 4
ON_EDGE = 0.5  # mm
# Of a piece's longer side: what reaches further beyond was laid the wrong way (a rule of the house).
WRONG_WAY = 0.6


def seam_lengths_differ(proof: Proof) -> Iterator[Finding]:
    """The two sides of a seam are not equally long, its ease counted.

    Why: one side runs out before the other, and the reader stretches or tucks it.

    Fix: change the measure that makes one side longer, or say the difference is meant: `ease:`, or a mark
    `gathers along` the longer edge."""
    for draft in proof.drafts:
        for seam in draft.seams:
            first, second = _length(seam.first), _length(seam.second)
            apart = first - second - seam.ease
            if _taken_by_gathers(draft, seam.first if apart > 0 else seam.second, abs(apart)):
                continue
            if abs(apart) > SEAM_TOLERANCE:
                yield Finding(
                    "seam-lengths-differ",
                    Severity.ERROR,
                    seam.place,
                    f"{_names(seam.first)} is {told(first, draft)} and {_names(seam.second)} is {told(second, draft)}"
                    + (
                        f"; with {told(seam.ease, draft)} ease counted the first should be "
                        f"{told(second + seam.ease, draft)}"
                        if seam.ease
                        else ""
                    )
                    + f": {told(abs(apart), draft)} apart",
                    f"make {_names(seam.second if apart > 0 else seam.first)} longer, or say 'ease:' if it is meant",
                    (draft.variant,),
                )


def _taken_by_gathers(draft: Draft, side: tuple[SeamEdge, ...], longer: float) -> bool:
    """True where the longer side has gathers that can take up the difference: at most four to one."""
    gathered = 0.0
    for edge in side:
        piece = draft.piece(draft.copy(edge.copy).piece)
        spots = [one.path for one in piece.edges_of(edge.edge)]
        for mark in piece.marks:
            if isinstance(mark, PathMark) and mark.kind == "gathers":
                middle = mark.path.point_at(mark.path.length / 2)
                gathered += mark.path.length * any(nearest(path, middle)[2] < ON_EDGE for path in spots)
    return gathered > 0 and gathered - longer >= gathered / MOST_GATHERED


def _length(side: tuple[SeamEdge, ...]) -> float:
    return sum(edge.length for edge in side)


def _names(side: tuple[SeamEdge, ...]) -> str:
    return " with ".join(f"'{edge.copy}.{edge.edge}'" for edge in side)


# As much as can be eased in without a pleat: some 6 to 8 in a hundred of a woven cloth (common practice, no source).
MOST_EASED = 0.08


def ease_too_large(proof: Proof) -> Iterator[Finding]:
    """One side of a seam is so much longer than the other that it cannot be eased in, and is not gathered.

    Why: it lies in pleats, however it is pinned.

    Fix: make the ease smaller, or gather the longer side: a mark `gathers along` it; or take it up in darts or pleats."""
    for draft in proof.drafts:
        for seam in draft.seams:
            sides = sorted((seam.first, seam.second), key=_length)
            shorter, longer = _length(sides[0]), _length(sides[1])
            more = longer - shorter
            if more <= MOST_EASED * longer or abs(seam.ease) < SEAM_TOLERANCE or abs(more - abs(seam.ease)) > more / 2:
                continue
            if _taken_by_gathers(draft, sides[1], more) or _shows_a_zip(draft, sides[0]) or _stretches(draft, sides[0]):
                continue
            yield Finding(
                "ease-too-large",
                Severity.WARNING,
                seam.place,
                f"{_names(sides[1])} is to be eased into {_names(sides[0])}: {told(more, draft)} of {told(longer, draft)}, "
                f"{more / longer:.0%}, more than {MOST_EASED:.0%}",
                "make the ease smaller, or write a mark 'gathers along …' for the longer edge",
                (draft.variant,),
            )


def _stretches(draft: Draft, side: tuple[SeamEdge, ...]) -> bool:
    """True for a side that is cut from a knit, which is drawn out as it is sewn."""
    knits = {one.key for one in draft.materials if one.weight is not None and one.weight.sort == "knit"}
    return any(draft.copy(edge.copy).material in knits for edge in side)


def _shows_a_zip(draft: Draft, side: tuple[SeamEdge, ...]) -> bool:
    """True for a side of several edges where a zip may lie between them, whose width makes up the length."""
    return len(side) > 1 and any(notion.kind == "zip" for notion in draft.notions)


def allowances_of_partners_differ(proof: Proof) -> Iterator[Finding]:
    """Two edges that are sewn together have different allowances.

    Why: the raw edges no longer lie level, and whoever sews by the guide on the machine sews one side wrong.

    Fix: give both edges the same allowance, or say that it is meant: `allowances: differ`."""
    for draft in proof.drafts:
        for seam in (seam for seam in draft.seams if not seam.allowances_differ):
            allowances = {
                allowance for side in (seam.first, seam.second) for edge in side for allowance in edge.allowances
            }
            if max(allowances) - min(allowances) > 0.01:
                listed = " and ".join(told(allowance, draft) for allowance in sorted(allowances))
                yield Finding(
                    "allowances-of-partners-differ",
                    Severity.WARNING,
                    seam.place,
                    f"the edges of '{seam.name}' have allowances of {listed}",
                    "give them the same allowance, or say below the seam 'allowances: differ' if it is meant",
                    (draft.variant,),
                )


def gap_too_long(proof: Proof) -> Iterator[Finding]:
    """What is left open takes more than the seam has, or leaves too little stitching beside it.

    Why: a gap that runs into a corner pulls open when the work is turned.

    Fix: shorten the gap, or leave another seam open."""
    for draft in proof.drafts:
        for seam in draft.seams:
            beside = (seam.open_along - seam.leave_open) / 2
            if seam.leave_open and beside < _least_beside_gap(seam):
                yield Finding(
                    "gap-too-long",
                    Severity.ERROR,
                    seam.place,
                    f"'{seam.name}' is {told(seam.open_along, draft)} long there, and {told(seam.leave_open, draft)} stay open, "
                    f"which leaves {told(max(beside, 0.0), draft)} at each end",
                    "shorten the gap, or leave a longer seam open",
                    (draft.variant,),
                )


def _least_beside_gap(seam: Seam) -> float:
    """Stitching wanted at each end of a gap: the widest allowance of the seam, mm (common practice, no source)."""
    return max(allowance for edge in seam.second for allowance in edge.allowances)


def placed_marks_apart(proof: Proof) -> Iterator[Finding]:
    """Two marks of a placed copy do not lie as far apart as the marks they are matched with.

    Why: only one of the pairs can be pinned together.

    Fix: place one of the marks by the other piece's measures."""
    for draft in proof.drafts:
        for placement in draft.placements:
            for one, two in combinations(_spots_of(draft, placement), 2):
                (name, placed, below), (other, placed_other, below_other) = one, two
                apart = abs((placed_other - placed).length - (below_other - below).length)
                if apart > SEAM_TOLERANCE:
                    yield Finding(
                        "placed-marks-apart",
                        Severity.ERROR,
                        placement.place,
                        f"'{name}' and '{other}' lie {told((placed_other - placed).length, draft)} apart on "
                        f"'{placement.placed}' and {told((below_other - below).length, draft)} on '{placement.below}'",
                        "move one of the marks",
                        (draft.variant,),
                    )


def placed_edges_apart(proof: Proof) -> Iterator[Finding]:
    """Two edges that a placement lays on each other do not meet, however the copy is shifted.

    Why: the copy is too wide or too narrow for the place it is laid on, and something must be eased or gapes.

    Fix: make the piece fit, or match fewer edges."""
    for draft in proof.drafts:
        for placement in draft.placements:
            for first, second in placement.matching:
                apart = _edges_apart(draft, placement, first, second)
                if apart is not None and apart > SEAM_TOLERANCE:
                    yield Finding(
                        "placed-edges-apart",
                        Severity.ERROR,
                        placement.place,
                        f"'{first}' of '{placement.placed}' lies {told(apart, draft)} from '{second}' of '{placement.below}'",
                        "make the piece fit, or match fewer of its edges",
                        (draft.variant,),
                    )
                    break


def _edges_apart(draft: Draft, placement: Placement, first: str, second: str) -> float | None:
    """How far the middle of a laid edge is from the straight line of the edge below, mm; None where one is a mark."""
    upper, lower = (draft.piece(draft.copy(name).piece) for name in (placement.placed, placement.below))
    try:
        placed, below = upper.edges_of(first), lower.edges_of(second)
    except KeyError:
        return None
    middle = placement.laying((placed[0].path.start + placed[-1].path.end) * 0.5)
    start, end = below[0].path.start, below[-1].path.end
    if (end - start).length < SEAM_TOLERANCE:
        return None  # all round: the middle says nothing
    return abs((middle - start).dot((end - start).unit().left()))


def _spots_of(draft: Draft, placement: Placement) -> list[tuple[str, Point, Point]]:
    """The pairs of a placement that are marks on both copies: name, where on the placed, where on the one below."""
    upper, lower = (
        {
            mark.name: mark.at
            for mark in draft.piece(draft.copy(name).piece).marks
            if isinstance(mark, Notch | PointMark)
        }
        for name in (placement.placed, placement.below)
    )
    return [
        (first, upper[first], lower[second])
        for first, second in placement.matching
        if first in upper and second in lower
    ]


def placement_overhangs(proof: Proof) -> Iterator[Finding]:
    """A piece that is laid on another reaches beyond its raw edges.

    Why: what hangs over is caught in no seam, or is cut off with the allowance. Strips may: handles and loops do.

    Fix: make the piece smaller, or place it elsewhere."""
    for draft in proof.drafts:
        for placement in draft.placements:
            upper, lower = (draft.piece(draft.copy(name).piece) for name in (placement.placed, placement.below))
            apart = (_edges_apart(draft, placement, first, second) for first, second in placement.matching)
            if upper.strip is not None or any(gap is not None and gap > SEAM_TOLERANCE for gap in apart):
                continue  # told as placed-edges-apart
            if _folded_short(draft, placement.placed):
                continue  # it is laid with its end folded back
            laid = mapped(upper.cut_line, placement.laying, placement.laying.turned_over)
            beyond = reach_beyond(laid, lower.cut_line)
            mend = "make it smaller, or place it elsewhere"
            if beyond > WRONG_WAY * max(upper.cut_width, upper.cut_height):
                mend = "lay it the other way up (face: down, or not), or match the edges of the other side"
            if beyond > SEAM_TOLERANCE:
                yield Finding(
                    "placement-overhangs",
                    Severity.WARNING,
                    placement.place,
                    f"'{placement.placed}' reaches {told(beyond, draft)} beyond '{placement.below}' that it is laid on",
                    mend,
                    (draft.variant,),
                )


def _folded_short(draft: Draft, copy: str) -> bool:
    """True for a copy that a fold line across it makes shorter where it lies, as a tab round a ring."""
    piece = draft.piece(draft.copy(copy).piece)
    short = copy.removeprefix(piece.name).strip()
    lines = [mark for mark in piece.marks if isinstance(mark, LineMark) and mark.kind == "fold line"]
    matched = {own for one in draft.placements if one.placed == copy for own, _ in one.matching}
    return any(mark.name in matched and (not mark.copies or short in mark.copies) for mark in lines)
