"""Panels laid out on paper: each scene scaled to fit, its callouts in columns beside it, panels in rows. Every place is
decided here, in mm on paper, y up; the writer only draws."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import cache
from itertools import chain as chain_of
from itertools import pairwise

from publisher.figures.steps.columns import Named, column_width, stacked
from publisher.figures.steps.lettering import LINE, placed_words, set_words
from publisher.figures.steps.lines import arrow_shapes, chain, line, ring, runs_over, scissors
from publisher.figures.steps.measuring import Measured, measured
from publisher.figures.steps.values import (
    Callout,
    Detail,
    Drawing,
    DrawnShape,
    DrawnText,
    Lettering,
    Look,
    Panel,
    Scene,
    Shape,
)
from publisher.frozen import dataclass
from publisher.geometry import Box, Movement, Path, Point, area_within, line_within, mapped, nearest

WIDEST = 144.0  # of a figure: what a step has beside its number
GAP = 4.0  # between panels, and rows of them
STEP = 3.4  # before a panel: the sign that it follows
SIGN_BELOW = 6.0  # from the top of the panel at most
SIGN_GAP = 1.2  # before that sign
BESIDE = 4.5  # between a drawing and the words beside it
DOT = 0.45  # at the end of a leader
CIRCLES = (None, 0.0, 1.0)  # where it may stand: as high as its spot, at the drawing's foot, at its top
DETAIL = 13.0  # radius of the circle that magnifies
LEADER_GAP = 0.8
# What a drawing may fill, by how many there are: mm.
ROOM = {1: (76.0, 44.0), 2: (38.0, 36.0), 3: (38.0, 36.0), 4: (35.0, 30.0)}
WORDS = {1: 34.0, 2: 25.0, 3: 25.0, 4: 25.0}
MARGIN = 0.6
FANNED = 1.7  # times the height of a drawing: words that stand higher than that beside it
SMALLER = (1.0, 0.85, 0.7, 0.55)
TOGETHER = (0.85, 0.7)  # how much smaller panels may be, to stand side by side

Place = Callable[[Point], Point]


@dataclass(frozen=True, slots=True)
class _Laid:
    """A panel on paper, from its own lower left corner."""

    width: float
    height: float
    shapes: tuple[DrawnShape, ...]
    texts: tuple[DrawnText, ...]
    scale: float
    led: bool = False  # the sign that it follows another stands before it

    @property
    def gap(self) -> float:
        """How far it stands from a panel at its left."""
        return SIGN_GAP if self.led else GAP


def lay_out(panels: Sequence[Panel], letters: Lettering, widest: float = WIDEST) -> Drawing:
    """The drawing of a figure; panels stand side by side as far as they find room, a little smaller if need be, else in
    rows."""
    many = min(len(panels), max(ROOM))
    fills = [1 if panel.wide else many for panel in panels]
    kinds = [_action(panel.kind) for panel in panels]
    follows = [False, *(before != kind for before, kind in pairwise(kinds))]

    @cache
    def fitted(at: int, most: float) -> _Laid:
        room = widest - STEP * follows[at]
        one = _fitted(panels[at], letters, fills[at], room, [part for part in SMALLER if part <= most])
        return _led_to(one) if follows[at] else one

    rows: list[tuple[list[int], list[_Laid]]] = [([], [])]
    for at, panel in enumerate(panels):
        before, laid = rows[-1]
        whole = [*laid, fitted(at, 1.0)]
        smaller = ([fitted(one, part) for one in (*before, at)] for part in TOGETHER if before and not panel.wide)
        row = next((row for row in chain_of([whole], smaller) if _width(row) <= widest), None)
        if before and (row is None or panel.wide):
            rows.append(([at], [fitted(at, 1.0)]))
        else:
            rows[-1] = ([*before, at], row or whole)
    return _framed([laid for _, laid in rows])


def _width(row: Sequence[_Laid]) -> float:
    return sum(one.width for one in row) + sum(one.gap for one in row[1:])


def _action(kind: str) -> str:
    """What the order of panels is told by: cuttings are one action, so are pleats of several kinds, and both sides of one
    thing."""
    for part in ("cut", "pleat section", "finished"):
        if part in kind:
            return part
    return kind


def _led_to(one: _Laid) -> _Laid:
    """A panel behind the sign that another action goes before it."""
    middle = one.height - min(one.height / 2, SIGN_BELOW)
    sign = chain((Point(0.0, middle + 1.8), Point(2.0, middle), Point(0.0, middle - 1.8)), closed=True)
    move = Movement(0, Point(STEP, 0.0))
    shapes = (replace(shape, path=shape.path.moved(move)) for shape in one.shapes)
    texts = (replace(text, box=_shifted(text.box, move.shift)) for text in one.texts)
    drawn = (DrawnShape(sign, Look.SOLID, None, True), *shapes)
    return _Laid(one.width + STEP, one.height, drawn, tuple(texts), one.scale, led=True)


def _fitted(panel: Panel, letters: Lettering, room: int, widest: float, parts: Sequence[float] = SMALLER) -> _Laid:
    """A panel as large as its room allows, smaller where its words leave it less."""
    found: list[_Laid] = []
    for part in parts:
        high = (ROOM[room][0] * part, ROOM[room][1] * part)
        tried = (_lay_panel(panel, letters, high, WORDS[room], room == 1, inline) for inline in (True, False))
        found.append(next(laid for laid in tried if laid is not None))
        if found[-1].width <= widest or panel.scene.scale is not None:
            break
    return found[-1]


def _framed(rows: Sequence[Sequence[_Laid]]) -> Drawing:
    height = sum(max(one.height for one in row) for row in rows) + GAP * (len(rows) - 1)
    width = max(_width(row) for row in rows)
    shapes: list[DrawnShape] = []
    texts: list[DrawnText] = []
    top = height
    for row in rows:
        left, tall = 0.0, max(one.height for one in row)
        for at, one in enumerate(row):
            left += one.gap if at else 0.0
            move = Movement(0, Point(left, top - one.height))
            shapes += [replace(shape, path=shape.path.moved(move)) for shape in one.shapes]
            texts += [replace(text, box=_shifted(text.box, move.shift)) for text in one.texts]
            left += one.width
        top -= tall + GAP
    scales = tuple(one.scale for row in rows for one in row)
    return Drawing(width, height, tuple(shapes), tuple(texts), scales)


def _shifted(box: Box, shift: Point) -> Box:
    return Box(box.left + shift.x, box.bottom + shift.y, box.right + shift.x, box.top + shift.y)


def _lay_panel(
    panel: Panel, letters: Lettering, room: tuple[float, float], widest: float, alone: bool, inline: bool
) -> _Laid | None:
    """A panel; None where a leader would run over words that stand `inline`."""
    scene = panel.scene
    box = _box_of(scene)
    scale = scene.scale or min(room[0] / box.width, room[1] / box.height)

    def place(point: Point) -> Point:
        return Point((point.x - box.left) * scale, (point.y - box.bottom) * scale)

    shapes = [_drawn(shape, place) for shape in scene.shapes]
    shapes += [part for one in shapes if one.look is Look.CUT for part in scissors(one.path)]
    for arrow in scene.arrows:
        shapes += arrow_shapes(replace(arrow, foot=place(arrow.foot), tip=place(arrow.tip)))
    dimensions = [measured(one, place, letters, widest, inline=inline) for one in scene.dimensions]
    shapes += [shape for one in dimensions for shape in one.shapes]
    texts = [text for one in dimensions for text in one.texts]
    named = [_named(one, place, letters, widest) for one in scene.callouts]
    named += [(one.named, "") for one in dimensions if one.named is not None]
    reach = _reach(shapes, texts)
    # Beside others it has its words on its right, unless they would fan out from a drawing much lower than they are.
    fanned = sum(one.words.height for one, _ in named) > FANNED * reach.height
    middle = (reach.left + reach.right) / 2 if alone or fanned else reach.left
    left, right = _sides(named, middle)
    far: list[Named] = []
    if scene.detail is not None:
        middle = (reach.left + reach.right) / 2
        tried = (
            _beside_circle(scene, scene.detail, place, at, _sides(named, middle), reach, letters, widest)
            for at in CIRCLES
        )
        around = max(tried, key=lambda one: len(one.right))  # of several alike the first
        shapes, left, right, far = [*shapes, *around.shapes], around.left, around.right, around.far
    shown = _reach(shapes, texts)
    words, leaders = _columns(left, [*right, *far], shown, letters)
    if inline and any(runs_over(one.path, text.box) for one in leaders for text in texts):
        return None
    caption = _caption(panel, letters, shown, words)
    return _cropped([*shapes, *leaders], [*texts, *words, *caption], scale)


def _drawn(shape: Shape, place: Place) -> DrawnShape:
    return DrawnShape(mapped(shape.path, place, turned_over=False), shape.look, shape.texture, shape.closed)


def _named(one: Callout, place: Place, letters: Lettering, widest: float) -> tuple[Named, str]:
    return Named(set_words(letters, one.words, widest, one.number), place(one.at)), one.side


def _box_of(scene: Scene) -> Box:
    boxes = [shape.path.box for shape in scene.shapes]
    boxes += [Path((piece,)).box for arrow in scene.arrows for piece in line(arrow.foot, arrow.tip).segments]
    return _joined(boxes)


def _joined(boxes: Sequence[Box]) -> Box:
    whole = boxes[0]
    for one in boxes[1:]:
        whole = whole.joined(one)
    return whole


def _reach(shapes: Sequence[DrawnShape], texts: Sequence[DrawnText]) -> Box:
    return _joined([*(one.path.box for one in shapes), *(one.box for one in texts)])


def _sides(named: Sequence[tuple[Named, str]], middle: float) -> tuple[list[Named], list[Named]]:
    """Callouts left and right of the drawing: where they say, else on the side of what they name."""
    left = [one for one, side in named if side == "left" or (not side and one.at.x < middle)]
    return left, [one for one, _ in named if one not in left]


@dataclass(frozen=True, slots=True)
class _Around:
    """A circle that magnifies, and the words of its drawing: at its left, past the circle at its right, those of the
    circle."""

    shapes: list[DrawnShape]
    left: list[Named]
    right: list[Named]
    far: list[Named]


def _beside_circle(
    scene: Scene,
    detail: Detail,
    place: Place,
    level: float | None,
    sides: tuple[list[Named], list[Named]],
    reach: Box,
    letters: Lettering,
    widest: float,
) -> _Around:
    """The circle as high as its spot, or at the drawing's foot (0) or top (1); words on the side of what they name, but at
    the left where a leader from the right would run over the circle."""
    shapes, far, middle = _magnified(scene, detail, place, level, reach, letters, widest)
    edge = middle.x + DETAIL + BESIDE
    left, right = list(sides[0]), list(sides[1])
    while True:
        stood = stacked([*right, *far], edge)
        over = {id(one) for one, high in stood if nearest(line(Point(edge, high), one.at), middle)[2] < DETAIL + 1.0}
        hits = [one for one in right if id(one) in over]
        if not hits:
            return _Around(shapes, left, right, far)
        left, right = [*left, *hits[:1]], [one for one in right if one is not hits[0]]


def _columns(
    left: Sequence[Named], right: Sequence[Named], reach: Box, letters: Lettering
) -> tuple[list[DrawnText], list[DrawnShape]]:
    texts: list[DrawnText] = []
    shapes: list[DrawnShape] = []
    for named, edge, begin in (
        (left, reach.left - BESIDE, reach.left - BESIDE - column_width(left)),
        (right, reach.right + BESIDE, reach.right + BESIDE),
    ):
        for one, height in stacked(named, edge):
            # Words at the left end at the leaders.
            x = edge - one.words.width if named is left else begin
            texts += placed_words(letters, one.words, x, height)
            foot = Point(edge + LEADER_GAP if named is left else edge - LEADER_GAP, height)
            shapes.append(DrawnShape(line(foot, one.at), Look.THIN, None, False))
            shapes.append(DrawnShape(ring(one.at, DOT), Look.SOLID, None, True))
    return texts, shapes


def _magnified(
    scene: Scene, detail: Detail, place: Place, level: float | None, reach: Box, letters: Lettering, widest: float
) -> tuple[list[DrawnShape], list[Named], Point]:
    """The circle at the right of a drawing, what it shows, the words for it, and its middle."""
    factor = DETAIL / detail.radius
    spot = place(detail.at)
    small = (place(detail.at + Point(detail.radius, 0.0)) - spot).length
    low, high = reach.bottom + DETAIL, max(reach.top - DETAIL, reach.bottom + DETAIL)
    height = min(max(spot.y, low), high) if level is None else low + (high - low) * level
    middle = Point(max(reach.right, spot.x + small) + BESIDE + DETAIL, height)

    def large(point: Point) -> Point:
        return middle + (point - detail.at) * factor

    rim = ring(middle, DETAIL)
    way = (middle - spot).unit()
    shapes = [
        DrawnShape(ring(spot, small), Look.THIN, None, True),
        DrawnShape(line(spot + way * small, middle - way * DETAIL), Look.THIN, None, False),
    ]
    inside = [one for one in (detail.shapes or scene.shapes) if _near(one.path.box, detail)]
    shapes += [part for one in inside for part in _cut_off(_drawn(one, large), rim)]
    dimensions: list[Measured] = [measured(one, large, letters, widest, inline=False) for one in detail.dimensions]
    shapes += [shape for one in dimensions for shape in one.shapes]
    shapes.append(DrawnShape(rim, Look.THIN, None, True))
    named = [one.named for one in dimensions if one.named is not None]
    named += [_named(one, large, letters, widest)[0] for one in detail.callouts]
    return shapes, named, middle


def _cut_off(shape: DrawnShape, rim: Path) -> list[DrawnShape]:
    """What of a shape is seen in the circle: its area and its line, each by itself."""
    if shape.look is Look.SOLID:
        return [replace(shape, path=path) for path in area_within(shape.path, rim)]
    areas = area_within(shape.path, rim) if shape.texture is not None else ()
    lines = line_within(shape.path, rim) if shape.look is not None else ()
    return [
        *(DrawnShape(path, None, shape.texture, closed=True) for path in areas),
        *(DrawnShape(path, shape.look, None, closed=False) for path in lines),
    ]


def _near(box: Box, detail: Detail) -> bool:
    at, far = detail.at, detail.radius
    return box.left <= at.x + far and box.right >= at.x - far and box.bottom <= at.y + far and box.top >= at.y - far


def _caption(panel: Panel, letters: Lettering, reach: Box, words: Sequence[DrawnText]) -> tuple[DrawnText, ...]:
    if panel.caption is None:
        return ()
    whole = _joined([reach, *(one.box for one in words)])
    said = set_words(letters, panel.caption, max(whole.width, 30.0))
    return placed_words(letters, said, whole.left, whole.bottom - LINE * 0.6 - said.height / 2)


def _cropped(shapes: Sequence[DrawnShape], texts: Sequence[DrawnText], scale: float) -> _Laid:
    box = _reach(shapes, texts)
    move = Movement(0, Point(MARGIN - box.left, MARGIN - box.bottom))
    return _Laid(
        box.width + 2 * MARGIN,
        box.height + 2 * MARGIN,
        tuple(replace(one, path=one.path.moved(move)) for one in shapes),
        tuple(replace(one, box=_shifted(one.box, move.shift)) for one in texts),
        scale,
    )
