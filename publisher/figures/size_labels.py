"""The size beside each line of a nest: small, just inside its line, at several spots of a long one. Paper: mm, y down."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from publisher.figures.label_values import Label, TextFitter, fitted
from publisher.figures.label_words import sizes_words
from publisher.figures.on_paper import OnPaper, flat
from publisher.figures.pieces import off_the_fold
from publisher.geometry import Box, Crowd, Path, Point, inside, stretches_within
from publisher.template_pages import Nest

SPACING = 110.0  # mm from one label of a line to the next
LEAST = 14.0  # mm: of a line of which a page shows less, its other stretches are labelled
CLEAR = 0.65  # mm from a line's middle: some 0.4 mm of white
LEADERS_APART = 8.0  # mm along lines that lie too close for labels between them
STEP = 3.0  # mm that a label moves along its line to find room


@dataclass(frozen=True, slots=True)
class SizeSpot:
    """Where a line wants its sizes told: the stretch that the page shows, how far along it, on which side."""

    stretch: Path
    distance: float
    sizes: tuple[str, ...]
    layer: tuple[str, ...]  # () for what every size sees
    inwards: float  # 1 where the piece lies to the left of the stretch, −1 to the right
    first: bool  # the page's first label of this stretch: it should not be missing

    @property
    def at(self) -> Point:
        """The spot on the line."""
        return self.stretch.point_at(self.distance)

    def leader_at(self, nest: Nest) -> Point:
        """Where a leader ends: beside those of the other sizes."""
        aside = (nest.sizes.index(self.sizes[0]) - (len(nest.sizes) - 1) / 2) * LEADERS_APART
        return self.stretch.point_at(min(max(self.distance + aside, 1.0), self.stretch.length - 1.0))


def size_spots(one: OnPaper, nest: Nest) -> Iterator[SizeSpot]:
    """Every spot, line by line; of a size whose stretches are all short, its longest."""
    shown: list[tuple[Path, tuple[str, ...], float]] = []
    fold = None if nest.inner.fold_edge is None else nest.inner.edge(nest.inner.fold_edge).path
    for line in nest.lines:
        owner = nest.pieces[nest.sizes.index(line.sizes[0])]
        outline = flat(owner.cut_line, one.placed)
        for path in off_the_fold(line.path, fold):
            for stretch in stretches_within(flat(path, one.placed), one.within, 0.05):
                shown.append((stretch, line.sizes, _inwards(outline, stretch)))
    longest = {sizes: max(path.length for path, own, _ in shown if own == sizes) for _, sizes, _ in shown}
    for stretch, sizes, inwards in shown:
        alone = len(sizes) == 1 and stretch.length == longest[sizes]
        if stretch.length < LEAST and not (alone and stretch.length > LEAST / 4):
            continue
        count = max(1, round(stretch.length / SPACING))
        layer = () if sizes == nest.sizes else sizes
        for at in range(count):
            distance = stretch.length * (at + 0.5) / count
            yield SizeSpot(stretch, distance, sizes, layer, inwards, at == 0)


def _inwards(outline: Path, stretch: Path) -> float:
    """On which side of a stretch its piece lies."""
    middle = stretch.length / 2
    beside = stretch.direction_at(middle).left() * 0.2
    return 1.0 if inside(outline, stretch.point_at(middle) + beside) else -1.0


def label_line(
    one: OnPaper, nest: Nest, wanted: SizeSpot, crowd: Crowd, taken: Sequence[Box], fit: TextFitter
) -> Label | None:
    """The label on the inner side of its line, near the spot; in smaller type where lines lie close; None without room."""
    reach = min(SPACING, wanted.stretch.length) / 2
    steps = range(int(reach / STEP) + 1)
    moves = [sign * step * STEP for step in steps for sign in ((1.0, -1.0) if step else (1.0,))]
    for lines, width, height in fitted(sizes_words(wanted.sizes, wanted.sizes == nest.sizes), fit):
        for move in moves:
            box = _beside(wanted, wanted.distance + move, width, height)
            if box is not None and _fits(box, one.within, crowd, taken):
                return Label(lines, box.left, box.bottom, width, height, one.piece.name, sizes=wanted.layer)
    return None


def _beside(wanted: SizeSpot, distance: float, width: float, height: float) -> Box | None:
    if not 0 < distance < wanted.stretch.length:
        return None
    aside = wanted.stretch.direction_at(distance).left() * wanted.inwards
    away = CLEAR + 0.01 + (abs(aside.x) * width + abs(aside.y) * height) / 2
    middle = wanted.stretch.point_at(distance) + aside * away
    return Box(middle.x - width / 2, middle.y - height / 2, middle.x + width / 2, middle.y + height / 2)


def _fits(box: Box, within: Box, crowd: Crowd, taken: Sequence[Box]) -> bool:
    free = all(
        box.left - CLEAR > other.right
        or box.right + CLEAR < other.left
        or box.bottom - CLEAR > other.top
        or box.top + CLEAR < other.bottom
        for other in taken
    )
    in_frame = (
        within.left + CLEAR < box.left
        and box.right < within.right - CLEAR
        and within.bottom + CLEAR < box.bottom
        and box.top < within.top - CLEAR
    )
    return free and in_frame and crowd.keeps_clear(box, CLEAR)
