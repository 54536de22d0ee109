"""A zip by itself: its ends covered with cloth, cut to length, opened half way. True mm; sections in mm on paper."""

from publisher.drafting import Notion
from publisher.figures.steps.attached import size_of
from publisher.figures.steps.cloth import Bench, texture_of
from publisher.figures.steps.facts import StepFacts
from publisher.figures.steps.lines import box_path, chain, line
from publisher.figures.steps.strands import GAP, Fold, Go, bare_strand, stitch, strand
from publisher.figures.steps.values import Arrow, Callout, Detail, Dimension, Look, Panel, Scene, Shape, Texture
from publisher.figures.steps.wording import face_words, length_words
from publisher.figures.steps.zips import TAPE, TEETH
from publisher.geometry import Point
from publisher.terms import Phrase

RIGHT, LEFT = Point(1.0, 0.0), Point(-1.0, 0.0)
CLEARANCE, BEYOND = (
    3.0,
    13.0,
)  # mm from the stop to the stitching, and to the edge of the cloth, where nothing says them
CHAIN = 60.0  # mm of the chain that is drawn before its stop
SPREAD = 0.9  # of the tape's width: how far the halves of an open zip part


def zip_end_panels(bench: Bench, notion: Notion, copy: str, facts: StepFacts) -> list[Panel]:
    """Cloth on an end of a zip, sewn on beyond the stop; and folded out over the tape's end, cut through.

    Of two lengths that the step quotes, the shorter is from the stop to the stitching, the longer to the cloth's edge.
    """
    lengths = sorted({amount for _, amount in facts.quoted})
    known = len(lengths) > 1
    clearance, beyond = (lengths[0], lengths[-1]) if known else (CLEARANCE, BEYOND)
    return [_sewn_across(bench, notion, copy, clearance, beyond, known), _folded_out(bench, notion, copy)]


def _sewn_across(bench: Bench, notion: Notion, copy: str, clearance: float, beyond: float, known: bool) -> Panel:
    half = (size_of(notion, "tape width") or TAPE) / 2
    box = bench.piece_now(copy).cut_line.box
    long = max(box.width, box.height)
    chain_start, tape_end = min(beyond - long, 0.0) - CHAIN * 0.5, beyond * 2.2
    shapes = [
        Shape(box_path(chain_start, -half, tape_end, half), Look.BEFORE, Texture.PLAIN, closed=True),
        *_teeth(chain_start, 0.0, half),
        Shape(
            box_path(beyond - long, -half, beyond, half), Look.RAW, texture_of(bench, copy, wrong_up=True), closed=True
        ),
        Shape(line(Point(beyond - long, 0.0), Point(0.0, 0.0)), Look.HIDDEN),
        Shape(line(Point(0.0, -half * 0.4), Point(0.0, half * 0.4)), Look.HIDDEN),
        Shape(line(Point(clearance, -half), Point(clearance, half)), Look.STITCHING),
    ]
    dimensions: tuple[Dimension, ...] = ()
    if known:
        dimensions = (
            Dimension(Point(0.0, half), Point(clearance, half), length_words(clearance), away=4.0),
            Dimension(Point(beyond, -half), Point(0.0, -half), length_words(beyond), away=4.0),
        )
    callouts = (
        Callout(face_words(copy, wrong_up=True), Point((beyond - long) * 0.7, half * 0.5), bench.number(copy), "left"),
        Callout(Phrase.of("figures.the-zip"), Point(tape_end - 3.0, -half * 0.5), side="right"),
        Callout(Phrase.of("figures.stop-below"), Point(0.0, -half * 0.3), side="left"),
    )
    told = Phrase.of("figures.told-zip-end", copy=copy, zip=notion.name)
    caption = Phrase.of("figures.another-below")
    return Panel("zip end", Scene(tuple(shapes), callouts, dimensions), told, caption, (copy,))


def _teeth(start: float, end: float, half: float) -> list[Shape]:
    """The chain and the stop at its end."""
    stop = Shape(line(Point(end, -half * 0.3), Point(end, half * 0.3)), Look.MARK)
    return [Shape(line(Point(start, 0.0), Point(end, 0.0)), Look.STITCHED), stop]


def _folded_out(bench: Bench, notion: Notion, copy: str) -> Panel:
    """The tape between both cloths, which are folded away from the chain and stitched through all layers."""
    across, end, out = 3.0, 11.0, 30.0
    shapes = [bare_strand(Point(-26.0, 0.0), RIGHT, (Go(26.0 + end),), Look.CLOTH)]
    shapes.append(Shape(box_path(-24.0, -TEETH / 2, -1.0, TEETH / 2), Look.SOLID, None, True))
    for up in (True, False):
        start = Point(end, GAP if up else -GAP)
        shapes += strand(start, LEFT, (Go(end - across), Fold(not up, GAP), Go(out - across)), wrong_left=not up)
    shapes.append(stitch(Point(across + 1.6, GAP + 0.4), Point(across + 1.6, -GAP - 0.4), new=False))
    shapes.append(stitch(Point(across + 4.4, 2 * GAP + 2.4), Point(across + 4.4, -2 * GAP - 2.4)))
    callouts = (
        Callout(Phrase.of("figures.the-zip"), Point(-22.0, 0.0), side="left"),
        Callout(face_words(copy, wrong_up=False), Point(out - 5.0, 2 * GAP), bench.number(copy), "right"),
        Callout(Phrase.of("figures.tape-cut-level"), Point(end, 0.0), side="right"),
    )
    told = Phrase.of("figures.told-zip-end-section", copy=copy, zip=notion.name)
    scene = Scene(tuple(shapes), callouts, scale=1.0)
    return Panel("zip end section", scene, told, Phrase.of("figures.cut-through"), (copy,))


