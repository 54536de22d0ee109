"""Outlines of one word and its sizes: circle, ellipse, trapezium, ring sector. Millimetres; the box begins at nought."""

import math

from publisher.drafting.bench import Bench, unusable
from publisher.drafting.elsewhere import DrawnEdge
from publisher.drafting.references import as_length, work_out, work_out_formula, work_out_length
from publisher.geometry import Arc, Line, Movement, Path, Point, ellipse_arc
from publisher.measures import Pair
from publisher.source import Native, WrittenForm, WrittenPiece
from publisher.terms import Dimension, did_you_mean

HALVES = ("right half", "left half")
LEVEL_EDGES = ("bottom edge", "right edge", "top edge", "left edge")
RING_EDGES = ("outer edge", "left end", "inner edge", "right end")
EDGES = {"circle": HALVES, "ellipse": HALVES, "trapezium": LEVEL_EDGES, "ring sector": RING_EDGES}

Paths = tuple[Path, ...]


def form_edges(bench: Bench, piece: WrittenPiece, form: WrittenForm) -> tuple[DrawnEdge, ...]:
    """The edges, counter-clockwise and in the order of EDGES. Raises Unusable without a size."""
    names = EDGES[form.kind]
    for key, _ in form.edges:
        if str(key) not in names:
            says = f"a {form.kind} has no edge called '{key}'"
            raise unusable("no-such-edge", key.place, says, did_you_mean(key, names))
    makers = {"circle": _circle, "ellipse": _ellipse, "trapezium": _trapezium, "ring sector": _ring_sector}
    paths = makers[form.kind](bench, piece, form.sizes)
    renamed = {str(key): name for key, name in form.edges}
    return tuple(
        DrawnEdge(str(renamed.get(name, name)), path, renamed[name].place if name in renamed else piece.name.place)
        for name, path in zip(names, paths, strict=True)
    )


def _circle(bench: Bench, piece: WrittenPiece, sizes: tuple[Native, ...]) -> Paths:
    """The right half from the bottom to the top, and the left half back."""
    radius = _size(bench, sizes[0], f"the diameter of '{piece.name}'") / 2
    return _halves_of_a_circle(radius)


def _halves_of_a_circle(radius: float) -> Paths:
    centre, bottom, top = Point(radius, radius), Point(radius, 0.0), Point(radius, 2 * radius)
    return Path((Arc(bottom, top, centre, math.pi),)), Path((Arc(top, bottom, centre, math.pi),))


def _ellipse(bench: Bench, piece: WrittenPiece, sizes: tuple[Native, ...]) -> Paths:
    said = bench.saying(bench.native(sizes[0]))
    assert isinstance(said, Pair)
    what = f"the size of '{piece.name}'"
    width, height = (
        as_length(bench, work_out_formula(bench, side), sizes[0], what) for side in (said.first, said.second)
    )
    _check(bench, min(width, height), sizes[0], what)
    across, up = width / 2, height / 2
    if abs(across - up) < 1e-9:
        return _halves_of_a_circle(across)
    centre = Point(across, up)
    return (
        ellipse_arc(centre, across, up, -math.pi / 2, math.pi),
        ellipse_arc(centre, across, up, math.pi / 2, math.pi),
    )


def _trapezium(bench: Bench, piece: WrittenPiece, sizes: tuple[Native, ...]) -> Paths:
    bottom, top, height = (
        _size(bench, size, f"the {what} of '{piece.name}'")
        for size, what in zip(sizes, ("bottom", "top", "height"), strict=True)
    )
    middle = max(bottom, top) / 2
    corners = (
        Point(middle - bottom / 2, 0.0),
        Point(middle + bottom / 2, 0.0),
        Point(middle + top / 2, height),
        Point(middle - top / 2, height),
    )
    return tuple(Path((Line(start, end),)) for start, end in zip(corners, (*corners[1:], corners[0]), strict=True))


def _ring_sector(bench: Bench, piece: WrittenPiece, sizes: tuple[Native, ...]) -> Paths:
    """Upright about the middle, the outer edge above."""
    inner, outer = (
        _size(bench, size, f"the {what} radius of '{piece.name}'")
        for size, what in zip(sizes, ("inner", "outer"), strict=False)
    )
    if inner >= outer:
        raise unusable(
            "no-length",
            bench.native(sizes[1]).place,
            f"the outer radius of '{piece.name}' is {outer:.4g} mm, the inner one {inner:.4g} mm",
            "make the outer radius the larger one",
        )
    angle = _angle(bench, piece, sizes[2])
    begins = (math.pi - angle) / 2
    right, left = (Point(math.cos(turn), math.sin(turn)) for turn in (begins, begins + angle))
    centre = Point(0.0, 0.0)
    paths = (
        Path((Arc(right * outer, left * outer, centre, angle),)),
        Path((Line(left * outer, left * inner),)),
        Path((Arc(left * inner, right * inner, centre, -angle),)),
        Path((Line(right * inner, right * outer),)),
    )
    box = Path(tuple(segment for path in paths for segment in path.segments)).box
    to_corner = Movement(0, Point(-box.left, -box.bottom))
    return tuple(path.moved(to_corner) for path in paths)


def _angle(bench: Bench, piece: WrittenPiece, size: Native) -> float:
    """Radians, from a number of degrees."""
    quantity = work_out(bench, size)
    degrees = float(quantity.amount)
    if quantity.dimension is not Dimension.NUMBER or not 0 < degrees < 360:
        written = bench.native(size)
        raise unusable(
            "no-angle",
            written.place,
            f"the angle of '{piece.name}' is '{written}'",
            "write degrees as a plain number above 0 and below 360: 90",
        )
    return math.radians(degrees)


def _size(bench: Bench, size: Native, what: str) -> float:
    length = work_out_length(bench, size, what)
    _check(bench, length, size, what)
    return length


def _check(bench: Bench, length: float, size: Native, what: str) -> None:
    if length <= 0:
        place = bench.native(size).place
        raise unusable("no-length", place, f"{what} is {length:g} mm", "look at the measures it is made of")
