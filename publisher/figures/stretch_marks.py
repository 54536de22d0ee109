"""Stretches of an edge drawn beside it: gathers, a zip, clips, a gap left open; told apart by their lines alone. mm."""

import itertools
from collections.abc import Iterator, Sequence

from publisher.drafting import PathMark
from publisher.figures.values import Stroke, Style
from publisher.geometry import Line, Path, Point

INSIDE = 4.0  # mm from the stitching line
BAR = 2.0  # that the bars at both ends reach on
WAVE, TOOTH = 1.1, 1.2  # half the height of gathers, of the teeth of a zip
WAVE_STEP, TOOTH_STEP, CLIP_STEP = 2.2, 3.0, 8.0
CLIP_CLEAR = 1.5  # that a clip ends short of the stitches
HEAD = 2.6  # of the arrows at both ends of a gap

Beside = tuple[Point, Point]  # a spot of the stitching line, and the way into the piece


def stretch_strokes(mark: PathMark) -> list[Stroke]:
    """The lines of a stretch; of a placed outline its line."""
    if mark.kind == "placed outline":
        return [Stroke(mark.path, Style.PLACEMENT, closed=mark.path.closed)]
    bars = [_bar(_beside(mark.path, along)) for along in (0.0, mark.path.length)]
    if mark.kind == "clips":
        return list(_clips(mark))
    if mark.kind == "gathers":
        return [*bars, _polyline(list(_waves(mark.path)))]
    if mark.kind == "zip":
        return [*bars, _polyline(_inside(mark.path, 1.0)), *_teeth(mark.path)]
    return [*bars, _polyline(_inside(mark.path, 1.0)), *_heads(mark.path)]


def _beside(path: Path, along: float) -> Beside:
    return path.point_at(along), path.direction_at(along).left()


def _steps(path: Path, step: float) -> Iterator[float]:
    count = max(round(path.length / step), 1)
    yield from (path.length * at / count for at in range(count + 1))


def _inside(path: Path, step: float) -> list[Point]:
    return [spot + way * INSIDE for spot, way in (_beside(path, along) for along in _steps(path, step))]


def _waves(path: Path) -> Iterator[Point]:
    for at, along in enumerate(_steps(path, WAVE_STEP)):
        spot, way = _beside(path, along)
        yield spot + way * (INSIDE + (WAVE if at % 2 else -WAVE))


def _teeth(path: Path) -> Iterator[Stroke]:
    for along in _steps(path, TOOTH_STEP):
        spot, way = _beside(path, along)
        yield _line(spot + way * (INSIDE - TOOTH), spot + way * (INSIDE + TOOTH))


def _clips(mark: PathMark) -> Iterator[Stroke]:
    """Short lines across the allowance, from the cut edge to just before the stitches."""
    clear = min(CLIP_CLEAR, mark.allowance / 3)
    for along in _steps(mark.path, CLIP_STEP):
        spot, way = _beside(mark.path, along)
        yield _line(spot - way * mark.allowance, spot - way * clear)


def _heads(path: Path) -> Iterator[Stroke]:
    for along, turn in ((0.0, 1.0), (path.length, -1.0)):
        spot, way = _beside(path, along)
        tip, back = spot + way * INSIDE, path.direction_at(along) * (turn * HEAD)
        for aside in (way * (HEAD / 2), way * (-HEAD / 2)):
            yield _line(tip, tip + back + aside)


def _bar(beside: Beside) -> Stroke:
    spot, way = beside
    return _line(spot, spot + way * (INSIDE + BAR))


def _line(start: Point, end: Point) -> Stroke:
    return Stroke(Path((Line(start, end),)), Style.STRETCH)


def _polyline(spots: Sequence[Point]) -> Stroke:
    return Stroke(Path(tuple(Line(one, other) for one, other in itertools.pairwise(spots))), Style.STRETCH)
