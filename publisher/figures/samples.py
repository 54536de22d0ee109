"""The marks of a pattern for its legend: each drawn by the code that draws it on the pieces."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from publisher.drafting import Draft, GrainLine, LineMark, Notch, PathMark, Piece, PieceKind, Pleat, PointMark
from publisher.figures.nests import NOTCH_SIGNS, SIZE_STYLES
from publisher.figures.page_furniture import joining_strokes, scale_bar
from publisher.figures.pieces import LINE_STYLES, fold_bracket, grain_strokes, notch_strokes
from publisher.figures.pleat_samples import PLEAT_HEIGHT, PLEAT_SECTIONS, pleat_sample
from publisher.figures.stretch_marks import stretch_strokes
from publisher.figures.symbols import SYMBOLS, symbol_strokes
from publisher.figures.values import Figure, Stroke, Style
from publisher.geometry import Line, Path, Point
from publisher.template_pages import JoiningMark, NotchSign, Template, nest_of, nested, templates_of
from publisher.terms import Place

WIDTH, HEIGHT = 34.0, 12.0
SAMPLE = Place("", 0, 0, 0, 0)  # a sample was written nowhere
LINE_HEIGHT = 6.0  # of a sample that is one level line
LETTER_HIGH, LETTER_ASIDE = 1.7, 2.3  # mm: of the letter in each half of a joining mark
MIDDLE = Point(WIDTH / 2, HEIGHT / 2)


def mark_samples(drafts: Sequence[Draft], tiled: bool) -> tuple[tuple[str, Figure], ...]:
    """(key of the mark's words, its sample) for exactly the marks that the templates of these drafts bear."""
    pieces = [piece.template for draft in drafts for piece in draft.pieces if piece.kind is PieceKind.DRAWN]
    marks = [mark for piece in pieces for mark in piece.marks]
    symbols = {mark.symbol for mark in marks if isinstance(mark, PointMark)}
    lines = {mark.kind for mark in marks if isinstance(mark, LineMark)}
    pleats = {mark.kind for mark in marks if isinstance(mark, Pleat)}
    stretches = {mark.kind for mark in marks if isinstance(mark, PathMark)}
    sheets = nested(templates_of(drafts))
    shown = [notch for together in sheets for notch in _notches(together)]
    notches = {_notch_key(*notch) for notch in shown}
    whole = [one.piece for together in sheets for one in together if len(together) == 1]
    nests = [nest_of(together) for together in sheets if len(together) > 1]
    sewn = any(edge.allowance for piece in whole for edge in piece.edges)
    samples: list[tuple[str, bool, list[Stroke] | Style]] = [
        ("cut-line", bool(whole), Style.CUT),
        ("cut-line-shared", any(len(line.sizes) > 1 for nest in nests for line in nest.lines), Style.CUT_SHARED),
        (_finished_key(whole), sewn, Style.FINISHED),
        ("notch", "notch" in notches, _notch(double=False)),
        ("notch-on-the-fold", "notch-on-the-fold" in notches, _notch_on_the_fold(double=False, sign=NotchSign.LINE)),
        ("double-notch", "double-notch" in notches, _notch(double=True)),
        *(
            (_notch_key(double, False, sign), _notch_key(double, False, sign) in notches, _nested_notch(sign, double))
            for sign in (NotchSign.WEDGE, NotchSign.DOT)
            for double in (False, True)
        ),
        (
            "double-notch-on-the-fold",
            "double-notch-on-the-fold" in notches,
            _notch_on_the_fold(double=True, sign=_sign_on_the_fold(shown)),
        ),
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
            _grain_key(drafts, pieces),
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
        (key, _line_sample(drawn) if isinstance(drawn, Style) else Figure(tuple(drawn), WIDTH, _high(key)))
        for key, used, drawn in samples
        if used
    )


def _high(key: str) -> float:
    return PLEAT_HEIGHT if key.replace("-", " ") in PLEAT_SECTIONS else HEIGHT


def _finished_key(whole: Sequence[Piece]) -> str:
    """What the finished line of these templates is, besides the stitching line."""
    seen = [piece for piece in whole if any(edge.allowance for edge in piece.edges)]
    hems = any(piece.hems for piece in seen)
    inner = any(copy.to_finished_line for piece in seen for copy in piece.copies)
    return {
        (False, False): "finished-line",
        (True, False): "finished-line-hem",
        (False, True): "finished-line-inner",
        (True, True): "finished-line-hem-inner",
    }[hems, inner]


def _grain_key(drafts: Sequence[Draft], pieces: Sequence[Piece]) -> str:
    """What is said of pieces without a nap: of some that are cut from a print that repeats, which ends may be up."""
    prints = {material.key for draft in drafts for material in draft.materials if material.repeat is not None}
    cut_from = {copy.material for piece in pieces if piece.grain_line and not piece.one_way for copy in piece.copies}
    return "grain-of-a-print" if prints & cut_from else "grain"


def _notches(together: tuple[Template, ...]) -> Iterator[tuple[bool, bool, NotchSign]]:
    """Of each notch as a sheet bears it: whether it is double, whether it lies on the fold, how it is drawn."""
    if len(together) == 1:
        shown = [(mark, NotchSign.LINE) for mark in together[0].piece.marks]
    else:
        shown = [(each.mark, each.sign) for each in nest_of(together).marks]
    yield from ((mark.double, mark.side is not None, sign) for mark, sign in shown if isinstance(mark, Notch))


def _notch_key(double: bool, on_the_fold: bool, sign: NotchSign) -> str:
    """The key of a notch's words. Of one on the fold half is printed, in a nest, too."""
    if on_the_fold and sign is not NotchSign.DOT:
        return "double-notch-on-the-fold" if double else "notch-on-the-fold"
    name = "double-notch" if double else "notch"
    return {NotchSign.LINE: name, NotchSign.WEDGE: f"nested-{name}", NotchSign.DOT: f"dotted-{name}"}[sign]


def _sign_on_the_fold(shown: Sequence[tuple[bool, bool, NotchSign]]) -> NotchSign:
    """As double notches on the fold are drawn; where some are lines, a line."""
    signs = {sign for double, on_the_fold, sign in shown if double and on_the_fold}
    return NotchSign.LINE if NotchSign.LINE in signs or NotchSign.WEDGE not in signs else NotchSign.WEDGE


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
    return [Stroke(edge, Style.FOLD), *fold_bracket(edge.start, edge.end)]


def _level(start: Point, end: Point) -> Path:
    return Path((Line(start, end),))


def _notch(double: bool) -> list[Stroke]:
    edge = _level(Point(1.0, HEIGHT - 2.5), Point(WIDTH - 1.0, HEIGHT - 2.5))
    return [
        Stroke(edge, Style.CUT),
        *notch_strokes(Point(WIDTH / 2, HEIGHT - 2.5), Point(WIDTH / 2, HEIGHT - 7.5), double),
    ]


def _nested_notch(sign: NotchSign, double: bool) -> list[Stroke]:
    """The notch of each of two sizes on its own line."""
    drawn: list[Stroke] = []
    for style, high in zip(SIZE_STYLES, (HEIGHT - 7.0, HEIGHT - 2.5), strict=False):
        drawn.append(Stroke(_level(Point(1.0, high), Point(WIDTH - 1.0, high)), style))
        drawn += NOTCH_SIGNS[sign](Point(WIDTH / 2, high), Point(WIDTH / 2, high - 2.5), double)
    return drawn


def _notch_on_the_fold(double: bool, sign: NotchSign) -> list[Stroke]:
    """At the corner of a level edge and the fold, upright at its left."""
    corner = Point(WIDTH / 2, HEIGHT - 2.5)
    edge, fold = _level(corner, Point(WIDTH - 1.0, corner.y)), Path((Line(corner, Point(corner.x, 1.0)),))
    snip = NOTCH_SIGNS[sign](corner, Point(corner.x, HEIGHT - 7.5), double, Point(1.0, 0.0))
    return [Stroke(edge, Style.CUT), Stroke(fold, Style.FOLD), *snip]


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
    letters = [stroke for aside in (-LETTER_ASIDE, LETTER_ASIDE) for stroke in _letter_a(MIDDLE + Point(aside, 0.0))]
    return [Stroke(edge, Style.FRAME), *halves, *letters]


def _letter_a(middle: Point) -> list[Stroke]:
    """A capital in lines, as high as those of the joining marks."""
    top, half = middle + Point(0.0, LETTER_HIGH / 2), LETTER_HIGH * 0.42
    feet = [middle + Point(side * half, -LETTER_HIGH / 2) for side in (-1.0, 1.0)]
    bar = [top + (foot - top) * 0.68 for foot in feet]
    return [Stroke(_level(one, other), Style.JOINING) for one, other in ((feet[0], top), (top, feet[1]), tuple(bar))]


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
