"""The line drawing of the cover: one copy as it is sewn, and what placements lay on it, at one scale. mm, y up."""

from collections.abc import Callable, Iterator

from publisher.drafting import STRETCHES, Draft, LineMark, PathMark, Piece, PieceKind, PointMark
from publisher.figures.pieces import LINE_STYLES, circle
from publisher.figures.values import Figure, Stroke, Style
from publisher.geometry import Box, Line, Path, Point, mapped, mirrored_point

WIDTH, HEIGHT = 150.0, 48.0  # mm: the largest that leaves the cover its words
MARGIN = 0.5
POINT_RADIUS = 1.2
SEEN = ("fabric", "lining")  # kinds of material that show when the thing is finished

Rule = Callable[[Point], Point]


def cover_figure(draft: Draft) -> Figure | None:
    """The copy that the pattern puts on its cover, with its lines and what lies on it; None without a drawn piece."""
    if draft.cover is None:
        return None
    shown = list(_laid(draft, draft.cover, lambda point: point, turned_over=False))
    box = shown[0][1].box
    for _, line, _, _ in shown[1:]:
        box = box.joined(line.box)
    scale = min((WIDTH - 2 * MARGIN) / box.width, (HEIGHT - 2 * MARGIN) / box.height)
    strokes = [stroke for piece, line, rule, copy in shown for stroke in _drawn(piece, line, rule, copy, box, scale)]
    return Figure(tuple(strokes), box.width * scale + 2 * MARGIN, box.height * scale + 2 * MARGIN)


Shown = tuple[Piece, Path, Rule, str]


def _laid(draft: Draft, copy: str, rule: Rule, turned_over: bool) -> Iterator[Shown]:
    """A copy and, in order, what lies on it: piece, its finished line where it lies, how it is laid, its short name."""
    piece = draft.piece(draft.copy(copy).piece)
    yield piece, mapped(piece.finished_line, rule, turned_over), rule, copy.removeprefix(f"{piece.name} ")
    kinds = {material.key: material.kind for material in draft.materials}
    for placement in draft.placements:
        placed = draft.copy(placement.placed)
        flat = draft.piece(placed.piece).kind is not PieceKind.STRIP and kinds.get(placed.material) in SEEN
        if placement.below == copy and flat:
            over = turned_over != placement.laying.turned_over
            yield from _laid(draft, placement.placed, _one_behind(placement.laying, rule), over)
            if placed.mirrored and placed.count == 2 and piece.half is not None:
                # One of a pair on a piece cut on the fold: the other lies on the other half.
                second = _one_behind(placement.laying, _one_behind(_over_the_fold(piece), rule))
                yield from _laid(draft, placement.placed, second, not over)


def _one_behind(first: Rule, then: Rule) -> Rule:
    return lambda point: then(first(point))


def _over_the_fold(piece: Piece) -> Rule:
    """From one half of a piece that is cut on the fold to the other."""
    half = piece.half
    assert half is not None
    assert half.fold_edge is not None
    fold = half.edge(half.fold_edge).path
    return lambda point: mirrored_point(point, fold.start, fold.direction_at(0.0))


def _drawn(piece: Piece, line: Path, rule: Rule, copy: str, box: Box, scale: float) -> Iterator[Stroke]:
    def small(point: Point) -> Point:
        return Point((point.x - box.left) * scale + MARGIN, (point.y - box.bottom) * scale + MARGIN)

    yield Stroke(_scaled(line, small), Style.OVERLAY, closed=True)
    for mark in piece.marks:
        if mark.copies and copy not in mark.copies:
            continue
        if isinstance(mark, LineMark):
            yield Stroke(Path((Line(small(rule(mark.start)), small(rule(mark.end))),)), LINE_STYLES[mark.kind])
        elif isinstance(mark, PathMark) and mark.kind not in STRETCHES:
            yield Stroke(_scaled(mapped(mark.path, rule, turned_over=False), small), Style.PLACEMENT, closed=True)
        elif isinstance(mark, PointMark) and mark.symbol != "point":  # a plain one only says where something goes
            yield Stroke(Path((circle(small(rule(mark.at)), POINT_RADIUS),)), Style.POINT, closed=True)


def _scaled(path: Path, small: Rule) -> Path:
    """The path made smaller; a change of scale keeps every angle, so that arcs stay arcs."""
    return mapped(path, small, turned_over=False)
