"""Points and edges of a piece, worked out one at a time as something asks for them. Millimetres, y up."""

import itertools
import math

from publisher.drafting.bench import Asker, Bench, unusable
from publisher.drafting.drawn_cut_lines import finished_path
from publisher.drafting.drawn_marks import spot_called
from publisher.drafting.elsewhere import DrawnEdge
from publisher.drafting.halves import SMOOTH, Axis, WholeEdge, axis_of, corner_on_axis, half_of, sided_name, whole_edges
from publisher.drafting.outlines import RECTANGLE_CORNERS, Plan, ShapedCorner, Side, outline_plan
from publisher.drafting.points import told_direction, told_point
from publisher.drafting.references import as_length, work_out_formula
from publisher.drafting.shaped_corners import shape_corner
from publisher.drafting.sizes import rectangle_size
from publisher.geometry import (
    Arc,
    Cubic,
    Line,
    Path,
    Point,
    Segment,
    arc_about_to,
    arc_by_height,
    arc_by_radius,
    arc_leaving,
    arc_through,
    smooth_curve,
)
from publisher.measures import ArcSaying, CurveSaying, Formula, Name, Pair, PointSaying
from publisher.source import WrittenPiece
from publisher.terms import Dimension, Place, Unusable, did_you_mean

SAME_SPOT = 1e-6  # mm


def piece_point(bench: Bench, piece: WrittenPiece, name: str) -> Point:
    """A named point or corner of the outline. Raises Unusable."""
    asker = Asker("point", f"{piece.name}.{name}", _point_place(piece, name))
    return bench.work_out(asker, lambda: _point(bench, piece, name))


def _point_place(piece: WrittenPiece, name: str) -> Place:
    points = piece.outline.points if piece.outline else ()
    return next((written.place for written, _ in points if written == name), piece.name.place)


def _point(bench: Bench, piece: WrittenPiece, name: str) -> Point:
    if piece.outline is None:
        width, height = rectangle_size(bench, piece)
        corners = (Point(0.0, 0.0), Point(width, 0.0), Point(width, height), Point(0.0, height))
        return dict(zip(RECTANGLE_CORNERS, corners, strict=True))[name]
    native = next(native for written, native in piece.outline.points if written == name)
    said = bench.saying(bench.native(native))
    if isinstance(said, PointSaying):
        return told_point(
            bench,
            piece,
            said,
            bench.native(native),
            lambda other: piece_point(bench, piece, other),
            lambda edge: _known_path(bench, piece, edge, said),
        )
    assert isinstance(said, Pair)
    x, y = (
        as_length(bench, work_out_formula(bench, side), native, f"the point '{name}'")
        for side in (said.first, said.second)
    )
    return Point(x, y)


def _known_path(bench: Bench, piece: WrittenPiece, name: str, said: PointSaying) -> Path:
    """An edge of the outline as drafted, for a point that lies by it."""
    assert said.spot is not None
    names = outline_plan(bench, piece).drafted_names
    if name not in names:
        place = said.spot.edge.place
        raise unusable("no-such-edge", place, f"'{piece.name}' has no edge called '{name}'", did_you_mean(name, names))
    return drafted_path(bench, piece, name)


def atomic_edges(bench: Bench, piece: WrittenPiece, edge: str, asked: Name) -> tuple[str, ...]:
    """The edges that an edge name or joint name stands for. Raises Unusable with the nearest name."""
    names = edge_names(bench, piece)
    joined = joint_edges(bench, piece, edge)
    if not joined and edge not in names:
        known = (*names, *(str(name) for name, _ in piece.joint_edges))
        raise _no_edge(bench, piece, edge, asked.place, known)
    return joined or (edge,)


def joint_edges(bench: Bench, piece: WrittenPiece, joint: str) -> tuple[str, ...]:
    """The edges that a joint name stands for; none when it is no joint name. Raises Unusable where one is no edge."""
    names = edge_names(bench, piece)
    parts = next((parts for name, parts in piece.joint_edges if name == joint), ())
    for part in parts:
        if part not in names:
            raise _no_edge(bench, piece, str(part), part.place, names)
    return tuple(map(str, parts))


