"""Copies as they lie at a step: outline, face, edges raw or done, what is already on them, marks. The draft's mm."""

from collections.abc import Callable, Iterator
from dataclasses import replace

from publisher.assembly import WorkState
from publisher.drafting import Draft, Edge, LineMark, Piece, Placement, Pleat
from publisher.figures.steps.lines import box_path, line
from publisher.figures.steps.quilting import quilting_on
from publisher.figures.steps.turned_edges import hem_rows, raw_to_raw, topstitched, turned_band, turned_edges
from publisher.figures.steps.values import Look, Shape, Texture
from publisher.figures.steps.wording import face_words
from publisher.frozen import dataclass
from publisher.geometry import Path, Point, folded_along, line_within, mapped, mirrored_point, offset_outline
from publisher.terms import Phrase

Rule = Callable[[Point], Point]
# What carries an area on the wrong side of another: fused, or quilted to it.
BACKINGS = ("interfacing", "wadding")


def as_it_lies(point: Point) -> Point:
    """No movement."""
    return point


@dataclass(frozen=True, slots=True)
class Lying:
    """A copy and how it lies: moved by a rule, its wrong side up or not; new in this step, or there before."""

    copy: str
    rule: Rule = as_it_lies
    wrong_up: bool = False
    new: bool = True


def turned(rule: Rule = as_it_lies) -> Rule:
    """Turned over on an upright axis, then moved."""
    return lambda point: rule(Point(-point.x, point.y))


@dataclass(frozen=True, slots=True)
class Bench:
    """The draft, and the state of the work that a figure shows."""

    draft: Draft
    state: WorkState
    fused: tuple[tuple[str, str], ...] = ()  # what was fused, and to what
    quilted: tuple[tuple[str, float], ...] = ()  # what lines of quilting have been sewn through, and how far apart, mm
    stops_short: bool = False  # seams of this step run from seam line to seam line, not from raw edge to raw edge

    @property
    def zip_between(self) -> bool:
        """True once a zip has been sewn in."""
        zips = {one.key for one in self.draft.notions if one.kind == "zip"}
        return bool(zips & self.state.attached)

    def piece_now(self, copy: str) -> Piece:
        """The piece of a copy: with its pleats open until they are closed."""
        piece = self.draft.piece(self.draft.copy(copy).piece)
        return piece.opened if piece.opened is not None and copy not in self.state.pleated else piece

    def number(self, copy: str) -> int:
        """The number of a copy's piece on the chart."""
        return self.draft.piece(self.draft.copy(copy).piece).number

    def kind(self, copy: str) -> str:
        """The kind of cloth that a copy is cut from."""
        key = self.draft.copy(copy).material
        return next((one.kind for one in self.draft.materials if one.key == key), "fabric")

    def rough_now(self, copy: str) -> bool:
        """True for a copy that is still larger than its template."""
        cut = self.draft.copy(copy)
        return cut.rough > 0 and copy not in self.state.trimmed

    def done(self, copy: str, edge: str) -> bool:
        """True for an edge that is stitched, hemmed or bound, or folded under."""
        if (copy, edge) in self.state.closed_edges:
            return True
        folded = [name.partition(".")[2] for name in self.state.folded if name.startswith(f"{copy}.")]
        piece = self.draft.piece(self.draft.copy(copy).piece)
        return any(edge == part.name for name in folded for part in piece.edges_of(name))

    def held_fold(self, copy: str) -> LineMark | None:
        """The line along which a copy is folded round a notion; None of one that lies flat."""
        marks = self.draft.piece(self.draft.copy(copy).piece).marks
        lines = (one for one in marks if isinstance(one, LineMark) and f"{copy}.{one.name}" in self.state.held_folds)
        return next(lines, None)

    def outline(self, copy: str) -> Path:
        """Where its edges are now; of a copy that is folded round a notion, the larger part, which covers the other."""
        flat, fold = self._flat_outline(copy), self.held_fold(copy)
        parts = parted_along(flat, fold) if fold is not None else None
        return parts[0] if parts is not None else flat

    def _flat_outline(self, copy: str) -> Path:
        """The cut line, but for edges that are done, which end at the finished line."""
        cut, piece = self.draft.copy(copy), self.piece_now(copy)
        if cut.to_finished_line:
            return piece.finished_line
        if self.rough_now(copy):
            box, more = piece.cut_line.box, cut.rough
            return box_path(box.left - more, box.bottom - more, box.right + more, box.top + more)
        if piece.strip is not None and copy in self.state.folded:
            box = piece.finished_line.box
            return box_path(box.left, 0.0, box.right, piece.strip.finished_width)
        if not any(self.done(copy, edge.name) for edge in piece.edges):
            return piece.cut_line
        return offset_outline([(edge.path, self.allowance(copy, edge)) for edge in piece.edges])[0]

    def allowance(self, copy: str, edge: Edge) -> float:
        """How far the cloth runs beyond an edge's finished line now, mm."""
        return 0.0 if self.done(copy, edge.name) or self.draft.copy(copy).to_finished_line else edge.allowance


