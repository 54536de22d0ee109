"""Live text on template pages: upright, inside its piece, clear of every line. On paper: mm, y down."""

import dataclasses
import itertools
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import field, replace
from types import MappingProxyType

from publisher.drafting import Grain, Mark, Notch, Piece, PointMark
from publisher.figures.boxed_corners import BoxedCorner
from publisher.figures.label_values import Label, TextFitter, fitted
from publisher.figures.label_words import Words, block_words, corner_words, mark_words, sizes_words, top_words
from publisher.figures.leaders import CLEAR, dot, leader_from, middle_of, nearest_of, runs_along, runs_over
from publisher.figures.on_paper import OnPaper, box_of, flat, on_paper, outline_of, seen_again, spot_of
from publisher.figures.pieces import DOT, SMALL_POINT
from publisher.figures.size_labels import SizeSpot, label_line, size_spots
from publisher.figures.symbols import REACH as POINT_REACH
from publisher.figures.values import Stroke, Style
from publisher.frozen import dataclass
from publisher.geometry import Box, Crowd, Line, Path, Point, place_box
from publisher.template_pages import JOINING_RADIUS, Nest, NestedMark, NotchSign, TemplatePage
from publisher.terms import Finding, Place, Severity

FARTHEST_SIZE = 6.0  # mm: … a mark's size
BESIDE = 7.0  # mm: no nearer place is looked for than this
FARTHEST = 25.0  # mm: a mark's label lies nearer than this
LEVEL = 0.5  # mm: what lies lower by no more is the top of a piece, too
SLIVER = (4.0, 4.0)  # mm: of a tile that shows less of its piece than this, the page's header says enough
NO_CORNERS: Mapping[str, Sequence[BoxedCorner]] = MappingProxyType({})
AROUND = (15.0, 30.0, 60.0, 120.0)  # mm: how far about free paper is looked for when the nearest will not do


@dataclass(frozen=True, slots=True)
class _Wanted:
    """A label to place: of a mark, beside it; or (no mark) of the piece, in its middle."""

    words: tuple[Words, ...]
    named: str
    place: Place
    near: Point | None = None
    reach: float = 0.0  # mm from `near` at which a leader ends
    sizes: tuple[str, ...] = ()
    farthest: float = FARTHEST
    all_or_none: str = ""  # the mark whose sizes are told beside each of its spots, or beside none
    dotted: bool = False  # a leader ends in a dot
    led: bool = False  # it always has a leader
    again: bool = False  # another page tells it, too


@dataclasses.dataclass(slots=True)
class _Page:
    """A page as it fills: the pieces on it, the lines and the boxes that a label keeps clear of."""

    shown: list[OnPaper]
    lines: list[Path]
    taken: list[Box]
    fit: TextFitter
    labels: list[Label] = field(default_factory=list)

    def add(self, label: Label) -> None:
        self.labels.append(label)
        self.taken.append(label.box)
        if label.leader is not None:
            self.lines.append(label.leader.path)


def label_page(
    page: TemplatePage,
    pieces: Sequence[Piece],
    fit: TextFitter,
    corners: Mapping[str, Sequence[BoxedCorner]] = NO_CORNERS,
) -> tuple[tuple[Label, ...], tuple[Finding, ...]]:
    """Labels for a page, `pieces` in the order of `page.placed`; findings for labels that found no room;
    `corners` that are boxed, by piece.

    Where the inside of the piece has no room, even in smaller type, a label stands on free paper with a leader.
    """
    by_place = {(placed.piece, placed.size): piece for piece, placed in zip(pieces, page.placed, strict=True)}
    shown = [on_paper(together, by_place) for together in page.together]
    lines = [line for one in shown for line in one.lines]
    taken = [box_of(page.check_block)] if page.check_block else []
    filling = _Page(shown, lines, [*taken, *(_around(mark.at) for mark in page.joining_marks)], fit)
    found: list[Finding] = []
    for one in shown:
        if one.nest is not None:
            found.extend(_label_sizes(one, one.nest, filling, page.number))
        wanted_here = list(_wanted(one, page, corners.get(one.piece.name, ())))
        for size_label in _place_together(one, [wanted for wanted in wanted_here if wanted.all_or_none], filling):
            filling.add(size_label)
        for wanted in (wanted for wanted in wanted_here if not wanted.all_or_none):
            label = None if wanted.led else _place_inside(one, wanted, filling)
            if label is None and (wanted.again or _may_go_without(wanted, page)):
                continue
            label = label or _place_outside(one, wanted, filling)
            if label is None:
                found.append(_no_room(one, page.number, wanted))
            else:
                filling.add(label)
    return tuple(filling.labels), tuple(found)


