"""Outlines: corners, stretches by the ids of their elements, and what is told of a drawing that is no outline."""

import math

import pytest

from publisher.drawings import outline_of
from publisher.terms import Place, Written
from tests.drawings.specimens import FILE, HEAD, drawing, faults, kinds, outline


def test_corners_of_a_lid() -> None:
    """Two square corners below, two rounded ones above; up is less in the file. Drawn clockwise, told the other way."""
    lid = outline('<path id="lid" d="M10 80V30A20 20 0 0 1 30 10H70A20 20 0 0 1 90 30V80Z"/>')
    assert kinds(lid.path) == "LLALAL"
    assert [(round(one.point.x), round(one.point.y)) for one in lid.joints] == [
        (10, 20), (90, 20), (90, 70), (70, 90), (30, 90), (10, 70),
    ]  # fmt: skip
    assert [(round(one.point.x), round(one.point.y)) for one in lid.corners] == [(10, 20), (90, 20)]
    assert [one.turn for one in lid.corners] == pytest.approx([math.pi / 2, math.pi / 2])
    assert lid.path.length == pytest.approx(80 + 50 + 50 + 40 + 20 * math.pi)
    assert lid.path.closed


def test_a_group_of_edges_in_any_order_and_direction() -> None:
    """Each edge an element with an id; the outline runs counter-clockwise from where the first one leads."""
    lid = outline(
        '<g id="lid">'
        '<path id="back edge" d="M10 80H90"/>'
        '<line id="left edge" x1="10" y1="30" x2="10" y2="80"/>'
        '<path id="front edge" d="M90 30A40 40 0 0 0 10 30"/>'
        '<polyline id="right edge" points="90,30 90,80"/>'
        '<text id="words">Lid</text>'
        "</g>"
    )
    assert [one.id for one in lid.stretches] == ["back edge", "right edge", "front edge", "left edge"]
    for one, following in zip(lid.stretches, (*lid.stretches[1:], lid.stretches[0]), strict=True):
        assert one.path.end == following.path.start
    assert lid.stretches[2].path.length == pytest.approx(40 * math.pi)
    assert lid.stretches[0].place.line == 2


def test_ends_that_nearly_meet_are_one() -> None:
    lid = outline('<g id="lid"><path d="M0 0H50"/><path d="M50.004 0.003V40"/><path d="M50 40L0.001 0"/></g>')
    for one, following in zip(lid.path.segments, (*lid.path.segments[1:], lid.path.segments[0]), strict=True):
        assert one.end == following.start
    closed = outline('<path id="lid" d="M0 0H50V40L0.004 0.002z"/>')
    assert kinds(closed.path) == "LLL"
    assert kinds(outline('<path id="lid" d="M0 0H50V40L0.004 0.002"/>').path) == "LLL"


def test_small_circles_and_crosses_name_the_joints_they_lie_on() -> None:
    lid = outline(
        '<symbol id="cross"><path d="M-2 0h4M0-2v4"/></symbol>'
        '<g id="lid"><rect x="10" y="10" width="60" height="40"/>'
        '<circle id="top left" cx="10" cy="10" r="2"/>'
        '<path id="top right" d="M68 10h4M70 8v4"/>'
        '<g id="low right"><path id="path7" d="M68 50h4"/><path id="path8" d="M70 48v4"/></g>'
        '<use id="low left" href="#cross" x="10.3" y="50"/>'
        '<path id="grain" d="M20 20V40"/></g>'
    )
    assert [one.id for one in lid.corners] == ["top left", "low left", "low right", "top right"]


def test_stretches_of_copies_bear_the_id_of_the_use() -> None:
    lid = outline(
        '<defs><g id="half"><path id="inner" d="M0 0V40"/></g></defs>'
        '<g id="lid"><use id="left edge" href="#half"/><use id="right edge" href="#half" x="30"/>'
        '<path id="top" d="M0 0H30"/><path d="M0 40H30"/></g>'
    )
    assert {one.id for one in lid.stretches} == {"left edge", "right edge", "top", None}


def test_what_is_hidden_or_no_line_is_passed_over() -> None:
    lid = outline(
        '<g id="lid"><g style="fill:none; display : none"><rect width="5" height="50"/></g>'
        '<image href="http://x.example/photo.png" width="50" height="50"/><script>alert(1)</script>'
        '<foreignObject><p xmlns="http://www.w3.org/1999/xhtml">Lid</p></foreignObject>'
        '<rect width="30" height="30" style="stroke:#000;text-transform:none;transform: none"/></g>'
    )
    assert kinds(lid.path) == "LLLL"


