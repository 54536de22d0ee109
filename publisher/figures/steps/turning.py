"""Work turned right side out: the way it is pulled through; and, where its corners are boxed, the bag it becomes."""

from dataclasses import replace

from publisher.drafting import Seam
from publisher.figures.steps.attached import fastened_on, laid
from publisher.figures.steps.cloth import ROUND, Bench, Lying, moved, texture_of, turned, with_allowances
from publisher.figures.steps.joining import Joint, edge_path, joints_of, lying_on
from publisher.figures.steps.lines import chain, line
from publisher.figures.steps.seams import spot_on
from publisher.figures.steps.shaping import is_boxed
from publisher.figures.steps.standing import loops_out
from publisher.figures.steps.values import Arrow, Callout, Look, Panel, Scene, Shape
from publisher.figures.steps.wording import face_words
from publisher.geometry import Path, Point, nearest, signed_area
from publisher.terms import Phrase

OBLIQUE = 0.36  # of its depth: how far a bag's side is drawn, each way


def turned_panel(bench: Bench, copy: str) -> Panel | None:
    """A sewn piece pulled out through its gap or its open edge; a bag, as it stands then; None where neither is known."""
    boxed = next((one for one in bench.draft.seams if is_boxed(one) and _names(one, copy)), None)
    if boxed is not None and boxed.name in bench.state.sewn:
        return _bag(bench, copy)
    for name in reversed(bench.state.sewn):
        joints = joints_of(bench.draft, name)
        here = next((one for one in joints if copy in (one.first, one.second) and one.first != one.second), None)
        if here is None or lying_on(here) is None:
            continue
        alike = [one for one in joints if (one.first, one.second) == (here.first, here.second)]
        if _encloses(bench, alike):
            return _pulled(bench, here, alike, copy)
    return None


def _names(seam: Seam, copy: str) -> bool:
    return any(side.copy == copy for side in (*seam.first, *seam.second))


def _encloses(bench: Bench, joints: list[Joint]) -> bool:
    """True for a seam that goes most of the way round, so that there is an inside to turn out."""
    piece = bench.draft.piece(bench.draft.copy(joints[0].second).piece)
    sewn = sum(joint.second_path.length for joint in joints)
    return joints[0].leave_open > 0 or sewn > ROUND * piece.finished_line.length


def _pulled(bench: Bench, joint: Joint, joints: list[Joint], copy: str) -> Panel:
    """The wrong side of the copy that the step turns, as it lies on the other, and the way that it is pulled."""
    rule = lying_on(joint)
    assert rule is not None
    above = Lying(joint.second, rule, wrong_up=True, new=False)
    sewn = [one.first_path for one in joints]
    if copy == joint.first:
        above = Lying(copy, turned(), wrong_up=True, new=False)
        sewn = [moved(path, above) for path in sewn]
    piece = bench.draft.piece(bench.draft.copy(above.copy).piece)
    outline = moved(piece.cut_line, above)
    shapes = [one for one in laid(with_allowances(bench, joint.name), above) if one.closed]
    shapes += [Shape(path, Look.STITCHED) for path in sewn]
    gap = _opening(outline, sewn, joint)
    box = outline.box
    along, _, _ = nearest(outline, gap)
    way = outline.direction_at(along).right() * (1.0 if signed_area(outline) > 0 else -1.0)
    reach = max(box.width, box.height) * 0.16
    arrow = Arrow(gap - way * reach * 1.4, gap + way * reach)
    callouts = (
        Callout(Phrase.of("figures.turn-here"), gap + way * (reach * 0.4)),
        Callout(face_words(above.copy, wrong_up=True), spot_on(outline), bench.number(above.copy)),
    )
    told = Phrase.of("figures.told-turn", copy=above.copy)
    return Panel(
        "turning",
        Scene(tuple(shapes), callouts, (), (arrow,)),
        told,
        copies=(above.copy, joint.first if above.copy == joint.second else joint.second),
    )


def _opening(outline: Path, sewn: list[Path], joint: Joint) -> Point:
    """The middle of what is left open, or of the longest stretch of the edge that is not sewn."""
    if joint.leave_open > 0:
        spot = sewn[0].point_at(sewn[0].length / 2)
        return nearest(outline, spot)[1]
    whole, many = outline.length, 120
    spots = [outline.point_at(whole * at / many) for at in range(many)]
    near = [min(nearest(path, spot)[2] for path in sewn) for spot in spots]
    free = [gap > joint.allowance + 1.0 for gap in near]
    if not any(free):
        return spots[0]
    runs: list[list[int]] = [[]]
    for at in range(2 * many):
        if free[at % many]:
            runs[-1].append(at % many)
        elif runs[-1]:
            runs.append([])
    longest = max(runs, key=len)
    return spots[longest[len(longest) // 2]]


def _bag(bench: Bench, copy: str) -> Panel | None:
    """The bag standing, seen a little from above and from its right: front, side, and into its opening."""
    seam = next(one for one in bench.draft.seams if is_boxed(one) and _names(one, copy))
    deep = sum(side.length for side in seam.first)
    piece = bench.draft.piece(bench.draft.copy(copy).piece)
    box = piece.finished_line.box
    corners = [edge_path(bench.draft, side) for side in (*seam.first, *seam.second) if side.copy == copy]
    inner = [spot for path in corners for spot in (path.start, path.end)]
    floor = max(spot.y for spot in inner)
    right = min(spot.x for spot in inner)
    left = box.left + box.right - right
    left, right = min(left, right), max(left, right)
    away = Point(deep * OBLIQUE, deep * OBLIQUE)
    low_left, low_right = Point(left, floor), Point(right, floor)
    top_right, top_left = Point(right, box.top), Point(left, box.top)
    plain, within = texture_of(bench, copy, wrong_up=False), texture_of(bench, copy, wrong_up=True)
    front = chain([low_left, low_right, top_right, top_left], closed=True)
    side = chain([low_right, low_right + away, top_right + away, top_right], closed=True)
    mouth = chain([top_left, top_right, top_right + away, top_left + away], closed=True)
    seam_at = away * 0.5
    shapes = [
        Shape(mouth, Look.RAW, within, closed=True),
        Shape(side, Look.FOLDED, plain, closed=True),
        Shape(front, Look.FOLDED, plain, closed=True),
        Shape(line(low_right + seam_at, top_right + seam_at), Look.STITCHED),
        Shape(line(top_left, top_right), Look.RAW),
    ]
    shapes += [one for one in fastened_on(bench, Lying(copy, new=False)) if one.path.box.bottom > floor]
    other = next(one.copy for one in (*seam.first, *seam.second) if one.copy != copy)
    for _, loop in loops_out(bench, copy, other, low_right + seam_at, low_left):
        # What leaves the left side comes from behind the bag.
        held = replace(loop, look=Look.BEFORE)
        shapes = [held, *shapes] if loop.path.box.right < right else [*shapes, held]
    callouts = (
        Callout(Phrase.of("figures.right-side-out-one", copy=copy), spot_on(front), bench.number(copy)),
        Callout(Phrase.of("figures.side-seam"), low_right + seam_at + Point(0.0, (box.top - floor) * 0.4)),
    )
    told = Phrase.of("figures.told-bag", copy=copy)
    return Panel("bag", Scene(tuple(shapes), callouts), told, Phrase.of("figures.bag"), (copy,))
