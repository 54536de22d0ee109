"""Notches as they are in the cloth: those of a piece cut on the fold are snipped through both layers at once. mm."""

from collections.abc import Iterable
from dataclasses import replace

from publisher.drafting.mark_values import Notch
from publisher.drafting.values import Edge, Piece
from publisher.geometry import Path, mirrored_point, nearest

SAME = 0.5  # mm: what lies nearer is the same snip, or lies on the edge


def snipped_notches(piece: Piece) -> tuple[Notch, ...]:
    """The notches of a piece that its template shows, and those that the other layer of folded cloth gets with them.

    Of a piece on the fold a notch of the other half, which no template shows, is snipped only where one of the shown half
    lies across from it.
    """
    own = tuple(mark for mark in piece.marks if isinstance(mark, Notch))
    if piece.half is None or piece.half.fold_edge is None:
        return own
    fold = piece.half.edge(piece.half.fold_edge).path
    shown = [mark for mark in piece.half.marks if isinstance(mark, Notch)]
    through = [other for notch in shown if (other := _over_the_fold(piece.edges, fold, notch)) is not None]
    found = [notch for notch in own if _lies_on(notch, (*shown, *through))]
    return (*found, *(other for other in through if not _lies_on(other, found)))


def _lies_on(notch: Notch, others: Iterable[Notch]) -> bool:
    return any((notch.at - one.at).length <= SAME for one in others)


def _over_the_fold(edges: tuple[Edge, ...], fold: Path, notch: Notch) -> Notch | None:
    """The same snip in the other layer; on the fold itself there is none of its own."""
    at, cut, inner = (
        mirrored_point(spot, fold.start, fold.end - fold.start) for spot in (notch.at, notch.cut_end, notch.inner_end)
    )
    for edge in edges:
        along, _, beside = nearest(edge.path, at)
        if beside < SAME:
            return replace(notch, edge=edge.name, distance=along, at=at, cut_end=cut, inner_end=inner)
    return None
