"""Marks in one another's way: two at one place, a pleat on a line of stitching, a double notch against a single one."""

from collections.abc import Iterator
from itertools import combinations

from publisher.checks.values import Proof
from publisher.drafting import Draft, LineMark, Mark, Notch, Pleat, PointMark, Seam, SeamEdge
from publisher.geometry import Point
from publisher.terms import Finding, Severity

# What lies nearer cannot be told apart with chalk (common practice, no source).
SAME = 1.0  # mm
MEETS = 3.0  # mm: what a pin can bring together


def marks_coincide(proof: Proof) -> Iterator[Finding]:
    """Two marks of one kind lie at the same place of a copy.

    Why: one of them was copied and not moved: a pocket has no width, a notch no partner.

    Fix: measure one of them from its own edge, or take it out."""
    for draft in proof.drafts:
        for piece in draft.pieces:
            for first, second in combinations(piece.marks, 2):
                if _alike(first, second) and _apart(first, second) < SAME:
                    yield Finding(
                        "marks-coincide",
                        Severity.WARNING,
                        second.place,
                        f"'{second.name}' and '{first.name}' of '{piece.name}' lie at the same place",
                        "measure one of them otherwise, or take it out",
                        (draft.variant,),
                    )


def _alike(first: Mark, second: Mark) -> bool:
    """True for marks of one kind that one copy bears, and of which none came with the other."""
    shared = not first.copies or not second.copies or bool(set(first.copies) & set(second.copies))
    same_kind = type(first) is type(second) and getattr(first, "kind", "") == getattr(second, "kind", "")
    return shared and same_kind and isinstance(first, Notch | PointMark | LineMark)


def _apart(first: Mark, second: Mark) -> float:
    """How far the further ends of two marks of one kind lie from one another, mm."""
    here, there = _spots(first), _spots(second)
    ways = (list(zip(here, there, strict=True)), list(zip(here, there[::-1], strict=True)))
    return min(max((one - other).length for one, other in way) for way in ways)


def _spots(mark: Mark) -> tuple[Point, ...]:
    return (mark.start, mark.end) if isinstance(mark, LineMark) else (mark.at,)  # type: ignore[union-attr]


def pleat_on_a_line(proof: Proof) -> Iterator[Finding]:
    """A closed pleat reaches over a line of stitching.

    Why: the stitching catches its folds, and it can open no more.

    Fix: move the pleat between two lines, or make it shallower."""
    for draft in proof.drafts:
        for piece in draft.pieces:
            lines = [mark for mark in piece.marks if isinstance(mark, LineMark) and mark.kind == "stitching line"]
            for pleat in piece.opened.marks if piece.opened is not None else ():
                crossed = next((one for one in lines if isinstance(pleat, Pleat) and _catches(pleat, one)), None)
                if crossed is not None:
                    yield Finding(
                        "pleat-on-a-line",
                        Severity.WARNING,
                        pleat.place,
                        f"closed, '{pleat.name}' of '{piece.name}' lies across '{crossed.name}', along which it is sewn down",
                        "move the pleat between two lines, or make it shallower",
                        (draft.variant,),
                    )


def _catches(pleat: Pleat, line: LineMark) -> bool:
    """True where a line that runs as the pleat does lies within what its folds cover, on the piece as drafted."""
    low, high = pleat.closed[0]
    along = (high - low).unit()
    if abs((line.end - line.start).unit().cross(along)) > 0.1:
        return False
    places = [(spot - low).cross(along) for spot, _ in pleat.closed]
    reach = pleat.depth if len(places) == 1 else 0.0
    at = (line.start - low).cross(along)
    return min(places) - reach + SAME < at < max(places) + reach - SAME


def notch_kinds_differ(proof: Proof) -> Iterator[Finding]:
    """A double notch meets a single one.

    Why: the legend says that a double one meets only a double one, and the reader looks for its partner elsewhere.

    Fix: make both double, or both single."""
    for draft in proof.drafts:
        for seam in draft.seams:
            found = _other_kind(draft, seam) or _no_double(draft, seam)
            if found is not None:
                yield Finding(
                    "notch-kinds-differ",
                    Severity.WARNING,
                    seam.place,
                    f"in '{seam.name}' the double notch '{found[0]}' meets the single one '{found[1]}'",
                    "make both 'double notch at …', or both 'notch at …'",
                    (draft.variant,),
                )


def _no_double(draft: Draft, seam: Seam) -> tuple[str, str] | None:
    """A double notch of one side and a notch of the other, which has none that is double."""
    if len(seam.first) != 1 or len(seam.second) != 1:
        return None
    sides = [list(_along(draft, one)) for one in (seam.first[0], seam.second[0])]
    for here, there in (sides, sides[::-1]):
        double = next((notch for notch, _ in here if notch.double), None)
        if double is not None and len(there) >= len(here) and not any(notch.double for notch, _ in there):
            return double.name, there[0][0].name
    return None


def _other_kind(draft: Draft, seam: Seam) -> tuple[str, str] | None:
    """The names of a double notch and the single one at its place; nothing where sides may be pinned in several ways."""
    if len(seam.first) != 1 or len(seam.second) != 1 or seam.first[0].piece == seam.second[0].piece:
        return None
    sides = [(side, list(_along(draft, side))) for side in (seam.first[0], seam.second[0])]
    (_, here), (_, there) = sides
    doubles = [sum(notch.double for notch, _ in side) for side in (here, there)]
    if not (here and there) or doubles[0] == doubles[1]:
        return None
    more, less = (sides[0], sides[1]) if doubles[0] > doubles[1] else (sides[1], sides[0])
    for notch, at in more[1]:
        whole = more[0].length
        for single, place in less[1]:
            scaled = place * whole / less[0].length
            meets = min(abs(at - scaled), abs(at - (whole - scaled))) < MEETS + abs(seam.ease)
            if notch.double and not single.double and meets:
                return f"{more[0].copy}.{notch.name}", f"{less[0].copy}.{single.name}"
    return None


def _along(draft: Draft, side: SeamEdge) -> Iterator[tuple[Notch, float]]:
    """The notches of one copy on an edge, and how far along it, mm."""
    begins = 0.0
    notches = draft.notches_of(side.copy)
    for part in draft.piece(side.piece).edges_of(side.edge):
        for notch in notches:
            if notch.edge == part.name:
                yield notch, begins + notch.distance
        begins += part.length
