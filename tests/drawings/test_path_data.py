"""Path data: the grammar by hand, curves against two general-purpose libraries."""

import math
from itertools import pairwise

import pytest
import svgelements
from fontTools.pens.areaPen import AreaPen
from fontTools.pens.boundsPen import BoundsPen
from fontTools.svgLib.path import parse_path
from hypothesis import given, settings
from hypothesis import strategies as st

from publisher.drawings.curves import mapped_segments
from publisher.drawings.numbers import BadValue
from publisher.drawings.path_data import EllipticArc, Subpath, read_path_data
from publisher.drawings.transforms import Matrix, read_transform
from publisher.geometry import Cubic, Line, Path, Point, signed_area
from tests.drawings.specimens import at_parameter

NUMBERS = st.floats(-200, 200).map(lambda value: round(value, 3))
PLAIN = Matrix()


def _path(subpath: Subpath) -> Path:
    return Path(mapped_segments(subpath.segments, PLAIN))


def _ends(text: str) -> list[tuple[float, float]]:
    """Where each segment of the only subpath ends."""
    (subpath,) = read_path_data(text)
    return [(one.end.x, one.end.y) for one in subpath.segments]


@pytest.mark.parametrize(
    ("text", "ends"),
    [
        ("M0 0 10 0 10 10", [(10, 0), (10, 10)]),
        ("m1 1 10 0 0 10", [(11, 1), (11, 11)]),
        ("M1 1H5h-2V7v1", [(5, 1), (3, 1), (3, 7), (3, 8)]),
        ("M.5.5.5-5", [(0.5, -5)]),
        ("M+1e1-1E-1L1.5.5", [(1.5, 0.5)]),
        ("M 0 , 0 L 10,0", [(10, 0)]),
        ("M0 0l1 1 2 2", [(1, 1), (3, 3)]),
        ("M0 0a5 5 0 0110 0 5 5 0 00-10 0", [(10, 0), (0, 0)]),
        ("M0 0A5 5 0 1,0,10,0", [(10, 0)]),
        ("M0 0q5 5 10 0t10 0 10 0", [(10, 0), (20, 0), (30, 0)]),
        ("M0 0c1 1 2 2 3 3s1 1 2 2", [(3, 3), (5, 5)]),
    ],
)
def test_commands(text: str, ends: list[tuple[float, float]]) -> None:
    assert [pytest.approx(end) for end in ends] == _ends(text)


def test_subpaths() -> None:
    """A Z goes back to the start; what follows without an M begins there."""
    first, second, third = read_path_data("M1 1h5v5z l-2 0 m10 10 h1")
    assert (first.closed, second.closed, third.closed) == (True, False, False)
    assert (second.start, second.segments[0].end) == (Point(1, 1), Point(-1, 1))
    assert (third.start, third.segments[0].end) == (Point(9, 11), Point(10, 11))


def test_smooth_curves_mirror_the_handle_before() -> None:
    (subpath,) = read_path_data("M0 0C0 5 5 10 10 10S20 5 20 0")
    second = subpath.segments[1]
    assert isinstance(second, Cubic)
    assert second.first_handle == Point(15, 10)
    (subpath,) = read_path_data("M0 0L10 10S20 5 20 0T30 0")
    second, third = subpath.segments[1:]
    assert isinstance(second, Cubic)
    assert isinstance(third, Cubic)
    assert second.first_handle == Point(10, 10)  # nothing before to mirror: where it stands
    assert third.first_handle == Point(20, 0)


def test_quadratics_are_raised_exactly() -> None:
    (subpath,) = read_path_data("M0 0Q30 60 60 0")
    assert subpath.segments == (Cubic(Point(0, 0), Point(20, 40), Point(40, 40), Point(60, 0)),)


@pytest.mark.parametrize(
    ("text", "where"),
    [
        ("L1 1", "sign 1 on: 'L1 1'"),
        ("10 10", "sign 1 on: '10 10'"),
        ("M0 0 L10", "its end"),
        ("M0 0 L10 10 garbage", "sign 13 on: 'garbage'"),
        ("M0 0 L nan 1", "sign 8 on: 'nan 1'"),
        ("M0 0 L 1,,2", "sign 10 on: ',2'"),
        ("M0 0 A5 5 0 2 1 10 0", "sign 13 on: '2 1 10 0'"),
        ("M0 0z5", "sign 6 on: '5'"),
        ("M0 0 ß 5 5", "sign 6 on: 'ß 5 5'"),
        ("M0 0 L1e999 0", "'1e999'"),
        ("M0 0 L" + "9" * 400, "beyond all bounds"),
        ("M0 0 A1e-12 5 0 0 1 10 0", "a radius of 1e-12"),
    ],
)
def test_what_cannot_be_read(text: str, where: str) -> None:
    with pytest.raises(BadValue, match=r".") as told:
        read_path_data(text)
    assert where in str(told.value)


