"""The tip at the end of a slanting hem: folded in with its side it would stand up above the hem, so it is folded first."""

from collections.abc import Iterator, Sequence

from publisher.drafting import Edge, Piece
from publisher.figures.steps.cloth import Bench, Lying, moved, texture_of, turned
from publisher.figures.steps.lines import chain
from publisher.figures.steps.seams import spot_on
from publisher.figures.steps.turned_edges import SEWN, raw_to_raw, turned_band
from publisher.figures.steps.values import Callout, Detail, Look, Panel, Scene, Shape
from publisher.figures.steps.wording import face_words, names_of
from publisher.frozen import dataclass
from publisher.geometry import Path, Point, area_within, folded_along, line_within, mirrored_point
from publisher.terms import Phrase

NEAR = 0.01  # mm
LEAST = 1.5  # mm: a tip that stands up by less is hidden by a thread's width


@dataclass(frozen=True, slots=True)
class Tip:
    """A corner of the allowance of an edge, where a hem ends: it is folded in along the crease."""

    hem: str
    corner: Point
    crease: Point
    raw: Point

    @property
    def folded(self) -> Point:
        """Where the raw corner lies then."""
        return mirrored_point(self.raw, self.corner, self.crease - self.corner)


def tip_panel(bench: Bench, copy: str, edge: str) -> Panel | None:
    """The wrong side with the tips of its hems folded in; None where none stands up when the edge is folded."""
    piece = bench.piece_now(copy)
    tips = [tip for part in piece.edges_of(edge) for tip in _tips(bench, piece, copy, part)]
    if not tips:
        return None
    lying = Lying(copy, turned(), wrong_up=True, new=False)
    kept = bench.outline(copy)
    for tip in tips:
        kept = _without(kept, tip)
    shapes = [Shape(moved(kept, lying), Look.BEFORE, texture_of(bench, copy, wrong_up=True), closed=True)]
    right = texture_of(bench, copy, wrong_up=False)
    shapes += _hem_shapes(bench, piece, [tip.hem for tip in tips], kept, lying)
    flaps = [chain((tip.corner, tip.crease, tip.folded), closed=True) for tip in tips]
    shapes += [Shape(moved(flap, lying), Look.FOLDED, right, closed=True) for flap in flaps]
    first = tips[0]
    middle = lying.rule((first.corner + first.crease + first.folded) * (1 / 3))
    callouts = (Callout(Phrase.of("figures.tip-first"), middle),)
    detail = Detail(middle, (first.raw - first.corner).length * 2.4, callouts=callouts)
    named = Callout(face_words(copy, wrong_up=True), spot_on(moved(kept, lying)), bench.number(copy))
    told = Phrase.of("figures.told-tip", copy=copy, edges=names_of(list(dict.fromkeys(tip.hem for tip in tips))))
    return Panel("tip folded in", Scene(tuple(shapes), (named,), detail=detail), told, copies=(copy,))


def _tips(bench: Bench, piece: Piece, copy: str, part: Edge) -> Iterator[Tip]:
    """The tips at both ends of an edge: where its allowance, folded in, would reach beyond a hem that meets it."""
    for name in [hem.edge for hem in piece.hems if f"{copy}.{hem.edge}" in bench.state.hemmed]:
        path = piece.edge(name).path
        for corner, other, inwards, at in (
            (part.path.start, path.end, -path.direction_at(path.length), 0.0),
            (part.path.end, path.start, path.direction_at(0.0), part.length),
        ):
            out = part.path.direction_at(at).right()
            if (corner - other).length > NEAR or part.allowance <= 0 or -inwards.dot(out) < NEAR:
                continue
            mirrored = inwards - out * (2 * inwards.dot(out))
            crease = corner + mirrored * (part.allowance / mirrored.dot(out))
            raw = corner - inwards * (part.allowance / -inwards.dot(out))
            tip, beyond = Tip(name, corner, crease, raw), path.direction_at(0.0).right()
            back = mirrored_point(raw, corner, out.left())
            if (back - corner).dot(beyond) > LEAST:
                yield tip


def _without(outline: Path, tip: Tip) -> Path:
    """An outline without its tip."""
    way = (tip.corner, tip.crease)
    left = (tip.raw - tip.corner).cross(tip.crease - tip.corner) > 0
    start, end = way if left else way[::-1]
    try:
        kept, _ = folded_along(outline, start, end, tip.raw)
    except ValueError:
        return outline
    return max(kept, key=lambda path: path.length)


def _hem_shapes(bench: Bench, piece: Piece, hems: Sequence[str], kept: Path, lying: Lying) -> Iterator[Shape]:
    """The hems at whose ends the tips are, and their stitching, as far as they do not go with a tip."""
    outline, right = bench.outline(lying.copy), texture_of(bench, lying.copy, wrong_up=False)
    depths = {hem.edge: hem.depth for hem in piece.hems}
    for name in dict.fromkeys(hems):
        edge = piece.edge(name)
        for band in area_within(turned_band(piece, edge, outline, depths[name]), kept):
            yield Shape(moved(band, lying), Look.BEFORE, right, closed=True)
        for row in line_within(raw_to_raw(piece, edge, outline, depths[name] * SEWN), kept):
            yield Shape(moved(row, lying), Look.STITCHED)
