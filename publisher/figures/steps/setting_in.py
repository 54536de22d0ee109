"""A panel sewn into the end of a ring of cloth that is wrong side out: how both stand, and where the stitching begins. mm."""

from collections.abc import Sequence

from publisher.drafting import Notch, Piece, Seam, SeamEdge
from publisher.figures.steps.attached import laid
from publisher.figures.steps.cloth import Bench, Lying, carried, moved, texture_of
from publisher.figures.steps.joining import edge_path
from publisher.figures.steps.lines import box_path, chain, line
from publisher.figures.steps.marking import notches_of
from publisher.figures.steps.seam_sections import lining_of
from publisher.figures.steps.seams import spot_on
from publisher.figures.steps.standing import ABOVE, goes_round, near_side
from publisher.figures.steps.values import Callout, Look, Panel, Scene, Shape, Texture
from publisher.figures.steps.wording import face_words, length_words, names_of
from publisher.geometry import Point
from publisher.terms import Phrase


def is_set_in(bench: Bench, seam: Seam) -> bool:
    """True for a seam round a panel, along several copies that have been joined to a ring before."""
    ring = {side.copy for side in seam.second}
    joined = [
        {side.copy for side in (*one.first, *one.second)} for one in bench.draft.seams if one.name in bench.state.sewn
    ]
    return goes_round(bench, seam) and any(ring <= copies for copies in joined) and _first(seam) is not None


def is_other_end(bench: Bench, seam: Seam) -> bool:
    """True where a panel like it was set into the ring's other end: the layers alone tell what is new."""
    done = [one for one in bench.draft.seams if one.name in bench.state.sewn and one.name != seam.name]
    return any(
        goes_round(bench, one)
        and one.first[0].piece == seam.first[0].piece
        and one.second[-1].copy == seam.second[-1].copy
        for one in done
    )


def _first(seam: Seam) -> tuple[SeamEdge, SeamEdge] | None:
    """The straight side of the panel and what it is sewn to, which come first; None where no side is alone straight."""
    pairs = list(zip(seam.first, seam.second, strict=False))
    return pairs[-1] if len(pairs) == len(seam.first) == len(seam.second) == 2 else None


def set_in_panel(bench: Bench, seam: Seam) -> Panel:
    """The ring standing wrong side out, the panel pinned into its upper end, seen from the side that is sewn first and a
    little from above: both stitching lines in their order, the marks that meet, the corners where the work is turned."""
    pair = _first(seam)
    assert pair is not None
    side, hinge = pair
    panel, piece = side.copy, bench.piece_now(side.copy)
    within = bench.draft.piece(hinge.piece)
    high = within.cut_line.box.height
    turn = _towards_us(bench, side, piece)

    def seen(spot: Point, height: float = high) -> Point:
        return Point(spot.x * turn, spot.y * turn * ABOVE + height)

    rim = [seen(spot) for spot in piece.cut_line.flattened(0.3)]
    near = near_side([spot * turn for spot in piece.cut_line.flattened(0.3)])
    foot = [Point(spot.x, spot.y * ABOVE) for spot in near]
    wall = chain([*foot, *(Point(spot.x, spot.y + high) for spot in foot[::-1])], closed=True)
    lining, lid = lining_of(bench, hinge.copy), lining_of(bench, panel)
    shapes = [Shape(wall, Look.BEFORE_FOLDED, _texture(bench, hinge.copy, lining), closed=True)]
    sewn = edge_path(bench.draft, side)
    ends = sorted((seen(sewn.start), seen(sewn.end)), key=lambda spot: spot.x)
    wall_lying = _standing(bench, lining or hinge.copy, hinge, ends, high)
    shapes += laid(bench, wall_lying)[1:]
    on_it = [(one.copy, moved(bench.outline(one.copy), one)) for one in carried(bench, wall_lying)]
    facing = box_path(ends[0].x, ends[0].y - high, ends[1].x, ends[0].y)
    bare = spot_on(facing, None, [area for _, area in on_it])
    shapes += [Shape(line(end, end - Point(0.0, high)), Look.STITCHED) for end in ends]
    shapes.append(Shape(chain(rim, closed=True), Look.RAW, _texture(bench, panel, lid), closed=True))
    lines = [chain([seen(spot) for spot in edge_path(bench.draft, one).flattened(0.3)]) for one in seam.first]
    shapes += [Shape(path, Look.STITCHING) for path in lines]
    notches = notches_of(bench, panel)
    shapes += [Shape(line(seen(one.cut_end), seen(_deep(one))), Look.MARK) for one in notches]
    back, rest = lines[-1], lines[0]
    middle = (ends[0] + ends[1]) * 0.5
    callouts = [
        Callout(_face(panel, lid), middle + Point(0.0, piece.cut_line.box.height * ABOVE * 0.55), bench.number(panel)),
        Callout(Phrase.of("figures.sew-first"), back.point_at(back.length * 0.3)),
        Callout(Phrase.of("figures.sew-then"), rest.point_at(rest.length * 0.2)),
        Callout(Phrase.of("figures.needle-down"), ends[1], side="right"),
        Callout(_face(hinge.copy, lining), bare, bench.number(hinge.copy)),
        *(Callout(Phrase.of("figures.name", name=name), spot_on(area), bench.number(name)) for name, area in on_it),
    ]
    if notches:
        far = max(notches, key=lambda one: seen(one.at).y)
        callouts.append(Callout(Phrase.of("figures.marks-meet"), seen(far.cut_end)))
    told = Phrase.of(
        "figures.told-set-in",
        panel=panel,
        ring=names_of([one.copy for one in seam.second]),
        seam=seam.name,
        allowance=length_words(max(side.allowances, default=0.0)),
    )
    copies = (panel, *(one.copy for one in seam.second))
    return Panel(
        "set in", Scene(tuple(shapes), tuple(callouts)), told, Phrase.of("figures.ring-wrong-side-out"), copies
    )


def _towards_us(bench: Bench, side: SeamEdge, piece: Piece) -> float:
    """1 where the side that is sewn first lies at the foot of its piece, -1 where it lies at the top."""
    path, box = edge_path(bench.draft, side), piece.finished_line.box
    return 1.0 if path.point_at(path.length / 2).y < (box.bottom + box.top) / 2 else -1.0


def _texture(bench: Bench, copy: str, lining: str | None) -> Texture:
    return texture_of(bench, lining, wrong_up=False) if lining else texture_of(bench, copy, wrong_up=True)


def _face(copy: str, lining: str | None) -> Phrase:
    return face_words(lining, wrong_up=False) if lining else face_words(copy, wrong_up=True)


def _deep(notch: Notch) -> Point:
    """The inner end of a notch, drawn large enough to be seen."""
    return notch.cut_end + (notch.at - notch.cut_end) * 1.6


def _standing(bench: Bench, copy: str, hinge: SeamEdge, ends: Sequence[Point], high: float) -> Lying:
    """How the copy lies that faces us: it stands on its head where its lower edge is sewn now."""
    box = bench.draft.piece(hinge.piece).finished_line.box
    path = edge_path(bench.draft, hinge)
    up = 1.0 if path.point_at(path.length / 2).y > (box.bottom + box.top) / 2 else -1.0
    middle = Point((box.left + box.right) / 2, (box.bottom + box.top) / 2)
    there = Point((ends[0].x + ends[1].x) / 2, ends[0].y - high / 2)
    return Lying(copy, lambda spot: (spot - middle) * up + there, new=False)
