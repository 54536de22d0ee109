"""The numbers of pieces on a drawn cloth: inside each, else on free cloth near by, else beside the cloth, with leaders.

mm on paper, y up.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from publisher.figures.steps.lettering import LINE, POINTS
from publisher.figures.steps.lines import arrow_shapes, box_path, line
from publisher.figures.steps.values import Arrow, DrawnShape, DrawnText, Lettering, Look
from publisher.geometry import Box, Path, Point, inside, line_within, outside_of, place_box

CLEAR = 0.55  # between a number and a line
HATCH = 2.6  # from line to line
CLEAR_BESIDE = 0.6  # … of a piece that it lies beside
SMALL = 8.0  # points, of a number where 10 find no room
APART = 1.0  # between two numbers beside the cloth
REACH = 3.0  # from the cloth to a number beside it
NEAR = 16.0  # a leader on the cloth is no longer
GAP = 0.3  # between a number and its leader
SEEN_INSIDE = 1.4  # how far a leader runs into its piece
TOGETHER = 8.0  # pieces of one number nearer than this share it

Lettered = tuple[list[DrawnShape], list[DrawnText]]


@dataclass(frozen=True)
class LaidPiece:
    """What shows of one cut on paper."""

    number: str
    way_up: int  # 1, -1: its top lies to the right, to the left, and may lie no other way; 0: either way
    hatched: bool
    stretches: tuple[Path, ...]
    area: Path  # closed
    folds: tuple[Path, ...] = ()  # of its template, where it is cut opened out
    cuts: tuple[Path, ...] = ()  # of a block for bias strips

    @cached_property
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


def placed_numbers(pieces: Sequence[LaidPiece], cloth: Box, letters: Lettering) -> Iterator[Lettered]:
    """The numbers of all pieces on one cloth, with what is drawn for them."""
    lines = [path for one in pieces for path in (*one.stretches, *one.folds)]
    outside: list[LaidPiece] = []
    taken: list[Box] = []
    boxed = [(path, path.box) for path in lines]
    for one in pieces:
        around = _around(one, boxed)
        label = _inside(one, around, cloth, letters)
        if label is None:
            outside.append(one)
            yield [*(_hatched(one, None) if one.hatched else []), *_cuts(one, None)], []
            continue
        taken.append(label.box)
        hatching = _hatched(one, label.box) if one.hatched else []
        yield [*hatching, *_cuts(one, label.box), *_way_up(one, around, label.box, cloth)], [label]
    left: list[LaidPiece] = []
    for number, together in _neighbours(outside):
        near = _near(number, together, pieces, lines, taken, cloth, letters)
        if near is None:
            left += together
            continue
        taken.append(near[1][0].box)
        lines += [shape.path for shape in near[0]]
        yield near
    yield _beside(left, cloth, letters)


def _around(one: LaidPiece, boxed: Sequence[tuple[Path, Box]]) -> list[Path]:
    """The lines that may lie in the way inside a piece: on the cloth for many there are thousands elsewhere."""
    own = one.area.box
    return [
        path
        for path, box in boxed
        if box.left <= own.right + CLEAR
        and own.left <= box.right + CLEAR
        and box.bottom <= own.top + CLEAR
        and own.bottom <= box.top + CLEAR
    ]


def _inside(one: LaidPiece, lines: Sequence[Path], within: Box, letters: Lettering) -> DrawnText | None:
    for points in (POINTS, SMALL):
        size = letters.width(one.number, points, True), LINE * points / POINTS
        spot = place_box(one.area, lines, (), size, within, CLEAR, _middle(one.area.box))
        if spot is not None:
            return DrawnText(one.number, spot, points, True)
    return None


def _hatched(one: LaidPiece, number: Box | None) -> list[DrawnShape]:
    """Slanting lines over a piece that lies turned over, none through its number."""
    box, kept = one.area.box, _kept_clear(number)
    shapes: list[DrawnShape] = []
    along = -box.height + HATCH / 2
    while along < box.width:
        foot = Point(box.left + along, box.bottom)
        for stretch in line_within(line(foot, foot + Point(box.height, box.height)), one.area):
            parts = outside_of(stretch, kept) if kept else (stretch,)
            shapes += [DrawnShape(part, Look.THIN, None, False) for part in parts]
        along += HATCH
    return shapes


def _cuts(one: LaidPiece, number: Box | None) -> list[DrawnShape]:
    """Where a block is cut into bias strips, but for its number."""
    kept = _kept_clear(number)
    parts = [part for cut in one.cuts for part in (outside_of(cut, kept) if kept else (cut,))]
    return [DrawnShape(part, Look.RAW, None, False) for part in parts]


def _kept_clear(number: Box | None) -> Path | None:
    if number is None:
        return None
    return box_path(number.left - 0.8, number.bottom - 0.4, number.right + 0.8, number.top + 0.4)


def _way_up(one: LaidPiece, lines: Sequence[Path], number: Box, within: Box) -> list[DrawnShape]:
    """An arrow to the top of a piece that may lie one way only, where there is room beside its number."""
    size = 9.0 if one.way_up else 0.0
    while size > 4.0:
        spot = place_box(one.area, lines, [number], (size, 2.4), within, CLEAR, one.middle)
        if spot is not None:
            half = Point(size / 2, 0.0)
            foot, tip = _middle(spot) - half, _middle(spot) + half
            if one.way_up < 0:
                foot, tip = tip, foot
            return list(arrow_shapes(Arrow(foot, tip), Look.THIN, 0.7))
        size -= 1.5
    return []


def _near(
    number: str,
    together: Sequence[LaidPiece],
    drawn: Sequence[LaidPiece],
    lines: Sequence[Path],
    taken: Sequence[Box],
    cloth: Box,
    letters: Lettering,
) -> Lettered | None:
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


def _crosses_others(leader: Path, own: LaidPiece, drawn: Sequence[LaidPiece]) -> bool:
    spots = [leader.point_at(leader.length * part / 20) for part in range(21)]
    return any(inside(one.area, spot) for one in drawn if one is not own for spot in spots)


def _edge_towards(box: Box, spot: Point) -> Point:
    """The spot just outside a number's box that is nearest to what it names."""
    edge = Point(min(max(spot.x, box.left), box.right), min(max(spot.y, box.bottom), box.top))
    way = spot - edge
    return edge + way * (min(GAP, way.length) / way.length) if way.length else edge


