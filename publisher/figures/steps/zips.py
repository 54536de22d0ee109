"""A zip sewn to an edge: where it lies on it, and the layers from their edge. The draft's mm; sections in mm on paper."""

from collections.abc import Sequence

from publisher.drafting import Notion, Seam, SeamEdge
from publisher.figures.steps.attached import laid, size_of
from publisher.figures.steps.cloth import Bench, Lying, moved, texture_of
from publisher.figures.steps.facts import StepFacts
from publisher.figures.steps.joining import carried_onto, edge_path, spots_of
from publisher.figures.steps.lines import box_path, chain, line
from publisher.figures.steps.seams import spot_on
from publisher.figures.steps.strands import Fold, Go, bare_strand, stitch, strand
from publisher.figures.steps.values import Callout, Dimension, Look, Panel, Scene, Shape, Texture
from publisher.figures.steps.wording import face_words, length_words
from publisher.frozen import dataclass
from publisher.geometry import Line, Path, Point, line_within, outside_of, parallel_beside
from publisher.terms import Phrase

TAPE = 28.0  # mm, of a zip that does not say how wide it is
TEETH = 2.2  # mm on paper: half the chain in a section
CLEARANCE = 3.0  # mm from the stop of a zip to the cloth on its end
RIGHT, LEFT = Point(1.0, 0.0), Point(-1.0, 0.0)


@dataclass(frozen=True, slots=True)
class ZipPlace:
    """A zip at an edge: the copy that is sewn to it with its lining; what its ends are covered with, so that it is as long
    as the edge with its allowances; and what was sewn to its other edge before, outside and lining."""

    notion: Notion
    side: SeamEdge
    lining: str
    ends: str | None
    beyond: tuple[SeamEdge, SeamEdge] | None

    @property
    def tape(self) -> float:
        """How wide the zip is, mm."""
        return size_of(self.notion, "tape width") or TAPE

    @property
    def allowance(self) -> float:
        """From the raw edge to the seam, mm."""
        return max(self.side.allowances, default=0.0)

    @property
    def showing(self) -> float:
        """What of the tape is seen between both seams, mm; before the second, what is left beside the first."""
        return self.tape - self.allowance - (max(self.beyond[0].allowances, default=0.0) if self.beyond else 0.0)


def zip_place(bench: Bench, notion: Notion, side: SeamEdge, lining: str, facts: StepFacts) -> ZipPlace:
    """Where a zip lies when a step sews it to an edge."""
    before = {spot for key, spot in facts.zipped if key == notion.key}
    beyond = next((found for seam in bench.draft.seams for found in _sewn_before(seam, before)), None)
    return ZipPlace(notion, side, lining, next(iter(sorted(facts.zip_ends)), None), beyond)


def _sewn_before(seam: Seam, spots: set[str]) -> list[tuple[SeamEdge, SeamEdge]]:
    sides = ((seam.first, seam.second), (seam.second, seam.first))
    return [(here[0], there[0]) for here, there in sides if f"{here[0].copy}.{here[0].edge}" in spots]


def zip_panels(bench: Bench, place: ZipPlace) -> list[Panel]:
    """The zip on the right side of an edge, its tape level with the raw edge; and the layers, cut through."""
    return [_on_the_edge(bench, place), _cut_through(bench, place)]


def _on_the_edge(bench: Bench, place: ZipPlace) -> Panel:
    copy, path, wide = place.side.copy, edge_path(bench.draft, place.side), place.allowance
    lying = Lying(copy, new=False)
    shapes = laid(bench, lying)
    along = _longer(bench, place.side, path) if place.ends else path
    outer, inner, teeth = (_beside(along, by) for by in (-wide, place.tape - wide, place.tape / 2 - wide))
    shapes.append(Shape(_band(outer, inner), Look.RAW, Texture.PLAIN, True))
    stops = _stops(teeth, size_of(place.notion, "length"))
    shapes += _chain(bench, place, outer, inner, teeth, stops)
    shown = _beside(
        teeth, (place.showing - place.tape / 2 + wide) / 2
    )  # between the teeth and what hangs over the tape
    covers = [_band(outer, inner)]
    callouts = [
        Callout(Phrase.of("figures.zip-wrong-side"), shown.point_at(shown.length * 0.35)),
        Callout(Phrase.of("figures.teeth"), teeth.point_at(teeth.length * 0.5)),
    ]
    if place.beyond is not None:
        hanging = _hanging(bench, place, path)
        shapes += laid(bench, hanging)
        covers.append(moved(bench.outline(hanging.copy), hanging))
        spot = spot_on(covers[-1])
        words = Phrase.of("figures.sewn-before", words=face_words(hanging.copy, wrong_up=False))
        callouts.append(Callout(words, spot, bench.number(hanging.copy)))
    callouts.append(Callout(face_words(copy, wrong_up=False), _bare(bench, copy, path, covers), bench.number(copy)))
    shapes.append(Shape(along, Look.STITCHING))
    told = Phrase.of(
        "figures.told-zip", zip=place.notion.name, copy=copy, edge=place.side.edge, allowance=length_words(wide)
    )
    at, outwards = path.point_at(path.length * 0.7), path.direction_at(path.length * 0.7).right()
    across = (Dimension(at, at + outwards * wide, length_words(wide)),)
    return Panel("zip", Scene(tuple(shapes), tuple(callouts), across), told, copies=(copy,), wide=True)


