"""Outlines drawn in another program: at true size, their edges named, their mistakes told in the drawing."""

import math

import numpy
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import LineString

from publisher.drafting import Draft, LineMark, Notch, PointMark, draft_variants
from publisher.geometry import Arc, Point
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


CUT = LID.replace("      element: lid", "      element: lid\n      drawn as: cut line")


def test_of_a_cut_line_the_finished_line_lies_inside() -> None:
    bound = CUT.replace("allowance: 1 cm", "allowance:\n      all: 1 cm\n      back edge: 0")
    drafted, findings = draft(bound[: bound.index("    marks:")])
    assert findings == ()
    piece = drafted.piece("lid")
    # Drawn 200 × 100 mm: so it is cut; 10 mm less at both ends and at the front.
    assert (piece.cut_width, piece.cut_height) == pytest.approx((200, 100))
    assert sorted(round(edge.length, 6) for edge in piece.edges) == [90, 90, 180, 180]


def test_inside_a_cut_line_arcs_stay_arcs_and_hollow_corners_are_extended() -> None:
    shape = SVG.replace("M 50 150 H 250 V 50 H 50 Z", "M 50 150 H 250 V 70 A 20 20 0 0 0 230 50 H 150 V 90 H 50 Z")
    drafted, findings = draft(
        CUT.replace("      edges:\n        edge 1: back edge\n", "").replace("back edge", "edge 1"), shape
    )
    assert findings == ()
    piece = drafted.piece("lid")
    (arc,) = (segment for segment in piece.finished_line.segments if isinstance(segment, Arc))
    assert arc.radius == pytest.approx(10)
    corners = {(round(one.start.x, 6), round(one.start.y, 6)) for one in piece.finished_line.segments}
    # The hollow corner at 150, 90 from above is 110 from below; inside it lies 10 right of the upright, 10 below.
    assert (160, 100) in corners


@settings(deadline=None, max_examples=60)
@given(
    st.lists(st.integers(70, 120), min_size=4, max_size=7),
    st.lists(st.booleans(), min_size=7, max_size=7),
    st.lists(st.integers(2, 12), min_size=7, max_size=7),
)
def test_inside_a_drawn_cut_line_each_edge_keeps_its_own_distance(
    radii: list[int], bent: list[bool], allowances: list[int]
) -> None:
    """Corners round a middle, edges straight and bent, each with its own allowance, against dense points of the drawing."""
    turns = [2 * math.pi * at / len(radii) for at in range(len(radii))]
    corners = [
        numpy.array([100 + far * math.cos(turn), 100 - far * math.sin(turn)])
        for far, turn in zip(radii, turns, strict=True)
    ]
    path, exact = "M {:.6f} {:.6f}".format(*corners[0]), []
    for start, end, curves in zip(corners, (*corners[1:], corners[0]), bent, strict=False):
        out = numpy.array([start[1] - end[1], end[0] - start[0]]) * (0.1 if curves else 0.0)
        first, second = start + (end - start) / 3 + out, start + (end - start) * 2 / 3 + out
        path += " C {:.6f} {:.6f} {:.6f} {:.6f} {:.6f} {:.6f}".format(*first, *second, *end)
        at = numpy.linspace(0, 1, 2000)[:, None]
        edge = (1 - at) ** 3 * start + 3 * (1 - at) ** 2 * at * first + 3 * (1 - at) * at**2 * second + at**3 * end
        exact.append(LineString(edge * (1, -1) + (0, 200)))
    names = "".join(f"      edge {at}: {by} mm\n" for at, by in enumerate(allowances[: len(radii)], start=1))
    pattern = CUT.replace("      edges:\n        edge 1: back edge\n", "")
    pattern = pattern[: pattern.index("    marks:")].replace("    allowance: 1 cm\n", f"    allowance:\n{names}")
    drafted, findings = draft(pattern, SVG.replace("M 50 150 H 250 V 50 H 50 Z", f"{path} Z"))
    assume(not findings)
    piece = drafted.piece("lid")
    cut = LineString([(spot.x, spot.y) for spot in piece.cut_line.flattened(0.001)])
    assert shapely.hausdorff_distance(cut, shapely.line_merge(shapely.MultiLineString(exact))) < 0.01
    measured = 0
    for at, by in enumerate(allowances[: len(radii)]):
        for spot in piece.edge(f"edge {at + 1}").path.flattened(0.01):
            along = exact[at].project(shapely.Point(spot.x, spot.y))
            if 0.1 < along < exact[at].length - 0.1:  # beyond its end, at a hollow corner, it runs on straight
                assert exact[at].distance(shapely.Point(spot.x, spot.y)) == pytest.approx(by, abs=0.012)
                measured += 1
    assert measured


