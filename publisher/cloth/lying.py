"""How one cut of a piece lies on the cloth: its outline turned, turned over and moved there. Millimetres."""

import math
from dataclasses import replace

from publisher.cloth.forms import as_path
from publisher.cloth.values import Laid
from publisher.drafting import Copy, Draft, Piece
from publisher.geometry import Box, Movement, Path, Point, mapped, mirrored
from publisher.terms import length, round_long_cut


def outline_cut(draft: Draft, piece: Piece, copy: Copy) -> Path:
    """What is cut of a copy, its y axis along the cloth as its grain lies: the cut line, or the box of a rough cut."""
    if copy.rough:
        return as_path(rough_box(draft, piece, copy))
    return piece.as_cut.finished_line if copy.to_finished_line else piece.as_cut.cut_line


def rough_box(draft: Draft, piece: Piece, copy: Copy) -> Box:
    """The box that a rough cut is: larger than the piece all round, long sides up to a rounder length."""
    whole = piece.as_cut
    box = (whole.finished_line if copy.to_finished_line else whole.cut_line).box
    width, height = (
        float(round_long_cut(length(side + 2 * copy.rough), draft.variant.units, draft.inch_step).amount)
        for side in (box.width, box.height)
    )
    middle = Point((box.left + box.right) / 2, (box.bottom + box.top) / 2)
    return Box(middle.x - width / 2, middle.y - height / 2, middle.x + width / 2, middle.y + height / 2)


def turned(outline: Path, turn: int, turned_over: bool) -> Path:
    """The outline turned over first (left and right change sides) where said, then by `turn` degrees about the origin."""
    if turned_over:
        outline = mirrored(outline, Point(0.0, 0.0), Point(0.0, 1.0))
    if turn:
        outline = mapped(outline, lambda point: point.turned(math.radians(turn)), turned_over=False)
    return outline


def laid(outline: Path, turn: int, turned_over: bool, x: float, y: float) -> Path:
    """The same, with its box at (x, y)."""
    outline = turned(outline, turn, turned_over)
    box = outline.box
    return outline.moved(Movement(0, Point(x - box.left, y - box.bottom)))


def moved(part: Laid, x: float, y: float, turned: bool) -> Laid:
    """The same cut laid elsewhere, and turned a quarter turn where said."""
    width, length = (part.length, part.width) if turned else (part.width, part.length)
    outline = laid(part.outline, 90 if turned else 0, False, x, y)
    turn = (part.turn + (90 if turned else 0)) % 360
    return replace(part, x=x, y=y, width=width, length=length, turn=turn, outline=outline)