def _longer(bench: Bench, side: SeamEdge, path: Path) -> Path:
    """An edge and the allowances beyond both its ends: how long a zip is whose covered ends go into the seams there."""
    piece = bench.piece_now(side.copy)
    names, own = [edge.name for edge in piece.edges], piece.edges_of(side.edge)
    before = piece.edges[names.index(own[0].name) - 1]
    after = piece.edges[(names.index(own[-1].name) + 1) % len(names)]
    start = path.start - path.direction_at(0.0) * bench.allowance(side.copy, before)
    end = path.end + path.direction_at(path.length) * bench.allowance(side.copy, after)
    return Path((Line(start, path.start), *path.segments, Line(path.end, end)))


def _band(one: Path, other: Path) -> Path:
    return chain([*one.flattened(0.5), *other.flattened(0.5)[::-1]], closed=True)


def _beside(path: Path, by: float) -> Path:
    return next(iter(parallel_beside(path, by)), path)


def _stops(teeth: Path, long: float | None) -> list[float]:
    """How far along the tape both ends of the chain lie, in its middle."""
    if long is None or long >= teeth.length:
        return []
    rest = (teeth.length - long) / 2
    return [rest, teeth.length - rest]


def _chain(bench: Bench, place: ZipPlace, outer: Path, inner: Path, teeth: Path, stops: list[float]) -> list[Shape]:
    """The teeth from stop to stop, and the cloth on the ends of the zip."""
    if not stops:
        return [Shape(teeth, Look.STITCHED)]
    shapes: list[Shape] = []
    if place.ends is not None:
        texture = texture_of(bench, place.ends, wrong_up=False)
        for seam, end in ((stops[0] - CLEARANCE, 0.0), (stops[1] + CLEARANCE, teeth.length)):
            spots = [path.point_at(at) for path, at in ((outer, seam), (outer, end), (inner, end), (inner, seam))]
            shapes.append(Shape(chain(spots, closed=True), Look.BEFORE_FOLDED, texture, True))
    shapes.append(Shape(teeth.split(stops[0])[1].split(stops[1] - stops[0])[0], Look.STITCHED))
    for at in stops:
        aside = teeth.direction_at(at).left() * (place.tape * 0.18)
        shapes.append(Shape(line(teeth.point_at(at) - aside, teeth.point_at(at) + aside), Look.MARK))
    return shapes


def _hanging(bench: Bench, place: ZipPlace, path: Path) -> Lying:
    """What was sewn to the zip's other edge: it is folded away from it, so that its lining lies up."""
    assert place.beyond is not None
    lining = place.beyond[1]
    other = _beside(path, place.showing)
    return Lying(lining.copy, carried_onto(spots_of(edge_path(bench.draft, lining)), spots_of(other)), new=False)


def _bare(bench: Bench, copy: str, path: Path, covers: Sequence[Path]) -> Point:
    """A spot of a copy that the zip at its edge and what hangs from that leave bare: in the middle, where there is one."""
    outline, at = bench.outline(copy), path.length * 0.2
    foot, way = path.point_at(at), path.direction_at(at).left()
    parts = list(line_within(line(foot, foot + way * (outline.box.width + outline.box.height)), outline))
    for cover in covers:
        parts = [left for part in parts for left in outside_of(part, cover)]
    longest = max(parts, key=lambda part: part.length, default=None)
    return spot_on(outline, None, covers) if longest is None else longest.point_at(longest.length / 2)


def _cut_through(bench: Bench, place: ZipPlace) -> Panel:
    """Outside, zip and lining with their edges level: the tape lies between, its right side on the outside's."""
    side, beyond = place.side, place.beyond
    wide, deep, gap, reach = 30.0, 8.0, 2.6 if beyond is None else 5.4, 17.0
    chain_at = wide - reach
    shapes = strand(Point(0.0, 0.0), RIGHT, (Go(wide),), wrong_left=False)
    callouts = [Callout(face_words(side.copy, wrong_up=False), Point(3.0, 0.0), bench.number(side.copy), "left")]
    if beyond is None:
        shapes.append(bare_strand(Point(chain_at, gap), RIGHT, (Go(reach),), Look.CLOTH))
    else:
        shapes += _joined(chain_at - 4.0, gap, -1.0, 16.0)
        shapes.append(bare_strand(Point(chain_at - 10.0, gap), RIGHT, (Go(reach + 10.0),), Look.CLOTH))
        words = Phrase.of("figures.sewn-before", words=Phrase.of("figures.name", name=beyond[0].copy))
        callouts.append(Callout(words, Point(chain_at - 18.0, gap - 1.7), bench.number(beyond[0].copy), "left"))
    shapes.append(Shape(box_path(chain_at - TEETH, gap - 0.9, chain_at + TEETH, gap + 0.9), Look.SOLID, None, True))
    top = 2 * gap
    shapes += strand(Point(0.0, top), RIGHT, (Go(wide),), wrong_left=True)
    callouts += [
        Callout(Phrase.of("figures.zip-between"), Point(wide - 12.0, gap)),
        Callout(face_words(place.lining, wrong_up=True), Point(3.0, top), bench.number(place.lining), "left"),
    ]
    shapes.append(stitch(Point(wide - deep, top + 2.4), Point(wide - deep, -2.4)))
    across = (Dimension(Point(wide, top), Point(wide - deep, top), length_words(place.allowance), away=-5.5),)
    told = Phrase.of("figures.told-zip-section", zip=place.notion.name, copy=side.copy)
    copies = (side.copy, place.lining, *((one.copy for one in beyond) if beyond else ()))
    scene = Scene(tuple(shapes), tuple(callouts), across, scale=1.0)
    return Panel("zip section", scene, told, Phrase.of("figures.cut-through"), copies)


