"""Cloth taken in: darts, which are folded along their middle and sewn to a point, and gathers. The draft's mm."""

from collections.abc import Sequence

from publisher.drafting import Pleat
from publisher.figures.steps.attached import laid
from publisher.figures.steps.cloth import Bench, Lying, longer_side, moved, turned
from publisher.figures.steps.joining import edge_path
from publisher.figures.steps.lines import line
from publisher.figures.steps.marking import mark_shapes, marks_on
from publisher.figures.steps.seams import spot_on, spot_to_measure
from publisher.figures.steps.turned_edges import raw_to_raw
from publisher.figures.steps.values import Arrow, Callout, Detail, Dimension, Look, Panel, Scene, Shape
from publisher.figures.steps.wording import face_words, length_words, names_of
from publisher.geometry import parallel_beside
from publisher.terms import Phrase

BULGE = 0.45
TAIL = 0.06  # of a piece's longer side: how long the thread's ends are drawn


def dart_panels(bench: Bench, copy: str) -> list[Panel]:
    """The wrong side, each dart with its fold and its two stitching lines, and which line is laid on which."""
    darts = [mark for mark in marks_on(bench, copy) if isinstance(mark, Pleat) and mark.kind == "dart"]
    if not darts:
        return []
    lying = Lying(copy, turned(), wrong_up=True, new=False)
    shapes = laid(bench, lying)
    arrows: list[Arrow] = []
    for dart in darts:
        shapes += [one for one in mark_shapes([dart], lying, new=False) if one.look in (Look.FOLD, Look.INNER_FOLD)]
        shapes += [Shape(moved(line(*leg), lying), Look.STITCHING) for leg in dart.stitched]
        foot, tip = ((start + end) * 0.5 for start, end in dart.stitched)
        arrows.append(Arrow(lying.rule(foot), lying.rule(tip), BULGE))
    first = darts[0]
    callouts = (
        Callout(Phrase.of("figures.dart-fold"), lying.rule((first.outer or first.stitched)[0][0])),
        Callout(Phrase.of("figures.dart-point"), lying.rule(first.stitched[0][1])),
        Callout(face_words(copy, wrong_up=True), spot_on(moved(bench.outline(copy), lying)), bench.number(copy)),
    )
    told = Phrase.of("figures.told-dart", copy=copy, darts=names_of([dart.name for dart in darts]))
    return [Panel("dart", Scene(tuple(shapes), callouts, (), tuple(arrows)), told, copies=(copy,))]


def gathered_panels(bench: Bench, copy: str, edge: str) -> list[Panel]:
    """Two rows of long stitches on either side of the stitching line, and how long the edge is drawn up."""
    piece = bench.piece_now(copy)
    lying = Lying(copy, new=False)
    shapes = laid(bench, lying)
    arrows: list[Arrow] = []
    names = piece.edges_of(edge)
    for part in names:
        away = part.allowance * 0.35
        rows = [row for by in (away, -away) for row in parallel_beside(part.path, by)]
        shapes += [Shape(row, Look.STITCHING) for row in rows]
        whole = part.path.length
        for begin, end in ((0.04, 0.2), (0.96, 0.8)):
            inwards = part.path.direction_at(whole * begin).left() * (part.allowance * 1.6)
            arrows.append(Arrow(part.path.point_at(whole * begin) + inwards, part.path.point_at(whole * end) + inwards))
    path = names[0].path
    callouts = [
        Callout(Phrase.of("figures.gather-rows"), path.point_at(path.length * 0.5)),
        Callout(face_words(copy, wrong_up=False), spot_on(bench.outline(copy)), bench.number(copy)),
    ]
    partner = _partner(bench, copy, edge)
    if partner is not None:
        callouts.append(
            Callout(Phrase.of("figures.draw-up", amount=length_words(partner)), path.point_at(path.length * 0.2))
        )
    told = Phrase.of("figures.told-gather", copy=copy, edge=edge)
    return [Panel("gathers", Scene(tuple(shapes), tuple(callouts), (), tuple(arrows)), told, copies=(copy,))]


def eased_panel(bench: Bench, copies: Sequence[str], edge: str, distance: float | None) -> Panel:
    """One row of long stitches in the allowance of an edge that is folded under, its thread ends left long; so far from
    the raw edge."""
    copy = copies[0]
    piece, lying = bench.piece_now(copy), Lying(copy, turned(), wrong_up=True, new=False)
    part = piece.edges_of(edge)[0]
    away = distance if distance is not None else part.allowance / 2
    row = raw_to_raw(piece, part, bench.outline(copy), away - part.allowance)
    tail = longer_side(bench, copy) * TAIL
    begin, end = row.start - row.direction_at(0.0) * tail, row.end + row.direction_at(row.length) * tail
    shapes = [*laid(bench, lying), Shape(moved(row, lying), Look.STITCHING)]
    shapes += [Shape(moved(line(*ends), lying), Look.RAW) for ends in ((begin, row.start), (row.end, end))]
    at, outwards = spot_to_measure(part.path)
    raw, sewn = (lying.rule(at + outwards * by) for by in (part.allowance, part.allowance - away))
    callouts = (
        Callout(Phrase.of("figures.long-stitches"), lying.rule(row.point_at(row.length * 0.6))),
        Callout(Phrase.of("figures.thread-ends"), lying.rule(begin)),
        Callout(face_words(copy, wrong_up=True), spot_on(moved(bench.outline(copy), lying)), bench.number(copy)),
    )
    detail = (
        None if distance is None else Detail(sewn, away * 3.0, dimensions=(Dimension(sewn, raw, length_words(away)),))
    )
    told = Phrase.of("figures.told-ease", copy=copy, edge=edge)
    caption = Phrase.of("figures.alike", copies=names_of(copies[1:])) if len(copies) > 1 else None
    scene = Scene(tuple(shapes), callouts, detail=detail)
    return Panel("eased edge", scene, told, caption, tuple(copies))


def _partner(bench: Bench, copy: str, edge: str) -> float | None:
    """How long the edge is that a gathered one is sewn to, mm."""
    for seam in bench.draft.seams:
        for here, there in ((seam.first, seam.second), (seam.second, seam.first)):
            if len(here) == len(there) == 1 and (here[0].copy, here[0].edge) == (copy, edge):
                return edge_path(bench.draft, there[0]).length
    return None