def _may_go_without(wanted: _Wanted, page: TemplatePage) -> bool:
    """True for the block of a piece on any tile but the first: its name stands at the head of the page, and a leader
    over the tile could be taken for a mark."""
    return wanted.near is None and (page.row, page.column) != (1, 1)


def _around(at: Point) -> Box:
    reach = JOINING_RADIUS + 1.0
    return Box(at.x - reach, at.y - reach, at.x + reach, at.y + reach)


def _wanted(one: OnPaper, page: TemplatePage, corners: Sequence[BoxedCorner]) -> Iterator[_Wanted]:
    """The labels of a piece: the sizes of a nest's lines, a name beside each mark on this page, the block in its middle."""
    sizes: tuple[str, ...] = ()
    if one.nest is None:
        for mark in one.piece.marks:
            yield from _wanted_of_mark(one, mark)
        for corner in corners:
            if _holds(one.within, spot := one.placed.on_paper(corner.at)):
                yield _Wanted(corner_words(corner), one.piece.name, corner.place, spot)
    else:
        sizes = one.nest.sizes
        yield from _wanted_of_nest(one, one.nest)
    yield from _wanted_top(one)
    if page.rows * page.columns == 1 or place_box(one.outline, one.lines, (), SLIVER, one.within, 0.0) is not None:
        # A leader over the edge of a piece could be taken for a notch or a line: its dot says that it means the piece.
        words = block_words(one.piece, one.placed.size, page, sizes)
        yield _Wanted(words, one.piece.name, one.piece.place, dotted=True)


def _wanted_top(one: OnPaper) -> Iterator[_Wanted]:
    """Of a piece that lies turned on its sheet, which of its edges is the top: where there is room for it."""
    line = one.piece.finished_line
    highest = [spot.x for spot in line.flattened(0.1) if spot.y > line.box.top - LEVEL]
    top = one.placed.on_paper(Point((min(highest) + max(highest)) / 2, line.box.top))
    if one.placed.movement.quarter_turns % 4 and one.piece.grain is not Grain.EITHER and _holds(one.within, top):
        yield _Wanted(top_words(), one.piece.name, one.piece.place, top, farthest=BESIDE, again=True)


def _wanted_of_mark(one: OnPaper, mark: Mark) -> Iterator[_Wanted]:
    spot = one.placed.on_paper(spot_of(mark))
    if _holds(one.within, spot):
        yield _Wanted(mark_words(mark, one.piece), mark.name, mark.place, spot, _reach(mark))
    elif (again := seen_again(one, mark)) is not None:
        yield _Wanted(mark_words(mark, one.piece), mark.name, mark.place, again, again=True)


def _wanted_of_nest(one: OnPaper, nest: Nest) -> Iterator[_Wanted]:
    """The name of each mark once, and beside a mark that is not for all sizes which it is for."""
    named: dict[tuple[str, type[Mark]], list[Point]] = {}
    for each in nest.marks:
        spot = one.placed.on_paper(spot_of(each.mark))
        if not _holds(one.within, spot):
            continue
        named.setdefault((each.mark.name, type(each.mark)), []).append(spot)
        if each.sizes != nest.sizes:
            yield _wanted_of_sizes(one, each)
    for each in nest.marks:
        spots = named.pop((each.mark.name, type(each.mark)), None)
        if spots is not None:
            middle = min(spots, key=lambda spot: sum((spot - other).length for other in spots))
            yield _Wanted(mark_words(each.mark, one.piece), each.mark.name, each.mark.place, middle, _reach(each.mark))


def _wanted_of_sizes(one: OnPaper, each: NestedMark) -> _Wanted:
    """The sizes beside a mark; of a notch that is a dot on its line, at the end of a leader."""
    mark, words = each.mark, sizes_words(each.sizes, of_all=False)
    if isinstance(mark, Notch) and each.sign is NotchSign.DOT:
        foot = one.placed.on_paper(mark.cut_end)
        return _Wanted(words, mark.name, mark.place, foot, DOT, sizes=each.sizes, led=True)
    where = (mark.name, mark.place, one.placed.on_paper(spot_of(mark)), _reach(mark) * SMALL_POINT)
    name = mark.name if isinstance(mark, Notch) else ""
    return _Wanted(words, *where, sizes=each.sizes, farthest=FARTHEST_SIZE, all_or_none=name)


def _holds(box: Box, spot: Point) -> bool:
    return box.left <= spot.x <= box.right and box.bottom <= spot.y <= box.top


def _reach(mark: Mark) -> float:
    return POINT_REACH if isinstance(mark, PointMark) else 0.0


