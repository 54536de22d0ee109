"""How much of some lines runs along others, with numbers that can be checked on paper."""

import pytest

from publisher.geometry import Line, Point, all_lines, length_beside


def line(*ends: float) -> Line:
    return Line(Point(ends[0], ends[1]), Point(ends[2], ends[3]))


@pytest.mark.parametrize(
    ("lines", "upright", "found"),
    [
        ([line(11, 0, 11, 40)], True, 40),  # beside it all the way
        ([line(13, 0, 13, 40)], True, 0),  # 3 mm away
        ([line(0, 20, 40, 20)], True, 0),  # square across it
        ([line(0, 0, 40, 40)], True, 0),  # slanting across it
        ([line(0, 0, 40, 40)], False, 0),
        ([line(0, 9, 40, 9), line(40, 9, 40, 50)], False, 37),  # along it, then 3 mm on until it is out of reach
        ([line(10, 0, 10, 20), line(10, 20, 10, 30)], True, 30),  # in two parts
    ],
)
def test_what_runs_within_two_millimetres_of_ten(lines: list[Line], upright: bool, found: float) -> None:
    assert length_beside(all_lines(lines), 10, upright, 2.0) == pytest.approx(found, abs=1e-6)
