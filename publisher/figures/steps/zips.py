"""A zip sewn to an edge: where it lies on it, and the layers from their edge. The draft's mm; sections in mm on paper."""

from publisher.drafting import Notion, SeamEdge
from publisher.figures.steps.cloth import Bench, Lying, laid, moved
from publisher.figures.steps.joining import edge_path
from publisher.figures.steps.lines import box_path, chain, line
from publisher.figures.steps.seams import spot_on
from publisher.figures.steps.strands import Fold, Go, bare_strand, stitch, strand
from publisher.figures.steps.values import Callout, Dimension, Look, Panel, Scene, Shape, Texture
from publisher.figures.steps.wording import face_words, length_words
from publisher.geometry import Path, Point, parallel_beside
from publisher.terms import Phrase

TAPE = 28.0  # mm, of a zip that does not say how wide it is
TEETH = 2.2  # mm on paper: half the chain in a section
RIGHT = Point(1.0, 0.0)


def zip_panels(bench: Bench, notion: Notion, side: SeamEdge, lining: str | None) -> list[Panel]:
    """The zip on the right side of an edge, its tape level with the raw edge; and the layers, cut through."""
    return [_on_the_edge(bench, notion, side), _cut_through(bench, notion, side, lining)]


def size_of(notion: Notion, name: str) -> float | None:
    """One of the sizes of a notion, mm; None where it does not say it."""
    found = dict(notion.sizes).get(name)
    return None if found is None else float(found.amount)


def _on_the_edge(bench: Bench, notion: Notion, side: SeamEdge) -> Panel:
    copy, path = side.copy, edge_path(bench.draft, side)
    wide = max(side.allowances, default=0.0)
    tape, long = size_of(notion, "tape width") or TAPE, size_of(notion, "length")
    lying = Lying(copy, new=False)
    shapes = laid(bench, lying)
    outer, inner, teeth = _beside(path, -wide), _beside(path, tape - wide), _beside(path, tape / 2 - wide)
    shapes.append(
        Shape(chain([*outer.flattened(0.5), *inner.flattened(0.5)[::-1]], closed=True), Look.RAW, Texture.PLAIN, True)
    )
    shapes.append(Shape(teeth, Look.STITCHED))
    for spot, along in _stops(teeth, long):
        aside = along.left() * (tape * 0.18)
        shapes.append(Shape(line(spot - aside, spot + aside), Look.MARK))
    shapes.append(Shape(path, Look.STITCHING))
    at, outwards = path.point_at(path.length * 0.7), path.direction_at(path.length * 0.7).right()
    callouts = (
        Callout(Phrase.of("figures.zip-wrong-side"), inner.point_at(inner.length * 0.35)),
        Callout(Phrase.of("figures.teeth"), teeth.point_at(teeth.length * 0.5)),
        Callout(face_words(copy, wrong_up=False), _bare(bench, copy, inner), bench.number(copy)),
    )
    told = Phrase.of("figures.told-zip", zip=notion.name, copy=copy, edge=side.edge, allowance=length_words(wide))
    across = (Dimension(at, at + outwards * wide, length_words(wide)),)
    return Panel("zip", Scene(tuple(shapes), callouts, across), told, copies=(copy,), wide=True)


def _beside(path: Path, by: float) -> Path:
    return next(iter(parallel_beside(path, by)), path)


def _stops(teeth: Path, long: float | None) -> list[tuple[Point, Point]]:
    """Both ends of the chain, in the middle of the edge."""
    if long is None or long >= teeth.length:
        return []
    rest = (teeth.length - long) / 2
    return [(teeth.point_at(at), teeth.direction_at(at)) for at in (rest, teeth.length - rest)]


def _bare(bench: Bench, copy: str, inner: Path) -> Point:
    outline = moved(bench.outline(copy), Lying(copy))
    covered = chain([*inner.flattened(0.5), *_beside(inner, -4 * TAPE).flattened(0.5)[::-1]], closed=True)
    return spot_on(outline, None, [covered])


