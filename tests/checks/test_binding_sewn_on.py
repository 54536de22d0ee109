"""How far from the edge a step sews a binding on."""

import pytest

from tests.specimens import prove_text

PATTERN = """\
measures:
  width: 3/8 in | 1 cm
  crease: 7/16 in | 12 mm
  overlap: 4 in | 10 cm
pieces:
  mat:
    outline:
      rectangle: 8 in by overlap
    allowance: 0
    copies:
      only: canvas
  strip:
    strip:
      finished width: width
      length: length of mat.top edge + overlap
      fold: in fourths
      thickness: 1/8 in | 3 mm
    copies:
      only: canvas
bindings:
  edge:
    strip: strip
    binds:
      - mat.top edge
"""


@pytest.mark.parametrize(
    ("words", "times"),
    [
        ("Sew it on, {overlap} from the edge.", 1),
        ("Sew it on, {width} from the edge.", 0),
        ("Sew it on, {crease} from the edge: thick layers take it.", 0),
        ("Begin {overlap} from the edge of the table. Sew it on.", 0),
        ("Sew, and stop {overlap} from the edges.", 0),
    ],
)
def test_how_far_in(words: str, times: int) -> None:
    _, findings = prove_text(
        PATTERN, f"## Bind\n\n1. {words}\n   Does: cut all\n   Does: fold strip\n   Does: bind edge\n"
    )
    assert sum(finding.name == "binding-sewn-too-far-in" for finding in findings) == times
