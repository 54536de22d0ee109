"""A notion set in cloth: where it sits, and the layers it goes through, from its edge."""

from collections.abc import Iterator
from dataclasses import replace

from publisher.drafting import LineMark, Notion, Placement, PointMark
from publisher.figures.steps.attached import PRONGED, d_ring, laid, size_of
from publisher.figures.steps.cloth import (
    Bench,
    Lying,
    as_it_lies,
    carried,
    longer_side,
    moved,
    placed_lyings,
    turned,
)
from publisher.figures.steps.facts import StepFacts
from publisher.figures.steps.lines import box_path, chain, line, ring
from publisher.figures.steps.marking import mark_shapes, marks_on
from publisher.figures.steps.seams import spot_on
from publisher.figures.steps.spots import finished_lines, spot_dimensions
from publisher.figures.steps.strands import Fold, Go, bare_strand, stitch, strand
from publisher.figures.steps.values import Callout, Dimension, Look, Panel, Scene, Shape, Texture
from publisher.figures.steps.wording import face_words, length_words
from publisher.geometry import Path, Point, inside, nearest, parallel_beside
from publisher.terms import Phrase

HALF = 20.0  # mm of cloth on either side of a snap, from its edge
LAYER = 2.2
BESIDE = "topstitch"  # what the name of a measure begins with that says how far stitching runs from an edge
BELOW = 4.0  # mm from a fold that holds a ring to the stitching across
STEPS = 120


def attached_panels(bench: Bench, notion: Notion, spot: str, facts: StepFacts) -> list[Panel]:
    """The notion at its mark, seen on the face that the mark is for, and cut through with its reinforcement."""
    copy, _, name = spot.partition(".")
    mark = next((one for one in marks_on(bench, copy) if isinstance(one, PointMark) and one.name == name), None)
    if mark is None:
        if not _is_fold(bench, copy, name):
            return []
        placed = {one.target for one in facts.step.actions if one.verb == "place"}
        onto = [one for one in bench.draft.placements if one.name in placed and one.placed == copy]
        section = _folded_round(bench, notion, copy, onto[0].below if onto else None)
        return [section, *(_on_the_copy(bench, notion, spot, one, facts.length(BESIDE)) for one in onto[:1])]
    wrong_up = mark.face == "wrong side"
    lying = Lying(copy, turned() if wrong_up else as_it_lies, wrong_up, new=False)
    piece = bench.piece_now(copy)
    shapes = [
        *laid(bench, lying),
        *finished_lines(piece, lying),
        *mark_shapes([mark], lying, new=True, size=longer_side(bench, copy)),
    ]
    outline = moved(bench.outline(copy), lying)
    named = _half_of(bench, notion) if notion.kind in PRONGED else Phrase.of("figures.name", name=notion.name)
    callouts = (
        Callout(named, lying.rule(mark.at)),
        Callout(face_words(copy, wrong_up), spot_on(outline), bench.number(copy)),
    )
    told = Phrase.of("figures.told-attach", notion=notion.name, copy=copy, mark=name)
    flat = Panel(
        "notion", Scene(tuple(shapes), callouts, tuple(spot_dimensions(piece, [mark], lying))), told, copies=(copy,)
    )
    return [flat, _through(bench, copy, mark, named)] if notion.kind in PRONGED else [flat]


def _half_of(bench: Bench, notion: Notion) -> Phrase:
    """A snap is set in by halves: the first, or the one that it is to meet."""
    waits = sum(key == notion.key for key, _ in bench.state.attached_to) % 2
    return Phrase.of("figures.snap-other-half" if waits else "figures.snap-half")


def _is_fold(bench: Bench, copy: str, name: str) -> bool:
    marks = marks_on(bench, copy)
    return any(isinstance(one, LineMark) and one.name == name and one.kind == "fold line" for one in marks)


