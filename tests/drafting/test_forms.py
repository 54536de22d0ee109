"""Outlines of one word: circles, ellipses, trapezia, ring sectors."""

import math

import pytest
from scipy.special import ellipe

from publisher.drafting import Notch
from publisher.geometry import Arc, Cubic, signed_area
from tests.specimens import draft_text, found, pattern_line


def ring(said: str, extra: str = "") -> str:
    return f"""
    pieces:
      base:
        outline:
          {said}
          {extra}
        copies:
          only: canvas
        marks:
          side: notch at the middle of right half
    """


def form(kind: str, sizes: str, extra: str = "") -> str:
    said = "\n".join(f"            {line}" for line in sizes.split("; "))
    return f"pieces:\n  base:\n    outline:\n      {kind}:\n{said}\n{extra}    copies:\n      only: canvas\n"


def test_a_circle_is_two_arcs_and_its_rim_is_pi_times_its_diameter() -> None:
    """A disc: circumference = π × diameter (derived)."""
    draft, findings = draft_text(ring("circle: 12 cm"))
    assert [finding for finding in findings if draft.variant in finding.variants] == []
    piece = draft.piece("base")
    assert [edge.name for edge in piece.edges] == ["right half", "left half"]
    assert all(isinstance(edge.path.segments[0], Arc) for edge in piece.edges)
    assert sum(edge.length for edge in piece.edges) == pytest.approx(math.pi * 120)
    assert (piece.cut_width, piece.cut_height) == pytest.approx((140, 140))
    (notch,) = [mark for mark in piece.marks if isinstance(mark, Notch)]
    assert (notch.at.x, notch.at.y) == pytest.approx((120, 60))


def test_an_ellipse_is_as_long_as_the_complete_integral_says() -> None:
    """4·a·E(e²) with the half axes 60 and 40 mm: SciPy's complete elliptic integral of the second kind."""
    draft, findings = draft_text(ring("ellipse: 12 cm by 8 cm"))
    assert [finding for finding in findings if draft.variant in finding.variants] == []
    piece = draft.piece("base")
    assert all(isinstance(segment, Cubic) for edge in piece.edges for segment in edge.path.segments)
    around = 4 * 60 * ellipe(1 - (40 / 60) ** 2)
    assert sum(edge.length for edge in piece.edges) == pytest.approx(around, abs=2e-3)
    assert (piece.finished_line.box.width, piece.finished_line.box.height) == pytest.approx((120, 80), abs=1e-3)


def test_the_halves_may_have_names_of_their_own() -> None:
    pattern = ring("circle: 12 cm", "edges:\n            left half: back")
    draft, _ = draft_text(pattern)
    assert [edge.name for edge in draft.piece("base").edges] == ["right half", "back"]


@pytest.mark.parametrize(
    ("said", "extra", "name", "says"),
    [
        ("circle: 0 cm", "", "no-length", "the diameter of 'base' is 0 mm"),
        ("circle: 3", "", "not-a-length", "which is a number"),
        ("ellipse: 12 cm by 0 cm", "", "no-length", "0 mm"),
        ("ellipse: 12 cm", "", "unreadable", "'by'"),
        ("circle: 12 cm", "edges:\n            upper half: back", "no-such-edge", "no edge called 'upper half'"),
        ("circle: 12 cm", "points:\n            a: 0, 0", "unknown-key", "'points'"),
    ],
)
def test_a_ring_that_cannot_be_is_told(said: str, extra: str, name: str, says: str) -> None:
    pattern = ring(said, extra)
    finding = found(draft_text(pattern)[1], name)
    assert says in finding.says
    fragment = extra.split("\n")[-1].strip() if extra and name == "no-such-edge" else said if not extra else "points:"
    assert finding.place is not None
    assert finding.place.line == pattern_line(pattern, fragment)


def test_a_trapezium_is_the_mean_of_its_level_edges_high() -> None:
    """Area = (a + b) / 2 × height; each slant by Pythagoras: 4 cm across and 3 cm up make 5 cm (elementary)."""
    draft, findings = draft_text(form("trapezium", "bottom: 20 cm; top: 12 cm; height: 3 cm"))
    assert findings == ()
    piece = draft.piece("base")
    assert [edge.name for edge in piece.edges] == ["bottom edge", "right edge", "top edge", "left edge"]
    assert [edge.length for edge in piece.edges] == pytest.approx([200, 50, 120, 50])
    assert signed_area(piece.finished_line) == pytest.approx((200 + 120) / 2 * 30)
    box = piece.finished_line.box
    assert (box.left, box.bottom, box.width, box.height) == pytest.approx((0, 0, 200, 30))


