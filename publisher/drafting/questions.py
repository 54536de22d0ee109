"""What a formula may ask of the pieces: the length of an edge or a seam, the width of a piece, a distance."""

from publisher.drafting.bench import Bench, head_and_tail, unknown, unusable
from publisher.drafting.cutting import cut_box
from publisher.drafting.darts import darts_of, darts_take
from publisher.drafting.edges import atomic_edges, edge_names, edge_path, outline_point
from publisher.drafting.marks import mark_spot
from publisher.drafting.references import the_piece
from publisher.geometry import Box, Path, Point, nearest
from publisher.measures import Asked, Name
from publisher.terms import Quantity, did_you_mean, length


def answer(bench: Bench, asked: Asked) -> Quantity:
    """The exact answer, rounded to 10⁻⁶ mm as it leaves geometry. Raises Unusable."""
    names = [about for about in asked.about if isinstance(about, Name)]
    if len(names) != len(asked.about):
        raise unusable(
            "asks-nothing", asked.place, f"'{asked.what} of' asks a piece or an edge", "name one: length of body.base"
        )
    if asked.what in ("cut width", "cut height"):
        return length(_cut(bench, names[0], asked.what == "cut width"))
    if asked.what == "length":
        return length(_length(bench, names[0]))
    if asked.what == "distance":
        return length(_distance(bench, *names))
    box = _box(bench, names[0])
    return length(box.width if asked.what == "width" else box.height)


def _length(bench: Bench, name: Name) -> float:
    seam = next((seam for seam in bench.source.seams if seam.name == name.text), None)
    if seam is not None:
        sides = bench.saying(seam.join[1])
        assert isinstance(sides, tuple)
        return sum(_length(bench, side) for side in sides)
    head, tail = head_and_tail(name)
    if not tail:
        seams = [str(seam.name) for seam in bench.source.seams]
        raise unknown(
            bench,
            name.text,
            name.place,
            f"'{name.text}' is no edge and no seam, so it has no length of its own",
            did_you_mean(name.text, seams) if seams else "name an edge: body.base",
        )
    piece = the_piece(bench, head, name)
    names = atomic_edges(bench, piece, tail, name)
    return sum(edge_path(bench, piece, edge).length for edge in names) - darts_take(darts_of(bench, piece), names)


def _cut(bench: Bench, name: Name, across: bool) -> float:
    """Width or height of a piece as it is cut, mm: allowances on, pleats open."""
    box = cut_box(bench, the_piece(bench, name.text, name))
    return box.width if across else box.height


def _box(bench: Bench, name: Name) -> Box:
    piece = the_piece(bench, name.text, name)
    boxes = [edge_path(bench, piece, edge).box for edge in edge_names(bench, piece)]
    box = boxes[0]
    for more in boxes[1:]:
        box = box.joined(more)
    return box


def _distance(bench: Bench, first: Name, second: Name) -> float:
    spots = [_spot(bench, name) for name in (first, second)]
    heads = [the_piece(bench, head_and_tail(name)[0], name).name for name in (first, second)]
    if heads[0] != heads[1]:
        raise unusable(
            "distance-across-pieces",
            second.place,
            f"'{first.text}' and '{second.text}' lie on two pieces, which have no distance on the table",
            "ask for two spots of one piece",
        )
    return _gap(spots[0], spots[1])


def _gap(first: Point | Path, second: Point | Path) -> float:
    if isinstance(first, Point):
        return (second - first).length if isinstance(second, Point) else nearest(second, first)[2]
    if isinstance(second, Point):
        return nearest(first, second)[2]
    ends = (second.start, second.end)
    return min([nearest(first, end)[2] for end in ends] + [nearest(second, end)[2] for end in (first.start, first.end)])


def _spot(bench: Bench, name: Name) -> Point | Path:
    head, tail = head_and_tail(name)
    piece = the_piece(bench, head, name)
    if any(mark.name == tail for mark in piece.marks):
        return mark_spot(bench, piece, tail)
    point = outline_point(bench, piece, tail)
    if point is not None:
        return point
    parts = atomic_edges(bench, piece, tail, name) if tail else ()
    if not parts:
        raise unusable(
            "no-such-name", name.place, f"'{name.text}' is no mark, point or edge", "name one of a piece: body.snap"
        )
    return Path(tuple(segment for part in parts for segment in edge_path(bench, piece, part).segments))
