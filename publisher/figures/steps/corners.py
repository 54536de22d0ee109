"""A corner of the upper layer turned back, so that both faces show. The draft's mm."""

from collections.abc import Sequence

from publisher.figures.steps.lines import chain
from publisher.figures.steps.values import Look, Shape, Texture
from publisher.frozen import dataclass
from publisher.geometry import Path, Point, folded_along, inside, mirrored, nearest, outside_of, signed_area

TURNED = 0.36  # of the lesser side of the piece: how far a corner is turned back at most
ALONG = 0.62  # … and of the shorter edge at the corner
SHARPEST = 0.35  # sine of the least turn that counts as a corner
TRIES = 12  # creases, each nearer to the corner; then it stays flat
SHORTEST = 0.015  # of the outline: a shorter edge makes no corner
FARTHEST = 3.0  # times the depth of a corner turned back: no part of it lies further from its tip
LEAN = 0.12  # radians: so that the turned corner is told from one cut across


@dataclass(frozen=True, slots=True)
class Corner:
    """A corner and the shorter of the edges that meet there."""

    at: Point
    inwards: Point
    edge: float


@dataclass(frozen=True, slots=True)
class TurnedBack:
    """A layer with one corner turned back: what stays, the bare part of the layer below, the corner's other face."""

    kept: tuple[Path, ...]
    bare: Path
    flap: Path
    crease: tuple[Point, Point]

    def shapes(self, texture: Texture, behind: Texture, look: Look, on_top: Sequence[Shape] = ()) -> list[Shape]:
        """The layer with what it carries, and the corner with its other face up."""
        shapes = [Shape(path, look, texture, closed=True) for path in self.kept]
        return [*shapes, *on_top, Shape(self.flap, Look.FOLDED, behind, closed=True)]

    def kept_line(self, path: Path) -> tuple[Path, ...]:
        """What of a line on the layer stays where it was."""
        return outside_of(path, self.bare)

    def kept_area(self, path: Path) -> tuple[Path, ...]:
        """What of an area on the layer stays where it was."""
        start, end = self.crease
        beyond = [spot for spot in path.flattened(1.0) if (spot - start).cross(end - start) > 0 and self._holds(spot)]
        try:
            return folded_along(path, start, end, beyond[0])[0] if beyond else (path,)
        except ValueError:
            return (path,)

    def _holds(self, spot: Point) -> bool:
        return inside(self.bare, spot)

    @property
    def bare_spot(self) -> Point:
        """A spot where the layer below shows."""
        start, end = self.crease
        middle, aside = (start + end) * 0.5, (end - start).unit().right()
        far = max(self.bare.flattened(1.0), key=lambda point: (point - start).dot(aside))
        return middle + (far - middle) * 0.5


def turn_back(outline: Path, sewn: Sequence[Path]) -> TurnedBack:
    """The layer with the corner turned back that lies farthest from what is sewn; of corners alike, the upper right."""
    reach = min(outline.box.width, outline.box.height) * TURNED
    corners = _corners(outline) or [_spot(outline, part) for part in range(16)]
    best = max(corners, key=lambda one: (round(_free(one.at, sewn, reach), 2), round(one.at.x + one.at.y, 2)))
    along = best.inwards.left().turned(-LEAN)
    depth = min(reach, best.edge * ALONG) * 0.72
    for _ in range(TRIES):
        back = _turned(outline, best.at, best.at + best.inwards * depth, along)
        if back is not None and max((spot - best.at).length for spot in back.bare.flattened(1.0)) < FARTHEST * depth:
            return back
        depth *= 0.7  # a narrow ring: the crease lay beyond it, or took more of it than its corner
    speck = chain((best.at, best.at + along * 0.1, best.at - best.inwards * 0.1), closed=True)
    return TurnedBack((outline,), speck, speck, (best.at, best.at + along * 0.1))


def _turned(outline: Path, corner: Point, foot: Point, along: Point) -> TurnedBack | None:
    """The corner turned back along the line through `foot`; None where that does not cross the layer."""
    start, end = foot + along, foot - along
    try:
        kept, bare = folded_along(outline, start, end, corner)
    except ValueError:
        return None
    spots = [spot for spot in bare.flattened(0.05) if abs((spot - foot).dot(along.left())) < 0.1]
    if not spots:
        return None
    crease = (max(spots, key=lambda spot: spot.dot(along)), min(spots, key=lambda spot: spot.dot(along)))
    return TurnedBack(kept, bare, mirrored(bare, start, end - start), crease)


def _spot(outline: Path, part: int) -> Corner:
    """A spot of an outline without corners."""
    way = outline.length * part / 16
    turns = 1.0 if signed_area(outline) > 0 else -1.0
    return Corner(outline.point_at(way), outline.direction_at(way).left() * turns, outline.length / 4)


def _free(corner: Point, sewn: Sequence[Path], reach: float) -> float:
    """How far from all that is sewn a corner lies; less than nought where more than one of the stitched edges ends."""
    gaps = [min(nearest(path, corner)[2], reach * 2) for path in sewn]
    return min(gaps, default=reach) - sum(gap < reach * 0.5 for gap in gaps) * reach


def _corners(outline: Path) -> list[Corner]:
    """The convex corners between runs that go straight on, or nearly."""
    turns = 1.0 if signed_area(outline) > 0 else -1.0
    runs = _runs(outline)
    found: list[Corner] = []
    for first, second in zip(runs, (*runs[1:], runs[0]), strict=True):
        leaving, entering = first.direction_at(first.length), second.direction_at(0.0)
        shorter = min(first.length, second.length)
        if len(runs) > 1 and shorter >= SHORTEST * outline.length and leaving.cross(entering) * turns > SHARPEST:
            found.append(Corner(second.start, (entering - leaving).unit(), shorter))
    return found


def _runs(outline: Path) -> list[Path]:
    """The stretches of an outline between its corners."""
    segments = list(outline.segments)
    sharp = [
        at
        for at, segment in enumerate(segments)
        if abs(segments[at - 1].direction_at(segments[at - 1].length).cross(segment.direction_at(0.0))) > SHARPEST
    ]
    if not sharp:
        return [outline]
    ring = segments[sharp[0] :] + segments[: sharp[0]]
    begins = [at - sharp[0] for at in sharp]
    return [Path(tuple(ring[start:end])) for start, end in zip(begins, (*begins[1:], len(ring)), strict=True)]
