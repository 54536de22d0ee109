"""Cutting layouts drawn small: the cloth with its selvages and fold, each piece where it lies, its number, dimensions.

On paper the cloth is turned by a quarter: its length runs from left to right, so the grain does too, its left edge lies
above. Of cloth folded double the half right of the fold is drawn, the fold above. mm on paper, y up.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from publisher.cloth import ClothLayout, Laid
from publisher.drafting import Draft
from publisher.figures.steps.lettering import LINE, POINTS
from publisher.figures.steps.lines import arrow_shapes, box_path, chain, line
from publisher.figures.steps.measuring import measured
from publisher.figures.steps.values import (
    Arrow,
    Dimension,
    Drawing,
    DrawnShape,
    DrawnText,
    Lettering,
    Look,
    Texture,
)
from publisher.figures.thumbnails import SEEN
from publisher.geometry import Box, Movement, Path, Point, inside, line_within, place_box, stretches_within
from publisher.terms import Phrase

WIDTH, HEIGHT = 168.0, 188.0  # of a page of text, below a heading and a few words
SCALES = (10, 12, 15, 20, 25, 30)
ON_MORE_PAGES = (25, 30, 40, 50, 75, 100)
MOST_PAGES = 6
TALLEST = 80.0  # of one cloth
BELOW, BESIDE, ABOVE = 4.0, 20.0, 2.0  # what dimensions take; words above a fold take a line more
CAPTION = 24.0  # what the words of one layout take, below it
LEAST = 48.0  # the width of those words
BETWEEN = 8.0  # layouts side by side
SHEET_GAP = 4.0  # between precuts
CLEAR = 0.4  # between a number and a line
CLEAR_BESIDE = 0.6  # … of a piece that it lies beside
SMALL = 8.0  # points, of a number where 10 find no room
APART = 1.0  # between two numbers beside the cloth
REACH = 3.0  # from the cloth to a number beside it
NEAR = 16.0  # a leader on the cloth is no longer
GAP = 0.3  # between a number and its leader
SEEN_INSIDE = 1.4  # how far a leader runs into its piece
TOGETHER = 8.0  # pieces of one number nearer than this share it


@dataclass(frozen=True, slots=True)
class LayoutWords:
    """What stands at a layout: how long, how wide, and the word at its fold."""

    long: Phrase
    wide: Phrase
    fold: Phrase


def layout_scale(layouts: Sequence[ClothLayout]) -> int:
    """The scale that all layouts share, 1 : n: the largest at which they fill no more than a page.

    Where that would be too small to read, they take more pages.
    """
    for scale, pages in (*((one, 1) for one in SCALES), *((one, MOST_PAGES) for one in ON_MORE_PAGES)):
        sizes = [_room(layout, scale) for layout in layouts]
        fits = all(width <= WIDTH and height <= TALLEST + BELOW + ABOVE + 2 * LINE for width, height in sizes)
        if fits and _stacked(sizes) <= pages * HEIGHT:
            return scale
    return ON_MORE_PAGES[-1]


def in_rows(widths: Sequence[float]) -> tuple[tuple[int, ...], ...]:
    """Which drawings, by their widths, stand side by side: their places in the sequence."""
    rows: list[list[int]] = []
    taken = WIDTH
    for at, width in enumerate(widths):
        wide = max(width, LEAST)
        if taken + BETWEEN + wide > WIDTH:
            rows.append([])
            taken = -BETWEEN
        taken += BETWEEN + wide
        rows[-1].append(at)
    return tuple(tuple(row) for row in rows)


def _room(layout: ClothLayout, scale: int) -> tuple[float, float]:
    """Width and height of a drawing on paper, captions not counted."""
    long, wide = _cloth(layout)
    sheets = max(layout.precut_count, 1)
    width = sheets * long / scale + (sheets - 1) * SHEET_GAP + BESIDE
    return max(width, LEAST), wide / scale + BELOW + ABOVE + 2 * LINE


def _stacked(sizes: Sequence[tuple[float, float]]) -> float:
    """The height that drawings take, in rows as wide as the page, with their captions."""
    height, taken, tallest = 0.0, 0.0, 0.0
    for wide, high in sizes:
        if taken and taken + wide > WIDTH:
            height, taken, tallest = height + tallest, 0.0, 0.0
        taken, tallest = taken + wide + BETWEEN, max(tallest, high + CAPTION)
    return height + tallest


def _cloth(layout: ClothLayout) -> tuple[float, float]:
    """Length and width of one cloth, or one precut, as it is drawn, mm: folded cloth is half as wide."""
    long = layout.precut_length if layout.precut else layout.buy_length
    return long, layout.width / 2 if layout.folded else layout.width


@dataclass(frozen=True, slots=True)
class _Sheet:
    """One cloth on paper: where it lies, how spots come there, and what of it is drawn (mm on the cloth)."""

    box: Box
    place: Callable[[Point], Point]
    shown: Box
    scale: float


def layout_drawing(layout: ClothLayout, draft: Draft, words: LayoutWords, letters: Lettering, scale: int) -> Drawing:
    """The drawing of one layout at 1 : `scale`."""
    sheets = list(_sheets(layout, scale))
    shapes: list[DrawnShape] = []
    texts: list[DrawnText] = []
    for at, sheet in enumerate(sheets):
        laid = [one for one in layout.laid if one.sheet in (0, at + 1)]
        shapes += _edges(layout, sheet)
        for more, numbers in _pieces(layout, draft, laid, sheet, letters):
            shapes += more
            texts += numbers
    first, last = sheets[0], sheets[-1]
    low = min((text.box.bottom for text in texts if text.box.bottom < 0), default=0.0)
    for dimension in (
        Dimension(Point(first.box.left, 0.0), Point(first.box.right, 0.0), words.long, low - BELOW),
        Dimension(Point(last.box.right, 0.0), Point(last.box.right, last.box.top), words.wide, -3.0),
    ):
        more, said = _dimension(dimension, letters)
        shapes += more
        texts += said
    if layout.folded:
        texts.append(_text(letters.say(words.fold), Point(last.box.right + 1.0, last.box.top + 0.4), letters))
    return _framed(shapes, texts, scale)


def _sheets(layout: ClothLayout, scale: int) -> Iterator[_Sheet]:
    long, wide = (side / scale for side in _cloth(layout))
    usable = layout.usable_width
    edge = 0.0 if layout.precut else (layout.width - layout.usable_width) / 2  # one selvage
    for at in range(max(layout.precut_count, 1)):
        left = at * (long + SHEET_GAP)

        def place(spot: Point, left: float = left) -> Point:
            return Point(left + spot.y / scale, (usable - spot.x + edge) / scale)

        shown = Box(usable / 2 if layout.folded else 0.0, 0.0, usable, long * scale)
        yield _Sheet(Box(left, 0.0, left + long, wide), place, shown, 1 / scale)


def _edges(layout: ClothLayout, sheet: _Sheet) -> list[DrawnShape]:
    """The cloth: cut ends thin, selvages heavy, the fold dash and dot."""
    box = sheet.box
    outline = box_path(box.left, box.bottom, box.right, box.top)
    shapes = [DrawnShape(outline, Look.THIN, None, True)]
    low = line(Point(box.left, box.bottom), Point(box.right, box.bottom))
    high = line(Point(box.left, box.top), Point(box.right, box.top))
    if layout.usable_width < layout.width:
        shapes.append(DrawnShape(low, Look.FOLDED, None, False))
        if not layout.folded:
            shapes.append(DrawnShape(high, Look.FOLDED, None, False))
    if layout.folded:
        shapes.append(DrawnShape(high, Look.FOLD, None, False))
    return shapes


@dataclass(frozen=True, slots=True)
class _Shown:
    """What shows of one cut on paper."""

    laid: Laid
    number: str
    one_way: bool
    stretches: tuple[Path, ...]
    area: Path  # closed

    @property
    def middle(self) -> Point:
        """The spot inside it that is nearest to the middle of its box."""
        middle = _middle(self.area.box)
        if inside(self.area, middle):
            return middle
        spot = place_box(self.area, (self.area,), (), (0.2, 0.2), self.area.box, 0.0, middle)
        return _middle(spot) if spot is not None else middle

    def leader_from(self, begin: Point) -> Path:
        """A straight way from a number into the piece, no further than can be seen."""
        whole = line(begin, self.middle)
        within = [stretch for stretch in line_within(whole, self.area) if stretch.length > 0]
        entered = min(((stretch.start - begin).length for stretch in within), default=whole.length)
        return line(begin, whole.point_at(min(entered + SEEN_INSIDE, whole.length)))


def _pieces(
    layout: ClothLayout, draft: Draft, laid: Sequence[Laid], sheet: _Sheet, letters: Lettering
) -> Iterator[tuple[list[DrawnShape], list[DrawnText]]]:
    """Each cut that shows on this sheet with its number; where that finds no room inside, it stands near by."""
    pieces = {copy.name: piece for piece in draft.pieces for copy in piece.copies}
    drawn = [
        _Shown(one, str(pieces[one.copy].number), pieces[one.copy].one_way, stretches, _area(stretches))
        for one in laid
        if (stretches := _shown(one, sheet))
    ]
    lines = [path for one in drawn for path in one.stretches]
    outside: list[_Shown] = []
    taken: list[Box] = []
    for one in drawn:
        hatched = one.laid.turned_over and not layout.folded
        shapes = [
            DrawnShape(path, Look.RAW, Texture.WRONG if hatched and path.closed else None, path.closed)
            for path in one.stretches
        ]
        label = _inside(one.number, one.area, lines, sheet.box, letters)
        if label is None:
            outside.append(one)
            yield shapes, []
            continue
        if hatched:
            shapes.append(_backed(label.box))
        if one.one_way:
            shapes += _way_up(one, lines, label.box, sheet.box)
        taken.append(label.box)
        yield shapes, [label]
    left: list[_Shown] = []
    for number, together in _neighbours(outside):
        near = _near(number, together, drawn, lines, taken, sheet.box, letters)
        if near is None:
            left += together
        else:
            taken.append(near[1][0].box)
            lines += [shape.path for shape in near[0]]
            yield near
    yield _beside(left, sheet.box, letters)


def _shown(one: Laid, sheet: _Sheet) -> tuple[Path, ...]:
    """What shows of a cut, on paper: all of it, or its half on this side of the fold."""
    return tuple(
        chain([sheet.place(part.start) for part in stretch.segments] + [sheet.place(stretch.end)])
        for stretch in stretches_within(one.outline, sheet.shown, SEEN / sheet.scale)
        if stretch.box.right > sheet.shown.left + 0.05  # else it lies beyond the fold and touches it
    )


def _area(stretches: Sequence[Path]) -> Path:
    """A closed path round what shows of a cut."""
    spots = [part.start for path in stretches for part in path.segments] + [stretches[-1].end]
    return chain(spots, closed=True)


def _inside(number: str, area: Path, lines: Sequence[Path], within: Box, letters: Lettering) -> DrawnText | None:
    for points in (POINTS, SMALL):
        size = letters.width(number, points, True), LINE * points / POINTS
        spot = place_box(area, lines, (), size, within, CLEAR, _middle(area.box))
        if spot is not None:
            return DrawnText(number, spot, points, True)
    return None


def _backed(box: Box) -> DrawnShape:
    """White below a number, so that no hatching runs through it."""
    return DrawnShape(box_path(box.left - 0.6, box.bottom, box.right + 0.6, box.top), None, Texture.PLAIN, True)


def _way_up(one: _Shown, lines: Sequence[Path], number: Box, within: Box) -> list[DrawnShape]:
    """An arrow to the top of a piece that may lie one way only, where there is room beside its number."""
    size = 9.0
    while size > 4.0:
        spot = place_box(one.area, lines, [number], (size, 2.4), within, CLEAR, one.middle)
        if spot is not None:
            half = Point(size / 2, 0.0)
            foot, tip = _middle(spot) - half, _middle(spot) + half
            if one.laid.turn % 360:
                foot, tip = tip, foot
            return list(arrow_shapes(Arrow(foot, tip), Look.THIN, 0.7))
        size -= 1.5
    return []


def _near(
    number: str,
    together: Sequence[_Shown],
    drawn: Sequence[_Shown],
    lines: Sequence[Path],
    taken: Sequence[Box],
    cloth: Box,
    letters: Lettering,
) -> tuple[list[DrawnShape], list[DrawnText]] | None:
    """A number on free cloth close to its pieces, with a leader to each; None where there is none."""
    size = letters.width(number, SMALL, True), LINE * SMALL / POINTS
    middle = _middle_of([one.middle for one in together])
    outline = box_path(cloth.left, cloth.bottom, cloth.right, cloth.top)
    spot = place_box(outline, lines, taken, size, cloth, CLEAR_BESIDE, middle)
    if spot is None or any(inside(one.area, _middle(spot)) for one in drawn):
        return None
    label = DrawnText(number, spot, SMALL, True)
    leaders = [one.leader_from(_edge_towards(label.box, one.middle)) for one in together]
    if any(
        leader.length > NEAR or _crosses_others(leader, one, drawn)
        for leader, one in zip(leaders, together, strict=True)
    ):
        return None
    return [DrawnShape(leader, Look.THIN, None, False) for leader in leaders], [label]


def _crosses_others(leader: Path, own: _Shown, drawn: Sequence[_Shown]) -> bool:
    spots = [leader.point_at(leader.length * part / 20) for part in range(21)]
    return any(inside(one.area, spot) for one in drawn if one is not own for spot in spots)


def _edge_towards(box: Box, spot: Point) -> Point:
    """The spot just outside a number's box that is nearest to what it names."""
    edge = Point(min(max(spot.x, box.left), box.right), min(max(spot.y, box.bottom), box.top))
    way = spot - edge
    return edge + way * (min(GAP, way.length) / way.length) if way.length else edge


