"""A piece that differs by size as one template: the cut line of each size where it is drafted, its marks, its grain.

Where sizes share a stretch of line, or a mark, it is there once, for all of them.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from enum import Enum
from functools import lru_cache
from itertools import groupby

from publisher.drafting import Draft, GrainLine, LineMark, Mark, Notch, Piece, PieceKind, mark_spots
from publisher.frozen import dataclass
from publisher.geometry import Line, Path, intersections, nearest, shared_stretches

MOST_NESTED = 6  # sizes that lines tell apart
AGREE = 0.3  # mm: marks of two sizes that lie no further apart are one
LENGTH_ERROR = 0.01  # mm
NOTCH_CLEARANCE = 1.0  # mm at least between the end of a notch and the line of the next size: nearer, they print as one
LEAST_NOTCH = 2.0  # mm: a shorter one is not seen as a sign of its own


@dataclass(frozen=True, slots=True)
class Template:
    """A drawn piece to print: of one size, or of all (None) when it is the same in each."""

    piece: Piece
    size: str | None


@dataclass(frozen=True, slots=True)
class NestedLine:
    """A stretch of the cut lines, and the sizes that are cut along it; `closed` when it is all of a line."""

    path: Path
    sizes: tuple[str, ...]
    closed: bool


class NotchSign(Enum):
    """How a notch is drawn among the lines of other sizes.

    Notches of several sizes often lie on one radius: as lines they would run into one long broken line, and whoever
    snips along it cuts into the seam. Solid triangles stand each on its own line; where lines lie too close for them, a
    dot on each line is named at the end of a leader.
    """

    LINE = "line"
    WEDGE = "wedge"
    DOT = "dot"


@dataclass(frozen=True, slots=True)
class NestedMark:
    """A mark, and the sizes for which it lies there; of a notch, how it is drawn."""

    mark: Mark
    sizes: tuple[str, ...]
    sign: NotchSign = NotchSign.LINE


@dataclass(frozen=True, slots=True)
class Nest:
    """One piece in several sizes on one another, mm, as drafted. `inner` is the smallest, which bears the label."""

    sizes: tuple[str, ...]
    pieces: tuple[Piece, ...]
    inner: Piece
    lines: tuple[NestedLine, ...]
    marks: tuple[NestedMark, ...]
    grain_line: GrainLine | None


def templates_of(drafts: Sequence[Draft]) -> tuple[Template, ...]:
    """What is printed of the drafts of one unit system, in order of piece number, then of size."""
    templates: list[Template] = []
    for number in sorted({piece.number for draft in drafts for piece in draft.pieces}):
        alike = [
            (piece.template, draft.variant.size)
            for draft in drafts
            for piece in draft.pieces
            if piece.number == number and piece.kind is PieceKind.DRAWN
        ]
        shared = len(alike) == len(drafts) > 1 and all(piece == alike[0][0] for piece, _ in alike)
        templates += [Template(alike[0][0], None)] if shared else [Template(piece, size) for piece, size in alike]
    return tuple(templates)


def nested_pieces(drafts: Sequence[Draft]) -> frozenset[str]:
    """The pieces of which several sizes are printed on one another, by name: they have no room for inner lines."""
    return frozenset(together[0].piece.name for together in nested(templates_of(drafts)) if len(together) > 1)


def nested(templates: Sequence[Template]) -> tuple[tuple[Template, ...], ...]:
    """The templates in the order given, those together that are printed on one another."""
    together: list[tuple[Template, ...]] = []
    for _, sized in groupby(templates, key=lambda one: one.piece.number):
        of_piece = list(sized)
        if len({_label_of(one.piece) for one in of_piece}) > 1:
            together += [(one,) for one in of_piece]
        else:
            count = -(-len(of_piece) // MOST_NESTED)
            fill = -(-len(of_piece) // count)
            together += [tuple(of_piece[at : at + fill]) for at in range(0, len(of_piece), fill)]
    return tuple(together)


def _label_of(piece: Piece) -> tuple[object, ...]:
    """All that the one label of a nest says of its piece: sizes that differ in it are printed apart."""
    allowances = tuple((edge.name, round(edge.allowance, 3)) for edge in piece.edges)
    return piece.copies, allowances, piece.hems, piece.grain, piece.fold_edge


@lru_cache(maxsize=256)
def nest_of(templates: tuple[Template, ...]) -> Nest:
    """The nest of one piece's templates, two or more, each of its own size."""
    sized = [(one.size or "", one.piece) for one in templates]
    inner = min((piece for _, piece in sized), key=lambda piece: piece.cut_width * piece.cut_height)
    return Nest(
        sizes=tuple(size for size, _ in sized),
        pieces=tuple(piece for _, piece in sized),
        inner=inner,
        lines=tuple(_lines(sized)),
        marks=tuple(_marks(sized)),
        grain_line=inner.grain_line,
    )


