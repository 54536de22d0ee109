"""Interfacing without a grain: its pieces may be turned on it, and the chart says so."""

import pytest

from publisher.cloth import lay_out
from tests.specimens import draft_text, found, prove_text

PIECES = """\
  interfacing:
    kind: interfacing
    name: Bonded interfacing
    sold:
      - 20 in wide | 50 cm wide
    {line}
pieces:
  band:
    rectangle: 70 cm by 12 cm
    allowance: 0
    {grain}
    copies:
      outside: canvas
      inside: interfacing
"""


@pytest.mark.parametrize("grain", ["", "grain: across", "grain: up, one way"])
def test_pieces_are_turned_where_there_is_no_grain(grain: str) -> None:
    """A band of 70 × 12 cm is wider than interfacing of 50 cm, and lies along it; on canvas it lies by its grain."""
    draft, findings = draft_text(PIECES.format(line="grain: either way", grain=grain))
    assert findings == ()
    cloth, unlaid = lay_out(draft)
    assert unlaid == ()
    outside, inside = (layout.laid[0] for layout in cloth.layouts)
    assert (inside.width, inside.length) == (pytest.approx(120), pytest.approx(700))
    assert outside.width == pytest.approx(120 if grain == "grain: across" else 700)


def test_the_chart_says_so() -> None:
    proof, _ = prove_text(PIECES.format(line="grain: either way", grain=""))
    grains = {row.copy: row.grain.key for row in proof.tables[0].chart}
    assert grains == {"band outside": "chart.grain-up", "band inside": "chart.grain-either"}


def test_without_it_the_band_is_too_wide() -> None:
    _, findings = prove_text(PIECES.format(line="shrinkage: 0%", grain=""))
    told = found(findings, "piece-wider-than-cloth")
    assert told.says.startswith("'band inside' is 27 31/64 in (698.0 mm) wide and 'interfacing' 20 in (508.0 mm)")
    assert "say of 'interfacing' that it has no grain (grain: either way)" in (told.mend or "")


@pytest.mark.parametrize(
    ("line", "name", "words"),
    [
        ("grain: up", "no-such-grain", "'up' is said of the grain of 'interfacing'"),
        ("grain: either way\n    nap: one way", "nap-without-grain", "'interfacing' has a nap, and no grain"),
    ],
)
def test_grains_that_cannot_be(line: str, name: str, words: str) -> None:
    draft, findings = draft_text(PIECES.format(line=line, grain=""))
    told = found(tuple(one for one in findings if draft.variant in one.variants), name)
    assert words in told.says
