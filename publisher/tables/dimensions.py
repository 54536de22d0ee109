"""A drawn piece told in numbers, so that it can be drawn on paper with ruler and compasses."""

from collections.abc import Iterator
from dataclasses import replace
from string import ascii_uppercase

from publisher.drafting import STRETCHES, LineMark, Mark, Notch, PathMark, Piece, Pleat
from publisher.frozen import dataclass
from publisher.geometry import Cubic, Movement, Point, Segment

SHORTEST = 1e-3  # mm: a stretch shorter than this has no ends to tell apart


@dataclass(frozen=True, slots=True)
class Corner:
    """Where two stretches of the finished line meet: lettered, mm right of and above the box's lower left corner."""

    letter: str
    at: Point
    outward: Point  # the unit direction away from the piece, halfway between both stretches


@dataclass(frozen=True, slots=True)
class Side:
    """A stretch of the finished line from corner to corner, mm from the box's lower left corner."""

    start: str
    end: str
    edge: str
    segment: Segment
    allowance: float


@dataclass(frozen=True, slots=True)
class MarkSpot:
    """Where a mark lies, mm from the box's lower left corner; a line has its other end too."""

    kind: str  # notch, point, line, pleat-outer … as the words of the drafting page call it
    name: str
    copies: tuple[str, ...]
    at: Point
    end: Point | None = None


@dataclass(frozen=True, slots=True)
class Dimensions:
    """All that a piece is drawn by; its box is the smallest upright rectangle round the finished line."""

    width: float
    height: float
    lower_left: Point  # of the box, in the piece's own coordinates
    corners: tuple[Corner, ...]
    sides: tuple[Side, ...]
    spots: tuple[MarkSpot, ...]


def dimensions(piece: Piece) -> Dimensions:
    """The dimensions of a drawn piece, corners lettered counter-clockwise from the one nearest the lower left."""
    box = piece.finished_line.box
    shift = Movement(0, Point(-box.left, -box.bottom))
    sides = [
        Side("", "", edge.name, segment.moved(shift), edge.allowance)
        for edge in piece.edges
        for segment in edge.path.segments
        if segment.length > SHORTEST
    ]
    first = min(range(len(sides)), key=lambda at: round(sides[at].segment.start.x + sides[at].segment.start.y, 3))
    sides = [*sides[first:], *sides[:first]]
    letters = [_letter(at) for at in range(len(sides))]
    corners = tuple(
        Corner(letters[at], side.segment.start, _outward(sides[at - 1].segment, side.segment))
        for at, side in enumerate(sides)
    )
    named = tuple(
        replace(side, start=letters[at], end=letters[(at + 1) % len(letters)]) for at, side in enumerate(sides)
    )
    spots = tuple(spot for mark in piece.marks for spot in _spots(mark, shift))
    return Dimensions(box.width, box.height, Point(box.left, box.bottom), corners, named, spots)


def points_along(curve: Cubic) -> tuple[Point, ...]:
    """Seven points between the ends of a curve that neither ruler nor compasses draw."""
    return tuple(curve.point_at(curve.length * eighth / 8) for eighth in range(1, 8))


def _letter(at: int) -> str:
    """A to Z, then AA, AB, …"""
    rounds, rest = divmod(at, len(ascii_uppercase))
    return (ascii_uppercase[rounds - 1] if rounds else "") + ascii_uppercase[rest]


def _outward(before: Segment, after: Segment) -> Point:
    """Halfway between the outer sides of two stretches; the piece lies to their left."""
    comes, goes = before.direction_at(before.length), after.direction_at(0.0)
    between = comes.right() + goes.right()
    return between.unit() if between.length > 1e-6 else (comes - goes).unit()


def _spots(mark: Mark, shift: Movement) -> Iterator[MarkSpot]:
    if isinstance(mark, LineMark):
        yield MarkSpot("line", mark.name, mark.copies, shift(mark.start), shift(mark.end))
    elif isinstance(mark, Pleat):
        lines = (("outer", mark.outer), ("inner", mark.inner), ("meets", mark.meets), ("stitched", mark.stitched))
        for kind, spans in lines:
            for start, end in spans:
                yield MarkSpot(f"pleat-{kind}", mark.name, mark.copies, shift(start), shift(end))
    elif isinstance(mark, PathMark) and mark.kind in STRETCHES:
        for which, spot in (("from", mark.path.start), ("to", mark.path.end)):
            yield MarkSpot(f"{mark.kind.replace(' ', '-')}-{which}", mark.name, mark.copies, shift(spot))
    elif isinstance(mark, PathMark):
        for segment in mark.path.segments:
            yield MarkSpot("line", mark.name, mark.copies, shift(segment.start), shift(segment.end))
    elif isinstance(mark, Notch):
        yield MarkSpot("double-notch" if mark.double else "notch", mark.name, mark.copies, shift(mark.at))
    else:
        yield MarkSpot("point", mark.name, mark.copies, shift(mark.at))
