"""Sections of hems, strips, bindings and pleats: cloth seen from its edge, its widths in proportion. mm on paper."""

from collections.abc import Sequence
from dataclasses import replace

from publisher.drafting import Binding, Grain, Hem, Piece, Pleat
from publisher.figures.pleat_samples import PLEAT_SECTIONS
from publisher.figures.steps.cloth import Bench
from publisher.figures.steps.joining import Joint
from publisher.figures.steps.lines import chain
from publisher.figures.steps.seam_sections import layers_at
from publisher.figures.steps.strands import GAP, Fold, Go, bare_strand, stitch, strand
from publisher.figures.steps.values import Callout, Dimension, Look, Panel, Scene, Shape
from publisher.figures.steps.wording import fine_words, length_words
from publisher.geometry import Point
from publisher.terms import Phrase

RIGHT, LEFT = Point(1.0, 0.0), Point(-1.0, 0.0)
HEM = 15.0  # how deep a hem is drawn
QUARTER = 11.0  # how wide the finished width of a folded strip is drawn
FAR = 34.0  # mm of the layers that are bound
LAYER = GAP * 0.8  # between two layers that are bound
BESIDE = 1.6  # from the stitches of a seam that is bound to the strip's
SEWN = 0.8 - QUARTER  # where a binding that is folded over was sewn on
RAW = 0.8  # by so much a raw edge inside a fold is drawn short of it


def hem_section(hem: Hem, copy: str) -> Panel:
    """A hem from its edge: what is turned, and where it is stitched down."""
    scale = HEM / hem.depth
    depth, under = HEM, min(hem.under * scale, HEM - RAW)
    edge = 34.0
    twice = under > 0
    gap = 2 * GAP if twice else GAP
    moves: tuple[Go | Fold, ...] = (Go(edge), Fold(True, gap), Go(depth))
    if twice:
        moves = (*moves, Fold(True, GAP), Go(under))
    shapes = strand(Point(0.0, 0.0), RIGHT, moves, wrong_left=True)
    inner = edge - depth
    shapes.append(stitch(Point(inner + 1.8, gap + 2.2), Point(inner + 1.8, -2.2)))
    outer_fold, inner_fold = edge + gap / 2, inner - (GAP / 2 if twice else 0.0)
    dimensions = [Dimension(Point(outer_fold, gap), Point(inner_fold, gap), length_words(hem.depth), away=-6.0)]
    callouts = [Callout(Phrase.of("figures.wrong-side-short"), Point(6.0, 0.0), side="left")]
    if twice:
        callouts.append(Callout(Phrase.of("figures.turned-in", amount=length_words(hem.under)), Point(edge - 3.0, GAP)))
    told = Phrase.of("figures.told-hem-section", depth=length_words(hem.depth), edge=hem.edge, copy=copy)
    return Panel("hem section", Scene(tuple(shapes), tuple(callouts), tuple(dimensions), scale=1.0), told)


def strip_panels(bench: Bench, copy: str) -> list[Panel]:
    """How a strip is folded, fold by fold, from its end; nothing of a piece that is no strip."""
    piece = bench.draft.piece(bench.draft.copy(copy).piece)
    if piece.strip is None:
        return []
    stages = STAGES.get(piece.strip.folding, ())
    if piece.grain is Grain.BIAS or copy in {binding.strip for binding in bench.draft.bindings}:
        if piece.strip.wider_than_fourths(piece.cut_height):
            return [_pressed_in(copy, piece)]
        stages = stages[:2]  # a binding is folded once more round its edge
    return [
        _stage(copy, piece, stage, at, last=at == len(STAGES[piece.strip.folding]))
        for at, stage in enumerate(stages, start=1)
    ]


