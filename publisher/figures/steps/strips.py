"""Folded strips where they are held on another copy: by an end, by both, by their middle. The draft's mm."""

from publisher.drafting import Notch, Placement, PointMark, Strip
from publisher.figures.steps.cloth import Bench, Lying, texture_of
from publisher.figures.steps.lines import chain
from publisher.figures.steps.marking import marks_on
from publisher.figures.steps.values import Look, Shape
from publisher.geometry import Box, Path, Point, nearest
from publisher.terms import Phrase

ACROSS = 0.72  # of the copy below: how much of a longer strip is drawn
END = 0.34  # … of one that is held by both its ends, at each
AT_EDGE = 0.5  # mm: a mark that lies nearer is on the edge


def other_end(bench: Bench, placement: Placement) -> list[Placement]:
    """Where the same strip is held on the same copy once more, by its other end."""
    alike = [one for one in bench.draft.placements if (one.placed, one.below) == (placement.placed, placement.below)]
    return [one for one in alike if one.name != placement.name]


def strip_shapes(
    bench: Bench, placement: Placement, above: Lying, box: Box, outwards: bool = False, caught: bool = False
) -> tuple[list[Shape], Phrase]:
    """A folded strip where it is held: by an end; by both, as a loop; or by its middle, folded across. It lies on the
    copy below, or `outwards` over its edge; `caught` in that, its end is hidden."""
    piece = bench.draft.piece(bench.draft.copy(placement.placed).piece)
    assert piece.strip is not None
    held = [name for name, _ in placement.matching]
    ends = {name for name in held if name in ("left end", "right end")}
    whole = piece.strip.finished_length
    at = held_spot(bench, placement, above)
    middle = Point((box.left + box.right) / 2, (box.bottom + box.top) / 2)
    inwards = _into(above, ends, at, middle)
    # A raw end lies level with the raw edge below: beyond its finished line, or beyond the notch that it is put to.
    is_raw = any(not bench.done(placement.placed, end) for end in ends)
    own = piece.strip.end_allowance if is_raw else 0.0
    if not caught and not outwards:
        at = at - inwards * (own or (_to_the_raw_edge(bench, placement) if is_raw else 0.0))
    length = (whole / 2 if len(ends) > 1 or not ends else whole) + own
    most = box.width * (END if other_end(bench, placement) else ACROSS)
    if outwards:
        inwards = -inwards
    outline = _band(at, inwards, min(length, most), piece.strip, cut_off=length > most)
    shapes = [Shape(outline, Look.RAW, texture_of(bench, placement.placed, wrong_up=False), closed=True)]
    if len(ends) > 1 or not ends:
        # Two layers: the upper one a little narrower.
        shapes.append(Shape(_doubled_line(at, inwards, min(length, most), piece.strip), Look.MARK_BEFORE))
    key = "figures.loop" if len(ends) > 1 else "figures.folded-across" if not ends else "figures.name"
    words = Phrase.of(key, copy=placement.placed) if key != "figures.name" else Phrase.of(key, name=placement.placed)
    return shapes, words


def _to_the_raw_edge(bench: Bench, placement: Placement) -> float:
    """How far beyond the notch that a strip is put to the cloth below it ends, mm."""
    there = {name for _, name in placement.matching}
    notches = [mark for mark in marks_on(bench, placement.below) if isinstance(mark, Notch) and mark.name in there]
    return (notches[0].cut_end - notches[0].at).length if notches else 0.0


def held_spot(bench: Bench, placement: Placement, above: Lying) -> Point:
    """Where a strip is held, as it lies: the middle of the end that is, or of the strip."""
    return above.rule(_held_at(bench, placement))


def _held_at(bench: Bench, placement: Placement) -> Point:
    piece = bench.draft.piece(bench.draft.copy(placement.placed).piece)
    held = [name for name, _ in placement.matching if name in ("left end", "right end")]
    if len(held) == 1:
        path = piece.edge(held[0]).path
        return (path.start + path.end) * 0.5
    box = piece.finished_line.box
    return Point((box.left + box.right) / 2, (box.bottom + box.top) / 2)


def _into(above: Lying, ends: set[str], at: Point, middle: Point) -> Point:
    """The way from the edge into the piece: along the strip, towards the middle of what it lies on."""
    along = (above.rule(Point(1.0, 0.0)) - above.rule(Point(0.0, 0.0))).unit()
    if ends == {"right end"}:
        return -along
    if ends == {"left end"}:
        return along
    return along if along.dot(middle - at) >= 0 else -along


def _band(at: Point, way: Point, length: float, strip: Strip, cut_off: bool) -> Path:
    aside = way.left() * (strip.finished_width / 2)
    far = at + way * length
    end = [far - aside, far + aside]
    if cut_off:  # a ragged end: it goes on
        step = strip.finished_width / 4
        end = [far - aside, far - aside * 0.5 + way * step, far, far + aside * 0.5 + way * step, far + aside]
    return chain([at - aside, *end, at + aside], closed=True)


def _doubled_line(at: Point, way: Point, length: float, strip: Strip) -> Path:
    aside = way.left() * (strip.finished_width * 0.3)
    return chain([at + aside, at + way * (length * 0.9) + aside])


def held_at_done_edge(bench: Bench, placement: Placement) -> bool:
    """True for a strip that is held at an edge which has been sewn or bound since: it comes out of it."""
    piece = bench.draft.piece(bench.draft.copy(placement.below).piece)
    there = {name for _, name in placement.matching}
    edges = {mark.edge for mark in piece.marks if isinstance(mark, Notch) and mark.name in there}
    spots = [mark.at for mark in piece.marks if isinstance(mark, PointMark) and mark.name in there]
    near = {edge.name for edge in piece.edges for spot in spots if nearest(edge.path, spot)[2] < AT_EDGE}
    found = (edges | near | there) & {edge.name for edge in piece.edges}
    return bool(found) and all(bench.done(placement.below, edge) for edge in found)