def _joined(seam: float, level: float, way: float, long: float) -> list[Shape]:
    """Two cloths that were sewn to a tape at a seam and folded away from it, as they go `way` from there: a section."""
    deep, gap = 6.0, 1.7
    shapes: list[Shape] = []
    for up in (1.0, -1.0):
        # From its raw edge towards the chain, and back over itself, right side outwards.
        moves = (Go(deep), Fold((up > 0) == (way < 0), gap), Go(long))
        start = Point(seam + way * deep, level + up * gap)
        shapes += strand(start, Point(-way, 0.0), moves, wrong_left=(up > 0) == (way < 0), new=False)
    shapes.append(stitch(Point(seam + way * 1.6, level + gap), Point(seam + way * 1.6, level - gap), new=False))
    return shapes


def folded_away_panel(bench: Bench, place: ZipPlace, distance: float | None) -> Panel:
    """Outside and lining folded back from the zip, right sides outwards, stitched beside the seam through all layers; what
    was sewn to the other edge of the zip, at its other side, and how high all are together."""
    side, lining, beyond = place.side, place.lining, place.beyond
    deep, beside, wide, gap, far = 8.0, 3.4, 30.0, 1.7, 26.0
    tape = far if beyond is not None else 17.0
    shapes = [bare_strand(Point(0.0, 0.0), RIGHT, (Go(tape),), Look.CLOTH_BEFORE)]
    shapes.append(Shape(box_path(17.0 - TEETH, -0.9, 17.0 + TEETH, 0.9), Look.SOLID, None, True))
    for up in (True, False):
        moves = (Go(deep), Fold(up, gap), Go(wide))
        shapes += strand(Point(0.0, gap if up else -gap), RIGHT, moves, wrong_left=up)
    shapes.append(stitch(Point(deep - 0.4, gap + 0.4), Point(deep - 0.4, -gap - 0.4), new=False))
    shapes.append(stitch(Point(deep - beside, 2 * gap + 2.4), Point(deep - beside, -2 * gap - 2.4)))
    at = deep - wide + 4.0
    callouts = [
        Callout(face_words(side.copy, wrong_up=False), Point(at, 2 * gap), bench.number(side.copy), "left"),
        Callout(face_words(lining, wrong_up=False), Point(at, -2 * gap), bench.number(lining), "left"),
    ]
    top = 2 * gap
    across: list[Dimension] = []
    if beyond is None:
        callouts.append(Callout(Phrase.of("figures.the-zip"), Point(17.0 + TEETH, 0.0), side="right"))
    else:
        shapes += _joined(far, 0.0, 1.0, 18.0)
        one, other = beyond
        callouts += [
            Callout(face_words(one.copy, wrong_up=False), Point(far + 14.0, top), bench.number(one.copy), "right"),
            Callout(face_words(other.copy, wrong_up=False), Point(far + 14.0, -top), bench.number(other.copy), "right"),
        ]
        ends = Point(deep - wide, -top), Point(far + 18.0, -top)
        across.append(Dimension(Point(deep, top), Point(far, top), length_words(place.showing), away=6.0))
        across.append(Dimension(*ends, length_words(_whole(bench, place)), away=-7.0))
    if distance is not None and beyond is None:
        across.append(Dimension(Point(deep - beside, top), Point(deep, top), length_words(distance), away=6.0))
    told = Phrase.of("figures.told-folded-away", zip=place.notion.name, copy=side.copy, lining=lining)
    scene = Scene(tuple(shapes), tuple(callouts), tuple(across), scale=1.0)
    copies = (side.copy, lining, *((one.copy for one in beyond) if beyond else ()))
    return Panel("folded from the zip", scene, told, Phrase.of("figures.cut-through"), copies)


def _whole(bench: Bench, place: ZipPlace) -> float:
    """How high a zip and the copies at both its edges are together, from raw edge to raw edge, mm."""
    assert place.beyond is not None
    sides = (place.side, place.beyond[0])
    cut = [bench.piece_now(side.copy).cut_height - max(side.allowances, default=0.0) for side in sides]
    return sum(cut) + place.showing