def _no_edge(bench: Bench, piece: WrittenPiece, edge: str, place: Place, known: tuple[str, ...]) -> Unusable:
    """A name that no edge bears; that of a half's edge which comes twice, since it meets its mirror image in a corner."""
    if half_of(piece) is not None and edge in outline_plan(bench, piece).drafted_names:
        corner = corner_on_axis(piece, edge, whole(bench, piece)[0], drafted_path(bench, piece, edge))
        if corner is not None:
            return corner
    return unusable("no-such-edge", place, f"'{piece.name}' has no edge called '{edge}'", did_you_mean(edge, known))


def edge_names(bench: Bench, piece: WrittenPiece) -> tuple[str, ...]:
    """All edges of a piece in the order they were written; those of a mirrored half as the whole has them."""
    if half_of(piece) is None:
        return outline_plan(bench, piece).drafted_names
    return tuple(edge.name for edge in whole(bench, piece)[1])


def whole(bench: Bench, piece: WrittenPiece) -> tuple[Axis, tuple[WholeEdge, ...]]:
    """The axis of a half and the edges of its whole. Raises Unusable."""
    return bench.work_out(Asker("whole", str(piece.name), piece.name.place), lambda: _whole(bench, piece))


def _whole(bench: Bench, piece: WrittenPiece) -> tuple[Axis, tuple[WholeEdge, ...]]:
    half = half_of(piece)
    assert half is not None
    names = outline_plan(bench, piece).drafted_names
    if str(half.along) not in names:
        raise unusable(
            "no-such-edge",
            half.along.place,
            f"'{piece.name}' has no edge called '{half.along}'",
            did_you_mean(half.along, names),
        )
    at = names.index(str(half.along))
    around = (*names[at + 1 :], *names[:at])
    paths = {name: drafted_path(bench, piece, name) for name in (str(half.along), around[0], around[-1])}
    axis = axis_of(piece, half, paths[str(half.along)], paths[around[0]])
    return axis, whole_edges(axis, around, paths)


def edge_path(bench: Bench, piece: WrittenPiece, name: str) -> Path:
    """The path of one edge in the direction it was written, mm. Raises Unusable."""
    if half_of(piece) is None:
        return drafted_path(bench, piece, name)
    axis, edges = whole(bench, piece)
    parts = next(edge.parts for edge in edges if edge.name == name)
    paths = [axis.path(path) if turned_over else path for path, turned_over in _drafted(bench, piece, parts)]
    return Path(_run_together([segment for path in paths for segment in path.segments]))


def _run_together(segments: list[Segment]) -> tuple[Segment, ...]:
    """Straight lines that go on in one direction, and arcs of one circle, as one: the axis leaves no joint behind."""
    run: list[Segment] = []
    for segment in segments:
        last = run[-1] if run else None
        if isinstance(last, Line) and isinstance(segment, Line):
            turn = last.direction_at(0.0).cross(segment.direction_at(0.0))
            if abs(turn) < SMOOTH:
                run[-1] = Line(last.start, segment.end)
                continue
        if isinstance(last, Arc) and isinstance(segment, Arc):
            alike = last.sweep * segment.sweep > 0 and (last.centre - segment.centre).length < SAME_SPOT
            if alike and abs(last.sweep + segment.sweep) < 2 * math.pi:
                run[-1] = Arc(last.start, segment.end, last.centre, last.sweep + segment.sweep)
                continue
        run.append(segment)
    return tuple(run)


def _drafted(bench: Bench, piece: WrittenPiece, parts: tuple[tuple[str, bool], ...]) -> list[tuple[Path, bool]]:
    return [(drafted_path(bench, piece, name), turned_over) for name, turned_over in parts]


def outline_point(bench: Bench, piece: WrittenPiece, name: str) -> Point | None:
    """A point that was named in the outline, on either side of a mirrored half, or a corner that stays one.

    None when no point bears the name.
    """
    if piece.outline is None:
        return _corner(bench, piece, name)
    points = [str(point) for point, _ in piece.outline.points]
    if name in points:
        return piece_point(bench, piece, name)
    if half_of(piece) is None:
        return None
    axis, _ = whole(bench, piece)
    for point in points:
        for turned_over in (False, True):
            if name == sided_name(axis.sides, point, turned_over):
                spot = piece_point(bench, piece, point)
                return axis.point(spot) if turned_over else spot
    return None


