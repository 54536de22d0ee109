"""Edges that are curves: by handles, through points, about a centre, through a point, running on from their neighbour."""

import math

import pytest
from scipy.integrate import quad

from publisher.geometry import Arc, Cubic, Path
from tests.specimens import draft_text, found, pattern_line

# A tile whose upper edge is told by the case, from the upper right to the upper left corner.
TILE = """
pieces:
  tile:
    outline:
      points:
        a: 0 cm, 0 cm
        b: 20 cm, 0 cm
        c: 20 cm, 10 cm
        d: 0 cm, 10 cm
        low: 10 cm, 0 cm
        high: 10 cm, 14 cm
        first: 16 cm, 15 cm
        second: 4 cm, 15 cm
        ahead: 20 cm, 12 cm
      edges:
        base: line from a to b
        right: line from b to c
        crown: {crown}
        left: line from d to a
    copies:
      only: canvas
"""


def crown(said: str) -> Path:
    draft, findings = draft_text(TILE.format(crown=said))
    assert [finding for finding in findings if draft.variant in finding.variants] == []
    return draft.piece("tile").edge("crown").path


def test_a_curve_by_two_handles() -> None:
    path = crown("curve from c to d by first and second")
    (cubic,) = path.segments
    assert isinstance(cubic, Cubic)
    # Its middle is (c + 3·first + 3·second + d) / 8, its length that of SciPy's quadrature of the speed.
    middle = cubic.at(0.5)
    assert (middle.x, middle.y) == pytest.approx((100, (100 + 450 + 450 + 100) / 8))
    speed = quad(lambda t: cubic.speed_at(t).length, 0, 1, epsabs=1e-10)[0]
    assert path.length == pytest.approx(speed, abs=1e-6)


def test_a_smooth_curve_passes_its_points_without_a_corner() -> None:
    path = crown("smooth curve from c to d by first and high and second")
    assert len(path.segments) == 4
    spots = [(round(segment.end.x, 6), round(segment.end.y, 6)) for segment in path.segments]
    assert spots == [(160, 150), (100, 140), (40, 150), (0, 100)]
    for before, after in zip(path.segments, path.segments[1:], strict=False):
        turn = before.direction_at(before.length).cross(after.direction_at(0.0))
        assert turn == pytest.approx(0, abs=1e-6)


def test_a_smooth_curve_leaves_and_arrives_as_it_is_told() -> None:
    path = crown("smooth curve from c to d by high, leaving to ahead, arriving from second")
    start, end = path.direction_at(0.0), path.direction_at(path.length)
    assert (start.x, start.y) == pytest.approx((0, 1), abs=1e-6)
    way = math.hypot(40, 50)
    assert (end.x, end.y) == pytest.approx((-40 / way, -50 / way), abs=1e-6)


def test_an_arc_about_a_centre() -> None:
    """From (200, 100) to (0, 100) about (100, 0): a radius of √2 · 100 and a quarter of a turn."""
    (arc,) = crown("arc from c to d with centre low").segments
    assert isinstance(arc, Arc)
    assert (arc.radius, abs(arc.sweep)) == pytest.approx((100 * math.sqrt(2), math.pi / 2))


def test_an_arc_through_a_point() -> None:
    """200 mm of chord and 40 of rise: r = (c² / 4 + s²) / 2s = 145 mm."""
    (arc,) = crown("arc from c to d by high").segments
    assert isinstance(arc, Arc)
    assert arc.radius == pytest.approx((200**2 / 4 + 40**2) / 80)
    assert arc.point_at(arc.length / 2).y == pytest.approx(140)


def test_an_arc_that_runs_on_from_the_edge_before_it() -> None:
    """The right side runs straight up, so the arc to the other side is half a circle."""
    path = crown("arc from c to d, tangent")
    assert path.length == pytest.approx(100 * math.pi)
    start = path.direction_at(0.0)
    assert (start.x, start.y) == pytest.approx((0, 1), abs=1e-9)


def test_the_cut_line_of_a_curve_lies_the_allowance_away() -> None:
    """Every spot of the cut line beside the curve is 10 mm from it, within 0.01 mm (checked by dense spots)."""
    draft, _ = draft_text(TILE.format(crown="curve from c to d by first and second"))
    piece = draft.piece("tile")
    spots = list(piece.edge("crown").path.flattened(0.0005))
    beyond = [point for point in piece.cut_line.flattened(0.01) if point.y > 112 and 10 < point.x < 190]
    assert len(beyond) > 20
    gaps = [min((spot - point).length for spot in spots) for point in beyond]
    assert max(abs(gap - 10) for gap in gaps) < 0.05  # dense spots stand a little apart
    assert sum(isinstance(segment, Cubic) for segment in piece.cut_line.segments) <= 8


def test_a_corner_beside_a_curve_is_rounded() -> None:
    pattern = TILE.format(crown="curve from c to d by first and second").replace(
        "    copies:", "      round:\n        c: 1 cm\n    copies:"
    )
    draft, findings = draft_text(pattern)
    assert [finding for finding in findings if draft.variant in finding.variants] == []
    piece = draft.piece("tile")
    (arc,) = piece.edge("c").path.segments
    assert isinstance(arc, Arc)
    assert arc.radius == pytest.approx(10)
    around = piece.finished_line
    for before, after in zip(around.segments, around.segments[1:], strict=False):
        assert (before.end - after.start).length < 1e-6


@pytest.mark.parametrize(
    ("said", "name", "says"),
    [
        ("curve from c to d by first", "unreadable", "1 is named"),
        ("curve from c to d by first and second and high", "unreadable", "3 are named"),
        ("curve from c to d by first and third", "no-such-point", "'third'"),
        ("arc from c to d with centre a", "arc-does-not-fit", "no arc has both"),
        ("arc from c to d by nowhere", "no-such-point", "'nowhere'"),
        ("smooth curve from c to d by c", "arc-does-not-fit", "lie on one spot"),
    ],
)
def test_a_curve_that_cannot_be_is_told(said: str, name: str, says: str) -> None:
    pattern = TILE.format(crown=said)
    finding = found(draft_text(pattern)[1], name)
    assert says in finding.says
    assert finding.place.line == pattern_line(pattern, said)


def test_a_curve_tighter_than_its_allowance_is_told_with_its_radius() -> None:
    """Hollow, with a radius of 5 mm at most: 10 mm of allowance do not fit in."""
    pattern = (
        TILE.format(crown="curve from c to d by first and second")
        .replace("first: 16 cm, 15 cm", "first: 9 cm, -5 cm")
        .replace("second: 4 cm, 15 cm", "second: 11 cm, -5 cm")
    )
    names = {finding.name for finding in draft_text(pattern)[1]}
    assert names & {"curve-too-tight", "outline-crosses-itself", "allowance-crosses-itself"}