def _stage(copy: str, piece: Piece, stage: str, at: int, last: bool) -> Panel:
    assert piece.strip is not None
    shapes = _DRAWN[stage]()
    finished, cut = piece.strip.finished_width, piece.cut_height
    foot = min(shape.path.box.bottom for shape in shapes)
    cloth = next(shape.path.box for shape in shapes if shape.look is Look.CLOTH)
    # What lies between is folded to a crease and not measured: half of a cut width need not be a number on a ruler.
    amount = length_words(finished) if last else length_words(cut) if at == 1 else None
    if stage == IN_HALF:
        amount = fine_words(cut / 2)  # its allowances are still to be sewn: a ruler shows more than the finished width
    across = (
        (Dimension(Point(cloth.left, foot), Point(cloth.right, foot), amount, away=-4.5),) if amount is not None else ()
    )
    caption = Phrase.of(stage)
    told = Phrase.of("figures.told-strip", copy=copy, stage=caption)
    return Panel(stage.removeprefix("figures."), Scene(tuple(shapes), (), across, scale=1.0), told, caption)


def _pressed_in(copy: str, piece: Piece) -> Panel:
    """A binding cut wider than four times its width, for what the edge takes: each edge turned in by that width."""
    assert piece.strip is not None
    finished = piece.strip.finished_width
    middle = (piece.cut_height - 2 * finished) / finished * QUARTER
    shapes = strand(
        Point(QUARTER, GAP), LEFT, (Go(QUARTER), Fold(True), Go(middle), Fold(True), Go(QUARTER)), wrong_left=True
    )
    cloth = next(shape.path.box for shape in shapes if shape.look is Look.CLOTH)
    turned, whole = length_words(finished), length_words(piece.cut_height)
    between = length_words(piece.cut_height - 2 * finished)
    measures = (
        Dimension(Point(cloth.left, cloth.top), Point(QUARTER, cloth.top), turned, away=5.0),
        Dimension(Point(middle - QUARTER, cloth.top), Point(cloth.right, cloth.top), turned, away=5.0),
        Dimension(Point(cloth.left, cloth.bottom), Point(cloth.right, cloth.bottom), between, away=-5.0),
    )
    caption = Phrase.of("figures.press-edges-in", amount=turned, whole=whole)
    told = Phrase.of("figures.told-strip", copy=copy, stage=caption)
    return Panel("edges pressed in", Scene(tuple(shapes), (), measures, scale=1.0), told, caption)


def _flat() -> list[Shape]:
    whole = 4 * QUARTER
    crease = Shape(chain((Point(whole / 2, -1.6), Point(whole / 2, 2.4))), Look.FOLD)
    return [*strand(Point(0.0, 0.0), RIGHT, (Go(whole),), wrong_left=True), crease]


def _to_the_centre() -> list[Shape]:
    half = QUARTER - RAW / 2
    moves = (Go(half), Fold(True), Go(2 * QUARTER), Fold(True), Go(half))
    return strand(Point(half, GAP), LEFT, moves, wrong_left=True)


def _in_fourths() -> list[Shape]:
    inner = QUARTER - RAW
    moves = (Go(inner), Fold(False), Go(QUARTER), Fold(False, 3 * GAP), Go(QUARTER), Fold(False), Go(inner))
    shapes = strand(Point(inner, 2 * GAP), LEFT, moves, wrong_left=False)
    return [*shapes, *(stitch(Point(at, 3 * GAP + 2), Point(at, -2)) for at in (1.6, QUARTER - 1.6))]


def _doubled() -> list[Shape]:
    moves = (Go(2 * QUARTER), Fold(False), Go(2 * QUARTER))
    return strand(Point(0.0, GAP), RIGHT, moves, wrong_left=False)


def _right_sides_in() -> list[Shape]:
    moves = (Go(2 * QUARTER), Fold(False), Go(2 * QUARTER))
    shapes = strand(Point(0.0, GAP), RIGHT, moves, wrong_left=True)
    return [*shapes, stitch(Point(4.0, GAP + 2.5), Point(4.0, -2.5))]


