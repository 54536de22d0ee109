"""Seams inside work that has been turned right side out."""

import pytest

from publisher.terms import Finding
from tests.specimens import prove_text

PATTERN = """\
pieces:
  case:
    outline:
      rectangle: 20 cm by 10 cm
    copies:
      front: canvas
      back: canvas
seams:
  bottom seam:
    join:
      - case front.bottom edge and case front.left edge
      - case back.bottom edge and case back.right edge
  last seam:
    join:
      - case front.right edge
      - case back.left edge
  top seam:
    join:
      - case front.top edge
      - case back.top edge
"""


def told(*steps: str) -> list[Finding]:
    numbered = "\n".join(f"{number}. {step}" for number, step in enumerate(steps, 1))
    return [one for one in prove_text(PATTERN, numbered + "\n")[1] if one.name == "sewn-when-turned"]


SEWN = "Cut, and sew both.\n   Does: cut all\n   Does: sew bottom seam\n   Does: sew last seam"
TURN = "Turn it.\n   Does: turn case front"
TOP = "Lay the top edges right sides together and sew them.\n   Does: sew top seam"


def test_a_seam_right_sides_together_inside_what_was_turned_is_told() -> None:
    (finding,) = told(SEWN, TURN, TOP)
    assert finding.says == "step 3 sews 'top seam' inside 'case front', which step 2 has turned right side out"


@pytest.mark.parametrize(
    "steps",
    [
        (SEWN, TOP, TURN),
        (SEWN, TURN, TURN, TOP),
        (SEWN, TURN, "Turn it inside out once more.", TOP),
        (SEWN, TURN, "Fold the top edges in, and sew them together close to the fold.\n   Does: sew top seam"),
        ("Cut, and sew the bottom.\n   Does: cut all\n   Does: sew bottom seam", TURN, TOP),
    ],
    ids=["before it is turned", "turned back", "turned back by the words", "from outside", "sewn at one corner only"],
)
def test_other_seams_are_not(steps: tuple[str, ...]) -> None:
    assert told(*steps) == []
