"""What is printed on one another, and what sizes share there."""

import math
from dataclasses import replace

import pytest

from publisher.drafting import Draft, LineMark, Notch, Piece
from publisher.geometry import Arc, Line, Path, Point, shared_stretches
from publisher.template_pages import Nest, NotchSign, Template, nest_of, nested, plan_pages, templates_of
from publisher.template_pages.values import DEFAULT_EDITIONS
from tests.hand_pieces import HERE, hand_draft, hand_piece, notch, point_mark, polyline, rectangle


def graded(*widths: float, allowance: float = 10.0) -> list[Draft]:
    return [
        hand_draft([hand_piece(rectangle(wide, 60), rectangle(wide - 20, 40, 10, 10), allowance)], size=f"size {at}")
        for at, wide in enumerate(widths, start=1)
    ]


def nest(*pieces: Piece) -> Nest:
    return nest_of(tuple(Template(piece, size) for piece, size in zip(pieces, "SMLX", strict=False)))


def test_more_sizes_than_lines_tell_apart_are_shared_out_evenly() -> None:
    together = nested(templates_of(graded(*(100.0 + 8 * at for at in range(7)))))
    assert [len(one) for one in together] == [4, 3]
    assert [len(one) for one in nested(templates_of(graded(*(100.0 + 8 * at for at in range(6)))))] == [6]


def test_sizes_that_differ_in_what_the_label_says_are_printed_apart() -> None:
    drafts = [*graded(100, 110), replace(graded(120, allowance=12.0)[0], variant=graded(1, 2, 120)[2].variant)]
    assert [len(one) for one in nested(templates_of(drafts))] == [1, 1, 1]


def test_a_piece_that_no_size_changes_is_there_once_and_one_size_alone_is_named() -> None:
    same = graded(100, 100)
    assert [[one.size for one in together] for together in nested(templates_of(same))] == [[None]]
    assert [one.size for one in templates_of(same[:1])] == ["size 1"]


def test_a_nest_lies_on_its_page_as_one_by_the_box_of_all() -> None:
    pages, findings = plan_pages(graded(100, 140, 180), DEFAULT_EDITIONS[1])
    assert findings == ()
    (page,) = (page for page in pages.pages if page.placed)
    assert len(page.placed) == 3
    assert len({(one.movement, one.shift) for one in page.placed}) == 1
    (together,) = page.together
    assert [one.size for one in together] == ["size 1", "size 2", "size 3"]
    corner = page.placed[0].on_paper(Point(180.0, 60.0))
    assert corner.x < page.frame.left + page.frame.width


def test_rectangles_from_one_corner_share_three_sides() -> None:
    told = nest(*(hand_piece(rectangle(wide, 60)) for wide in (100, 110, 120)))
    lengths = {line.sizes: line.path.length for line in told.lines if line.sizes != ("M", "L")}
    # Left, and 100 of both long sides, for all; then 10 of both long sides for M and L in two stretches.
    assert lengths == {("S", "M", "L"): 260, ("S",): 60, ("M",): 60, ("L",): 80}
    assert [line.path.length for line in told.lines if line.sizes == ("M", "L")] == [10, 10]


def test_sizes_that_cross_share_nothing_and_sizes_alike_share_all() -> None:
    cross = nest(hand_piece(rectangle(100, 60)), hand_piece(rectangle(60, 100, 20, -20)))
    assert [(line.sizes, line.closed) for line in cross.lines] == [(("S",), True), (("M",), True)]
    alike = nest(hand_piece(rectangle(100, 60)), hand_piece(rectangle(100, 60)), hand_piece(rectangle(120, 90, -9, -9)))
    assert [(line.sizes, line.closed) for line in alike.lines] == [(("S", "M"), True), (("L",), True)]


def test_a_shared_arc_is_parted_where_the_shorter_ends() -> None:
    def sector(sweep: float) -> Path:
        centre, start = Point(0.0, 0.0), Point(50.0, 0.0)
        end = Point(50 * math.cos(sweep), 50 * math.sin(sweep))
        return Path((Line(centre, start), Arc(start, end, centre, sweep), Line(end, centre)))

    stretches = shared_stretches(sector(2.0), [sector(1.2)])
    assert [along for _, along in stretches] == [(0,), ()]
    shared, alone = (path.length for path, _ in stretches)
    assert shared == pytest.approx(50 + 50 * 1.2)
    assert alone == pytest.approx(50 + 50 * 0.8)