def _tube() -> list[Shape]:
    wide = 2 * QUARTER - 4.0
    moves = (Go(3.0), Fold(False), Go(wide), Fold(False, 3 * GAP), Go(wide), Fold(False), Go(3.0))
    shapes = strand(Point(3.0, 2 * GAP), LEFT, moves, wrong_left=False)
    return [*shapes, stitch(Point(0.6, 2 * GAP), Point(0.6, GAP), new=False)]


IN_HALF = "figures.fold-in-half"
_DRAWN = {
    "figures.fold-crease": _flat,
    "figures.fold-to-the-crease": _to_the_centre,
    "figures.fold-once-more": _in_fourths,
    IN_HALF: _doubled,
    "figures.fold-right-sides-in": _right_sides_in,
    "figures.fold-tube": _tube,
}
STAGES: dict[str, tuple[str, ...]] = {
    "in fourths": ("figures.fold-crease", "figures.fold-to-the-crease", "figures.fold-once-more"),
    "edges to the centre": ("figures.fold-crease", "figures.fold-to-the-crease"),
    "doubled": (IN_HALF,),
    "single fold": ("figures.fold-crease", IN_HALF),
    "turned": ("figures.fold-right-sides-in", "figures.fold-tube"),
}


def binding_panels(bench: Bench, binding: Binding, reach: float | None = None) -> list[Panel]:
    """A binding from its edge: sewn on in its first fold, then folded over, as far past the stitching as `reach` says, and
    sewn down."""
    return bound_panels(bench, binding.strip, [side.copy for side in binding.edges], reach)


def bound_panels(bench: Bench, strip: str, copies: Sequence[str], reach: float | None = None) -> list[Panel]:
    """A strip round the edges of copies that lie on one another."""
    piece = bench.draft.piece(bench.draft.copy(strip).piece)
    assert piece.strip is not None
    edges = list(dict.fromkeys(copies))
    below = list(edges)
    for one in bench.draft.placements:
        if one.below in below and bench.draft.piece(bench.draft.copy(one.placed).piece).strip is None:
            below.append(one.placed)  # a tie that is caught at one spot is no layer of the edge
    layers = max(2, min(len(below), 3))
    top = (layers - 1) * LAYER
    wide = length_words(piece.strip.finished_width)
    measure = Dimension(Point(-QUARTER, top + GAP), Point(0.0, top + GAP), wide, away=5.5)
    held = [Callout(Phrase.of("figures.name", name=edges[0]), Point(2.0 - FAR, top), bench.number(edges[0]))]
    told = Phrase.of("figures.told-binding", strip=strip, width=wide)
    sewn_on, over = _bound(bench, strip, layers, held, (measure,), [], told, edges)
    fold = min(shape.path.box.left for shape in over.scene.shapes if shape.look is Look.CLOTH)
    past = (
        () if reach is None else (Dimension(Point(fold, -3 * GAP), Point(SEWN, -3 * GAP), length_words(reach), -5.0),)
    )
    names = [Callout(Phrase.of("figures.name", name=strip), Point(1.0, top + 2 * GAP), bench.number(strip))]
    if len(below) >= layers:
        last = below[layers - 1]
        names.append(Callout(Phrase.of("figures.name", name=last), Point(2.0 - FAR, 0.0), bench.number(last), "left"))
    return [sewn_on, replace(over, scene=replace(over.scene, callouts=tuple(names), dimensions=past))]


def bound_seam_panels(bench: Bench, strip: str, joint: Joint) -> list[Panel]:
    """A strip round the allowances of a seam: all layers of it, the strip's crease beside its stitches."""
    layers = layers_at(bench, joint, wrong_sides=False)
    held = [
        Callout(Phrase.of("figures.name", name=one.copy), Point(2.0 - FAR, at * LAYER), bench.number(one.copy), "left")
        for at, one in enumerate(layers)
    ]
    top = (len(layers) - 1) * LAYER
    seam = [stitch(Point(-QUARTER - BESIDE, top + 0.8), Point(-QUARTER - BESIDE, -0.8), new=False)]
    told = Phrase.of("figures.told-bound-seam", strip=strip, seam=joint.name)
    return _bound(bench, strip, len(layers), held, (), seam, told, [one.copy for one in layers])


