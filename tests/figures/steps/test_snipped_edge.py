"""An edge snipped before it is sewn to another: so far apart, within its allowance, and only where it curves."""

import pytest

from publisher.figures.steps.values import Look
from tests.figures.steps.drawn_demos import shown_last

RING = """\
measures:
  snips: 1/2 in | 12 mm
pieces:
  collar:
    outline:
      points:
        left:  -10 cm, 0
        right: 10 cm, 0
        top right: 10 cm, 8 cm
        top left: -10 cm, 8 cm
      edges:
        neck:  arc from left to right with radius 15 cm, inwards
        right side: line from right to top right
        top:   line from top right to top left
        left side:  line from top left to left
    copies:
      only: canvas
"""


def test_snips_stand_in_the_allowance_of_a_curve() -> None:
    """No words tell how far apart: 1.6 times the allowance of 1 cm. The arc over 20 cm has 15 · 2 · asin(10 / 15) = 21.9 cm."""
    (panel,) = (one for one in shown_last(RING, "cut all", "clip collar.neck") if one.kind == "snipped edge")
    snips = [shape.path for shape in panel.scene.shapes if shape.look is Look.CUT]
    assert len(snips) == 12  # 21.9 / 1.6 = 13.7: a step or more is left at either end
    for snip in snips:
        assert snip.length == pytest.approx(
            0.87 * 10
        )  # from the raw edge, a little over it, to just before the stitches
    assert panel.scene.detail is not None


def test_a_straight_edge_has_no_curve_to_snip() -> None:
    (panel,) = (one for one in shown_last(RING, "cut all", "clip collar.top") if one.kind == "snipped edge")
    assert not [shape for shape in panel.scene.shapes if shape.look is Look.CUT]
    assert panel.scene.detail is None