def test_lines_a_hundredth_apart_are_two() -> None:
    assert [along for _, along in shared_stretches(rectangle(100, 60), [rectangle(100, 60, 0.01, 0.01)])] == [()]


def test_marks_within_three_tenths_of_a_millimetre_are_one() -> None:
    shape = polyline((0, 0), (100, 0), (100, 60), (0, 60))
    spots = {"near": (30.0, 30.2, 30.25), "far": (60.0, 60.2, 60.5)}
    pieces = [
        hand_piece(shape, marks=[point_mark(spots["near"][at], 20, "near"), point_mark(spots["far"][at], 20, "far")])
        for at in range(3)
    ]
    assert [(mark.mark.name, mark.sizes) for mark in nest(*pieces).marks] == [
        ("near", ("S", "M", "L")),
        ("far", ("S", "M")),
        ("far", ("L",)),
    ]


def test_notches_of_two_sizes_at_one_spot_of_a_shared_line_are_one() -> None:
    marks = [notch(Point(40, 0), Point(40, 5)), notch(Point(40, 0), Point(40, 5)), notch(Point(42, 0), Point(42, 5))]
    pieces = [hand_piece(rectangle(100 + 10 * at, 60), marks=[mark]) for at, mark in enumerate(marks)]
    assert [mark.sizes for mark in nest(*pieces).marks] == [("S", "M"), ("L",)]


def stepped(*heights: float, depth: float = 4.0, double: bool = False) -> Nest:
    """Rectangles each higher than the one before, with a notch in the upper edge of each on one upright line."""
    return nest(
        *(
            hand_piece(rectangle(100, high), marks=[notch(Point(40, high), Point(40, high - depth), double=double)])
            for high in heights
        )
    )


@pytest.mark.parametrize("double", [False, True])
@pytest.mark.parametrize(
    ("apart", "sign", "depth"),
    [
        (9.0, NotchSign.LINE, 4.0),  # a notch ends further from the next line than it is deep
        (8.0, NotchSign.LINE, 4.0),
        (7.0, NotchSign.WEDGE, 3.5),  # half way to the next line
        (4.4, NotchSign.WEDGE, 2.2),
        (3.5, NotchSign.WEDGE, 2.0),  # 1.5 mm short of it
        (3.0, NotchSign.WEDGE, 2.0),  # a millimetre short of it
        (2.9, NotchSign.DOT, 1.9),  # too short to be seen
        (1.2, NotchSign.DOT, 0.6),
    ],
)
def test_notches_of_sizes_on_one_radius_cannot_be_taken_for_one_line(
    apart: float, sign: NotchSign, depth: float, double: bool
) -> None:
    heights = [60 + apart * at for at in range(3)]
    drawn = stepped(*heights, double=double).marks
    assert [mark.sign for mark in drawn] == [sign] * 3
    notches = [mark.mark for mark in drawn if isinstance(mark.mark, Notch)]
    assert [one.cut_end.y for one in notches] == heights
    assert [(one.cut_end - one.inner_end).length for one in notches] == pytest.approx([depth] * 3)


def test_the_smallest_room_decides_for_all_notches_of_a_name() -> None:
    assert {mark.sign for mark in stepped(60, 80, 83.5).marks} == {NotchSign.WEDGE}
    assert {mark.sign for mark in stepped(60, 80, 82).marks} == {NotchSign.DOT}


def test_a_shallow_notch_is_no_shallower_among_lines_that_leave_it_room() -> None:
    # Half of a 3 mm allowance.
    (first, *_) = stepped(60, 62.6, depth=1.5).marks
    assert first.sign is NotchSign.WEDGE
    assert isinstance(first.mark, Notch)
    assert (first.mark.cut_end - first.mark.inner_end).length == pytest.approx(1.5)


def test_lines_on_one_another_are_the_longest_of_them() -> None:
    pieces = [
        hand_piece(
            rectangle(wide, 60),
            marks=[LineMark("fold", "fold line", Point(0.0, 20.0), Point(wide, 20.0), "wrong side", (), HERE)],
        )
        for wide in (100.0, 110.0)
    ]
    (fold,) = nest(*pieces).marks
    assert isinstance(fold.mark, LineMark)
    assert (fold.mark.end.x, fold.sizes) == (110.0, ("S", "M"))
