"""An edge of bound layers that is left out of their binding."""

from tests.specimens import prove_text

PATTERN = """\
pieces:
  roll:
    outline:
      rectangle: 25 cm by 15 cm
    allowance: 0
    copies:
      outside: canvas
      lining: canvas
  edging:
    strip:
      finished width: 1 cm
      length: 100 cm
      fold: in fourths
    copies:
      only: canvas
placements:
  lining on outside:
    place: roll lining
    on: roll outside
    face: down
    matching:
      - bottom edge
      - left edge to right edge
bindings:
  edge binding:
    strip: edging
    binds:
      - roll outside.bottom edge
      - roll outside.right edge
      - roll outside.top edge
{last}
"""
STEPS = """\
1. Cut, and lay the lining on the outside.
   Does: cut all
   Does: place lining on outside
2. Bind.
   Does: fold edging
   Does: bind edge binding
"""


def told(last: str) -> list[str]:
    _, findings = prove_text(PATTERN.replace("{last}", last), STEPS)
    return [one.says for one in findings if one.name == "edge-left-raw"]


def test_layers_that_lie_level_and_are_not_bound_are_raw() -> None:
    assert any("'left edge' of 'roll'" in says for says in told(""))


def test_layers_that_are_bound_all_round_are_not() -> None:
    assert told("      - roll outside.left edge") == []
