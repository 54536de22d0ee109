"""Pieces by themselves: where they are cut, and the marks that are made on them."""

from collections.abc import Container, Iterator, Sequence
from dataclasses import replace

from publisher.drafting import Edge, Mark, Notch, PathMark, Piece, PieceKind, Pleat, PointMark
from publisher.figures.steps.attached import laid
from publisher.figures.steps.cloth import Bench, Lying, as_it_lies, longer_side, moved, over_the_fold, turned
from publisher.figures.steps.marking import mark_shapes, marks_on, notches_of, spot_of
from publisher.figures.steps.seams import spot_on, spot_to_measure
from publisher.figures.steps.spots import finished_lines, spot_dimensions
from publisher.figures.steps.values import Callout, Dimension, Look, Panel, Scene, Shape, Texture
from publisher.figures.steps.wording import face_words, length_words, listed, names_of
from publisher.geometry import Box, Path, Point, Segment, line_within, span_inside
from publisher.terms import Phrase

ON_FOLD = 0.01  # mm
BESIDE = 0.4  # of a piece's width: marks nearer to a side than that are named beside it
MOST_NAMED = 8  # marks with words of their own; of more, those of one kind share them


def cutting_panels(bench: Bench, copies: Sequence[str], nested: Container[str] = ()) -> list[Panel]:
    """Where cloth is cut round a template, what is cut without its allowance, and what is cut larger for now. Pieces of
    which several sizes are `nested` in one template have no inner line there."""
    drawn = [copy for copy in copies if bench.draft.piece(bench.draft.copy(copy).piece).kind is PieceKind.DRAWN]
    rough = [copy for copy in drawn if bench.draft.copy(copy).rough > 0]
    true = [copy for copy in drawn if copy not in rough and not bench.draft.copy(copy).to_finished_line]
    panels: list[Panel] = []
    if true:
        largest = max(true, key=lambda copy: bench.piece_now(copy).cut_width * bench.piece_now(copy).cut_height)
        inner = [
            copy
            for copy in drawn
            if bench.draft.copy(copy).to_finished_line
            and bench.draft.copy(copy).piece == bench.draft.copy(largest).piece
        ]
        others = [bench.draft.copy(copy).piece for copy in true]
        panels.append(_cut_panel(bench, largest, inner, others, nested))
    if rough:
        panels.append(_rough_panel(bench, rough))
    return panels


def _cut_panel(bench: Bench, copy: str, inner: Sequence[str], pieces: Sequence[str], nested: Container[str]) -> Panel:
    piece = bench.draft.piece(bench.draft.copy(copy).piece)
    shown = piece.template
    shapes = [Shape(shown.cut_line, None, Texture.PLAIN, closed=True)]
    shapes += [Shape(path, Look.CUT) for path in _cut_along(shown)]
    edges = [edge for edge in shown.edges if edge.allowance > 0]
    # A template that holds several sizes has no inner line.
    shapes += [Shape(edge.path, Look.STITCHED) for edge in edges if piece.name not in nested]
    shapes += mark_shapes([mark for mark in shown.marks if isinstance(mark, Notch)], Lying(copy), new=False)
    spot = shown.cut_line.point_at(shown.cut_line.length * 0.42)
    around = "figures.cut-your-size" if piece.name in nested else "figures.cut-outer"
    callouts = [Callout(Phrase.of(around), spot)]
    dimensions: tuple[Dimension, ...] = ()
    if edges:
        longest = max(edges, key=lambda edge: edge.length)
        dimensions = tuple(_allowances(edges)) if piece.name not in nested else ()
        if inner:
            edge = max(edges, key=lambda edge: (edge is not longest, edge.length))
            at = edge.path.length * 0.6
            words, out = Phrase.of("figures.cut-inner", copies=names_of(inner)), 0.0
            if piece.name in nested:
                amount, out = length_words(edge.allowance), edge.allowance
                words = Phrase.of("figures.cut-and-trim", copies=names_of(inner), amount=amount)
            callouts.append(Callout(words, edge.path.point_at(at) + edge.path.direction_at(at).right() * out))
    if shown.fold_edge is not None:
        fold = shown.edge(shown.fold_edge).path
        shapes.append(Shape(fold, Look.FOLD))
        callouts.append(Callout(Phrase.of("figures.on-the-fold"), fold.point_at(fold.length * 0.6)))
    callouts.append(Callout(Phrase.of("figures.name", name=piece.name), _middle(shapes[0]), piece.number))
    told = Phrase.of("figures.told-cut", copy=piece.name)
    others = [name for name in dict.fromkeys(pieces) if name != piece.name]
    caption = Phrase.of("figures.alike", copies=names_of(others)) if others else None
    return Panel("cutting", Scene(tuple(shapes), tuple(callouts), dimensions), told, caption, (copy,))


