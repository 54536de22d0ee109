"""Drawings of every unit, viewBox and transform, with boxes worked out by hand and by a general-purpose library."""

import math

import pytest

from publisher.drawings import read_drawing
from publisher.terms import Severity
from tests.drawings.specimens import FILE, box_by_svgelements, drawing, faults, kinds, outline, rounded, svg

R = '<rect id="lid" x="10" y="20" width="30" height="40"/>'
Row = tuple[str, str, tuple[float, float, float, float]]
# What is drawn, the head of the file, and left, bottom, right, top in mm from the lower left corner of the drawing.
TABLE: dict[str, Row] = {
    "a unit is a millimetre": (R, 'width="100mm" height="100mm" viewBox="0 0 100 100"', (10, 40, 40, 80)),
    "centimetres": (R, 'width="10cm" height="10cm" viewBox="0 0 100 100"', (10, 40, 40, 80)),
    "inches": (R, 'width="10in" height="10in" viewBox="0 0 100 100"', (25.4, 101.6, 101.6, 203.2)),
    "points": (R, 'width="720pt" height="720pt" viewBox="0 0 100 100"', (25.4, 101.6, 101.6, 203.2)),
    "picas": (R, 'width="60pc" height="60pc" viewBox="0 0 100 100"', (25.4, 101.6, 101.6, 203.2)),
    "pixels, 96 to the inch": (R, 'width="960px" height="960px" viewBox="0 0 100 100"', (25.4, 101.6, 101.6, 203.2)),
    "no viewBox: 96 units to the inch": (
        '<rect id="lid" x="96" y="0" width="96" height="48"/>',
        'width="100mm" height="50.8mm"',
        (25.4, 38.1, 50.8, 50.8),
    ),
    "lengths with units inside": (
        '<rect id="lid" x="1cm" y="0" width="1in" height="72pt"/>',
        'width="100mm" height="50mm"',
        (10, 24.6, 35.4, 50),
    ),
    "per cent of the viewBox": (
        '<rect id="lid" x="10%" y="20%" width="30%" height="40%"/>',
        'width="200mm" height="100mm" viewBox="0 0 400 200"',
        (20, 40, 80, 80),
    ),
    "a viewBox that begins elsewhere": (R, 'width="100mm" height="100mm" viewBox="-10 -20 100 100"', (20, 20, 50, 60)),
    "a wide page: in the middle": (R, 'width="200mm" height="100mm" viewBox="0 0 100 100"', (60, 40, 90, 80)),
    "a wide page: to the left": (
        R,
        'width="200mm" height="100mm" viewBox="0 0 100 100" preserveAspectRatio="xMinYMid"',
        (10, 40, 40, 80),
    ),
    "a wide page: filled": (
        R,
        'width="200mm" height="100mm" viewBox="0 0 100 100" preserveAspectRatio="xMidYMax slice"',
        (20, 80, 80, 160),
    ),
    "a wide page: stretched": (
        R,
        'width="200mm" height="100mm" viewBox="0 0 100 100" preserveAspectRatio="none"',
        (20, 40, 80, 80),
    ),
    "moved": (f'<g transform="translate(5,-5)">{R}</g>', "", (15, 45, 45, 85)),
    "enlarged about the origin": (f'<g transform="scale(.5)">{R}</g>', "", (5, 70, 20, 90)),
    "scaled unevenly": (f'<g transform="scale(2 1)">{R}</g>', "", (20, 40, 80, 80)),
    "a quarter turn about a point": (f'<g transform="rotate(90 10 20)">{R}</g>', "", (-30, 50, 10, 80)),
    "skewed across": (f'<g transform="skewX(45)">{R}</g>', "", (30, 40, 100, 80)),
    "skewed up": (f'<g transform="skewY(45)">{R}</g>', "", (10, 0, 40, 70)),
    "a matrix": (f'<g transform="matrix(0 1 -1 0 100 0)">{R}</g>', "", (40, 60, 80, 90)),
    "several in a row, the last one first": (
        f'<g transform="translate(10) scale(2),translate(-5)">{R}</g>',
        "",
        (20, -20, 80, 60),
    ),
    "within one another": (
        f'<g transform="translate(10,0)"><g transform="scale(2)"><a transform="translate(-5,0)">{R}</a></g></g>',
        "",
        (20, -20, 80, 60),
    ),
    "a drawing within": (
        f'<svg x="10" y="10" width="50" height="50" viewBox="0 0 100 100">{R}</svg>',
        "",
        (15, 60, 30, 80),
    ),
    "a drawing within, without a viewBox": (
        f'<svg x="10" y="10" width="50" height="50">{R}</svg>',
        "",
        (20, 30, 50, 70),
    ),
    "used": (
        '<defs><rect id="r" x="10" y="20" width="30" height="40"/></defs><use id="lid" xlink:href="#r" x="5" y="1"/>',
        "",
        (15, 39, 45, 79),
    ),
    "used and turned": (
        '<defs><rect id="r" x="10" y="20" width="30" height="40"/></defs>'
        '<use id="lid" href="#r" x="5" transform="rotate(180 50 50)"/>',
        "",
        (55, 20, 85, 60),
    ),
    "a symbol, at a size": (
        '<symbol id="s" viewBox="0 0 10 10"><rect width="10" height="5"/></symbol>'
        '<use id="lid" href="#s" x="10" y="10" width="40" height="40"/>',
        "",
        (10, 70, 50, 90),
    ),
    "circle": ('<circle id="lid" cx="50" cy="40" r="10"/>', "", (40, 50, 60, 70)),
    "ellipse": ('<ellipse id="lid" cx="50" cy="40" rx="20" ry="10"/>', "", (30, 50, 70, 70)),
    "polygon": ('<polygon id="lid" points="0,0 10,0 10-20"/>', "", (0, 100, 10, 120)),
    "closed polyline": ('<polyline id="lid" points="0 0 10 0 10 20 0 0"/>', "", (0, 80, 10, 100)),
    "path, capitals": ('<path id="lid" d="M10,10 H40 V30 L10 30 Z"/>', "", (10, 70, 40, 90)),
    "path, small letters": ('<path id="lid" d="m10 10h30v20l-30 0z"/>', "", (10, 70, 40, 90)),
    "smooth curves": ('<path id="lid" d="M0 0C0 10 20 10 20 0S40-10 40 0L40 20 0 20z"/>', "", (0, 80, 40, 107.5)),
    "quadratics": ('<path id="lid" d="M0 20Q10 0 20 20T40 20L40 40 0 40z"/>', "", (0, 60, 40, 90)),
    "arcs whose flags touch": (
        '<path id="lid" d="M0 20a10 10 0 0120 0a10 10 0 0 120 0l0 20h-40z"/>',
        "",
        (0, 60, 40, 90),
    ),
}
# It gives a use the id of what is used, and shifts a drawing within only where that has a viewBox (SVG 1.1, §7.9: always).
NO_ORACLE = {"used", "used and turned", "a symbol, at a size", "a drawing within, without a viewBox"}


