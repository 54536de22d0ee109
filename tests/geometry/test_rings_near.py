"""Rings where they are placed: which two lie nearer than a gap."""

import pytest

from publisher.geometry import rings_near

SQUARE = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))
WEDGE = ((0.0, 0.0), (10.0, 0.0), (10.0, 4.0))
BOW = ((0.0, 0.0), (10.0, 10.0), (10.0, 0.0), (0.0, 10.0))


@pytest.mark.parametrize(
    ("placed", "near"),
    [
        ([(0, 0, 0.0, 0.0), (0, 0, 13.0, 0.0)], ()),
        ([(0, 0, 0.0, 0.0), (0, 0, 12.9, 0.0)], ((0, 1),)),
        ([(0, 0, 0.0, 0.0), (0, 0, 12.99, 0.0)], ()),  # within the slack
        ([(0, 0, 0.0, 0.0), (1, 0, 13.0, 0.0), (0, 0, 30.0, 0.0), (0, 0, 35.0, 0.0)], ((2, 3),)),
        # Turned by half a turn the wedge lies left of and below the origin: from 3 to 13 and from 9 to 13.
        ([(0, 0, 0.0, 13.0), (1, 2, 13.0, 13.0)], ((0, 1),)),
        # By a quarter turn from -4 to 0 and from 0 to 10.
        ([(0, 0, 0.0, 0.0), (1, 1, 17.0, 0.0)], ()),
        ([(0, 0, 0.0, 0.0), (1, 1, 16.0, 0.0)], ((0, 1),)),
        ([], ()),
    ],
)
def test_what_is_too_near(placed: list[tuple[int, int, float, float]], near: tuple[tuple[int, int], ...]) -> None:
    assert rings_near([SQUARE, WEDGE], placed, 3.0) == near


def test_without_a_gap_they_may_touch() -> None:
    assert rings_near([SQUARE], [(0, 0, 0.0, 0.0), (0, 0, 10.0, 0.0)], 0.0) == ()
    assert rings_near([SQUARE], [(0, 0, 0.0, 0.0), (0, 0, 9.9, 0.0)], 0.0) == ((0, 1),)


def test_one_that_crosses_itself_is_near_to_itself() -> None:
    assert (1, 1) in rings_near([SQUARE, BOW], [(0, 0, 0.0, 0.0), (1, 0, 50.0, 0.0)], 3.0)
