"""Corners where one hem will be folded over another: what is cut off there before either is folded. The draft's mm."""

from collections.abc import Iterator, Sequence

from publisher.drafting import Piece
from publisher.figures.steps.attached import laid
from publisher.figures.steps.cloth import Bench, Lying, moved, turned
from publisher.figures.steps.lines import chain
from publisher.figures.steps.seams import own_spot
from publisher.figures.steps.values import Callout, Detail, Dimension, Look, Panel, Scene, Shape
from publisher.figures.steps.wording import face_words, length_words, names_of
from publisher.frozen import dataclass
from publisher.geometry import Path, Point
from publisher.terms import Phrase

NEAR = 0.01  # mm
SQUARE = 0.05  # cosine of an angle that is taken for a right one


def trimmed_corners_panel(bench: Bench, copy: str, edges: Sequence[str], up: float | None) -> Panel | None:
    """Corners where one hem will be folded over another: the innermost layer of the first is cut off as far as the second
    hides it; None where no hems meet at a right angle."""
    piece = bench.piece_now(copy)
    lying = Lying(copy, turned(), wrong_up=True, new=False)
    corners = [corner for edge in edges for corner in _hem_corners(bench, piece, copy, edge)]
    if not corners:
        return None
    shapes, cuts = laid(bench, lying), [corner.cut(up) for corner in corners]
    shapes += [Shape(moved(cut, lying), Look.CUT) for cut in cuts]
    low, inner, outer = (lying.rule(spot) for spot in _ends_of(cuts[0]))
    hem, tall = corners[0].under, (low - inner).length
    side = 1.0 if (inner - low).cross(outer - inner) > 0 else -1.0
    dimensions = (
        Dimension(inner, outer, length_words(hem), away=5.0 * side),
        Dimension(low, inner, length_words(tall), away=5.0 * side),
    )
    middle = (low + outer) * 0.5
    # Low in what is cut off: the leaders of both lengths run above it.
    callouts = (Callout(Phrase.of("figures.cut-off"), low + (inner - low) * 0.2 + (outer - inner) * 0.5),)
    detail = Detail(middle, max(hem, tall) * 1.1, dimensions=dimensions, callouts=callouts)
    named = Callout(face_words(copy, wrong_up=True), own_spot(bench, lying), bench.number(copy))
    told = Phrase.of("figures.told-corner-cut", copy=copy, edges=names_of(edges))
    return Panel("corner cut off", Scene(tuple(shapes), (named,), detail=detail), told, copies=(copy,))


@dataclass(frozen=True, slots=True)
class HemCorner:
    """Where two hems meet: the finished corner, the ways out of both edges, how wide each is cut, the first one's fold."""

    at: Point
    out: Point
    below: Point
    takes: float
    takes_below: float
    under: float

    def cut(self, up: float | None) -> Path:
        """From the raw edge of the second hem beside the innermost layer of the first, and out through its raw edge."""
        inner = self.at + self.out * (self.takes - self.under)
        low, high = self.takes_below, self.takes_below - (up or self.takes_below)
        return chain(
            [inner + self.below * low, inner + self.below * high, inner + self.below * high + self.out * self.under]
        )


def _ends_of(cut: Path) -> tuple[Point, Point, Point]:
    return cut.start, cut.segments[0].end, cut.end


def _hem_corners(bench: Bench, piece: Piece, copy: str, edge: str) -> Iterator[HemCorner]:
    """The corners of a hem at hems that are still to be made."""
    hems = {hem.edge: hem for hem in piece.hems if f"{copy}.{hem.edge}" not in bench.state.hemmed}
    if edge not in hems or hems[edge].under <= 0:
        return
    path = piece.edge(edge).path
    for other, hem in hems.items():
        meets = piece.edge(other).path
        for here, there, out, below in (
            (path.start, meets.end, path.direction_at(0.0), meets.direction_at(meets.length)),
            (path.end, meets.start, path.direction_at(path.length), meets.direction_at(0.0)),
        ):
            if other != edge and (here - there).length < NEAR and abs(out.dot(below)) < SQUARE:
                yield HemCorner(here, out.right(), below.right(), hems[edge].takes, hem.takes, hems[edge].under)