@pytest.mark.parametrize("degrees", [30, 90, 180, 270, 359])
def test_a_ring_sector_has_the_arcs_and_the_area_of_its_angle(degrees: int) -> None:
    """Arc = radius × angle, area = angle / 2 × (R² - r²) (elementary); all of it about its upright middle."""
    draft, findings = draft_text(
        form("ring sector", f"inner radius: 6 cm; outer radius: 14 cm; angle: {degrees}", "    allowance: 0\n")
    )
    assert findings == ()
    piece, angle = draft.piece("base"), math.radians(degrees)
    assert [edge.name for edge in piece.edges] == ["outer edge", "left end", "inner edge", "right end"]
    assert [edge.length for edge in piece.edges] == pytest.approx([140 * angle, 80, 60 * angle, 80])
    assert signed_area(piece.finished_line) == pytest.approx(angle / 2 * (140**2 - 60**2))
    box, top = piece.finished_line.box, piece.edge("outer edge").path
    assert (box.left, box.bottom) == pytest.approx((0, 0), abs=1e-9)
    highest = top.point_at(top.length / 2)
    assert (highest.x, highest.y) == pytest.approx((box.width / 2, box.height))
    if degrees <= 180:
        assert box.width == pytest.approx(2 * 140 * math.sin(angle / 2))


def test_the_edges_of_a_ring_sector_are_sewn_by_names_of_their_own() -> None:
    extra = "      edges:\n        inner edge: neck\n"
    draft, findings = draft_text(form("ring sector", "inner radius: 6 cm; outer radius: 14 cm; angle: 270", extra))
    assert findings == ()
    assert draft.piece("base").edge("neck").length == pytest.approx(60 * math.radians(270))


@pytest.mark.parametrize(
    ("kind", "sizes", "name", "says", "fragment"),
    [
        ("trapezium", "bottom: 20 cm; top: 0 cm; height: 3 cm", "no-length", "the top of 'base' is 0 mm", "top:"),
        ("trapezium", "bottom: 20 cm; top: 3; height: 3 cm", "not-a-length", "the top of 'base'", "top:"),
        ("trapezium", "bottom: 20 cm; height: 3 cm", "missing-key", "top", "trapezium"),
        ("trapezium", "bottom: 20 cm; top: 3 cm; hieght: 3 cm", "unknown-key", "hieght", "hieght"),
        ("ring sector", "inner radius: 6 cm; outer radius: 6 cm; angle: 90", "no-length", "outer radius", "outer"),
        ("ring sector", "inner radius: 6 cm; outer radius: 9 cm; angle: 360", "no-angle", "'360'", "angle"),
        ("ring sector", "inner radius: 6 cm; outer radius: 9 cm; angle: 0", "no-angle", "'0'", "angle"),
        ("ring sector", "inner radius: 6 cm; outer radius: 9 cm; angle: 9 cm", "no-angle", "'9 cm'", "angle"),
    ],
)
def test_sizes_that_make_no_form_are_told(kind: str, sizes: str, name: str, says: str, fragment: str) -> None:
    pattern = form(kind, sizes)
    finding = found(draft_text(pattern)[1], name)
    assert says in finding.says
    assert finding.place is not None
    assert finding.place.line == pattern_line(pattern, fragment)


def test_a_circle_as_long_as_itself_is_told() -> None:
    findings = draft_text(ring("circle: length of base.right half"))[1]
    assert {finding.name for finding in findings} == {"circle-of-formulas"}


def test_a_form_without_its_sizes_is_told() -> None:
    pattern = form("trapezium", "bottom: 20 cm").replace("trapezium:\n            bottom: 20 cm", "trapezium: 20 cm")
    finding = found(draft_text(pattern)[1], "wrong-kind")
    assert "'trapezium' says nothing of its shape" in finding.says


@pytest.mark.parametrize(("slip", "meant"), [("trapezuim", "trapezium"), ("ring secotr", "ring sector")])
def test_a_misspelled_form_is_told_once_with_the_nearest(slip: str, meant: str) -> None:
    pattern = form(slip, "bottom: 20 cm")
    findings = draft_text(pattern)[1]
    finding = found(findings, "unknown-key")
    assert finding.mend == f"did you mean '{meant}'?"
    assert "missing-key" not in {other.name for other in findings}
    assert finding.place is not None
    assert finding.place.line == pattern_line(pattern, slip)