@given(
    st.lists(
        st.tuples(st.sampled_from("LCQSTHV"), st.booleans(), st.lists(NUMBERS, min_size=6, max_size=6)),
        min_size=2,
        max_size=8,
    )
)
@settings(derandomize=True, deadline=None, max_examples=150)
def test_curves_against_fonttools(commands: list[tuple[str, bool, list[float]]]) -> None:
    """Area and box of random closed paths."""
    counts = {"L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2}
    words = [
        (letter.lower() if relative else letter) + " ".join(str(one) for one in numbers[: counts[letter]])
        for letter, relative, numbers in commands
    ]
    text = f"M10 10{''.join(words)}L10 10Z"
    (subpath,) = read_path_data(text)
    ours = Path(subpath.segments)  # type: ignore[arg-type]
    area, bounds = AreaPen(None), BoundsPen(None)
    parse_path(text, area)
    parse_path(text, bounds)
    box = ours.box
    assert (box.left, box.bottom, box.right, box.top) == pytest.approx(bounds.bounds, abs=1e-6)
    assert signed_area(ours) == pytest.approx(area.value, rel=1e-9, abs=1e-5)


@given(NUMBERS, NUMBERS, st.floats(1, 300), st.floats(1, 300), st.integers(0, 359), st.booleans(), st.booleans())
@settings(derandomize=True, deadline=None, max_examples=200)
def test_arcs_against_svgelements(
    x: float, y: float, rx: float, ry: float, turn: int, large: bool, positive: bool
) -> None:
    text = f"M10 20A{rx:.3f} {ry:.3f} {turn} {int(large)} {int(positive)} {x} {y}"
    chord = math.hypot(x - 10, y - 20)
    if chord < 0.5:
        return
    (subpath,) = read_path_data(text)
    (arc,) = subpath.segments
    assert isinstance(arc, EllipticArc)
    theirs = svgelements.Path(text)[1]
    for at in range(9):
        spot, other = arc.at(arc.begin + arc.sweep * at / 8), theirs.point(at / 8)
        assert (spot.x, spot.y) == pytest.approx((other.x, other.y), abs=1e-3)


@given(
    NUMBERS,
    NUMBERS,
    st.floats(1, 300),
    st.floats(1, 300),
    st.integers(0, 359),
    st.booleans(),
    st.booleans(),
    st.lists(st.floats(-3, 3), min_size=4, max_size=4),
)
@settings(derandomize=True, deadline=None, max_examples=150)
def test_arcs_under_any_map(
    x: float, y: float, rx: float, ry: float, turn: int, large: bool, positive: bool, entries: list[float]
) -> None:
    """Each point of what is drawn lies, mapped back, on the ellipse: within a thousandth of a millimetre."""
    a, b, c, d = entries
    bend = a * d - b * c
    if math.hypot(x - 10, y - 20) < 0.5 or abs(bend) < 0.5:
        return
    matrix = Matrix(a, b, c, d, 7, -3)
    (subpath,) = read_path_data(f"M10 20A{rx:.3f} {ry:.3f} {turn} {int(large)} {int(positive)} {x} {y}")
    (arc,) = subpath.segments
    assert isinstance(arc, EllipticArc)
    u, v, centre = matrix.way(arc.u), matrix.way(arc.v), matrix(arc.centre)
    length = 0.0
    for segment in mapped_segments(subpath.segments, matrix):
        length += segment.length
        for at in range(11):
            away = at_parameter(segment, at / 10) - centre
            along = Point(away.cross(v) / u.cross(v), u.cross(away) / u.cross(v))
            foot = u * (along.x / along.length) + v * (along.y / along.length)
            assert (away - foot).length < 1e-3
    chords = [matrix(arc.at(arc.begin + arc.sweep * at / 2000)) for at in range(2001)]
    assert length == pytest.approx(sum((q - p).length for p, q in pairwise(chords)), rel=1e-4)


@pytest.mark.parametrize(
    "text",
    [
        "translate(3)", "translate(3,4)", "scale(2)", "scale(2 -3)", "rotate(30)", "rotate(-90, 3, 4)", "skewX(20)",
        "skewY(-20)", "matrix(1 2 3 4 5 6)", "translate(1,2) rotate(45) scale(3)", " rotate( 10 ) , skewX(5)\n", "",
    ],
)  # fmt: skip
def test_transforms_against_svgelements(text: str) -> None:
    ours, theirs = read_transform(text), svgelements.Matrix(text)
    assert (ours.a, ours.b, ours.c, ours.d, ours.e, ours.f) == pytest.approx(
        (theirs.a, theirs.b, theirs.c, theirs.d, theirs.e, theirs.f)
    )


@pytest.mark.parametrize(
    "text",
    [
        "turn(3)",
        "rotate(1 2)",
        "rotate()",
        "scale(1 2 3)",
        "translate(1",
        "matrix(1 2 3)",
        "rotate(30deg)",
        "scale(nan)",
        "none",
    ],
)
def test_transforms_that_cannot_be_read(text: str) -> None:
    with pytest.raises(BadValue):
        read_transform(text)


def test_slips_of_the_pen_are_left_out() -> None:
    segments = mapped_segments(read_path_data("M0 0L10 0L10 0.00001L10 10")[0].segments, PLAIN)
    assert segments == (Line(Point(0, 0), Point(10, 0)), Line(Point(10, 0), Point(10, 10)))