@pytest.mark.parametrize(
    ("drawn", "allowance", "name", "words"),
    [
        # A tab of 6 mm whose three sides take 10 mm each.
        ("M 50 150 H 250 V 50 H 153 V 44 H 147 V 50 H 50 Z", "1 cm", "allowance-eats-edge", "leave nothing of it"),
        (
            "M 50 150 H 250 V 56 A 6 6 0 0 0 244 50 H 50 Z",
            "1 cm",
            "curve-too-tight",
            "a curve of 15/64 in (6.0 mm) radius",
        ),
        # A neck 16 mm wide between two bodies.
        (
            "M 50 150 H 150 V 108 H 170 V 150 H 250 V 50 H 170 V 92 H 150 V 50 H 50 Z",
            "1 cm",
            "allowance-crosses-itself",
            "there is no room for both allowances",
        ),
    ],
)
def test_a_cut_line_that_leaves_no_finished_line_is_told_in_the_drawing(
    drawn: str, allowance: str, name: str, words: str
) -> None:
    pattern = CUT.replace("      edges:\n        edge 1: back edge\n", "").replace(
        "allowance: 1 cm", f"allowance: {allowance}"
    )
    _, findings = draft(pattern[: pattern.index("    marks:")], SVG.replace("M 50 150 H 250 V 50 H 50 Z", drawn))
    told = [one for one in findings if one.name == name]
    assert told, findings
    assert str(told[0].place).startswith("images/lid.svg:2")
    assert words in told[0].says


def test_an_outline_is_drawn_as_one_of_two_lines() -> None:
    _, findings = draft(CUT.replace("cut line", "cutting line"))
    told = found(findings, "wrong-kind")
    assert told.mend == "did you mean 'cut line'?"


def test_allowances_that_differ_where_edges_run_on_nearly_straight_are_told() -> None:
    pattern = CUT.replace("      edges:\n        edge 1: back edge\n", "")
    pattern = pattern[: pattern.index("    marks:")].replace(
        "    allowance: 1 cm\n", "    allowance:\n      all: 1 cm\n      edge 1: 2 mm\n"
    )
    _, findings = draft(
        pattern, SVG.replace("M 50 150 H 250 V 50 H 50 Z", "M 50 150 L 150 151.5 L 250 150 V 50 H 50 Z")
    )
    told = found(tuple(one for one in findings if one.variants[0].units is UnitSystem.METRIC), "allowances-step")
    assert "meet too straight for allowances of 2 mm and 10 mm" in told.says


MARKED = SVG.replace(
    "</svg>",
    '<circle id="snap-spot" cx="150" cy="80" r="1.5"/>\n'
    '<line id="crease" x1="60" y1="60" x2="240" y2="60"/>\n'
    '<circle id="tip" cx="250" cy="50" r="1"/>\n'
    '<circle id="side" cx="250" cy="100" r="1"/>\n'
    '<path id="bow" d="M 60 70 Q 100 90 140 70"/>\n'
    "</svg>",
)


def test_marks_are_taken_from_the_drawing_by_their_ids() -> None:
    marks = (
        "      snap: snap at element snap-spot, on the right side\n"
        "      crease: fold line at element crease\n"
        "      side notch: notch at element side\n"
    )
    drafted, findings = draft(LID.replace("      middle: notch at the middle of back edge\n", marks), MARKED)
    assert findings == ()
    snap, crease, side = drafted.piece("lid").marks
    assert isinstance(snap, PointMark)
    assert (snap.symbol, snap.face, snap.at) == ("snap", "right side", Point(150, 120))  # y up from 200
    assert isinstance(crease, LineMark)
    assert (crease.start, crease.end) == (Point(60, 140), Point(240, 140))
    assert isinstance(side, Notch)
    assert (side.at.x, side.at.y, side.cut_end.x) == pytest.approx((250, 100, 260))


def test_corners_of_a_drawing_are_points() -> None:
    marks = "      slant: fold line from corner 1 to tip\n"
    drafted, findings = draft(LID.replace("      middle: notch at the middle of back edge\n", marks), MARKED)
    assert findings == ()
    (slant,) = drafted.piece("lid").marks
    assert isinstance(slant, LineMark)
    assert (slant.start, slant.end) == (drafted.piece("lid").edge("back edge").path.start, Point(250, 150))


@pytest.mark.parametrize(
    ("mark", "name", "words"),
    [
        ("snap at element snapspot", "no-such-element", "has no mark called 'snapspot'"),
        ("snap at element crease", "wrong-element", "the element 'crease' is a line"),
        ("fold line at element tip", "wrong-element", "the element 'tip' is no straight line"),
        ("fold line at element bow", "wrong-element", "the element 'bow' is no straight line"),
        ("notch at element snap-spot", "mark-off-edge", "lies on no edge of 'lid'"),
    ],
)
def test_marks_that_are_not_drawn_so(mark: str, name: str, words: str) -> None:
    drafted, findings = draft(LID.replace("notch at the middle of back edge", mark), MARKED)
    told = found(tuple(one for one in findings if not one.variants or drafted.variant in one.variants), name)
    assert words in told.says
