"""Pieces on paper: what is printed, whole pieces on shared pages, and the frame."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from publisher.drafting import PieceKind
from publisher.template_pages import EDITIONS, Edition, Frame, Paper, PlacedPiece, TemplatePage, plan_pages
from publisher.terms import UnitSystem
from tests.hand_pieces import hand_draft, hand_piece, rectangle

A4 = Edition(UnitSystem.METRIC, Paper.A4)
LETTER = Edition(UnitSystem.INCH, Paper.LETTER)
GAP = 4.0  # mm, room for scissors


def planned(*sizes: tuple[float, float], edition: Edition = A4) -> tuple[TemplatePage, ...]:
    """The pages of rectangles cut at these sizes."""
    pieces = [
        hand_piece(rectangle(width, height), name=f"piece {at}", number=at)
        for at, (width, height) in enumerate(sizes, start=1)
    ]
    pages, findings = plan_pages([hand_draft(pieces, edition.units)], edition)
    assert findings == ()
    return pages.pages


def box_on_paper(placed: PlacedPiece, width: float, height: float) -> tuple[float, float, float, float]:
    """Left, top, right, bottom of a rectangle from (0, 0) as it lies on its page."""
    corners = [placed.on_paper(point) for segment in rectangle(width, height).segments for point in (segment.start,)]
    xs, ys = [point.x for point in corners], [point.y for point in corners]
    return min(xs), min(ys), max(xs), max(ys)


def inside(box: tuple[float, float, float, float], frame: Frame) -> bool:
    left, top, right, bottom = box
    return (
        left >= frame.left
        and top >= frame.top
        and right <= frame.left + frame.width
        and bottom <= frame.top + frame.height
    )


def apart(one: tuple[float, float, float, float], other: tuple[float, float, float, float], gap: float) -> bool:
    return (
        one[2] + gap <= other[0] + 1e-6
        or other[2] + gap <= one[0] + 1e-6
        or one[3] + gap <= other[1] + 1e-6
        or other[3] + gap <= one[1] + 1e-6
    )


# Our fact P-SAFE (derived, not published): 10 mm clears what printers leave white on every side but the worst foot.
@pytest.mark.parametrize(
    ("edition", "width", "height"), [(A4, 210 - 20, 297 - 20 - 16), (LETTER, 215.9 - 20, 279.4 - 20 - 16)]
)
def test_the_frame_keeps_clear_of_margins_header_and_footer(edition: Edition, width: float, height: float) -> None:
    frame = planned((50, 50), edition=edition)[0].frame
    assert (frame.left, frame.top) == (10, 17)
    assert (frame.width, frame.height) == pytest.approx((width, height))


def test_a_piece_that_just_fits_the_frame_lies_on_one_page() -> None:
    assert [len(page.placed) for page in planned((189.4, 260.4))] == [0, 1]
    assert len(planned((190.5, 261.5))) > 2


def test_a_piece_that_fits_only_turned_is_turned() -> None:
    (page,) = (page for page in planned((250, 100)) if page.placed)
    assert page.placed[0].movement.quarter_turns == 1
    assert (page.rows, page.columns) == (1, 1)


def test_a_small_piece_lies_below_the_check_block() -> None:
    (page,) = planned((150, 120))
    assert page.check_block is not None
    assert (page.check_block.left, page.check_block.top) == (page.frame.left, page.frame.top)
    assert box_on_paper(page.placed[0], 150, 120)[1] >= page.check_block.top + page.check_block.height


def test_only_the_first_page_bears_the_check_block() -> None:
    pages = planned((180, 250), (180, 250), (400, 400))
    assert [page.number for page in pages] == list(range(1, len(pages) + 1))
    assert [page.check_block is not None for page in pages] == [True] + [False] * (len(pages) - 1)


def test_pieces_that_stand_side_by_side_share_a_page() -> None:
    # 2 × 88 + 4 = 180 mm across, 200 mm high: side by side they fit, one above the other they don't.
    assert [len(page.placed) for page in planned((88, 200), (88, 200))] == [0, 2]


def test_the_order_of_placing_with_fewest_pages_is_taken() -> None:
    # Below the check block 170 mm are left. Lying flat the two take 105 + 4 + 80 mm down and 140 + 4 + 130 mm across;
    # standing they are 105 + 4 + 80 = 189 mm across and 140 mm high.
    assert [len(page.placed) for page in planned((80, 130), (105, 140))] == [2]


@given(st.lists(st.tuples(st.floats(10, 185), st.floats(10, 255)), min_size=1, max_size=12), st.sampled_from(EDITIONS))
def test_whole_pieces_lie_apart_inside_the_frame_each_once(sizes: list[tuple[float, float]], edition: Edition) -> None:
    sizes = [(width, min(height, 240.0)) for width, height in sizes]
    pages = planned(*sizes, edition=edition)
    assert sorted(placed.piece for page in pages for placed in page.placed) == sorted(
        f"piece {at}" for at in range(1, len(sizes) + 1)
    )
    for page in pages:
        boxes = [box_on_paper(placed, *sizes[int(placed.piece.split()[1]) - 1]) for placed in page.placed]
        block = page.check_block
        if block is not None:
            boxes.append((block.left, block.top, block.left + block.width, block.top + block.height))
        assert all(inside(box, page.frame) for box in boxes)
        assert all(apart(one, other, GAP) for at, one in enumerate(boxes) for other in boxes[:at])
        assert page.placed or block is not None


def test_measured_pieces_and_strips_have_no_template() -> None:
    strip = hand_piece(rectangle(40, 400), name="loop", number=2, kind=PieceKind.STRIP)
    patch = hand_piece(rectangle(40, 40), name="patch", number=3, kind=PieceKind.MEASURED)
    pages, _ = plan_pages([hand_draft([hand_piece(rectangle(50, 50)), strip, patch])], A4)
    assert [placed.piece for page in pages.pages for placed in page.placed] == ["flap"]


def test_without_a_drawn_piece_there_are_no_template_pages() -> None:
    pages, findings = plan_pages([hand_draft([hand_piece(rectangle(40, 40), kind=PieceKind.MEASURED)])], A4)
    assert (pages.pages, findings) == ((), ())


def test_a_piece_alike_in_all_sizes_is_printed_once_the_others_by_size() -> None:
    drafts = [
        hand_draft(
            [
                hand_piece(rectangle(width, 60), name="crown", number=1),
                hand_piece(rectangle(50, 50), name="label", number=2),
            ],
            size=size,
        )
        for size, width in (("S", 100), ("M", 110), ("L", 120))
    ]
    pages, _ = plan_pages(drafts, A4)
    printed = {(placed.piece, placed.size) for page in pages.pages for placed in page.placed}
    assert printed == {("crown", "S"), ("crown", "M"), ("crown", "L"), ("label", None)}
    assert sum(len(page.placed) for page in pages.pages) == 4
