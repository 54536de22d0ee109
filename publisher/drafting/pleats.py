"""Pleats and tucks: what each takes, and the piece opened out flat as it is cut. Millimetres.

A piece is drafted with its pleats closed. Each pleat adds cloth at one place along its edge.
"""

from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise

from publisher.drafting.allowances import TAKES
from publisher.drafting.bench import Bench, unusable
from publisher.drafting.mark_values import LineMark, Mark, Notch, PathMark, Pleat, PointMark, Span
from publisher.drafting.references import as_length, work_out_formula
from publisher.drafting.spots import edge_spot
from publisher.drafting.values import Edge
from publisher.frozen import dataclass
from publisher.geometry import Arc, Line, Path, Point, mapped, span_inside
from publisher.measures import PleatSaying
from publisher.source import Native, WrittenMark, WrittenPiece

FORWARDS = ("right", "top")


@dataclass(frozen=True, slots=True)
class Fold:
    """One pleat as said and placed: `spot` along its edge, closed; `opens` where cloth is added, `reach` what it covers."""

    written: WrittenMark
    said: PleatSaying
    depth: float
    spot: float
    across: Point  # the way the edge runs, to the right or upwards

    @property
    def takes(self) -> float:
        """Cloth, mm."""
        return TAKES[self.said.kind] * self.depth

    @property
    def forwards(self) -> bool:
        """True when it is pressed to the right or upwards."""
        return self.said.towards in FORWARDS

    @property
    def reach(self) -> tuple[float, float]:
        """From where to where it covers the closed piece."""
        if self.said.kind in ("box pleat", "inverted pleat"):
            return self.spot - self.depth, self.spot + self.depth
        ahead = self.forwards if self.said.kind == "tuck" else not self.forwards
        return (self.spot, self.spot + self.depth) if ahead else (self.spot - self.depth, self.spot)

    @property
    def closed(self) -> tuple[float, ...]:
        """Where on the closed piece its outer folds lie; the fold of a tuck stands beside its stitching."""
        if self.said.kind == "box pleat":
            return self.reach
        return (self.reach[0 if self.reach[1] == self.spot else 1],) if self.said.kind == "tuck" else (self.spot,)

    @property
    def opens(self) -> float:
        """Where on the closed piece the cloth is added."""
        if self.said.kind != "knife pleat":
            return self.spot
        return self.spot - self.depth if self.forwards else self.spot + self.depth


def folds_of(bench: Bench, piece: WrittenPiece) -> tuple[Fold, ...]:
    """The pleats of a piece in order along it. Raises Unusable where one is unclear, or two overlap."""
    folds = sorted((_fold(bench, piece, written) for written in piece.pleats), key=lambda fold: fold.spot)
    for first, second in pairwise(folds):
        if abs(first.across.dot(second.across)) < 1 - 1e-9:
            raise _bad(
                second,
                "pleats-at-angles",
                f"'{second.written.name}' runs at an angle to '{first.written.name}'",
                "let all pleats of a piece run the same way",
            )
        if first.reach[1] > second.reach[0] + 1e-6:
            raise _bad(
                second,
                "pleats-overlap",
                f"closed, '{first.written.name}' reaches to {first.reach[1]:.4g} mm and '{second.written.name}' "
                f"begins at {second.reach[0]:.4g} mm",
                "make them shallower, or move them apart",
            )
    return tuple(folds)


def _bad(fold: Fold, name: str, says: str, mend: str) -> Exception:
    return unusable(name, fold.written.says.place, says, mend)


def _fold(bench: Bench, piece: WrittenPiece, written: WrittenMark) -> Fold:
    said = bench.saying(written.says)
    assert isinstance(said, PleatSaying)
    depth = as_length(bench, work_out_formula(bench, said.depth), Native(written.says, written.says), "the depth")
    spot = edge_spot(bench, piece, said.spot, written)
    level, upright = abs(spot.direction.y) < 1e-9, abs(spot.direction.x) < 1e-9
    if not (level or upright):
        raise unusable(
            "pleat-not-square",
            written.says.place,
            f"'{written.name}' begins on '{spot.edge}', which is neither level nor upright there",
            "place it on a level or an upright edge",
        )
    across = Point(1.0, 0.0) if level else Point(0.0, 1.0)
    fold = Fold(written, said, depth, spot.at.dot(across), across)
    sides = ("left", "right") if level else ("bottom", "top")
    if said.kind in ("knife pleat", "tuck") and said.towards not in sides:
        raise _bad(
            fold,
            "which-way",
            f"'{written.name}' is pressed to one side, and it does not say which",
            f"add ', towards the {sides[0]}' or ', towards the {sides[1]}'",
        )
    if depth <= 0:
        raise _bad(fold, "no-length", f"'{written.name}' is {depth:g} mm deep", "write how deep it is: 1 cm")
    return fold


def opener(folds: tuple[Fold, ...]) -> Callable[[Point], Point]:
    """Where a point of the closed piece lies when all pleats are open."""

    def opened(point: Point) -> Point:
        across = folds[0].across
        return point + across * sum(fold.takes for fold in folds if point.dot(across) > fold.opens + 1e-6)

    return opened


def open_edges(piece: WrittenPiece, edges: tuple[Edge, ...], folds: tuple[Fold, ...]) -> tuple[Edge, ...]:
    """The finished line as it is cut. Raises Unusable where a pleat crosses what is not square to it."""
    return tuple(replace(edge, path=_open_path(piece, edge, folds)) for edge in edges)


