"""Notches as they are in the cloth: those of a piece cut on the fold are snipped through both layers at once. mm."""

from collections.abc import Iterator
from dataclasses import replace

from publisher.drafting.mark_values import Notch
from publisher.drafting.values import Piece
from publisher.geometry import Point, mirrored_point, nearest

SAME = 0.5  # mm: what lies nearer is the same snip, or lies on the edge


def snipped_notches(piece: Piece) -> tuple[Notch, ...]:
    """The notches of a piece, and those that the other layer of folded cloth gets with them, once each."""
    own = tuple(mark for mark in piece.marks if isinstance(mark, Notch))
    if piece.half is None or piece.half.fold_edge is None:
        return own
    found = list(own)
    for notch in own:
        for other in _over_the_fold(piece, notch):
            if all((other.at - one.at).length > SAME for one in found):
                found.append(other)
    return tuple(found)


def _over_the_fold(piece: Piece, notch: Notch) -> Iterator[Notch]:
    """The same snip in the other layer; on the fold itself there is none of its own."""
    assert piece.half is not None
    assert piece.half.fold_edge is not None
    fold = piece.half.edge(piece.half.fold_edge).path

    def over(point: Point) -> Point:
        return mirrored_point(point, fold.start, fold.end - fold.start)

    at = over(notch.at)
    for edge in piece.edges:
        box = edge.path.box
        if not (box.left - SAME < at.x < box.right + SAME and box.bottom - SAME < at.y < box.top + SAME):
            continue  # asked first, since the nearest spot of a curve takes its time
        along, _, beside = nearest(edge.path, at)
        if beside < SAME:
            cut, inner = over(notch.cut_end), over(notch.inner_end)
            yield replace(notch, edge=edge.name, distance=along, at=at, cut_end=cut, inner_end=inner)
            return
