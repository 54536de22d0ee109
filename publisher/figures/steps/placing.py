"""One copy laid on another, or fused to it; several layers in order."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from publisher.drafting import LineMark, Notch, Placement, PointMark
from publisher.figures.steps.attached import laid
from publisher.figures.steps.cloth import (
    BACKINGS,
    Bench,
    Lying,
    Rule,
    as_it_lies,
    carried,
    lies_behind,
    longer_side,
    moved,
    named_face,
    placed_lyings,
    strip_loop,
    texture_of,
    turned,
)
from publisher.figures.steps.corners import turn_back
from publisher.figures.steps.lines import chain
from publisher.figures.steps.marking import mark_shapes, marks_on
from publisher.figures.steps.seams import spot_on
from publisher.figures.steps.spots import spot_dimensions
from publisher.figures.steps.strips import other_end, strip_shapes
from publisher.figures.steps.values import Callout, Dimension, Look, Panel, Scene, Shape
from publisher.figures.steps.wording import face_words, length_words, names_of
from publisher.geometry import Path, Point, inside, nearest, parallel_beside, signed_area
from publisher.terms import Phrase

COVERED = 0.97  # of the copy below: what is covered so far is shown at a corner turned back
BASTED = 5.0  # mm from the raw end of a strip to its basting
SHEAR, FLAT = 0.42, 0.36  # how layers are tilted to be seen over one another
STACKED = 0.5  # of a tilted layer's height: how far one hovers over the next


def fused_panels(bench: Bench, pairs: Sequence[tuple[str, str]]) -> list[Panel]:
    """Backings on the wrong sides that they are fused to; pairs of the same pieces share a drawing."""
    alike: dict[tuple[str, str], list[tuple[str, str]]] = {}
    for backing, copy in pairs:
        alike.setdefault((bench.draft.copy(backing).piece, bench.draft.copy(copy).piece), []).append((backing, copy))
    return [_fused(bench, group) for group in alike.values()]


def _fused(bench: Bench, group: Sequence[tuple[str, str]]) -> Panel:
    backing, copy = group[0]
    below = Lying(copy, turned(), wrong_up=True)
    above = Lying(backing, turned(), wrong_up=True)
    shapes = laid(bench, replace(below, new=False)) + laid(bench, above)
    outer, inner = moved(bench.outline(copy), below), moved(bench.outline(backing), above)
    callouts = [
        Callout(Phrase.of("figures.glue-down", copy=backing), spot_on(inner), bench.number(backing)),
        Callout(face_words(copy, wrong_up=True), spot_on(outer, None, [inner]), bench.number(copy)),
    ]
    dimensions = tuple(_gaps(inner, outer))
    told = Phrase.of("figures.told-fuse", backing=backing, copy=copy)
    names = [name for pair in group for name in pair]
    others = [copy for _, copy in group[1:]]
    caption = Phrase.of("figures.alike", copies=names_of(others)) if others else None
    return Panel("fuse", Scene(tuple(shapes), tuple(callouts), dimensions), told, caption, tuple(names))


def _gaps(inner: Path, outer: Path) -> Iterator[Dimension]:
    """How far inside the raw edge a backing lies, at the right; and at the top, where it is another amount."""
    box = inner.box
    told: list[float] = []
    for way in (Point(1.0, 0.0), Point(0.0, 1.0)):
        far = box.right if way.x else box.top
        spots = [spot for spot in inner.flattened(0.5) if spot.dot(way) > far - 0.5]
        at = (
            min(spots, key=lambda spot: spot.dot(way.left())) + max(spots, key=lambda spot: spot.dot(way.left()))
        ) * 0.5
        _, rim, gap = nearest(outer, at)
        beside = nearest(inner, at)[2] < 1.0  # a ring that is open there has nothing to measure from
        if beside and gap > 0.5 and all(abs(gap - one) > 0.5 for one in told):
            told.append(gap)
            yield Dimension(at, rim, length_words(gap))


def placed_panel(
    bench: Bench,
    placement: Placement,
    basted: Sequence[str] = (),
    distance: float | None = None,
    stitched: bool = False,
) -> Panel | None:
    """A copy laid on another, the marks that meet, the face that lies up; the edges along which it is basted, at a
    distance; and its stitching lines, where it is `stitched` along them."""
    behind = lies_behind(bench, placement)
    base: Rule = turned() if behind else as_it_lies
    below = Lying(placement.below, base, wrong_up=behind, new=False)
    pair = list(placed_lyings(bench, placement, below, new=True))
    above, over = pair[0], pair[0].wrong_up
    shapes = laid(bench, below)
    outer = moved(bench.outline(below.copy), below)
    upper = moved(bench.outline(above.copy), above)
    if not strip_loop(bench, placement.placed) and _alike(upper, outer):
        return _covering(bench, placement, above, below, basted)
    marks = [mark for mark in marks_on(bench, below.copy) if mark.name in {name for _, name in placement.matching}]
    if strip_loop(bench, placement.placed):
        strip, names = strip_shapes(bench, placement, above, outer.box)
        shapes += strip
        for other in other_end(bench, placement):
            far = next(placed_lyings(bench, other, below, new=True))
            more = strip_shapes(bench, other, far, outer.box)[0]
            strip += more
            shapes += more
        if basted:
            shapes += _across_ends(strip, outer)
        above_spot = _inner_spot(strip[0].path)
    else:
        shapes += [shape for one in pair for shape in (*laid(bench, one), *_marked_lines(bench, one))]
        names = named_face(bench, above.copy, over)
        above_spot = spot_on(moved(bench.outline(above.copy), above))
    shapes += mark_shapes(marks, below, new=True, size=longer_side(bench, below.copy))
    if not strip_loop(bench, placement.placed):
        shapes += [Shape(path, Look.STITCHING) for path in _basting(bench, above, basted, distance)]
        shapes += lines_to_stitch(bench, above) if stitched else []
    callouts = [
        Callout(names, above_spot, bench.number(above.copy)),
        Callout(face_words(below.copy, behind), _bare(outer, pair, below, bench), bench.number(below.copy)),
    ]
    callouts += [
        Callout(Phrase.of("figures.name", name=mark.name), below.rule(mark.at))
        for mark in marks
        if hasattr(mark, "at") and not (isinstance(mark, PointMark) and behind)
    ]
    piece, notches = bench.piece_now(below.copy), [mark for mark in marks if isinstance(mark, Notch)]
    told = Phrase.of(
        "figures.told-place-over" if placement.laying.turned_over else "figures.told-place",
        copy=placement.placed,
        below=placement.below,
        matching=names_of([below for _, below in placement.matching]),
    )
    return Panel(
        "placement",
        Scene(tuple(shapes), tuple(callouts), tuple(spot_dimensions(piece, notches, below))),
        told,
        copies=(placement.placed, placement.below),
    )


def _basting(bench: Bench, above: Lying, edges: Sequence[str], distance: float | None) -> Iterator[Path]:
    """Beside the edges of a copy that lies on another: at a distance, else in the middle of the allowance."""
    piece = bench.piece_now(above.copy) if edges else None
    for part in [part for edge in edges for part in (piece.edges_of(edge) if piece else ())]:
        away = distance if distance is not None else part.allowance / -2
        for beside in parallel_beside(part.path, away):
            yield moved(beside, above)


def _across_ends(strips: Sequence[Shape], outer: Path) -> Iterator[Shape]:
    """Basting across the ends of strips that lie level with the raw edge below, or nearly."""
    for strip in strips:
        if not strip.closed:
            continue
        corners = [segment.start for segment in strip.path.segments]
        foot, way = (corners[0] + corners[-1]) * 0.5, (corners[-1] - corners[0]) * 0.5
        inwards = way.unit().right()
        at = foot + inwards * BASTED
        if inside(outer, at):
            yield Shape(chain([at - way, at + way]), Look.STITCHING)


def lines_to_stitch(bench: Bench, lying: Lying) -> list[Shape]:
    """The stitching lines that a copy bears, where it lies."""
    lines = [one for one in marks_on(bench, lying.copy) if isinstance(one, LineMark) and one.kind == "stitching line"]
    return [Shape(moved(chain([one.start, one.end]), lying), Look.STITCHING) for one in lines]


def _marked_lines(bench: Bench, lying: Lying) -> list[Shape]:
    """The lines that have been marked on the right side of a copy, where it lies with that up."""
    if lying.wrong_up:
        return []
    lines = [
        mark
        for mark in marks_on(bench, lying.copy)
        if isinstance(mark, LineMark) and f"{lying.copy}.{mark.name}" in bench.state.marked
    ]
    return mark_shapes(lines, lying, new=False)


def _alike(upper: Path, outer: Path) -> bool:
    """True for an outline that leaves next to nothing of the other bare."""
    return abs(signed_area(upper)) > COVERED * abs(signed_area(outer))


def _covering(bench: Bench, placement: Placement, above: Lying, below: Lying, basted: Sequence[str]) -> Panel:
    """A copy laid edge on edge on another, a corner turned back."""
    upper = moved(bench.outline(above.copy), above)
    back = turn_back(upper, [])
    face, behind = (texture_of(bench, above.copy, wrong_up) for wrong_up in (above.wrong_up, not above.wrong_up))
    callouts = (
        Callout(named_face(bench, above.copy, above.wrong_up), spot_on(upper, back), bench.number(above.copy)),
        Callout(named_face(bench, below.copy, below.wrong_up), back.bare_spot, bench.number(below.copy)),
    )
    told = Phrase.of(
        "figures.told-place-over" if placement.laying.turned_over else "figures.told-place",
        copy=placement.placed,
        below=placement.below,
        matching=names_of([there for _, there in placement.matching]),
    )
    sewn = [
        Shape(part, Look.STITCHING) for path in _basting(bench, above, basted, None) for part in back.kept_line(path)
    ]
    scene = Scene((*laid(bench, below), *back.shapes(face, behind, Look.RAW), *sewn), callouts)
    return Panel("placement", scene, told, copies=(placement.placed, placement.below))


def _inner_spot(path: Path) -> Point:
    box = path.box
    return Point((box.left + box.right) / 2, (box.bottom + box.top) / 2)


def _bare(outer: Path, pair: Sequence[Lying], below: Lying, bench: Bench) -> Point:
    """A spot of the copy below that stays bare."""
    laid_on = [one for one in pair if not strip_loop(bench, one.copy)]
    covers = [moved(bench.outline(one.copy), one) for one in (*carried(bench, below), *laid_on)]
    return spot_on(outer, None, covers)


def stack_panel(bench: Bench, placements: Sequence[Placement]) -> Panel | None:
    """Layers in order, from the lowest, tilted so that each is seen, and which face of each lies up."""
    order = [placements[0].below, *(one.placed for one in placements)]
    if any(one.below != before for one, before in zip(placements, order, strict=False)):
        return None
    outlines = [bench.outline(copy) for copy in order]
    lifted = max(outline.box.height for outline in outlines) * FLAT * STACKED
    faces = _faces_up(bench, placements)
    shapes: list[Shape] = []
    callouts: list[Callout] = []
    for at, (copy, outline, wrong_up) in enumerate(zip(order, outlines, faces, strict=True)):
        tilted = _tilted(outline, at * lifted)
        shapes.append(Shape(tilted, Look.FOLDED, texture_of(bench, copy, wrong_up), closed=True))
        box = tilted.box
        callouts.append(
            Callout(
                named_face(bench, copy, wrong_up),
                Point(box.left + box.width * 0.12, box.bottom + lifted * 0.4),
                bench.number(copy),
            )
        )
    told = Phrase.of("figures.told-layers", copies=names_of(order))
    return Panel("layers", Scene(tuple(shapes), tuple(callouts)), told, copies=tuple(order))


def _faces_up(bench: Bench, placements: Sequence[Placement]) -> list[bool]:
    """Whether each layer lies with its wrong side up: the lowest does when a backing is laid on it."""
    wrong = bench.kind(placements[0].placed) in BACKINGS
    faces = [wrong]
    for placement in placements:
        faces.append(placement.laying.turned_over != faces[-1])
    return faces


def _tilted(outline: Path, lifted: float) -> Path:
    spots = outline.flattened(0.5)
    return chain([Point(spot.x + spot.y * SHEAR, spot.y * FLAT + lifted) for spot in spots])
