"""Cloth cut off after it was sewn: rough layers along the template, allowances narrower, snipped, across corners."""

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from publisher.drafting import Draft
from publisher.figures.steps.attached import laid
from publisher.figures.steps.cloth import Bench, Lying, moved, turned, with_allowances
from publisher.figures.steps.joining import Joint, joints_of
from publisher.figures.steps.lines import chain, line
from publisher.figures.steps.seam_sections import lining_of
from publisher.figures.steps.seams import own_spot, spot_on
from publisher.figures.steps.values import Callout, Detail, Dimension, Look, Panel, Scene, Shape, Texture
from publisher.figures.steps.wording import face_words, length_words, names_of
from publisher.frozen import dataclass
from publisher.geometry import Arc, Line, Path, Point, Segment, offset_outline, parallel_beside
from publisher.terms import Phrase

CORNER = 0.5  # sine of the turn that makes a corner of the seam
STRAIGHT = 1 / 800  # of a turn in each mm: a flatter curve needs no snips
WINDOW = 0.5  # mm to either side, in which that is measured
NEAR = 0.01  # mm
OFF = 2.6  # mm on paper: how far beyond the raw edge is told how far apart snips are
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


@dataclass(frozen=True, slots=True)
class Cutting:
    """What is done to an allowance: how wide it is left when it is trimmed, else to half; how far apart it is snipped;
    how far before its outer corners the arc begins that they are rounded off in."""

    trim: bool
    clip: bool
    left: float | None = None
    apart: float | None = None
    rounded: float | None = None