def _folded_round(bench: Bench, notion: Notion, copy: str, below: str | None) -> Panel:
    """A tab from its edge: folded round a ring, stitched close below it, to what it lies on."""
    long, thick = 24.0, 5.4
    foot = -2.2 if below is None else -4.4
    shapes = strand(
        Point(0.0, thick), Point(1.0, 0.0), (Go(long), Fold(False, thick), Go(long * 0.55)), wrong_left=False
    )
    if below is not None:
        under = strand(Point(-6.0, -2.4), Point(1.0, 0.0), (Go(long + 9.0),), wrong_left=False, new=False)
        shapes = [*under, *shapes]
    middle = Point(long - 0.2, thick / 2)
    shapes += [Shape(ring(middle, 1.5), Look.FOLDED, Texture.PLAIN, closed=True)]
    shapes.append(stitch(Point(long - 5.0, thick + 2.2), Point(long - 5.0, foot)))
    callouts = [
        Callout(Phrase.of("figures.ring-through", notion=notion.name), middle),
        Callout(Phrase.of("figures.stitch-below"), Point(long - 5.0, foot + 0.6)),
        Callout(Phrase.of("figures.name", name=copy), Point(3.0, thick), bench.number(copy)),
    ]
    if below is not None:
        callouts.append(Callout(face_words(below, wrong_up=False), Point(-4.0, -2.4), bench.number(below)))
    told = Phrase.of("figures.told-ring", notion=notion.name, copy=copy)
    scene = Scene(tuple(shapes), tuple(callouts), scale=1.0)
    copies = (copy,) if below is None else (copy, below)
    return Panel("ring", scene, told, Phrase.of("figures.cut-through"), copies)


def _on_the_copy(bench: Bench, notion: Notion, spot: str, placement: Placement, beside: float | None) -> Panel:
    """A tab folded round a ring, on what it is sewn to: how far its fold is from the raw edge, the stitching along its
    edge and across below the ring."""
    below = Lying(placement.below, new=False)
    bench = replace(bench, state=replace(bench.state, held_folds=bench.state.held_folds | {spot}))
    above = next(placed_lyings(bench, placement, below, new=True))
    fold = bench.held_fold(placement.placed)
    assert fold is not None
    ends = (above.rule(fold.start), above.rule(fold.end))
    middle = (ends[0] + ends[1]) * 0.5
    outline = moved(bench.outline(placement.placed), above)
    box = outline.box
    down = (Point((box.left + box.right) / 2, (box.bottom + box.top) / 2) - middle).unit()
    half = (size_of(notion, "inner width") or (ends[1] - ends[0]).length) / 2 + 1.5
    shapes = [*laid(bench, below), *d_ring(middle, down, half), *laid(bench, above)]
    across = line(ends[0] + down * BELOW, ends[1] + down * BELOW)
    round_it = [_beyond(path, middle + down * BELOW, down) for path in _beside_edges(bench, above, beside or 0.0)]
    shapes += [Shape(path, Look.STITCHING) for path in (*round_it, across)]
    rim = bench.outline(placement.below)
    _, edge, away = nearest(rim, middle)
    far = middle + down.left() * (half * 2.2)
    callouts = (
        Callout(Phrase.of("figures.name", name=notion.name), middle - down * (half * 1.3)),
        Callout(
            face_words(placement.placed, above.wrong_up), middle + down * (box.height * 0.45), _number(bench, above)
        ),
        Callout(face_words(placement.below, wrong_up=False), spot_on(rim, None, [outline]), _number(bench, below)),
    )
    dimensions = [Dimension(far + (edge - middle), far, length_words(away))]
    if beside:
        low = middle + down * (box.height * 0.7) + down.left() * (box.width / 2)
        dimensions.append(Dimension(low, low - down.left() * beside, length_words(beside)))
    told = Phrase.of("figures.told-ring-on", notion=notion.name, copy=placement.placed, below=placement.below)
    copies = (placement.placed, placement.below)
    return Panel("ring on", Scene(tuple(shapes), callouts, tuple(dimensions)), told, copies=copies)


def _number(bench: Bench, lying: Lying) -> int:
    return bench.number(lying.copy)


def _beside_edges(bench: Bench, above: Lying, beside: float) -> Iterator[Path]:
    """Lines beside the sewn edges of a copy, where it lies."""
    for edge in bench.piece_now(above.copy).edges:
        if bench.done(above.copy, edge.name):
            yield from (moved(path, above) for path in parallel_beside(edge.path, beside))


def _beyond(path: Path, spot: Point, way: Point) -> Path:
    """What of a path lies beyond a spot, as it is seen along a way."""
    spots = [path.point_at(path.length * at / STEPS) for at in range(STEPS + 1)]
    return chain([one for one in spots if (one - spot).dot(way) > 0])


def _through(bench: Bench, copy: str, mark: PointMark, half_of: Phrase) -> Panel:
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
        Callout(half_of, Point(-5.0, 2.2)),
        Callout(Phrase.of("figures.washer"), Point(-6.0, washer - 0.4)),
        Callout(Phrase.of("figures.prongs"), Point(-9.0, washer - 1.7)),
    ]
    told = Phrase.of("figures.told-snap", copy=copy)
    scene = Scene(tuple(shapes), tuple(callouts), scale=1.0)
    return Panel("snap section", scene, told, Phrase.of("figures.cut-through"), (copy, *below))
