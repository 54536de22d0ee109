"""Template lines in the PDF, read back by another library: where the definition says, to 0.02 mm, curves as curves."""

import io
import math
import random
import re
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import pikepdf
import pytest
import shapely
from shapely import LineString

from publisher.drafting import Draft, GrainLine, LineMark, Piece
from publisher.edition.pdf_forms import DrawingOrder, DrawnForm, sentinel_svg
from publisher.edition.printing import print_pdf
from publisher.edition.sheets import drawing_order
from publisher.figures import check_block_figure
from publisher.geometry import Arc, Line, Path, Point
from publisher.template_pages import (
    EDITIONS,
    Edition,
    Frame,
    Paper,
    PlacedPiece,
    TemplatePage,
    plan_pages,
    templates_of,
)
from publisher.terms import UnitSystem
from tests.hand_pieces import HERE, hand_draft, hand_piece, notch, point_mark, rectangle, rounded
from tests.pdfium_reading import ReadPage, ReadPath, Spot, ink_of, lines_of

TRUE = 0.02  # mm: what we promise
CUT, FINISHED = 0.5, 0.25  # mm: how wide the pens are
A4 = Edition(UnitSystem.METRIC, Paper.A4)


@dataclass(frozen=True)
class Shape:
    """A rounded rectangle by its numbers, with its lines' distance and length known without any geometry of ours."""

    left: float
    bottom: float
    width: float
    height: float
    radius: float

    def distance(self, x: float, y: float) -> float:
        """How far a spot lies from the line."""
        across = abs(x - self.left - self.width / 2) - self.width / 2 + self.radius
        along = abs(y - self.bottom - self.height / 2) - self.height / 2 + self.radius
        outside = math.hypot(max(across, 0.0), max(along, 0.0))
        return abs(outside + min(max(across, along), 0.0) - self.radius)

    @property
    def length(self) -> float:
        return 2 * (self.width + self.height) - 8 * self.radius + 2 * math.pi * self.radius

    @property
    def path(self) -> Path:
        if self.radius == 0:
            return rectangle(self.width, self.height, self.left, self.bottom)
        return rounded(self.width, self.height, self.radius, self.left, self.bottom)

    def inner(self, allowance: float) -> "Shape":
        return Shape(
            self.left + allowance,
            self.bottom + allowance,
            self.width - 2 * allowance,
            self.height - 2 * allowance,
            max(self.radius - allowance, 0.0),
        )


@pytest.fixture
def numbers() -> random.Random:
    """New numbers in each run; the seed is printed, so that a failure can be run again."""
    seed = random.SystemRandom().randrange(2**32)
    print(f"seed {seed}")
    return random.Random(seed)


def printed(drafts: Sequence[Draft], edition: Edition) -> tuple[tuple[TemplatePage, ...], bytes]:
    """Placeholder pages, nothing else, through the page library and the finisher."""
    pages, findings = plan_pages(drafts, edition)
    assert findings == ()
    pieces = {(one.piece.name, one.size): one.piece for one in templates_of(drafts)}
    sizes = tuple(draft.variant.size for draft in drafts if draft.variant.size is not None)
    orders = [drawing_order(page, pieces, sizes) for page in pages.pages]
    html = _html(edition.paper, range(len(orders)))
    return pages.pages, print_pdf(html, orders, "2026-01-31", sizes).content


def _html(paper: Paper, keys: Sequence[int]) -> str:
    sheets = "".join(f'<section class="sheet">{sentinel_svg(paper, key, f"Sheet {key}")}</section>' for key in keys)
    return f"""<html lang="en"><head><title>Sheets</title><style>
    @font-face {{ font-family: "publisher text"; src: url(fonts/SourceSansPro-Regular.ttf) }}
    @page {{ size: {paper.width}mm {paper.height}mm; margin: 0 }}
    html, body {{ margin: 0; font-family: "publisher text" }}
    .sheet {{ break-before: page; position: relative; height: 1mm }}
    .sheet > svg {{ position: absolute; left: 0; top: 0; display: block }}
    </style></head><body>{sheets}</body></html>"""


