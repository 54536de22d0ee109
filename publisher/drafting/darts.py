"""Darts: what each takes up of its edge, and its mouth trued so that the closed dart ends level with the edge. mm.

A piece is drafted flat, its darts open. A dart takes up its width, both legs are equally long, and it is folded on its
centre line (Johnson, 4-H Club Series L-87, Oregon State University, 1961).
"""

from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import combinations

from publisher.drafting.bench import Asker, Bench, unusable
from publisher.drafting.edges import counter_clockwise, edge_names, edge_path, whole
from publisher.drafting.halves import half_of
from publisher.drafting.mark_values import Pleat
from publisher.drafting.marks import named_spot
from publisher.drafting.references import as_length, work_out_formula
from publisher.drafting.spots import Spot, edge_spot
from publisher.drafting.values import Edge
from publisher.frozen import dataclass
from publisher.geometry import Line, Path, Point, nearest
from publisher.measures import DartSaying, Formula, Name
from publisher.source import Native, WrittenMark, WrittenPiece

NEAR = 1e-6
LEGS_AGREE = 1.0  # mm: less is lost in the stitching of a dart (common practice, no source)
TIPS_AGREE = 0.5  # mm

WAYS: dict[str, Point] = {
    "left": Point(-1.0, 0.0),
    "right": Point(1.0, 0.0),
    "bottom": Point(0.0, -1.0),
    "top": Point(0.0, 1.0),
}


@dataclass(frozen=True, slots=True)
class Dart:
    """A dart on the flat piece: its mouth from `first` to `last` along its edge, its point, and the tip of the mouth."""

    written: WrittenMark
    edge: str
    first: Point
    last: Point
    point: Point
    tip: Point
    takes: float
    face: str
    to_first: bool | None  # pressed towards `first`; None: to either side


def darts_of(bench: Bench, piece: WrittenPiece) -> tuple[Dart, ...]:
    """All darts of a piece. Raises Unusable where one does not fit its edge, or two overlap."""
    asker = Asker("darts", str(piece.name), piece.name.place)
    return bench.work_out(asker, lambda: _darts(bench, piece, lambda name: named_spot(bench, piece, name)))


def _darts(bench: Bench, piece: WrittenPiece, spot_of: Callable[[Name], Point]) -> tuple[Dart, ...]:
    darts = [_dart(bench, piece, written, spot_of) for written in piece.darts]
    if half_of(piece) is not None:
        darts += [other for dart in darts if (other := _on_the_other_half(bench, piece, dart)) is not None]
    for one, other in combinations(darts, 2):
        if one.edge == other.edge:
            path = edge_path(bench, piece, one.edge)
            spans = [sorted(nearest(path, end)[0] for end in (dart.first, dart.last)) for dart in (one, other)]
            if spans[0][0] < spans[1][1] - NEAR and spans[1][0] < spans[0][1] - NEAR:
                halves = " once each half has its own" if half_of(piece) is not None else ""
                says = f"'{one.written.name}' and '{other.written.name}' overlap on '{one.edge}'{halves}"
                raise unusable("darts-overlap", other.written.name.place, says, "move one of them, or take it out")
    return tuple(darts)


def _on_the_other_half(bench: Bench, piece: WrittenPiece, dart: Dart) -> Dart | None:
    """The same dart on the other half of a piece that was drawn as a half; None where it lies on the middle."""
    axis, _ = whole(bench, piece)
    first, last, point, tip = (axis.point(spot) for spot in (dart.last, dart.first, dart.point, dart.tip))
    if (point - dart.point).length < NEAR and (tip - dart.tip).length < NEAR:
        return None
    for name in edge_names(bench, piece):
        path = edge_path(bench, piece, name)
        if max(nearest(path, end)[2] for end in (first, last)) < NEAR:
            pressed = None if dart.to_first is None else not dart.to_first
            return replace(dart, edge=name, first=first, last=last, point=point, tip=tip, to_first=pressed)
    raise AssertionError("the halves of a piece mirror each other")


def _dart(bench: Bench, piece: WrittenPiece, written: WrittenMark, spot_of: Callable[[Name], Point]) -> Dart:
    said = bench.saying(written.says)
    assert isinstance(said, DartSaying)
    width = _amount(bench, said.width, written, "the width")
    spot = edge_spot(bench, piece, said.spot, written)
    path = edge_path(bench, piece, spot.edge)
    ends = spot.distance - width / 2, spot.distance + width / 2
    if ends[0] < NEAR or ends[1] > path.length - NEAR:
        raise unusable(
            "dart-beyond-edge",
            written.says.place,
            f"'{written.name}' takes {width:.4g} mm of '{spot.edge}' and reaches beyond its end",
            "move it away from the end, or make it narrower",
        )
    first, last = (path.point_at(end) for end in ends)
    point = _point(bench, piece, said, written, spot, spot_of)
    legs = (first - point).length, (last - point).length
    if abs(legs[0] - legs[1]) > LEGS_AGREE:
        raise unusable(
            "dart-legs-differ",
            written.says.place,
            f"the legs of '{written.name}' are {legs[0]:.4g} mm and {legs[1]:.4g} mm long",
            "let its point lie square to the edge at the middle of its mouth",
        )
    to_first = _pressed(said, written, first, last)
    tip = _tip(path, ends, point, to_first, written)
    return Dart(written, spot.edge, first, last, point, tip, width, said.face, to_first)


