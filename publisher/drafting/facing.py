"""Which way up the copies of a piece are cut and trimmed: as pairs, turned over, face down below their template."""

from collections.abc import Sequence
from dataclasses import replace

from publisher.drafting.bench import Bench
from publisher.drafting.mark_values import Mark, Notch, PointMark, mark_spots
from publisher.drafting.seam_values import Placement
from publisher.drafting.values import Copy, Piece
from publisher.geometry import Point, alike_flips, mirrored_point
from publisher.measures import CopySaying
from publisher.source import WrittenPiece

BEHIND = ("lining", "interfacing")  # what lies wrong sides together with the outside
AGREE = 0.3  # mm: marks that lie no further apart are one


def lies_turned_over(bench: Bench, piece: WrittenPiece, said: CopySaying) -> bool:
    """True for a lining or a fusible behind the outside of its piece, unless the maker says otherwise.

    Each seen on its right side, or the side without glue, it is the mirror image: common practice, no source. Of pairs
    there is one of either kind.
    """
    if said.turned_over is not None:
        return said.turned_over
    kinds = {str(material.key): str(material.kind) for material in bench.source.materials}
    others = [bench.saying(copy.says) for copy in piece.copies]
    outside = any(
        isinstance(other, CopySaying) and kinds.get(other.material.text) == "fabric" and not as_pair(other)
        for other in others
    )
    return outside and not as_pair(said) and kinds[said.material.text] in BEHIND


def as_pair(said: CopySaying) -> bool:
    """True for copies of which half are turned over, where that makes a difference."""
    return not said.alike and said.count > 1


def told_apart(piece: Piece, on_the_fold: bool) -> Piece:
    """The piece with copies mirrored or turned over only where that makes a difference: to the outline, or to marks that
    a turned copy shares with one that is not. What lies on the fold is the same either way; how layers lie that are
    trimmed together, their placements say."""
    if not any(copy.mirrored or copy.turned_over for copy in piece.copies):
        return piece
    flips = alike_flips(piece.cut_line)
    if not flips:
        return piece
    copies = tuple(
        replace(
            copy,
            mirrored=False,
            turned_over=copy.turned_over and not (on_the_fold or copy.rough) and _shares_askew(piece, copy, flips),
        )
        for copy in piece.copies
    )
    return replace(piece, copies=copies)


def _shares_askew(piece: Piece, copy: Copy, flips: Sequence[tuple[Point, Point]]) -> bool:
    """True where the marks that a copy shares with one that is not turned over lie differently when it is."""
    short = copy.name.removeprefix(f"{piece.name} ")
    others = {other.name.removeprefix(f"{piece.name} ") for other in piece.copies if not other.turned_over}
    shared = [mark for mark in piece.marks if not mark.copies or (short in mark.copies and others & set(mark.copies))]
    return bool(others) and not any(
        all(any(_agree(mark, other, *flip) for other in shared) for mark in shared) for flip in flips
    )


def _agree(mark: Mark, other: Mark, through: Point, along: Point) -> bool:
    """True where a mark turned over on an axis lies on another of its kind, whichever end comes first."""
    turned = [mirrored_point(spot, through, along) for spot in mark_spots(mark)]
    spots = mark_spots(other)
    return (
        _kind(mark) == _kind(other)
        and len(turned) == len(spots)
        and all(min((one - spot).length for spot in spots) <= AGREE for one in turned)
    )


def _kind(mark: Mark) -> str:
    if isinstance(mark, Notch):
        return "double notch" if mark.double else "notch"
    return mark.symbol if isinstance(mark, PointMark) else mark.kind


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
