"""A cord, a tape or an elastic drawn through casings: in at one end, out at the other. The draft's mm."""

from collections.abc import Sequence
from itertools import pairwise

from publisher.drafting import Piece
from publisher.figures.steps.attached import laid
from publisher.figures.steps.cloth import Bench, Lying, longer_side, moved, texture_of, turned
from publisher.figures.steps.facings import facing_joint, facing_lying
from publisher.figures.steps.lines import chain
from publisher.figures.steps.seams import own_spot
from publisher.figures.steps.values import Arrow, Callout, Look, Panel, Scene, Shape
from publisher.figures.steps.wording import face_words, length_words, names_of
from publisher.frozen import dataclass
from publisher.geometry import Path, Point, nearest, parallel_beside
from publisher.terms import Phrase

TAIL = 0.16  # of the longer side of what has the casing: how much of the cord hangs out
STEPS = 16
Spots = list[Point]


@dataclass(frozen=True, slots=True)
class Casing:
    """What has the casing, seen from its wrong side; what is sewn to it; the way through it, and where it is named."""

    below: Lying
    on_it: tuple[Shape, ...]
    way: Path
    name: str


def threaded_panel(bench: Bench, thread: str, through: Sequence[str], quoted: float | None) -> Panel | None:
    """The wrong side with its casings in order, and the cord's way; None where one of them is no casing.

    What the step quotes is left between two casings.
    """
    found = _casings(bench, through)
    if not found:
        return None
    below = found[0].below
    ways, loops, tails = _cord(bench, found)
    shapes = [*laid(bench, below), *(shape for casing in found for shape in casing.on_it)]
    shapes += [Shape(chain(way), Look.CORD_WITHIN) for way in ways] + [Shape(chain(loop), Look.CORD) for loop in loops]
    callouts = [
        Callout(Phrase.of("figures.name", name=thread), tails[0][0], _number(bench, thread)),
        Callout(face_words(below.copy, wrong_up=True), own_spot(bench, below), bench.number(below.copy)),
    ]
    if quoted is not None:
        words = Phrase.of("figures.leave", amount=length_words(quoted))
        callouts += [Callout(words, loop[len(loop) // 2]) for loop in loops]
    casings = names_of([casing.name for casing in found])
    told = Phrase.of("figures.told-thread", copy=below.copy, thread=thread, casings=casings)
    arrows = tuple(Arrow(foot, tip) for foot, tip in tails)
    return Panel("threading", Scene(tuple(shapes), tuple(callouts), (), arrows), told, copies=(below.copy,))


def threaded_shapes(bench: Bench, through: Sequence[str], lying: Lying) -> list[Shape]:
    """What is seen of a cord when it is drawn through casings of a copy that lies so: its loops and its ends."""
    found = _casings(bench, through)
    if not found or found[0].below.copy != lying.copy:
        return []
    _, loops, tails = _cord(bench, found)
    over = not lying.wrong_up
    spots = [*loops, *(list(tail) for tail in tails)]
    return [Shape(chain([turned()(spot) if over else spot for spot in part]), Look.CORD) for part in spots]


def _casings(bench: Bench, through: Sequence[str]) -> list[Casing]:
    """The casings of one copy, in order; none where one of them is no casing."""
    casings = [_facing(bench, name) if "." not in name else _hem(bench, name) for name in through]
    found = [casing for casing in casings if casing is not None]
    return found if len(found) == len(casings) and len({casing.below.copy for casing in found}) == 1 else []


def _cord(bench: Bench, found: Sequence[Casing]) -> tuple[list[Spots], list[Spots], list[tuple[Point, Point]]]:
    """Its ways through the casings, its loops between them, and both its ends, in the direction in which it goes."""
    tail = longer_side(bench, found[0].below.copy) * TAIL
    ways = _in_order([list(casing.way.flattened(0.5)) for casing in found])
    loops = [_loop(before, after, tail) for before, after in pairwise(ways)]
    first, last = _beyond(ways[0][::-1], tail), _beyond(ways[-1], tail)
    return ways, loops, [(first, ways[0][0]), (ways[-1][-1], last)]


def _number(bench: Bench, thread: str) -> int | None:
    copies = {copy.name for piece in bench.draft.pieces for copy in piece.copies}
    return bench.number(thread) if thread in copies else None


def _facing(bench: Bench, copy: str) -> Casing | None:
    joint = facing_joint(bench, copy)
    if joint is None:
        return None
    below, above = facing_lying(joint)
    piece = bench.draft.piece(bench.draft.copy(copy).piece)
    far = _depth(joint.second_path, piece)
    middle = next(iter(parallel_beside(joint.first_path, far / 2)), joint.first_path)
    right = texture_of(bench, copy, wrong_up=False)
    outline = Shape(moved(bench.outline(copy), above), Look.BEFORE_FOLDED, right, closed=True)
    return Casing(below, (outline,), moved(middle, below), copy)


def _depth(sewn: Path, piece: Piece) -> float:
    """How far from the middle of its sewn edge the edge that lies opposite is, mm."""
    middle = sewn.point_at(sewn.length / 2)
    gaps = [nearest(edge.path, middle)[2] for edge in piece.edges]
    return min(gap for gap in gaps if gap > 1.0)


def _hem(bench: Bench, name: str) -> Casing | None:
    copy, _, edge = name.partition(".")
    piece = bench.piece_now(copy)
    hem = next((one for one in piece.hems if one.edge == edge), None)
    if hem is None:
        return None
    below, path = Lying(copy, turned(), wrong_up=True, new=False), piece.edge(edge).path
    inner, middle = (next(iter(parallel_beside(path, hem.depth * part)), path) for part in (1.0, 0.5))
    band = chain([*path.flattened(0.5), *inner.flattened(0.5)[::-1]], closed=True)
    right = texture_of(bench, copy, wrong_up=False)
    return Casing(
        below, (Shape(moved(band, below), Look.BEFORE_FOLDED, right, closed=True),), moved(middle, below), name
    )


def _in_order(ways: Sequence[Spots]) -> list[Spots]:
    """Each way so turned that it begins where the one before it is nearest."""
    if len(ways) == 1:
        return [ways[0]]
    first = min((ways[0], ways[0][::-1]), key=lambda way: min((way[-1] - spot).length for spot in _ends(ways[1])))
    found = [first]
    for way in ways[1:]:
        found.append(min((way, way[::-1]), key=lambda one: (found[-1][-1] - one[0]).length))
    return found


def _ends(way: Spots) -> tuple[Point, Point]:
    return way[0], way[-1]


def _beyond(way: Spots, far: float) -> Point:
    """Straight on from the end of a way."""
    return way[-1] + (way[-1] - way[-2]).unit() * far


def _loop(before: Spots, after: Spots, tail: float) -> Spots:
    """From the end of one way to the beginning of the next, straight on at both: a cubic by its handles."""
    start, end = before[-1], after[0]
    one, other = _beyond(before, tail * 1.6), _beyond(after[::-1], tail * 1.6)
    spots: Spots = []
    for at in range(STEPS + 1):
        part, rest = at / STEPS, 1 - at / STEPS
        spots.append(start * rest**3 + one * (3 * rest**2 * part) + other * (3 * rest * part**2) + end * part**3)
    return spots
