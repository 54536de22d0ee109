"""Work folded along a marked line, and rolled up: what is folded over, the roll seen from its end. True mm, and sections."""

import math

from publisher.drafting import LineMark
from publisher.figures.steps.attached import laid
from publisher.figures.steps.cloth import Bench, Lying, parted_along, placed_lyings, strip_loop, texture_of
from publisher.figures.steps.finished import lines_sewn, on_the_other_side
from publisher.figures.steps.lines import chain, line
from publisher.figures.steps.marking import marks_on
from publisher.figures.steps.seams import spot_on
from publisher.figures.steps.values import Arrow, Callout, Look, Panel, Scene, Shape
from publisher.figures.steps.wording import face_words
from publisher.geometry import Path, Point, area_within, mirrored
from publisher.terms import Phrase

TURNS = 2.4  # of a roll as it is drawn
RADIUS = 15.0  # mm on paper
TIE = 1.6  # between a roll and what is tied round it
SPOTS = 90
LEFT, RIGHT = "left", "right"


def folded_over_panel(bench: Bench, copy: str, name: str) -> Panel | None:
    """The smaller part of a copy folded over along a marked line, what lies on the larger part below it; None of a mark
    that is no line, or that parts nothing."""
    mark = next((one for one in marks_on(bench, copy) if one.name == name and isinstance(one, LineMark)), None)
    if not isinstance(mark, LineMark):
        return None
    lying = Lying(copy, new=False)
    parted = parted_along(bench.piece_now(copy).finished_line, mark)
    if parted is None:
        return None
    kept, over = parted
    flap = mirrored(over, mark.start, mark.end - mark.start)
    behind = on_the_other_side(bench, copy)
    below = [one for one in bench.draft.placements if one.below == copy and one.name in bench.state.placed]
    flat = [one for one in below if not strip_loop(bench, one.placed)]
    shapes = [Shape(kept, Look.BEFORE_FOLDED, texture_of(bench, copy, wrong_up=False), closed=True)]
    callouts: list[Callout] = []
    for one in flat:
        above = next(placed_lyings(bench, one, lying, new=False))
        shapes += laid(bench, above)
        spot = spot_on(bench.outline(one.placed), None, [flap])
        callouts.append(Callout(face_words(one.placed, wrong_up=False), above.rule(spot), bench.number(one.placed)))
    shapes += lines_sewn(bench, lying)
    shapes = [_kept_by(shape, kept) for shape in shapes if _lies_in(shape.path, kept)]
    shapes.append(Shape(flap, Look.FOLDED, texture_of(bench, behind.copy, behind.wrong_up), closed=True))
    middle = (mark.start + mark.end) * 0.5
    inwards = _towards(flap, middle)
    reach = min((flap.box.height, flap.box.width)) * 0.5
    arrow = Arrow(middle - inwards * (reach * 0.8), middle + inwards * (reach * 0.7), 0.3)
    callouts += [
        Callout(face_words(behind.copy, behind.wrong_up), spot_on(flap), bench.number(behind.copy)),
        Callout(Phrase.of("figures.name", name=name), mark.start),
    ]
    told = Phrase.of("figures.told-folded-over", copy=copy, mark=name)
    return Panel("folded over", Scene(tuple(shapes), tuple(callouts), (), (arrow,)), told, copies=(copy, behind.copy))


def _lies_in(path: Path, area: Path) -> bool:
    box, other = path.box, area.box
    return box.bottom < other.top and box.left < other.right and box.top > other.bottom and box.right > other.left


def _kept_by(shape: Shape, kept: Path) -> Shape:
    """What of an area lies on the part that is not folded."""
    parts = area_within(shape.path, kept) if shape.closed and shape.texture is not None else ()
    return Shape(parts[0], shape.look, shape.texture, closed=True) if len(parts) == 1 else shape


def _towards(flap: Path, middle: Point) -> Point:
    box = flap.box
    return (Point((box.left + box.right) / 2, (box.bottom + box.top) / 2) - middle).unit()


def rolled_panel(bench: Bench, copy: str) -> Panel:
    """The roll from its end, rolled up towards the edge at which a strip is held, the strip's ends led round it both ways."""
    tie = next(
        (
            one.placed
            for one in bench.draft.placements
            if strip_loop(bench, one.placed) and one.name in bench.state.placed and not _by_an_end(one.matching)
        ),
        None,
    )
    shapes = [Shape(chain(_spiral()), Look.CLOTH)]
    outside = on_the_other_side(bench, copy)
    seen = face_words(outside.copy, outside.wrong_up)
    callouts = [Callout(seen, Point(RADIUS, 0.0), bench.number(outside.copy), RIGHT)]
    arrows: tuple[Arrow, ...] = ()
    if tie is not None:
        shapes += [Shape(path, Look.CORD) for path in _tied()]
        callouts.append(
            Callout(Phrase.of("figures.round-both-ways", copy=tie), Point(-RADIUS - TIE, 0.0), bench.number(tie), LEFT)
        )
    else:
        arrows = (Arrow(Point(-RADIUS, RADIUS * 1.2), Point(RADIUS, RADIUS * 1.2), 0.1),)
    told = Phrase.of("figures.told-rolled", copy=copy)
    scene = Scene(tuple(shapes), tuple(callouts), (), arrows, scale=1.0)
    return Panel("rolled", scene, told, Phrase.of("figures.from-the-end"), (copy, *((tie,) if tie else ())))


def _by_an_end(matching: tuple[tuple[str, str], ...]) -> bool:
    return any(own in ("left end", "right end") for own, _ in matching)


def _spiral() -> list[Point]:
    """From the middle outwards, its last turn ending at the top."""
    turns = [math.tau * TURNS * at / SPOTS for at in range(SPOTS + 1)]
    radii = [RADIUS * (0.22 + 0.78 * at / SPOTS) for at in range(SPOTS + 1)]
    begin = math.pi / 2 - math.tau * TURNS
    return [
        Point(math.cos(begin + turn), math.sin(begin + turn)) * radius
        for turn, radius in zip(turns, radii, strict=True)
    ]


def _tied() -> list[Path]:
    """A cord round the roll, and a bow where its ends meet, at the top."""
    out = RADIUS + TIE
    begin, end = math.pi / 2 + 0.12, math.pi / 2 + math.tau - 0.12
    ring = [begin + (end - begin) * at / SPOTS for at in range(SPOTS + 1)]
    knot = Point(0.0, out + 0.4)
    paths = [chain([Point(math.cos(turn), math.sin(turn)) * out for turn in ring])]
    for side in (-1.0, 1.0):
        loop = [knot, knot + Point(side * 6.0, 4.6), knot + Point(side * 8.0, 2.4), knot + Point(side * 5.0, 0.6), knot]
        paths.append(chain(loop))
        paths.append(line(knot, knot + Point(side * 4.4, -3.0)))
    return paths