def _allowances(edges: Sequence[Edge]) -> Iterator[Dimension]:
    """Each width that an allowance has, at the longest edge that has it."""
    for wide in dict.fromkeys(edge.allowance for edge in sorted(edges, key=lambda edge: -edge.length)):
        longest = max((edge for edge in edges if edge.allowance == wide), key=lambda edge: edge.length)
        at, outwards = spot_to_measure(longest.path)
        yield Dimension(at, at + outwards * wide, length_words(wide))


def _cut_along(shown: Piece) -> list[Path]:
    """The cut line; of a half, without its edge on the fold, which is not cut."""
    if shown.fold_edge is None:
        return [shown.cut_line]
    fold = shown.edge(shown.fold_edge).path
    way = fold.direction_at(0.0)
    parts = list(shown.cut_line.segments)
    on_it = [
        all(abs((spot - fold.start).cross(way)) < ON_FOLD for spot in Path((part,)).flattened(1.0)) for part in parts
    ]
    first = on_it.index(True) if True in on_it else 0
    return [Path(tuple(part for part, folded in _from(list(zip(parts, on_it, strict=True)), first) if not folded))]


def _from(ring: list[tuple[Segment, bool]], first: int) -> list[tuple[Segment, bool]]:
    return [*ring[first:], *ring[:first]]


def _middle(shape: Shape) -> Point:
    return spot_on(shape.path)


def _rough_panel(bench: Bench, copies: Sequence[str]) -> Panel:
    copy, piece = copies[0], bench.piece_now(copies[0])
    more = bench.draft.copy(copy).rough
    outline = Shape(bench.outline(copy), Look.CUT, Texture.PLAIN, closed=True)
    shapes = [outline, Shape(piece.cut_line, Look.HIDDEN, closed=True)]
    box = piece.cut_line.box
    middle = (box.bottom + box.top) / 2
    margin = Dimension(Point(box.right, middle), Point(box.right + more, middle), length_words(more))
    callouts = (
        Callout(Phrase.of("figures.cut-rough"), Point(box.left - more, box.top), piece.number),
        Callout(Phrase.of("figures.trimmed-later"), piece.cut_line.point_at(piece.cut_line.length * 0.55)),
    )
    told = Phrase.of("figures.told-rough", copies=names_of(copies), more=length_words(more))
    return Panel("rough cut", Scene(tuple(shapes), callouts, (margin,)), told, copies=tuple(copies))


def marked_panels(bench: Bench, targets: Sequence[str]) -> list[Panel]:
    """The copies that are marked, each once; those whose pieces and marks are the same share a drawing."""
    by_copy: dict[str, list[str]] = {}
    for target in targets:
        copy, _, mark = target.partition(".")
        by_copy.setdefault(copy, []).append(mark)
    alike: dict[tuple[str, tuple[str, ...]], list[str]] = {}
    for copy, names in by_copy.items():
        alike.setdefault((bench.draft.copy(copy).piece, tuple(sorted(names))), []).append(copy)
    panels = [_marked(bench, copies, names) for (_, names), copies in alike.items()]
    return [panel for panel in panels if panel is not None]