def _lines(sized: Sequence[tuple[str, Piece]]) -> list[NestedLine]:
    """Every stretch once, told by the first size that has it."""
    found: list[NestedLine] = []
    for size, piece in sized:
        others = [other for other, _ in sized if other != size]
        paths = [other.cut_line for one, other in sized if one != size]
        for path, along in shared_stretches(piece.cut_line, paths):
            sizes = tuple(one for one, _ in sized if one == size or one in {others[number] for number in along})
            if sizes[0] == size:
                found.append(NestedLine(path, sizes, path.closed))
        told = sum(line.path.length for line in found if size in line.sizes)
        if abs(told - piece.cut_line.length) > LENGTH_ERROR:
            # Two lines that nearly meet can look shared from one side alone: then each size has its own.
            return [NestedLine(one.cut_line, (name,), True) for name, one in sized]
    return found


def _marks(sized: Sequence[tuple[str, Piece]]) -> Iterator[NestedMark]:
    """Every mark with the sizes for which it lies in the same spot; of lines on one another the longest."""
    names = dict.fromkeys((mark.name, type(mark)) for _, piece in sized for mark in piece.marks)
    for name, kind in names:
        together: list[tuple[Mark, list[str]]] = []
        marks = [
            (size, mark) for size, piece in sized for mark in piece.marks if mark.name == name and type(mark) is kind
        ]
        for size, mark in sorted(marks, key=lambda one: -_reach(one[1])):
            earlier = next((sizes for other, sizes in together if _agree(other, mark)), None)
            if earlier is None:
                together.append((mark, [size]))
            else:
                earlier.append(size)
        order = [size for size, _ in sized]
        found = [
            NestedMark(mark, tuple(sorted(sizes, key=order.index)))
            for mark, sizes in sorted(together, key=lambda one: min(map(order.index, one[1])))
        ]
        yield from _clear_of_lines(found, sized)


def _clear_of_lines(marks: Sequence[NestedMark], sized: Sequence[tuple[str, Piece]]) -> Iterator[NestedMark]:
    """Notches of one name all with the same sign, and none so deep that it comes near the line of another size; any
    other marks as they are."""
    notches = [one.mark for one in marks if isinstance(one.mark, Notch)]
    if len(notches) < len(marks):
        yield from marks
        return
    rooms = [
        _room(notch, [piece for size, piece in sized if size not in one.sizes])
        for notch, one in zip(notches, marks, strict=True)
    ]
    depths = [(notch.inner_end - notch.cut_end).length for notch in notches]
    if all(room >= 2 * depth for room, depth in zip(rooms, depths, strict=True)):
        yield from marks
        return
    room = min(rooms)
    shortened = min(*depths, max(room / 2, min(LEAST_NOTCH, room - NOTCH_CLEARANCE)))
    sign = NotchSign.WEDGE if shortened > min(LEAST_NOTCH, *depths) - 1e-6 else NotchSign.DOT
    for one, notch in zip(marks, notches, strict=True):
        inwards = (notch.inner_end - notch.cut_end).unit()
        yield replace(one, mark=replace(notch, inner_end=notch.cut_end + inwards * shortened), sign=sign)


def _room(notch: Notch, others: Sequence[Piece]) -> float:
    """How far inwards from its own line a notch meets the line of another size, mm; as far as is looked: twice its
    depth."""
    way = Line(notch.cut_end, notch.inner_end + (notch.inner_end - notch.cut_end))
    spots = (spot for piece in others for segment in piece.cut_line.segments for spot in intersections(way, segment))
    return min((distance for spot in spots if (distance := (spot - way.start).length) > AGREE), default=way.length)


def _reach(mark: Mark) -> float:
    return (mark.end - mark.start).length if isinstance(mark, LineMark) else 0.0


def _agree(longer: Mark, mark: Mark) -> bool:
    if isinstance(longer, LineMark) and isinstance(mark, LineMark):
        line = Path((Line(longer.start, longer.end),))
        return longer.kind == mark.kind and all(nearest(line, end)[2] <= AGREE for end in (mark.start, mark.end))
    ones, others = mark_spots(longer), mark_spots(mark)
    return len(ones) == len(others) and all(
        (one - other).length <= AGREE for one, other in zip(ones, others, strict=True)
    )