def parted_along(outline: Path, mark: LineMark) -> tuple[Path, Path] | None:
    """The larger part of an outline and the smaller one, on both sides of a line; None where it parts nothing."""
    found: list[tuple[float, Path, Path]] = []
    for start, end in ((mark.start, mark.end), (mark.end, mark.start)):
        beyond = (start + end) * 0.5 + (end - start).right()
        try:
            kept, over = folded_along(outline, start, end, beyond)
        except ValueError:
            continue
        if len(kept) == 1:
            found.append((over.box.width * over.box.height, kept[0], over))
    return min(found, key=lambda one: one[0])[1:] if found else None


TEXTURES: dict[tuple[str, bool], Texture] = {
    ("lining", False): Texture.LINING,
    ("lining", True): Texture.LINING_WRONG,
    ("interfacing", False): Texture.INTERFACING,
    ("interfacing", True): Texture.INTERFACING,
    ("wadding", False): Texture.WADDING,
    ("wadding", True): Texture.WADDING,
}


ROUND = 0.55  # of an outline: a seam that is longer goes round it


def face_seen(bench: Bench, copy: str, wrong_up: bool) -> tuple[str, bool]:
    """What is seen of a copy that lies so: behind one that was sewn round to its like and turned out, the other's face."""
    other = turned_pair(bench, copy) if wrong_up else None
    return (other, False) if other is not None else (copy, wrong_up)


def turned_pair(bench: Bench, copy: str) -> str | None:
    """The copy of the same piece that was sewn round with this one, and turned: it lies behind, wrong sides within."""
    for seam in bench.draft.seams:
        first, second = {side.copy for side in seam.first}, {side.copy for side in seam.second}
        names = first | second
        done = seam.name in bench.state.sewn and not names.isdisjoint(bench.state.turned)
        pieces = {bench.draft.copy(name).piece for name in names}
        if done and copy in names and len(first) == 1 == len(second) and len(names) == 2 and len(pieces) == 1:
            whole = bench.draft.piece(next(iter(pieces))).finished_line.length
            if seam.leave_open > 0 or seam.length > ROUND * whole:
                return next(name for name in names if name != copy)
    return None


def named_face(bench: Bench, copy: str, wrong_up: bool) -> Phrase:
    """A copy and which of its faces is seen; a backing by its glue, wadding by its name alone."""
    copy, wrong_up = face_seen(bench, copy, wrong_up)
    match bench.kind(copy):
        case "wadding":
            return Phrase.of("figures.name", name=copy)
        case "interfacing" if wrong_up:
            return Phrase.of("figures.glue-down", copy=copy)
        case _:
            return face_words(copy, wrong_up)


def texture_of(bench: Bench, copy: str, wrong_up: bool) -> Texture:
    """The texture of the face that lies up."""
    copy, wrong_up = face_seen(bench, copy, wrong_up)
    usual = Texture.WRONG if wrong_up else Texture.PLAIN
    return TEXTURES.get((bench.kind(copy), wrong_up), usual)


def spread(bench: Bench, lying: Lying) -> list[Shape]:
    """The area of a copy, its raw edges thin, its folded and sewn ones heavier; and what is already on that face."""
    outline = moved(bench.outline(lying.copy), lying)
    raw = Look.RAW if lying.new else Look.BEFORE
    shapes = [Shape(outline, raw, texture_of(bench, lying.copy, lying.wrong_up), closed=True)]
    heavy = Look.FOLDED if lying.new else Look.BEFORE_FOLDED
    if bench.held_fold(lying.copy) is not None:
        return [replace(shapes[0], look=heavy)]  # its seam and its fold are all its edges
    piece, now = bench.piece_now(lying.copy), bench.outline(lying.copy)
    turned_ones = {one.edge.name for one in turned_edges(piece, lying.copy, bench.state)}
    shapes += _on_the_wrong_side(bench, lying) if lying.wrong_up else []
    for edge in piece.edges:
        if bench.done(lying.copy, edge.name) and not bench.rough_now(lying.copy):
            whole = raw_to_raw(piece, edge, now) if edge.name in turned_ones else edge.path
            shapes.append(Shape(moved(whole, lying), heavy))
    shapes += [Shape(moved(path, lying), Look.BEFORE_FOLDED) for path in _closed_folds(bench, lying)]
    sewn = [*hem_rows(piece, lying.copy, bench.state, now), *topstitched(piece, lying.copy, bench.state)]
    shapes += [Shape(moved(path, lying), Look.STITCHED) for path in sewn]
    for apart in [apart for copy, apart in bench.quilted if copy == lying.copy][:1]:
        shapes += [Shape(path, Look.STITCHED) for path in quilting_on(outline, apart)]
    for behind in carried(bench, replace(lying, wrong_up=not lying.wrong_up)):
        if bench.held_fold(behind.copy) is not None:
            continue
        through = topstitched(bench.piece_now(behind.copy), behind.copy, bench.state)
        shapes += [Shape(moved(path, behind), Look.STITCHED) for path in through]
    for on_top in carried(bench, lying):
        shapes += spread(bench, on_top)
    return shapes