def _middle_of(spots: Sequence[Point]) -> Point:
    return Point(sum(spot.x for spot in spots) / len(spots), sum(spot.y for spot in spots) / len(spots))


def _beside(shown: Sequence[_Shown], cloth: Box, letters: Lettering) -> tuple[list[DrawnShape], list[DrawnText]]:
    """Numbers above or below the cloth, whichever is nearer, with leaders to their pieces, none over another."""
    shapes: list[DrawnShape] = []
    texts: list[DrawnText] = []
    right = {True: cloth.left - APART, False: cloth.left - APART}
    high = LINE * SMALL / POINTS
    for number, together in _neighbours(shown):
        middle = _middle_of([one.middle for one in together])
        above = middle.y >= (cloth.bottom + cloth.top) / 2
        wide = letters.width(number, SMALL, True)
        left = max(middle.x - wide / 2, right[above] + APART)
        right[above] = left + wide
        foot = cloth.top + REACH if above else cloth.bottom - REACH - high
        texts.append(DrawnText(number, Box(left, foot, left + wide, foot + high), SMALL, True))
        begin = Point(left + wide / 2, foot - GAP if above else foot + high + GAP)
        shapes += [DrawnShape(one.leader_from(begin), Look.THIN, None, False) for one in together]
    return shapes, texts


