"""Gaps in the lines of a nest, in which their sizes stand: where one lies, and what is left of the line. mm."""

from collections.abc import Iterable

from publisher.drafting import Piece
from publisher.figures.pieces import off_the_fold
from publisher.frozen import dataclass
from publisher.geometry import Box, Path, nearest
from publisher.template_pages import Nest, PlacedPiece

STEP = 0.1  # that the ends of a gap are sought by
AROUND = 0.7  # of white between a label and the ends of its own line


@dataclass(frozen=True, slots=True)
class LineGap:
    """What is left out of a stretch of a nest's lines, by the stretch's number: from `start` to `end` along it."""

    stretch: int
    start: float
    end: float


@dataclass(frozen=True, slots=True)
class SizedStretch:
    """A stretch of the cut lines that is drawn, and the sizes that are cut along it."""

    path: Path
    sizes: tuple[str, ...]


def sized_stretches(nest: Nest) -> tuple[SizedStretch, ...]:
    """The cut lines without what of them lies along the fold; gaps count in this order."""
    fold = fold_of(nest.inner)
    return tuple(SizedStretch(path, line.sizes) for line in nest.lines for path in off_the_fold(line.path, fold))


def fold_of(piece: Piece) -> Path | None:
    """The edge that lies on the fold."""
    return None if piece.fold_edge is None else piece.edge(piece.fold_edge).path


def gap_for(path: Path, placed: PlacedPiece, label: Box) -> tuple[float, float] | None:
    """Where a label on a line interrupts it; None where the gap would reach an end."""
    middle = placed.of_piece(label.middle)
    at = nearest(path, middle)[0]
    room = Box(label.left - AROUND, label.bottom - AROUND, label.right + AROUND, label.top + AROUND)
    ends: list[float] = []
    for way in (-STEP, STEP):
        end = at
        while room.holds(placed.on_paper(path.point_at(end))):
            end += way
            if not 0 < end < path.length:
                return None
        ends.append(end)
    return ends[0], ends[1]


def between_gaps(path: Path, gaps: Iterable[tuple[float, float]]) -> tuple[Path, ...]:
    """What is left of a path; of a closed one the stretch across its start is one."""
    left: list[Path] = []
    rest, passed = path, 0.0
    for start, end in sorted(gaps):
        before, after = rest.split(start - passed)
        left.append(before)
        rest, passed = after.split(end - start)[1], end
    if path.closed and left:
        return (*left[1:], Path((*rest.segments, *left[0].segments)))
    return (*left, rest)
