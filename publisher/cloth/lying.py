"""How one cut of a piece lies on the cloth: its outline turned, turned over and moved there. Millimetres."""

import math
from dataclasses import replace

from publisher.cloth.values import Laid
from publisher.drafting import Copy, Piece
from publisher.geometry import Box, Line, Movement, Path, Point, mapped, mirrored


def outline_cut(piece: Piece, copy: Copy) -> Path:
    """What is cut of a copy, its y axis along the cloth as its grain lies: the cut line, or the box of a rough cut."""
    whole = piece.as_cut
    outline = whole.finished_line if copy.to_finished_line else whole.cut_line
    if not copy.rough:
        return outline
    box = outline.box
    return as_path(Box(box.left - copy.rough, box.bottom - copy.rough, box.right + copy.rough, box.top + copy.rough))


def as_path(box: Box) -> Path:
    """A box as a closed path, counter-clockwise from its lower left corner."""
    corners = [
        Point(box.left, box.bottom),
        Point(box.right, box.bottom),
        Point(box.right, box.top),
        Point(box.left, box.top),
    ]
    return Path(tuple(Line(one, corners[(at + 1) % 4]) for at, one in enumerate(corners)))


def laid(outline: Path, turn: int, turned_over: bool, x: float, y: float) -> Path:
    """The outline turned over first (left and right change sides) where said, then by `turn` degrees, its box at (x, y)."""
    if turned_over:
        outline = mirrored(outline, Point(0.0, 0.0), Point(0.0, 1.0))
    if turn:
        outline = mapped(outline, lambda point: point.turned(math.radians(turn)), turned_over=False)
    box = outline.box
    return outline.moved(Movement(0, Point(x - box.left, y - box.bottom)))


def moved(part: Laid, x: float, y: float, turned: bool) -> Laid:
    """The same cut laid elsewhere, and turned a quarter turn where said."""
    width, length = (part.length, part.width) if turned else (part.width, part.length)
    outline = laid(part.outline, 90 if turned else 0, False, x, y)
    turn = (part.turn + (90 if turned else 0)) % 360
    return replace(part, x=x, y=y, width=width, length=length, turn=turn, outline=outline)
