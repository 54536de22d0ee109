"""Published lengths of cloth that our rules cover: the same pieces on other widths, many of one thing, strips for a frill."""

import pytest

from publisher.cloth import cut_for_many, plan_cloth
from publisher.cloth.shelves import Rectangle, arrange_in_rows
from publisher.cloth.strip_plans import join_loss, strips_needed
from tests.specimens import draft_text

YARD = 914.4
NAIL = YARD / 16

# The fabric width conversion table, 35/36 to 66 inches, commonly credited to a US Cooperative Extension Service (read in
# a bulletin board's copy): widths in inches, and yards of each. It is a buying estimate, by area right to a tenth.
WIDTHS = (36, 39, 41, 45, 50, 54, 60, 66)
YARDS = [
    (1.75, 1.5, 1.5, 1.375, 1.25, 1.125, 1.0, 0.875),
    (2.25, 2.0, 2.0, 1.75, 1.625, 1.5, 1.375, 1.25),
    (2.875, 2.5, 2.5, 2.25, 2.0, 1.875, 1.75, 1.625),
    (3.375, 3.0, 2.875, 2.75, 2.375, 2.25, 2.0, 1.875),
    (4.25, 3.5, 3.375, 3.125, 2.75, 2.625, 2.375, 2.25),
    (4.75, 4.0, 3.875, 3.625, 3.25, 2.875, 2.75, 2.625),
]


@pytest.mark.parametrize("row", YARDS, ids=lambda row: f"{row[0]} yd")
def test_small_pieces_on_wider_cloth(row: tuple[float, ...]) -> None:
    """Squares of 1 1/2 in that fill the narrowest cloth: within a quarter yard of the table, or as far as it is itself from
    equal areas (10.8 per cent at most), and a row of squares."""
    count = 24 * round(row[0] * 24)
    squares = [Rectangle("square", nth, 1.5, 1.5) for nth in range(count)]
    for width, yards in zip(WIDTHS, row, strict=True):
        used = arrange_in_rows(squares, width, 0)[1] / 36
        assert used == pytest.approx(yards, abs=max(0.25, 0.108 * used + 1.5 / 36))


@pytest.mark.parametrize(
    ("breadths", "nails", "published"),
    [
        (2, 13, 26),  # a pinafore for a boy of eight: 1 yd 10 nails (lines 10226 to 10250)
        (4, 36, 144),  # a bed tick without sides: four breadths of 2 1/4 yd, nine yards (lines 15200 to 15206)
    ],
)
def test_breadths_of_the_whole_cloth(breadths: int, nails: float, published: float) -> None:
    """The Workwoman's Guide (1838, Project Gutenberg 75494)."""
    cut = [Rectangle("breadth", nth, 15.0, nails) for nth in range(breadths)]
    assert arrange_in_rows(cut, 15.0, 0)[1] == pytest.approx(published)


def test_six_of_a_thing_take_six_times_as_much() -> None:
    """The same, lines 3822 to 3830: one takes 3 yd 2 nails, six 18 yd 12 nails; and 2 yd 14 nails, 17 yd 4 nails."""
    for one, six in ((50, 300), (46, 276)):
        breadth = [Rectangle("breadth", 1, 16.0, float(one))]
        assert arrange_in_rows(breadth * 6, 16.0, 0)[1] == pytest.approx(six)


def test_many_of_one_pattern_leave_no_gap_but_the_cutting_room() -> None:
    """As above, drafted: 3 yd 2 nails by the cloth's whole width; six of them 18 yd 12 nails, and five gaps of 3 mm."""
    pattern = """\
    pieces:
      breadth:
        rectangle: 108 cm by 2857.5 mm
        allowance: 0
        copies:
          only: canvas
    """
    draft, findings = draft_text(pattern)
    assert not findings
    (one,), (six,) = (plan_cloth(cut_for_many(draft, times))[0].layouts for times in (1, 6))
    assert one.used_length == pytest.approx(50 * NAIL, abs=0.5)  # cut to whole millimetres
    assert six.used_length == pytest.approx(300 * NAIL + 5 * 3, abs=3)


@pytest.mark.parametrize(
    ("length", "width", "seam", "strips", "along", "published"),
    [
        # Dress Making, trade practical (National Instructional Media Institute, India, 2024), page 203: pleats of 236 cm
        # from cloth 90 cm wide, 2 cm for the seams of a strip: three strips of 15 cm, 45 cm of cloth.
        (2360, 900, 20, 3, 150, 450),
        # Page 212, exercise 2 (answer by the manual's own rule): a frill of 9.4 m from 1.19 m, 7.5 + 2 cm: eight, 76 cm.
        (9400, 1190, 0, 8, 95, 760),
    ],
)
def test_strips_across_the_cloth(
    length: float, width: float, seam: float, strips: int, along: float, published: float
) -> None:
    count = strips_needed(length, width, join_loss("straight", along, seam / 2))
    assert count == strips
    assert arrange_in_rows([Rectangle("strip", nth, width, along) for nth in range(count)], width, 0)[1] == published