def _on_the_wrong_side(bench: Bench, lying: Lying) -> Iterator[Shape]:
    """What of a copy has been turned over to its wrong side, its right side showing."""
    right, outline = texture_of(bench, lying.copy, wrong_up=False), bench.outline(lying.copy)
    piece = bench.piece_now(lying.copy)
    for one in turned_edges(piece, lying.copy, bench.state):
        if not bench.rough_now(lying.copy):
            band = turned_band(piece, one.edge, outline, one.depth)
            yield Shape(moved(band, lying), Look.BEFORE, right, closed=True)


def _closed_folds(bench: Bench, lying: Lying) -> Iterator[Path]:
    """The outer folds of pleats that have been closed, as far as the cloth goes now; they show on the right side."""
    piece = bench.draft.piece(bench.draft.copy(lying.copy).piece)
    if piece.opened is None or lying.copy not in bench.state.pleated or lying.wrong_up:
        return
    for pleat in piece.opened.marks:
        for low, high in pleat.closed if isinstance(pleat, Pleat) else ():
            yield from line_within(line(low, high), bench.outline(lying.copy))


def moved(path: Path, lying: Lying) -> Path:
    """A path of the copy where the copy lies."""
    return mapped(path, lying.rule, turned_over=_flips(lying.rule))


def _flips(rule: Rule) -> bool:
    origin, across, up = rule(Point(0, 0)), rule(Point(1, 0)), rule(Point(0, 1))
    return (across - origin).cross(up - origin) < 0


def carried(bench: Bench, lying: Lying) -> Iterator[Lying]:
    """What has been laid or fused on the face of a copy that lies up, in the order of the placements."""
    if face_seen(bench, lying.copy, lying.wrong_up) != (lying.copy, lying.wrong_up):
        return  # that face lies within
    for copy, rule, over in fused_to(bench, lying.copy):
        if lying.wrong_up:
            yield Lying(copy, _behind(rule, lying.rule), over, new=False)
    for placement in bench.draft.placements:
        if placement.below != lying.copy or placement.name not in bench.state.placed:
            continue
        if lies_behind(bench, placement) == lying.wrong_up and not strip_loop(bench, placement.placed):
            yield from placed_lyings(bench, placement, lying, new=False)


def lies_behind(bench: Bench, placement: Placement) -> bool:
    """True for what lies on the wrong side of the copy below: a backing; a lining laid on its outside face down, so that
    both wrong sides meet."""
    kind = bench.kind(placement.placed)
    wrong_sides_meet = placement.laying.turned_over and kind == "lining" and bench.kind(placement.below) == "fabric"
    return kind in BACKINGS or wrong_sides_meet


def placed_lyings(bench: Bench, placement: Placement, below: Lying, new: bool) -> Iterator[Lying]:
    """How a placed copy lies on the one below; of a pair, the second lies on the other half of a piece cut on the fold."""
    over = placement.laying.turned_over != below.wrong_up
    yield Lying(placement.placed, _behind(placement.laying, below.rule), over, new)
    copy, piece = bench.draft.copy(placement.placed), bench.draft.piece(bench.draft.copy(placement.below).piece)
    if copy.mirrored and copy.count == 2 and piece.half is not None and piece.half.fold_edge is not None:
        across = over_the_fold(piece)
        yield Lying(placement.placed, _behind(_behind(placement.laying, across), below.rule), over, new)


def over_the_fold(piece: Piece) -> Rule:
    """From one half of a piece that is cut on the fold to the other."""
    assert piece.half is not None
    assert piece.half.fold_edge is not None
    fold = piece.half.edge(piece.half.fold_edge).path
    return lambda point: mirrored_point(point, fold.start, fold.direction_at(0.0))


def _behind(first: Rule, then: Rule) -> Rule:
    return lambda point: then(first(point))


def strip_loop(bench: Bench, copy: str) -> bool:
    """True for a strip, which is placed by its ends and not spread out."""
    return bench.draft.piece(bench.draft.copy(copy).piece).strip is not None


def fused_to(bench: Bench, copy: str) -> Iterator[tuple[str, Rule, bool]]:
    """Copies of the same piece fused to this one: cut to the finished line, they lie where it does."""
    for backing, below in bench.fused:
        if below == copy and bench.draft.copy(backing).piece == bench.draft.copy(copy).piece:
            yield backing, as_it_lies, True


def with_allowances(bench: Bench, seam: str) -> Bench:
    """The work before a seam, its allowances still to be seen beyond where it runs."""
    named = next(one for one in bench.draft.seams if one.name == seam)
    sides = (*named.first, *named.second)
    sewn = {(side.copy, edge.name) for side in sides for edge in bench.piece_now(side.copy).edges_of(side.edge)}
    return replace(bench, state=replace(bench.state, closed_edges=bench.state.closed_edges - sewn))


def longer_side(bench: Bench, copy: str) -> float:
    """How large a copy is, mm."""
    box = bench.piece_now(copy).cut_line.box
    return max(box.width, box.height)