def _middle_of(spots: Sequence[Point]) -> Point:
    return Point(sum(spot.x for spot in spots) / len(spots), sum(spot.y for spot in spots) / len(spots))


def _beside(shown: Sequence[LaidPiece], cloth: Box, letters: Lettering) -> Lettered:
    """Numbers above or below the cloth, whichever is nearer, with leaders to their pieces, none over another."""
    shapes: list[DrawnShape] = []
    texts: list[DrawnText] = []
    right = {True: cloth.left - APART, False: cloth.left - APART}
    high = LINE * SMALL / POINTS
    # From left to right, so that no leader crosses another's number.
    groups = [
        (_middle_of([one.middle for one in together]), number, together) for number, together in _neighbours(shown)
    ]
    for middle, number, together in sorted(groups, key=lambda group: (group[0].x, group[1])):
        above = middle.y >= (cloth.bottom + cloth.top) / 2
        wide = letters.width(number, SMALL, True)
        left = max(middle.x - wide / 2, right[above] + APART)
        right[above] = left + wide
        foot = cloth.top + REACH if above else cloth.bottom - REACH - high
        texts.append(DrawnText(number, Box(left, foot, left + wide, foot + high), SMALL, True))
        begin = Point(left + wide / 2, foot - GAP if above else foot + high + GAP)
        shapes += [DrawnShape(one.leader_from(begin), Look.THIN, None, False) for one in together]
    return shapes, texts


def _neighbours(shown: Sequence[LaidPiece]) -> Iterator[tuple[str, list[LaidPiece]]]:
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


def _middle(box: Box) -> Point:
    return Point((box.left + box.right) / 2, (box.bottom + box.top) / 2)
