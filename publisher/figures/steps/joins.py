"""Strips joined on the diagonal, and a binding folded round a square corner. The draft's mm."""

from publisher.drafting import Binding
from publisher.figures.steps.cloth import Bench, texture_of
from publisher.figures.steps.lines import box_path, chain, line
from publisher.figures.steps.values import Callout, Dimension, Look, Panel, Scene, Shape
from publisher.figures.steps.wording import face_words, length_words
from publisher.geometry import Point
from publisher.terms import Phrase


def joined_panels(bench: Bench, copy: str) -> list[Panel]:
    """Two ends at a right angle, right sides together, sewn from one crossing of their edges to the other."""
    piece = bench.draft.piece(bench.draft.copy(copy).piece)
    if piece.strip is None or piece.strip.joins != "diagonal":
        return []
    wide, number = piece.cut_height, bench.number(copy)
    right, wrong = texture_of(bench, copy, wrong_up=False), texture_of(bench, copy, wrong_up=True)
    trimmed = min(piece.strip.join_allowance or wide / 6, wide / 3) * 2**0.5
    shapes = (
        Shape(box_path(-3.0 * wide, 0.0, wide, wide), Look.RAW, right, closed=True),
        Shape(box_path(0.0, -2.2 * wide, wide, wide), Look.RAW, wrong, closed=True),
        Shape(line(Point(0.0, wide), Point(wide, 0.0)), Look.STITCHING),
        Shape(line(Point(trimmed, wide), Point(wide, trimmed)), Look.CUT),
    )
    callouts = (
        Callout(Phrase.of("figures.strip-right-side"), Point(-1.8 * wide, wide * 0.5), number),
        Callout(Phrase.of("figures.strip-wrong-side"), Point(wide * 0.5, -1.4 * wide), number),
        Callout(Phrase.of("figures.sew-diagonal"), Point(wide * 0.82, wide * 0.18)),
        Callout(Phrase.of("figures.then-trim"), Point(wide - 0.3 * (wide - trimmed), trimmed + 0.3 * (wide - trimmed))),
    )
    told = Phrase.of("figures.told-join", copy=copy)
    return [Panel("join", Scene(shapes, callouts), told, copies=(copy,))]


def mitred_panels(bench: Bench, binding: Binding) -> list[Panel]:
    """A binding at a square corner: sewn to just before it, folded up on a slant, folded down along the next side."""
    piece = bench.draft.piece(bench.draft.copy(binding.strip).piece)
    assert piece.strip is not None
    unit, copy = piece.strip.finished_width, binding.edges[0].copy
    strip, far = 3 * unit, 11 * unit
    right, wrong = texture_of(bench, binding.strip, wrong_up=False), texture_of(bench, binding.strip, wrong_up=True)
    cloth = Shape(
        chain([Point(-far, -far * 0.7), Point(0.0, -far * 0.7), Point(0.0, 0.0), Point(-far, 0.0)], closed=True),
        Look.BEFORE,
        texture_of(bench, copy, wrong_up=False),
        closed=True,
    )
    along = Shape(box_path(-far, -strip, 0.0, 0.0), Look.RAW, wrong, closed=True)
    sewn = line(Point(-far, -unit), Point(-unit, -unit))
    corner, low = Point(0.0, 0.0), Point(-strip, -strip)
    raised = Shape(
        chain([corner, Point(0.0, 5 * unit), Point(-strip, 5 * unit), low], closed=True),
        Look.FOLDED,
        right,
        closed=True,
    )
    bare = Shape(chain([low, corner, Point(0.0, -strip)], closed=True), Look.BEFORE, cloth.texture, closed=True)
    up = Scene(
        (cloth, along, bare, raised, Shape(sewn, Look.STITCHING)),
        (Callout(Phrase.of("figures.fold-slanting"), Point(-strip / 2, -strip / 2)),),
        (Dimension(Point(-unit, -unit), Point(0.0, -unit), length_words(unit)),),
    )
    lowered = Shape(box_path(-strip, -far * 0.62, 0.0, 0.0), Look.RAW, wrong, closed=True)
    down = Scene(
        (
            cloth,
            along,
            lowered,
            Shape(line(low, corner), Look.HIDDEN),
            Shape(line(Point(-strip, 0.0), corner), Look.FOLDED),
            Shape(sewn, Look.STITCHED),
            Shape(line(Point(-unit, 0.0), Point(-unit, -far * 0.62)), Look.STITCHING),
        ),
        (Callout(Phrase.of("figures.fold-level"), Point(-strip * 0.5, 0.0)),),
    )
    copies = (binding.strip, copy)
    return [
        Panel("mitre folded up", up, Phrase.of("figures.told-mitre-up", strip=binding.strip), None, copies),
        Panel("mitre folded down", down, Phrase.of("figures.told-mitre-down", strip=binding.strip), None, copies),
    ]


