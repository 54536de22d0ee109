"""A piece as lines: cut line, finished line, notches, points, fold lines, grain. Millimetres, y up."""

import math
from collections.abc import Iterable
from itertools import groupby

from publisher.drafting import GrainLine, Mark, Notch, PathMark, Piece, Pleat, PointMark
from publisher.figures.stretch_marks import stretch_strokes
from publisher.figures.symbols import symbol_strokes
from publisher.figures.values import Figure, Stroke, Style
from publisher.geometry import Arc, Line, Path, Point, Segment

SMALL_POINT = 0.45  # of its usual size, a point for some sizes only: those of other sizes lie near
HEAD_LENGTH = 5.0
HEAD_WIDTH = 3.2
DOUBLE_APART = 3.0
FOLD_SNIP = 2.0  # half the width of a single notch on the fold, mm
WEDGE_WIDTH = 2.0  # mm, of a notch among the lines of other sizes
DOT = 0.8  # mm, radius: wider than the line it lies on
BRACKET_REACH = 10.0
ON_THE_FOLD = 1e-3  # mm that a segment may leave the line of its fold
LINE_STYLES = {
    "fold line": Style.FOLD,
    "placement line": Style.PLACEMENT,
    "stitching line": Style.STITCHING,
    "trim line": Style.TRIM,
}


def piece_figure(piece: Piece) -> Figure:
    """All lines of a drawn piece. Where an edge has no allowance, cut line and finished line are one, drawn as cut."""
    fold = None if piece.fold_edge is None else piece.edge(piece.fold_edge).path
    strokes = outline_strokes(piece.cut_line, Style.CUT, True, fold)
    strokes += [Stroke(edge.path, Style.FINISHED) for edge in piece.edges if edge.allowance > 0]
    for mark in piece.marks:
        strokes += mark_strokes(mark)
    if piece.grain_line is not None:
        strokes += grain_strokes(piece.grain_line)
    if fold is not None:
        strokes += [fold_stroke([piece.cut_line], fold), *fold_bracket(fold.start, fold.end)]
    return Figure(tuple(strokes), piece.cut_width, piece.cut_height)


def outline_strokes(outline: Path, style: Style, closed: bool, fold: Path | None) -> list[Stroke]:
    """An outline without what of it lies along the fold, which is no line to cut by."""
    stretches = off_the_fold(outline, fold)
    return [Stroke(stretch, style, closed and stretch == outline) for stretch in stretches]


def off_the_fold(outline: Path, fold: Path | None) -> tuple[Path, ...]:
    """The stretches of an outline that do not lie along the fold; a closed one goes on across its start."""
    if fold is None or not any(_along(segment, fold) for segment in outline.segments):
        return (outline,)
    runs = [(along, tuple(run)) for along, run in groupby(outline.segments, key=lambda segment: _along(segment, fold))]
    if outline.closed and len(runs) > 1 and runs[0][0] == runs[-1][0]:
        runs = [(runs[0][0], runs[-1][1] + runs[0][1]), *runs[1:-1]]
    return tuple(Path(run) for along, run in runs if not along)


def fold_stroke(outlines: Iterable[Path], fold: Path) -> Stroke:
    """One line along the fold, from end to end of the outlines: a hem or another size reaches further than its edge."""
    way, start = (fold.end - fold.start).unit(), fold.start
    spots = [
        start + way * way.dot(end - start)
        for outline in outlines
        for segment in outline.segments
        if _along(segment, fold)
        for end in (segment.start, segment.end)
    ]
    ends = sorted([*spots, fold.start, fold.end], key=lambda spot: way.dot(spot - start))
    return Stroke(_line(ends[0], ends[-1]), Style.FOLD)


def _along(segment: Segment, fold: Path) -> bool:
    """Whether a segment lies on the line of the fold."""
    way, start = (fold.end - fold.start).unit(), fold.start
    return isinstance(segment, Line) and all(
        abs(way.cross(end - start)) < ON_THE_FOLD for end in (segment.start, segment.end)
    )


def mark_strokes(mark: Mark) -> list[Stroke]:
    """The lines of one mark."""
    if isinstance(mark, Notch):
        return notch_strokes(mark.cut_end, mark.inner_end, mark.double, mark.side)
    if isinstance(mark, PointMark):
        return symbol_strokes(mark.symbol, mark.at)
    if isinstance(mark, Pleat):
        return pleat_strokes(mark)
    if isinstance(mark, PathMark):
        return stretch_strokes(mark)
    return [Stroke(_line(mark.start, mark.end), LINE_STYLES[mark.kind])]


def pleat_strokes(pleat: Pleat) -> list[Stroke]:
    """The lines of a pleat, and arrows from its outer folds to where they are brought."""
    return pleat_lines(pleat) + [stroke for span in pleat.arrows for stroke in arrow_strokes(*span)]


def pleat_lines(pleat: Pleat) -> list[Stroke]:
    """Outer and inner folds, and the lines they are brought to or stitched along."""
    styled = (
        (pleat.outer, Style.FOLD),
        (pleat.inner, Style.INNER_FOLD),
        (pleat.meets, Style.PLACEMENT),
        (pleat.stitched, Style.STITCHING),
    )
    return [Stroke(_line(*span), style) for spans, style in styled for span in spans]