@pytest.mark.parametrize("name", TABLE)
def test_boxes(name: str) -> None:
    body, head, expected = TABLE[name]
    head = head or 'width="100mm" height="100mm" viewBox="0 0 100 100"'
    drawn = outline(body, head)
    assert rounded(drawn.path.box) == pytest.approx(expected, abs=1e-3)
    if name not in NO_ORACLE:
        assert rounded(drawn.path.box) == pytest.approx(rounded(box_by_svgelements(svg(body, head))), abs=2e-3)


@pytest.mark.parametrize(
    ("shape", "drawn", "length"),
    [
        ('<circle id="lid" cx="50" cy="50" r="20"/>', "AAAA", 40 * math.pi),
        ('<circle id="lid" r="10" transform="translate(50 50) rotate(20) scale(-2 2)"/>', "AAAA", 40 * math.pi),
        ('<ellipse id="lid" rx="10" ry="20" transform="translate(50 50) scale(2 1)"/>', "AAAA", 40 * math.pi),
        ('<rect id="lid" x="1" y="1" width="60" height="40" rx="10"/>', "ALALALAL", 120 + 20 * math.pi),
        ('<rect id="lid" width="40" height="40" ry="100"/>', "AAAA", 40 * math.pi),  # at most half a side
        ('<path id="lid" d="M10 10A30 30 0 0 1 70 10z"/>', "LA", 60 + 30 * math.pi),
        ('<path id="lid" d="M10 10A1 1 0 0 1 70 10z"/>', "LA", 60 + 30 * math.pi),  # a radius too small is enlarged
        ('<path id="lid" d="M10 10A0 5 0 0 1 70 10L40 50z"/>', "LLL", 160),  # of nought: a line
        ('<path id="lid" d="M10 50A30 30 0 1 1 40 80z"/>', "LA", 30 * math.sqrt(2) + 45 * math.pi),
        ('<path id="lid" d="M0 0C10 0 20 0 30 0L30 40z"/>', "LLL", 120),  # straight in all but name
    ],
)
def test_arcs_stay_arcs(shape: str, drawn: str, length: float) -> None:
    path = outline(shape).path
    assert sorted(kinds(path)) == sorted(drawn)
    assert path.length == pytest.approx(length, abs=1e-6)