def _cut_through(bench: Bench, notion: Notion, side: SeamEdge, lining: str | None) -> Panel:
    """Outside, zip and lining with their edges level: the tape lies between, its right side on the outside's."""
    wide, deep, gap = 30.0, 8.0, 2.6
    shapes = strand(Point(0.0, 0.0), RIGHT, (Go(wide),), wrong_left=False)
    shapes.append(bare_strand(Point(wide - 17.0, gap), RIGHT, (Go(17.0),), Look.CLOTH))
    shapes.append(
        Shape(box_path(wide - 17.0 - TEETH, gap - 0.9, wide - 17.0 + TEETH, gap + 0.9), Look.SOLID, None, True)
    )
    top = gap
    callouts = [
        Callout(face_words(side.copy, wrong_up=False), Point(3.0, 0.0), bench.number(side.copy), "left"),
        Callout(Phrase.of("figures.zip-between", zip=notion.name), Point(wide - 12.0, gap)),
    ]
    if lining is not None:
        top = 2 * gap
        shapes += strand(Point(0.0, top), RIGHT, (Go(wide),), wrong_left=True)
        callouts.append(Callout(face_words(lining, wrong_up=True), Point(3.0, top), bench.number(lining), "left"))
    shapes.append(stitch(Point(wide - deep, top + 2.4), Point(wide - deep, -2.4)))
    amount = length_words(max(side.allowances, default=0.0))
    across = (Dimension(Point(wide, top), Point(wide - deep, top), amount, away=-5.5),)
    told = Phrase.of("figures.told-zip-section", zip=notion.name, copy=side.copy)
    copies = (side.copy,) if lining is None else (side.copy, lining)
    scene = Scene(tuple(shapes), tuple(callouts), across, scale=1.0)
    return Panel("zip section", scene, told, Phrase.of("figures.cut-through"), copies)


def folded_away_panel(bench: Bench, notion: Notion, side: SeamEdge, lining: str, distance: float | None) -> Panel:
    """Outside and lining folded back from the zip, right sides outwards, stitched beside the seam through all layers."""
    deep, beside, wide, gap = 8.0, 3.4, 30.0, 1.7
    shapes = [bare_strand(Point(0.0, 0.0), RIGHT, (Go(17.0),), Look.CLOTH_BEFORE)]
    shapes.append(Shape(box_path(17.0 - TEETH, -0.9, 17.0 + TEETH, 0.9), Look.SOLID, None, True))
    for up in (True, False):
        moves = (Go(deep), Fold(up, gap), Go(wide))
        shapes += strand(Point(0.0, gap if up else -gap), RIGHT, moves, wrong_left=up)
    shapes.append(stitch(Point(deep - 0.4, gap + 0.4), Point(deep - 0.4, -gap - 0.4), new=False))
    shapes.append(stitch(Point(deep - beside, 2 * gap + 2.4), Point(deep - beside, -2 * gap - 2.4)))
    callouts = (
        Callout(
            face_words(side.copy, wrong_up=False), Point(deep - wide + 4.0, 2 * gap), bench.number(side.copy), "left"
        ),
        Callout(face_words(lining, wrong_up=False), Point(deep - wide + 4.0, -2 * gap), bench.number(lining), "left"),
        Callout(Phrase.of("figures.name", name=notion.name), Point(17.0 + TEETH, 0.0), side="right"),
    )
    across: tuple[Dimension, ...] = ()
    if distance is not None:
        top = 2 * gap
        across = (Dimension(Point(deep - beside, top), Point(deep, top), length_words(distance), away=6.0),)
    told = Phrase.of("figures.told-folded-away", zip=notion.name, copy=side.copy, lining=lining)
    scene = Scene(tuple(shapes), callouts, across, scale=1.0)
    return Panel("folded from the zip", scene, told, Phrase.of("figures.cut-through"), (side.copy, lining))
