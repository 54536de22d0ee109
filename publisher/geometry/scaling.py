"""A path made smaller or larger about the origin."""

from publisher.geometry.paths import Path
from publisher.geometry.segments import Arc, Cubic, Line, Segment


def scaled(path: Path, factor: float) -> Path:
    """The path with every length times `factor`, which is more than nought."""
    return Path(tuple(_scaled(segment, factor) for segment in path.segments))


def _scaled(segment: Segment, factor: float) -> Segment:
    start, end = segment.start * factor, segment.end * factor
    if isinstance(segment, Line):
        return Line(start, end)
    if isinstance(segment, Arc):
        return Arc(start, end, segment.centre * factor, segment.sweep)
    return Cubic(start, segment.first_handle * factor, segment.second_handle * factor, end)