def in_piece(placed: PlacedPiece, spot: Spot) -> Spot:
    """A spot of the page in the coordinates of the piece on it."""
    origin = placed.on_paper(Point(0.0, 0.0))
    right, up = placed.on_paper(Point(1.0, 0.0)) - origin, placed.on_paper(Point(0.0, 1.0)) - origin
    away = Point(*spot) - origin
    return away.dot(right), away.dot(up)


def paths_of(page: ReadPage, form: int) -> list[ReadPath]:
    return [path for path in page.paths if path.form == form]


def worst(paths: Sequence[ReadPath], placed: PlacedPiece, distance: Callable[[float, float], float]) -> float:
    return max(distance(*in_piece(placed, spot)) for path in paths for spot in path.flattened())


def assert_drawn(paths: Sequence[ReadPath], placed: PlacedPiece, shape: Shape) -> None:
    """These paths, and no others, are the shape: nowhere off its line, and as long as it."""
    assert worst(paths, placed, shape.distance) < TRUE
    assert sum(path.length for path in paths) == pytest.approx(shape.length, abs=TRUE)


def frame_box(frame: Frame) -> tuple[float, float, float, float]:
    return frame.left, frame.top, frame.left + frame.width, frame.top + frame.height


def some_shape(numbers: random.Random, widths: tuple[float, float], heights: tuple[float, float]) -> Shape:
    width, height = numbers.uniform(*widths), numbers.uniform(*heights)
    return Shape(numbers.uniform(-50, 50), numbers.uniform(-50, 50), width, height, numbers.uniform(0, 25))


def with_allowance(shape: Shape, allowance: float, name: str, number: int) -> Piece:
    return hand_piece(shape.path, shape.inner(allowance).path, allowance, name, number)


@pytest.mark.parametrize("edition", EDITIONS, ids=lambda edition: edition.name)
def test_whole_pieces_of_new_sizes_are_true(edition: Edition, numbers: random.Random) -> None:
    shapes = [some_shape(numbers, (60, 185), (60, 240)) for _ in range(4)]
    shapes[0] = Shape(0.0, 0.0, shapes[0].width, shapes[0].height, 0.0)
    allowances = [numbers.uniform(4, 16) for _ in shapes]
    pieces = [
        with_allowance(shape, allowance, f"piece {at}", at + 1)
        for at, (shape, allowance) in enumerate(zip(shapes, allowances, strict=True))
    ]
    pages, content = printed([hand_draft(pieces, edition.units)], edition)
    read = lines_of(content)
    assert len(read) == len(pages)
    drawn = 0
    for page, sheet in zip(pages, read, strict=True):
        assert (sheet.width, sheet.height) == pytest.approx((edition.paper.width, edition.paper.height), abs=0.001)
        for form, placed in enumerate(page.placed):
            at = int(placed.piece.split()[1])
            paths = paths_of(sheet, form)
            cut = [path for path in paths if path.width == pytest.approx(CUT, abs=1e-3)]
            finished = [path for path in paths if path.width == pytest.approx(FINISHED, abs=1e-3)]
            assert len(cut) + len(finished) == len(paths)
            assert_drawn(cut, placed, shapes[at])
            assert_drawn(finished, placed, shapes[at].inner(allowances[at]))
            assert not any(path.dashes for path in cut)
            assert all(path.dashes == pytest.approx((3.0, 1.5)) for path in finished)
            drawn += 1
    assert drawn == len(pieces)


