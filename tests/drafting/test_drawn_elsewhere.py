"""Outlines drawn in another program: at true size, their edges named, their mistakes told in the drawing."""

import math

import pytest

from publisher.drafting import Draft, draft_variants
from publisher.geometry import Arc
from publisher.measures import read_measures
from publisher.pipeline import prove
from publisher.source import read_source
from publisher.terms import Finding, UnitSystem
from tests.specimens import files, found, pattern_line

LID = """
pieces:
  lid:
    outline:
      svg: images/lid.svg
      element: lid
      edges:
        edge 1: back edge
    allowance: 1 cm
    copies:
      outside: canvas
    marks:
      middle: notch at the middle of back edge
"""
# A rectangle of 200 × 100 mm in a drawing of 300 × 200 mm, a unit a millimetre, y down.
SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="200mm" viewBox="0 0 300 200">\n'
    '<path id="lid" d="M 50 150 H 250 V 50 H 50 Z"/>\n'
    '<circle id="disc" cx="100" cy="100" r="40"/>\n'
    '<path id="open" d="M 0 0 L 50 0 L 50 50"/>\n'
    "</svg>"
)


def draft(pattern: str = LID, svg: str = SVG) -> tuple[Draft, tuple[Finding, ...]]:
    given = {**files(pattern), "images/lid.svg": svg.encode()}
    source, unread = read_source("specimen", given)
    assert source is not None
    measures, unparsed = read_measures(source)
    drafts, undrafted = draft_variants(source, measures)
    return next(one for one in drafts if one.variant.units is UnitSystem.METRIC), (*unread, *unparsed, *undrafted)


def test_a_shape_is_drafted_at_its_true_size_with_its_corners_as_edges() -> None:
    drafted, findings = draft()
    assert findings == ()
    piece = drafted.piece("lid")
    assert [edge.name for edge in piece.edges] == ["back edge", "edge 2", "edge 3", "edge 4"]
    assert sorted(round(edge.length, 6) for edge in piece.edges) == [100, 100, 200, 200]
    assert (piece.cut_width, piece.cut_height) == pytest.approx((220, 120))


def test_inches_and_a_scale_are_honoured() -> None:
    scaled = SVG.replace('width="300mm" height="200mm"', 'width="6in" height="4in"')
    drafted, _ = draft(svg=scaled)
    assert drafted.piece("lid").edge("back edge").length == pytest.approx(200 * 6 * 25.4 / 300)


def test_a_circle_stays_an_arc() -> None:
    pattern = LID.replace("element: lid", "element: disc")
    drafted, findings = draft(pattern)
    assert findings == ()
    edge = drafted.piece("lid").edge("back edge")
    assert all(isinstance(segment, Arc) for segment in edge.path.segments)
    assert edge.length == pytest.approx(2 * math.pi * 40)


@pytest.mark.parametrize(
    ("written", "instead", "name", "says"),
    [
        ("element: lid", "element: lids", "no-such-element", "lids"),
        ("svg: images/lid.svg", "svg: images/lit.svg", "missing-file", "no images/lit.svg"),
        ("edge 1: back edge", "edge 9: back edge", "no-such-edge", "no edge called 'edge 9'"),
        ("edge 1: back edge", "edge 1: edge 2", "same-name-twice", "two edges called 'edge 2'"),
    ],
)
def test_what_the_drawing_lacks_is_told_in_the_pattern(written: str, instead: str, name: str, says: str) -> None:
    pattern = LID.replace(written, instead)
    finding = found(draft(pattern)[1], name)
    assert says in finding.says
    assert finding.place is not None
    if name != "same-name-twice":
        assert finding.place.line == pattern_line(pattern, instead)


def test_what_is_wrong_in_the_drawing_is_told_in_the_drawing() -> None:
    finding = found(draft(LID.replace("element: lid", "element: open"))[1], "outline-open")
    assert finding.place is not None
    assert (finding.place.file, finding.place.line) == ("images/lid.svg", 4)


def test_a_pattern_with_a_drawing_is_proved_and_printed_like_any_other() -> None:
    steps = "1. Cut.\n   Does: cut all\n"
    proof, findings = prove("specimen", {**files(LID, steps), "images/lid.svg": SVG.encode()})
    assert proof is not None
    assert {finding.name for finding in findings} == {"copy-never-used"}
    (row,) = proof.tables[1].chart
    assert row.template
