"""The layers of a seam seen from their edge, with all that was joined to the same edges before. Sections, mm on paper."""

from collections.abc import Iterator, Sequence

from publisher.drafting import SeamEdge
from publisher.figures.steps.cloth import Bench, lies_behind, turned_pair
from publisher.figures.steps.joining import Joint, is_gathered
from publisher.figures.steps.strands import GAP, Fold, Go, stitch, strand
from publisher.figures.steps.values import Callout, Dimension, Panel, Scene, Shape
from publisher.figures.steps.wording import length_words
from publisher.frozen import dataclass
from publisher.geometry import Point
from publisher.terms import Phrase

RIGHT, LEFT = Point(1.0, 0.0), Point(-1.0, 0.0)
LONG = 28.0  # mm of cloth in a section
INSET = 9.0  # from the raw edges to the seam
WITHIN = 4.5  # … to stitching within the allowance
APART = GAP * 1.3  # between two layers


@dataclass(frozen=True, slots=True)
class Layer:
    """A copy at the edge of a seam: which of its faces lies up, folded in half or not, of this seam or there before."""

    copy: str
    wrong_up: bool
    doubled: bool
    new: bool


def layers_at(bench: Bench, joint: Joint, wrong_sides: bool) -> list[Layer]:
    """All that lies at the edges of a seam, from the lowest: its two copies, what was joined to them there before, and
    what lies behind them, having been sewn round with them and turned."""
    lower = Layer(joint.first, wrong_sides, is_doubled(bench, joint.first), new=True)
    upper = Layer(joint.second, not wrong_sides, is_doubled(bench, joint.second), new=True)
    done = {joint.first, joint.second}
    # The face that looks away from the other copy: the wrong side, unless wrong sides meet.
    below = list(_beyond(bench, joint.first, joint.first_edge, not wrong_sides, done))
    above = list(_beyond(bench, joint.second, joint.second_edge, not wrong_sides, done))
    under = [Layer(copy, not wrong, is_doubled(bench, copy), new=False) for copy, wrong in below]
    over = [Layer(copy, wrong, is_doubled(bench, copy), new=False) for copy, wrong in above]
    return [*under[::-1], lower, upper, *over]


def _beyond(bench: Bench, copy: str, edge: str, wrong_face: bool, done: set[str]) -> Iterator[tuple[str, bool]]:
    """What lies one behind the other on a face of a copy at its edge, and whether its far face is its wrong side."""
    joined = _behind(bench, copy, edge, wrong_face, done)
    while joined is not None:
        copy, edge, near_wrong = joined
        done.add(copy)
        yield copy, not near_wrong
        joined = _behind(bench, copy, edge, not near_wrong, done)


def _behind(bench: Bench, copy: str, edge: str, wrong_face: bool, done: set[str]) -> tuple[str, str, bool] | None:
    """The copy that was joined to a face at an edge, by which edge, and whether its wrong side meets that face."""
    if wrong_face:
        other = turned_pair(bench, copy)
        if other is not None and other not in done:
            return other, edge, True
        lining = lining_of(bench, copy)
        if lining is not None and lining not in done:
            return lining, edge, True
    for seam in bench.draft.seams:
        if seam.name not in bench.state.sewn or (seam.name in bench.state.wrong_sides) != wrong_face:
            continue
        for here, there in _both_ways(seam.first, seam.second):
            if (here.copy, here.edge) == (copy, edge) and there.copy not in done:
                return there.copy, there.edge, wrong_face
    return None


def lining_of(bench: Bench, copy: str) -> str | None:
    """The lining that lies behind a copy, wrong sides together: laid there, or sewn to it, or to the same piece, and turned
    away from it."""
    if bench.kind(copy) != "fabric":
        return None
    for one in bench.draft.placements:
        laid_behind = one.below == copy and one.name in bench.state.placed and lies_behind(bench, one)
        if laid_behind and bench.kind(one.placed) == "lining":
            return one.placed
    sewn = [seam for seam in bench.draft.seams if seam.name in bench.state.sewn]
    pieces = {side.copy for seam in sewn for side in (*seam.first, *seam.second)}
    like = [
        one.name for one in bench.draft.piece(bench.draft.copy(copy).piece).copies if bench.kind(one.name) == "lining"
    ]
    return next((one for one in like if one in pieces and (copy, one) != (one, copy) and bench.zip_between), None)


def _both_ways(first: Sequence[SeamEdge], second: Sequence[SeamEdge]) -> Iterator[tuple[SeamEdge, SeamEdge]]:
    if len(first) == len(second):
        yield from zip(first, second, strict=True)
        yield from zip(second, first, strict=True)


def is_doubled(bench: Bench, copy: str) -> bool:
    """True for a strip that has been folded in half along its length."""
    strip = bench.draft.piece(bench.draft.copy(copy).piece).strip
    return strip is not None and strip.folding == "doubled" and copy in bench.state.folded


def seam_section(bench: Bench, joint: Joint, wrong_sides: bool = False, basted: bool = False) -> Panel:
    """All layers from their ends, right sides together or wrong sides, edges level, with the allowance."""
    layers = layers_at(bench, joint, wrong_sides)
    shapes: list[Shape] = []
    callouts: list[Callout] = []
    high = 0.0
    for at, layer in enumerate(layers):
        shapes += _lying(layer, high)
        words = Phrase.of("figures.name", name=layer.copy)
        # Names stand above one another in the order of the layers, from the lowest.
        callouts.append(Callout(words, Point(_named_at(layer), high), bench.number(layer.copy), "left"))
        if at + 1 < len(layers):
            high += APART + (GAP if layer.doubled else 0.0)
    top = high + (GAP if layers[-1].doubled else 0.0)
    shapes.append(stitch(Point(LONG - INSET, top + 3.0), Point(LONG - INSET, -2.8), new=not basted))
    if basted:
        shapes.append(stitch(Point(LONG - WITHIN, top + 3.0), Point(LONG - WITHIN, -2.8)))
        callouts.append(Callout(Phrase.of("figures.basted"), Point(LONG - WITHIN, -2.2), side="right"))
    across = Dimension(Point(LONG, top), Point(LONG - INSET, top), length_words(joint.allowance), away=-6.0)
    if joint.ease > 0:
        amount = length_words(joint.ease)
        words = Phrase.of("figures.gather-in" if is_gathered(joint) else "figures.ease-in", amount=amount)
        callouts.append(Callout(words, Point(12.0, 0.0), side="left"))
    key = "figures.told-section-wrong" if wrong_sides else "figures.told-section"
    told = Phrase.of(key, first=joint.first, second=joint.second, seam=joint.name)
    caption = Phrase.of("figures.wrong-sides-together") if wrong_sides else None
    scene = Scene(tuple(shapes), tuple(callouts), (across,), scale=1.0)
    copies = [joint.first, joint.second, *(layer.copy for layer in layers if not layer.new)]
    return Panel("seam section", scene, told, caption, tuple(copies))


def _named_at(layer: Layer) -> float:
    """Where its name points: the new ones further in than what was there before."""
    return LONG * 0.45 if layer.doubled else 5.0 if layer.new else 2.0


def _lying(layer: Layer, high: float) -> list[Shape]:
    """A layer from its far end to its raw edge; one that is folded in half, with its fold at the far end."""
    if layer.doubled:
        moves = (Go(LONG * 0.6), Fold(True), Go(LONG * 0.6))
        return strand(Point(LONG, high + GAP), LEFT, moves, wrong_left=True, new=layer.new)
    return strand(Point(0.0, high), RIGHT, (Go(LONG),), wrong_left=layer.wrong_up, new=layer.new)