@pytest.mark.parametrize("edition", EDITIONS, ids=lambda edition: edition.name)
def test_a_tiled_piece_of_new_size_is_true_tile_by_tile(edition: Edition, numbers: random.Random) -> None:
    width, height = numbers.uniform(250, 600), numbers.uniform(300, 700)
    shape = Shape(-20.0, 30.0, width, height, numbers.uniform(40, 120))
    pages, content = printed([hand_draft([with_allowance(shape, 12.0, "cape", 1)], edition.units)], edition)
    on_paper = 0.0
    first: list[Spot] | None = None
    for page, sheet in list(zip(pages, lines_of(content), strict=True))[1:]:
        (placed,), frame = page.placed, page.frame
        cut, *finished = paths_of(sheet, 0)
        assert_drawn([cut], placed, shape)
        assert_drawn(finished, placed, shape.inner(12.0))
        assert all(path.clip == pytest.approx(frame_box(frame), abs=0.001) for path in (cut, *finished))
        on_paper += LineString(cut.flattened()).intersection(shapely.box(*frame_box(frame))).length
        # By row and column alone every tile shows the same piece at the same spot of the one large sheet.
        shift_x, shift_y = (page.column - 1) * frame.width - frame.left, (page.row - 1) * frame.height - frame.top
        sheet_spots = [(x + shift_x, y + shift_y) for x, y in cut.flattened()]
        first = first or sheet_spots
        assert all(math.dist(one, other) < 0.002 for one, other in zip(first, sheet_spots, strict=True))
    # Numbers are written to 0.001 mm: an arc that only just reaches over a frame is shorter there by up to the chord of
    # that height, on either side of the piece.
    grazing = 2 * math.sqrt(2 * shape.radius * 0.001)
    assert on_paper == pytest.approx(shape.length, abs=2 * TRUE + grazing)


def test_what_lies_beyond_the_frame_is_not_shown() -> None:
    pages, content = printed([hand_draft([hand_piece(rounded(420, 560, 80))])], A4)
    for at, page in list(enumerate(pages))[1:]:
        left, top, right, bottom = frame_box(page.frame)
        ink = ink_of(content, at)
        assert any(left + 1 < x < right - 1 and top + 1 < y < bottom - 1 for x, y in ink)
        # Below the frame stands the scale bar; the frame's own line reaches 0.09 mm out, a pixel is 0.25 mm.
        assert not [(x, y) for x, y in ink if x < left - 0.4 or x > right + 0.4 or y < top - 0.4 or y > bottom + 5]


def test_curves_are_curves_and_straight_lines_are_lines() -> None:
    pages, content = printed([hand_draft([hand_piece(rounded(100, 80, 20))])], A4)
    (path,) = paths_of(lines_of(content)[0], 0)
    assert pages[0].placed
    assert path.closed
    # Four quarter turns, two curves each; the first straight side begins the path, and closing adds nothing.
    assert Counter(command.operator for command in path.commands) == {"m": 1, "l": 4, "c": 8}


def test_an_arc_of_more_than_half_a_turn_is_true(numbers: random.Random) -> None:
    radius, sweep = numbers.uniform(30, 80), numbers.uniform(math.pi, 1.9 * math.pi)
    start, end = Point(radius, 0.0), Point(radius * math.cos(sweep), radius * math.sin(sweep))
    disc = Path((Arc(start, end, Point(0.0, 0.0), sweep), Line(end, start)))
    pages, content = printed([hand_draft([hand_piece(disc)])], A4)
    page = next(page for page in pages if page.placed)
    (path,) = paths_of(lines_of(content)[page.number - 1], 0)
    curve = [command for command in path.commands if command.operator == "c"]
    spots = ReadPath((path.commands[0], *curve), False, True, False, CUT, (), None, 0).flattened()
    away = [math.hypot(*in_piece(page.placed[0], spot)) for spot in spots]
    assert max(abs(one - radius) for one in away) < TRUE
    assert path.length == pytest.approx(radius * sweep + (end - start).length, abs=TRUE)


