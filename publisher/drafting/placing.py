"""How a placed copy comes to lie on the copy below, from the edges and marks that coincide."""

import math
from dataclasses import replace

from publisher.drafting.bench import Asker, Bench, unusable
from publisher.drafting.edges import atomic_edges, counter_clockwise, edge_names, edge_path
from publisher.drafting.marks import mark_way
from publisher.drafting.references import the_copys_piece
from publisher.drafting.seam_values import Laying
from publisher.frozen import dataclass
from publisher.geometry import Box, Path, Point
from publisher.measures import Matching, Name
from publisher.source import WrittenPiece, WrittenPlacement
from publisher.terms import did_you_mean

# What every piece bears without being told: its middle.
BUILT_IN_SPOTS = ("centre",)
# Where only edges that run side by side are matched, their middles meet: they pull this much weaker than what is said.
MIDDLES = 1e-6


@dataclass(frozen=True, slots=True)
class Spot:
    """A mark, an edge or the centre: where it is, and which way it runs, counter-clockwise round its piece."""

    at: Point
    along: Point | None
    runs: bool  # an edge or a line, along which something else may slide
    either_way: bool = False  # a line, which has no way round


def laying_of(bench: Bench, written: WrittenPlacement) -> Laying:
    """How the placed copy lies on the one below, mm. Raises Unusable where a name is unknown."""
    asker = Asker("placement", str(written.name), written.name.place)
    return bench.work_out(asker, lambda: _laying(bench, written))


def placement_pairs(bench: Bench, written: WrittenPlacement) -> list[tuple[str, str]]:
    """The names that coincide, on the placed copy and on the one below. Raises Unusable."""
    placed, below = the_copys_piece(bench, written.place_copy), the_copys_piece(bench, written.on)
    pairs: list[tuple[str, str]] = []
    for written_pair in written.matching:
        pair = bench.saying(written_pair)
        assert isinstance(pair, Matching)
        pairs.append((_known_spot(bench, placed, pair.placed), _known_spot(bench, below, pair.below)))
    return pairs


def _known_spot(bench: Bench, piece: WrittenPiece, name: Name) -> str:
    known = [
        *(str(mark.name) for mark in piece.marks),
        *edge_names(bench, piece),
        *(str(joint) for joint, _ in piece.joint_edges),
        *BUILT_IN_SPOTS,
    ]
    if name.text not in known:
        raise unusable(
            "no-such-name",
            name.place,
            f"'{piece.name}' has no edge or mark called '{name.text}'",
            did_you_mean(name.text, known),
        )
    return name.text


def _laying(bench: Bench, written: WrittenPlacement) -> Laying:
    placed, below = the_copys_piece(bench, written.place_copy), the_copys_piece(bench, written.on)
    over = _face_down(written)
    pairs = [
        (
            _turned_over(spot_of(bench, placed, first)) if over else spot_of(bench, placed, first),
            spot_of(bench, below, second),
        )
        for first, second in placement_pairs(bench, written)
    ]
    angle = _angle(pairs)
    return Laying(over, angle, _shift(pairs, angle))


def _face_down(written: WrittenPlacement) -> bool:
    if written.face is None or str(written.face) in ("up", "down"):
        return written.face is not None and str(written.face) == "down"
    raise unusable(
        "wrong-kind", written.face.place, f"a face lies 'up' or 'down', not '{written.face}'", "write face: down"
    )


def spot_of(bench: Bench, piece: WrittenPiece, name: str) -> Spot:
    """A mark, edge, joint edge or the centre of a piece. Raises Unusable."""
    if any(mark.name == name for mark in piece.marks):
        at, along, is_line = mark_way(bench, piece, name)
        return Spot(at, along, runs=is_line, either_way=is_line)
    if name in BUILT_IN_SPOTS:
        box = _box(bench, piece)
        return Spot(Point((box.left + box.right) / 2, (box.bottom + box.top) / 2), None, runs=False)
    parts = atomic_edges(bench, piece, name, Name(name, piece.name.place))
    path = Path(tuple(segment for part in parts for segment in edge_path(bench, piece, part).segments))
    chord = path.end - path.start
    along = chord.unit() if chord.length > 1e-9 else path.direction_at(0.0)
    middle = (path.start + path.end) * 0.5
    return Spot(middle, along if counter_clockwise(bench, piece) else -along, runs=True)


def _box(bench: Bench, piece: WrittenPiece) -> Box:
    boxes = [edge_path(bench, piece, name).box for name in edge_names(bench, piece)]
    box = boxes[0]
    for more in boxes[1:]:
        box = box.joined(more)
    return box


def _turned_over(spot: Spot) -> Spot:
    """Turned over on an upright axis: what ran counter-clockwise still does, seen from the new face."""
    along = None if spot.along is None else Point(spot.along.x, -spot.along.y)
    return replace(spot, at=Point(-spot.at.x, spot.at.y), along=along)


Pairs = list[tuple[Spot, Spot]]


def _angle(pairs: Pairs) -> float:
    """How far the placed copy is turned: by an edge and what it lies along, else by two spots, else not at all."""
    for first, second in pairs:
        if first.along is not None and second.along is not None and (first.runs or second.runs):
            along = second.along
            if (first.either_way or second.either_way) and first.along.dot(along) < 0:
                along = -along
            return math.atan2(first.along.cross(along), first.along.dot(along))
    spots = [(first.at, second.at) for first, second in pairs if not first.runs and not second.runs]
    if len(spots) > 1:
        (placed, below), (other_placed, other_below) = spots[0], spots[1]
        way, wanted = other_placed - placed, other_below - below
        if way.length > 1e-9 and wanted.length > 1e-9:
            return math.atan2(way.cross(wanted), way.dot(wanted))
    # Two notches that meet bring their edges level.
    for first, second in pairs:
        if first.along is not None and second.along is not None:
            return math.atan2(first.along.cross(second.along), first.along.dot(second.along))
    return 0.0


def _shift(pairs: Pairs, angle: float) -> Point:
    """The shift that brings what was matched nearest together: spots fully, edges at right angles to themselves.

    Least squares in two unknowns; the middles of matched edges pull very weakly along them.
    """
    xx = xy = yy = x = y = 0.0
    for first, second in pairs:
        gap = second.at - first.at.turned(angle)
        ways = (
            [(second.along.left(), 1.0), (second.along, MIDDLES)]
            if first.runs and second.runs and second.along is not None
            else [(Point(1.0, 0.0), 1.0), (Point(0.0, 1.0), 1.0)]
        )
        for way, weight in ways:
            reach = gap.dot(way) * weight
            xx, xy, yy = xx + weight * way.x**2, xy + weight * way.x * way.y, yy + weight * way.y**2
            x, y = x + reach * way.x, y + reach * way.y
    spread = xx * yy - xy**2
    return Point((yy * x - xy * y) / spread, (xx * y - xy * x) / spread)
