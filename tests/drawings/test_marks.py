"""Marks: small circles and crosses are points, open lines are lines, all in millimetres from the lower left corner."""

from publisher.drawings import DrawnLine, DrawnPoint, marks_of
from publisher.geometry import Line, Path, Point
from tests.drawings.specimens import drawing

BODY = """
<symbol id="cross"><path d="M-2 0h4M0-2v4"/></symbol>
<defs><circle id="in store" r="2"/></defs>
<g id="lid" transform="translate(0 10)">
  <rect id="outline" x="10" y="10" width="60" height="40"/>
  <circle id="snap" cx="20" cy="30" r="2"/>
  <path id="ring" d="M28 30h4M30 28v4"/>
  <g id="button"><path id="stroke 1" d="M38 30h4"/><path id="stroke 2" d="M40 28v4"/></g>
  <path id="crease" d="M10 40H70"/>
</g>
<use id="loop" href="#cross" x="80" y="90"/>
<path id="broken" d="M1 1 L"/>
<path id="corner" d="M80 80h4M80 80v4"/>
<circle cx="5" cy="5" r="1"/>
"""


def test_marks_of_a_drawing() -> None:
    marks, (fault,) = marks_of(drawing(BODY))
    assert [(mark.id, mark.point) for mark in marks if isinstance(mark, DrawnPoint)] == [
        ("snap", Point(20, 60)),
        ("ring", Point(30, 60)),
        ("button", Point(40, 60)),
        ("loop", Point(80, 10)),
    ]
    lines = {mark.id: mark.path for mark in marks if isinstance(mark, DrawnLine)}
    assert list(lines) == ["stroke 1", "stroke 2", "crease"]
    assert lines["crease"] == Path((Line(Point(10, 50), Point(70, 50)),))
    assert (fault.name, fault.place and fault.place.line) == ("bad-drawing", 13)


def test_marks_within_one_element() -> None:
    marks, faults = marks_of(drawing(BODY), "lid")
    assert [mark.id for mark in marks] == ["snap", "ring", "button", "stroke 1", "stroke 2", "crease"]
    assert faults == ()
    marks, (fault,) = marks_of(drawing(BODY), "lidd")
    assert (marks, fault.name, fault.mend) == ((), "no-such-element", "did you mean 'lid'?")


def test_marks_are_bounded() -> None:
    body = "".join(f'<circle id="c{at}" cx="5" cy="5" r="1"/>' for at in range(600))
    marks, (fault,) = marks_of(drawing(body))
    assert (len(marks), fault.name) == (500, "too-much")