def arrow_strokes(start: Point, tip: Point) -> list[Stroke]:
    """A thin line with one head; on a short line the head is smaller."""
    way = tip - start
    size = min(1.0, way.length / (2 * HEAD_LENGTH))
    shaft = _line(start, tip - way.unit() * (HEAD_LENGTH * size))
    return [Stroke(shaft, Style.LEADER), Stroke(arrow_head(tip, way.unit() * size), Style.SOLID, closed=True)]


def fold_bracket(start: Point, end: Point) -> list[Stroke]:
    """The sign at an edge that lies on the fold: a bracket inside the piece, its arrows at the edge.

    `start` and `end` of the edge run counter-clockwise round the piece, so that its inside is to the left.
    """
    along, length = (end - start).unit(), (end - start).length
    first, last = start + along * (length * 0.2), end - along * (length * 0.2)
    aside = along.left() * min(BRACKET_REACH, length / 6)
    strokes = [Stroke(_line(first + aside, last + aside), Style.GRAIN)]
    for foot in (first, last):
        size = min(1.0, aside.length / (2 * HEAD_LENGTH))
        tip = -along.left() * size
        strokes.append(Stroke(_line(foot + aside, foot - tip * HEAD_LENGTH), Style.GRAIN))
        strokes.append(Stroke(arrow_head(foot, tip), Style.SOLID, closed=True))
    return strokes


def _line(start: Point, end: Point) -> Path:
    return Path((Line(start, end),))


def notch_strokes(cut_end: Point, inner_end: Point, double: bool, side: Point | None = None) -> list[Stroke]:
    """A short line from the cut line inwards; two side by side for a double notch.

    On the fold the half to its `side`: one line of a double notch; of a single one, which would lie in the fold itself,
    half of a small triangle that is snipped out.
    """
    if side is not None and not double:
        return [Stroke(_line(cut_end + side * FOLD_SNIP, inner_end), Style.NOTCH)]
    inwards = inner_end - cut_end
    return [Stroke(_line(foot, foot + inwards), Style.NOTCH) for foot in _notch_feet(cut_end, inwards, double, side)]


def notch_wedges(cut_end: Point, inner_end: Point, double: bool, side: Point | None = None) -> list[Stroke]:
    """A solid triangle that stands on the cut line, its tip where a line would end; two of a double notch.

    A single one on the fold is half of a triangle already.
    """
    if side is not None and not double:
        return notch_strokes(cut_end, inner_end, double, side)
    inwards = inner_end - cut_end
    aside = inwards.unit().left() * (WEDGE_WIDTH / 2)
    return [
        Stroke(closed_path((foot + aside, foot - aside, foot + inwards)), Style.SOLID, closed=True)
        for foot in _notch_feet(cut_end, inwards, double, side)
    ]


def notch_dots(cut_end: Point, inner_end: Point, double: bool, side: Point | None = None) -> list[Stroke]:
    """A dot on the cut line; two of a double notch."""
    feet = [cut_end] if not double else _notch_feet(cut_end, inner_end - cut_end, double, side)
    return [Stroke(Path((circle(foot, DOT),)), Style.SOLID, closed=True) for foot in feet]


def _notch_feet(cut_end: Point, inwards: Point, double: bool, side: Point | None) -> list[Point]:
    """Where the lines of a notch begin on the cut line; on the fold only those on its `side`."""
    aside = inwards.unit().left() * (DOUBLE_APART / 2)
    shifts = (aside, -aside) if double else (Point(0.0, 0.0),)
    return [cut_end + shift for shift in shifts if side is None or shift.dot(side) > 0]


def circle(centre: Point, radius: float) -> Arc:
    """A whole circle, from its right."""
    start = Point(centre.x + radius, centre.y)
    return Arc(start, start, centre, 2 * math.pi)


def grain_strokes(grain: GrainLine) -> list[Stroke]:
    """A line with a head at each end: either way up will do; with one head where it will not. On a short line the heads
    are smaller."""
    whole = grain.end - grain.start
    along, size = whole.unit(), min(1.0, whole.length / (3 * HEAD_LENGTH))
    foot = grain.start if grain.one_way else grain.start + along * (HEAD_LENGTH * size)
    shaft = _line(foot, grain.end - along * (HEAD_LENGTH * size))
    heads = [arrow_head(grain.end, along * size)]
    if not grain.one_way:
        heads.append(arrow_head(grain.start, -along * size))
    return [Stroke(shaft, Style.GRAIN), *(Stroke(head, Style.SOLID, closed=True) for head in heads)]


def arrow_head(tip: Point, along: Point) -> Path:
    """A triangle with its tip at `tip`, pointing along a direction; of its usual size where that has length 1."""
    foot, half = tip - along * HEAD_LENGTH, along.left() * (HEAD_WIDTH / 2)
    corners = (tip, foot + half, foot - half)
    return closed_path(corners)


def closed_path(corners: Iterable[Point]) -> Path:
    """Straight lines through the corners and back to the first."""
    points = tuple(corners)
    return Path(tuple(Line(first, second) for first, second in zip(points, (*points[1:], points[0]), strict=True)))
