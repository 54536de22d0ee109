"""A seam that joins one edge to several parts side by side: how they lie, and the layers from their edge."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from publisher.drafting import Seam, SeamEdge
from publisher.figures.steps.attached import laid
from publisher.figures.steps.cloth import (
    Bench,
    Lying,
    lies_behind,
    moved,
    placed_lyings,
    strip_loop,
    texture_of,
    turned,
)
from publisher.figures.steps.corners import turn_back
from publisher.figures.steps.joining import carried_onto, edge_path, spots_of
from publisher.figures.steps.lines import box_path, chain
from publisher.figures.steps.seams import on_top, spot_on, spot_to_measure, stitched_line
from publisher.figures.steps.strands import GAP, Go, stitch, strand
from publisher.figures.steps.strips import held_at_done_edge, strip_shapes
from publisher.figures.steps.values import Callout, Detail, Dimension, Look, Panel, Scene, Shape, Texture
from publisher.figures.steps.wording import face_words, length_words, names_of
from publisher.geometry import Path, Point, area_within, inside, line_within, nearest
from publisher.terms import Phrase

WIDE = 30.0  # mm on paper, of the section
RIGHT = Point(1.0, 0.0)
LEAST = 0.5  # mm: a shorter stretch between two parts is none
SEWN = 7.0  # … from the raw edges to the seam
ROLL = 0.11  # of a copy's width: half of what is rolled up below it
TURNS = 2.4  # of what is rolled up between two layers


def has_parts(seam: Seam) -> bool:
    """True for a seam with one edge on one side and several, of other copies, on the other."""
    return min(len(seam.first), len(seam.second)) == 1 < max(len(seam.first), len(seam.second))


def whole_and_parts(seam: Seam) -> tuple[SeamEdge, tuple[SeamEdge, ...]]:
    """The side with one edge, and the several of the other."""
    return (seam.first[0], seam.second) if len(seam.first) == 1 else (seam.second[0], seam.first)


def between_two(one: Seam, other: Seam) -> bool:
    """True for two such seams between the same pieces: the parts lie between two like copies."""
    sides = [whole_and_parts(seam) for seam in (one, other)]
    pieces = [(whole.piece, *(part.piece for part in parts)) for whole, parts in sides]
    return pieces[0] == pieces[1] and sides[0][0].copy != sides[1][0].copy


def parts_panel(bench: Bench, seam: Seam) -> Panel:
    """The parts side by side, right side up, in the order of the seam; the whole copy on them, wrong side up, and what it
    carries below it. Parts that are held at their other end already lie rolled up under it.

    The first side of a seam runs counter-clockwise round its copies, the other clockwise.
    """
    whole, parts = whole_and_parts(seam)
    above = Lying(whole.copy, turned(), wrong_up=True)
    edge = moved(edge_path(bench.draft, whole), above)
    leads = whole is seam.first[0]
    lyings, gaps = _side_by_side(bench, edge if leads else edge.reversed(), parts, whole.length, against=leads)
    upper = moved(bench.outline(whole.copy), above)
    rolled = is_held(bench, whole.copy, parts[0].copy)
    back = turn_back(upper, [edge])
    shapes = [shape for one in lyings for shape in laid(bench, one)]
    if bench.zip_between:
        shapes = [*(shape for gap in gaps for shape in _zip_in(gap, bench, lyings[0])), *shapes]
    if rolled:
        shapes = list(_kept_within(shapes, upper))
    wrong, right = (texture_of(bench, whole.copy, wrong_up) for wrong_up in (True, False))
    shapes += back.shapes(wrong, right, Look.RAW, on_top(bench, above, back))
    for done in (one.path for one in bench.piece_now(whole.copy).edges if bench.done(whole.copy, one.name)):
        shapes += [Shape(path, Look.BEFORE_FOLDED) for path in back.kept_line(moved(done, above))]
    hidden = sorted(_below(bench, above, upper), key=lambda one: nearest(edge, one[1].start)[2])
    shapes += [Shape(path, Look.HIDDEN) for _, path in hidden]
    sewn = stitched_line(edge, upper, bench.stops_short)
    shapes += [Shape(path, Look.STITCHING) for path in back.kept_line(sewn)]
    wide = max((amount for side in (whole, *parts) for amount in side.allowances), default=0.0)
    at, inwards = spot_to_measure(edge, back)  # turned over, the edge runs clockwise
    across = [Dimension(at, at - inwards * wide, length_words(wide))] if wide else []
    callouts = [Callout(face_words(whole.copy, wrong_up=True), spot_on(upper, back), bench.number(whole.copy))]
    named: set[str] = set()
    for copy, path in hidden:
        if copy not in named:
            named.add(copy)
            words = Phrase.of("figures.within", copy=copy)
            callouts.append(Callout(words, path.point_at(path.length * 0.02), bench.number(copy)))
    if rolled:
        roll = _roll_below(upper)
        shapes.append(Shape(roll, Look.HIDDEN))
        words = Phrase.of("figures.rolled", copy=names_of([part.copy for part in parts]))
        callouts.append(Callout(words, roll.point_at(roll.length * 0.94)))
    for one in lyings:
        outline = moved(bench.outline(one.copy), one)
        if not rolled:
            spot = spot_on(outline, None, [upper])
            callouts.append(Callout(face_words(one.copy, wrong_up=False), spot, bench.number(one.copy)))
        elif inside(outline, back.bare_spot):
            callouts.append(Callout(face_words(one.copy, wrong_up=False), back.bare_spot, bench.number(one.copy)))
    told = Phrase.of(
        "figures.told-parts",
        whole=whole.copy,
        parts=names_of([part.copy for part in parts]),
        seam=seam.name,
        allowance=length_words(wide),
    )
    detail = _stop(sewn, upper, wide, shapes) if bench.stops_short and wide else None
    copies = (whole.copy, *(part.copy for part in parts))
    # Where a closer view shows how wide the allowance is, it is not measured in the plan, too.
    scene = Scene(tuple(shapes), tuple(callouts), () if detail is not None else tuple(across), detail=detail)
    return Panel("seam onto parts", scene, told, copies=copies, wide=True)


def _stop(sewn: Path, upper: Path, wide: float, shapes: Sequence[Shape]) -> Detail:
    """The lower end of stitching that stops where the next seam will cross it, magnified: as far from the raw edge as the
    stitching itself."""
    end = min((sewn.start, sewn.end), key=lambda spot: spot.y)
    foot = Point(end.x, upper.box.bottom)
    middle = (end + foot) * 0.5 + Point(0.0, wide * 0.4)
    held = Callout(Phrase.of("figures.backstitch"), end)
    return Detail(middle, wide * 1.5, tuple(shapes), (Dimension(foot, end, length_words(wide)),), (held,))


def _below(bench: Bench, above: Lying, upper: Path) -> Iterator[tuple[str, Path]]:
    """What lies on the other face of a copy, seen through it: (its name, its outline)."""
    for one in bench.draft.placements:
        if one.below != above.copy or one.name not in bench.state.placed or lies_behind(bench, one):
            continue
        lying = next(placed_lyings(bench, one, above, new=False))
        if strip_loop(bench, one.placed):
            caught = held_at_done_edge(bench, one)
            yield one.placed, strip_shapes(bench, one, lying, upper.box, caught=caught)[0][0].path
        else:
            yield one.placed, moved(bench.outline(one.placed), lying)


def _kept_within(shapes: Sequence[Shape], area: Path) -> Iterator[Shape]:
    """What of shapes lies in an area."""
    for one in shapes:
        parts = area_within(one.path, area) if one.closed else line_within(one.path, area)
        yield from (replace(one, path=path) for path in parts)


def _roll_below(upper: Path) -> Path:
    """A roll in the middle below a copy, as long as that is high."""
    box = upper.box
    middle, half = (box.left + box.right) / 2, box.width * ROLL
    return box_path(middle - half, box.bottom, middle + half, box.top)


def is_held(bench: Bench, whole: str, part: str) -> bool:
    """True where a seam between two copies has been sewn already: what is sewn now is their other ends."""
    return any(
        one.name in bench.state.sewn and {side.copy for side in (*one.first, *one.second)} >= {whole, part}
        for one in bench.draft.seams
    )


def _side_by_side(
    bench: Bench, edge: Path, parts: Sequence[SeamEdge], whole: float, against: bool
) -> tuple[list[Lying], list[Path]]:
    """How each part lies along the edge, in order, and the stretches between them, which share out the ease."""
    rest = max(whole - sum(part.length for part in parts), 0.0) / max(len(parts) - 1, 1)
    found: list[Lying] = []
    gaps: list[Path] = []
    begin = 0.0
    for part in parts:
        end = begin + part.length
        path = edge_path(bench.draft, part)
        spots = spots_of(path.reversed() if against else path)
        found.append(Lying(part.copy, carried_onto(spots, spots_of(_stretch(edge, begin, end))), new=False))
        if rest > LEAST and part is not parts[-1]:
            gaps.append(_stretch(edge, end, end + rest))
        begin = end + rest
    return found, gaps


def _stretch(edge: Path, begin: float, end: float) -> Path:
    after = edge.split(begin)[1] if begin > 0 else edge
    return after.split(end - begin)[0] if end < edge.length - LEAST else after


def _zip_in(gap: Path, bench: Bench, beside: Lying) -> list[Shape]:
    """The zip between two parts, as far as the part before it reaches: its tape, and its chain in the middle."""
    box = moved(bench.outline(beside.copy), beside).box
    middle = gap.point_at(gap.length / 2)
    near, far = sorted((box.left, box.right), key=lambda x: abs(x - middle.x))
    ends = [Point(x, middle.y) - middle for x in (near, far)]
    tape = chain([gap.start + ends[0], gap.end + ends[0], gap.end + ends[1], gap.start + ends[1]], closed=True)
    return [
        Shape(tape, Look.BEFORE, Texture.PLAIN, closed=True),
        Shape(chain([middle + end for end in ends]), Look.STITCHED),
    ]


def layers_panel(bench: Bench, seams: Sequence[Seam]) -> Panel:
    """The parts between two copies, all edges level, cut through, in the order in which they lie in the plan: the parts of
    each seam beside its whole. What is held at its other end already is rolled up."""
    (upper, over), (lower, under) = (whole_and_parts(seam) for seam in seams)
    rolled = is_held(bench, upper.copy, over[0].copy)
    wide, gap, half = (WIDE * 1.5, GAP * 4.6, GAP * 0.6) if rolled else (WIDE, GAP * 1.8, GAP * 0.6)
    shapes = strand(Point(0.0, -gap), RIGHT, (Go(wide),), wrong_left=False)
    shapes += strand(Point(0.0, gap), RIGHT, (Go(wide),), wrong_left=True)
    inner: list[Point]
    if rolled:
        middle, radius = Point(wide / 2, 0.0), gap * 0.62
        for at, level in ((radius, -half), (radius - 1.2, half)):
            spiral = _spiral(middle, at, Point(wide, level))
            shapes.append(Shape(chain(spiral), Look.CLOTH_BEFORE))
            shapes.append(Shape(chain([Point(0.0, level), Point(middle.x - at, level)]), Look.CLOTH_BEFORE))
        shapes.append(stitch(Point(SEWN, gap), Point(SEWN, -gap), new=False))
        inner = [Point(middle.x, radius - 1.2), Point(middle.x, -radius)]
    else:
        for level, wrong_left in ((-half, True), (half, False)):
            shapes += strand(Point(-6.0, level), RIGHT, (Go(wide + 6.0),), wrong_left, new=False)
        inner = [Point(-4.0, half), Point(-4.0, -half)]
    shapes.append(stitch(Point(wide - SEWN, gap + 2.4), Point(wide - SEWN, -gap - 2.4)))
    allowance = max((amount for side in (upper, *over) for amount in side.allowances), default=0.0)
    across = Dimension(Point(wide, gap), Point(wide - SEWN, gap), length_words(allowance), away=-6.0)
    key = "figures.rolled" if rolled else "figures.name"
    word = "copy" if rolled else "name"
    callouts = [
        Callout(face_words(upper.copy, wrong_up=True), Point(4.0, gap), bench.number(upper.copy), "left"),
        Callout(Phrase.of(key, **{word: names_of([one.copy for one in over])}), inner[0], side="left"),
        Callout(Phrase.of(key, **{word: names_of([one.copy for one in under])}), inner[1], side="left"),
        Callout(face_words(lower.copy, wrong_up=False), Point(4.0, -gap), bench.number(lower.copy), "left"),
    ]
    told = Phrase.of(
        "figures.told-between",
        parts=names_of([part.copy for part in (*over, *under)]),
        first=upper.copy,
        second=lower.copy,
        allowance=length_words(allowance),
    )
    scene = Scene(tuple(shapes), tuple(callouts), (across,), scale=1.0)
    copies = (upper.copy, *(part.copy for part in over), lower.copy)
    return Panel("parts between", scene, told, Phrase.of("figures.cut-through"), copies)


def _spiral(middle: Point, radius: float, end: Point) -> list[Point]:
    """A roll seen from its end, and the cloth that runs from it."""
    many = 60
    spots: list[Point] = []
    for at in range(many + 1):
        angle = math.tau * TURNS * at / many - math.tau * (TURNS % 1.0) - math.pi / 2
        reach = radius * (0.15 + 0.85 * at / many)
        spots.append(middle + Point(math.cos(angle), math.sin(angle)) * reach)
    return [*spots, Point(middle.x + radius * 1.5, -radius * 0.8), Point(middle.x + radius * 2.4, end.y), end]
