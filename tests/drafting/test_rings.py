"""Circles and ellipses as outlines."""

import math

import pytest
from scipy.special import ellipe

from publisher.drafting import Notch
from publisher.geometry import Arc, Cubic
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
        ("circle: 0 cm", "", "no-length", "0 mm wide"),
        ("circle: 3", "", "not-a-length", "which is a number"),
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
