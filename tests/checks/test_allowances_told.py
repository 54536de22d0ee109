"""Which of several seams of a step an allowance is told of."""

import pytest

from tests.specimens import prove_text

PATTERN = """\
measures:
  wide: 2 cm
  narrow: 1 cm
pieces:
  body:
    outline:
      rectangle: 30 cm by 10 cm
    allowance:
      all: narrow
      bottom edge: wide
    copies:
      front: canvas
      back: canvas
seams:
  side seam:
    join:
      - body front.left edge
      - body back.right edge
  base seam:
    join:
      - body front.bottom edge
      - body back.bottom edge
"""


def told(words: str) -> list[str]:
    steps = f"## Sew\n\n1. Cut.\n   Does: cut all\n2. {words}\n   Does: sew side seam\n   Does: sew base seam\n"
    _, findings = prove_text(PATTERN, steps)
    return [finding.says for finding in findings if finding.name == "allowance-not-the-edges"]


@pytest.mark.parametrize(
    "words",
    [
        "Sew the side and the base, {narrow} from the edge.",
        "Sew both seams with a {narrow} allowance.",
        "Put them together. Sew the side and the base as two seams, {narrow} from the edge. Press.",
    ],
)
def test_one_allowance_for_all(words: str) -> None:
    assert any("sews 'base seam'" in one for one in told(words))


@pytest.mark.parametrize(
    "words",
    [
        "Sew the side, {narrow} from the edge. Sew the base in the same way.",
        "Sew the side, and the base with a {wide} allowance.",
        "Sew the side with a {narrow} allowance and the base with a {wide} allowance.",
        "Sew the side with the usual allowance and the base with a {wide} allowance.",
    ],
)
def test_an_allowance_of_one_of_them(words: str) -> None:
    assert told(words) == []