def point_names(bench: Bench, piece: WrittenPiece) -> tuple[str, ...]:
    """The names of points and corners that marks may use; of a mirrored half as they were written."""
    if piece.outline is not None:
        return tuple(str(point) for point, _ in piece.outline.points)
    plan = outline_plan(bench, piece)
    drawn = (name for edge, at in zip(plan.drawn, itertools.count(1), strict=False) for name in _corner_names(edge, at))
    return (*drawn, *(side.end for side in plan.sides if plan.shaped(side.end) is None))


def _corner_names(edge: DrawnEdge, at: int) -> tuple[str, ...]:
    return (f"corner {at}", *([edge.corner] if edge.corner else []))


def _corner(bench: Bench, piece: WrittenPiece, name: str) -> Point | None:
    """A corner of a rectangle that is not shaped; of an outline that was drawn, where an edge begins, or a spot drawn."""
    plan = outline_plan(bench, piece)
    for at, edge in enumerate(plan.drawn, start=1):
        if name in _corner_names(edge, at):
            return drafted_path(bench, piece, edge.name).start
    if piece.drawing is not None:
        return spot_called(bench, piece.drawing, name)
    known = piece.rectangle is not None and half_of(piece) is None and name in RECTANGLE_CORNERS
    return piece_point(bench, piece, name) if known and plan.shaped(name) is None else None


def drafted_path(bench: Bench, piece: WrittenPiece, name: str) -> Path:
    """The path of one edge as drafted, mm: of a half, on its own side. Raises Unusable."""
    plan = outline_plan(bench, piece)
    drawn = next((edge for edge in plan.drawn if edge.name == name), None)
    if drawn is not None:
        inside = piece.drawing is not None and piece.drawing.as_cut_line
        return finished_path(bench, piece, plan.drawn, name) if inside else drawn.path
    side = next((side for side in plan.sides if side.name == name), None)
    if side is not None:
        asker = Asker("edge", f"{piece.name}.{name}", side.place)
        return bench.work_out(asker, lambda: _trimmed(bench, piece, plan, side))
    shaped = next((corner for corner in plan.corners if name in corner.edges), None)
    if shaped is None:
        raise KeyError(name)
    asker = Asker("edge", f"{piece.name}.{name}", shaped.place)
    return bench.work_out(asker, lambda: _corner_edge(bench, piece, plan, shaped, name))


def _untrimmed(bench: Bench, piece: WrittenPiece, side: Side) -> Path:
    """An edge from corner to corner, before a corner is shaped."""
    asker = Asker("side", f"{piece.name}.{side.name}", side.place)
    return bench.work_out(asker, lambda: _whole_side(bench, piece, side))


def _whole_side(bench: Bench, piece: WrittenPiece, side: Side) -> Path:
    start, end = piece_point(bench, piece, side.start), piece_point(bench, piece, side.end)
    if (end - start).length < 1e-6 and not isinstance(side.arc, CurveSaying):
        raise unusable(
            "no-length",
            side.place,
            f"'{side.name}' has no length: '{side.start}' and '{side.end}' lie on the same spot",
            "look at the measures of these points, or leave the edge out",
        )
    try:
        if side.arc is None:
            return Path((Line(start, end),))
        if isinstance(side.arc, CurveSaying):
            return _curve(bench, piece, side.arc, start, end)
        return Path((_arc(bench, piece, side, side.arc, start, end),))
    except ValueError as reason:
        raise unusable(
            "arc-does-not-fit", side.place, f"'{side.name}': {reason}", "look at the points and lengths of this edge"
        ) from None


def _curve(bench: Bench, piece: WrittenPiece, said: CurveSaying, start: Point, end: Point) -> Path:
    by = [piece_point(bench, piece, name.text) for name in said.by]
    if not said.smooth:
        return Path((Cubic(start, by[0], by[1], end),))
    leaving = None if said.leaving is None else piece_point(bench, piece, said.leaving.text) - start
    arriving = None if said.arriving is None else end - piece_point(bench, piece, said.arriving.text)
    return smooth_curve((start, *by, end), leaving, arriving)