def begun_panel(bench: Bench, binding: Binding, quoted: float | None) -> Panel:
    """The beginning of a binding, wrong side up, its edge level with the edge that is bound, a tail left before it: what
    is `quoted`, or half of the overlap."""
    tail = quoted or binding.overlap / 2
    cloth, strip, unit = _along_an_edge(bench, binding, -tail * 1.3, tail * 2.2, -tail)
    sewn = Shape(line(Point(0.0, -unit), Point(tail * 2.2, -unit)), Look.STITCHING)
    number = bench.number(binding.strip)
    callouts = (
        Callout(face_words(binding.strip, wrong_up=True), Point(tail * 1.2, -2 * unit), number),
        Callout(face_words(binding.edges[0].copy, wrong_up=False), Point(tail * 0.6, -4.4 * unit)),
        Callout(Phrase.of("figures.begin-here"), Point(0.0, -unit)),
    )
    across = Dimension(Point(-tail, 0.0), Point(0.0, 0.0), length_words(tail), away=4.0)
    told = Phrase.of("figures.told-begin", strip=binding.strip, copy=binding.edges[0].copy, tail=length_words(tail))
    scene = Scene((*cloth, strip, sewn), callouts, (across,))
    return Panel("binding begun", scene, told, copies=(binding.strip, binding.edges[0].copy))


def joined_ends_panel(bench: Bench, binding: Binding, quoted: float | None) -> Panel:
    """Where a binding has come round: its ends joined on the diagonal, the rest of it sewn on: what is `quoted`, or its
    overlap."""
    overlap = quoted or binding.overlap
    half = overlap / 2
    cloth, strip, unit = _along_an_edge(bench, binding, -half * 2.2, half * 2.2, -half * 2.2)
    wide = 3 * unit
    before = [
        Shape(line(Point(side * half * 2.2, -unit), Point(side * half, -unit)), Look.STITCHED) for side in (-1.0, 1.0)
    ]
    join = Shape(line(Point(-wide / 2, 0.0), Point(wide / 2, -wide)), Look.STITCHING)
    rest = Shape(line(Point(-half, -unit), Point(half, -unit)), Look.STITCHING)
    callouts = (
        Callout(Phrase.of("figures.join-ends"), Point(wide * 0.3, -wide * 0.8)),
        Callout(Phrase.of("figures.then-the-rest"), Point(half * 0.8, -unit)),
        Callout(face_words(binding.strip, wrong_up=True), Point(-half * 1.7, -2 * unit), bench.number(binding.strip)),
    )
    across = Dimension(Point(-half, 0.0), Point(half, 0.0), length_words(overlap), away=4.0)
    told = Phrase.of("figures.told-join-ends", strip=binding.strip, overlap=length_words(overlap))
    scene = Scene((*cloth, strip, *before, join, rest), callouts, (across,))
    return Panel("binding joined", scene, told, copies=(binding.strip, binding.edges[0].copy))


def _along_an_edge(
    bench: Bench, binding: Binding, left: float, right: float, begin: float
) -> tuple[tuple[Shape, ...], Shape, float]:
    """A stretch of the edge with what is bound below it, the strip on it with its first fold open, the fold's width."""
    piece = bench.draft.piece(bench.draft.copy(binding.strip).piece)
    assert piece.strip is not None
    unit, copy = piece.strip.finished_width, binding.edges[0].copy
    low = -6.5 * unit
    plain, wrong = texture_of(bench, copy, wrong_up=False), texture_of(bench, binding.strip, wrong_up=True)
    area = Shape(box_path(left, low, right, 0.0), None, plain, closed=True)
    rim = Shape(line(Point(left, 0.0), Point(right, 0.0)), Look.BEFORE)
    strip = Shape(box_path(begin, -3 * unit, right, 0.0), Look.RAW, wrong, closed=True)
    return (area, rim), strip, unit
