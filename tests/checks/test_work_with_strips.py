"""What several steps bind with one strip, and what runs through a faced casing."""

import pytest

from publisher.terms import Severity
from tests.specimens import prove_text

BOUND = """\
pieces:
  panel:
    outline:
      rectangle: 20 cm by 10 cm
      round:
        top corners: 2 cm
    joint edges:
      around:
        - right edge
        - top right corner
        - top edge
        - top left corner
        - left edge
    copies:
      front: canvas
      back: canvas
  binding:
    strip:
      finished width: 1 cm
      length: 1 m
      fold: in fourths
      ends: 0
    grain: bias
    copies:
      only: canvas
seams:
  round seam:
    join:
      - panel front.around
      - panel back.around
  base seam:
    join:
      - panel front.bottom edge
      - panel back.bottom edge
"""
BIND = """\
## Sew

1. Sew.
   Does: sew base seam
   Does: sew round seam
2. Bind.
   Does: bind base seam with binding
   Does: bind round seam with binding
"""


def test_a_strip_binds_all_seams_that_steps_bind_with_it() -> None:
    # 20 cm, and 8 + 16 + 8 cm with two quarters of a circle of 2 cm: 58.3 cm.
    assert "binding-too-short" not in {finding.name for finding in prove_text(BOUND, BIND)[1]}
    (short,) = [one for one in prove_text(BOUND.replace("1 m", "55 cm"), BIND)[1] if one.name == "binding-too-short"]
    assert short.severity is Severity.ERROR
    assert "'base seam' and 'round seam' that are bound with it take" in short.says
    assert (short.place.file, short.place.line) == ("steps.md", 7) if short.place else False


def test_the_curve_of_a_bound_seam_wants_bias() -> None:
    found = [one for one in prove_text(BOUND.replace("    grain: bias\n", ""), BIND)[1] if "bias" in one.name]
    assert [one.place.line for one in found if one.place] == [8]


CASING = """\
pieces:
  edge:
    rectangle: 40 cm by 20 cm
    copies:
      only: canvas
  facing:
    rectangle: 40 cm by DEPTH
    copies:
      only: canvas
  cord:
    strip:
      finished width: 2 cm
      length: 1 m
      fold: in fourths
    copies:
      only: canvas
seams:
  casing seam:
    join:
      - edge.top edge
      - facing.bottom edge
"""
DRAW_IN = """\
## Casing

1. Sew and turn the facing, stitch it down, and draw the cord in.
   Does: sew casing seam
   Does: turn facing
   Does: topstitch facing.top edge
   Does: fold cord
   Does: thread cord through facing
"""


@pytest.mark.parametrize(
    ("depth", "severity"), [("1.5 cm", Severity.ERROR), ("2.3 cm", Severity.WARNING), ("2.8 cm", None)]
)
def test_a_cord_wants_a_facing_wider_than_itself(depth: str, severity: Severity | None) -> None:
    _, findings = prove_text(CASING.replace("DEPTH", depth), DRAW_IN)
    told = [one.severity for one in findings if one.name == "casing-too-narrow"]
    assert told == ([severity] if severity else [])