def _bound(
    bench: Bench,
    strip: str,
    layers: int,
    held: Sequence[Callout],
    measures: tuple[Dimension, ...],
    seam: Sequence[Shape],
    told: Phrase,
    edges: Sequence[str],
) -> list[Panel]:
    """The strip sewn on in its first fold on the uppermost of some layers; then folded over them, and sewn down."""
    top = (layers - 1) * LAYER
    cloth = [bare_strand(Point(-FAR, at * LAYER), RIGHT, (Go(FAR),), Look.CLOTH_BEFORE) for at in range(layers)]
    cloth += seam
    first = strand(Point(0.0, top + GAP), LEFT, (Go(QUARTER * 2.7),), wrong_left=False)
    now = stitch(Point(-QUARTER, top + GAP + 3), Point(-QUARTER, -2.5))
    names = Callout(
        Phrase.of("figures.name", name=strip), Point(-QUARTER * 2.4, top + GAP), bench.number(strip), "left"
    )
    one = Panel(
        "binding sewn on",
        Scene((*cloth, *first, now), (names, *held), measures, scale=1.0),
        told,
        Phrase.of("figures.binding-first"),
        (strip, *edges),
    )
    over = strand(
        Point(0.0, top + GAP),
        LEFT,
        (
            Go(QUARTER),
            Fold(False, GAP),
            Go(QUARTER + 1.0),
            Fold(False, top + 4 * GAP),
            Go(QUARTER + 3.0),
            Fold(False, GAP),
            Go(QUARTER),
        ),
        wrong_left=False,
    )
    before = stitch(Point(SEWN, top + GAP), Point(SEWN, -1.0), new=False)
    down = stitch(Point(-QUARTER - 0.6, top + 2), Point(-QUARTER - 0.6, -2 * GAP - 2.2))
    two = Panel(
        "binding folded over",
        Scene((*cloth, *over, before, down), (), (), scale=1.0),
        Phrase.of("figures.told-binding-over", strip=strip),
        Phrase.of("figures.binding-second"),
        (strip, *edges),
    )
    return [one, two]


def pleat_section(pleat: Pleat, names: Phrase) -> Panel:
    """Pleats of one kind closed, seen from the edge, right side up: outer folds and the folds behind."""
    corners = PLEAT_SECTIONS[pleat.kind]
    spots = [Point((x - 19.0) * 2.6, (y - 3.0) * 1.6) for x, y in corners]
    shapes = [Shape(chain(spots), Look.CLOTH)]
    callouts = [
        Callout(Phrase.of("figures.outer-fold"), spots[_OUTER[pleat.kind]]),
        Callout(Phrase.of("figures.fold-behind"), spots[_INNER[pleat.kind]]),
    ]
    depth = _depth_of(pleat, spots[_OUTER[pleat.kind]], spots[_INNER[pleat.kind]])
    told = Phrase.of("figures.told-pleat", names=names, kind=pleat.kind, depth=length_words(pleat.depth))
    caption = Phrase.of("figures.closed", names=names)
    used = callouts if pleat.kind != "tuck" else []
    return Panel(f"{pleat.kind} section", Scene(tuple(shapes), tuple(used), (depth,), scale=1.0), told, caption)


def _depth_of(pleat: Pleat, outer: Point, inner: Point) -> Dimension:
    """How deep a pleat is, level below it; a tuck stands up."""
    if abs(outer.x - inner.x) < 0.1:
        return Dimension(Point(outer.x, inner.y), outer, length_words(pleat.depth), away=-6.5)
    level = min(outer.y, inner.y)
    away = -6.5 if outer.x < inner.x else 6.5
    return Dimension(Point(outer.x, level), Point(inner.x, level), length_words(pleat.depth), away)


_OUTER = {"knife pleat": 3, "box pleat": 3, "inverted pleat": 1, "tuck": 2}
_INNER = {"knife pleat": 1, "box pleat": 1, "inverted pleat": 3, "tuck": 1}