def _arc(bench: Bench, piece: WrittenPiece, side: Side, said: ArcSaying, start: Point, end: Point) -> Segment:
    """The arc of an edge. Raises ValueError where it cannot be."""
    if said.centre is not None:
        centre = piece_point(bench, piece, said.centre.text)
        turn = (start - centre).cross(end - centre)
        return arc_about_to(centre, start, end, counter_clockwise=turn > 0)
    if said.by is not None:
        return arc_through(start, piece_point(bench, piece, said.by.text), end)
    if said.tangent:
        sides = outline_plan(bench, piece).sides
        before = _untrimmed(bench, piece, next(other for other in sides if other.end == side.start))
        return arc_leaving(start, before.direction_at(before.length), end)
    bulge_right = counter_clockwise(bench, piece) != said.inwards
    if said.radius is not None:
        _check_way_round(bench, piece, side)
        return arc_by_radius(start, end, _millimetres(bench, said.radius, side), bulge_right)
    assert said.height is not None
    return arc_by_height(start, end, _millimetres(bench, said.height, side), bulge_right)


def _check_way_round(bench: Bench, piece: WrittenPiece, side: Side) -> None:
    """Raises ValueError where both ends are told as more than half a circle round one point: an arc goes the other way."""
    points = {str(name): bench.native(native) for name, native in piece.outline.points} if piece.outline else {}
    told = [
        told_direction(bench, bench.saying(points[end]), points[end]) for end in (side.start, side.end) if end in points
    ]
    if len(told) == 2 and told[0] is not None and told[1] is not None and told[0][0] == told[1][0]:
        round_it = math.degrees(abs(told[1][1] - told[0][1]))
        if 180 < round_it < 360:
            raise ValueError(
                f"from '{side.start}' to '{side.end}' it would go {round_it:.4g}° round '{told[0][0]}', and an arc with a "
                f"radius takes the shorter way, {360 - round_it:.4g}°"
            )


def _millimetres(bench: Bench, formula: Formula, side: Side) -> float:
    quantity = work_out_formula(bench, formula)
    if quantity.dimension is Dimension.LENGTH:
        return float(quantity.amount)
    raise unusable(
        "not-a-length", side.place, f"the arc of '{side.name}' has no length behind it", "write it with a unit"
    )


def counter_clockwise(bench: Bench, piece: WrittenPiece) -> bool:
    """True when the corners were written counter-clockwise, so that outwards is to the right of the way.

    Two corners have no turn of their own: their arcs bulge to the right, which makes them counter-clockwise. So is
    every form of one word and every outline drawn elsewhere.
    """
    if outline_plan(bench, piece).drawn:
        return True
    corners = [piece_point(bench, piece, side.start) for side in outline_plan(bench, piece).sides]
    return sum(a.cross(b) for a, b in zip(corners, (*corners[1:], corners[0]), strict=True)) > -1e-9


def _trimmed(bench: Bench, piece: WrittenPiece, plan: Plan, side: Side) -> Path:
    """The side less what shaping the corner at either end takes."""
    kept = _untrimmed(bench, piece, side)
    if shaped := plan.shaped(side.start):
        before = next(other for other in plan.sides if other.end == side.start)
        ends = _untrimmed(bench, piece, before).segments[-1], kept.segments[0]
        kept = Path((shape_corner(bench, piece, shaped, *ends)[2], *kept.segments[1:]))
    if shaped := plan.shaped(side.end):
        after = next(other for other in plan.sides if other.start == side.end)
        ends = kept.segments[-1], _untrimmed(bench, piece, after).segments[0]
        kept = Path((*kept.segments[:-1], shape_corner(bench, piece, shaped, *ends)[0]))
    return kept


def _corner_edge(bench: Bench, piece: WrittenPiece, plan: Plan, shaped: ShapedCorner, name: str) -> Path:
    """The edge of that name which takes the place of a corner."""
    before = next(side for side in plan.sides if side.end == shaped.corner)
    after = next(side for side in plan.sides if side.start == shaped.corner)
    first, second = (_untrimmed(bench, piece, side) for side in (before, after))
    between = shape_corner(bench, piece, shaped, first.segments[-1], second.segments[0])[1]
    return Path((between[shaped.edges.index(name)],))
