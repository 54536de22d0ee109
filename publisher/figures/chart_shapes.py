"""The shapes of pieces for the cutting chart: cut line and finished line so small that they fit its rows. mm, y down."""

from collections.abc import Sequence

from publisher.drafting import Piece, PieceKind
from publisher.figures.thumbnails import small_strokes
from publisher.figures.values import Figure, Style
from publisher.geometry import Box, Point

WIDTH, HEIGHT = 10.0, 8.0
LEAST = 3.0  # the long side of the smallest shape: it can still be told what it is
APART = 0.3  # a finished line nearer to the cut line than this would run into it
MARGIN = 0.2


def chart_scale(pieces: Sequence[Piece]) -> float:
    """The scale that all shapes of a chart share: the largest piece fits. Strips are long and count only when alone."""
    counted = [piece for piece in pieces if piece.kind is not PieceKind.STRIP] or list(pieces)
    return min(_fitting(piece.cut_line.box) for piece in counted)


def _fitting(box: Box) -> float:
    return min(WIDTH / box.width, HEIGHT / box.height)


def chart_shape(piece: Piece, to_finished_line: bool, scale: float) -> Figure:
    """A piece as it is cut, in a drawing of its own size; smaller or larger than `scale` only where it must be."""
    box = piece.finished_line.box if to_finished_line else piece.cut_line.box
    own = min(max(scale, LEAST / max(box.width, box.height)), _fitting(box))

    def small(spot: Point) -> Point:
        return Point((spot.x - box.left) * own + MARGIN, (box.top - spot.y) * own + MARGIN)

    line = piece.finished_line if to_finished_line else piece.cut_line
    strokes = small_strokes(line, box, own, small, Style.SMALL_CUT)
    if not to_finished_line:
        for edge in piece.edges:
            if edge.allowance * own >= APART:
                strokes += small_strokes(edge.path, box, own, small, Style.SMALL_FINISHED)
    return Figure(tuple(strokes), box.width * own + 2 * MARGIN, box.height * own + 2 * MARGIN)
