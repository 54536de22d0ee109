"""The marks of a pattern for its legend: each drawn by the code that draws it on the pieces."""

from collections.abc import Sequence
from itertools import pairwise

from publisher.drafting import Draft, GrainLine, LineMark, Notch, PathMark, PieceKind, Pleat, PointMark
from publisher.figures.nests import SIZE_STYLES
from publisher.figures.page_furniture import joining_strokes, scale_bar
from publisher.figures.pieces import LINE_STYLES, fold_bracket, grain_strokes, notch_strokes
from publisher.figures.pleat_samples import PLEAT_SECTIONS, pleat_sample
from publisher.figures.stretch_marks import stretch_strokes
from publisher.figures.symbols import SYMBOLS, symbol_strokes
from publisher.figures.values import Figure, Stroke, Style
from publisher.geometry import Line, Path, Point
from publisher.template_pages import JoiningMark, nested, templates_of
from publisher.terms import Place

WIDTH, HEIGHT = 34.0, 12.0
SAMPLE = Place("", 0, 0, 0, 0)  # a sample was written nowhere
LINE_HEIGHT = 6.0  # of a sample that is one level line
MIDDLE = Point(WIDTH / 2, HEIGHT / 2)


def mark_samples(drafts: Sequence[Draft], tiled: bool) -> tuple[tuple[str, Figure], ...]:
    """(key of the mark's words, its sample) for exactly the marks that the templates of these drafts bear."""
    pieces = [piece.template for draft in drafts for piece in draft.pieces if piece.kind is PieceKind.DRAWN]
    marks = [mark for piece in pieces for mark in piece.marks]
    notches = [mark for mark in marks if isinstance(mark, Notch)]
    symbols = {mark.symbol for mark in marks if isinstance(mark, PointMark)}
    lines = {mark.kind for mark in marks if isinstance(mark, LineMark)}
    pleats = {mark.kind for mark in marks if isinstance(mark, Pleat)}
    stretches = {mark.kind for mark in marks if isinstance(mark, PathMark)}
    sheets = nested(templates_of(drafts))
    whole = [one.piece for together in sheets for one in together if len(together) == 1]
    cut_line = "cut-line" if all(len(together) == 1 for together in sheets) else "cut-line-shared"
    sewn = any(edge.allowance for piece in whole for edge in piece.edges)
    samples: list[tuple[str, bool, list[Stroke] | Style]] = [
        (cut_line, bool(pieces), Style.CUT),
        ("finished-line", sewn, Style.FINISHED),
        ("notch", any(not notch.double and not notch.side for notch in notches), _notch(double=False)),
        ("notch-on-the-fold", any(not notch.double and notch.side for notch in notches), _notch_on_the_fold()),
        ("double-notch", any(notch.double for notch in notches), _notch(double=True)),
        *((symbol.replace(" ", "-"), symbol in symbols, symbol_strokes(symbol, MIDDLE)) for symbol in SYMBOLS),
        *((kind.replace(" ", "-"), kind in lines, style) for kind, style in LINE_STYLES.items()),
        *((kind.replace(" ", "-"), kind in pleats, pleat_sample(kind)) for kind in PLEAT_SECTIONS),
        ("dart", "dart" in pleats, _dart()),
        ("clips", "clips" in stretches, _stretch("clips")),
        ("gathers", "gathers" in stretches, _stretch("gathers")),
        ("zip", "zip" in stretches, _stretch("zip")),
        ("turning-gap", "turning gap" in stretches, _stretch("turning gap")),
        ("placed-outline", "placed outline" in stretches, Style.PLACEMENT),
        ("on-the-fold", any(piece.fold_edge for piece in pieces), _folded()),
        (
            "grain",
            any(piece.grain_line and not piece.one_way for piece in pieces),
            grain_strokes(GrainLine(Point(3.0, HEIGHT / 2), Point(WIDTH - 3.0, HEIGHT / 2))),
        ),
        (
            "grain-one-way",
            any(piece.grain_line and piece.one_way for piece in pieces),
            grain_strokes(GrainLine(Point(3.0, HEIGHT / 2), Point(WIDTH - 3.0, HEIGHT / 2), one_way=True)),
        ),
        ("joining-mark", tiled, _joined()),
        ("scale-bar", bool(pieces), _bar()),
    ]
    return tuple(
        (key, _line_sample(drawn) if isinstance(drawn, Style) else Figure(tuple(drawn), WIDTH, HEIGHT))
        for key, used, drawn in samples
        if used
    )


