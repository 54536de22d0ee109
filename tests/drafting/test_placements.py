"""Placements: how one copy comes to lie on another, marks derived through them, and bindings."""

import math

import pytest

from publisher.drafting import LineMark, PointMark
from publisher.geometry import Point
from publisher.terms import UnitSystem
from tests.specimens import draft_text, found, pattern_line, prove_text

PIECES = """
pieces:
  wall:
    outline:
      rectangle: 20 cm by 15 cm
    copies:
      outside: canvas
      lining: canvas
    marks:
      low:    placement line at 3 cm from bottom edge
      left spot:  point at 5 cm, 6 cm
      right spot: point at 15 cm, 6 cm
      tab place: notch at 4 cm from the top end of right edge
      snap:   {derived}
  pocket:
    outline:
      rectangle: 10 cm by 8 cm
    copies:
      only: canvas
    marks:
      button: point at 5 cm, 7 cm
      off middle: point at 2 cm, 7 cm
      first:  point at 1 cm, 1 cm
      second: point at 1 cm, 11 mm + 99 mm
      seam:   stitching line at 4 cm from the left end of bottom edge
placements:
  pocket on wall:
    place: pocket
    on: wall lining
    {face}
    matching:
"""


def laid(
    matching: list[str], face: str = "face: up", derived: str = "derived from pocket.off middle by pocket on wall"
) -> str:
    lines = "\n".join(f"      - {one}" for one in matching)
    return PIECES.format(face=face, derived=derived).rstrip() + "\n" + lines + "\n"


def snap(pattern: str) -> tuple[float, float]:
    draft, findings = draft_text(pattern)
    assert [finding for finding in findings if draft.variant in finding.variants] == []
    mark = next(mark for mark in draft.piece("wall").marks if mark.name == "snap")
    assert isinstance(mark, PointMark)
    return round(mark.at.x, 3) + 0.0, round(mark.at.y, 3) + 0.0


@pytest.mark.parametrize(
    ("matching", "face", "where"),
    [
        # Lower left corners together: the point at (20, 70) of the pocket lies at (20, 70) of the wall.
        (["bottom edge", "left edge"], "up", (20, 70)),
        # The right edges: the pocket begins at 200 − 100.
        (["bottom edge", "right edge"], "up", (120, 70)),
        # One edge says nothing of along it: the middles meet, the pocket lies from 50 to 150.
        (["bottom edge"], "up", (70, 70)),
        # Bottom edge on a placement line 30 up.
        (["bottom edge to low"], "up", (70, 100)),
        # The top edge on that line, seen the same way up: the pocket hangs from 30 − 80.
        (["top edge to low"], "up", (70, 20)),
        # Face down the pocket is turned over on its upright middle: 20 from its left becomes 20 from its right.
        (["bottom edge"], "down", (130, 70)),
        (["bottom edge", "left edge to right edge"], "down", (180, 70)),
        # Its left end along the wall's right edge, middle on the notch at 150 − 40: turned by half a turn. Its middle,
        # 40 up the edge, lies at (200, 110); the point, 20 in and 30 above the middle, at (180, 80).
        (["left edge to tab place"], "up", (180, 80)),
        # One spot on another: not turned.
        (["button to left spot"], "up", (20, 60)),
        (["centre"], "up", (70, 105)),
    ],
)
def test_where_a_placed_copy_lies(matching: list[str], face: str, where: tuple[float, float]) -> None:
    assert snap(laid(matching, f"face: {face}")) == where


def test_two_spots_turn_the_copy() -> None:
    """(10, 10) and (10, 110) of the pocket lie on (50, 60) and (150, 60): turned by −90°, so that (20, 70) lies
    60 along and, 10 to the right of the way, 10 below."""
    draft, _ = draft_text(laid(["first to left spot", "second to right spot"]))
    (placement,) = draft.placements
    assert placement.laying.angle == pytest.approx(-math.pi / 2)
    assert snap(laid(["first to left spot", "second to right spot"])) == (110, 50)


def test_a_laying_keeps_distances() -> None:
    for face in ("up", "down"):
        draft, _ = draft_text(laid(["left edge to tab place"], f"face: {face}"))
        laying = draft.placements[0].laying
        one, other = Point(3, 4), Point(-20, 11)
        assert (laying(one) - laying(other)).length == pytest.approx((one - other).length)


def test_a_line_is_derived_with_both_its_ends() -> None:
    draft, _ = draft_text(laid(["bottom edge"], derived="derived from pocket.seam by pocket on wall, for lining"))
    mark = next(mark for mark in draft.piece("wall").marks if mark.name == "snap")
    assert isinstance(mark, LineMark)
    assert (mark.kind, mark.copies) == ("stitching line", ("lining",))
    assert sorted([(round(mark.start.x, 6), round(mark.start.y, 6)), (round(mark.end.x, 6), round(mark.end.y, 6))]) == [
        (90, 0),
        (90, 80),
    ]


def test_a_derived_mark_follows_the_first_when_that_moves() -> None:
    pattern = laid(["bottom edge"])
    moved = pattern.replace("off middle: point at 2 cm, 7 cm", "off middle: point at 3 cm, 65 mm")
    assert (snap(pattern), snap(moved)) == ((70, 70), (80, 65))


