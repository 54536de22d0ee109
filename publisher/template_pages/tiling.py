"""A piece too large for one page, laid over rows and columns of frames that meet edge to edge."""

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import lru_cache, reduce
from itertools import compress, product

from publisher.drafting import Piece, Pleat, mark_spots
from publisher.frozen import dataclass
from publisher.geometry import Box, Drawn, Movement, Point, all_lines, fills_boxes, grown, length_beside, union_area
from publisher.template_pages.joining import Join, drawn_lines, join_tiles
from publisher.template_pages.values import Frame, JoiningMark, Neighbour, PlacedPiece, TemplatePage

CLEAR = 2.0  # mm a line keeps from the sheet's outer edge
MOST_TILES = 60
# A tile is printed when something lies on it, judged this finely: a page with nothing on it would be waste, a page
# left out would lose the tip of a curve.
FINE = 0.01
# A line that runs along a joint so near is lost in tape and trimming; so much of it there counts as one.
NEAR_JOINT = 3.5
COUNTED = 2.0
# Where in the white to spare a piece may lie, from one side to the other; the middle comes first.
SHIFTS = (0.5, 0.375, 0.625, 0.25, 0.75, 0.125, 0.875, 0.0, 1.0)


@dataclass(frozen=True, slots=True)
class Sheet:
    """One way of laying a piece over frames; `tiles` are the (row, column) pairs, from 0, that hold something.

    Far too many are counted only, and not listed.
    """

    movement: Movement
    rows: int
    columns: int
    tiles: tuple[tuple[int, int], ...]

    @property
    def pages(self) -> int:
        """How many pages the sheet takes."""
        return len(self.tiles) or self.rows * self.columns


def best_sheet(pieces: Sequence[Piece], frame: Frame) -> Sheet:
    """The sheet of fewest pages over both ways round and a few shifts.

    Of equals that on which the least line runs beside a joint, then the fewest pleats are parted by one, then the fewest
    joining marks lie on lines; then the squarest, then the most central. Several sizes of a piece lie on one another, and
    share it.
    """
    sheets = [sheet for turns in (0, 1) for sheet in _sheets(pieces, frame, turns)]
    sheets = _least(sheets, lambda sheet: sheet.pages)
    if len(sheets) == 1:
        return sheets[0]
    lines = {turns: all_lines(drawn_lines(tuple(pieces), Movement(turns, Point(0.0, 0.0)))) for turns in (0, 1)}
    joints = _Joints(lines, {})
    sheets = _least(sheets, lambda sheet: joints.beside(sheet, frame))
    sheets = _least(sheets, lambda sheet: _parted(pieces, sheet, frame))
    equals = sorted(sheets, key=lambda sheet: (abs(sheet.rows - sheet.columns), sheet.movement.quarter_turns))
    best, fewest = equals[0], _on_lines(pieces, equals[0], frame)
    for sheet in equals[1:]:
        if fewest == 0:
            break
        if (found := _on_lines(pieces, sheet, frame)) < fewest:
            best, fewest = sheet, found
    return best


def _least(sheets: list[Sheet], loss: Callable[[Sheet], int]) -> list[Sheet]:
    """Those of which the least is lost, in their order."""
    losses = [loss(sheet) for sheet in sheets]
    return [sheet for sheet, lost in zip(sheets, losses, strict=True) if lost == min(losses)]


def _on_lines(pieces: Sequence[Piece], sheet: Sheet, frame: Frame) -> int:
    """How many joining marks lie on lines."""
    return sum(join.on_lines for join in joins_of(pieces, sheet, frame).values())


def joins_of(pieces: Sequence[Piece], sheet: Sheet, frame: Frame) -> dict[frozenset[tuple[int, int]], Join]:
    """The joins of a sheet's tiles."""
    return _joins_of(tuple(pieces), sheet, frame)


@lru_cache(maxsize=32)  # of the sheet that is chosen they are asked for again
def _joins_of(pieces: tuple[Piece, ...], sheet: Sheet, frame: Frame) -> dict[frozenset[tuple[int, int]], Join]:
    return join_tiles(pieces, sheet.movement, sheet.tiles, sheet.rows, frame)


