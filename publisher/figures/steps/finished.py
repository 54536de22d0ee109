"""What has been assembled so far, front and back: a bag or a box standing, a hat from its side, else as it lies flat."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from publisher.drafting import LineMark
from publisher.figures.steps.cloth import (
    BACKINGS,
    Bench,
    Lying,
    laid,
    lies_behind,
    moved,
    placed_lyings,
    strip_loop,
    turned,
)
from publisher.figures.steps.facings import facing_joint, facing_lying
from publisher.figures.steps.facts import StepFacts
from publisher.figures.steps.lines import line
from publisher.figures.steps.marking import marks_on
from publisher.figures.steps.placing import strip_shapes
from publisher.figures.steps.revolved import hat_panels
from publisher.figures.steps.seams import spot_on
from publisher.figures.steps.shaping import is_boxed
from publisher.figures.steps.sides import side_panel
from publisher.figures.steps.standing import bag_panels, box_panels
from publisher.figures.steps.threading import threaded_shapes
from publisher.figures.steps.values import Callout, Look, Panel, Shape
from publisher.geometry import Path, Point, parallel_beside
from publisher.terms import Phrase

LINES = {"stitching line": Look.STITCHED, "fold line": Look.FOLD}
NAMED = 4  # copies that have words, at most


@dataclass(frozen=True, slots=True)
class Seen:
    """Something that is seen on a side: its name, its shapes, and where it is named."""

    name: str
    shapes: tuple[Shape, ...]
    at: Point


def finished_panels(bench: Bench, copy: str, facts: StepFacts) -> list[Panel]:
    """The work around a copy as it is now, from its front and from its back."""
    boxed = next((one for one in bench.draft.seams if is_boxed(one) and _holds(bench, one.name, copy)), None)
    if boxed is not None:
        return bag_panels(bench, boxed)
    return box_panels(bench, copy) or hat_panels(bench, copy) or _flat_panels(bench, copy, facts)


def _holds(bench: Bench, seam: str, copy: str) -> bool:
    one = next(one for one in bench.draft.seams if one.name == seam)
    return seam in bench.state.sewn and copy in {side.copy for side in (*one.first, *one.second)}


def _flat_panels(bench: Bench, copy: str, facts: StepFacts) -> list[Panel]:
    front, back = Lying(copy, new=False), _behind(bench, copy)
    return [_side(bench, front, facts, "front"), _side(bench, back, facts, "back")]


def _behind(bench: Bench, copy: str) -> Lying:
    """What is seen from the other side: what it has been laid on with its wrong side, at last; else its own wrong side."""
    lowest = copy
    for _ in bench.draft.placements:
        for placement in bench.draft.placements:
            behind = lies_behind(bench, placement) or bench.kind(placement.below) in BACKINGS
            if placement.placed == lowest and placement.name in bench.state.placed and behind:
                lowest = placement.below
    if lowest != copy:
        return Lying(lowest, new=False)
    return Lying(copy, turned(), wrong_up=True, new=False)


def _side(bench: Bench, lying: Lying, facts: StepFacts, face: str) -> Panel:
    own = [*laid(bench, lying), *_lines(bench, lying)]
    own += [Shape(moved(path, lying), Look.BEFORE_FOLDED) for path in _bound(bench, lying.copy)]
    bare = spot_on(moved(bench.outline(lying.copy), lying), None, [one.path for one in own[1:] if one.closed])
    seen = [Seen(lying.copy, tuple(own), bare)]
    seen += _faced(bench, lying) if lying.wrong_up else _on_top(bench, lying)
    for thread, through in facts.threaded:
        cord = threaded_shapes(bench, through, lying)
        seen += [Seen(thread, tuple(cord), cord[-1].path.point_at(cord[-1].path.length * 0.5))] if cord else []
    named = list({one.name: one for one in reversed(seen)}.values())[::-1]
    numbered = {one.name for piece in bench.draft.pieces for one in piece.copies}
    callouts = [
        Callout(
            Phrase.of("figures.name", name=one.name), one.at, bench.number(one.name) if one.name in numbered else None
        )
        for one in named[:NAMED]
    ]
    return side_panel(face, [shape for one in seen for shape in one.shapes], callouts, [one.name for one in named])


def _lines(bench: Bench, lying: Lying) -> Iterator[Shape]:
    """What was marked on a copy, and on what lies flat on it, to be stitched along or folded by."""
    above = [
        next(placed_lyings(bench, one, lying, new=False))
        for one in bench.draft.placements
        if one.below == lying.copy and one.name in bench.state.placed and not lies_behind(bench, one)
    ]
    for one in (lying, *above):
        for mark in () if one.wrong_up else marks_on(bench, one.copy):
            look = LINES.get(mark.kind) if isinstance(mark, LineMark) else None
            if isinstance(mark, LineMark) and look is not None and f"{one.copy}.{mark.name}" in bench.state.marked:
                yield Shape(moved(line(mark.start, mark.end), one), look)


def _on_top(bench: Bench, lying: Lying) -> Iterator[Seen]:
    """What has been laid on the right side; what lies flat is drawn with the copy below it."""
    box = moved(bench.outline(lying.copy), lying).box
    for one in bench.draft.placements:
        if one.below != lying.copy or one.name not in bench.state.placed or lies_behind(bench, one):
            continue
        above = next(placed_lyings(bench, one, lying, new=False))
        if strip_loop(bench, one.placed):
            strip, _ = strip_shapes(bench, one, above, box)
            yield Seen(one.placed, tuple(strip), strip[0].path.point_at(strip[0].path.length * 0.1))
        else:
            yield Seen(one.placed, (), spot_on(moved(bench.outline(above.copy), above)))


def _faced(bench: Bench, lying: Lying) -> Iterator[Seen]:
    """The facings that have been turned to the wrong side."""
    for name in dict.fromkeys(bench.state.turned):
        joint = facing_joint(bench, name)
        if joint is not None and joint.first == lying.copy:
            above = replace(facing_lying(joint)[1], new=False)
            yield Seen(name, tuple(laid(bench, above)), spot_on(moved(bench.outline(name), above)))


def _bound(bench: Bench, copy: str) -> Iterator[Path]:
    """The inner edges of bindings that have been sewn on."""
    piece = bench.piece_now(copy)
    for binding in bench.draft.bindings:
        strip = bench.draft.piece(bench.draft.copy(binding.strip).piece).strip
        for side in binding.edges:
            parts = piece.edges_of(side.edge) if side.piece == piece.name else ()
            if strip is not None and all(bench.done(side.copy, edge.name) for edge in parts):
                for edge in parts:
                    yield from parallel_beside(edge.path, strip.finished_width)
