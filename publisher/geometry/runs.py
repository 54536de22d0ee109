"""The parallels of an outline's stretches, joined smoothly into runs as far as they go on smoothly at one distance."""

import itertools
from collections.abc import Sequence

from publisher.frozen import dataclass
from publisher.geometry.curvature import first_direction, foot_on, last_direction
from publisher.geometry.paths import Path
from publisher.geometry.points import Point
from publisher.geometry.segments import Cubic, Line, Segment
from publisher.geometry.trimming import beginning_at, ending_at, sideways, with_end, with_start, without_specks

SMOOTH = 1e-7  # sine of the turn below which two stretches run on smoothly
SMOOTH_CURVE = 1e-4  # where one of them is a cubic, whose handles were written or drawn: 0.006°
NEAR = 1e-7


@dataclass(frozen=True, slots=True)
class Piece:
    """A segment of the parallel, and which stretch of the outline it belongs to."""

    stretch: int
    segment: Segment


@dataclass(frozen=True, slots=True)
class Run:
    """A smooth stretch of the parallel between two corners of the outline, or all of it."""

    pieces: tuple[Piece, ...]
    by: float
    first: Segment  # the outline's own, at both ends
    last: Segment

    @property
    def start(self) -> Point:
        """Where the parallel begins."""
        return self.pieces[0].segment.start

    @property
    def end(self) -> Point:
        """Where the parallel ends."""
        return self.pieces[-1].segment.end


@dataclass(frozen=True, slots=True)
class Reach:
    """How far a run goes at one of its ends: to a point straight on, or shortened to a point of one of its pieces."""

    point: Point
    piece: int | None  # None: straight on


@dataclass(frozen=True, slots=True)
class Joint:
    """How two runs are joined: the first goes to `end`, then `between`, then the second begins at `start`."""

    end: Reach
    between: tuple[Point, ...]
    start: Reach


@dataclass(frozen=True, slots=True)
class _Stretch:
    at: int
    by: float
    given: Segment
    parallel: tuple[Segment, ...]


def runs_of(edges: Sequence[tuple[Path, float]]) -> tuple[Run, ...]:
    """The runs round the outline, the first beginning at its first corner. Raises TooTight."""
    stretches: list[_Stretch] = []
    for at, (segment, by) in enumerate((segment, by) for path, by in edges for segment in path.segments):
        given = without_specks(segment)
        if given is not None:
            stretches.append(_Stretch(at, by, given, sideways(given, by)))
    corners = [at for at, stretch in enumerate(stretches) if not _goes_on(stretches[at - 1], stretch)]
    if not corners:
        return (_run(stretches, round_again=True),)
    bounds = [*corners, corners[0] + len(stretches)]
    doubled = [*stretches, *stretches]
    return tuple(_run(doubled[first:last]) for first, last in itertools.pairwise(bounds))


def _goes_on(first: _Stretch, second: _Stretch) -> bool:
    return abs(first.by - second.by) < NEAR and smooth(first.given, second.given)


def smooth(first: Segment, second: Segment) -> bool:
    """True when the second leaves in the direction in which the first arrives."""
    leaving, entering = last_direction(first), first_direction(second)
    least = SMOOTH_CURVE if isinstance(first, Cubic) or isinstance(second, Cubic) else SMOOTH
    return abs(leaving.cross(entering)) < least and leaving.dot(entering) > 0


def _run(stretches: Sequence[_Stretch], round_again: bool = False) -> Run:
    pieces: list[Piece] = []
    for stretch in stretches:
        for segment in stretch.parallel:
            if pieces:
                pieces[-1:] = _met(pieces[-1], Piece(stretch.at, segment))
            else:
                pieces.append(Piece(stretch.at, segment))
    if round_again and len(pieces) > 1:
        *met, first = _met(pieces[-1], pieces[0])
        pieces = [first, *pieces[1:-1], *met]
    return Run(tuple(pieces), stretches[0].by, stretches[0].given, stretches[-1].given)


def _met(first: Piece, second: Piece) -> list[Piece]:
    """Both with one point where they join: a cubic's end gives way, by some thousandths of a millimetre at most."""
    one, other = first.segment, second.segment
    if one.end == other.start:
        return [first, second]
    if isinstance(one, Cubic):
        return [Piece(first.stretch, with_end(one, other.start)), second]
    if isinstance(other, Cubic):
        return [first, Piece(second.stretch, with_start(other, one.end))]
    gap = Line(one.end, other.start)
    return [first, Piece(first.stretch, gap), second] if gap.length > NEAR else [first, second]


def drawn(run: Run, start: Reach, end: Reach) -> list[Piece]:
    """The run between two reaches."""
    pieces, left_out = list(run.pieces), 0
    if start.piece is not None:
        left_out = start.piece
        pieces = pieces[left_out:]
        pieces[0] = Piece(pieces[0].stretch, beginning_at(pieces[0].segment, start.point))
    elif isinstance(pieces[0].segment, Line):
        pieces[0] = Piece(pieces[0].stretch, Line(start.point, pieces[0].segment.end))
    else:
        pieces.insert(0, Piece(pieces[0].stretch, Line(start.point, run.start)))
        left_out = -1
    if end.piece is None:
        if isinstance(pieces[-1].segment, Line):
            pieces[-1] = Piece(pieces[-1].stretch, Line(pieces[-1].segment.start, end.point))
        else:
            pieces.append(Piece(pieces[-1].stretch, Line(run.end, end.point)))
        return pieces
    last = end.piece - left_out
    if last < 0 or (last == 0 and _overtaken(pieces[0].segment, run.pieces[end.piece].segment, start, end)):
        # Both ends were shortened past each other: the parallel runs backwards there, and crosses its neighbours.
        return [Piece(pieces[0].stretch, Line(start.point, end.point))]
    pieces = pieces[: last + 1]
    pieces[-1] = Piece(pieces[-1].stretch, ending_at(pieces[-1].segment, end.point))
    return pieces


def _overtaken(kept: Segment, whole: Segment, start: Reach, end: Reach) -> bool:
    """True when a cubic already shortened at its start does not reach back to where it should end."""
    if not isinstance(kept, Cubic) or not isinstance(whole, Cubic) or end.point == kept.end:
        return False
    return foot_on(whole, end.point)[0] <= foot_on(whole, start.point)[0]
