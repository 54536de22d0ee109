"""An edge in two seams beside a fellow's that is in none: told where that one is left, and not where it is finished."""

import pytest

from tests.specimens import prove_text

PATTERN = """\
pieces:
  band:
    outline:
      rectangle: 30 cm by 8 cm
    copies:
      outside: canvas
      lining: canvas
  crown:
    outline:
      rectangle: 30 cm by 12 cm
    copies:
      outside: canvas
      lining: canvas
seams:
  crown seam:
    join:
      - crown outside.bottom edge
      - band outside.top edge
  lining seam:
    join:
      - crown lining.bottom edge
      - band outside.top edge
  lower seam:
    join:
      - band outside.bottom edge
      - band lining.bottom edge
"""
STEPS = """\
1. Cut, and sew.
   Does: cut all
   Does: sew crown seam
   Does: sew lining seam
   Does: sew lower seam
   Does: fold crown outside.top edge
   Does: fold crown lining.top edge
{last}"""


@pytest.mark.parametrize(("last", "told"), [("", True), ("   Does: fold band lining.top edge\n", False)])
def test_a_fellow_that_is_finished_is_not_idle(last: str, told: bool) -> None:
    _, findings = prove_text(PATTERN, STEPS.format(last=last))
    says = [finding.says for finding in findings if finding.name == "edge-sewn-twice"]
    assert bool(says) is told
    assert all("'band lining.top edge'" in one for one in says)
