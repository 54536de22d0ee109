"""What has been set in, held or folded on a copy stays on it: snaps and their washers, rings, strips. The draft's mm."""

import math
from collections.abc import Iterator
from dataclasses import replace

from publisher.drafting import Notion, PointMark
from publisher.figures.steps.cloth import (
    BACKINGS,
    Bench,
    Lying,
    Rule,
    carried,
    face_seen,
    lies_behind,
    moved,
    placed_lyings,
    spread,
    strip_loop,
)
from publisher.figures.steps.joining import joints_of, lying_on
from publisher.figures.steps.lines import chain, ring
from publisher.figures.steps.marking import marks_on
from publisher.figures.steps.strips import held_at_done_edge, strip_shapes
from publisher.figures.steps.values import Look, Shape, Texture
from publisher.figures.symbols import RADII
from publisher.geometry import Point, inside

PRONGED = ("magnetic snap",)  # kinds that go through the cloth and are bent over a washer
THROUGH = ("eyelet",)  # kinds that look alike on both faces
INNER = 0.4  # of a snap: the post of one half, the hollow of the other
NEAR, FAR, WIDE = 0.2, 0.62, 0.14  # of a snap: where a prong comes through and where it ends, half as wide


def laid(bench: Bench, lying: Lying) -> list[Shape]:
    """The area of a copy, what is already on that face, and what has been held or set in there."""
    held = [shape for _, shapes in strips_on(bench, lying) for shape in shapes]
    return [*spread(bench, lying), *held, *fastened_on(bench, lying)]


def carried_areas(bench: Bench, lying: Lying) -> list[Shape]:
    """Of that, the areas that lie on the copy."""
    return [one for one in laid(bench, lying) if one.closed and one.texture is not None][1:]


def strips_on(bench: Bench, lying: Lying) -> Iterator[tuple[str, list[Shape]]]:
    """The folded strips that are held on the face that lies up, by name: what was caught by its end in a seam or a
    binding since comes out of it, out of the needle's way."""
    seen = _seen(bench, lying)
    box = moved(bench.outline(seen.copy), seen).box
    for one in () if seen.wrong_up else bench.draft.placements:
        if one.below != seen.copy or one.name not in bench.state.placed or not strip_loop(bench, one.placed):
            continue
        if not lies_behind(bench, one):
            out = held_at_done_edge(bench, one)
            above = next(placed_lyings(bench, one, seen, new=False))
            yield one.placed, [_thin(one) for one in strip_shapes(bench, one, above, box, out)[0]]
    for on_top in carried(bench, lying):
        yield from strips_on(bench, on_top)


def fastened_on(bench: Bench, lying: Lying) -> Iterator[Shape]:
    """What has been set in at marks, seen on the face that lies up, and rings in folded tabs; not what is covered."""
    seen, on_top = _seen(bench, lying), list(carried(bench, lying))
    covers = [moved(bench.outline(one.copy), one) for one in on_top if bench.kind(one.copy) not in BACKINGS]
    for notion, name in _attached(bench, seen.copy):
        for mark in marks_on(bench, seen.copy):
            at = seen.rule(mark.at) if isinstance(mark, PointMark) and mark.name == name else None
            if at is not None and isinstance(mark, PointMark) and not any(inside(cover, at) for cover in covers):
                yield from _set_in(notion, mark, at, seen.wrong_up == (mark.face == "wrong side"))
    fold = bench.held_fold(lying.copy)
    if fold is not None and any(name == fold.name for _, name in _attached(bench, lying.copy)):
        yield from (_thin(one) for one in held_ring(bench, lying))
    for one in on_top:
        yield from fastened_on(bench, one)


def _attached(bench: Bench, copy: str) -> Iterator[tuple[Notion, str]]:
    """What has been attached to a copy, and at which of its marks, in the order of the notions."""
    for notion in bench.draft.notions:
        for key, spot in sorted(bench.state.attached_to):
            at, _, name = spot.partition(".")
            if (key, at) == (notion.key, copy):
                yield notion, name


def _seen(bench: Bench, lying: Lying) -> Lying:
    """The copy whose face is seen, as it lies: behind one that was sewn to its like and turned out, that other."""
    copy, wrong_up = face_seen(bench, lying.copy, lying.wrong_up)
    if copy == lying.copy:
        return lying
    rule = _sewn_to_its_like(bench, lying.copy, copy)
    onto = lying.rule if rule is None else lambda spot: lying.rule(rule(spot))
    return Lying(copy, onto, wrong_up, lying.new)


def _sewn_to_its_like(bench: Bench, copy: str, other: str) -> Rule | None:
    """How the other of two copies that were sewn right sides together lies on the first."""
    for joint in (one for name in bench.state.sewn for one in joints_of(bench.draft, name)):
        if (joint.first, joint.second) == (copy, other):
            return lying_on(joint)
        if (joint.first, joint.second) == (other, copy):
            first, second = joint.second_path, joint.first_path
            return lying_on(replace(joint, first=copy, second=other, first_path=first, second_path=second))
    return None


def _set_in(notion: Notion, mark: PointMark, at: Point, front: bool) -> Iterator[Shape]:
    """A notion at its mark, seen from the face that the mark is on, or from the other."""
    half = (size_of(notion, "across") or 2 * max(RADII[mark.symbol], default=RADII["point"][0])) / 2
    if not front and notion.kind not in (*PRONGED, *THROUGH):
        return
    yield Shape(ring(at, half), Look.BEFORE, Texture.PLAIN, closed=True)
    if front or notion.kind in THROUGH:
        yield Shape(ring(at, half * INNER), Look.BEFORE, Texture.PLAIN, closed=True)
        return
    for way in (-1.0, 1.0):  # prongs, bent outwards over the washer
        spots = ((NEAR, -WIDE), (FAR, -WIDE), (FAR, WIDE), (NEAR, WIDE))
        prong = [at + Point(way * along * half, aside * half) for along, aside in spots]
        yield Shape(chain(prong, closed=True), Look.BEFORE, Texture.PLAIN, closed=True)


def _thin(shape: Shape) -> Shape:
    """As what was there before."""
    return replace(shape, look=Look.BEFORE) if shape.look in (Look.RAW, Look.FOLDED) else shape


def size_of(notion: Notion, name: str) -> float | None:
    """One of the sizes of a notion, mm; None where it does not say it."""
    found = dict(notion.sizes).get(name)
    return None if found is None else float(found.amount)


def held_ring(bench: Bench, above: Lying) -> list[Shape]:
    """The ring in the fold of a tab, as it lies; nothing of what is folded round none."""
    fold = bench.held_fold(above.copy)
    if fold is None:
        return []
    ends = (above.rule(fold.start), above.rule(fold.end))
    middle, box = (ends[0] + ends[1]) * 0.5, moved(bench.outline(above.copy), above).box
    down = (Point((box.left + box.right) / 2, (box.bottom + box.top) / 2) - middle).unit()
    return list(d_ring(middle, down, (ends[1] - ends[0]).length / 2 + 1.5))


def d_ring(middle: Point, down: Point, half: float) -> Iterator[Shape]:
    """A ring that stands up from a fold, its straight side within it."""
    for size in (half, half - 2.4):
        spots = [
            middle + down.left() * (size * math.cos(math.pi * at / 24)) - down * (size * math.sin(math.pi * at / 24))
            for at in range(25)
        ]
        yield Shape(chain([*spots, spots[0]]), Look.FOLDED)
