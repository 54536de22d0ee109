"""Cloth cut off after it was sewn: rough layers along the template, allowances narrower, snipped, across corners."""

from collections.abc import Sequence
from itertools import pairwise

from publisher.figures.steps.cloth import Bench, Lying, laid, moved, turned, with_allowances
from publisher.figures.steps.joining import Joint
from publisher.figures.steps.lines import chain, line
from publisher.figures.steps.seam_sections import lining_of
from publisher.figures.steps.seams import spot_on
from publisher.figures.steps.values import Callout, Detail, Dimension, Look, Panel, Scene, Shape
from publisher.figures.steps.wording import face_words, length_words, names_of
from publisher.geometry import Path, Point, offset_outline, parallel_beside
from publisher.terms import Phrase

CORNER = 0.5  # sine of the turn that makes a corner of the seam
SHORT_OF = 0.4  # of the allowance: how far from the stitches a corner is cut across


def trimmed_panel(bench: Bench, copies: Sequence[str]) -> Panel:
    """Rough layers cut along the template."""
    copy = copies[0]
    piece, lying = bench.piece_now(copy), Lying(copies[-1], new=False)
    shapes = laid(bench, lying)
    shapes.append(Shape(piece.cut_line, Look.CUT, closed=True))
    callouts = (
        Callout(Phrase.of("figures.cut-along"), piece.cut_line.point_at(piece.cut_line.length * 0.6)),
        Callout(face_words(copies[-1], wrong_up=False), spot_on(piece.cut_line), bench.number(copy)),
    )
    told = Phrase.of("figures.told-trim", copies=names_of(copies))
    return Panel("trim", Scene(tuple(shapes), callouts), told, copies=tuple(copies))


def clipped_panel(bench: Bench, joints: Sequence[Joint], trim: bool, clip: bool, left: float | None = None) -> Panel:
    """The allowance of a seam, cut narrower, to what is `left` of it, else to half; snipped where it curves, wedges
    outside a curve and snips inside one; cut across at its corners."""
    joint, wide = joints[0], joints[0].allowance
    path = _running_on(joints)
    bench = with_allowances(bench, joint.name)
    lying = Lying(joint.first, turned(), wrong_up=True, new=False)
    shapes = laid(bench, lying)
    sewn = Shape(moved(path, lying), Look.STITCHED)
    away = (left or wide / 2) if trim else wide
    corners = _corners(path) if clip else []
    cut = [turn_over(part) for part in _beside(path, joints, away)] if trim else []
    across = [turn_over(_across(corner, out, away)) for corner, out in corners]
    spot, outwards, bend = (*corners[0], 1.0) if corners else _sharpest(path)
    snips = [turn_over(part) for part in _snips(path, away, bend)] if clip else []
    close = [*shapes, sewn, *(Shape(part, Look.CUT) for part in (*cut, *across, *snips))]
    at, out = Point(-spot.x, spot.y), Point(-outwards.x, outwards.y)
    words = Phrase.of("figures.half-width") if left is None else length_words(left)
    dimensions = (Dimension(at, at + out * away, words),) if trim and not corners else ()
    key = "figures.across-corner" if corners else "figures.wedges" if bend > 0 else "figures.snips"
    callouts = (Callout(Phrase.of(key), at + out * (away * SHORT_OF if corners else 0.0)),) if clip else ()
    detail = Detail(at + out * (wide * 0.3), wide * 2.2, tuple(close), dimensions, callouts)
    told = Phrase.of("figures.told-clip", seam=joint.name, copy=joint.first)
    lining = lining_of(bench, joint.first)
    face = face_words(joint.first, wrong_up=True) if lining is None else face_words(lining, wrong_up=False)
    named = Callout(face, spot_on(moved(bench.outline(joint.first), lying)), bench.number(joint.first))
    scene = Scene((*shapes, sewn, *(Shape(part, Look.CUT) for part in (*cut, *across))), (named,), detail=detail)
    return Panel("trim and clip", scene, told, copies=(joint.first, joint.second))


def _running_on(joints: Sequence[Joint]) -> Path:
    """The edges of the first copy that the seam joins, as far as each begins where the one before ends."""
    segments = list(joints[0].first_path.segments)
    for joint in joints[1:]:
        if joint.first == joints[0].first and (joint.first_path.start - segments[-1].end).length < 0.01:
            segments += joint.first_path.segments
    return Path(tuple(segments))


def _beside(path: Path, joints: Sequence[Joint], away: float) -> tuple[Path, ...]:
    """The line outside a seam at a distance; of a seam all round its piece, with its corners."""
    if (path.start - path.end).length > 0.01:
        return parallel_beside(path, -away)
    return (offset_outline([(joint.first_path, away) for joint in joints if joint.first == joints[0].first])[0],)


def _corners(path: Path) -> list[tuple[Point, Point]]:
    """Where a seam turns a corner outwards, and the way out between both its edges."""
    found: list[tuple[Point, Point]] = []
    for before, after in pairwise(path.segments):
        leaving, entering = before.direction_at(before.length), after.direction_at(0.0)
        if leaving.cross(entering) > CORNER:
            found.append((after.start, (leaving.right() + entering.right()).unit()))
    return found


def _across(corner: Point, out: Point, away: float) -> Path:
    """The cut across a corner, short of its stitches."""
    middle, half = corner + out * (away * SHORT_OF), out.left() * (away * 1.1)
    return line(middle - half, middle + half)


def turn_over(path: Path) -> Path:
    """A path turned over on an upright axis, straight steps."""
    return chain([Point(-spot.x, spot.y) for spot in path.flattened(0.05)])


def _sharpest(path: Path) -> tuple[Point, Point, float]:
    """Where an edge curves most, the way out there, and how it bends: more than nought round an outward curve."""
    step = path.length / 40
    bends = [(path.direction_at(at * step).cross(path.direction_at((at + 1) * step)), at) for at in range(1, 39)]
    bend, at = max(bends, key=lambda one: (round(abs(one[0]), 4), -abs(one[1] - 20)))
    spot = path.point_at((at + 0.5) * step)
    return spot, path.direction_at((at + 0.5) * step).right(), bend


def _snips(path: Path, away: float, bend: float) -> list[Path]:
    """Wedges or snips from the allowance's edge to just before the stitches, along the curves."""
    found: list[Path] = []
    step = away * 1.6
    count = int(path.length / step)
    for at in range(1, count):
        here = at * step
        turn = path.direction_at(here - step / 2).cross(path.direction_at(min(here + step / 2, path.length)))
        if not 0.04 <= abs(turn) <= CORNER:
            continue
        spot, along = path.point_at(here), path.direction_at(here)
        out = along.right()
        tip, foot = spot + out * (away * 0.18), spot + out * (away * 1.05)
        half = along * (away * 0.22)
        found.append(chain([foot + half, tip, foot - half]) if bend > 0 else line(foot, tip))
    return found
