"""Placed pieces with their lines as they lie on a page. On paper: mm, y down."""

import itertools
from collections.abc import Mapping
from functools import reduce

from publisher.drafting import STRETCHES, LineMark, Mark, Notch, PathMark, Piece, Pleat, PointMark
from publisher.figures.nests import nest_figures
from publisher.figures.pieces import closed_path, piece_figure
from publisher.figures.stretch_marks import INSIDE
from publisher.frozen import dataclass
from publisher.geometry import Box, Line, Path, Point, stretches_within
from publisher.template_pages import Frame, Nest, PlacedPiece, Template, nest_of

SEEN_LEAST = 40.0  # mm: of less of a line the name stands on another page only


@dataclass(frozen=True, slots=True)
class OnPaper:
    """A placed piece, or the sizes of one on one another, with its lines as they lie on the page."""

    piece: Piece  # of a nest the smallest
    placed: PlacedPiece
    lines: tuple[Path, ...]
    outline: Path  # the finished line
    box: Box  # of the cut lines
    within: Box
    nest: Nest | None


def on_paper(together: tuple[PlacedPiece, ...], pieces: Mapping[tuple[str, str | None], Piece]) -> OnPaper:
    """A placed piece, or several sizes of one that lie on one another; `pieces` by name and size."""
    placed = together[0]
    shown = [pieces[(one.piece, one.size)] for one in together]
    box = reduce(Box.joined, (flat(piece.cut_line, placed).box for piece in shown))
    if len(together) == 1:
        lines = tuple(flat(stroke.path, placed) for stroke in piece_figure(shown[0]).strokes)
        return OnPaper(shown[0], placed, lines, flat(shown[0].finished_line, placed), box, box_of(placed.clip), None)
    nest = nest_of(tuple(Template(piece, one.size) for piece, one in zip(shown, together, strict=True)))
    lines = tuple(flat(stroke.path, placed) for _, figure in nest_figures(nest) for stroke in figure.strokes)
    outline = flat(nest.inner.finished_line, placed)
    return OnPaper(nest.inner, placed, lines, outline, box, box_of(placed.clip), nest)


def flat(path: Path, placed: PlacedPiece) -> Path:
    """A path of a piece in straight lines, on its page."""
    points = [placed.on_paper(point) for point in path.flattened(0.1)]
    return Path(tuple(Line(first, second) for first, second in itertools.pairwise(points)))


def box_of(frame: Frame) -> Box:
    """A frame as a box; y runs down, so the box's bottom is the frame's upper edge."""
    return Box(frame.left, frame.top, frame.left + frame.width, frame.top + frame.height)


def outline_of(box: Box) -> Path:
    """The four sides of a box."""
    corners = ((box.left, box.bottom), (box.right, box.bottom), (box.right, box.top), (box.left, box.top))
    return closed_path(Point(x, y) for x, y in corners)


def seen_again(one: OnPaper, mark: Mark) -> Point | None:
    """On a page that does not show where a mark is labelled, the middle of what it shows of its lines; None of a little."""
    if not isinstance(mark, LineMark | Pleat):
        return None
    spans = (*mark.outer, *mark.stitched, *mark.inner) if isinstance(mark, Pleat) else ((mark.start, mark.end),)
    lines = (Path((Line(one.placed.on_paper(start), one.placed.on_paper(end)),)) for start, end in spans)
    seen = (stretch for line in lines for stretch in stretches_within(line, one.within, 0.05))
    longest = max(seen, key=lambda stretch: stretch.length, default=None)
    return longest.point_at(longest.length / 2) if longest is not None and longest.length > SEEN_LEAST else None


def spot_of(mark: Mark) -> Point:
    """Where a mark is labelled, in the coordinates of its piece."""
    if isinstance(mark, Notch):
        return mark.inner_end
    if isinstance(mark, PointMark):
        return mark.at
    if isinstance(mark, PathMark):
        middle = mark.path.length / 2
        inside = mark.path.direction_at(middle).left() * (INSIDE if mark.kind in STRETCHES else 0.0)
        return mark.path.point_at(middle) + inside
    start, end = (mark.outer or mark.stitched)[0] if isinstance(mark, Pleat) else (mark.start, mark.end)
    return (start + end) * 0.5
