"""Lines of quilting: how they lie on a copy, and which copies they go through. The draft's mm."""

from collections.abc import Iterator, Set

from publisher.drafting import Draft
from publisher.figures.steps.lines import line
from publisher.geometry import Box, Path, Point, line_within

EDGE = 1.0  # mm that the outermost line lies within the edge, at least


def quilting_rows(box: Box, apart: float) -> list[float]:
    """Where upright lines lie, one up the middle and others so far apart to either side."""
    middle, half = (box.left + box.right) / 2, box.width / 2
    many = int(half / apart)
    return [middle + at * apart for at in range(-many, many + 1) if abs(at * apart) < half - EDGE]


def quilting_on(outline: Path, apart: float) -> Iterator[Path]:
    """The lines as far as a copy goes now, as it has been trimmed since."""
    box = outline.box
    for x in quilting_rows(box, apart):
        yield from line_within(line(Point(x, box.bottom), Point(x, box.top)), outline)


def quilted_through(draft: Draft, placed: Set[str], copy: str) -> set[str]:
    """A copy and all that it has been laid on: what its quilting goes through."""
    through = {copy}
    for _ in draft.placements:
        through |= {one.below for one in draft.placements if one.placed in through and one.name in placed}
    return through
