"""What is round about one axis, as a hat is: rings sewn edge to edge under a disc, seen a little from above. True mm."""

import math
from collections.abc import Iterator
from itertools import pairwise

from publisher.drafting import Edge
from publisher.figures.steps.cloth import Bench, texture_of
from publisher.figures.steps.lines import chain, line
from publisher.figures.steps.sides import side_panel
from publisher.figures.steps.values import Callout, Look, Panel, Shape, Texture
from publisher.frozen import dataclass
from publisher.geometry import Point
from publisher.terms import Phrase

TILT = 0.3  # of a circle's depth: how far it is seen from above
STEPS = 48
WHOLE = 0.98  # of an outline: an edge that is longer goes all round
SEEN = ("fabric",)


@dataclass(frozen=True, slots=True)
class Level:
    """A circle of the thing: its radius, its height; and the copy that reaches down to it from the one above."""

    copy: str
    radius: float
    height: float


def hat_panels(bench: Bench, copy: str) -> list[Panel]:
    """A disc and the rings below it, front and back; nothing of what is not built so, or is not sewn yet."""
    for piece in bench.draft.pieces:
        for disc in piece.copies:
            levels = list(_levels(bench, disc.name))
            if len(levels) > 1 and copy in {level.copy for level in levels}:
                return [_seen(bench, levels, face) for face in ("front", "back")]
    return []


def _levels(bench: Bench, disc: str) -> Iterator[Level]:
    """From the disc downwards, ring by ring, as far as they have been sewn."""
    edge = _all_round(bench, disc)
    if edge is None or bench.kind(disc) not in SEEN:
        return
    level = Level(disc, edge.length / math.tau, 0.0)
    yield level
    joined = _ring_at(bench, disc, edge.name, {disc})
    done = {disc}
    while joined is not None:
        ring, near = joined
        far, slant = _across(bench, ring, near)
        if far is None:
            return
        radius = far.length / math.tau
        drop = math.sqrt(max(slant**2 - (radius - level.radius) ** 2, 0.0))
        level = Level(ring, radius, level.height - drop)
        yield level
        done.add(ring)
        joined = _ring_at(bench, ring, far.name, done)


def _all_round(bench: Bench, copy: str) -> Edge | None:
    piece = bench.draft.piece(bench.draft.copy(copy).piece)
    return next((edge for edge in piece.edges if edge.length > WHOLE * piece.finished_line.length), None)


def _ring_at(bench: Bench, copy: str, edge: str, done: set[str]) -> tuple[str, str] | None:
    """The ring that is sewn to an edge, and by which of its edges."""
    for seam in bench.draft.seams:
        if seam.name not in bench.state.sewn or len(seam.first) != 1 or len(seam.second) != 1:
            continue
        for here, there in ((seam.first[0], seam.second[0]), (seam.second[0], seam.first[0])):
            fits = (here.copy, here.edge) == (copy, edge) and there.copy not in done
            new = there.piece not in {bench.draft.copy(one).piece for one in done}  # not the other layer of a ring
            if fits and new and bench.kind(there.copy) in SEEN and _closing(bench, there.copy):
                return there.copy, there.edge
    return None


def _closing(bench: Bench, copy: str) -> tuple[str, str] | None:
    """The two edges by which a copy has been sewn to itself."""
    for seam in bench.draft.seams:
        sides = (*seam.first, *seam.second)
        if seam.name in bench.state.sewn and len(sides) == 2 and {side.copy for side in sides} == {copy}:
            return sides[0].edge, sides[1].edge
    return None


def _across(bench: Bench, ring: str, near: str) -> tuple[Edge | None, float]:
    """The other round edge of a ring, and how far it is from the near one along the cloth, mm."""
    piece = bench.draft.piece(bench.draft.copy(ring).piece)
    closing = _closing(bench, ring) or ("", "")
    rest = [edge for edge in piece.edges if edge.name not in (*closing, near)]
    slant = piece.edges_of(closing[0])[0].length if closing[0] else 0.0
    return (rest[0] if len(rest) == 1 else None), slant


def _seen(bench: Bench, levels: list[Level], face: str) -> Panel:
    plain = Texture.PLAIN
    shapes: list[Shape] = []
    for upper, lower in reversed(list(pairwise(levels))):
        outer = _round(lower, 0.0, math.tau)
        if lower.radius > upper.radius + (upper.height - lower.height) * 0.6:
            shapes.append(Shape(chain(outer, closed=True), Look.FOLDED, plain, closed=True))
        else:
            front, top = _round(lower, math.pi, math.tau), _round(upper, math.tau, math.pi)
            shapes.append(Shape(chain([*front, *top], closed=True), Look.FOLDED, plain, closed=True))
        if face == "back" and _closing(bench, lower.copy):
            low, high = _round(lower, 1.5 * math.pi, 1.5 * math.pi)[0], _round(upper, 1.5 * math.pi, 1.5 * math.pi)[0]
            shapes.append(Shape(line(high, low), Look.STITCHED))
    texture = texture_of(bench, levels[0].copy, wrong_up=False)
    shapes.append(Shape(chain(_round(levels[0], 0.0, math.tau), closed=True), Look.FOLDED, texture, closed=True))
    callouts = [
        Callout(
            Phrase.of("figures.name", name=levels[0].copy), Point(levels[0].radius * 0.4, 0.0), _n(bench, levels[0])
        )
    ]
    for upper, lower in pairwise(levels):
        one, other = (_round(level, 1.72 * math.pi, 1.72 * math.pi)[0] for level in (upper, lower))
        callouts.append(Callout(Phrase.of("figures.name", name=lower.copy), (one + other) * 0.5, _n(bench, lower)))
    return side_panel(face, shapes, callouts, [level.copy for level in levels])


def _n(bench: Bench, level: Level) -> int:
    return bench.number(level.copy)


def _round(level: Level, begin: float, end: float) -> list[Point]:
    """Spots of a circle seen from above, from one angle to another."""
    return [
        Point(
            level.radius * math.cos(begin + (end - begin) * at / STEPS),
            level.height + TILT * level.radius * math.sin(begin + (end - begin) * at / STEPS),
        )
        for at in range(STEPS + 1)
    ]
