"""A facing: sewn along an edge, stitched to its allowances, turned to the wrong side. Sections are in mm on paper."""

from dataclasses import replace

from publisher.figures.steps.attached import laid
from publisher.figures.steps.cloth import ROUND, Bench, Lying, moved, texture_of, turned
from publisher.figures.steps.joining import Joint, joints_of, lying_on
from publisher.figures.steps.lines import box_path, line
from publisher.figures.steps.seams import own_spot, spot_on, spot_to_measure
from publisher.figures.steps.strands import GAP, Fold, Go, stitch, strand
from publisher.figures.steps.values import Callout, Detail, Dimension, Look, Panel, Scene, Shape
from publisher.figures.steps.wording import face_words, length_words
from publisher.geometry import Path, Point, parallel_beside
from publisher.terms import Phrase

RIGHT, LEFT = Point(1.0, 0.0), Point(-1.0, 0.0)
WIDE = 30.0  # mm of cloth before an edge
ALLOWANCE = 8.0  # of a seam, as it is drawn
TRIMMED = 6.0  # … that has been trimmed
LONG, HIGH = 52.0, 13.0  # mm of a stretch of a seam seen from above, and of the cloth on either side of it
CASING = 22.0  # from the seam to the facing's other edge


def facing_joint(bench: Bench, copy: str) -> Joint | None:
    """The one seam that holds a copy along another's edge, the copy its second side; None of what is no facing."""
    joints = [joint for name in bench.state.sewn for joint in joints_of(bench.draft, name)]
    here = [joint for joint in joints if copy in (joint.first, joint.second)]
    if len(here) != 1 or here[0].first == here[0].second:
        return None
    joint = here[0] if here[0].second == copy else _other_way(here[0])
    whole = bench.draft.piece(bench.draft.copy(copy).piece).finished_line.length
    flat = joint.leave_open == 0 and joint.second_path.length < ROUND * whole
    return joint if flat and lying_on(joint) is not None else None


def _other_way(joint: Joint) -> Joint:
    return replace(
        joint,
        first=joint.second,
        second=joint.first,
        first_path=joint.second_path,
        second_path=joint.first_path,
        first_edge=joint.second_edge,
        second_edge=joint.first_edge,
    )


def facing_lying(joint: Joint) -> tuple[Lying, Lying]:
    """Seen from the wrong side: what is faced, and the facing turned onto it, its right side up."""
    rule = lying_on(joint)
    assert rule is not None
    return Lying(joint.first, turned(), wrong_up=True, new=False), Lying(
        joint.second, lambda point: turned()(rule(point))
    )


def understitched_panels(bench: Bench, joint: Joint, distance: float | None) -> list[Panel]:
    """The facing folded away from the seam, the allowances under it, stitched to them beside the seam: from above, and cut
    through."""
    return [_understitched_above(bench, joint, distance), _understitched_through(bench, joint, distance)]


def _understitched_above(bench: Bench, joint: Joint, distance: float | None) -> Panel:
    """A stretch of the seam, right sides up, as if it were straight: the allowances dotted."""
    beside, wide = 4.6, _drawn_allowance(bench, joint)
    plain = texture_of(bench, joint.first, wrong_up=False)
    facing = texture_of(bench, joint.second, wrong_up=False)
    shapes = (
        Shape(box_path(0.0, -HIGH, LONG, 0.0), Look.BEFORE, plain, closed=True),
        Shape(box_path(0.0, 0.0, LONG, HIGH), Look.BEFORE, facing, closed=True),
        Shape(line(Point(0.0, 0.0), Point(LONG, 0.0)), Look.BEFORE_FOLDED),
        Shape(line(Point(0.0, wide), Point(LONG, wide)), Look.HIDDEN),
        Shape(line(Point(0.0, beside), Point(LONG, beside)), Look.STITCHING),
    )
    callouts = (
        Callout(face_words(joint.second, wrong_up=False), Point(5.0, HIGH * 0.75), bench.number(joint.second), "left"),
        Callout(face_words(joint.first, wrong_up=False), Point(5.0, -HIGH * 0.5), bench.number(joint.first), "left"),
        Callout(Phrase.of("figures.allowances-under"), Point(LONG - 6.0, wide - 0.3), side="right"),
    )
    across = Point(LONG * 0.4, 0.0)
    dimensions = () if distance is None else (Dimension(across, across + Point(0.0, beside), length_words(distance)),)
    told = Phrase.of("figures.told-understitch-above", first=joint.first, second=joint.second, seam=joint.name)
    scene = Scene(shapes, callouts, dimensions, scale=1.0)
    caption = Phrase.of("figures.stretch-from-above")
    return Panel("understitching from above", scene, told, caption, (joint.second, joint.first))


def _drawn_allowance(bench: Bench, joint: Joint) -> float:
    return TRIMMED if joint.name in bench.state.trimmed else ALLOWANCE


