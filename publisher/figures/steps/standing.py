"""A bag or a box that stands, front and back, seen a little from above. True mm, as far as it is not foreshortened."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from publisher.drafting import PointMark, Seam
from publisher.figures.steps.attached import held_ring
from publisher.figures.steps.cloth import (
    Bench,
    Lying,
    lies_behind,
    moved,
    placed_lyings,
    spread,
    strip_loop,
    texture_of,
)
from publisher.figures.steps.joining import edge_path
from publisher.figures.steps.lines import chain, line
from publisher.figures.steps.marking import marks_on
from publisher.figures.steps.parts import has_parts, whole_and_parts
from publisher.figures.steps.seams import spot_on
from publisher.figures.steps.sides import side_panel
from publisher.figures.steps.strips import held_spot, other_end, strip_shapes
from publisher.figures.steps.values import Callout, Look, Panel, Shape, Texture
from publisher.geometry import Point
from publisher.terms import Phrase

OBLIQUE = 0.36  # of a bag's depth: how far its side is drawn, each way
ABOVE = 0.34  # of a box's depth: how far it is seen from above
SAG, BOW = 0.18, 24  # of the distance of a handle's ends; steps of its bow
AT_SEAM = 3.0  # mm: what is held nearer to a side is caught in its seam
Spots = list[Point]


def bag_panels(bench: Bench, seam: Seam) -> list[Panel]:
    """A bag with boxed corners: both its sides, and a flap that comes over from the other."""
    copies = list(dict.fromkeys(side.copy for side in (*seam.first, *seam.second)))
    return [_bag(bench, seam, copies[0], copies[1], "front"), _bag(bench, seam, copies[1], copies[0], "back")]


def front_of(bench: Bench, seam: Seam, copy: str) -> tuple[Point, Point]:
    """The lower left and the upper right corner of a side of the bag: between its boxed corners, up to its edge."""
    piece = bench.draft.piece(bench.draft.copy(copy).piece)
    box = piece.finished_line.box
    corners = [edge_path(bench.draft, side) for side in (*seam.first, *seam.second) if side.copy == copy]
    inner = [spot for path in corners for spot in (path.start, path.end)]
    middle = (box.left + box.right) / 2
    half = min(abs(spot.x - middle) for spot in inner)
    return Point(middle - half, max(spot.y for spot in inner)), Point(middle + half, box.top)


def _bag(bench: Bench, seam: Seam, copy: str, other: str, face: str) -> Panel:
    low, high = front_of(bench, seam, copy)
    deep = sum(side.length for side in seam.first)
    away = Point(deep * OBLIQUE, deep * OBLIQUE)
    right, left = Point(high.x, low.y), Point(low.x, high.y)
    plain, within = texture_of(bench, copy, wrong_up=False), Texture.LINING
    front = chain([low, right, high, left], closed=True)
    shapes = [
        Shape(chain([left, high, high + away, left + away], closed=True), Look.FOLDED, within, closed=True),
        Shape(chain([right, right + away, high + away, high], closed=True), Look.FOLDED, plain, closed=True),
        Shape(front, Look.FOLDED, plain, closed=True),
        Shape(line(right + away * 0.5, high + away * 0.5), Look.STITCHED),
    ]
    loops = list(loops_out(bench, copy, other, right + away * 0.5, low))
    callouts = [
        Callout(Phrase.of("figures.name", name=copy), low + (high - low) * 0.24, bench.number(copy)),
    ]
    names = [copy]
    for one in bench.draft.placements:
        if one.name not in bench.state.placed or lies_behind(bench, one):
            continue
        if one.below == other and not strip_loop(bench, one.placed):
            flap = _flap_over(bench, one.placed, copy, left + away, high)
            shapes += flap
            if flap:
                names.append(one.placed)
                callouts.append(
                    Callout(Phrase.of("figures.name", name=one.placed), _middle(flap[0]), bench.number(one.placed))
                )
        elif one.below == copy and not strip_loop(bench, one.placed):
            box = moved(bench.outline(one.placed), next(placed_lyings(bench, one, Lying(copy), new=False))).box
            start, end = Point(box.left, high.y), Point(box.right, high.y)
            over = chain([start, end, end + away, start + away], closed=True)
            shapes.append(Shape(over, Look.FOLDED, texture_of(bench, one.placed, wrong_up=False), closed=True))
            names.append(one.placed)
            callouts.append(
                Callout(Phrase.of("figures.name", name=one.placed), end + away * 0.5, bench.number(one.placed))
            )
    for name, loop in loops:
        # What leaves the left side comes from behind the bag.
        at_left = loop.path.box.right < right.x
        shapes = [loop, *shapes] if at_left else [*shapes, loop]
        names.append(name)
        words, spot = Phrase.of("figures.name", name=name), loop.path.point_at(0.0)
        callouts.append(Callout(words, spot, bench.number(name), "left" if at_left else "right"))
    return side_panel(face, shapes, callouts, names)


def loops_out(bench: Bench, copy: str, other: str, right_seam: Point, low: Point) -> Iterator[tuple[str, Shape]]:
    """Strips that were caught in a side seam, which come out of it now: at the right of the side that they were laid on,
    or at the left, seen from there; from the other side of the bag the other way round."""
    for one in bench.draft.placements:
        strip = bench.draft.piece(bench.draft.copy(one.placed).piece).strip
        if one.below not in (copy, other) or one.name not in bench.state.placed or strip is None:
            continue
        spot = held_spot(bench, one, next(placed_lyings(bench, one, Lying(one.below), new=False)))
        box = bench.draft.piece(bench.draft.copy(one.below).piece).finished_line.box
        if min(spot.x - box.left, box.right - spot.x) > AT_SEAM:
            continue
        at_right = (spot.x > (box.left + box.right) / 2) == (one.below == copy)
        foot = Point(right_seam.x, spot.y + right_seam.y - low.y) if at_right else Point(low.x, spot.y)
        half, long = Point(0.0, strip.finished_width / 2), strip.finished_length / 2
        tip = foot + Point(long if at_right else -long, 0.0)
        path = chain([tip + half, foot + half, foot - half, tip - half], closed=True)
        yield one.placed, Shape(path, Look.FOLDED, texture_of(bench, one.placed, wrong_up=False), closed=True)


def _middle(shape: Shape) -> Point:
    box = shape.path.box
    return Point(box.left + (box.right - box.left) * 0.7, box.bottom + (box.top - box.bottom) * 0.45)


def _flap_over(bench: Bench, flap: str, front: str, back_left: Point, front_right: Point) -> list[Shape]:
    """A flap that comes over the opening, so far that its fastening meets that of the front; nothing without one."""
    piece = bench.draft.piece(bench.draft.copy(flap).piece)
    ours = [mark for mark in piece.marks if isinstance(mark, PointMark) and mark.symbol != "point"]
    theirs = [mark for mark in marks_on(bench, front) if isinstance(mark, PointMark) and mark.symbol != "point"]
    pairs = [(one, other) for one in ours for other in theirs if one.symbol == other.symbol]
    if not pairs:
        return []
    box = piece.finished_line.box
    shift = pairs[0][1].at - pairs[0][0].at
    hanging = [spot + shift for spot in piece.finished_line.flattened(0.5) if (spot + shift).y <= front_right.y]
    left, right = box.left + shift.x, box.right + shift.x
    aside = back_left.y - front_right.y
    top = [Point(right, front_right.y), Point(right + aside, back_left.y), Point(left + aside, back_left.y)]
    outline = [*_lowest_first(hanging, left, right), *top, Point(left, front_right.y)]
    texture = texture_of(bench, flap, wrong_up=False)
    fold = Shape(line(Point(left, front_right.y), Point(right, front_right.y)), Look.BEFORE)
    return [Shape(chain(outline, closed=True), Look.FOLDED, texture, closed=True), fold]


def _lowest_first(spots: Sequence[Point], left: float, right: float) -> Spots:
    """Spots of the lower part of an outline from its left side, along its foot, to its right side."""
    lowest = min(spot.y for spot in spots)
    middle = (left + right) / 2
    return sorted(spots, key=lambda spot: _round_about(spot, middle, lowest))


def _round_about(spot: Point, middle: float, lowest: float) -> tuple[int, float]:
    side = -1 if spot.x < middle else 1
    return side, (lowest - spot.y if side < 0 else spot.y - lowest) + (spot.x - middle) * 1e-3


def box_panels(bench: Bench, copy: str) -> list[Panel]:
    """A box: a panel above and one below, the ring that goes round them, with its zip; nothing of what is not built so."""
    rounds = [one for one in bench.draft.seams if one.name in bench.state.sewn and goes_round(bench, one)]
    parted = [one for one in bench.draft.seams if one.name in bench.state.sewn and has_parts(one)]
    if len(rounds) < 2 or not parted or copy not in {side.copy for one in rounds for side in one.first}:
        return []
    whole, parts = whole_and_parts(parted[0])
    return [
        _box(bench, rounds[0], [part.copy for part in parts], whole.copy, whole.length, "front"),
        _box(bench, rounds[0], [], whole.copy, whole.length, "back"),
    ]


def goes_round(bench: Bench, seam: Seam) -> bool:
    """True for a seam all round one copy, and along several others."""
    if len({side.copy for side in seam.first}) != 1 or len({side.copy for side in seam.second}) < 2:
        return False
    line_round = bench.draft.piece(seam.first[0].piece).finished_line
    return abs(sum(side.length for side in seam.first) - line_round.length) < 1.0


def _box(bench: Bench, seam: Seam, parts: Sequence[str], hinge: str, high: float, face: str) -> Panel:
    top = seam.first[0].copy
    turn = 1.0 if face == "front" else -1.0
    plan = [spot * turn for spot in bench.draft.piece(seam.first[0].piece).finished_line.flattened(0.3)]
    near = near_side(plan)

    def seen(spots: Sequence[Point], height: float) -> Spots:
        return [Point(spot.x, spot.y * ABOVE + height) for spot in spots]

    plain = texture_of(bench, top, wrong_up=False)
    wall = chain([*seen(near, 0.0), *seen(near, high)[::-1]], closed=True)
    shapes = [Shape(wall, Look.FOLDED, plain, closed=True)]
    callouts: list[Callout] = []
    names = [top, *(parts or [hinge])]
    heights = [bench.draft.piece(bench.draft.copy(part).piece).finished_line.box.height for part in parts]
    ease, level = high - sum(heights), high
    round_us = chain(near)
    at = round_us.point_at(round_us.length * 0.3)
    for part, height in zip(parts, heights, strict=True):
        low = level - height
        callouts.append(
            Callout(Phrase.of("figures.name", name=part), seen([at], (level + low) / 2)[0], bench.number(part))
        )
        if part != parts[-1]:
            shapes += [Shape(chain(seen(near, edge)), Look.FOLDED) for edge in (low, low - ease)]
            shapes.append(Shape(chain(seen(near, low - ease / 2)), Look.STITCHED))
        level = low - ease
    if not parts:
        callouts.append(Callout(Phrase.of("figures.name", name=hinge), seen([at], high * 0.8)[0], bench.number(hinge)))
        hanging = list(_hanging(bench, hinge, near))
        for later_from, (strip, drawn) in enumerate(hanging, start=1):
            shapes += drawn
            area = next((one.path for one in drawn if one.closed), drawn[0].path)
            covers = [one.path for _, later in hanging[later_from:] for one in later if one.closed]
            spot = area.point_at(area.length * 0.3) if strip_loop(bench, strip) else spot_on(area, None, covers)
            callouts.append(Callout(Phrase.of("figures.name", name=strip), spot, bench.number(strip)))
            names.append(strip)
    lid = seen(plan, high)
    shapes.append(Shape(chain(lid, closed=True), Look.FOLDED, plain, closed=True))
    middle = Point(sum(spot.x for spot in lid), sum(spot.y for spot in lid)) * (1 / len(lid))
    callouts.append(Callout(Phrase.of("figures.name", name=top), middle, bench.number(top)))
    return side_panel(face, shapes, callouts, names)


def near_side(plan: Sequence[Point]) -> Spots:
    """The spots of a convex outline that face the viewer, from left to right."""
    left = min(range(len(plan)), key=lambda at: (round(plan[at].x, 2), plan[at].y))
    ring = [*plan[left:], *plan[:left]]
    right = max(range(len(ring)), key=lambda at: (round(ring[at].x, 2), -ring[at].y))
    return ring[: right + 1]


def _hanging(bench: Bench, hinge: str, near: Sequence[Point]) -> Iterator[tuple[str, list[Shape]]]:
    """What has been placed on the flat back of a box, and its name: a handle from end to end, a tab with its ring."""
    box = bench.draft.piece(bench.draft.copy(hinge).piece).finished_line.box
    foot = Point(min(spot.x for spot in near) - box.left, min(spot.y for spot in near) * ABOVE - box.bottom)
    below = Lying(hinge, lambda spot: spot + foot, new=False)
    drawn: set[str] = set()
    for one in bench.draft.placements:
        if one.below != hinge or one.name not in bench.state.placed or lies_behind(bench, one) or one.placed in drawn:
            continue
        drawn.add(one.placed)
        above = next(placed_lyings(bench, one, below, new=False))
        others = other_end(bench, one)
        if not strip_loop(bench, one.placed):
            yield one.placed, [*held_ring(bench, above), *spread(bench, above)]
        elif others:
            ends = [
                held_spot(bench, end, next(placed_lyings(bench, end, below, new=False))) for end in (one, others[0])
            ]
            yield one.placed, [_handle(bench, one.placed, sorted(ends, key=lambda spot: spot.x))]
        else:
            yield one.placed, strip_shapes(bench, one, above, moved(bench.outline(hinge), below).box)[0]


def _handle(bench: Bench, strip: str, ends: Sequence[Point]) -> Shape:
    """A strip held by both its ends, which hangs in a bow between them, as low as half their distance at most."""
    folded = bench.draft.piece(bench.draft.copy(strip).piece).strip
    assert folded is not None
    (start, end), wide = ends, folded.finished_width / 2
    apart = end - start
    sag = min(max(folded.finished_length - apart.length, 0.0) / 2, apart.length * SAG)
    parts = [at / BOW for at in range(BOW + 1)]
    middle = [start + apart * part - Point(0.0, 4 * sag * part * (1 - part)) for part in parts]
    ways = [(after - before).unit().left() for before, after in pairwise(middle)]
    sides = [*ways, ways[-1]]
    rims = [[spot + side * (wide * sign) for spot, side in zip(middle, sides, strict=True)] for sign in (1.0, -1.0)]
    return Shape(
        chain([*rims[0], *rims[1][::-1]], closed=True), Look.FOLDED, texture_of(bench, strip, False), closed=True
    )
