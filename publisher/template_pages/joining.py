"""Where tiles join: a letter for each shared edge, and spots along it for the marks. On the sheet: mm, y up."""

import itertools
import math
from collections.abc import Iterator, Sequence
from functools import lru_cache

from publisher.drafting import LineMark, Mark, Notch, PathMark, Piece, Pleat
from publisher.frozen import dataclass
from publisher.geometry import Box, Line, Movement, Point
from publisher.template_pages.values import Frame

JOINING_RADIUS = 5.0  # mm, of the ring that two halves make; a letter stands in each half
# A ring keeps this far from a piece's lines where it can, so that its letters are not crossed.
ROOM = JOINING_RADIUS + 1.0
LONG_EDGE = 150.0  # mm: a longer edge is joined at its quarter points too
STEP, STEPS = 4.0, 4  # how a mark may move along its edge, mm; where that is not enough, further
APART = 2 * ROOM  # … but no nearer to another
LETTER_DEPTH = 2.3  # mm from the edge to the middle of a half ring's letter, where no line is in its way
LETTER_HALF = 0.9  # mm: half of a capital of 7 pt, either way
LETTER_ROOM = 1.6  # mm its middle keeps from a line where it can: white is left even beside a W
# A line that runs along the edge inside a half ring leaves room before it or behind it; one across it, beside it.
LETTER_DEPTHS = tuple(1.2 + at * 0.1 for at in range(26))
LETTER_ASIDE = (0.0, 1.5, -1.5, 3.0, -3.0)
INWARDS = {"left": Point(1.0, 0.0), "right": Point(-1.0, 0.0), "top": Point(0.0, -1.0), "bottom": Point(0.0, 1.0)}

Tile = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Join:
    """One shared edge of two tiles: its letter, the middles of its rings on the sheet, and the piece's lines near it."""

    label: str
    spots: tuple[Point, ...]
    lines: tuple[Line, ...]

    @property
    def on_lines(self) -> int:
        """How many rings lie on a line of the piece, because the edge has no clear spot for them."""
        return sum(not _is_clear(spot, self.lines) for spot in self.spots)

    def letter_spot(self, ring: Point, side: str) -> Point:
        """The middle of the letter in the half of a ring that a tile shows on one side: the usual, or the nearest to it
        clear of lines; where all of the half is crossed, the clearest."""
        inwards = INWARDS[side]
        usual = ring + inwards * LETTER_DEPTH
        reach = Box(ring.x, ring.y, ring.x, ring.y)
        near = [line for line in self.lines if _comes_near(line.box, reach)]
        if _letter_clearance(usual, near) >= LETTER_ROOM:
            return usual
        spots = [
            ring + inwards * depth + inwards.left() * aside
            for depth in LETTER_DEPTHS
            for aside in LETTER_ASIDE
            if Point(depth + LETTER_HALF, abs(aside) + LETTER_HALF).length < JOINING_RADIUS - 0.3
        ]
        return max((usual, *spots), key=lambda spot: (_letter_clearance(spot, near), -(spot - usual).length))


def join_tiles(
    pieces: Sequence[Piece], movement: Movement, tiles: Sequence[Tile], rows: int, frame: Frame
) -> dict[frozenset[Tile], Join]:
    """A join for each edge that two tiles share, lettered row by row: A to Z, then AA."""
    lines = [(line, line.box) for line in drawn_lines(tuple(pieces), movement)]
    joins: dict[frozenset[Tile], Join] = {}
    for row, column in tiles:
        right, low = (column + 1) * frame.width, (rows - row - 1) * frame.height
        corner = Point(right, low)
        edges = {
            (row, column + 1): Line(corner, Point(right, low + frame.height)),
            (row + 1, column): Line(Point(right - frame.width, low), corner),
        }
        for other, edge in edges.items():
            if other in tiles:
                along = edge.box
                near = tuple(line for line, box in lines if _comes_near(box, along))
                joins[frozenset(((row, column), other))] = Join(_letters(len(joins)), _spots(edge, near), near)
    return joins


