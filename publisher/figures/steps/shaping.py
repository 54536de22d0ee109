"""Seams that give shape: a corner boxed, one bag in another, a piece folded on itself, edges that part when laid flat."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from publisher.drafting import Notch, Placement, Seam
from publisher.figures.steps.attached import carried_areas, laid
from publisher.figures.steps.cloth import (
    Bench,
    Lying,
    as_it_lies,
    longer_side,
    moved,
    strip_loop,
    texture_of,
    turned,
)
from publisher.figures.steps.corners import TurnedBack, turn_back
from publisher.figures.steps.joining import Joint, edge_path
from publisher.figures.steps.lines import chain, line
from publisher.figures.steps.marking import mark_shapes, notches_of
from publisher.figures.steps.seam_sections import seam_section
from publisher.figures.steps.seams import spot_on, spot_to_measure, stitching_of
from publisher.figures.steps.strands import GAP, Fold, Go, stitch, strand
from publisher.figures.steps.values import Arrow, Callout, Dimension, Look, Panel, Scene, Shape
from publisher.figures.steps.wording import face_words, length_words, names_of
from publisher.geometry import Path, Point, area_within, folded_along, mirrored
from publisher.terms import Phrase

RIGHT = Point(1.0, 0.0)
FLAT_SECTION = 28.0  # mm of cloth in the section of a seam


def is_boxed(seam: Seam) -> bool:
    """True for a seam across a corner: on both sides the same two copies."""
    return seam.boxes_a_corner


def is_tube(seam: Seam) -> bool:
    """True for a seam round the edges of two bags."""
    first, second = {side.copy for side in seam.first}, {side.copy for side in seam.second}
    return len(first) > 1 and len(second) > 1 and not first & second


def boxed_panels(bench: Bench, seams: Sequence[Seam]) -> list[Panel]:
    """Which edges of a corner are brought together, and the corner sewn across."""
    seam = seams[0]
    return [_brought_together(bench, seam), _sewn_across(bench, seam)]


def _brought_together(bench: Bench, seam: Seam) -> Panel:
    """One corner, wrong side up: the two edges that are brought edge on edge, and which way they go."""
    copy = seam.first[0].copy
    lying = Lying(copy, turned(), wrong_up=True, new=False)
    edges = [moved(edge_path(bench.draft, side), lying) for side in (*seam.first, *seam.second) if side.copy == copy]
    one, other = (_middle(path) for path in edges[:2])
    outline = moved(bench.outline(copy), lying)
    spots = [spot for path in edges for spot in (path.start, path.end)]
    size = max(path.length for path in edges)
    box = outline.box
    inner = Point(
        min(spot.x for spot in spots) - 2.4 * size
        if one.x + other.x > box.left + box.right
        else max(spot.x for spot in spots) + 2.4 * size,
        max(spot.y for spot in spots) + 1.6 * size,
    )
    corner = Point(box.right if inner.x < one.x else box.left, box.bottom)
    shapes = [
        Shape(path, Look.BEFORE, texture_of(bench, copy, wrong_up=True), closed=True)
        for path in _within(outline, corner, inner)
    ]
    shapes += [
        Shape(path, Look.BEFORE, one.texture, closed=True)
        for one in carried_areas(bench, lying)
        for part in _within(outline, corner, inner)
        for path in area_within(one.path, part)
    ]
    shapes += [Shape(path, Look.FOLDED) for path in edges]
    middle = (one + other) * 0.5
    arrows = tuple(Arrow(spot, spot + (middle + (corner - middle) * 0.55 - spot) * 0.85) for spot in (one, other))
    named = Callout(face_words(copy, wrong_up=True), inner + (corner - inner) * 0.25, bench.number(copy))
    told = Phrase.of("figures.told-box-before", copy=copy)
    caption = Phrase.of("figures.box-before")
    return Panel("corner to box", Scene(tuple(shapes), (named,), (), arrows), told, caption, (copy,))


def _within(outline: Path, corner: Point, inner: Point) -> list[Path]:
    """What of an area lies in the box between its corner and a spot within it."""
    parts = [outline]
    for way, far in ((Point(0.0, 1.0), inner.x - corner.x), (Point(1.0, 0.0), corner.y - inner.y)):
        start, end = (inner, inner + way) if far < 0 else (inner, inner - way)
        away = Point(inner.x * 2 - corner.x, inner.y * 2 - corner.y)
        parts = [kept for part in parts for kept in _kept(part, end, start, away)]
    return parts


def _kept(part: Path, start: Point, end: Point, away: Point) -> tuple[Path, ...]:
    try:
        return folded_along(part, start, end, away)[0]
    except ValueError:
        return (part,)


def _middle(path: Path) -> Point:
    return path.point_at(path.length / 2)


def _sewn_across(bench: Bench, seam: Seam) -> Panel:
    """The corner flattened: cloth flares from it at 45°, the seam that was sewn runs down its middle."""
    across = sum(side.length for side in seam.first)
    wide = max((amount for side in seam.first for amount in side.allowances), default=0.0)
    half, deep = across / 2 - wide, across * 0.95
    copy = seam.first[0].copy
    texture = texture_of(bench, copy, wrong_up=True)
    flare = [Point(-half, 0.0), Point(-half - deep, -deep), Point(half + deep, -deep), Point(half, 0.0)]
    shapes = [
        Shape(chain(flare, closed=True), None, texture, closed=True),
        Shape(line(flare[0], flare[3]), Look.RAW),
        Shape(line(flare[0], flare[1]), Look.FOLDED),
        Shape(line(flare[2], flare[3]), Look.FOLDED),
        Shape(line(Point(0.0, 0.0), Point(0.0, -deep)), Look.STITCHED),
        Shape(line(Point(-wide, 0.0), Point(-wide, -deep)), Look.BEFORE),
        Shape(line(Point(wide, 0.0), Point(wide, -deep)), Look.BEFORE),
        Shape(line(Point(-across / 2, -wide), Point(across / 2, -wide)), Look.STITCHING),
    ]
    dimensions = (
        Dimension(Point(-across / 2, -wide), Point(across / 2, -wide), length_words(across), away=9.0),
        Dimension(Point(half * 0.6, -wide), Point(half * 0.6, 0.0), length_words(wide)),
    )
    callouts = (Callout(Phrase.of("figures.seams-matched"), Point(0.0, -deep * 0.6)),)
    told = Phrase.of(
        "figures.told-box", copy=copy, seam=seam.name, across=length_words(across), allowance=length_words(wide)
    )
    return Panel(
        "boxed corner", Scene(tuple(shapes), callouts, dimensions), told, Phrase.of("figures.box-sewn"), (copy,)
    )


def tube_panel(bench: Bench, seam: Seam, turns: bool) -> Panel:
    """One bag slipped into the other, right sides together, cut through: the edges level, what lies between them, the
    gap to turn through."""
    inner, outer = ([side.copy for side in sides] for sides in (seam.first, seam.second))
    wide, high = 44.0, 38.0
    gap = any(other.leave_open > 0 and {side.copy for side in other.first} <= set(outer) for other in bench.draft.seams)
    shapes = _bag(wide, high, 0.0, wrong_out=True, gap=gap)
    shapes += _bag(wide - 12.0, high - 6.0, 6.0, wrong_out=False, gap=False)
    shapes += [stitch(Point(x - 1.5, high - 5.0), Point(x + 7.5, high - 5.0)) for x in (0.0, wide - 6.0)]
    callouts = [
        Callout(Phrase.of("figures.right-side-out", copies=names_of(inner)), Point(wide - 6.0, high * 0.62)),
        Callout(Phrase.of("figures.wrong-side-out", copies=names_of(outer)), Point(wide, high * 0.34)),
    ]
    held = [one for one in bench.draft.placements if one.below in inner and one.name in bench.state.placed]
    held = [
        one
        for one in held
        if bench.kind(one.placed) not in ("interfacing", "wadding") and _at_the_top(bench, one, seam)
    ]
    for one in held[:2]:
        left = one.below == inner[-1]
        x = 2.8 if left else wide - 2.8
        shapes.append(Shape(line(Point(x, high), Point(x, high - 17.0)), Look.CLOTH_BEFORE))
        callouts.append(
            Callout(Phrase.of("figures.between", copy=one.placed), Point(x, high - 12.0), bench.number(one.placed))
        )
    allowance = max((amount for side in seam.first for amount in side.allowances), default=0.0)
    dimensions = (Dimension(Point(wide, high - 5.0), Point(wide, high), length_words(allowance), away=-4.0),)
    arrows: list[Arrow] = []
    if gap:
        callouts.append(Callout(Phrase.of("figures.gap"), Point(wide / 2 + 4.5, 0.0)))
        arrows += [Arrow(Point(wide / 2, 12.0), Point(wide / 2, -9.0))] if turns else []
    told = Phrase.of(
        "figures.told-tube",
        seam=seam.name,
        inner=names_of(inner),
        outer=names_of(outer),
        allowance=length_words(allowance),
    )
    scene = Scene(tuple(shapes), tuple(callouts), dimensions, tuple(arrows), scale=1.0)
    return Panel("bag in bag", scene, told, Phrase.of("figures.cut-through"), (*inner, *outer))


def _at_the_top(bench: Bench, placement: Placement, seam: Seam) -> bool:
    """False for a strip that is held at a notch of another edge than those that are sewn now: it lies clear of the seam."""
    there = {name for _, name in placement.matching}
    piece = bench.draft.piece(bench.draft.copy(placement.below).piece)
    edges = {mark.edge for mark in piece.marks if isinstance(mark, Notch) and mark.name in there}
    sewn = {edge.name for side in seam.first if side.copy == placement.below for edge in piece.edges_of(side.edge)}
    return not strip_loop(bench, placement.placed) or not edges or bool(edges & sewn)


def _bag(wide: float, high: float, inset: float, wrong_out: bool, gap: bool) -> list[Shape]:
    """A bag cut through: from its left upper edge down, across and up; open at its middle where there is a gap."""
    left, top = Point(inset, high + inset), high
    corners = [left, Point(inset, inset), Point(inset + wide, inset), Point(inset + wide, top + inset)]
    if not gap:
        return _cloth(corners, wrong_out)
    middle = inset + wide / 2
    first = [*corners[:2], Point(middle - 6.0, inset)]
    return [*_cloth(first, wrong_out), *_cloth([Point(middle + 6.0, inset), *corners[2:]], wrong_out)]


def _cloth(corners: Sequence[Point], wrong_out: bool) -> list[Shape]:
    """Cloth through corners, its outside to the right of the way."""
    shapes: list[Shape] = [Shape(chain(corners), Look.CLOTH)]
    aside = 0.65 if not wrong_out else -0.65
    for one, other in pairwise(corners):
        shift = (other - one).unit().left() * aside
        shapes.append(Shape(line(one + shift, other + shift), Look.WRONG_TICKS))
    return shapes


def folded_seam(bench: Bench, joint: Joint) -> Panel | None:
    """A piece folded right sides together, so that two of its edges are sewn to each other; None where no fold does it."""
    lying = Lying(joint.first, as_it_lies)
    outline = moved(bench.outline(joint.first), lying)
    one, other = _middle(joint.first_path), _middle(joint.second_path)
    if (one - other).length < 1.0:
        return None
    middle, aside = (one + other) * 0.5, (one - other).unit()
    start, end = middle + aside.left(), middle - aside.left()
    if (one - start).dot((end - start).left()) < 0:
        start, end = end, start
    try:
        kept, over = folded_along(outline, start, end, other)
    except ValueError:
        return None
    upper = mirrored(over, start, end - start)
    fold = _on_line(over, start, end)
    back = turn_back(upper, [joint.first_path, fold])
    wrong, right = (texture_of(bench, joint.first, wrong_up) for wrong_up in (True, False))
    shapes = [Shape(path, Look.RAW, right, closed=True) for path in kept]
    shapes += back.shapes(wrong, right, Look.RAW, _backed(bench, joint.first, (start, end), other, back))
    shapes.append(Shape(fold, Look.FOLDED))
    for path in stitching_of([joint], outline, bench.stops_short):
        shapes += [Shape(part, Look.STITCHING) for part in back.kept_line(path)]
    at, outwards = spot_to_measure(joint.first_path, back)
    across = (Dimension(at, at + outwards * joint.allowance, length_words(joint.allowance)),) if joint.allowance else ()
    number = bench.number(joint.first)
    callouts = (
        Callout(face_words(joint.first, wrong_up=True), spot_on(upper, back), number),
        Callout(Phrase.of("figures.right-side-within"), back.bare_spot),
        Callout(Phrase.of("figures.fold"), _middle(fold)),
    )
    told = Phrase.of(
        "figures.told-folded-seam", copy=joint.first, seam=joint.name, allowance=length_words(joint.allowance)
    )
    return Panel("folded seam", Scene(tuple(shapes), callouts, across), told, copies=(joint.first,))


def _backed(bench: Bench, copy: str, fold: tuple[Point, Point], other: Point, back: TurnedBack) -> list[Shape]:
    """What a copy carries on its wrong side, as far as it lies up where the copy is folded and no corner is turned back."""
    start, end = fold
    shapes: list[Shape] = []
    for one in carried_areas(bench, Lying(copy, as_it_lies, wrong_up=True, new=False)):
        try:
            over = folded_along(one.path, start, end, other)[1]
        except ValueError:
            continue
        shapes.append(replace(one, path=back.kept_area(mirrored(over, start, end - start))[0], look=Look.BEFORE))
    return shapes


def _on_line(path: Path, start: Point, end: Point) -> Path:
    """The stretch of an outline that lies on a line."""
    way = (end - start).unit()
    spots = [spot for spot in path.flattened(0.05) if abs((spot - start).cross(way)) < 0.01]
    return line(min(spots, key=lambda spot: spot.dot(way)), max(spots, key=lambda spot: spot.dot(way)))


def parted_seam(bench: Bench, joint: Joint) -> list[Panel]:
    """Two edges that meet only when they are sewn: each on its piece, and both from their ends, right sides together."""
    return [
        _edge_panel(bench, joint.first, joint.first_path, joint.second, joint.name),
        _edge_panel(bench, joint.second, joint.second_path, joint.first, joint.name),
        seam_section(bench, joint),
    ]


def _edge_panel(bench: Bench, copy: str, path: Path, other: str, name: str) -> Panel:
    lying = Lying(copy)
    shapes = laid(bench, lying) + mark_shapes(notches_of(bench, copy), lying, new=True, size=longer_side(bench, copy))
    shapes.append(Shape(path, Look.STITCHING))
    spot = path.point_at(path.length * 0.3)
    callouts = (
        Callout(Phrase.of("figures.this-edge-to", other=other), spot),
        Callout(face_words(copy, wrong_up=False), spot_on(bench.outline(copy)), bench.number(copy)),
    )
    told = Phrase.of("figures.told-edge", copy=copy, other=other, seam=name)
    return Panel("edge to sew", Scene(tuple(shapes), callouts), told, copies=(copy,))


def closed_gap(seam: Seam) -> Panel:
    """A gap sewn shut, from the edge: both allowances folded in, stitched close to the folds."""
    upper = strand(Point(0.0, 3.2 * GAP), RIGHT, (Go(FLAT_SECTION), Fold(False), Go(9.0)), wrong_left=False)
    lower = strand(Point(0.0, 0.0), RIGHT, (Go(FLAT_SECTION), Fold(True), Go(9.0)), wrong_left=True)
    sewn = stitch(Point(FLAT_SECTION - 2.0, 3.2 * GAP + 2.2), Point(FLAT_SECTION - 2.0, -2.2))
    names = names_of([side.copy for side in (*seam.first, *seam.second)])
    callouts = (Callout(Phrase.of("figures.folded-in-both"), Point(FLAT_SECTION - 7.0, GAP)),)
    told = Phrase.of("figures.told-close", seam=seam.name, copies=names)
    scene = Scene((*lower, *upper, sewn), callouts, scale=1.0)
    copies = tuple(side.copy for side in (*seam.first, *seam.second))
    return Panel("gap closed", scene, told, Phrase.of("figures.gap-closed"), copies)
