"""What the chart says of one size and not of another stands there with the sizes that it is for."""

import re

import pytest

from publisher.edition import set_edition
from publisher.template_pages import DEFAULT_EDITIONS, Edition
from tests.demo import DEMOS, printed_demo
from tests.pdfium_texts import inks_of
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


@pytest.mark.parametrize("edition", DEFAULT_EDITIONS, ids=lambda edition: edition.name)
@pytest.mark.parametrize("demo", DEMOS)
def test_the_charts_words_stand_above_its_head(demo: str, edition: Edition) -> None:
    pages = [{one.text for one in page} for page in inks_of(printed_demo(edition.name, demo).pdf)]
    (first,) = (page for page in pages if "Cutting chart" in page)
    assert {"No.", "Shape", "Piece"} <= first
