"""Stitching that is no seam: topstitching along edges, hems, lines through all layers; trimming and clipping."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from publisher.drafting import Edge, Hem, LineMark, Piece
from publisher.figures.steps.attached import laid
from publisher.figures.steps.cloth import (
    Bench,
    Lying,
    lies_behind,
    longer_side,
    moved,
    named_face,
    placed_lyings,
    texture_of,
    turned,
)
from publisher.figures.steps.lines import line
from publisher.figures.steps.quilting import quilting_rows
from publisher.figures.steps.seams import own_spot, spot_on, spot_to_measure
from publisher.figures.steps.sections import hem_section
from publisher.figures.steps.spots import line_dimensions
from publisher.figures.steps.turned_edges import NEAR_EDGE, SEWN, raw_to_raw, sewing_lines, turned_band
from publisher.figures.steps.values import Callout, Detail, Dimension, Look, Panel, Scene, Shape
from publisher.figures.steps.wording import face_words, length_words, names_of
from publisher.geometry import Path, Point, nearest, parallel_beside
from publisher.terms import Phrase

NARROW = 0.035  # … a hem that is narrower is shown magnified
AT = (0.3, 0.5, 0.7, 0.2, 0.8)  # of an edge: where a distance from it may be told
SMALL = 0.03  # of a piece's longer side: what is nearer is shown magnified


def topstitched_panel(
    bench: Bench,
    copy: str,
    edges: Sequence[str],
    distance: float | None,
    rows_apart: float | None = None,
    lines: Sequence[LineMark] = (),
) -> Panel:
    """Stitching beside edges, on the right side; with more rows beside it as far as the piece goes; and along lines."""
    piece, lying = bench.piece_now(copy), Lying(copy, new=False)
    paths = [_joined(piece.edges_of(edge)) for edge in edges]
    away = distance or NEAR_EDGE
    shapes = laid(bench, lying)
    shapes += [Shape(beside, Look.STITCHING) for path in paths for beside in parallel_beside(path, away)]
    further = [] if rows_apart is None else list(_rows(piece, paths, away, rows_apart))
    shapes += [Shape(row, Look.STITCHING) for row in further]
    shapes += [Shape(line(mark.start, mark.end), Look.STITCHING) for mark in lines]
    outline = moved(bench.outline(copy), lying)
    callouts = (
        Callout(face_words(copy, wrong_up=False), own_spot(bench, lying), bench.number(copy)),
        *(
            Callout(Phrase.of("figures.name", name=mark.name), mark.start + (mark.end - mark.start) * 0.7)
            for mark in lines
        ),
    )
    detail = None
    dimensions: tuple[Dimension, ...] = ()
    if distance is not None:
        at, outwards = max((spot_to_measure(path, parts=(part,)) for path in paths for part in AT), key=_to_the_right)
        across = Dimension(at - outwards * away, at, length_words(away))
        small = away < SMALL * max(outline.box.width, outline.box.height)
        if small:
            detail = Detail(at - outwards * away, away * 3.0, dimensions=(across,))
        else:
            dimensions = (across,)
    if further and rows_apart is not None:
        at, outwards = min((spot_to_measure(paths[0], parts=(part,)) for part in AT), key=_to_the_right)
        first, second = at - outwards * away, at - outwards * (away + rows_apart)
        dimensions = (*dimensions, Dimension(second, first, length_words(rows_apart)))
    dimensions = (*dimensions, *(one for mark in lines[:1] for one in line_dimensions(piece, mark)))
    names = [*edges, *(mark.name for mark in lines)]
    told = Phrase.of("figures.told-topstitch", copy=copy, edges=names_of(names))
    scene = Scene(tuple(shapes), callouts, dimensions, detail=detail)
    return Panel("topstitch", scene, told, copies=(copy,))


def _to_the_right(spot: tuple[Point, Point]) -> float:
    """The circle that magnifies stands at the right: a spot there is led to it without crossing the piece."""
    return round(spot[0].x, 3)


def _rows(piece: Piece, paths: Sequence[Path], away: float, apart: float) -> Iterator[Path]:
    """Rows side by side from the first inwards, to one row short of the edges on the other side."""
    others = [edge.path for edge in piece.edges if all(edge.path.segments[0] not in path.segments for path in paths)]
    rest = [path for path in others if not any(_meets(path, one) for one in paths)] or others
    deep = min((nearest(path, one.point_at(one.length / 2))[2] for one in paths for path in rest), default=0.0)
    at = away + apart
    while at < deep - apart:
        for path in paths:
            yield from parallel_beside(path, at)
        at += apart


def _meets(path: Path, other: Path) -> bool:
    """True for paths that share an end."""
    ends = (other.start, other.end)
    return any((one - end).length < 0.01 for one in (path.start, path.end) for end in ends)


def basted_panel(bench: Bench, copies: Sequence[str], edges: Sequence[str], stay: float | None = None) -> Panel:
    """Stitching within the allowance, through copies that lie on one another: basting in the middle of it, or
    staystitching so far from the raw edge."""
    copy = copies[0]
    piece, lying = bench.piece_now(copy), Lying(copy, new=False)
    parts = [part for edge in edges for part in piece.edges_of(edge)]
    shapes = laid(bench, lying)
    for part in parts:
        shapes += [Shape(row, Look.STITCHING) for row in parallel_beside(part.path, -_within(part, stay))]
    outline, at = bench.outline(copy), parts[0].length * 0.3
    spot = parts[0].path.point_at(at) + parts[0].path.direction_at(at).right() * _within(parts[0], stay)
    says = Phrase.of("figures.basted") if stay is None else Phrase.of("figures.stayed", distance=length_words(stay))
    callouts = (
        Callout(says, spot),
        Callout(face_words(copy, wrong_up=False), spot_on(outline), bench.number(copy)),
    )
    key = "figures.told-baste" if stay is None else "figures.told-baste-to-stay"
    told = Phrase.of(key, copies=names_of(copies), edges=names_of(edges))
    return Panel("basting", Scene(tuple(shapes), callouts), told, _others_basted(bench, copies, stay), tuple(copies))


def _within(edge: Edge, stay: float | None) -> float:
    """How far outside its finished line an edge is basted, or staystitched at a distance from the raw edge."""
    return edge.allowance / 2 if stay is None else max(edge.allowance - stay, 0.0)


def _others_basted(bench: Bench, copies: Sequence[str], stay: float | None) -> Phrase | None:
    """What is said of further copies: they are basted together, or staystitched alike where no seam holds them."""
    if len(copies) < 2:
        return None
    held = [
        {side.copy for side in (*one.first, *one.second)} for one in bench.draft.seams if one.name in bench.state.sewn
    ]
    if stay is None or any(set(copies) <= one for one in held):
        return Phrase.of("figures.basted-together" if stay is None else "figures.through-both", copies=names_of(copies))
    return Phrase.of("figures.alike", copies=names_of(copies[1:]))


def _joined(edges: Sequence[Edge]) -> Path:
    return Path(tuple(segment for edge in edges for segment in edge.path.segments))


def lines_panel(bench: Bench, copy: str, distance: float | None) -> Panel | None:
    """Lines through all layers: those that were marked, or straight ones so far apart; None where neither is known."""
    below, lying = _carrier(bench, copy)
    shapes = laid(bench, below)
    outline = moved(bench.outline(copy), lying)
    marked = sewing_lines(bench.piece_now(copy), copy, bench.state)
    named = Callout(face_words(copy, wrong_up=False), spot_on(outline), bench.number(copy))
    if marked:
        lines = [line(lying.rule(mark.start), lying.rule(mark.end)) for mark in marked]
        shapes += [Shape(path, Look.STITCHING) for path in lines]
        told = Phrase.of("figures.told-lines", copy=copy, marks=names_of([mark.name for mark in marked]))
        names = [
            Callout(Phrase.of("figures.name", name=mark.name), path.end)
            for mark, path in zip(marked, lines, strict=True)
        ]
        if below.copy != copy:
            bare = spot_on(moved(bench.outline(below.copy), below), None, [outline])
            names.append(Callout(named_face(bench, below.copy, below.wrong_up), bare, bench.number(below.copy)))
        return Panel("stitched lines", Scene(tuple(shapes), (*names, named)), told, copies=(copy,))
    if distance is None:
        return None
    apart = distance
    box = outline.box
    rows = quilting_rows(box, apart)
    shapes += [Shape(line(Point(x, box.bottom), Point(x, box.top)), Look.STITCHING) for x in rows]
    dimensions: tuple[Dimension, ...] = ()
    if len(rows) > 1:
        high = box.top
        dimensions = (Dimension(Point(rows[-2], high), Point(rows[-1], high), length_words(apart), away=3.0),)
    told = Phrase.of("figures.told-quilted", copy=copy, apart=length_words(apart))
    return Panel("quilting", Scene(tuple(shapes), (named,), dimensions), told, copies=(copy,))


def _carrier(bench: Bench, copy: str) -> tuple[Lying, Lying]:
    """What a copy has been laid on, or itself, and how the copy lies then."""
    for placement in bench.draft.placements:
        if placement.placed == copy and placement.name in bench.state.placed and not lies_behind(bench, placement):
            below = Lying(placement.below, new=False)
            return below, next(placed_lyings(bench, placement, below, new=False))
    return Lying(copy, new=False), Lying(copy, new=False)


def hem_panels(bench: Bench, hemmed: Sequence[tuple[str, str]]) -> list[Panel]:
    """Edges of one piece turned to the wrong side alike and stitched: the first copy, and a hem from its edge."""
    copy = hemmed[0][0]
    piece, edges = bench.piece_now(copy), [edge for other, edge in hemmed if other == copy]
    hem = next((one for one in piece.hems if one.edge == edges[0]), None)
    if hem is None:
        return []
    lying = Lying(copy, turned(), wrong_up=True, new=False)
    done = replace(bench.state, closed_edges=bench.state.closed_edges | {(copy, edge) for edge in edges})
    now = replace(bench, state=done)
    shapes = laid(now, lying)
    hemmed_edges = [
        replace(one, path=moved(one.path, lying)) for edge in edges for one in _turned_hem(now, copy, hem, edge)
    ]
    spot = lying.rule(_on_hem(piece.edge(edges[0]), hem))
    named = Callout(Phrase.of("figures.hem-turned", edges=names_of(edges)), spot)
    face = Callout(face_words(copy, wrong_up=True), own_spot(bench, lying), bench.number(copy))
    if hem.depth < NARROW * longer_side(bench, copy):
        whole = [raw_to_raw(piece, piece.edge(edge), now.outline(copy)) for edge in edges]
        heavy = [Shape(moved(path, lying), Look.FOLDED) for path in whole]
        detail = Detail(spot, hem.depth * 2.2, (*shapes, *hemmed_edges), callouts=(named,))
        scene = Scene((*shapes, *heavy), (face,), detail=detail)
    else:
        scene = Scene((*shapes, *hemmed_edges), (named, face))
    told = Phrase.of("figures.told-hem", copy=copy, edges=names_of(edges), depth=length_words(hem.depth))
    others = [other for other, _ in hemmed if other != copy]
    caption = Phrase.of("figures.alike", copies=names_of(others)) if others else None
    flat = Panel("hem", scene, told, caption, (copy,))
    return [flat, hem_section(hem, copy)]


def _turned_hem(bench: Bench, copy: str, hem: Hem, edge: str) -> list[Shape]:
    """What is turned up, its right side showing, and the stitching near its inner fold."""
    piece, outline = bench.piece_now(copy), bench.outline(copy)
    band = turned_band(piece, piece.edge(edge), outline, hem.depth)
    sewn = raw_to_raw(piece, piece.edge(edge), outline, hem.depth * SEWN)
    right = texture_of(bench, copy, wrong_up=False)
    return [Shape(band, Look.FOLDED, right, closed=True), Shape(sewn, Look.STITCHING)]


def _on_hem(edge: Edge, hem: Hem) -> Point:
    along = edge.path.length * 0.7
    return edge.path.point_at(along) + edge.path.direction_at(along).left() * (hem.depth * SEWN)
