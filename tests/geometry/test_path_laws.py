"""What no movement, no split and no turning over may change: length, area, and where a point lies."""

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from publisher.geometry import Cubic, Line, Movement, Path, Point, Segment, signed_area
from tests.geometry.curves import apart, arc, area_of, lines, mirrored, paths, places, segments
from tests.hand_pieces import polyline, rectangle, rounded

parts = st.floats(0.02, 0.98)
movements = st.builds(Movement, st.integers(-5, 5), places)


def closed(path: Path) -> Path:
    """The path with a line back to its start."""
    if apart(path.start, path.end) < 1e-3:
        return path
    return Path((*path.segments, Line(path.end, path.start)))


@given(paths())
def test_reversing_keeps_length_and_changes_the_sign_of_the_area(path: Path) -> None:
    assert path.reversed().length == pytest.approx(path.length, abs=1e-6)
    assert path.reversed().start == path.end
    assert path.reversed().reversed() == path
    whole = closed(path)
    assert signed_area(whole.reversed()) == pytest.approx(-signed_area(whole), abs=1e-5)


@given(paths(), movements)
def test_moving_keeps_length_and_area(path: Path, movement: Movement) -> None:
    assert path.moved(movement).length == pytest.approx(path.length, abs=1e-5)
    whole = closed(path)
    assert signed_area(whole.moved(movement)) == pytest.approx(signed_area(whole), abs=1e-4)


@given(paths())
def test_turning_over_keeps_length_and_the_size_of_the_area(path: Path) -> None:
    whole = closed(path)
    turned = Path(tuple(mirrored(segment) for segment in whole.segments))
    assert turned.length == pytest.approx(whole.length, abs=1e-5)
    assert signed_area(turned) == pytest.approx(-signed_area(whole), abs=1e-5)


@settings(deadline=None, max_examples=40)
@given(segments, parts)
def test_splitting_a_segment_keeps_its_length_and_its_place(segment: Segment, part: float) -> None:
    first, second = segment.split(segment.length * part)
    assert first.length == pytest.approx(segment.length * part, abs=1e-5)
    assert first.length + second.length == pytest.approx(segment.length, abs=1e-5)
    assert first.end == second.start
    assert apart(first.end, segment.point_at(segment.length * part)) < 1e-5
    assert (first.start, second.end) == (segment.start, segment.end)


@settings(deadline=None, max_examples=40)
@given(paths(), parts)
def test_splitting_a_path_keeps_length_and_area(path: Path, part: float) -> None:
    first, second = path.split(path.length * part)
    assert first.length == pytest.approx(path.length * part, abs=1e-4)
    assert first.length + second.length == pytest.approx(path.length, abs=1e-4)
    rejoined = Path((*first.segments, *second.segments))
    assert signed_area(closed(rejoined)) == pytest.approx(signed_area(closed(path)), abs=1e-2)


@pytest.mark.parametrize("distance", [-1, 0, 300, 301])
def test_a_path_is_not_split_at_its_ends(distance: float) -> None:
    with pytest.raises(ValueError, match="not inside"):
        polyline((0, 0), (75, 0), (75, 75), (0, 75)).split(distance)


def test_a_split_at_a_corner_leaves_no_crumb() -> None:
    first, second = polyline((0, 0), (75, 0), (75, 75), (0, 75)).split(150)
    assert [segment.length for segment in (*first.segments, *second.segments)] == [75, 75, 75, 75]


@given(paths())
def test_area_by_greens_theorem_is_what_shapely_measures(path: Path) -> None:
    whole = closed(path)
    # Chords of 2000 leave out at most perimeter × sagitta; Shapely's area of a ring is the size of the same integral.
    assert abs(signed_area(whole)) == pytest.approx(area_of(whole).area, abs=whole.length * 1e-3)


@pytest.mark.parametrize(
    ("path", "area"),
    [
        (rectangle(120, 50), 6000),
        (polyline((0, 0), (40, 0), (0, 30)), 600),
        (rounded(100, 60, 10), 6000 - (4 - math.pi) * 100),
        (Path((arc(Point(7, -3), 20, 1.0, 2 * math.pi),)), math.pi * 400),
        (Path((arc(Point(7, -3), 20, 1.0, -2 * math.pi),)), -math.pi * 400),
        # Under a parabola of width 30 and height 20, drawn as a cubic from right to left: two thirds of the box.
        (
            Path(
                (
                    Line(Point(0, 0), Point(30, 0)),
                    Cubic(Point(30, 0), Point(20, 80 / 3), Point(10, 80 / 3), Point(0, 0)),
                )
            ),
            400,
        ),
    ],
)
def test_areas_on_paper(path: Path, area: float) -> None:
    assert signed_area(path) == pytest.approx(area)


@given(lines(), movements)
def test_a_movement_is_its_quarter_turns_and_then_its_shift(line: Line, movement: Movement) -> None:
    spot = shapely.affinity.rotate(shapely.Point(line.end.x, line.end.y), 90 * movement.quarter_turns, origin=(0, 0))
    moved = line.moved(movement).end
    assert (moved.x, moved.y) == pytest.approx((spot.x + movement.shift.x, spot.y + movement.shift.y), abs=1e-6)