def test_marks_stand_where_they_are_defined(numbers: random.Random) -> None:
    at = numbers.uniform(30, 120)
    marks = (
        notch(Point(at, 0.0), Point(at, 5.0)),
        notch(Point(0.0, 50.0), Point(5.0, 50.0), double=True),
        point_mark(at, 60.0),
        LineMark("fold", "fold line", Point(10.0, 90.0), Point(140.0, 90.0), "wrong side", (), HERE),
    )
    piece = hand_piece(
        rectangle(150, 120),
        rectangle(130, 100, 10, 10),
        marks=marks,
        grain_line=GrainLine(Point(20, 20), Point(20, 80)),
    )
    pages, content = printed([hand_draft([piece])], A4)
    placed = pages[0].placed[0]
    paths = paths_of(lines_of(content)[0], 0)
    boxes = [_box_in_piece(path, placed) for path in paths]
    for expected in (
        (at, 0.0, at, 5.0),
        (0.0, 48.5, 5.0, 48.5),
        (0.0, 51.5, 5.0, 51.5),
        (at - 2.5, 57.5, at + 2.5, 62.5),
        (10.0, 90.0, 140.0, 90.0),
        (18.4, 75.0, 21.6, 80.0),
        (18.4, 20.0, 21.6, 25.0),
    ):
        assert sum(box == pytest.approx(expected, abs=TRUE) for box in boxes) == 1, expected
    heads = [path for path in paths if path.filled]
    assert len(heads) == 2
    assert not any(path.stroked for path in heads)


def _box_in_piece(path: ReadPath, placed: PlacedPiece) -> tuple[float, float, float, float]:
    spots = [in_piece(placed, spot) for spot in path.flattened()]
    xs, ys = [x for x, _ in spots], [y for _, y in spots]
    return min(xs), min(ys), max(xs), max(ys)


@pytest.mark.parametrize("edition", EDITIONS, ids=lambda edition: edition.name)
def test_the_squares_the_coins_and_the_card_are_true(edition: Edition) -> None:
    pages, content = printed([hand_draft([hand_piece(rectangle(50, 40))], edition.units)], edition)
    assert pages[0].check_block is not None
    shapes = paths_of(lines_of(content)[0], 1)
    sides = sorted((box[2] - box[0], box[3] - box[1]) for box in (path.box for path in shapes))
    # ISO/IEC 7810 ID-1, nominal, read at a secondary source: 85.60 × 53.98 mm. The inch is 25.4 mm, exactly.
    # US quarter 24.26 mm across (United States Mint), 1 euro 23.25 mm (Council Regulation (EC) 975/98).
    coins = [(23.25, 23.25), (24.26, 24.26)]
    wanted = [(20.0, 20.0), *coins, (25.4, 25.4), (50.0, 50.0), (50.8, 50.8), (53.98, 85.6)]
    assert [list(one) for one in sides] == [pytest.approx(one, abs=TRUE) for one in wanted]
    (card,) = (path for path in shapes if path.box[3] - path.box[1] > 80)
    left, top, right, bottom = card.box
    # The corner radius 3.18 mm: nominal, from memory.
    shape = Shape(left, top, right - left, bottom - top, 3.18)
    assert max(shape.distance(*spot) for spot in card.flattened()) < TRUE
    for across, _ in coins:
        (coin,) = (path for path in shapes if path.box[2] - path.box[0] == pytest.approx(across, abs=TRUE))
        x, y = (coin.box[0] + coin.box[2]) / 2, (coin.box[1] + coin.box[3]) / 2
        assert all(abs(math.dist(spot, (x, y)) - across / 2) < TRUE for spot in coin.flattened())
    block = frame_box(pages[0].check_block)
    assert all(
        block[0] <= path.box[0] and block[1] <= path.box[1] and path.box[2] <= block[2] and path.box[3] <= block[3]
        for path in shapes
    )


def test_every_page_bears_a_scale_bar_of_two_inches_and_five_centimetres() -> None:
    pages, content = printed(
        [hand_draft([hand_piece(rounded(420, 560, 80)), hand_piece(rectangle(99, 99), number=2)])], A4
    )
    for page, sheet in zip(pages, lines_of(content), strict=True):
        below = page.frame.top + page.frame.height
        furniture = paths_of(sheet, max(path.form for path in sheet.paths if path.form is not None))
        bars = [path.box for path in furniture if path.box[1] > below + 0.1]
        left = page.frame.left
        assert any((box[0], box[2]) == pytest.approx((left, left + 50.8), abs=TRUE) for box in bars)
        ticks = {round(box[0] - left, 2) for box in bars if box[2] - box[0] < TRUE}
        assert ticks == {0.0, 20.0, 25.4, 50.0, 50.8}
        assert all(box[3] < page.frame.top + page.frame.height + 7 for box in bars)


