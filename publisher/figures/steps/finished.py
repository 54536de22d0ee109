"""What has been assembled so far, front and back: a bag or a box standing, a hat from its side, else as it lies flat."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from publisher.drafting import LineMark
from publisher.figures.steps.attached import fastened_on, laid
from publisher.figures.steps.cloth import (
    BACKINGS,
    Bench,
    Lying,
    lies_behind,
    moved,
    placed_lyings,
    spread,
    strip_loop,
    texture_of,
    turned,
)
from publisher.figures.steps.facings import facing_joint, facing_lying
from publisher.figures.steps.facts import StepFacts
from publisher.figures.steps.lines import chain, line
from publisher.figures.steps.marking import marks_on
from publisher.figures.steps.revolved import hat_panels
from publisher.figures.steps.seams import own_spot, spot_on
from publisher.figures.steps.shaping import is_boxed
from publisher.figures.steps.sides import side_panel
from publisher.figures.steps.standing import bag_panels, box_panels
from publisher.figures.steps.strips import held_at_done_edge, strip_shapes
from publisher.figures.steps.threading import threaded_shapes
from publisher.figures.steps.values import Callout, Look, Panel, Shape, Texture
from publisher.frozen import dataclass
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
    outwards: bool = False  # over the edge that it is held at


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
    front, back = Lying(copy, new=False), on_the_other_side(bench, copy)
    return [_side(bench, front, facts, "front"), _side(bench, back, facts, "back")]


def on_the_other_side(bench: Bench, copy: str) -> Lying:
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
    own = [*spread(bench, lying), *fastened_on(bench, lying), *lines_sewn(bench, lying)]
    bare = own_spot(bench, lying, [one.path for one in own[1:] if one.closed])
    seen = [Seen(lying.copy, tuple(own), bare)]
    seen += _faced(bench, lying) if lying.wrong_up else _on_top(bench, lying)
    for thread, through in facts.threaded:
        cord = threaded_shapes(bench, through, lying)
        # Words stand at the right: of its two ends the one that is nearer to them has its name.
        ends = [one.path.point_at(one.path.length / 2) for one in cord[-2:]]
        seen += [Seen(thread, tuple(cord), max(ends, key=lambda spot: spot.x))] if cord else []
    bound = [Shape(moved(path, lying), look, texture, closed) for path, look, texture, closed in _bound(bench, lying)]
    named = list({one.name: one for one in reversed(seen)}.values())[::-1]
    numbered = {one.name for piece in bench.draft.pieces for one in piece.copies}
    callouts = [
        Callout(
            Phrase.of("figures.name", name=one.name), one.at, bench.number(one.name) if one.name in numbered else None
        )
        for one in _nearer_of_two(bench, named)[:NAMED]
    ]
    # What leaves a bound edge comes from under its binding.
    under, rest = [one for one in seen if one.outwards], [one for one in seen if not one.outwards]
    shapes = [shape for one in (*under, *rest) for shape in one.shapes]
    return side_panel(face, [*shapes, *bound], callouts, [one.name for one in named])


def _nearer_of_two(bench: Bench, seen: Sequence[Seen]) -> list[Seen]:
    """Of facings of one piece, a left and a right one, that whose name crosses nothing on its way to the right."""
    turned_ones = [one for one in seen if one.name in bench.state.turned]
    nearest_one: dict[int, Seen] = {}
    for one in sorted(turned_ones, key=lambda one: one.at.x):
        nearest_one[bench.number(one.name)] = one
    return [one for one in seen if one not in turned_ones or one in nearest_one.values()]


def lines_sewn(bench: Bench, lying: Lying) -> Iterator[Shape]:
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
            out = held_at_done_edge(bench, one)
            strip, _ = strip_shapes(bench, one, above, box, outwards=out)
            yield Seen(one.placed, tuple(strip), strip[0].path.point_at(strip[0].path.length * 0.1), out)
        else:
            yield Seen(one.placed, (), spot_on(moved(bench.outline(above.copy), above)))


def _faced(bench: Bench, lying: Lying) -> Iterator[Seen]:
    """The facings that have been turned to the wrong side."""
    for name in dict.fromkeys(bench.state.turned):
        joint = facing_joint(bench, name)
        if joint is not None and joint.first == lying.copy:
            above = replace(facing_lying(joint)[1], new=False)
            yield Seen(name, tuple(laid(bench, above)), spot_on(moved(bench.outline(name), above)))


def _bound(bench: Bench, lying: Lying) -> Iterator[tuple[Path, Look, Texture, bool]]:
    """The bindings that have been sewn round the edges of a copy, as bands along them."""
    piece = bench.piece_now(lying.copy)
    for binding in bench.draft.bindings:
        strip = bench.draft.piece(bench.draft.copy(binding.strip).piece).strip
        texture = texture_of(bench, binding.strip, wrong_up=False)
        for side in binding.edges:
            parts = piece.edges_of(side.edge) if side.piece == piece.name else ()
            if strip is None or not parts or not all(bench.done(side.copy, edge.name) for edge in parts):
                continue
            path = Path(tuple(segment for edge in parts for segment in edge.path.segments))
            for inner in parallel_beside(path, strip.finished_width)[:1]:
                band = chain([*path.flattened(0.2), *inner.flattened(0.2)[::-1]], closed=True)
                yield band, Look.BEFORE_FOLDED, texture, True