def _pressed(said: DartSaying, written: WrittenMark, first: Point, last: Point) -> bool | None:
    if said.towards is None:
        return None
    ahead = (first - last).dot(WAYS[said.towards])
    if abs(ahead) < NEAR:
        says = f"'{written.name}' lies along the way to the {said.towards}, so it cannot be pressed there"
        raise unusable("wrong-kind", written.says.place, says, "press it to one of its two sides")
    return ahead > 0


def _amount(bench: Bench, formula: Formula, written: WrittenMark, what: str) -> float:
    native = Native(written.says, written.says)
    amount = as_length(bench, work_out_formula(bench, formula), native, f"{what} of '{written.name}'")
    if amount <= 0:
        raise unusable(
            "no-length", written.says.place, f"{what} of '{written.name}' is {amount:g} mm", "make it longer"
        )
    return amount


def _point(
    bench: Bench,
    piece: WrittenPiece,
    said: DartSaying,
    written: WrittenMark,
    spot: Spot,
    spot_of: Callable[[Name], Point],
) -> Point:
    if said.point is not None:
        return spot_of(said.point)
    assert said.length is not None
    inwards = spot.direction.left() if counter_clockwise(bench, piece) else spot.direction.right()
    return spot.at + inwards * _amount(bench, said.length, written, "the length")


def _tip(path: Path, ends: tuple[float, float], point: Point, to_first: bool | None, written: WrittenMark) -> Point:
    """Where the fold meets the edge of the mouth: the edge beside a leg, mirrored over the leg, runs to the fold.

    The cloth that is folded in then ends level with the edge of the side that it is pressed to (derived here).
    """
    middle = (path.point_at(ends[0]) + path.point_at(ends[1])) * 0.5
    fold = (middle - point).unit()
    tips = [
        _mirrored_meets(path.point_at(ends[0]), -path.direction_at(ends[0]), point, fold),
        _mirrored_meets(path.point_at(ends[1]), path.direction_at(ends[1]), point, fold),
    ]
    if to_first is not None:
        return tips[0] if to_first else tips[1]
    if (tips[0] - tips[1]).length > TIPS_AGREE:
        raise unusable(
            "which-way",
            written.says.place,
            f"the mouth of '{written.name}' depends on the side that it is pressed to",
            "add the side: ', towards the left'",
        )
    return (tips[0] + tips[1]) * 0.5


def _mirrored_meets(end: Point, away: Point, point: Point, fold: Point) -> Point:
    """Where the edge that runs off from a leg's end, mirrored over the leg, meets the fold line through the point."""
    leg = (end - point).unit()
    way = leg * (2 * away.dot(leg)) - away
    crossing = way.cross(fold)
    if abs(crossing) < NEAR:
        return end
    return end + way * ((point - end).cross(fold) / crossing)


def darts_take(darts: Sequence[Dart], names: Sequence[str]) -> float:
    """What the darts of these edges take up of their length, mm."""
    return sum(dart.takes for dart in darts if dart.edge in names)


def with_darts(edges: tuple[Edge, ...], darts: Sequence[Dart]) -> tuple[Edge, ...]:
    """The edges with the mouths of darts trued; a dart that lies on none of them is left out."""
    for dart in darts:
        edges = tuple(replace(edge, path=_with_mouth(edge.path, dart)) for edge in edges)
    return edges


def _with_mouth(path: Path, dart: Dart) -> Path:
    (one, _, gap), (other, _, far) = nearest(path, dart.first), nearest(path, dart.last)
    if max(gap, far) > NEAR or not NEAR < min(one, other) < max(one, other) < path.length - NEAR:
        return path
    before, rest = path.split(min(one, other))
    after = rest.split(max(one, other) - min(one, other))[1]
    return Path((*before.segments, Line(before.end, dart.tip), Line(dart.tip, after.start), *after.segments))


def dart_mark(dart: Dart) -> Pleat:
    """Its fold and its legs, which are sewn on each other; an arrow leads to the side that it is pressed to."""
    legs = [(end + dart.point) * 0.5 for end in (dart.last, dart.first)]
    arrow = (legs[0], legs[1]) if dart.to_first else (legs[1], legs[0])
    return Pleat(
        name=str(dart.written.name),
        kind="dart",
        depth=dart.takes / 2,
        takes=dart.takes,
        outer=((dart.tip, dart.point),),
        inner=(),
        meets=(),
        stitched=((dart.first, dart.point), (dart.last, dart.point)),
        arrows=() if dart.to_first is None else (arrow,),
        face=dart.face,
        copies=(),
        place=dart.written.name.place,
    )