def size_samples(drafts: Sequence[Draft]) -> tuple[tuple[str, Figure], ...]:
    """(size, its cut line on templates that hold several sizes); none where there is no such template."""
    styles: dict[str, Style] = {}
    for together in nested(templates_of(drafts)):
        if len(together) > 1:
            styles |= {one.size: style for one, style in zip(together, SIZE_STYLES, strict=False) if one.size}
    return tuple((size, _line_sample(style)) for size, style in styles.items())


def _line_sample(style: Style) -> Figure:
    across = _level(Point(1.0, LINE_HEIGHT / 2), Point(WIDTH - 1.0, LINE_HEIGHT / 2))
    return Figure((Stroke(across, style),), WIDTH, LINE_HEIGHT)


def _folded() -> list[Stroke]:
    edge = _level(Point(1.0, 1.0), Point(WIDTH - 1.0, 1.0))
    return [Stroke(edge, Style.CUT), *fold_bracket(edge.start, edge.end)]


def _level(start: Point, end: Point) -> Path:
    return Path((Line(start, end),))


def _notch(double: bool) -> list[Stroke]:
    edge = _level(Point(1.0, HEIGHT - 2.5), Point(WIDTH - 1.0, HEIGHT - 2.5))
    return [
        Stroke(edge, Style.CUT),
        *notch_strokes(Point(WIDTH / 2, HEIGHT - 2.5), Point(WIDTH / 2, HEIGHT - 7.5), double),
    ]


def _notch_on_the_fold() -> list[Stroke]:
    corner = Point(WIDTH / 2, HEIGHT - 2.5)
    edge, fold = _level(corner, Point(WIDTH - 1.0, corner.y)), Path((Line(corner, Point(corner.x, 1.0)),))
    snip = notch_strokes(corner, Point(corner.x, HEIGHT - 7.5), double=False, side=Point(1.0, 0.0))
    return [Stroke(edge, Style.CUT), Stroke(fold, Style.CUT), *snip]


def _stretch(kind: str) -> list[Stroke]:
    """A stretch of a level edge, its inside above."""
    edge, (start, end) = 2.5, (Point(7.0, 5.0), Point(WIDTH - 7.0, 5.0))
    mark = PathMark(kind, kind, Path((Line(start, end),)), 5.0 - edge, "wrong side", (), SAMPLE)
    line = _level(Point(1.0, 5.0), Point(WIDTH - 1.0, 5.0))
    return [
        Stroke(_level(Point(1.0, edge), Point(WIDTH - 1.0, edge)), Style.CUT),
        Stroke(line, Style.FINISHED),
        *stretch_strokes(mark),
    ]


def _dart() -> list[Stroke]:
    """A dart at a level edge: its fold, its legs, the mouth trued."""
    edge, middle = 3.0, WIDTH / 2
    first, last, tip, point = (
        Point(middle - 5, edge),
        Point(middle + 5, edge),
        Point(middle, edge - 2.4),
        Point(middle, HEIGHT - 0.5),
    )
    corners = (Point(1.0, edge), first, tip, last, Point(WIDTH - 1.0, edge))
    mouth = Path(tuple(Line(one, other) for one, other in pairwise(corners)))
    lines = [Stroke(Path((Line(end, point),)), Style.STITCHING) for end in (first, last)]
    return [Stroke(mouth, Style.CUT), Stroke(Path((Line(tip, point),)), Style.FOLD), *lines]


def _joined() -> list[Stroke]:
    edge = Path((Line(Point(WIDTH / 2, 0.5), Point(WIDTH / 2, HEIGHT - 0.5)),))
    halves = [stroke for side in ("left", "right") for stroke in joining_strokes(JoiningMark(MIDDLE, side, "", MIDDLE))]
    return [Stroke(edge, Style.FRAME), *halves]


def _bar() -> list[Stroke]:
    """The bar's first half, at its true size. Pages have y down, samples have it up."""
    bar = Line(Point(4.0, HEIGHT / 2), Point(WIDTH - 1.0, HEIGHT / 2))
    ticks = [
        Line(
            Point(stroke.path.start.x, HEIGHT - stroke.path.start.y),
            Point(stroke.path.end.x, HEIGHT - stroke.path.end.y),
        )
        for stroke in scale_bar(4.0, HEIGHT / 2)
        if max(stroke.path.start.x, stroke.path.end.x) <= WIDTH
    ]
    return [Stroke(Path((line,)), Style.SCALE) for line in (bar, *ticks)]
