"""The page plan: template pages drawn small where their lines lie, sheets put together, never more than a page."""

import math

import pytest
import shapely

from publisher.edition import print_edition
from publisher.figures import PagePlan, Style, figure_svg, page_plan
from publisher.geometry import Box, Path, Point
from publisher.pipeline import prove
from publisher.template_pages import Edition, Paper, TemplatePage, plan_pages, templates_of
from publisher.terms import UnitSystem
from tests.hand_pieces import hand_draft, hand_piece, polyline, rectangle
from tests.pdf_reading import texts_of
from tests.specimens import files

A4 = Edition(UnitSystem.METRIC, Paper.A4)
ROUND = polyline(*((400 * math.cos(at / 100 * math.pi), 400 * math.sin(at / 100 * math.pi)) for at in range(200)))


def planned(*outlines: Path, edition: Edition = A4) -> tuple[tuple[TemplatePage, ...], PagePlan]:
    pieces = [hand_piece(outline, name=f"piece {at}", number=at) for at, outline in enumerate(outlines, start=1)]
    draft = hand_draft(pieces, edition.units)
    pages, findings = plan_pages([draft], edition)
    assert findings == ()
    by_name = {(one.piece.name, one.size): one.piece for one in templates_of([draft])}
    return pages.pages, page_plan(pages.pages, by_name, edition.paper)


def boxes(plan: PagePlan, page: int, style: Style) -> list[Box]:
    figure = plan.thumbnails[page - 1].figure
    return [stroke.path.box for stroke in figure.strokes if stroke.style is style]


def test_a_thumbnail_shows_the_paper_and_the_piece_where_it_lies_on_it() -> None:
    # A4 is 210 mm wide and drawn 26 mm wide; the outlines' corners lie on the pen's middle, 0.1 mm in.
    (page,), plan = planned(rectangle(100, 60))
    corner = page.placed[0].on_paper(Point(0, 60))
    scale, pen = 26 / 210, 0.1
    paper = boxes(plan, 1, Style.FRAME)[0]
    assert (paper.width, paper.height) == pytest.approx((26, 297 * scale))
    (piece,) = boxes(plan, 1, Style.PLAN)
    assert (piece.left - pen, piece.bottom - pen) == pytest.approx((corner.x * scale, corner.y * scale))
    assert (piece.width, piece.height) == pytest.approx((100 * scale, 60 * scale))
    assert page.check_block is not None


def test_the_first_page_shows_what_checks_the_printer() -> None:
    (_, second), plan = planned(rectangle(180, 250))
    assert second.number == 2
    assert boxes(plan, 1, Style.PLAN) == []
    scale = 26 / 210
    assert any(box.height == pytest.approx(85.6 * scale, abs=0.05) for box in boxes(plan, 1, Style.FRAME))
    assert len(boxes(plan, 2, Style.FRAME)) == 1


def test_a_tile_shows_its_frame_and_what_lies_in_it_and_no_more() -> None:
    pages, plan = planned(rectangle(300, 400))
    tiles = [page for page in pages if page.rows * page.columns > 1]
    assert len(tiles) == 4
    shown = 0.0
    for page in tiles:
        paper, frame = boxes(plan, page.number, Style.FRAME)
        scale = paper.width / 210
        assert (frame.width, frame.height) == pytest.approx((190 * scale, 261 * scale))
        (corner,) = boxes(plan, page.number, Style.PLAN)
        assert frame.left - 1e-9 <= corner.left <= corner.right <= frame.right + 1e-9
        assert frame.bottom - 1e-9 <= corner.bottom <= corner.top <= frame.top + 1e-9
        shown += (corner.width + corner.height) / scale
    assert shown == pytest.approx(2 * (300 + 400))


def test_a_sheet_is_put_together_with_a_number_in_each_tile_clear_of_the_line() -> None:
    # Three columns of 190 mm by two rows of 261 mm; the tiles are drawn 14 mm wide.
    _, plan = planned(rectangle(500, 400))
    (sheet,) = plan.sheets
    scale = 14 / 190
    assert (sheet.figure.width - 0.2, sheet.figure.height - 0.2) == pytest.approx((3 * 14, 2 * 261 * scale))
    assert [page for page, _ in sheet.numbers] == [2, 3, 4, 5, 6, 7]
    (line,) = (stroke.path for stroke in sheet.figure.strokes if stroke.style is Style.PLAN)
    assert (line.box.width, line.box.height) == pytest.approx((500 * scale, 400 * scale))
    ring = shapely.LineString([(point.x, point.y) for point in line.flattened()])
    for at, (_, number) in enumerate(sheet.numbers):
        row, column = divmod(at, 3)
        assert column * 14 <= number.left
        assert number.right <= (column + 1) * 14 + 0.2
        assert row * 261 * scale <= number.bottom
        assert number.top <= (row + 1) * 261 * scale + 0.2
        assert ring.distance(shapely.box(number.left, number.bottom, number.right, number.top)) > 0.25


def test_a_tile_that_is_not_printed_has_no_number() -> None:
    # An L whose upper right quarter is empty.
    pages, plan = planned(polyline((0, 0), (300, 0), (300, 100), (100, 100), (100, 400), (0, 400)))
    (sheet,) = plan.sheets
    assert len(sheet.numbers) == len(pages) - 1 == 3
    assert sum(stroke.style is Style.FRAME for stroke in sheet.figure.strokes) == 3


