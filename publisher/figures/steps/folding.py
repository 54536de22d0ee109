"""An edge folded to the wrong side and pressed."""

from dataclasses import replace

from publisher.figures.steps.attached import laid
from publisher.figures.steps.cloth import Bench, Lying, longer_side, moved, texture_of, turned
from publisher.figures.steps.lines import box_path, chain
from publisher.figures.steps.seams import spot_on
from publisher.figures.steps.turned_edges import innermost_first, turned_band
from publisher.figures.steps.values import Arrow, Callout, Detail, Dimension, Look, Panel, Scene, Shape
from publisher.figures.steps.wording import face_words, length_words
from publisher.geometry import Path, Point
from publisher.terms import Phrase

SMALL = 0.03  # of the piece's longer side: an allowance that is narrower is shown magnified
REACH = 0.09  # of the piece's longer side: how far the arrow runs over an edge, each way


def folded_edge_panel(bench: Bench, copy: str, edge: str) -> Panel:
    """The wrong side, the allowance of an edge lying on it."""
    piece = bench.piece_now(copy)
    lying = Lying(copy, turned(), wrong_up=True, new=False)
    edges = innermost_first(piece.edges_of(edge))
    done = replace(bench.state, closed_edges=bench.state.closed_edges | {(copy, part.name) for part in edges})
    now = replace(bench, state=done)
    shapes = laid(now, lying)
    shapes.append(Shape(moved(bench.outline(copy), lying), Look.HIDDEN, closed=True))
    right = texture_of(bench, copy, wrong_up=False)
    for part in edges:
        band = turned_band(piece, part, now.outline(copy), part.allowance)
        shapes.append(Shape(moved(band, lying), Look.FOLDED, right, closed=True))
    longest = max(edges, key=lambda part: part.length)
    middle = longest.path.length / 2
    at, inwards = longest.path.point_at(middle), longest.path.direction_at(middle).left()
    deep = longest.allowance
    reach = max(deep * 1.6, longer_side(bench, copy) * REACH)
    arrow = Arrow(lying.rule(at - inwards * reach), lying.rule(at + inwards * reach), 0.25)
    foot, far = _at(longest.path, 0.3), _at(longest.path, 0.3) + _in(longest.path, 0.3) * deep
    across = Dimension(lying.rule(foot), lying.rule(far), length_words(deep))
    small = deep < SMALL * longer_side(bench, copy)
    detail = Detail(lying.rule(foot), deep * 2.4, dimensions=(across,)) if small else None
    outline = moved(piece.finished_line, lying)
    callouts = (
        Callout(
            Phrase.of("figures.folded-in", edge=edge),
            lying.rule(_at(longest.path, 0.75) + _in(longest.path, 0.75) * (deep / 2)),
        ),
        Callout(face_words(copy, wrong_up=True), spot_on(outline), bench.number(copy)),
    )
    told = Phrase.of("figures.told-fold", copy=copy, edge=edge, amount=length_words(deep))
    scene = Scene(tuple(shapes), callouts, () if small else (across,), (arrow,), detail)
    return Panel("fold", scene, told, copies=(copy,))


def turned_end_panel(bench: Bench, copy: str) -> Panel | None:
    """The end of a strip, its allowance turned to the wrong side; None of what is no strip, or has no allowance there."""
    piece = bench.draft.piece(bench.draft.copy(copy).piece)
    if piece.strip is None or piece.strip.end_allowance <= 0:
        return None
    wide, deep = piece.cut_height, piece.strip.end_allowance
    long = 3.6 * wide
    wrong, right = texture_of(bench, copy, wrong_up=True), texture_of(bench, copy, wrong_up=False)
    ragged = [
        Point(0.0, wide),
        *(Point(wide * 0.12 * (at % 2), wide * (4 - at) / 4) for at in range(1, 4)),
        Point(0.0, 0.0),
    ]
    shapes = (
        Shape(chain([*ragged, Point(long, 0.0), Point(long, wide)], closed=True), Look.BEFORE, wrong, closed=True),
        Shape(box_path(long - deep, 0.0, long, wide), Look.FOLDED, right, closed=True),
    )
    across = Dimension(Point(long - deep, wide), Point(long, wide), length_words(deep), away=3.5)
    callouts = (
        Callout(Phrase.of("figures.ends-turned"), Point(long - deep / 2, wide * 0.35)),
        Callout(face_words(copy, wrong_up=True), Point(long * 0.4, wide / 2), bench.number(copy)),
    )
    told = Phrase.of("figures.told-end", copy=copy, amount=length_words(deep))
    return Panel("end turned in", Scene(shapes, callouts, (across,)), told, copies=(copy,))


def _at(path: Path, part: float) -> Point:
    return path.point_at(path.length * part)


def _in(path: Path, part: float) -> Point:
    return path.direction_at(path.length * part).left()