def _understitched_through(bench: Bench, joint: Joint, distance: float | None) -> Panel:
    wide, numbers = _drawn_allowance(bench, joint), (bench.number(joint.first), bench.number(joint.second))
    shapes = strand(Point(-WIDE, 0.0), RIGHT, (Go(WIDE + wide),), wrong_left=False, new=False)
    facing = (Go(WIDE - 2.0), Fold(True, GAP), Go(wide))
    shapes += strand(Point(WIDE - 2.0, 2 * GAP), LEFT, facing, wrong_left=True)
    shapes.append(stitch(Point(0.9, GAP + 0.6), Point(0.9, -0.8), new=False))
    beside = 4.6
    shapes.append(stitch(Point(beside, 2 * GAP + 2.4), Point(beside, -2.4)))
    dimensions: tuple[Dimension, ...] = ()
    if distance is not None:
        top = 2 * GAP
        dimensions = (Dimension(Point(0.0, top), Point(beside, top), length_words(distance), away=5.5),)
    callouts = (
        Callout(face_words(joint.first, wrong_up=False), Point(4.0 - WIDE, 0.0), numbers[0], "left"),
        Callout(face_words(joint.second, wrong_up=False), Point(WIDE - 7.0, 2 * GAP), numbers[1], "right"),
        Callout(Phrase.of("figures.allowances-under"), Point(wide, 0.0), side="right"),
    )
    told = Phrase.of("figures.told-understitch", first=joint.first, second=joint.second, seam=joint.name)
    scene = Scene(tuple(shapes), callouts, dimensions, scale=1.0)
    return Panel("understitching", scene, told, Phrase.of("figures.cut-through"), (joint.second, joint.first))


def turned_facing_panel(bench: Bench, joint: Joint, depth: float | None) -> Panel:
    """What is faced and the facing on its wrong side, the allowances between them, the seam at the edge; both allowances
    lie at the facing where they have been stitched to it."""
    folded = any(name.startswith(f"{joint.second}.") for name in bench.state.folded)
    held, wide = joint.name in bench.state.topstitched, _drawn_allowance(bench, joint)
    room = 3 * GAP if held else GAP  # between what is faced and its allowance
    low = -room - 2 * GAP
    shapes = strand(Point(-WIDE, 0.0), RIGHT, (Go(WIDE), Fold(False, room), Go(wide)), wrong_left=False, new=False)
    main = (Go(CASING), Fold(True, GAP), Go(wide))
    if folded:
        shapes += strand(Point(5.0 - CASING, low + GAP), LEFT, (Go(5.0), Fold(True, GAP), *main), wrong_left=True)
    else:
        shapes += strand(Point(-CASING, low), RIGHT, main, wrong_left=True)
    shapes.append(stitch(Point(-0.8, -room + 0.6), Point(-0.8, -room - GAP - 0.6), new=False))
    if held:
        shapes.append(stitch(Point(1.2 - wide, -room + 1.4), Point(1.2 - wide, low - 1.4), new=False))
    callouts = (
        Callout(face_words(joint.first, wrong_up=False), Point(4.0 - WIDE, 0.0), bench.number(joint.first), "left"),
        Callout(
            face_words(joint.second, wrong_up=False),
            Point(-CASING * 0.6, low),
            bench.number(joint.second),
            "left",
        ),
        Callout(Phrase.of("figures.seam-at-the-edge"), Point(0.4, -room - GAP / 2), side="right"),
    )
    dimensions: tuple[Dimension, ...] = ()
    if depth is not None:
        dimensions = (Dimension(Point(-CASING, low), Point(0.0, low), length_words(depth), away=-6.0),)
    told = Phrase.of("figures.told-facing", first=joint.first, second=joint.second)
    scene = Scene(tuple(shapes), callouts, dimensions, scale=1.0)
    return Panel("facing turned", scene, told, Phrase.of("figures.cut-through"), (joint.second, joint.first))


def stitched_facing_panel(bench: Bench, joint: Joint, edge: str, distance: float | None) -> Panel:
    """The facing on the wrong side of what it faces, its other edge stitched down."""
    below, above = facing_lying(joint)
    shapes = [*laid(bench, below), *laid(bench, replace(above, new=True))]
    piece = bench.piece_now(joint.second)
    path = Path(tuple(segment for one in piece.edges_of(edge) for segment in one.path.segments))
    away = distance or 3.0
    shapes += [Shape(moved(part, above), Look.STITCHING) for part in parallel_beside(path, away)]
    inner = moved(bench.outline(above.copy), above)
    open_ends = [one.edge for one in piece.hems if f"{joint.second}.{one.edge}" in bench.state.hemmed]
    middles = [piece.edge(name).path.point_at(piece.edge(name).length / 2) for name in open_ends if name != edge]
    callouts = (
        *(Callout(Phrase.of("figures.left-open"), above.rule(middle)) for middle in middles),
        Callout(face_words(joint.second, wrong_up=False), spot_on(inner), bench.number(joint.second)),
        Callout(face_words(joint.first, wrong_up=True), own_spot(bench, below, [inner]), bench.number(joint.first)),
    )
    detail = None
    if distance is not None:
        at, outwards = spot_to_measure(path)
        rim, sewn = above.rule(at), above.rule(at - outwards * away)
        detail = Detail(sewn, away * 3.0, dimensions=(Dimension(sewn, rim, length_words(away)),))
    told = Phrase.of("figures.told-facing-stitched", first=joint.first, second=joint.second, edge=edge)
    scene = Scene(tuple(shapes), callouts, detail=detail)
    return Panel("facing stitched", scene, told, copies=(joint.second, joint.first))