@pytest.mark.parametrize(
    ("derived", "name", "says"),
    [
        ("derived from pocket.off midle by pocket on wall", "no-such-mark", "no mark called 'off midle'"),
        ("derived from pocket.button by pocket on wal", "no-such-name", "no placement called 'pocket on wal'"),
        ("derived from pockets.button by pocket on wall", "no-such-name", "no copy called 'pockets'"),
        ("derived from wall outside.low by pocket on wall", "wrong-placement", "not 'wall outside' on 'wall'"),
    ],
)
def test_a_mark_that_cannot_be_derived_is_told(derived: str, name: str, says: str) -> None:
    pattern = laid(["bottom edge"], derived=derived)
    finding = found(draft_text(pattern)[1], name)
    assert says in finding.says
    assert finding.place.line == pattern_line(pattern, derived)


def test_marks_that_derive_from_each_other_are_a_circle() -> None:
    pattern = laid(["button to snap"])
    assert "circle-of-formulas" in {finding.name for finding in draft_text(pattern)[1]}


def test_a_face_is_up_or_down() -> None:
    finding = found(draft_text(laid(["bottom edge"], "face: under"))[1], "wrong-kind")
    assert "not 'under'" in finding.says


BOUND = """
pieces:
  mat:
    outline:
      rectangle: 12 in by 8 in
      round:
        top corners: 2 in
    joint edges:
      around:
        - bottom edge
        - right edge
        - top right corner
        - top edge
        - top left corner
        - left edge
    allowance: {allowance}
    copies:
      only: canvas
  edging:
    strip:
      finished width: 1/2 in
      length: {length}
      fold: in fourths
      ends: 0
      joins: diagonal
    grain: {grain}
    copies:
      only: canvas
bindings:
  mat binding:
    strip: edging
    binds:
      - mat.around
"""
STEPS = """
1. Bind.
   Does: join edging
   Does: fold edging
   Does: mitre mat binding
   Does: bind mat binding
"""


def bound(length: str = "50 in", allowance: str = "0", grain: str = "bias") -> str:
    return BOUND.format(length=length, allowance=allowance, grain=grain)


def test_how_long_a_binding_must_be() -> None:
    """By hand: 12 + 6 + 8 + 6 in straight, two quarter circles of 2 in; two square corners of 2 × 1/2 in; an overlap of
    the strip's cut width, 2 in."""
    draft, findings = draft_text(bound(), units=UnitSystem.INCH)
    assert findings == ()
    (binding,) = draft.bindings
    assert binding.corners == 2
    assert binding.needed == pytest.approx((32 + math.pi * 2 + 2 * 1 + 2) * 25.4)


def test_a_border_round_a_rectangle() -> None:
    """2w + 2l + 4b: 70 by 86 in with a 6 1/2 in border take 338 in (a quilt teacher's slides). Ours for a binding of
    that width: 312 in round, four corners of twice the width and the overlap asked for: 52 in and it more, for a binding
    is folded at its corners where a border is cut."""
    pattern = (
        bound()
        .replace("12 in by 8 in\n      round:\n        top corners: 2 in", "70 in by 86 in")
        .replace("        - top right corner\n", "")
        .replace("        - top left corner\n", "")
        .replace("finished width: 1/2 in", "finished width: 6 1/2 in")
        .replace("    strip: edging\n    binds", "    strip: edging\n    overlap: 0\n    binds")
    )
    draft, _ = draft_text(pattern, units=UnitSystem.INCH)
    (binding,) = draft.bindings
    assert binding.corners == 4
    assert binding.needed == pytest.approx((312 + 4 * 13) * 25.4)


@pytest.mark.parametrize(
    ("length", "allowance", "grain", "names"),
    [
        ("50 in", "0", "bias", set()),
        ("42 in", "0", "bias", {"binding-too-short"}),
        ("50 in", "3/8 in", "bias", {"bound-edge-with-allowance"}),
        ("50 in", "0", "up", {"binding-not-on-bias"}),
    ],
)
def test_what_is_wrong_with_a_binding(length: str, allowance: str, grain: str, names: set[str]) -> None:
    _, findings = prove_text(bound(length, allowance, grain), STEPS)
    assert {finding.name for finding in findings} == names


def test_what_no_step_does_is_told() -> None:
    steps = """
    1. Cut.
       Does: cut all
    """
    _, findings = prove_text(bound(), steps)
    assert "no step says 'bind mat binding'" in found(findings, "left-undone").says


def test_edges_that_cannot_all_meet_are_told() -> None:
    """A pocket 100 mm wide between sides 200 mm apart: 50 mm are missing at either side."""
    pattern = laid(["bottom edge", "left edge", "right edge"])
    steps = """
    1. Place.
       Does: place pocket on wall
    """
    _, findings = prove_text(pattern, steps)
    finding = found(findings, "placed-edges-apart")
    assert "'left edge' of 'pocket' lies" in finding.says
    assert finding.place.line == pattern_line(pattern, "pocket on wall:")
    _, findings = prove_text(laid(["bottom edge", "left edge"]), steps)
    assert "placed-edges-apart" not in [finding.name for finding in findings]
