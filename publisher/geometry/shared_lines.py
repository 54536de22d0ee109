"""Where several paths run along one another: each parted into stretches, with the others that run along each."""

from collections.abc import Iterable, Iterator, Sequence

from publisher.geometry.paths import Path, nearest
from publisher.geometry.points import Box, Point
from publisher.geometry.segments import Segment

SAME = 0.005  # mm: nearer than any line is promised to lie
SHORTEST = 1e-3  # mm: what is shorter is an end, no stretch
SAMPLES = (0.06, 0.31, 0.5, 0.69, 0.94)  # of a stretch, where it is asked what runs along it

Stretch = tuple[Path, tuple[int, ...]]


def shared_stretches(path: Path, others: Sequence[Path]) -> tuple[Stretch, ...]:
    """A closed path in as few stretches as can be, each with the numbers of the other paths that run along all of it."""
    stretches: list[tuple[list[Segment], tuple[int, ...]]] = []
    boxed = [[(segment, segment.box) for segment in other.segments] for other in others]
    ends = {end for other in others for segment in other.segments for end in (segment.start, segment.end)}
    for part in (part for segment in path.segments for part in _parted(segment, ends)):
        along = tuple(at for at, other in enumerate(boxed) if _runs_along(part, other))
        if stretches and stretches[-1][1] == along:
            stretches[-1][0].append(part)
        else:
            stretches.append(([part], along))
    if len(stretches) > 1 and stretches[0][1] == stretches[-1][1]:
        last, _ = stretches.pop()
        stretches[0] = ([*last, *stretches[0][0]], stretches[0][1])
    return tuple((Path(tuple(segments)), along) for segments, along in stretches)


def _parted(segment: Segment, ends: Iterable[Point]) -> Iterator[Segment]:
    """The segment, parted where a segment of another path ends on it."""
    box, whole = segment.box, segment.length
    spots = sorted(
        along
        for along, _, gap in (nearest(Path((segment,)), end) for end in ends if _holds(box, end))
        if gap < SAME and SHORTEST < along < whole - SHORTEST
    )
    passed = 0.0
    for spot in spots:
        if spot - passed > SHORTEST:
            before, segment = segment.split(spot - passed)
            yield before
            passed = spot
    yield segment


def _holds(box: Box, point: Point) -> bool:
    return box.left - SAME <= point.x <= box.right + SAME and box.bottom - SAME <= point.y <= box.top + SAME


def _runs_along(part: Segment, other: Sequence[tuple[Segment, Box]]) -> bool:
    """True where every sample of a stretch lies on one of the other's segments, which are asked by their boxes first."""
    whole = part.length
    for sample in SAMPLES:
        spot = part.point_at(whole * sample)
        if not any(_holds(box, spot) and nearest(Path((segment,)), spot)[2] < SAME for segment, box in other):
            return False
    return True
