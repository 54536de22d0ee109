"""Seams: two copies right sides together, one turned back at a corner; the stitching, its allowance, notches, a gap."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from publisher.figures.steps.attached import carried_areas, laid, strips_on
from publisher.figures.steps.cloth import BACKINGS, Bench, Lying, carried, longer_side, moved, texture_of
from publisher.figures.steps.corners import TurnedBack, turn_back
from publisher.figures.steps.joining import Joint, coincides, lying_on
from publisher.figures.steps.lines import chain
from publisher.figures.steps.marking import mark_shapes, notches_of
from publisher.figures.steps.values import Callout, Detail, Dimension, Look, Panel, Scene, Shape
from publisher.figures.steps.wording import face_words, length_words, names_of
from publisher.geometry import Box, Path, Point, inside, line_within, nearest, signed_area
from publisher.terms import Phrase

SMALL = 0.022  # of a piece's longer side: an allowance narrower than that is shown magnified
SPOTS = (  # of a piece's box: where words may point, the likeliest first
    *((0.25, 0.3), (0.75, 0.3), (0.25, 0.7), (0.75, 0.7), (0.5, 0.5), (0.5, 0.2), (0.5, 0.8), (0.1, 0.3), (0.9, 0.3)),
    *((x, y) for x in (0.98, 0.02, 0.95, 0.05) for y in (0.75, 0.5, 0.6)),
    *((x, y) for y in (0.03, 0.97, 0.06, 0.94) for x in (0.3, 0.5, 0.7)),
)
COVERED = 0.5  # … of the lower layer: where more is bare, it is named there
CLEAR = 0.05  # … so far from all edges
NEAR = 0.05  # mm: ends that lie nearer are one
MAGNIFIED = 1.6  # allowances to the rim of the circle that magnifies one


def flat_seams(bench: Bench, joints: Sequence[Joint]) -> Panel | None:
    """The seams of two copies that lie flat on one another; None where their edges do not lie edge on edge."""
    rule = lying_on(joints[0])
    if rule is None or not all(coincides(joint, rule) for joint in joints):
        return None
    below, above = Lying(joints[0].first), Lying(joints[0].second, rule, wrong_up=True)
    lower, upper = moved(bench.outline(below.copy), below), moved(bench.outline(above.copy), above)
    sewn = [joint.first_path for joint in joints]
    back = turn_back(upper, sewn)
    shapes = laid(bench, below)
    under, over = (texture_of(bench, above.copy, wrong_up) for wrong_up in (True, False))
    shapes += back.shapes(under, over, Look.RAW, on_top(bench, above, back))
    within = list(_within(bench, (below, replace(above, wrong_up=False)), back))
    shapes += [Shape(path, Look.HIDDEN) for _, path in within]
    stitching = stitching_of(joints, lower, bench.stops_short)
    shapes += [Shape(path, Look.STITCHING) for whole in stitching for path in back.kept_line(whole)]
    shapes += _kept(
        mark_shapes(notches_of(bench, above.copy), above, new=False, size=longer_side(bench, above.copy)), back
    )
    return Panel(
        "seam",
        Scene(
            tuple(shapes),
            (
                *_faces(bench, below, above, upper, back),
                *_named_within(bench, within),
                *_gaps(joints),
                *_ease(joints),
            ),
            *_allowance(joints, back, lower.box),
        ),
        _told(joints),
        copies=(below.copy, above.copy),
    )


def on_top(bench: Bench, above: Lying, back: TurnedBack) -> list[Shape]:
    """What the upper layer carries on its wrong side, as far as that is not turned back."""
    return [
        Shape(path, Look.BEFORE, one.texture, closed=True)
        for one in carried_areas(bench, above)
        for path in back.kept_area(one.path)
    ]


def _within(bench: Bench, lyings: Sequence[Lying], back: TurnedBack) -> Iterator[tuple[str, Path]]:
    """Strips that lie between the layers, each on one of them: their names, and what of them is hidden."""
    for lying in lyings:
        for name, shapes in strips_on(bench, lying):
            yield from ((name, path) for path in back.kept_line(shapes[0].path))


def _named_within(bench: Bench, within: Sequence[tuple[str, Path]]) -> list[Callout]:
    return [
        Callout(Phrase.of("figures.within", copy=name), path.point_at(path.length / 2), bench.number(name))
        for name, path in dict(within).items()
    ]


def _kept(shapes: Sequence[Shape], back: TurnedBack) -> list[Shape]:
    return [Shape(path, one.look) for one in shapes for path in back.kept_line(one.path)]


def stitching_of(joints: Sequence[Joint], cloth: Path, stops_short: bool) -> list[Path]:
    """The stitching of seams of one copy, to the raw edges of its cloth where no other of them goes on; or, where the
    step `stops_short`, from seam line to seam line."""
    paths = [stretch for joint in joints for stretch in _stitching(joint)]
    if stops_short:
        return paths
    ends = [spot for joint in joints for spot in (joint.first_path.start, joint.first_path.end)]
    return [_to_the_raw_edges(path, ends, cloth) for path in paths]


def stitched_line(path: Path, cloth: Path, stops_short: bool) -> Path:
    """The stitching of a seam that goes on at neither end: to the raw edges of its cloth, or from seam line to seam line."""
    return path if stops_short else _to_the_raw_edges(path, (path.start, path.end), cloth)


def _to_the_raw_edges(path: Path, ends: Sequence[Point], cloth: Path) -> Path:
    """A line of stitching, each of its ends that is the end of a seam, and of one alone, led on straight to the edge."""
    before, behind = (
        [spot for spot in _raw_edge(end, way, cloth) if sum((end - other).length < NEAR for other in ends) == 1]
        for end, way in ((path.start, -path.direction_at(0.0)), (path.end, path.direction_at(path.length)))
    )  # elsewhere it goes on round the corner, or it stops at a gap, within the edge
    return chain([*before, *path.flattened(0.05), *behind]) if before or behind else path


def _raw_edge(end: Point, way: Point, cloth: Path) -> list[Point]:
    """Where straight on from the end of a seam the cloth ends; nowhere where it ends there."""
    far = end + way * (cloth.box.width + cloth.box.height)
    for beyond in line_within(chain([end + way * NEAR, far]), cloth):
        near, out = sorted((beyond.start, beyond.end), key=lambda spot: (spot - end).length)
        if (near - end).length < 2 * NEAR:
            return [out]
    return []


def _stitching(joint: Joint) -> list[Path]:
    """The stitching of a seam: all of it, or what is sewn on both sides of the part that is left open."""
    path = joint.first_path
    if joint.leave_open <= 0:
        return [path]
    side = (path.length - joint.leave_open) / 2
    return [path.split(side)[0], path.split(side + joint.leave_open)[1]]


def _faces(bench: Bench, below: Lying, above: Lying, upper: Path, back: TurnedBack) -> tuple[Callout, ...]:
    """Which face of which copy is seen where: the upper one's wrong side, and the lower one's right side at the corner."""
    lower = moved(bench.outline(below.copy), below)
    covers = [upper, *(moved(bench.outline(one.copy), one) for one in carried(bench, below))]
    most_bare = abs(signed_area(upper)) < COVERED * abs(signed_area(lower))
    bare = spot_on(lower, None, covers) if most_bare else back.bare_spot
    return (
        Callout(face_words(below.copy, wrong_up=False), bare, bench.number(below.copy)),
        Callout(face_words(above.copy, wrong_up=True), spot_on(upper, back), bench.number(above.copy)),
    )


def spot_on(outline: Path, back: TurnedBack | None = None, covers: Sequence[Path] = ()) -> Point:
    """A spot inside an area, bare of what covers it and away from a corner turned back; where it can be, well inside, well
    clear of what covers it, and so that a level leader crosses none of that."""
    box, covers = outline.box, [*covers, *((back.bare, back.flap) if back is not None else ())]
    clear = CLEAR * max(box.width, box.height)
    spots = [Point(box.left + box.width * x, box.bottom + box.height * y) for x, y in SPOTS]
    bare = [one for one in spots if inside(outline, one) and not any(inside(cover, one) for cover in covers)]
    well = [one for one in bare if all(nearest(path, one)[2] > clear for path in (outline, *covers))]
    free = (one for one in well if not any(cover.box.bottom < one.y < cover.box.top for cover in covers))
    return next(free, (well or bare or [outline.point_at(outline.length * 0.6)])[0])


def own_spot(bench: Bench, lying: Lying, covers: Sequence[Path] = ()) -> Point:
    """A spot of a copy where it lies, clear of what it carries on either face, whose stitches are seen."""
    both = [*carried(bench, lying), *carried(bench, replace(lying, wrong_up=not lying.wrong_up))]
    on_it = [moved(bench.outline(one.copy), one) for one in both if bench.kind(one.copy) not in BACKINGS]
    return spot_on(moved(bench.outline(lying.copy), lying), None, [*covers, *on_it])


def _gaps(joints: Sequence[Joint]) -> tuple[Callout, ...]:
    open_ones = [joint for joint in joints if joint.leave_open > 0]
    return tuple(
        Callout(
            Phrase.of("figures.leave-open", amount=length_words(joint.leave_open)),
            _at_the_edge(joint),
        )
        for joint in open_ones
    )


def _at_the_edge(joint: Joint) -> Point:
    half = joint.first_path.length / 2
    return joint.first_path.point_at(half) + joint.first_path.direction_at(half).right() * joint.allowance


def _ease(joints: Sequence[Joint]) -> tuple[Callout, ...]:
    return tuple(
        Callout(
            Phrase.of("figures.ease-in", amount=length_words(joint.ease)),
            joint.first_path.point_at(joint.first_path.length / 4),
        )
        for joint in joints
        if joint.ease > 0
    )


def _allowance(
    joints: Sequence[Joint], back: TurnedBack, box: Box
) -> tuple[tuple[Dimension, ...], tuple[()], Detail | None]:
    """How far from the raw edge the stitching runs: in the figure, or magnified where it is small."""
    wide = next((joint for joint in joints if joint.allowance > 0), None)
    if wide is None:
        return (), (), None
    at, outwards = spot_to_measure(wide.first_path, back)
    across = Dimension(at, at + outwards * wide.allowance, length_words(wide.allowance))
    if wide.allowance >= SMALL * max(box.width, box.height):
        return (across,), (), None
    return (), (), Detail(at + outwards * (wide.allowance / 2), wide.allowance * MAGNIFIED, dimensions=(across,))


def spot_to_measure(
    path: Path, back: TurnedBack | None = None, parts: Sequence[float] = (0.3, 0.5, 0.7, 0.2, 0.8)
) -> tuple[Point, Point]:
    """A spot of an edge away from its ends and from a corner turned back, and the way out of the piece there."""
    spots = [(path.point_at(path.length * part), path.direction_at(path.length * part)) for part in parts]
    free = [one for one in spots if back is None or not (inside(back.bare, one[0]) or inside(back.flap, one[0]))]
    at, along = (free or spots)[0]
    return at, along.right()


def _told(joints: Sequence[Joint]) -> Phrase:
    return Phrase.of(
        "figures.told-seam",
        first=joints[0].first,
        second=joints[0].second,
        seams=names_of([joint.name for joint in joints]),
        allowance=length_words(max(joint.allowance for joint in joints)),
    )
