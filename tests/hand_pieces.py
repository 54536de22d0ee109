"""Pieces and drafts made by hand from plain numbers, without the stages that draft them."""

import math
from collections.abc import Sequence

from publisher.drafting import Copy, Draft, Edge, Grain, GrainLine, Mark, Notch, Piece, PieceKind, PointMark
from publisher.geometry import Arc, Line, Path, Point, Segment
from publisher.terms import Place, UnitSystem, Variant

HERE = Place("pattern.yaml", 1, 1, 1, 2)


def rectangle(width: float, height: float, left: float = 0.0, bottom: float = 0.0) -> Path:
    """A rectangle, counter-clockwise from its lower left corner."""
    return polyline((left, bottom), (left + width, bottom), (left + width, bottom + height), (left, bottom + height))


def polyline(*corners: tuple[float, float]) -> Path:
    """Straight lines through the corners and back to the first."""
    points = [Point(x, y) for x, y in corners]
    return Path(tuple(Line(first, second) for first, second in zip(points, (*points[1:], points[0]), strict=True)))


def rounded(width: float, height: float, radius: float, left: float = 0.0, bottom: float = 0.0) -> Path:
    """A rectangle with four round corners, counter-clockwise."""
    right, top = left + width, bottom + height
    lines = [
        Line(Point(left + radius, bottom), Point(right - radius, bottom)),
        Line(Point(right, bottom + radius), Point(right, top - radius)),
        Line(Point(right - radius, top), Point(left + radius, top)),
        Line(Point(left, top - radius), Point(left, bottom + radius)),
    ]
    centres = [
        Point(right - radius, bottom + radius),
        Point(right - radius, top - radius),
        Point(left + radius, top - radius),
        Point(left + radius, bottom + radius),
    ]
    segments: list[Segment] = []
    for line, after, centre in zip(lines, (*lines[1:], lines[0]), centres, strict=True):
        segments += [line, Arc(line.end, after.start, centre, math.pi / 2)]
    return Path(tuple(segments))


def notch(cut_end: Point, inner_end: Point, name: str = "notch", double: bool = False) -> Notch:
    """A notch from the cut line inwards, on the first edge."""
    return Notch(name, "edge 1", 0.0, inner_end, cut_end, inner_end, double, (), HERE)


def point_mark(x: float, y: float, name: str = "snap", copies: tuple[str, ...] = ()) -> PointMark:
    """A point."""
    return PointMark(name, Point(x, y), "point", "wrong side", copies, HERE)


def hand_piece(
    cut_line: Path,
    finished: Path | None = None,
    allowance: float = 10.0,
    name: str = "flap",
    number: int = 1,
    marks: Sequence[Mark] = (),
    grain_line: GrainLine | None = None,
    kind: PieceKind = PieceKind.DRAWN,
) -> Piece:
    """A piece with one copy, each stretch of its finished line an edge; no finished line given: no allowance."""
    line, amount = (cut_line, 0.0) if finished is None else (finished, allowance)
    edges = [Edge(f"edge {at}", Path((part,)), amount, HERE) for at, part in enumerate(line.segments, start=1)]
    return Piece(
        number=number,
        name=name,
        kind=kind,
        edges=tuple(edges),
        joint_edges=(),
        cut_line=cut_line,
        cut_width=cut_line.box.width,
        cut_height=cut_line.box.height,
        grain=Grain.UP,
        grain_line=grain_line,
        marks=tuple(marks),
        copies=(Copy(f"{name} outside", name, "canvas", 1, False, False, HERE),),
        strip=None,
        note=None,
        place=HERE,
    )


def hand_draft(pieces: Sequence[Piece], units: UnitSystem = UnitSystem.METRIC, size: str | None = None) -> Draft:
    """A draft that holds pieces and nothing else."""
    return Draft(Variant(units, size), (), tuple(pieces), (), (), (), (), (), (), (), ())