def trimmed_zip_panel(bench: Bench, notion: Notion, copy: str, facts: StepFacts) -> Panel | None:
    """The zip with cloth at both its ends, and where it is cut; None where the step quotes no length.

    Of two lengths that the step quotes, the longer is the whole, the shorter what is left beyond each stop.
    """
    lengths = sorted(amount for _, amount in facts.quoted)
    long = size_of(notion, "length")
    if not lengths or long is None or lengths[-1] <= long:
        return None
    half, whole = (size_of(notion, "tape width") or TAPE) / 2, lengths[-1]
    margin = (whole - long) / 2
    box = bench.piece_now(copy).cut_line.box
    cloth = max(box.width, box.height)
    right = texture_of(bench, copy, wrong_up=False)
    shapes = [Shape(box_path(-whole / 2, -half, whole / 2, half), Look.BEFORE, Texture.PLAIN, closed=True)]
    shapes.append(Shape(line(Point(-long / 2, 0.0), Point(long / 2, 0.0)), Look.STITCHED))
    for side in (-1.0, 1.0):
        stop, end = side * long / 2, side * whole / 2
        seam, far = stop + side * CLEARANCE, stop + side * (CLEARANCE + max(cloth - BEYOND + CLEARANCE, margin * 1.3))
        near, away = sorted((seam, far))
        shapes.append(Shape(box_path(near, -half, away, half), Look.RAW, right, closed=True))
        shapes.append(Shape(line(Point(stop, -half * 0.3), Point(stop, half * 0.3)), Look.MARK))
        shapes.append(Shape(line(Point(end, -half * 1.4), Point(end, half * 1.4)), Look.CUT))
    top = Dimension(Point(-whole / 2, half), Point(whole / 2, half), length_words(whole), away=5.0)
    left = Dimension(Point(long / 2, half), Point(whole / 2, half), length_words(margin))
    callouts = (
        Callout(Phrase.of("figures.the-zip"), Point(-long * 0.3, -half * 0.5), side="left"),
        Callout(face_words(copy, wrong_up=False), Point(-whole / 2 + margin * 0.4, 0.0), bench.number(copy), "left"),
    )
    detail = Detail(Point((long + whole) / 4, half * 0.2), margin * 0.9 + half * 0.3, dimensions=(left,))
    told = Phrase.of("figures.told-zip-trim", zip=notion.name, whole=length_words(whole), left=length_words(margin))
    return Panel("zip trimmed", Scene(tuple(shapes), callouts, (top,), detail=detail), told, copies=(copy,))


def open_zip_panel(notion: Notion) -> Panel:
    """The slider half way, the tape's halves apart behind it."""
    wide, long = (size_of(notion, "tape width") or TAPE), size_of(notion, "length") or TAPE * 8
    middle = long / 2
    shapes: list[Shape] = []
    for side in (1.0, -1.0):
        inner = _parted(middle, long, side, wide * SPREAD, 0.0)
        outer = _parted(middle, long, side, wide * SPREAD, wide / 2)
        shapes.append(Shape(chain([*inner, *outer[::-1]], closed=True), Look.RAW, Texture.PLAIN, closed=True))
        shapes.append(Shape(chain(inner), Look.STITCHED))
    shapes.append(
        Shape(box_path(middle - wide * 0.3, -wide * 0.16, middle + wide * 0.3, wide * 0.16), Look.SOLID, None, True)
    )
    arrow = Arrow(Point(middle - wide * 0.6, wide * 1.1), Point(middle - wide * 2.4, wide * 1.1))
    callouts = (Callout(Phrase.of("figures.half-open"), Point(middle, 0.0), side="left"),)
    told = Phrase.of("figures.told-open", zip=notion.name)
    return Panel("zip open", Scene(tuple(shapes), callouts, (), (arrow,)), told)


def _parted(middle: float, long: float, side: float, spread: float, aside: float) -> list[Point]:
    """A half of the tape along its length: straight as far as the slider, then away from the other half."""
    spots = [Point(0.0, side * aside), Point(middle, side * aside)]
    for at in range(1, 9):
        part = at / 8
        spots.append(Point(middle + (long - middle) * part, side * (aside + spread * part * part)))
    return spots
