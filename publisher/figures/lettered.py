"""A piece drawn small, its corners lettered: each letter outside, beside its corner, clear of every line."""

import math
from collections.abc import Callable, Iterable

from publisher.drafting import STRETCHES, LineMark, Mark, Notch, PathMark, Piece, Pleat
from publisher.figures.pieces import LINE_STYLES, circle, pleat_lines
from publisher.figures.values import Figure, Stroke, Style
from publisher.frozen import dataclass
from publisher.geometry import Box, Line, Movement, Path, Point, fills_box, grown, polygon, scaled
from publisher.tables import Corner, Dimensions

LARGEST = 75.0  # mm, of the drawing
SCALES = (2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50)  # never 1: a drawing of true size would be cut from
DOT = 0.55  # mm: radius of the dot on a corner
CROSS = 1.0  # mm: half a point's cross
CLEAR = 0.8  # mm between a letter and any line
FARTHEST = 30.0  # mm from a corner to its letter
LEADER_FROM = 7.0  # mm: from here on a leader leads to it
TURNS = tuple(math.radians(turn) for turn in (0, 20, -20, 40, -40, 60, -60, 80, -80))


@dataclass(frozen=True, slots=True)
class PlacedLetter:
    """A letter's box on the drawing, mm, y down from the drawing's upper left corner."""

    text: str
    left: float
    top: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class LetteredPiece:
    """The drawing at a scale of 1 : `scale`, y up, with room for its letters."""

    figure: Figure
    scale: int
    letters: tuple[PlacedLetter, ...]


def lettered_piece(piece: Piece, told: Dimensions, letter_size: Callable[[str], tuple[float, float]]) -> LetteredPiece:
    """Cut line, finished line and marks, small; `letter_size` gives the width and height of a letter in mm."""
    scale = _scale(max(piece.cut_line.box.width, piece.cut_line.box.height))
    to_corner = Movement(0, -told.lower_left)

    def small(path: Path) -> Path:
        return scaled(path.moved(to_corner), 1 / scale)

    cut_line = small(piece.cut_line)
    strokes = [Stroke(cut_line, Style.CUT, closed=True)]
    strokes += [Stroke(small(edge.path), Style.FINISHED) for edge in piece.edges if edge.allowance > 0]
    strokes += [Stroke(small(path), style) for mark in piece.marks for path, style in _mark_lines(mark, scale)]
    strokes += [
        Stroke(Path((circle(corner.at * (1 / scale), DOT),)), Style.SOLID, closed=True) for corner in told.corners
    ]
    boxes: list[Box] = []
    leaders: list[Path] = []
    for corner in told.corners:
        box, leader = _beside(corner, 1 / scale, cut_line, letter_size(corner.letter), boxes, leaders)
        boxes.append(box)
        leaders += [leader] if leader else []
    strokes += [Stroke(leader, Style.LEADER) for leader in leaders]
    return _framed(strokes, cut_line.box, scale, told.corners, boxes)


def _scale(longest: float) -> int:
    return next((scale for scale in SCALES if longest / scale <= LARGEST), math.ceil(longest / LARGEST))


def _mark_lines(mark: Mark, scale: int) -> Iterable[tuple[Path, Style]]:
    if isinstance(mark, Notch):
        return [(Path((Line(mark.cut_end, mark.inner_end),)), Style.NOTCH)]
    if isinstance(mark, LineMark):
        return [(Path((Line(mark.start, mark.end),)), LINE_STYLES[mark.kind])]
    if isinstance(mark, PathMark):
        return [(mark.path, Style.STRETCH if mark.kind in STRETCHES else Style.PLACEMENT)]
    if isinstance(mark, Pleat):
        return [(stroke.path, stroke.style) for stroke in pleat_lines(mark)]
    arms = (Point(CROSS * scale, 0.0), Point(0.0, CROSS * scale))
    return [(Path((Line(mark.at - arm, mark.at + arm),)), Style.POINT) for arm in arms]


def _beside(
    corner: Corner, factor: float, cut_line: Path, size: tuple[float, float], taken: list[Box], leaders: list[Path]
) -> tuple[Box, Path | None]:
    """The nearest free box along the outward bisector, or turned from it a little; a leader where it is far."""
    at, area = corner.at * factor, grown(polygon(cut_line), CLEAR)
    ways = sorted(
        ((step / 2, turn) for step in range(2, int(FARTHEST * 2)) for turn in TURNS),
        key=lambda way: way[0] * (1 + abs(way[1])),
    )
    middle = at
    for reach, turn in ways:
        middle = at + corner.outward.turned(turn) * reach
        box = _box_round(middle, size)
        if not fills_box(area, box) and not _meets(box, taken, [*leaders, _dot(at)]):
            break
    box = _box_round(middle, size)
    away = middle - at
    if away.length < LEADER_FROM:
        return box, None
    return box, Path((Line(at, middle - away.unit() * (max(size) / 2 + CLEAR / 2)),))


def _box_round(middle: Point, size: tuple[float, float]) -> Box:
    width, height = size
    return Box(middle.x - width / 2, middle.y - height / 2, middle.x + width / 2, middle.y + height / 2)


def _dot(at: Point) -> Path:
    return Path((circle(at, DOT),))


def _meets(box: Box, taken: Iterable[Box], lines: Iterable[Path]) -> bool:
    """True when a box lies nearer than CLEAR to another, or to a line."""
    wide = Box(box.left - CLEAR, box.bottom - CLEAR, box.right + CLEAR, box.top + CLEAR)
    if any(
        wide.left < other.right and other.left < wide.right and wide.bottom < other.top and other.bottom < wide.top
        for other in taken
    ):
        return True
    spots = (path.point_at(path.length * part / 40) for path in lines for part in range(41))
    return any(wide.left < spot.x < wide.right and wide.bottom < spot.y < wide.top for spot in spots)


def _framed(strokes: list[Stroke], box: Box, scale: int, corners: Iterable[Corner], boxes: list[Box]) -> LetteredPiece:
    """Everything moved so that the drawing begins at its lower left corner."""
    whole = box
    for one in boxes:
        whole = whole.joined(one)
    to_frame = Movement(0, Point(0.5 - whole.left, 0.5 - whole.bottom))
    width, height = whole.width + 1.0, whole.height + 1.0
    moved = tuple(Stroke(stroke.path.moved(to_frame), stroke.style, stroke.closed) for stroke in strokes)
    letters = tuple(
        PlacedLetter(
            corner.letter,
            one.left + to_frame.shift.x,
            height - one.top - to_frame.shift.y,
            one.width,
            one.height,
        )
        for corner, one in zip(corners, boxes, strict=True)
    )
    return LetteredPiece(Figure(moved, width, height), scale, letters)
