"""What the chart says of one size and not of another stands there with the sizes that it is for."""

import re

from publisher.edition import set_edition
from publisher.template_pages import DEFAULT_EDITIONS
from tests.specimens import prove_text

TIES = """\
sizes:
  - S
  - M
  - L
measures:
  tie length:
    S: 56 in | 140 cm
    M: 56 in | 140 cm
    L: 60 in | 150 cm
pieces:
  tie:
    strip:
      finished width: 3/8 in | 1 cm
      length: tie length
      fold: in fourths
      ends: 0
      joins: allowed
    copies:
      only: canvas
"""


def test_lengths_that_differ_by_size_are_told_for_each() -> None:
    """Of 140 cm two lengths of (140 + 4) / 2 = 72 cm, of 150 two of 77."""
    proof, _ = prove_text(TIES)
    html = set_edition(proof, DEFAULT_EDITIONS[1]).html.replace("\N{NO-BREAK SPACE}", " ")
    (notes,) = re.findall(r'<tr class="notes">.*?<td colspan="6">(.*?)</td>', html, re.DOTALL)
    assert notes.startswith(
        "Folded in fourths along its length. S and M: Cut 2 strips across the cloth, each 72 cm long;"
    )
    assert (
        "L: Cut 2 strips across the cloth, each 77 cm long; join them on the diagonal, and trim the whole to 150 cm"
        in notes
    )