def _neighbours(shown: Sequence[_Shown]) -> Iterator[tuple[str, list[_Shown]]]:
    """Like numbers that lie close together share one."""
    left = sorted(shown, key=lambda one: (one.number, one.middle.x, one.middle.y))
    while left:
        together = [left.pop(0)]
        for one in list(left):
            close = any((one.middle - other.middle).length < TOGETHER for other in together)
            if one.number == together[0].number and close:
                together.append(one)
                left.remove(one)
        yield together[0].number, together


def _dimension(dimension: Dimension, letters: Lettering) -> tuple[list[DrawnShape], list[DrawnText]]:
    """A dimension of the cloth; words that find no room in its line stand behind it."""
    level = abs(dimension.start.y - dimension.end.y) < 0.01
    set_ = measured(dimension, lambda spot: spot, letters, BESIDE, inline=level)
    texts = list(set_.texts)
    if set_.named is not None:
        says = letters.say(dimension.says)
        at = set_.named.at
        wide = letters.width(says, POINTS, False)
        corner = Point(at.x - wide / 2, at.y - LINE - 1.6) if level else Point(at.x + 1.0, at.y - LINE / 2)
        texts.append(_text(says, corner, letters))
    return list(set_.shapes), texts


def _text(text: str, corner: Point, letters: Lettering) -> DrawnText:
    wide = letters.width(text, POINTS, False)
    return DrawnText(text, Box(corner.x, corner.y, corner.x + wide, corner.y + LINE), POINTS, False)


def _middle(box: Box) -> Point:
    return Point((box.left + box.right) / 2, (box.bottom + box.top) / 2)


def _framed(shapes: Sequence[DrawnShape], texts: Sequence[DrawnText], scale: int) -> Drawing:
    """All moved so that nothing lies left of or below the drawing's corner."""
    boxes = [shape.path.box for shape in shapes] + [text.box for text in texts]
    whole = boxes[0]
    for box in boxes[1:]:
        whole = whole.joined(box)
    margin = 0.4  # half the widest pen
    dx, dy = margin - whole.left, margin - whole.bottom
    return Drawing(
        whole.width + 2 * margin,
        whole.height + 2 * margin,
        tuple(DrawnShape(_shifted(shape.path, dx, dy), shape.look, shape.texture, shape.closed) for shape in shapes),
        tuple(
            DrawnText(
                text.text,
                Box(text.box.left + dx, text.box.bottom + dy, text.box.right + dx, text.box.top + dy),
                text.points,
                text.bold,
            )
            for text in texts
        ),
        (1 / scale,),
    )


def _shifted(path: Path, dx: float, dy: float) -> Path:
    return path.moved(Movement(0, Point(dx, dy)))
