"""How far one outline reaches beyond another, worked out by hand."""

import itertools

import pytest

from publisher.geometry import Line, Path, Point, reach_beyond


def square(left: float, bottom: float, side: float) -> Path:
    spots = [Point(left + x * side, bottom + y * side) for x, y in ((0, 0), (1, 0), (1, 1), (0, 1), (0, 0))]
    return Path(tuple(Line(one, other) for one, other in itertools.pairwise(spots)))


@pytest.mark.parametrize(
    ("left", "bottom", "beyond"),
    [(2, 2, 0.0), (7, 2, 2.0), (-1, 2, 1.0), (8, 9, 5.0), (0, 0, 0.0)],  # the corner of (8, 9) lies 3 right and 4 above
)
def test_reach_beyond_a_square_of_ten(left: float, bottom: float, beyond: float) -> None:
    assert reach_beyond(square(left, bottom, 5), square(0, 0, 10)) == pytest.approx(beyond)