@pytest.mark.parametrize("edition", [A4, Edition(UnitSystem.INCH, Paper.LETTER)], ids=lambda edition: edition.name)
@pytest.mark.parametrize(
    "outlines",
    [
        [rectangle(30, 30)],
        [rectangle(180, 240)] * 39,
        [rectangle(900, 1500)],
        [rectangle(7400, 100)],
        [rectangle(400, 400)] * 6,
        [rectangle(180, 240)] * 6 + [rectangle(700, 900), ROUND],
    ],
    ids=["one", "forty whole", "one sheet", "one long strip", "six sheets", "mixed"],
)
def test_the_plan_has_room_on_a_page(outlines: list[Path], edition: Edition) -> None:
    """Set in rows as the layout sets them: 162 mm wide and, with the heading, no higher than a page of text."""
    pages, plan = planned(*outlines, edition=edition)
    in_a_row = int(166 // plan.pitch)
    assert len(pages) <= 41
    rows = math.ceil(len(plan.thumbnails) / in_a_row)
    height = rows * (plan.thumbnails[0].figure.height + 4.6 + 4)
    left = tallest = 0.0
    for sheet in plan.sheets:
        assert sheet.figure.width <= 162.3
        if left + sheet.width > 163:
            height, left, tallest = height + tallest, 0.0, 0.0
        left += sheet.width + 4
        tallest = max(tallest, sheet.figure.height + 2 * 4.6 + 4)
    assert height + tallest <= 190
    # Every page is shown: drawn alone, or as a tile of its sheet.
    assert {one.page for one in plan.thumbnails} | {page for one in plan.sheets for page, _ in one.numbers} == {
        page.number for page in pages
    }


def test_only_a_strip_of_many_pages_does_without_drawings_of_its_tiles() -> None:
    pages, plan = planned(rectangle(7400, 100))
    assert [one.page for one in plan.thumbnails] == [1]
    assert len(plan.sheets[0].numbers) == len(pages) - 1 == 29
    pages, plan = planned(*[rectangle(400, 400)] * 6)
    assert len(plan.thumbnails) == len(pages) == 37


def test_a_thumbnail_of_a_finely_drawn_piece_is_small_in_bytes() -> None:
    pages, plan = planned(ROUND)
    assert len(pages) > 15
    drawn = [*(one.figure for one in plan.thumbnails), plan.sheets[0].figure]
    assert max(len(figure_svg(figure, "x")) for figure in drawn) < 4000


def test_the_plan_is_as_large_as_the_room_below_the_squares_allows_and_no_smaller_than_can_be_read() -> None:
    pages, wide = planned(*[rectangle(180, 240)] * 13)
    by_name = {
        (f"piece {at}", None): hand_piece(rectangle(180, 240), name=f"piece {at}", number=at) for at in range(1, 14)
    }
    below = page_plan(pages, by_name, A4.paper, room=130.0)
    assert below.height <= 130 < wide.height
    assert below.thumbnails[0].figure.width == pytest.approx(22.0 + 0.2)  # paper 22 mm wide, and a pen
    # 13 mm wide, 14 pages take two rows of 27 mm: where there is less room, the plan stands among the text.
    assert page_plan(pages, by_name, A4.paper, room=50.0) == wide


LARGE = """
pieces:
  apron:
    outline:
      rectangle: 90 cm by 115 cm
    copies:
      only: canvas
  bib:
    outline:
      rectangle: 36 cm by 36 cm
    copies:
      only: canvas
"""


@pytest.mark.parametrize("below_squares", [True, False])
def test_only_a_heading_with_a_picture_below_it_promises_one(below_squares: bool) -> None:
    """Pieces of 10 cm stand on the first template page themselves."""
    side = "36 cm" if below_squares else "10 cm"
    pattern = LARGE.replace("90 cm by 115 cm", "36 cm by 36 cm").replace("36 cm", side)
    proof, _ = prove("specimen", files(pattern))
    assert proof is not None
    printed = print_edition(proof, A4)
    pages = [[line.text for line in page] for page in texts_of(printed.pdf)]
    first = printed.pages - printed.template_pages
    (at,) = (at for at, page in enumerate(pages) if any("at a glance" in text for text in page))
    assert at == (first if below_squares else 1)
    assert f"Page {first + 1}" in " ".join(pages[at])
    assert ("The template pages" in pages[1]) is below_squares


@pytest.mark.parametrize("edition", [A4, Edition(UnitSystem.INCH, Paper.LETTER)], ids=lambda edition: edition.name)
def test_the_plan_is_printed_on_one_page_with_the_numbers_of_the_pages(edition: Edition) -> None:
    proof, _ = prove("specimen", files(LARGE))
    assert proof is not None
    printed = print_edition(proof, edition)
    pages = [[line.text for line in page] for page in texts_of(printed.pdf)]
    (plan,) = (page for page in pages if any("at a glance" in text for text in page))
    first = printed.pages - printed.template_pages + 1
    captions = " ".join(plan)
    for number in range(first, printed.pages + 1):
        assert f"Page {number}" in captions
    # The first page bears the check block alone; the others are tiles. A number that would lie on a line is left out.
    missing = [number for number in range(first + 1, printed.pages + 1) if str(number) not in plan]
    assert len(missing) <= (printed.pages - first) // 6
    assert pages[first - 1][0].startswith("Template page 1")