def _label_sizes(one: OnPaper, nest: Nest, page: _Page, number: int) -> Iterator[Finding]:
    """The sizes in the lines of a nest; where the lines lie too close, a leader leads to its line."""
    left: list[SizeSpot] = []
    for wanted in size_spots(one, nest):
        label = label_line(one, nest, wanted, page.lines, page.taken, page.fit)
        if label is None:
            left.append(wanted)
        else:
            page.add(label)
    for wanted in left:
        words = sizes_words(wanted.sizes, wanted.sizes == nest.sizes)
        asked = _Wanted(words, one.piece.name, one.piece.place, wanted.leader_at(nest), sizes=wanted.layer, dotted=True)
        label = _place_outside(one, asked, page)
        if label is not None:
            page.add(label)
        elif wanted.first:
            yield _no_room(one, number, replace(asked, named=", ".join(wanted.sizes)))


def _place_inside(one: OnPaper, wanted: _Wanted, page: _Page) -> Label | None:
    for lines, width, height in fitted(wanted.words, page.fit):
        spot: Box | None = None
        for area in _areas(one, wanted):
            found = place_box(area, page.lines, page.taken, (width, height), one.within, CLEAR, wanted.near)
            if found is not None and (
                spot is None or (wanted.near and _gap(found, wanted.near) < _gap(spot, wanted.near))
            ):
                spot = found
            if spot is not None and (wanted.near is None or _gap(spot, wanted.near) <= BESIDE):
                break
        if spot is not None and (wanted.near is None or _gap(spot, wanted.near) <= wanted.farthest):
            return Label(lines, spot.left, spot.bottom, width, height, one.piece.name, sizes=wanted.sizes)
    return None


def _areas(one: OnPaper, wanted: _Wanted) -> Iterator[Path]:
    """Where a label may stand: best within the finished line, beside a mark in the allowance where that is nearer."""
    if wanted.sizes:
        yield outline_of(one.within)
        return
    yield one.outline
    if wanted.near is not None and one.nest is None:
        yield flat(one.piece.cut_line, one.placed)


def _place_together(one: OnPaper, wanted: Sequence[_Wanted], page: _Page) -> Iterator[Label]:
    """The sizes of notches, which their own lines tell too: of each name all, or none where one finds no room."""
    for _, group in itertools.groupby(wanted, key=lambda each: each.all_or_none):
        trial = replace(page, taken=list(page.taken), labels=[])
        asked = list(group)
        for each in asked:
            label = _place_inside(one, each, trial)
            if label is not None:
                trial.add(label)
        if len(trial.labels) == len(asked):
            yield from trial.labels


def _gap(box: Box, point: Point) -> float:
    return (nearest_of(box, point) - point).length


def _place_outside(one: OnPaper, wanted: _Wanted, page: _Page) -> Label | None:
    """On free paper, as near as can be, with a leader that runs over no other label and no other piece; along a line
    only where there is no other way."""
    lines = Crowd((line for other in page.shown for line in other.lines), ())
    unseen: Label | None = None
    for label, leader in _led(one, wanted, page):
        if not runs_along(leader, lines):
            return label
        unseen = unseen or label
    return unseen


def _led(one: OnPaper, wanted: _Wanted, page: _Page) -> Iterator[tuple[Label, Line]]:
    """Labels on free paper with their leaders, the largest and nearest first."""
    paper = outline_of(one.within)
    in_the_way = [*page.taken, *(other.box for other in page.shown if other is not one)]
    for lines, width, height in fitted(wanted.words, page.fit):
        for near in _spots_round(wanted.near or middle_of(one.box)):
            spot = place_box(paper, page.lines, page.taken, (width, height), one.within, CLEAR, near)
            leader = leader_from(spot, one, wanted.near, wanted.reach) if spot is not None else None
            if spot is None or leader is None or any(runs_over(leader, box) for box in in_the_way):
                continue
            stroke = Stroke(Path((leader,)), Style.LEADER)
            end = dot(leader) if wanted.dotted else None
            name, sizes = one.piece.name, wanted.sizes
            yield Label(lines, spot.left, spot.bottom, width, height, name, stroke, end, sizes), leader


def _spots_round(at: Point) -> Iterator[Point]:
    yield at
    for away in AROUND:
        for x, y in itertools.product((0.0, away, -away), repeat=2):
            if x or y:
                yield Point(at.x + x, at.y + y)


def _no_room(one: OnPaper, number: int, wanted: _Wanted) -> Finding:
    return Finding(
        "label-finds-no-room",
        Severity.WARNING,
        wanted.place,
        f"on template page {number}, the label '{wanted.named}' of '{one.piece.name}' finds no room clear of the lines",
        "shorten the names of its marks and copies, or move marks apart",
    )
