"""Marks lie where the words say."""

import pytest

from publisher.drafting import LineMark, Notch, PointMark
from publisher.geometry import Point
from tests.specimens import draft_text, pattern_line

PIECE = """\
measures:
  drop: 4 cm
pieces:
  panel:
    outline:
      rectangle: 20 cm by 10 cm
    copies:
      front: canvas
      back: canvas
    marks:
      centre: notch at the middle of top edge
      loop: double notch at drop from the top end of right edge, for front
      near left: notch at 3 cm from the left end of top edge
      snap: point at 2 cm from the middle of top edge, on the right side
      corner: point at 2 cm from left edge and 3 cm from bottom edge
      spot: point at 5 cm, 6 cm
      crease: fold line at 25 mm from bottom edge
      slant: fold line from corner to spot
"""


def _near(point: Point, x: float, y: float) -> bool:
    return abs(point.x - x) < 1e-6 and abs(point.y - y) < 1e-6


def test_every_mark() -> None:
    draft, findings = draft_text(PIECE)
    assert findings == ()
    marks = {mark.name: mark for mark in draft.piece("panel").marks}
    centre, loop, near_left = marks["centre"], marks["loop"], marks["near left"]
    assert isinstance(centre, Notch)
    assert _near(centre.at, 100, 100)
    assert _near(centre.cut_end, 100, 110)
    assert _near(centre.inner_end, 100, 105)  # half the allowance of 10
    assert isinstance(loop, Notch)
    assert loop.double
    assert loop.copies == ("front",)
    assert _near(loop.at, 200, 60)  # 100 − 40
    assert isinstance(near_left, Notch)
    assert _near(near_left.at, 30, 100)
    assert near_left.distance == pytest.approx(170)  # the top edge runs from right to left
    snap, corner, spot = marks["snap"], marks["corner"], marks["spot"]
    assert isinstance(snap, PointMark)
    assert _near(snap.at, 100, 80)
    assert snap.face == "right side"
    assert isinstance(corner, PointMark)
    assert _near(corner.at, 20, 30)
    assert isinstance(spot, PointMark)
    assert _near(spot.at, 50, 60)
    crease, slant = marks["crease"], marks["slant"]
    assert isinstance(crease, LineMark)
    assert {round(crease.start.x), round(crease.end.x)} == {0, 200}
    assert crease.start.y == pytest.approx(25)
    assert isinstance(slant, LineMark)
    assert _near(slant.start, 20, 30)


def test_deep_allowance_does_not_make_a_deep_notch() -> None:
    draft, _ = draft_text(PIECE.replace("    copies:", "    allowance: 4 cm\n    copies:"))
    notch = next(mark for mark in draft.piece("panel").marks if mark.name == "centre")
    assert isinstance(notch, Notch)
    assert (notch.cut_end - notch.inner_end).length == pytest.approx(6.35)


@pytest.mark.parametrize(
    ("mark", "name", "words"),
    [
        (
            "notch at 30 cm from the left end of top edge",
            "mark-beyond-edge",
            "300 mm along 'top edge', which is 200 mm",
        ),
        ("notch at the middle of tip edge", "no-such-edge", "no edge called 'tip edge'"),
        ("notch at 3 cm from the top end of top edge", "which-end", "equally far"),
        ("point at 2 cm from left edge and 3 cm from right edge", "edges-parallel", "never meet"),
        ("fold line from here to spot", "no-such-point", "'here'"),
        ("notch at the middle of top edge, for lining", "no-such-copy", "no copy called 'lining'"),
        ("point at 2, 3 cm", "not-a-length", "not a length"),
    ],
)
def test_marks_that_cannot_be(mark: str, name: str, words: str) -> None:
    draft, findings = draft_text(PIECE + f"      bad: {mark}\n")
    metric = [finding for finding in findings if str(finding.variants[0]) == "metric"]
    assert [(finding.name, finding.place.line if finding.place else 0) for finding in metric] == [
        (name, pattern_line(PIECE + "      bad: ", "bad:"))
    ]
    assert words in metric[0].says
    assert "bad" not in [mark.name for mark in draft.piece("panel").marks]


def test_a_notch_needs_an_allowance() -> None:
    _, findings = draft_text(
        PIECE.replace("    copies:", "    allowance:\n      all: 1 cm\n      top edge: 0\n    copies:")
    )
    assert {finding.name for finding in findings} == {"notch-on-bound-edge"}