def _letters(number: int) -> str:
    return ("" if number < 26 else _letters(number // 26 - 1)) + chr(ord("A") + number % 26)


def _spots(edge: Line, lines: Sequence[Line]) -> tuple[Point, ...]:
    parts = (0.25, 0.5, 0.75) if edge.length > LONG_EDGE else (0.5,)
    wanted = [part * edge.length for part in parts]
    spots = [_clear_spot(edge, _moves(along), lines) for along in wanted]
    for at, along in enumerate(wanted):
        if spots[at] is None:
            spots[at] = _clear_spot(edge, _far_moves(edge, along, spots), lines)
    return tuple(spot or edge.point_at(along) for spot, along in zip(spots, wanted, strict=True))


def _moves(wanted: float) -> list[float]:
    return sorted((wanted + step * STEP for step in range(-STEPS, STEPS + 1)), key=lambda along: abs(along - wanted))


def _far_moves(edge: Line, wanted: float, taken: Sequence[Point | None]) -> list[float]:
    """All of the edge where its ends, and the rings that have a place, leave room; the nearest first."""
    places = (ROOM + at * STEP / 2 for at in range(int((edge.length - 2 * ROOM) / (STEP / 2)) + 1))
    rings = [(spot - edge.start).length for spot in taken if spot is not None]
    free = [along for along in places if all(abs(along - ring) >= APART for ring in rings)]
    return sorted(free, key=lambda along: abs(along - wanted))


def _clear_spot(edge: Line, places: Sequence[float], lines: Sequence[Line]) -> Point | None:
    """The first of these places along the edge where a ring is crossed by no line."""
    spots = map(edge.point_at, places)
    return next((spot for spot in spots if _is_clear(spot, lines)), None)


def _is_clear(spot: Point, lines: Sequence[Line]) -> bool:
    return all(_distance(line, spot) >= ROOM for line in lines)


def _letter_clearance(spot: Point, lines: Sequence[Line]) -> float:
    return min((LETTER_ROOM, *(_distance(line, spot) for line in lines)))


def _distance(line: Line, spot: Point) -> float:
    """How far a spot lies from a straight line between its ends; asked for every ring and every line near its edge."""
    along_x, along_y = line.end.x - line.start.x, line.end.y - line.start.y
    to_x, to_y = spot.x - line.start.x, spot.y - line.start.y
    squared = along_x * along_x + along_y * along_y
    part = min(max((to_x * along_x + to_y * along_y) / squared, 0.0), 1.0) if squared else 0.0
    return math.hypot(to_x - part * along_x, to_y - part * along_y)


def _comes_near(one: Box, other: Box) -> bool:
    return (
        one.left - ROOM < other.right
        and other.left < one.right + ROOM
        and one.bottom - ROOM < other.top
        and other.bottom < one.top + ROOM
    )


@lru_cache(maxsize=32)  # for each paper, and before and after a sheet has been chosen
def drawn_lines(pieces: tuple[Piece, ...], movement: Movement) -> list[Line]:
    """Every line of a sheet, curves flattened: near enough to keep a ring off them. A nest shows no finished lines."""
    return [line for piece in pieces for line in _lines_of(piece, movement, finished=len(pieces) == 1)]


def _lines_of(piece: Piece, movement: Movement, finished: bool) -> list[Line]:
    paths = [piece.cut_line, *(edge.path for edge in piece.edges if finished and edge.allowance > 0)]
    flat = [pair for path in paths for pair in itertools.pairwise(path.flattened(0.1))]
    flat += [pair for mark in piece.marks for pair in _mark_lines(mark)]
    if piece.grain_line is not None:
        flat.append((piece.grain_line.start, piece.grain_line.end))
    return [Line(movement(first), movement(second)) for first, second in flat if first != second]


def _mark_lines(mark: Mark) -> Iterator[tuple[Point, Point]]:
    if isinstance(mark, Notch):
        yield mark.cut_end, mark.inner_end
    elif isinstance(mark, LineMark):
        yield mark.start, mark.end
    elif isinstance(mark, PathMark):
        yield from itertools.pairwise(mark.path.flattened(0.1))
    elif isinstance(mark, Pleat):
        yield from (*mark.outer, *mark.inner, *mark.meets, *mark.stitched, *mark.arrows)
    else:
        reach = Point(JOINING_RADIUS, 0.0)
        yield mark.at - reach, mark.at + reach
        yield mark.at - reach.left(), mark.at + reach.left()
