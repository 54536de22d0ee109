"""A flap that is folded over what a pocket holds."""

import pytest

from publisher.terms import Finding
from tests.specimens import prove_text

PATTERN = """\
pieces:
  roll:
    outline:
      rectangle: 30 cm by 40 cm
    copies:
      only: canvas
    marks:
      flap fold: fold line at 30 cm from bottom edge
  pocket:
    outline:
      rectangle: 20 cm by 18 cm
    holds: 12 cm by {height} by 1 cm
    copies:
      only: canvas
placements:
  pocket on roll:
    place: pocket
    on: roll
    matching:
      - bottom edge
"""
STEPS = "1. Cut.\n   Does: cut all\n2. Fold the flap down.\n   Does: fold roll.flap fold\n"


def told(height: str) -> list[Finding]:
    pattern = PATTERN.replace("{height}", height)
    return [one for one in prove_text(pattern, STEPS)[1] if one.name == "too-long-for-the-flap"]


def test_what_a_pocket_holds_is_told_where_it_sticks_out_over_the_fold() -> None:
    (finding,) = told("31 cm")
    assert finding.says.startswith("'pocket' holds 12 1/4 in (311.1 mm), and below 'flap fold' of 'roll' lie")


@pytest.mark.parametrize("height", ["30 cm", "20 cm"])
def test_what_ends_below_the_fold_is_not(height: str) -> None:
    assert told(height) == []
