"""A folded strip sewn round an edge and turned up over the allowances, as a sweatband is. A section, mm on paper."""

from collections.abc import Sequence

from publisher.figures.steps.cloth import Bench
from publisher.figures.steps.joining import Joint, joints_of
from publisher.figures.steps.lines import chain
from publisher.figures.steps.seam_sections import is_doubled, layers_at
from publisher.figures.steps.strands import GAP, Fold, Go, bare_strand
from publisher.figures.steps.values import Arrow, Callout, Look, Panel, Scene, Shape
from publisher.figures.steps.wording import names_of
from publisher.geometry import Point
from publisher.terms import Phrase

UP, DOWN = Point(0.0, 1.0), Point(0.0, -1.0)
HIGH, WIDE = 27.0, 24.0  # mm of what goes up from the seam, and of what goes out from it
ALLOWANCE, BAND = 7.0, 17.0
SEAM_HIGH = 1.0  # above the foot of the allowances


def turned_band_panel(bench: Bench, copy: str) -> Panel | None:
    """A strip that was folded in half and sewn to the edge of what is joined to something else there: cut through, the
    allowances turned up beside that other, the strip over them; None of anything else."""
    joint = _only_joint(bench, copy)
    if joint is None or not is_doubled(bench, copy):
        return None
    layers = [layer.copy for layer in layers_at(bench, joint, wrong_sides=False)]
    order = layers if layers[0] == copy else layers[::-1]
    parted = _parted(bench, order)
    if order[0] != copy or parted is None:
        return None
    return _turned_up(bench, copy, order[1:parted], order[parted:])


def _only_joint(bench: Bench, copy: str) -> Joint | None:
    joints = [joint for name in bench.state.sewn for joint in joints_of(bench.draft, name)]
    here = [joint for joint in joints if copy in (joint.first, joint.second) and joint.first != joint.second]
    return here[0] if len(here) == 1 else None


def _parted(bench: Bench, order: Sequence[str]) -> int | None:
    """Between which layers the work opens: behind the strip, the first two that a seam joins right sides together."""
    pairs = [
        {joint.first, joint.second}
        for name in bench.state.sewn
        if name not in bench.state.wrong_sides
        for joint in joints_of(bench.draft, name)
        if bench.draft.copy(joint.first).piece != bench.draft.copy(joint.second).piece
    ]
    return next((at for at in range(2, len(order)) if {order[at - 1], order[at]} in pairs), None)


def _turned_up(bench: Bench, copy: str, out: Sequence[str], up: Sequence[str]) -> Panel:
    """From the seam: `up` go up, the last of them innermost; `out` go out to the right, the first of them lowest; the
    allowances of all stand side by side within, and the strip hangs over them."""
    shapes: list[Shape] = []
    callouts: list[Callout] = []
    many = len(up)
    for at, name in enumerate(up):  # from the outermost; its allowance stands furthest from it
        x, folded = -at * GAP, (2 * (many - at) - 1) * GAP
        moves = (Go(HIGH), Fold(False, folded), Go(ALLOWANCE))
        shapes.append(bare_strand(Point(x, HIGH), DOWN, moves, Look.CLOTH_BEFORE))
        side = "right" if at == 0 else "left"
        callouts.append(Callout(Phrase.of("figures.name", name=name), Point(x, HIGH - 2.0), bench.number(name), side))
    foot = -(2 * many - 1) * GAP / 2
    left = -(2 * many - 1) * GAP
    for at, name in enumerate(reversed(out)):
        x, low = left - (at + 1) * GAP, foot - (at + 1) * GAP
        spots = [Point(WIDE, low), Point(x, low), Point(x, ALLOWANCE)]
        shapes.append(Shape(chain(spots), Look.CLOTH_BEFORE))
        callouts.append(
            Callout(Phrase.of("figures.name", name=name), Point(WIDE - 1.0, low), bench.number(name), "right")
        )
    inner = left - (len(out) + 1) * GAP
    shapes += _band(inner)
    # The seam that holds them all, at the foot of the allowances; what goes up beside them it does not catch.
    seam = chain([Point(inner - 1.6 * GAP, SEAM_HIGH), Point(-(many - 0.5) * GAP, SEAM_HIGH)])
    shapes.append(Shape(seam, Look.STITCHED))
    callouts.append(
        Callout(Phrase.of("figures.name", name=copy), Point(inner - 5 * GAP, BAND * 0.7), bench.number(copy), "left")
    )
    arrow = Arrow(Point(inner - 7.5 * GAP, -8.0), Point(inner - 6.4 * GAP, BAND * 0.45), 0.25)
    told = Phrase.of("figures.told-turned-band", strip=copy, over=names_of([*up, *out]))
    caption = Phrase.of("figures.allowances-within", strip=copy)
    scene = Scene(tuple(shapes), tuple(callouts), (), (arrow,), scale=1.0)
    return Panel("band turned up", scene, told, caption, (copy, *out, *up))


def _band(inner: float) -> list[Shape]:
    """The strip in two layers: its raw edges among the allowances, then down round the seam and up again."""
    shapes: list[Shape] = []
    spots = ((inner, 5 * GAP), (inner - GAP, 3 * GAP))
    for x, folded in spots:
        moves = (Go(ALLOWANCE), Fold(False, folded), Go(BAND))
        shapes.append(bare_strand(Point(x, ALLOWANCE), DOWN, moves, Look.CLOTH))
    far, near = inner - 5 * GAP, inner - 4 * GAP
    top = (Point(far, BAND), Point((far + near) / 2, BAND + GAP / 2), Point(near, BAND))
    return [*shapes, Shape(chain(top), Look.CLOTH)]