def test_an_ellipse_under_skewed_axes_is_within_a_thousandth() -> None:
    """x = 50 + 30 cos t + 10 sin t, y = 50 + 10 sin t (up 50 − …): every point of it fulfils its equation."""
    path = outline('<circle id="lid" r="10" transform="translate(50 50) matrix(3 0 1 1 0 0)"/>').path
    assert set(kinds(path)) == {"C"}
    for point in path.flattened(0.001):
        sine = (50 - point.y) / 10
        cosine = (point.x - 50 - 10 * sine) / 30
        off = math.hypot(sine, cosine) - 1
        assert abs(off) * 32 < 1e-3


def test_a_large_ellipse_is_within_a_thousandth() -> None:
    path = outline(
        '<ellipse id="lid" cx="900" cy="900" rx="900" ry="450"/>',
        'width="2000mm" height="2000mm" viewBox="0 0 2000 2000"',
    ).path
    for point in path.flattened(0.001):
        assert abs(math.hypot((point.x - 900) / 900, (point.y - 1100) / 450) - 1) * 900 < 1e-3


def test_outlines_run_counter_clockwise_whichever_way_they_are_drawn() -> None:
    there = outline('<path id="lid" d="M0 0H30V20z"/>')
    back = outline('<path id="lid" d="M0 0L30 20 30 0z"/>')
    assert {(point.x, point.y) for point in (joint.point for joint in there.joints)} == {(0, 100), (30, 100), (30, 80)}
    assert [joint.point for joint in there.joints] == [joint.point for joint in back.joints]
    assert (there.path.start.x, there.path.start.y) == (0, 100)


@pytest.mark.parametrize(
    "head",
    [
        'viewBox="0 0 100 100"',
        'width="100" height="100" viewBox="0 0 100 100"',
        'width="100" height="100"',
        'width="100px" viewBox="0 0 100 100"',
        'width="100%" height="100%" viewBox="0 0 100 100"',
        'width="auto" height="auto" viewBox="0 0 100 100"',
        'width="100mm"',
        "",
    ],
)
def test_a_size_that_can_be_understood_in_two_ways(head: str) -> None:
    (fault,) = faults(R, head)
    assert (fault.name, str(fault.place)) == ("ambiguous-size", f"{FILE}:1:1")
    assert "its true size cannot be known" in fault.says
    assert "in mm, cm or in" in fault.mend


@pytest.mark.parametrize(
    ("head", "size"),
    [
        ('width="100mm" viewBox="0 0 50 100"', (100, 200)),
        ('height="100mm" viewBox="0 0 50 100"', (50, 100)),
        ('width="100mm" height="auto" viewBox="0 0 50 100"', (100, 200)),
        ('width="10cm" height="378" viewBox="0 0 100 100"', (100, 100.0125)),
        ('width=" 4IN " height="4in"', (101.6, 101.6)),
    ],
)
def test_a_size_of_which_one_side_is_stated(head: str, size: tuple[float, float]) -> None:
    read = drawing(R, head)
    assert (read.width, read.height) == pytest.approx(size)


def test_a_size_in_pixels_is_read_and_told() -> None:
    read, (told,) = read_drawing(svg(R, 'width="960px" height="480px"'), FILE)
    assert read is not None
    assert (told.name, told.severity) == ("size-in-pixels", Severity.WARNING)
    assert "254.0 by 127.0 mm" in told.says


@pytest.mark.parametrize(("fit", "taken"), [("", "lesser"), ("none", "both"), ("xMidYMid slice", "greater")])
def test_a_width_and_height_out_of_proportion_are_told(fit: str, taken: str) -> None:
    head = f'width="200mm" height="100mm" viewBox="0 0 100 100" preserveAspectRatio="{fit or "xMidYMid"}"'
    read, (told,) = read_drawing(svg(R, head), FILE)
    assert read is not None
    assert told.name == "uneven-scale"
    assert "2 mm across and 1 mm up" in told.says
    assert taken in told.says


@pytest.mark.parametrize(
    ("head", "name"),
    [
        ('width="0mm" height="100mm"', "zero-size"),
        ('width="100mm" height="100mm" viewBox="0 0 0 100"', "zero-size"),
        ('width="100mm" viewBox="0 0 100 0"', "ambiguous-size"),
        ('width="100m" height="100mm"', "bad-drawing"),
        ('width="10em" height="100mm"', "bad-drawing"),
        ('width="-10mm" height="100mm"', "bad-drawing"),
        ('width="1e7mm" height="100mm"', "too-much"),
        ('width="100mm" height="100mm" viewBox="0 0 100"', "bad-drawing"),
        ('width="100mm" height="100mm" viewBox="0 0 100 100" preserveAspectRatio="left"', "bad-drawing"),
    ],
)
def test_sizes_that_cannot_be(head: str, name: str) -> None:
    assert [fault.name for fault in faults(R, head)] == [name]
