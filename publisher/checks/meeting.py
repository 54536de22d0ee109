"""Where two sides of a seam meet: notch on notch, corner on corner. Positions are mm along the stitching line."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import product

from publisher.checks.amounts import told
from publisher.checks.values import Proof
from publisher.drafting import Draft, Piece, PieceKind, Seam, SeamEdge
from publisher.frozen import dataclass
from publisher.geometry import Path
from publisher.terms import Finding, Severity

# What a pin can bring together, and what a snip of the scissors may lie beside its place (common practice, no source).
MEETS = 3.0  # mm
# A seam turns a corner, and is not only bent, from here on (a rule of the house): its cosine.
CORNER = 0.866


@dataclass(frozen=True, slots=True)
class _Spot:
    """A place along one side: a notch, a corner of the piece, or where two pieces of the side meet."""

    name: str
    at: float  # mm from the start of the side
    notch: bool


@dataclass(frozen=True, slots=True)
class _Side:
    length: float
    spots: tuple[_Spot, ...]
    closed: bool  # a ring, or made into one: it may begin anywhere

    def backwards(self) -> "_Side":
        turned = tuple(replace(spot, at=self.length - spot.at) for spot in self.spots)
        return replace(self, spots=turned)


def notches_apart(proof: Proof) -> Iterator[Finding]:
    """A notch meets no notch and no corner on the other side of its seam.

    Why: the reader pins notch to notch, and one stretch is too long and the next too short.

    Fix: measure both notches from the ends that meet, or bring one by the other: `notch at … by …`."""
    for draft in proof.drafts:
        for seam in draft.seams:
            sides = _sides(draft, seam)
            if not all(any(spot.notch for spot in ways[0].spots) for ways in sides):
                continue
            lonely = [one for one in _lonely(seam, *sides) if one.spot.notch]
            if lonely:
                worst = max(lonely, key=lambda one: one.apart)
                yield Finding(
                    "notches-apart",
                    Severity.WARNING,
                    seam.place,
                    f"where '{seam.name}' is pinned together, the notch '{worst.spot.name}' lies "
                    f"{told(worst.apart, draft)} from '{worst.nearest}', the nearest notch or corner of the other side",
                    "measure both from the ends that meet, or bring one by the other: notch at … by …",
                    (draft.variant,),
                )


def corner_meets_nothing(proof: Proof) -> Iterator[Finding]:
    """A side of a seam turns a corner, or passes from one piece to the next, and nothing on the other side says where.

    Why: the reader guesses where to snip and to turn, and the corner comes out beside its place.

    Fix: put a notch on the other side: `notch at … by …` brings it there by the seam, whatever the measures."""
    for draft in proof.drafts:
        for seam in draft.seams:
            if not all(draft.piece(edge.piece).kind is PieceKind.DRAWN for edge in (*seam.first, *seam.second)):
                continue  # what is cut by measure has no notches: a step tells its places
            lonely = [one for one in _lonely(seam, *_sides(draft, seam)) if not one.spot.notch]
            if lonely:
                worst = max(lonely, key=lambda one: one.apart)
                yield Finding(
                    "corner-meets-nothing",
                    Severity.ADVICE,
                    seam.place,
                    f"in '{seam.name}' the corner at '{worst.spot.name}' lies {told(worst.apart, draft)} from "
                    f"'{worst.nearest}', the nearest notch or corner of the other side",
                    "put a notch on the other side where the corner comes: notch at … by …",
                    (draft.variant,),
                )


@dataclass(frozen=True, slots=True)
class _Lonely:
    """A spot too far from all that it could meet, and what lies nearest to it."""

    apart: float
    spot: _Spot
    nearest: str


def _lonely(seam: Seam, firsts: Sequence[_Side], seconds: Sequence[_Side]) -> list[_Lonely]:
    """What meets nothing, in that way of pinning the sides together in which least is left over."""
    allowed = MEETS + abs(seam.ease)
    least: list[_Lonely] = []
    amount: _Amount = (math.inf, math.inf, math.inf)
    for one, other in _ways(firsts, seconds):
        left = _left_over(one, other, allowed)
        if not left:
            return []
        if (its := _amount(left, one, other)) < amount:
            least, amount = left, its
    return least


_Amount = tuple[float, float, float]


def _amount(left: list[_Lonely], first: _Side, second: _Side) -> _Amount:
    """What a way of pinning leaves over, to be compared: first spots of a kind that both sides have, then all others."""
    shared = [all(any(one.notch is kind for one in side.spots) for side in (first, second)) for kind in (False, True)]
    return sum(shared[one.spot.notch] for one in left), len(left), max(one.apart for one in left)


def _left_over(first: _Side, second: _Side, allowed: float) -> list[_Lonely]:
    if not first.spots or not second.spots:
        return []  # a circle without a notch has no place at which anything could be missed
    nearest = (_loneliest(spot, others) for side, others in ((first, second), (second, first)) for spot in side.spots)
    return [one for one in nearest if one.apart > allowed]


def _loneliest(spot: _Spot, others: _Side) -> _Lonely:
    apart, other = min(
        ((_between(spot.at, other.at, others), other) for other in others.spots), key=lambda pair: pair[0]
    )
    return _Lonely(apart, spot, other.name)


def _between(one: float, other: float, side: _Side) -> float:
    apart = abs(one - other)
    return min(apart, side.length - apart) if side.closed else apart


def _side(draft: Draft, edges: Sequence[SeamEdge], backwards: bool = False) -> _Side:
    """All spots of a side, one edge behind the other, each counter-clockwise round its piece or `backwards`."""
    spots: list[_Spot] = []
    begins = 0.0
    for edge in edges:
        piece = draft.piece(edge.piece)
        spots += [
            replace(
                spot, at=begins + (edge.length - spot.at if backwards else spot.at), name=f"{edge.copy}.{spot.name}"
            )
            for spot in _spots(draft, piece, edge)
        ]
        begins += edge.length
    return _Side(begins, tuple(spots), _is_ring(draft, edges))


def _spots(draft: Draft, piece: Piece, edge: SeamEdge) -> Iterator[_Spot]:
    parts = piece.edges_of(edge.edge)
    begins = 0.0
    smooth = _runs_on(parts[-1].path, parts[0].path) and (parts[0].path.start - parts[-1].path.end).length < MEETS
    if not smooth:
        yield _Spot(f"{edge.edge}'s end", 0.0, False)
    notches = draft.notches_of(edge.copy)
    for at, part in enumerate(parts):
        if at and not _runs_on(parts[at - 1].path, part.path):
            yield _Spot(f"{parts[at - 1].name}'s end", begins, False)
        for notch in notches:
            if notch.edge == part.name:
                yield _Spot(notch.name, begins + notch.distance, True)
        begins += part.length
    if not smooth:
        yield _Spot(f"{edge.edge}'s end", begins, False)


def _runs_on(path: Path, following: Path) -> bool:
    """True where one goes on smoothly into the other."""
    return path.direction_at(path.length).dot(following.direction_at(0.0)) >= CORNER


def _is_ring(draft: Draft, edges: Sequence[SeamEdge]) -> bool:
    """True where the side closes on itself, or its pieces are sewn to one another all round."""
    paths = [part.path for edge in edges for part in draft.piece(edges[0].piece).edges_of(edges[0].edge)]
    return (paths[0].start - paths[-1].end).length < MEETS or len(edges) > 1


def _sides(draft: Draft, seam: Seam) -> tuple[tuple[_Side, ...], tuple[_Side, ...]]:
    """Both sides of a seam, each in every way in which its edges can follow one another."""
    return _both_ways(draft, seam.first), _both_ways(draft, seam.second)


def _ways(firsts: Sequence[_Side], seconds: Sequence[_Side]) -> Iterator[tuple[_Side, _Side]]:
    """Every way in which the two sides can be pinned: from either end, and of a ring from any spot."""
    for first in firsts:
        for second in seconds:
            scaled = _scaled(second, first.length / second.length) if second.length else second
            for other in (scaled, scaled.backwards()):
                yield first, other
                if first.closed or second.closed:
                    for one, its in product(first.spots, other.spots):
                        yield first, _shifted(other, one.at - its.at)


def _both_ways(draft: Draft, edges: Sequence[SeamEdge]) -> tuple[_Side, ...]:
    """The side as listed, its edges counter-clockwise, and, where they are several, clockwise too."""
    return tuple(_side(draft, edges, backwards) for backwards in ((False, True) if len(edges) > 1 else (False,)))


def _scaled(side: _Side, by: float) -> _Side:
    return replace(side, length=side.length * by, spots=tuple(replace(one, at=one.at * by) for one in side.spots))


def _shifted(side: _Side, by: float) -> _Side:
    return replace(side, spots=tuple(replace(one, at=(one.at + by) % side.length) for one in side.spots))
