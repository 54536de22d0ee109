"""What lies of a path inside a box, in as few lines as can be seen."""

import math

import pytest

from publisher.geometry import Arc, Box, Path, Point, stretches_within
from tests.hand_pieces import polyline, rectangle


def test_a_path_inside_stays_whole_and_one_outside_is_nothing() -> None:
    square = rectangle(10, 10)
    (whole,) = stretches_within(square, Box(-1, -1, 11, 11), 0.1)
    assert whole.closed
    assert whole.length == pytest.approx(40)
    assert stretches_within(square, Box(20, 20, 30, 30), 0.1) == ()


def test_a_closed_path_that_begins_inside_gives_one_stretch() -> None:
    # The corner where the square begins lies in the box: 5 mm of each side meet there.
    (corner,) = stretches_within(rectangle(10, 10), Box(-5, -5, 5, 5), 0.1)
    assert corner.length == pytest.approx(10)
    assert sorted([(corner.start.x, corner.start.y), (corner.end.x, corner.end.y)]) == [(0, 5), (5, 0)]


def test_a_path_that_leaves_and_comes_back_gives_each_stretch() -> None:
    stretches = stretches_within(rectangle(10, 10), Box(2, -5, 8, 15), 0.1)
    assert sorted(stretch.start.y for stretch in stretches) == [0, 10]
    assert [stretch.length for stretch in stretches] == pytest.approx([6, 6])


def test_a_circle_keeps_within_the_tolerance_with_few_lines() -> None:
    circle = Path((Arc(Point(100, 0), Point(100, 0), Point(0, 0), 2 * math.pi),))
    (drawn,) = stretches_within(circle, Box(-200, -200, 200, 200), 1.0)
    # A chord that lies 1 mm within a circle of 100 mm spans 2 acos(0.99) = 16.2 degrees: 23 chords at least.
    assert 16 <= len(drawn.segments) <= 64
    for segment in drawn.segments:
        assert 99 <= segment.point_at(segment.length / 2).length <= 100.5


def test_a_chain_of_short_lines_becomes_one() -> None:
    chain = polyline(*((x, 0) for x in range(100)), (99, 50), (0, 50))
    (drawn,) = stretches_within(chain, Box(-1, -1, 100, 60), 0.1)
    assert len(drawn.segments) == 4
