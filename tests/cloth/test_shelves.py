"""The plain arrangement in rows, against worked examples of an old handbook."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from publisher.cloth.kept import holds
from publisher.cloth.questions import length_of
from publisher.cloth.rows import in_rows
from publisher.cloth.shelves import Rectangle, TooWide, arrange_in_rows
from publisher.cloth.strip_plans import bias_length, bias_rounds, bias_square, join_loss, strips_needed
from tests.cloth.asking import asked, panel

NAIL = 2.25 * 25.4  # an old cloth measure: 1/16 yd

# The Workwoman's Guide (1838, Project Gutenberg 75494): pieces cut without turning, no seams, kinds in bands of
# their own; (cloth width, [(count, width, length)], published length), all in nails. Ids W01 … W13 of our list.
WORKWOMANS_GUIDE = [
    (16, [(12, 4, 6)], 18),
    (18, [(12, 4.5, 7)], 21),
    (15, [(12, 3.75, 6)], 18),
    (17, [(12, 4.25, 7)], 21),
    (16, [(4, 8, 5)], 10),
    (24, [(12, 8, 6), (12, 2, 8)], 32),
    (16, [(12, 4, 8), (12, 4, 6)], 42),
    (21, [(12, 1.75, 7), (12, 7, 9)], 43),
]


@pytest.mark.parametrize(("width", "kinds", "published"), WORKWOMANS_GUIDE)
def test_published_lengths(width: float, kinds: list[tuple[int, float, float]], published: float) -> None:
    rectangles = [
        Rectangle(f"kind {kind}", nth, across * NAIL, along * NAIL)
        for kind, (count, across, along) in enumerate(kinds)
        for nth in range(count)
    ]
    _, used = arrange_in_rows(rectangles, width * NAIL, gap=0)
    assert used == pytest.approx(published * NAIL)


sizes = st.floats(min_value=5, max_value=400)


@given(st.lists(st.tuples(sizes, sizes, st.booleans()), min_size=1, max_size=25), st.floats(min_value=0, max_value=8))
def test_rows_hold_everything_and_nothing_overlaps(boxes: list[tuple[float, float, bool]], gap: float) -> None:
    question = asked([panel(across, along, free=free) for across, along, free in boxes], 400, gap)
    answer = in_rows(question)
    assert holds(question, answer)
    assert length_of(question, answer) <= sum(max(across, along) + gap for across, along, _ in boxes)


def test_too_wide_is_told() -> None:
    with pytest.raises(TooWide, match="flag is 500 mm wide on cloth of 400 mm"):
        arrange_in_rows([Rectangle("flag", 1, 500, 450)], 400, 3)


def test_free_rectangle_is_turned_to_fit() -> None:
    (laid,), used = arrange_in_rows([Rectangle("flag", 1, 500, 300, free=True)], 400, 3)
    assert (laid.turned, laid.width, used) == (True, 300, 500)


def test_strips_joined_on_the_diagonal() -> None:
    """n = ⌈(L − w) / (W − w)⌉: the smallest n with n·W − (n − 1)·w ≥ L (derived, not published)."""
    for length, width, strip in [
        (2000, 1080, 50),
        (1080, 1080, 50),
        (2110, 1080, 50),
        (2111, 1080, 50),
        (9000, 1016, 63.5),
    ]:
        loss = join_loss("diagonal", strip, 10)
        assert loss == strip
        count = strips_needed(length, width, loss)
        assert count * width - (count - 1) * loss >= length - 1e-6
        assert count == 1 or (count - 1) * width - (count - 2) * loss < length
    with pytest.raises(ValueError, match="cloth is 40 mm wide"):
        strips_needed(500, 40, 50)


def test_a_straight_join_takes_both_its_allowances() -> None:
    """2·s a join (derived, not published): 3 strips of 1080 mm with 10 mm seams give 3240 − 40 = 3200."""
    loss = join_loss("straight", 50, 10)
    assert loss == 20
    assert strips_needed(3200, 1080, loss) == 3
    assert strips_needed(3201, 1080, loss) == 4


def test_a_bias_strip_from_a_square() -> None:
    """k = ⌊(a − 2s) / (√2·w)⌋ rounds of √2·(a − 2s), less w (derived); never above the bound (a − 2s)·a / w.

    By hand: a 500 mm square with 6 mm seams and 40 mm strips: 488 / 56.57 = 8.63, 8 rounds of 690.1 mm, 5481 mm.
    """
    assert bias_rounds(500, 40, 6) == 8
    assert bias_length(500, 40, 6) == pytest.approx(8 * 488 * 2**0.5 - 40)
    for length in (700, 2500, 5481, 9000):
        side = bias_square(length, 40, 6, 10)
        assert bias_length(side, 40, 6) >= length > bias_length(side - 10, 40, 6)
        assert bias_length(side, 40, 6) <= (side - 12) * side / 40
        # The rule of thumb √(L·w) (a soft-furnishing class's forum, read there) promises more than the cloth holds.
        assert side > (length * 40) ** 0.5


# Strip width and what it takes along the selvage, inches: Baldt, Clothing for Women (1916, year from memory), the table
# for true bias as far as it was read; printed to the nearest eighth, one row most of an eighth low.
ALONG_SELVAGE = [
    (1.5, 2.125),
    (2.5, 3.5),
    (3.5, 5.0),
    (4.5, 6.375),
    (5.5, 7.75),
    (6.5, 9.125),
    (7.5, 10.625),
    (8.5, 12.0),
]


@pytest.mark.parametrize(("strip", "along"), ALONG_SELVAGE)
def test_bias_strips_take_what_the_table_says_along_the_selvage(strip: float, along: float) -> None:
    off = 0.65 / 8
    assert bias_rounds(4 * (along + off), strip, 0) == 4
    assert bias_rounds(4 * (along - off), strip, 0) <= 4


def test_the_rule_of_area_promises_more_than_a_square_gives() -> None:
    """A 20 in square in 2 in strips: the rule of area (a UK soft-furnishings class) says 200 in. Ours says 163.5 in, for
    two seams of 1/4 in are lost and only whole rounds count: 19.5 / 2.83 = 6.9, 6 rounds of 27.6 in, less 2 in."""
    assert 20 * 20 / 2 == 200
    assert bias_length(20, 2, 0.25) == pytest.approx(163.46, abs=0.01)