def _open_path(piece: WrittenPiece, edge: Edge, folds: tuple[Fold, ...]) -> Path:
    rule = opener(folds)
    for segment in edge.path.segments:
        box, across = segment.box, folds[0].across
        low, high = (box.left, box.right) if across.x else (box.bottom, box.top)
        crossed = next((fold for fold in folds if low + 1e-6 < fold.opens < high - 1e-6), None)
        if crossed is None:
            continue
        if (
            isinstance(segment, Arc)
            or not isinstance(segment, Line)
            or abs(segment.direction_at(0.0).dot(across)) < 1 - 1e-9
        ):
            raise _bad(
                crossed,
                "pleat-crosses-slant",
                f"'{crossed.written.name}' crosses '{edge.name}' of '{piece.name}', which does not lie square to it there",
                "pleat a piece with straight, square edges, or move the pleat away from the curve",
            )
    return Path(
        tuple(
            Line(rule(segment.start), rule(segment.end))
            if isinstance(segment, Line)
            else mapped(Path((segment,)), _shifted(rule, segment.box, folds), turned_over=False).segments[0]
            for segment in edge.path.segments
        )
    )


def _shifted(rule: Callable[[Point], Point], box: object, folds: tuple[Fold, ...]) -> Callable[[Point], Point]:
    """One shift for a whole curve, that of its middle."""
    middle = Point((box.left + box.right) / 2, (box.bottom + box.top) / 2)  # type: ignore[attr-defined]
    shift = rule(middle) - middle
    return lambda point: point + shift


def open_marks(marks: tuple[Mark, ...], folds: tuple[Fold, ...]) -> tuple[Mark, ...]:
    """The marks where they lie on the open piece."""
    rule = opener(folds)
    return tuple(_open_mark(mark, rule) for mark in marks)


def _open_mark(mark: Mark, rule: Callable[[Point], Point]) -> Mark:
    if isinstance(mark, PointMark):
        return replace(mark, at=rule(mark.at))
    if isinstance(mark, LineMark):
        return replace(mark, start=rule(mark.start), end=rule(mark.end))
    if isinstance(mark, PathMark):
        spots = tuple(rule(spot) for spot in mark.path.flattened(0.01))
        return replace(mark, path=Path(tuple(Line(one, other) for one, other in pairwise(spots))))
    if isinstance(mark, Notch):
        shift = rule(mark.at) - mark.at
        return replace(mark, at=mark.at + shift, cut_end=mark.cut_end + shift, inner_end=mark.inner_end + shift)
    return mark


def drawn_pleats(folds: tuple[Fold, ...], cut_line: Path, closed: Path) -> tuple[Pleat, ...]:
    """The lines of all pleats on the open piece, from cut edge to cut edge, in order along it; `closed` is the cut line
    of the piece as drafted."""
    added = 0.0
    pleats: list[Pleat] = []
    for fold in folds:
        folded = tuple(_across(closed, fold, at) for at in fold.closed)
        pleats.append(replace(_drawn(fold, fold.opens + added, cut_line), closed=folded))
        added += fold.takes
    return tuple(pleats)


Lines = tuple[float, ...]


def _lines(fold: Fold) -> tuple[Lines, Lines, Lines, Lines]:
    """Outer folds, inner folds, where they meet, stitching lines: mm from where the added cloth begins."""
    d = fold.depth
    if fold.said.kind == "box pleat":
        return (d, 3 * d), (0.0, 4 * d), (-d, 5 * d), ()
    if fold.said.kind == "inverted pleat":
        return (0.0, 4 * d), (d, 3 * d), (2 * d, 2 * d), ()
    if fold.said.kind == "tuck":
        return (d,), (), (), (0.0, 2 * d)
    return ((d,), (2 * d,), (3 * d,), ()) if fold.forwards else ((d,), (0.0,), (-d,), ())


def _across(cut_line: Path, fold: Fold, at: float) -> Span:
    """From cut edge to cut edge at one place along a pleated edge."""
    box = cut_line.box
    middle = Point((box.left + box.right) / 2, (box.bottom + box.top) / 2)
    through = middle + fold.across * (at - middle.dot(fold.across))
    low, high = span_inside(cut_line, through, Point(abs(fold.across.y), abs(fold.across.x)))
    return low, high


def _drawn(fold: Fold, start: float, cut_line: Path) -> Pleat:
    """One pleat whose added cloth begins at `start` along the open piece."""
    outer, inner, meets, stitched = _lines(fold)

    def span(at: float) -> Span:
        return _across(cut_line, fold, start + at)

    def arrow(first: float, second: float) -> Span:
        low, high = span(first)
        other, _ = span(second)
        at = low + (high - low) * 0.25
        return at, at + fold.across * (other - low).dot(fold.across)

    return Pleat(
        name=str(fold.written.name),
        kind=fold.said.kind,
        depth=fold.depth,
        takes=fold.takes,
        outer=tuple(map(span, outer)),
        inner=tuple(map(span, inner)),
        meets=tuple(map(span, dict.fromkeys(meets))),
        stitched=tuple(map(span, stitched)),
        arrows=tuple(arrow(first, second) for first, second in zip(outer, meets, strict=False)),
        face=fold.said.face,
        copies=(),
        place=fold.written.name.place,
    )