def _marked(bench: Bench, copies: Sequence[str], names: Sequence[str]) -> Panel | None:
    copy = copies[0]
    marks = [mark for mark in marks_on(bench, copy) if mark.name in names]
    pleats = [mark for mark in marks_on(bench, copy) if isinstance(mark, Pleat)]
    if not marks:
        return None
    wrong_up = all(getattr(mark, "face", "right side") == "wrong side" for mark in marks)
    lying = Lying(copy, turned() if wrong_up else as_it_lies, wrong_up)
    shapes = laid(bench, lying) + mark_shapes(pleats, lying, new=False)
    measured = tuple(spot_dimensions(bench.piece_now(copy), marks, lying))
    shapes += finished_lines(bench.piece_now(copy), lying) if measured and len(marks) < 5 else []
    size = longer_side(bench, copy)
    snipped = {mark.name for mark in marks}
    others = [notch for notch in notches_of(bench, copy) if notch.name not in snipped]
    shapes += mark_shapes(others, lying, new=False, size=size) + mark_shapes(marks, lying, new=True, size=size)
    shapes += _on_the_other_half(bench, copy, marks, lying, size)
    outline = moved(bench.outline(copy), lying)
    spots = [(mark, lying.rule(spot_of(mark))) for mark in _one_of_each(marks)]
    callouts = [Callout(_mark_words(mark), spot, side=_side_of(spot, outline.box)) for mark, spot in spots]
    named = Callout(face_words(copy, wrong_up), spot_on(outline), bench.number(copy))
    told = Phrase.of(
        "figures.told-mark",
        copies=names_of(copies),
        marks=names_of([mark.name for mark in marks]),
    )
    caption = Phrase.of("figures.alike", copies=names_of(copies[1:])) if len(copies) > 1 else None
    return Panel(
        "piece", Scene(tuple(shapes), (*callouts, named), measured), told, caption, tuple(copies), wide=len(marks) > 4
    )


def _on_the_other_half(bench: Bench, copy: str, marks: Sequence[Mark], lying: Lying, size: float) -> list[Shape]:
    """Points and notches of a piece that is cut on the fold, once more where pin or snip goes through the other half."""
    piece = bench.draft.piece(bench.draft.copy(copy).piece)
    if piece.half is None or piece.half.fold_edge is None:
        return []
    over = over_the_fold(piece)
    again = replace(lying, rule=lambda point: lying.rule(over(point)))
    points = [mark for mark in marks if isinstance(mark, PointMark)]
    names = {mark.name for mark in marks}
    notches = [notch for notch in notches_of(bench, copy) if notch.name in names and notch not in marks]
    return [*mark_shapes(points, again, new=True, size=size), *mark_shapes(notches, lying, new=True, size=size)]


def _side_of(spot: Point, box: Box) -> str:
    """The side of the figure on which a mark far from its middle is named, so that no leader crosses the piece."""
    part = (spot.x - box.left) / box.width
    return "left" if part < BESIDE else "right" if part > 1 - BESIDE else ""


def _mark_words(mark: Mark) -> Phrase:
    gap = isinstance(mark, PathMark) and mark.kind == "turning gap"
    return Phrase.of("figures.mark-gap") if gap else Phrase.of("figures.name", name=mark.name)


def _one_of_each(marks: Sequence[Mark]) -> list[Mark]:
    """Marks to name: of very many, the first of each kind."""
    if len(marks) <= MOST_NAMED:
        return list(marks)
    kinds: dict[str, Mark] = {}
    for mark in marks:
        kinds.setdefault(type(mark).__name__, mark)
    return list(kinds.values())


def _along(pleat: Pleat) -> Point:
    """The way its lines run."""
    low, high = (pleat.outer or pleat.stitched)[0]
    return high - low


def pleated_panels(bench: Bench, copy: str) -> list[Panel]:
    """A piece with its pleats open, which fold is brought where."""
    piece = bench.piece_now(copy)
    pleats = [mark for mark in piece.marks if isinstance(mark, Pleat) and mark.kind != "dart"]
    if not pleats:
        return []
    lying = Lying(copy)
    now = bench.outline(copy)
    shapes = laid(bench, lying) + [
        replace(shape, path=path)
        for shape in mark_shapes(pleats, lying, new=True)
        for path in ((shape.path,) if shape.closed else line_within(shape.path, now))
    ]
    ends = [span_inside(now, (pleat.outer or pleat.stitched)[0][0], _along(pleat))[1] for pleat in pleats]
    callouts = [Callout(Phrase.of("figures.name", name=pleat.name), at) for pleat, at in zip(pleats, ends, strict=True)]
    box = piece.cut_line.box
    at = Point(box.left + box.width * 0.05, box.bottom + box.height * 0.3)
    named = Callout(face_words(copy, wrong_up=False), at, bench.number(copy))
    told = Phrase.of("figures.told-pleats", copy=copy, pleats=listed([c.words for c in callouts]))
    return [Panel("pleats", Scene(tuple(shapes), (*callouts, named)), told, copies=(copy,), wide=True)]
