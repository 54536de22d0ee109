"""Two pieces sewn to each other by several edges: the way round one of them is the way back round the other."""

from collections.abc import Iterator

from publisher.checks.values import Proof
from publisher.drafting import Draft, Seam, SeamEdge
from publisher.frozen import dataclass
from publisher.geometry import alike_flips
from publisher.terms import Finding, Severity

FEWEST = 3  # two edges come in the same order either way round


@dataclass(frozen=True, slots=True)
class _Pinned:
    """A seam of two copies, and the place of its edge in the order round each of them."""

    seam: Seam
    first: int
    second: int


def edges_in_one_sense(proof: Proof) -> Iterator[Finding]:
    """Two copies are sewn to each other by three edges or more, and these follow one another the same way round on both.

    Why: right sides together, the right edge of one lies on the left edge of the other; joined right to right and left to
    left, one of the two has its wrong side out.

    Fix: name the edges as they lie on each other: `front.right edge` with `back.left edge`."""
    for draft in proof.drafts:
        pairs: dict[tuple[str, str], list[_Pinned]] = {}
        for seam in draft.seams:
            if len(seam.first) == 1 == len(seam.second) and seam.first[0].copy != seam.second[0].copy:
                sides = sorted((seam.first[0], seam.second[0]), key=lambda side: side.copy)
                at = [_at(draft, side.piece, side.edge) for side in sides]
                pairs.setdefault((sides[0].copy, sides[1].copy), []).append(_Pinned(seam, *at))
        for (one, other), pinned in pairs.items():
            if len(pinned) < FEWEST or not _same_sense(pinned):
                continue
            # Of pieces that are their own mirror image either name will do, as long as all seams use it in one way.
            mirrors = all(alike_flips(draft.piece(draft.copy(name).piece).cut_line) for name in (one, other))
            if mirrors and not _contradicted(draft, (one, other), pinned):
                continue
            first = pinned[0].seam
            yield Finding(
                "edges-in-one-sense",
                Severity.ERROR,
                first.place,
                f"'{one}' and '{other}' are sewn by {len(pinned)} edges that follow one another the same way round on both, as "
                f"in '{first.name}': right sides together they lie the other way round",
                f"name the edges as they lie on each other: '{first.first[0].edge}' of one on the opposite edge of the other",
                (draft.variant,),
            )


def _at(draft: Draft, piece: str, edge: str) -> int:
    """Where an edge comes in the order round its piece."""
    drafted = draft.piece(piece)
    return [one.name for one in drafted.edges].index(drafted.edges_of(edge)[0].name)


def _same_sense(pinned: list[_Pinned]) -> bool:
    """True where the edges of both pieces come in the same order, going round, whatever edge is counted as the first."""
    order = [one.second for one in sorted(pinned, key=lambda one: one.first)]
    if len(set(order)) < len(order):
        return False
    start = order.index(min(order))
    return order[start:] + order[:start] == sorted(order)


def _contradicted(draft: Draft, copies: tuple[str, str], pinned: list[_Pinned]) -> bool:
    """True where a corner between both copies brings edges together whose neighbours are sewn to others."""
    met = {frozenset((side.copy, side.edge) for side in (*one.seam.first, *one.seam.second)) for one in pinned}
    for seam in (one for one in draft.seams if one.boxes_a_corner and {side.copy for side in one.first} == set(copies)):
        for first, second in ((seam.first[0], seam.first[-1]), (seam.second[0], seam.second[-1])):
            beside = [[(side.copy, name) for name in _beside(draft, side)] for side in (first, second)]
            if not any(frozenset((one, other)) in met for one in beside[0] for other in beside[1]):
                return True
    return False


def _beside(draft: Draft, side: SeamEdge) -> tuple[str, str]:
    """The edges before and behind an edge, round its piece, by the names that seams may use."""
    piece = draft.piece(side.piece)
    names = [edge.name for edge in piece.edges]
    at = names.index(piece.edges_of(side.edge)[0].name)
    joint = {part: one.name for one in piece.joint_edges for part in one.edges}
    before, behind = names[at - 1], names[(at + 1) % len(names)]
    return joint.get(before, before), joint.get(behind, behind)
