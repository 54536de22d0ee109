"""Template pages of the demos as a PDF library reads them, their lines in the mm of the one piece on each."""

import math
from dataclasses import dataclass
from functools import cache

import pytest
import shapely
from shapely import LineString

from publisher.edition import Request
from publisher.geometry import Point
from publisher.template_pages import Edition, PlacedPiece, TemplatePage
from tests.demo import demo_proof, printed_demo
from tests.pdfium_reading import ReadPage, ReadPath, Spot, lines_of

TRUE = 0.02  # mm: what we promise


@dataclass(frozen=True)
class Tile:
    """A template page with the lines of the one piece on it, which are the page's first drawing."""

    page: TemplatePage
    placed: PlacedPiece
    paths: tuple[ReadPath, ...]

    def in_piece(self, spot: Spot) -> Spot:
        """A spot of the page, in the piece's own mm."""
        origin = self.placed.on_paper(Point(0.0, 0.0))
        right, up = (self.placed.on_paper(Point(*one)) - origin for one in ((1.0, 0.0), (0.0, 1.0)))
        away = Point(*spot) - origin
        return away.dot(right), away.dot(up)

    def on_sheet(self, spot: Spot) -> Spot:
        """A spot of the page on the sheet that all tiles make, by row and column alone."""
        frame = self.page.frame
        return (
            spot[0] - frame.left + (self.page.column - 1) * frame.width,
            spot[1] - frame.top + (self.page.row - 1) * frame.height,
        )

    @property
    def frame(self) -> shapely.Polygon:
        frame = self.page.frame
        return shapely.box(frame.left, frame.top, frame.left + frame.width, frame.top + frame.height)

    def cut_line(self) -> ReadPath:
        """Closed, or from end to end of the fold that a piece lies on."""
        drawn = [path for path in self.paths if path.stroked and path.width == pytest.approx(0.5, abs=1e-3)]
        closed = [path for path in drawn if path.closed]
        if closed:
            (cut,) = closed
            return cut
        return max((path for path in drawn if not path.dashes), key=lambda path: path.length)

    def lines(self, width: float, *dashes: float) -> list[tuple[Spot, Spot]]:
        """The straight lines of a pen, ends in the piece's mm, the lower or left one first; sorted."""
        drawn = [
            path.flattened()
            for path in self.paths
            if path.stroked and path.width == pytest.approx(width, abs=1e-3) and path.dashes == pytest.approx(dashes)
        ]
        return sorted(tuple(sorted(map(self.in_piece, spots))) for spots in drawn if len(spots) == 2)  # type: ignore[misc]


@cache
def tiles(edition: Edition, piece: str, demo: str, requests: tuple[Request, ...] = ()) -> tuple[Tile, ...]:
    """The pages that bear this piece of a demo and nothing else."""
    printed = printed_demo(edition.name, demo, requests)
    read: tuple[ReadPage, ...] = lines_of(printed.pdf)[-printed.template_pages :]
    pages = demo_proof(demo).pages_of(edition).pages
    return tuple(
        Tile(page, page.placed[0], tuple(path for path in sheet.paths if path.form == 0))
        for page, sheet in zip(pages, read, strict=True)
        if [placed.piece for placed in page.placed] == [piece]
    )


def assert_lines(found: list[tuple[Spot, Spot]], expected: list[tuple[Spot, Spot]]) -> None:
    assert len(found) == len(expected)
    for one, other in zip(found, expected, strict=True):
        assert max(map(math.dist, one, other)) < TRUE, (one, other)


def assert_tiled(held: tuple[Tile, ...], length: float) -> None:
    """Tile by tile the same drawing at the same spot of the sheet, each clipped to its frame, nothing lost between."""
    whole = [held[0].on_sheet(spot) for spot in held[0].cut_line().flattened()]
    shown = 0.0
    for tile in held:
        cut = tile.cut_line()
        spots = [tile.on_sheet(spot) for spot in cut.flattened()]
        assert all(math.dist(one, other) < 0.002 for one, other in zip(whole, spots, strict=True))
        assert all(path.clip == pytest.approx(tile.frame.bounds, abs=0.001) for path in tile.paths)
        shown += LineString(cut.flattened()).intersection(tile.frame).length
    assert shown == pytest.approx(length, abs=2 * TRUE)
