"""Which way up copies of one piece lie below their template when they are trimmed to it in layers."""

from collections.abc import Sequence
from dataclasses import replace

from publisher.drafting.seam_values import Placement
from publisher.drafting.values import Copy, Piece


def facing_away(pieces: Sequence[Piece], placements: Sequence[Placement]) -> tuple[Piece, ...]:
    """The pieces, their rough copies marked whose right sides lie away from the template.

    Rough copies of a piece are laid on one another, and the template on the uppermost: a copy that is turned over to it
    shows the template its wrong side, so that what is marked on its right side lies the other way round there.
    """
    return tuple(_with_copies(piece, _faced(piece, placements)) for piece in pieces)


def _faced(piece: Piece, placements: Sequence[Placement]) -> tuple[Copy, ...]:
    rough = {copy.name for copy in piece.copies if copy.rough}
    layers = [one for one in placements if one.placed in rough and one.below in rough and one.placed != one.below]
    covered = {one.below for one in layers}
    away = dict.fromkeys(rough - covered, False)
    for _ in layers:
        for layer in layers:
            if layer.placed in away and layer.below not in away:
                away[layer.below] = away[layer.placed] != layer.laying.turned_over
    return tuple(replace(copy, faces_away=away.get(copy.name, False)) for copy in piece.copies)


def _with_copies(piece: Piece, copies: tuple[Copy, ...]) -> Piece:
    """The piece, and what its template shows of it, with these copies."""
    if copies == piece.copies:
        return piece
    opened, half = (
        replace(shown, copies=copies) if shown is not None else None for shown in (piece.opened, piece.half)
    )
    return replace(piece, copies=copies, opened=opened, half=half)
