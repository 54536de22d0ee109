"""A seam that joins one edge to several parts side by side: how they lie, and the layers from their edge."""

import math
from collections.abc import Sequence

from publisher.drafting import Seam, SeamEdge
from publisher.figures.steps.cloth import Bench, Lying, laid, moved, texture_of, turned
from publisher.figures.steps.corners import turn_back
from publisher.figures.steps.joining import carried_onto, edge_path, spots_of
from publisher.figures.steps.lines import chain
from publisher.figures.steps.seams import spot_on, spot_to_measure
from publisher.figures.steps.strands import GAP, Go, bare_strand, stitch, strand
from publisher.figures.steps.values import Callout, Dimension, Look, Panel, Scene, Shape, Texture
from publisher.figures.steps.wording import face_words, length_words, names_of
from publisher.geometry import Path, Point
from publisher.terms import Phrase

WIDE = 30.0  # mm on paper, of the section
RIGHT = Point(1.0, 0.0)
LEAST = 0.5  # mm: a shorter stretch between two parts is none
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
    """The parts side by side, right side up, in the order of the seam; the whole copy on them, wrong side up.

    The first side of a seam runs counter-clockwise round its copies, the other clockwise.
    """
    whole, parts = whole_and_parts(seam)
    above = Lying(whole.copy, turned(), wrong_up=True)
    edge = moved(edge_path(bench.draft, whole), above)
    leads = whole is seam.first[0]
    lyings, gaps = _side_by_side(bench, edge if leads else edge.reversed(), parts, whole.length, against=leads)
    shapes = [shape for one in lyings for shape in laid(bench, one)]
    if bench.zip_between:
        shapes = [*(shape for gap in gaps for shape in _zip_in(gap, bench, lyings[0])), *shapes]
    upper = moved(bench.outline(whole.copy), above)
    back = turn_back(upper, [edge])
    wrong, right = (texture_of(bench, whole.copy, wrong_up) for wrong_up in (True, False))
    shapes += back.shapes(wrong, right, Look.RAW)
    shapes += [Shape(path, Look.STITCHING) for path in back.kept_line(edge)]
    wide = max((amount for side in (whole, *parts) for amount in side.allowances), default=0.0)
    at, inwards = spot_to_measure(edge, back)  # turned over, the edge runs clockwise
    across = (Dimension(at, at - inwards * wide, length_words(wide)),) if wide else ()
    callouts = [Callout(face_words(whole.copy, wrong_up=True), spot_on(upper, back), bench.number(whole.copy))]
    for one in lyings:
        outline = moved(bench.outline(one.copy), one)
        spot = spot_on(outline, None, [upper])
        callouts.append(Callout(face_words(one.copy, wrong_up=False), spot, bench.number(one.copy)))
    told = Phrase.of(
        "figures.told-parts",
        whole=whole.copy,
        parts=names_of([part.copy for part in parts]),
        seam=seam.name,
        allowance=length_words(wide),
    )
    copies = (whole.copy, *(part.copy for part in parts))
    return Panel("seam onto parts", Scene(tuple(shapes), tuple(callouts), across), told, copies=copies, wide=True)


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
    inwards = Point(1.0, 0.0) if box.left + box.right > 2 * middle.x else Point(-1.0, 0.0)
    reach = inwards * box.width
    tape = chain([gap.start, gap.end, gap.end + reach, gap.start + reach], closed=True)
    return [
        Shape(tape, Look.BEFORE, Texture.PLAIN, closed=True),
        Shape(chain([middle, middle + reach]), Look.STITCHED),
    ]


def layers_panel(bench: Bench, seams: Sequence[Seam]) -> Panel:
    """The parts between two copies, all edges level, cut through; what is held at its other end already is rolled up."""
    first, parts = whole_and_parts(seams[0])
    second, _ = whole_and_parts(seams[1])
    rolled = any(
        name in bench.state.sewn and {side.copy for side in (*one.first, *one.second)} >= {first.copy, parts[0].copy}
        for name, one in ((one.name, one) for one in bench.draft.seams)
    )
    gap = GAP * (4.6 if rolled else 1.0)
    shapes = strand(Point(0.0, -gap), RIGHT, (Go(WIDE),), wrong_left=False)
    shapes += strand(Point(0.0, gap), RIGHT, (Go(WIDE),), wrong_left=True)
    if rolled:
        shapes.append(Shape(chain(_spiral(Point(WIDE * 0.36, 0.0), gap * 0.62, Point(WIDE, 0.0))), Look.CLOTH_BEFORE))
    else:
        shapes.append(bare_strand(Point(-6.0, 0.0), RIGHT, (Go(WIDE + 6.0),), Look.CLOTH_BEFORE))
    shapes.append(stitch(Point(WIDE - 7.0, gap + 2.4), Point(WIDE - 7.0, -gap - 2.4)))
    wide = max((amount for side in (first, *parts) for amount in side.allowances), default=0.0)
    across = Dimension(Point(WIDE, gap), Point(WIDE - 7.0, gap), length_words(wide), away=-6.0)
    callouts = (
        Callout(face_words(second.copy, wrong_up=True), Point(4.0, gap), bench.number(second.copy), "left"),
        Callout(
            Phrase.of("figures.rolled" if rolled else "figures.between", copy=names_of([part.copy for part in parts])),
            Point(WIDE * 0.36 if rolled else 2.0, gap * 0.62 if rolled else 0.0),
            side="right" if rolled else "left",
        ),
        Callout(face_words(first.copy, wrong_up=False), Point(4.0, -gap), bench.number(first.copy), "left"),
    )
    told = Phrase.of(
        "figures.told-between",
        parts=names_of([part.copy for part in parts]),
        first=first.copy,
        second=second.copy,
        allowance=length_words(wide),
    )
    scene = Scene(tuple(shapes), callouts, (across,), scale=1.0)
    copies = (first.copy, *(part.copy for part in parts), second.copy)
    return Panel("parts between", scene, told, Phrase.of("figures.cut-through"), copies)


def _spiral(middle: Point, radius: float, end: Point) -> list[Point]:
    """A roll seen from its end, and the cloth that runs from it."""
    many = 60
    spots: list[Point] = []
    for at in range(many + 1):
        angle = math.tau * TURNS * at / many - math.tau * (TURNS % 1.0) - math.pi / 2
        reach = radius * (0.15 + 0.85 * at / many)
        spots.append(middle + Point(math.cos(angle), math.sin(angle)) * reach)
    return [*spots, Point(middle.x + radius * 1.5, -radius * 0.8), Point(middle.x + radius * 2.6, 0.0), end]