def _sheets(pieces: Sequence[Piece], frame: Frame, turns: int) -> Iterator[Sheet]:
    turn = Movement(turns, Point(0.0, 0.0))
    turned = [piece.cut_line.moved(turn) for piece in pieces]
    box = reduce(Box.joined, (outline.box for outline in turned))
    columns = max(math.ceil((box.width + 2 * CLEAR) / frame.width), 1)
    rows = max(math.ceil((box.height + 2 * CLEAR) / frame.height), 1)
    if rows * columns > 4 * MOST_TILES:
        yield Sheet(Movement(turns, Point(-box.left, -box.bottom)), rows, columns, ())
        return
    everywhere = tuple(product(range(rows), range(columns)))
    spare_x, spare_y = columns * frame.width - box.width, rows * frame.height - box.height
    area = grown(union_area(turned, tolerance=FINE), margin=FINE)
    for part_x, part_y in sorted(product(SHIFTS, repeat=2), key=lambda parts: sum(abs(part - 0.5) for part in parts)):
        x = CLEAR + (spare_x - 2 * CLEAR) * part_x - box.left
        y = CLEAR + (spare_y - 2 * CLEAR) * part_y - box.bottom
        held = fills_boxes(area, [_tile(*tile, rows, frame, x, y) for tile in everywhere])
        yield Sheet(Movement(turns, Point(x, y)), rows, columns, tuple(compress(everywhere, held)))


@dataclass(frozen=True, slots=True)
class _Joints:
    """How much line of the pieces runs beside a joint, mm. Many sheets share a joint's place, which is measured once."""

    lines: Mapping[int, Drawn]  # by quarter turns
    known: dict[tuple[int, bool, float], float]

    def beside(self, sheet: Sheet, frame: Frame) -> int:
        """Beside all joints of a sheet, in steps that count."""
        shift = sheet.movement.shift
        upright = [(True, column * frame.width - shift.x) for column in range(1, sheet.columns)]
        level = [(False, row * frame.height - shift.y) for row in range(1, sheet.rows)]
        along = sum(self._along(sheet.movement.quarter_turns, *joint) for joint in (*upright, *level))
        return round(along / COUNTED)

    def _along(self, turns: int, upright: bool, at: float) -> float:
        asked = (turns, upright, round(at, 6))
        if asked not in self.known:
            self.known[asked] = length_beside(self.lines[turns], at, upright, NEAR_JOINT)
        return self.known[asked]


def _parted(pieces: Sequence[Piece], sheet: Sheet, frame: Frame) -> int:
    """How many pleats have folds on both sides of a joint that runs along them."""
    found = 0
    for pleat in (mark for piece in pieces for mark in piece.marks if isinstance(mark, Pleat)):
        spots = [sheet.movement(spot) for spot in mark_spots(pleat)]
        along = spots[1] - spots[0]
        upright = abs(along.x) < abs(along.y)
        places = [spot.x if upright else spot.y for spot in spots]
        joints = (
            at * (frame.width if upright else frame.height) for at in range(1, sheet.columns if upright else sheet.rows)
        )
        found += sum(min(places) < joint < max(places) for joint in joints)
    return found


def _tile(row: int, column: int, rows: int, frame: Frame, x: float, y: float) -> Box:
    """A tile's box in the coordinates of the turned piece before it was shifted by (x, y)."""
    left, top = column * frame.width - x, (rows - row) * frame.height - y
    return Box(left, top - frame.height, left + frame.width, top)


def tile_pages(
    pieces: Sequence[Piece],
    put: Callable[[Movement, Point, Frame], tuple[PlacedPiece, ...]],
    sheet: Sheet,
    frame: Frame,
    first_number: int,
    sheet_number: int,
) -> list[TemplatePage]:
    """The template pages of a sheet, row by row, with joining marks and neighbours; `put` places the pieces on each."""
    numbers = {tile: first_number + at for at, tile in enumerate(sheet.tiles)}
    joins = joins_of(pieces, sheet, frame)
    pages = []
    for (row, column), number in numbers.items():
        shift = Point(frame.left - column * frame.width, frame.top + (sheet.rows - row) * frame.height)
        beside = {side: other for side, other in _sides(row, column).items() if other in numbers}
        pages.append(
            TemplatePage(
                number=number,
                sheet=sheet_number,
                row=row + 1,
                column=column + 1,
                rows=sheet.rows,
                columns=sheet.columns,
                frame=frame,
                placed=put(sheet.movement, shift, frame),
                joining_marks=tuple(
                    mark
                    for side, other in beside.items()
                    for mark in _marks(side, joins[frozenset(((row, column), other))], shift)
                ),
                neighbours=tuple(Neighbour(side, numbers[other]) for side, other in beside.items()),
                check_block=None,
            )
        )
    return pages


def _sides(row: int, column: int) -> dict[str, tuple[int, int]]:
    return {
        "left": (row, column - 1),
        "right": (row, column + 1),
        "top": (row - 1, column),
        "bottom": (row + 1, column),
    }


def _marks(side: str, join: Join, shift: Point) -> Iterator[JoiningMark]:
    for spot in join.spots:
        at, letter = (Point(one.x + shift.x, shift.y - one.y) for one in (spot, join.letter_spot(spot, side)))
        yield JoiningMark(at, side, join.label, letter)
