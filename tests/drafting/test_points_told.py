"""Points told by others, and measures that are solved for, with places that are checked on paper."""

import math

import pytest

from publisher.terms import length
from tests.specimens import draft_text, found, pattern_line

# A square of 100 mm; its corner c is told by the case.
SQUARE = """
measures:
  side: 10 cm
pieces:
  tile:
    outline:
      points:
        a: 0 cm, 0 cm
        b: side to the right of a
        c: {told}
        d: side to the top of a
      edges:
        base: line from a to b
        right: line from b to c
        top: line from c to d
        left: line from d to a
    copies:
      only: canvas
"""


def corner(told: str) -> tuple[float, float]:
    draft, findings = draft_text(SQUARE.format(told=told))
    assert [finding for finding in findings if draft.variant in finding.variants] == []
    at = draft.piece("tile").edge("right").path.end
    return round(at.x, 6), round(at.y, 6)


@pytest.mark.parametrize(
    ("told", "where"),
    [
        ("10 cm, 10 cm", (100, 100)),
        ("side to the top of b", (100, 100)),
        ("side to the right and side to the top of a", (100, 100)),
        ("2 cm to the left and side to the top of b", (80, 100)),
        ("side / 2 to the bottom of d", (0, 50)),
        ("10 cm at 60 deg from a", (50, 50 * math.sqrt(3))),
        ("halfway from b to d", (50, 50)),
        ("1/4 of the way from b to d", (75, 25)),
        ("3/2 of the way from a to b", (150, 0)),
        # a to d is the left side, b to d the falling diagonal: they meet in d; b to d and the base meet in b.
        ("the meeting of a to d and b to d", (0, 100)),
        ("at the middle of base", (50, 0)),
        ("at 3 cm from the left end of base", (30, 0)),
        ("at 3 cm from the right end of base", (70, 0)),
        ("8 cm to the top of base, at 3 cm from the right end of base", (70, 80)),
        ("4 cm to the bottom of base, at the middle of base", (50, -40)),
    ],
)
def test_where_a_point_lies(told: str, where: tuple[float, float]) -> None:
    # What lies on the base would make an outline without area or one that crosses itself: only the place is asked.
    if told.startswith("at ") or "meeting" in told or "bottom" in told or "halfway" in told or "way from" in told:
        pattern = (
            SQUARE.format(told="10 cm, 10 cm")
            .replace("      edges:", f"        told: {told}\n      edges:")
            .replace("    copies:", "    marks:\n      spot: fold line from a to told\n    copies:")
        )
        draft, findings = draft_text(pattern)
        assert [finding for finding in findings if draft.variant in finding.variants] == []
        mark = next(iter(draft.piece("tile").marks))
        assert (mark.end.x, mark.end.y) == pytest.approx(where)  # type: ignore[union-attr]
    else:
        assert corner(told) == pytest.approx(where)


@pytest.mark.parametrize(
    ("told", "name", "says"),
    [
        ("2 cm to the right of z", "no-such-point", "no point called 'z'"),
        ("5 cm at 3 cm from a", "not-an-angle", "needs an angle"),
        ("the meeting of a to b and d to x", "no-such-point", "'x'"),
        ("the meeting of a to d and b to b", "edges-parallel", "never meet"),
        ("at 12 cm from the left end of base", "mark-beyond-edge", "120 mm lie beyond 'base'"),
        ("at 2 cm from the top end of base", "which-end", "equally far"),
        ("2 cm to the right of base, at the middle of base", "which-side", "runs towards the right"),
        ("at the middle of bass", "no-such-edge", "no edge called 'bass'"),
        ("2 cm to the right of c", "circle-of-formulas", "'tile.c'"),
        ("at the middle of right", "circle-of-formulas", "'tile.right'"),
        ("5 cm of the way from a to b", "not-a-number", "plain number"),
    ],
)
def test_a_point_that_cannot_be_is_told(told: str, name: str, says: str) -> None:
    pattern = SQUARE.format(told=told)
    finding = found(draft_text(pattern)[1], name)
    assert says in finding.says
    assert finding.place.line == pattern_line(pattern, told)


# A crown of 200 mm chord over its rise; its length as an arc of radius (c² / 4 + s²) / 2s.
CROWN = """
measures:
  rise: {solved}
pieces:
  crown:
    outline:
      points:
        a: 0 cm, 0 cm
        b: 20 cm, 0 cm
      edges:
        base: line from a to b
        curve: arc from b to a with height rise
    copies:
      only: canvas
  band:
    outline:
      rectangle: {band} by 5 cm
    copies:
      only: canvas
"""


def arc_length(chord: float, rise: float) -> float:
    radius = (chord**2 / 4 + rise**2) / (2 * rise)
    return 2 * radius * math.asin(chord / 2 / radius)


def test_a_curve_is_solved_for_a_length() -> None:
    pattern = CROWN.format(
        solved="solved for length of crown.curve = length of band.bottom edge from 1 cm to 9 cm", band="25 cm"
    )
    draft, findings = draft_text(pattern)
    assert [finding for finding in findings if draft.variant in finding.variants] == []
    assert draft.piece("crown").edge("curve").length == pytest.approx(250, abs=1e-5)
    rise = float(dict(draft.measures)["rise"].amount)
    assert arc_length(200, rise) == pytest.approx(250, abs=1e-5)


def test_where_nothing_can_be_solved_it_says_how_far_it_is_off() -> None:
    """20 cm of chord with 9 cm of rise: about 291 mm; 40 cm cannot be reached."""
    pattern = CROWN.format(
        solved="solved for length of crown.curve = length of band.bottom edge from 1 cm to 9 cm", band="40 cm"
    )
    finding = found(draft_text(pattern)[1], "no-solution")
    assert f"at 90 mm {400 - arc_length(200, 90):.4g} mm shorter than" in finding.says
    assert finding.place.line == pattern_line(pattern, "solved for")


def test_only_a_measure_is_solved_for_and_only_lengths() -> None:
    pattern = CROWN.format(solved="5 cm", band="solved for length of crown.base = 25 cm from 1 cm to 9 cm")
    assert "unreadable" in {finding.name for finding in draft_text(pattern)[1]}
    pattern = CROWN.format(solved="solved for 2 = 3 from 1 cm to 9 cm", band="25 cm")
    assert "is a length" in found(draft_text(pattern)[1], "not-a-length").says


def test_a_solved_measure_may_ask_for_itself() -> None:
    """x² = 16 cm²: x · x / 4 cm = 4 cm."""
    pattern = CROWN.format(solved="solved for rise * rise / 4 cm = 4 cm from 1 mm to 9 cm", band="25 cm")
    draft, findings = draft_text(pattern)
    assert [finding for finding in findings if draft.variant in finding.variants] == []
    assert dict(draft.measures)["rise"] == length(40)


def test_an_arc_that_would_go_more_than_half_round_is_told() -> None:
    fan = SQUARE.format(told="side at 280 deg from a").replace(
        "right: line from b to c", "right: arc from b to c with radius side"
    )
    _, findings = draft_text(fan)
    assert "280° round 'a'" in found(findings, "arc-does-not-fit").says


def test_an_arc_of_less_than_half_a_circle_is_drawn() -> None:
    fan = SQUARE.format(told="side at 80 deg from a").replace(
        "right: line from b to c", "right: arc from b to c with radius side"
    )
    draft, _ = draft_text(fan)
    assert draft.piece("tile").edge("right").length == pytest.approx(100 * math.radians(80))
