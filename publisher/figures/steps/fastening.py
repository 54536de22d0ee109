"""A notion set in cloth: where it sits, and the layers it goes through, from its edge."""

from publisher.drafting import LineMark, Notion, PointMark
from publisher.figures.steps.cloth import Bench, Lying, as_it_lies, carried, laid, longer_side, moved, turned
from publisher.figures.steps.lines import box_path, chain, ring
from publisher.figures.steps.marking import mark_shapes, marks_on
from publisher.figures.steps.seams import spot_on
from publisher.figures.steps.spots import finished_lines, spot_dimensions
from publisher.figures.steps.strands import Fold, Go, bare_strand, stitch, strand
from publisher.figures.steps.values import Callout, Look, Panel, Scene, Shape, Texture
from publisher.figures.steps.wording import face_words
from publisher.geometry import Point, inside
from publisher.terms import Phrase

HALF = 20.0  # mm of cloth on either side of a snap, from its edge
LAYER = 2.2
PRONGED = ("magnetic snap",)  # kinds that go through the cloth and are bent over a washer


def attached_panels(bench: Bench, notion: Notion, spot: str) -> list[Panel]:
    """The notion at its mark, seen on the face that the mark is for, and cut through with its reinforcement."""
    copy, _, name = spot.partition(".")
    mark = next((one for one in marks_on(bench, copy) if isinstance(one, PointMark) and one.name == name), None)
    if mark is None:
        return [_folded_round(bench, notion, copy)] if _is_fold(bench, copy, name) else []
    wrong_up = mark.face == "wrong side"
    lying = Lying(copy, turned() if wrong_up else as_it_lies, wrong_up, new=False)
    piece = bench.piece_now(copy)
    shapes = [
        *laid(bench, lying),
        *finished_lines(piece, lying),
        *mark_shapes([mark], lying, new=True, size=longer_side(bench, copy)),
    ]
    outline = moved(bench.outline(copy), lying)
    callouts = (
        Callout(Phrase.of("figures.name", name=notion.name), lying.rule(mark.at)),
        Callout(face_words(copy, wrong_up), spot_on(outline), bench.number(copy)),
    )
    told = Phrase.of("figures.told-attach", notion=notion.name, copy=copy, mark=name)
    flat = Panel(
        "notion", Scene(tuple(shapes), callouts, tuple(spot_dimensions(piece, [mark], lying))), told, copies=(copy,)
    )
    return [flat, _through(bench, copy, mark)] if notion.kind in PRONGED else [flat]


def _is_fold(bench: Bench, copy: str, name: str) -> bool:
    marks = marks_on(bench, copy)
    return any(isinstance(one, LineMark) and one.name == name and one.kind == "fold line" for one in marks)


def _folded_round(bench: Bench, notion: Notion, copy: str) -> Panel:
    """A tab from its edge: folded round a ring, stitched close below it."""
    long, thick = 30.0, 5.4
    shapes = strand(Point(0.0, thick), Point(1.0, 0.0), (Go(long), Fold(False, thick), Go(long)), wrong_left=False)
    middle = Point(long - 0.2, thick / 2)
    shapes += [Shape(ring(middle, 1.5), Look.FOLDED, Texture.PLAIN, closed=True)]
    shapes.append(stitch(Point(long - 5.0, thick + 2.2), Point(long - 5.0, -2.2)))
    callouts = (
        Callout(Phrase.of("figures.ring-through", notion=notion.name), middle),
        Callout(Phrase.of("figures.stitch-below"), Point(long - 5.0, -1.6)),
        Callout(Phrase.of("figures.name", name=copy), Point(3.0, thick), bench.number(copy)),
    )
    told = Phrase.of("figures.told-ring", notion=notion.name, copy=copy)
    scene = Scene(tuple(shapes), callouts, scale=1.0)
    return Panel("ring", scene, told, Phrase.of("figures.cut-through"), (copy,))


def _through(bench: Bench, copy: str, mark: PointMark) -> Panel:
    """Snap, cloth, reinforcement, washer, prongs bent outwards."""
    below = [
        one.copy
        for one in carried(bench, Lying(copy, wrong_up=True))
        if inside(moved(bench.outline(one.copy), one), mark.at)
    ]
    shapes = strand(Point(-HALF, 0.0), Point(1.0, 0.0), (Go(2 * HALF),), wrong_left=False)
    callouts = [Callout(face_words(copy, wrong_up=False), Point(HALF - 3.0, 0.0), bench.number(copy))]
    level = 0.0
    for at, backing in enumerate(below):
        level -= LAYER + (0.4 if at == 0 else 0.0)
        half = HALF if at == 0 and len(below) > 1 else HALF * 0.7
        shapes.append(bare_strand(Point(-half, level), Point(1.0, 0.0), (Go(2 * half),), Look.CLOTH_BEFORE))
        callouts.append(
            Callout(Phrase.of("figures.name", name=backing), Point(half - 2.0, level), bench.number(backing))
        )
    washer = level - LAYER
    shapes.append(Shape(box_path(-6.5, washer - 0.8, 6.5, washer), Look.RAW, Texture.PLAIN, closed=True))
    for side in (-1.0, 1.0):
        prong = [Point(side * 3.0, 1.0), Point(side * 3.0, washer - 1.7), Point(side * 9.5, washer - 1.7)]
        shapes.append(Shape(chain(prong), Look.FOLDED))
    shapes.append(Shape(box_path(-6.0, 1.0, 6.0, 3.4), Look.FOLDED, Texture.PLAIN, closed=True))
    callouts += [
        Callout(Phrase.of("figures.snap-half"), Point(-5.0, 2.2)),
        Callout(Phrase.of("figures.washer"), Point(-6.0, washer - 0.4)),
        Callout(Phrase.of("figures.prongs"), Point(-9.0, washer - 1.7)),
    ]
    told = Phrase.of("figures.told-snap", copy=copy)
    scene = Scene(tuple(shapes), tuple(callouts), scale=1.0)
    return Panel("snap section", scene, told, Phrase.of("figures.cut-through"), (copy, *below))
