"""The sizes of a nest's lines: each in gaps of its own line, near both ends of every stretch and at times between.

So the reader follows her size round corners and past the spots where lines meet. On paper: mm, y down.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from publisher.figures.label_values import Label, TextFitter, fitted
from publisher.figures.label_words import sizes_words
from publisher.figures.line_gaps import LineGap, SizedStretch, gap_for, sized_stretches
from publisher.figures.on_paper import OnPaper, flat
from publisher.frozen import dataclass
from publisher.geometry import Box, Crowd, Path, Point, stretches_within
from publisher.template_pages import Nest

SPACING = 110.0  # mm from one label of a line to the next
FROM_END = 16.0  # mm from where a line ends, turns or meets another to its first label
BOTH_ENDS = 60.0  # mm: a shorter run has one label, in its middle
LEAST = 9.0  # mm: a run of which a page shows less has none
CLEAR = 0.65  # mm from another line's middle: some 0.4 mm of white
LEADERS_APART = 8.0  # mm along lines that lie too close for labels in them
STEP = 1.5  # mm that a label moves along its line to find room
CORNER = 0.5  # sine of the angle by which a line turns at a corner


@dataclass(frozen=True, slots=True)
class SizeSpot:
    """Where a line wants its sizes told: the run of it that the page shows, and how far along that."""

    number: int  # of the stretch, as gaps count
    whole: SizedStretch
    line: Path  # all of the stretch, on paper
    run: Path  # … what the page shows of it, from corner to corner
    around: tuple[Path, ...]  # its other runs
    distance: float
    reach: float  # mm that the label may lie away from there
    layer: tuple[str, ...]  # () for what every size sees
    first: bool  # the only one of this run, or its first: it should not be missing

    @property
    def sizes(self) -> tuple[str, ...]:
        """Those that are cut along the line."""
        return self.whole.sizes

    def leader_at(self, nest: Nest) -> Point:
        """Where a leader ends: beside those of the other sizes."""
        aside = (nest.sizes.index(self.sizes[0]) - (len(nest.sizes) - 1) / 2) * LEADERS_APART
        return self.run.point_at(min(max(self.distance + aside, 1.0), self.run.length - 1.0))


def size_spots(one: OnPaper, nest: Nest) -> Iterator[SizeSpot]:
    """Every spot, line by line."""
    for number, whole in enumerate(sized_stretches(nest)):
        layer = () if whole.sizes == nest.sizes else whole.sizes
        line = flat(whole.path, one.placed)
        for stretch in stretches_within(line, one.within, 0.05):
            runs = tuple(_runs(stretch))
            for own, run in enumerate(runs):
                around = (*runs[:own], *runs[own + 1 :])
                for at, (distance, reach) in enumerate(_wanted_along(run.length)):
                    yield SizeSpot(number, whole, line, run, around, distance, reach, layer, at == 0)


def _runs(stretch: Path) -> Iterator[Path]:
    """A stretch in parts from corner to corner."""
    start = 0
    for at, (one, other) in enumerate(pairwise(stretch.segments), start=1):
        if abs(one.direction_at(one.length).cross(other.direction_at(0.0))) > CORNER:
            yield Path(stretch.segments[start:at])
            start = at
    yield Path(stretch.segments[start:])


def _wanted_along(length: float) -> Iterator[tuple[float, float]]:
    """How far along a run its labels stand, and by how much each may be moved."""
    if length < LEAST:
        return
    if length < BOTH_ENDS:
        yield length / 2, length / 2
        return
    count = max(round((length - 2 * FROM_END) / SPACING), 1)
    apart = (length - 2 * FROM_END) / count
    for at in range(count + 1):
        yield FROM_END + apart * at, min(apart / 2, FROM_END * 1.5)


def label_line(
    one: OnPaper, nest: Nest, wanted: SizeSpot, lines: Sequence[Path], taken: Sequence[Box], fit: TextFitter
) -> Label | None:
    """The label in a gap of its line, near the spot; in smaller type where lines lie close; None without room."""
    others = Crowd([*(line for line in lines if line != wanted.line), *wanted.around], ())
    steps = range(int(wanted.reach / STEP) + 1)
    moves = [sign * step * STEP for step in steps for sign in ((1.0, -1.0) if step else (1.0,))]
    for told, width, height in fitted(sizes_words(wanted.sizes, wanted.sizes == nest.sizes), fit):
        for move in moves:
            box = _on_line(wanted, wanted.distance + move, width, height)
            if box is None or not _fits(box, one.within, others, taken):
                continue
            gap = gap_for(wanted.whole.path, one.placed, box)
            if gap is not None:
                own = LineGap(wanted.number, *gap)
                return Label(told, box.left, box.bottom, width, height, one.piece.name, sizes=wanted.layer, gap=own)
    return None


def _on_line(wanted: SizeSpot, distance: float, width: float, height: float) -> Box | None:
    """The label's box upon its line, if the run goes on to both sides of it."""
    reach = (width + height) / 2 + CLEAR
    if not reach < distance < wanted.run.length - reach:
        return None
    middle = wanted.run.point_at(distance)
    return Box(middle.x - width / 2, middle.y - height / 2, middle.x + width / 2, middle.y + height / 2)


def _fits(box: Box, within: Box, lines: Crowd, taken: Sequence[Box]) -> bool:
    free = all(
        box.left - CLEAR > other.right
        or box.right + CLEAR < other.left
        or box.bottom - CLEAR > other.top
        or box.top + CLEAR < other.bottom
        for other in taken
    )
    in_frame = (
        within.left + CLEAR < box.left
        and box.right < within.right - CLEAR
        and within.bottom + CLEAR < box.bottom
        and box.top < within.top - CLEAR
    )
    return free and in_frame and lines.keeps_clear(box, CLEAR)