def clipped_panel(bench: Bench, joints: Sequence[Joint], how: Cutting) -> Panel:
    """The allowance of a seam, cut narrower between the hems that it crosses; snipped where it curves, wedges outside a
    curve and snips inside one; cut across at its corners."""
    joint, wide = joints[0], joints[0].allowance
    trim, clip, left = how.trim, how.clip, how.left
    path = _running_on(joints)
    between = _between_hems(bench, joint.first, path)
    bench = with_allowances(bench, joint.name)
    lying = Lying(joint.first, turned(), wrong_up=True, new=False)
    # A backing ends at the seam: its rim would hide the stitches there.
    shapes = [replace(one, look=None) if one.texture is Texture.INTERFACING else one for one in laid(bench, lying)]
    sewn = Shape(moved(path, lying), Look.STITCHED)
    away = (left or wide / 2) if trim else wide
    step = how.apart or away * 1.6
    corners = _corners(path) if clip else []
    outside = _outside(between, joints, away) if trim else ()
    if how.rounded is not None:
        outside = tuple(_rounded_off(part, how.rounded) for part in outside)
    cut = [turn_over(part) for part in outside]
    cut += [turn_over(_across(corner, out, away)) for corner, out in corners]
    spot, outwards, bend = (*corners[0], 1.0) if corners else _sharpest(path)
    spots = _snip_spots(between, step) if clip else []
    snips = [turn_over(_snip(between, at, away, bend)) for at in spots]
    near = _of_one_curve(between, spots, spot, step) if not corners else []
    middle = near[len(near) // 2] if near else None
    if middle is not None:
        spot, outwards = between.point_at(middle), between.direction_at(middle).right()
    close = [*shapes, sewn, *(Shape(part, Look.CUT) for part in (*cut, *snips))]
    at, out = _mirrored(spot), _mirrored(outwards)
    dimensions: tuple[Dimension, ...] = ()
    if trim and not corners:
        foot = at if middle is None else _mirrored(_beside(between, middle - step / 2, 0.0))
        words = Phrase.of("figures.half-width") if left is None else length_words(left)
        dimensions = (Dimension(foot, foot + out * away, words),)
    if how.apart is not None and middle is not None and middle != near[-1]:
        ends = [_mirrored(_beside(between, spot, wide)) for spot in (middle, middle + step)]
        dimensions = (*dimensions, Dimension(ends[0], ends[1], length_words(how.apart), away=OFF))
    key = "figures.across-corner" if corners else "figures.wedges" if bend > 0 else "figures.snips"
    named_at = at + out * (away * SHORT_OF if corners else 0.0)
    if middle is not None:
        named_at = _mirrored(_beside(between, near[max(len(near) // 2 - 1, 0)], away * 0.5))
    callouts = (Callout(Phrase.of(key), named_at),) if clip else ()
    detail = Detail(at + out * (wide * 0.3), wide * 2.2, tuple(close), dimensions, callouts)
    told = Phrase.of("figures.told-clip", seam=joint.name, copy=joint.first)
    lining = lining_of(bench, joint.first)
    face = face_words(joint.first, wrong_up=True) if lining is None else face_words(lining, wrong_up=False)
    named = Callout(face, own_spot(bench, lying), bench.number(joint.first))
    scene = Scene((*shapes, sewn, *(Shape(part, Look.CUT) for part in cut)), (named,), detail=detail)
    return Panel("trim and clip", scene, told, copies=(joint.first, joint.second))


def snipped_edge_panel(bench: Bench, copy: str, edge: str, apart: float | None) -> Panel:
    """The allowance of an edge snipped before it is sewn to another: where it curves, almost to its stitching line; of a
    straight edge where the other one curves, which it is to open round."""
    parts = bench.piece_now(copy).edges_of(edge)
    path, wide = Path(tuple(segment for part in parts for segment in part.path.segments)), parts[0].allowance
    step = apart or wide * 1.6
    spots = _snip_spots(path, step)
    bend = _sharpest(path)[2] if spots else 0.0
    if not spots:
        partner = _sewn_to(bench.draft, copy, edge)
        spots = _spots_against(path, partner, step) if partner is not None else []
    snips = [Shape(_snip(path, at, wide, bend), Look.CUT) for at in spots]
    shapes = laid(bench, Lying(copy, new=False))
    close = [*shapes, Shape(path, Look.STITCHED), *snips]
    callouts = [Callout(face_words(copy, wrong_up=False), spot_on(bench.outline(copy)), bench.number(copy))]
    detail = None
    if spots:
        at = spots[len(spots) // 3]
        ends = [_beside(path, along, wide) for along in (at, at + step)]
        told_apart = (Dimension(ends[0], ends[1], length_words(step), away=-OFF),) if apart is not None else ()
        named = Callout(Phrase.of("figures.snips" if bend <= 0 else "figures.wedges"), _beside(path, at, wide * 0.5))
        detail = Detail(_beside(path, at, wide * 0.3), wide * 2.2, tuple(close), told_apart, (named,))
    told = Phrase.of("figures.told-snipped-edge", edge=edge, copy=copy)
    return Panel("snipped edge", Scene((*shapes, *snips), tuple(callouts), detail=detail), told, copies=(copy,))


def _sewn_to(draft: Draft, copy: str, edge: str) -> Path | None:
    """The stretch of another copy that an edge is sewn to in some seam, counter-clockwise round its own piece."""
    for joint in (joint for seam in draft.seams for joint in joints_of(draft, seam.name)):
        if (joint.first, joint.first_edge) == (copy, edge):
            return joint.second_path
        if (joint.second, joint.second_edge) == (copy, edge):
            return joint.first_path
    return None


def _spots_against(path: Path, partner: Path, step: float) -> list[float]:
    """How far along an edge it is snipped, so far apart, where what it is sewn to curves: right sides together, the two
    run opposite ways."""
    spots = [at * step for at in range(1, int(path.length / step))]
    return [at for at in spots if _curves_at(partner, (1 - at / path.length) * partner.length)]


def _running_on(joints: Sequence[Joint]) -> Path:
    """The edges of the first copy that the seam joins, as far as each begins where the one before ends."""
    segments = list(joints[0].first_path.segments)
    for joint in joints[1:]:
        if joint.first == joints[0].first and (joint.first_path.start - segments[-1].end).length < 0.01:
            segments += joint.first_path.segments
    return Path(tuple(segments))


def _outside(path: Path, joints: Sequence[Joint], away: float) -> tuple[Path, ...]:
    """The line outside a seam at a distance; of a seam all round its piece, with its corners."""
    if (path.start - path.end).length > 0.01:
        return parallel_beside(path, -away)
    return (offset_outline([(joint.first_path, away) for joint in joints if joint.first == joints[0].first])[0],)


def _rounded_off(path: Path, by: float) -> Path:
    """A cut whose outward corners between straight stretches are arcs, which begin so far before the corner."""
    kept: list[Segment] = []
    for at, segment in enumerate(path.segments):
        before, after = path.segments[at - 1], path.segments[(at + 1) % len(path.segments)]
        if isinstance(segment, Line):
            start, end, along = segment.start, segment.end, segment.direction_at(0.0)
            if _is_sharp(before, segment):
                start = start + along * by
                kept.append(_tangent_arc(segment.start - before.direction_at(0.0) * by, segment.start, start))
            if _is_sharp(segment, after):
                end = end - along * by
            segment = Line(start, end)
        kept.append(segment)
    return Path(tuple(kept))


def _is_sharp(before: Segment, after: Segment) -> bool:
    """True at an outward corner of two straight stretches that meet."""
    straight = isinstance(before, Line) and isinstance(after, Line) and (after.start - before.end).length < NEAR
    return straight and before.direction_at(0.0).cross(after.direction_at(0.0)) > CORNER


def _tangent_arc(start: Point, corner: Point, end: Point) -> Arc:
    """The arc that leaves one side of a corner and runs into the other, as far from the corner at both its ends."""
    into, away = (corner - start).unit(), (end - corner).unit()
    turn = math.atan2(into.cross(away), into.dot(away))
    return Arc(start, end, start + into.left() * ((corner - start).length / math.tan(turn / 2)), turn)


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


def _snip_spots(path: Path, step: float) -> list[float]:
    """How far along a seam its allowance is snipped: so far apart, where it curves."""
    return [at for at in (at * step for at in range(1, int(path.length / step))) if _curves_at(path, at)]


def _curves_at(path: Path, at: float) -> bool:
    turn = path.direction_at(max(at - WINDOW, 0.0)).cross(path.direction_at(min(at + WINDOW, path.length)))
    return 2 * WINDOW * STRAIGHT <= abs(turn) <= CORNER


def _snip(path: Path, at: float, away: float, bend: float) -> Path:
    """A wedge or a snip from the allowance's edge to just before the stitches."""
    tip, foot = _beside(path, at, away * 0.18), _beside(path, at, away * 1.05)
    half = path.direction_at(at) * (away * 0.22)
    return chain([foot + half, tip, foot - half]) if bend > 0 else line(foot, tip)


def _of_one_curve(path: Path, spots: Sequence[float], near: Point, step: float) -> list[float]:
    """The snips of the curve that comes nearest to a spot, in their order."""
    curves: list[list[float]] = []
    for at in spots:
        if curves and at - curves[-1][-1] < step * 1.5:
            curves[-1].append(at)
        else:
            curves.append([at])
    return min(curves, key=lambda one: min((path.point_at(at) - near).length for at in one), default=[])


def _beside(path: Path, at: float, out: float) -> Point:
    return path.point_at(at) + path.direction_at(at).right() * out


def _mirrored(spot: Point) -> Point:
    return Point(-spot.x, spot.y)


def _between_hems(bench: Bench, copy: str, path: Path) -> Path:
    """What of a seam runs between the hems that it crosses at its ends, whose layers are left whole."""
    piece = bench.piece_now(copy)
    hems = [(piece.edge(hem.edge).path, hem.depth) for hem in piece.hems if f"{copy}.{hem.edge}" in bench.state.hemmed]
    begin = max((deep for edge, deep in hems if (edge.end - path.start).length < NEAR), default=0.0)
    end = max((deep for edge, deep in hems if (edge.start - path.end).length < NEAR), default=0.0)
    if begin + end >= path.length or begin + end == 0:
        return path
    kept = path.split(begin)[1] if begin else path
    return kept.split(kept.length - end)[0] if end else kept