@pytest.mark.parametrize(
    ("body", "name", "says"),
    [
        ('<path id="lid" d="M0 0H50V40"/>', "outline-open", "a gap of 64.03 mm, 50 mm from the left and 40 mm from the top"),
        ('<path id="lid" d="M0 0H50V40L0 0.02"/>', "outline-open", "a gap of 0.02 mm"),
        ('<line id="lid" x2="30"/>', "outline-open", "a gap of 30 mm"),
        ('<g id="lid"><path id="a" d="M0 0H50"/><path d="M51.2 0V40L0 0"/></g>', "outline-open", "a gap of 1.2 mm behind 'a'"),
        ('<path id="lid" d="M0 0L50 40V0L0 40z"/>', "outline-crosses-itself", "25 mm from the left and 20 mm from the top"),
        ('<path id="lid" d="M0 0C90 60-40 60 50 0z"/>', "outline-crosses-itself", "25 mm from the left"),
        ('<path id="lid" d="M0 0H50V50zM60 0H70V50z"/>', "several-outlines", "2 separate lines"),
        ('<path id="lid" d="M0 0H50V50zM60 0H70"/>', "several-outlines", "2 separate lines"),
        ('<g id="lid"><rect width="10" height="10"/><rect x="20" width="10" height="10"/></g>', "several-outlines", "2 separate"),
        ('<g id="lid"><path d="M0 0H9V9"/><path d="M0 0L9 9"/><path d="M20 0V9"/></g>', "several-outlines", "2 separate lines"),
        ('<rect id="lid" x="4"/>', "zero-size", "0 mm wide"),
        ('<rect id="lid" width="40"/>', "zero-size", "40 mm wide and 0 mm high"),
        ('<circle id="lid"/>', "zero-size", "0 mm wide"),
        ('<path id="lid" d=""/>', "zero-size", "0 mm wide"),
        ('<path id="lid"/>', "zero-size", "0 mm wide"),
        ('<g transform="scale(1 0)"><rect id="lid" width="40" height="9"/></g>', "zero-size", "40 mm wide and 0 mm high"),
        ('<g id="lid"><text>Lid</text></g>', "no-outline", "a <g>, draws no line"),
        ('<text id="lid">Lid</text>', "no-outline", "a <text>, draws no line"),
        ('<image id="lid" href="lid.png"/>', "no-outline", "a <image>, draws no line"),
        ('<defs><rect id="lid" width="9" height="9"/></defs>', "not-drawn", "stands inside <defs>"),
        ('<clipPath><g><rect id="lid" width="9" height="9"/></g></clipPath>', "not-drawn", "stands inside <clipPath>"),
        ('<rect id="lid" width="9" height="9"/><g id="lid"/>', "same-name-twice", "2 elements have the id 'lid'"),
        ('<rect id="lid" width="9em" height="9"/>', "bad-drawing", "'9em', a length in a unit that depends on type"),
        ('<rect id="lid" width="-9" height="9"/>', "bad-drawing", "width of -9"),
        ('<polygon id="lid" points="1 2 3"/>', "bad-drawing", "3 numbers as points"),
        ('<polygon id="lid" points="1 2 3 x"/>', "bad-drawing", "'x' as numbers"),
        ('<g transform="turn(3)"><rect id="lid" width="9" height="9"/></g>', "bad-drawing", "transform 'turn(3)'"),
        ('<g style="transform:scale(2)"><rect id="lid" width="9" height="9"/></g>', "moved-by-style", "by 'transform'"),
        ('<rect id="lid" width="9" height="9" transform-origin="5 5"/>', "moved-by-style", "by 'transform-origin'"),
        ('<rect id="lid" width="9" height="9" style="stroke-width:2;rx:5px"/>', "moved-by-style", "sizes it by 'rx'"),
        ("<style>#lid { fill: none; transform: scale(2) }</style>", "moved-by-style", "this style sheet moves"),
        ('<rect id="lid" width="9" height="90000"/>', "too-much", "reaches 89.9 m"),
        ('<svg width="0" height="5"><rect id="lid" width="9" height="9"/></svg>', "bad-drawing", "a size of 0 by 5"),
    ],
)  # fmt: skip
def test_what_is_no_outline(body: str, name: str, says: str) -> None:
    (fault,) = faults(body)
    assert fault.name == name
    assert says in fault.says
    assert fault.mend
    assert fault.place is not None
    assert fault.place.file == FILE


def test_the_nearest_id_is_offered_where_it_was_asked_for() -> None:
    asked = Written("lidd", Place("pattern.yaml", 40, 16, 40, 20))
    _, (fault,) = outline_of(drawing('<rect id="lid" width="9" height="9"/>'), asked)
    assert (fault.name, fault.place, fault.mend) == ("no-such-element", asked.place, "did you mean 'lid'?")
    assert fault.says == "images/lid.svg has no element with the id 'lidd'"


def test_a_drawing_that_is_moved_as_a_whole() -> None:
    (fault,) = faults('<rect id="lid" width="9" height="9"/>', f'{HEAD} transform="scale(2)"')
    assert (fault.name, str(fault.place)) == ("moved-by-style", f"{FILE}:1:1")


def test_places_of_elements() -> None:
    body = (
        "<!-- <path> --><g>\n"
        "  <desc><![CDATA[<rect>]]> a > b</desc><path\n"
        '    id="lid" d="M0 0"/></g>\r\n'
        '<g>é<rect id="other" width="x"/></g>'
    )
    (fault,) = faults(body)
    assert fault.place == Place(FILE, 3, 40, 3, 45)
    (fault,) = faults(body, id="other")
    assert fault.place == Place(FILE, 5, 5, 5, 10)