def test_all_tiles_of_a_piece_share_one_form() -> None:
    pages, content = printed([hand_draft([hand_piece(rounded(560, 760, 90))])], A4)
    assert len(pages) > 6
    with pikepdf.open(io.BytesIO(content)) as pdf:
        used = [re.findall(rb"/(template\d+) Do", page.Contents.read_bytes()) for page in pdf.pages]
        names = {name for page in used for name in page}
        # The piece, the check block, and each page's own frame, joining marks and bar.
        assert len(names) == 1 + 1 + len(pages)
        assert len({page[0] for page in used[1:]}) == 1
        form = pdf.pages[1].Resources.XObject[f"/{used[1][0].decode()}"]
        assert list(map(float, form.BBox)) == [-1, -1, 561, 761]


def test_a_graded_pattern_has_a_layer_for_each_size() -> None:
    drafts = [
        hand_draft([hand_piece(rectangle(wide, 60)), hand_piece(rectangle(40, 40), name="label", number=2)], size=size)
        for size, wide in (("S", 100), ("M", 110))
    ]
    _, content = printed(drafts, A4)
    with pikepdf.open(io.BytesIO(content)) as pdf:
        properties = pdf.Root.OCProperties
        assert [str(group.Name) for group in properties.OCGs] == ["S", "M"]
        assert "/Name" in properties.D
        # With /AS or /Usage some readers take no notice of a layer that is switched off.
        assert "/AS" not in properties.D
        assert not any("/Usage" in group for group in properties.OCGs)
        forms = [form for name, form in pdf.pages[0].Resources.XObject.items() if name.startswith("/template")]
        # What both share (three sides of the smaller), what each has alone, and no layer for the other piece.
        assert sorted(str(form.OC.Name) for form in forms if "/OC" in form) == ["M", "S"]
        assert len([form for form in forms if "/OC" not in form]) >= 2


def test_a_pattern_of_one_size_has_no_layers() -> None:
    _, content = printed([hand_draft([hand_piece(rectangle(100, 60))])], A4)
    with pikepdf.open(io.BytesIO(content)) as pdf:
        assert "/OCProperties" not in pdf.Root


def test_the_drawing_carries_its_words_for_those_who_cannot_see_it() -> None:
    _, content = printed([hand_draft([hand_piece(rectangle(100, 60))])], A4)
    with pikepdf.open(io.BytesIO(content)) as pdf:
        figures = [
            thing for thing in pdf.objects if isinstance(thing, pikepdf.Dictionary) and thing.get("/S") == "/Figure"
        ]
        assert [str(figure.Alt) for figure in figures] == ["Sheet 0"]


@pytest.mark.parametrize(("keys", "orders"), [((0,), 2), ((0, 0), 1), ((0, 1), 1)])
def test_a_placeholder_too_few_or_too_many_stops_printing(keys: tuple[int, ...], orders: int) -> None:
    order = DrawingOrder((DrawnForm(check_block_figure()),))
    with pytest.raises(RuntimeError, match="placeholder"):
        print_pdf(_html(Paper.A4, keys), [order] * orders, "2026-01-31")


def test_the_words_of_a_drawing_cannot_leave_its_title() -> None:
    assert "<script>" not in sentinel_svg(Paper.A4, 0, "a </title><script>")


def test_the_same_pieces_give_the_same_bytes() -> None:
    drafts = [hand_draft([hand_piece(rounded(300, 300, 40))])]
    assert printed(drafts, A4)[1] == printed(drafts, A4)[1]
