"""Marks along an edge: gathers, the stretch of a zip or of clips, and the gap that a seam leaves open. Millimetres."""

import itertools
from collections.abc import Callable, Iterator, Sequence

from publisher.drafting.allowances import edge_allowance
from publisher.drafting.bench import Bench, head_and_tail, unusable
from publisher.drafting.edges import atomic_edges, counter_clockwise, edge_path
from publisher.drafting.mark_values import PathMark
from publisher.drafting.references import piece_of_copy, work_out_length
from publisher.drafting.spots import own_edge
from publisher.geometry import Path, Point, nearest
from publisher.measures import MarkSaying, Name
from publisher.source import WrittenMark, WrittenPiece, WrittenSeam
from publisher.terms import Unusable, Written

ON_EDGE = 0.5  # mm that a mark may lie beside the edge on which it ends a stretch
LEAST = 1e-6


def stretch_mark(
    bench: Bench,
    piece: WrittenPiece,
    said: MarkSaying,
    written: WrittenMark,
    copies: tuple[str, ...],
    named_spot: Callable[[Name], Point],
) -> PathMark:
    """The mark of a stretch; `named_spot` finds a mark or corner of the piece. Raises Unusable."""
    assert said.along is not None
    names = atomic_edges(bench, piece, own_edge(piece, said.along), said.along)
    whole = _joined(bench, piece, names)
    allowance = min(edge_allowance(bench, piece, name) for name in names)
    if said.kind == "clips" and allowance <= 0:
        raise unusable(
            "nothing-to-clip",
            said.along.place,
            f"'{said.along.text}' has no allowance, so there is nothing to clip",
            "take the mark out, or give the edge an allowance",
        )
    ends = [_end(whole, name, said, named_spot) for name in (said.start, said.end) if name is not None]
    first, last = (min(ends), max(ends)) if ends else (0.0, whole.length)
    if last - first < LEAST:
        raise unusable("no-length", written.says.place, f"'{written.name}' has no length", "end it at another mark")
    return PathMark(
        str(written.name), said.kind, between(whole, first, last), allowance, said.face, copies, written.name.place
    )


def _joined(bench: Bench, piece: WrittenPiece, names: Sequence[str]) -> Path:
    """Neighbouring edges as one path, counter-clockwise. Raises Unusable where they are no neighbours."""
    paths = [_ccw(bench, piece, name) for name in names]
    for order in (paths, paths[::-1]):
        if all((one.end - other.start).length < ON_EDGE for one, other in itertools.pairwise(order)):
            return Path(tuple(segment for path in order for segment in path.segments))
    place = piece.name.place
    raise unusable("edges-not-neighbours", place, f"{', '.join(names)} do not follow one another", "name one edge")


def _ccw(bench: Bench, piece: WrittenPiece, name: str) -> Path:
    path = edge_path(bench, piece, name)
    return path if counter_clockwise(bench, piece) else path.reversed()


def _end(whole: Path, name: Name, said: MarkSaying, named_spot: Callable[[Name], Point]) -> float:
    assert said.along is not None
    along, _, gap = nearest(whole, named_spot(name))
    if gap > ON_EDGE:
        raise unusable(
            "mark-off-edge",
            name.place,
            f"'{name.text}' lies {gap:.4g} mm beside '{said.along.text}'",
            "name a mark or a corner that lies on this edge",
        )
    return along


def between(path: Path, first: float, last: float) -> Path:
    """The part of a path from one distance to another."""
    kept = path if first < LEAST else path.split(first)[1]
    left = last - max(first, 0.0)
    return kept if left > kept.length - LEAST else kept.split(left)[0]


def gap_marks(bench: Bench, piece: WrittenPiece) -> Iterator[PathMark]:
    """What seams leave open along edges of this piece, in the middle of each side."""
    for seam in bench.source.seams:
        if seam.leave_open is None:
            continue
        try:
            yield from _gaps_of(bench, piece, seam)
        except Unusable:
            continue  # told where the seam is drafted


def _gaps_of(bench: Bench, piece: WrittenPiece, seam: WrittenSeam) -> Iterator[PathMark]:
    assert seam.leave_open is not None
    opened = work_out_length(bench, seam.leave_open, "what is left open")
    spans: dict[tuple[float, float, str], list[str]] = {}
    for written in seam.join:
        names = bench.saying(written)
        assert isinstance(names, tuple)
        sides = [_seam_part(bench, name) for name in names if isinstance(name, Name)]
        whole = sum(path.length for _, _, path, _ in sides)
        begins = 0.0
        for owner, copy, path, edge in sides:
            middle = whole / 2 - begins if seam.open_in is None else _middle_of(bench, owner, edge, seam.open_in)
            begins += path.length
            if middle is None:
                continue
            first, last = middle - opened / 2, middle + opened / 2
            if owner is piece and opened > LEAST and last > LEAST and first < path.length - LEAST:
                spans.setdefault((max(first, 0.0), min(last, path.length), edge), []).append(copy)
    for (first, last, edge), copies in spans.items():
        parts = atomic_edges(bench, piece, edge, Name(edge, seam.name.place))
        allowance = min(edge_allowance(bench, piece, part) for part in parts)
        short = tuple(copy for copy in copies if copy != "only")
        bearers = () if len(short) == len(piece.copies) else short
        path = between(_joined(bench, piece, parts), first, last)
        yield PathMark(str(seam.name), "turning gap", path, allowance, "wrong side", bearers, seam.name.place)


def _middle_of(bench: Bench, piece: WrittenPiece | None, joint: str, wanted: Written) -> float | None:
    """How far along a joint edge, counter-clockwise, the middle of one of its edges lies; None where it has no such."""
    if piece is None:
        return None
    names = atomic_edges(bench, piece, joint, Name(joint, wanted.place))
    if wanted not in names:
        return None
    whole, path = _joined(bench, piece, names), _ccw(bench, piece, str(wanted))
    return nearest(whole, path.point_at(path.length / 2))[0]


def _seam_part(bench: Bench, name: Name) -> tuple[WrittenPiece | None, str, Path, str]:
    """The piece, the copy's short name, the path and the edge of one part of a seam's side."""
    head, tail = head_and_tail(name)
    piece = piece_of_copy(bench, head)
    if piece is None:
        raise unusable("no-such-name", name.place, f"no copy called '{head}'", "look at the names of the copies")
    path = _joined(bench, piece, atomic_edges(bench, piece, tail, name))
    base = str(piece.as_written.name)
    return piece, "only" if head == base else head.removeprefix(f"{base} "), path, tail
