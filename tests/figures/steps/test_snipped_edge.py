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


BAND = """\
pieces:
  lid:
    outline:
      points:
        left:      0, 0
        right:     20 cm, 0
        top right: 20 cm, 10 cm
        top left:  0, 10 cm
      edges:
        back:   line from left to right
        right side: line from right to top right
        front:  line from top right to top left
        left side:  line from top left to left
      round:
        top right: 5 cm
        top left: 5 cm
    joint edges:
      around:
        - right side
        - top right
        - front
        - top left
        - left side
    copies:
      only: canvas
  band:
    outline:
      rectangle: length of lid.around by 6 cm
    copies:
      only: canvas
seams:
  lid seam:
    join:
      - lid.around
      - band.top edge
"""


def test_a_straight_edge_is_snipped_where_what_it_is_sewn_to_curves() -> None:
    """By hand: 5 cm, a quarter of a circle of 5 cm, 7.85, 10 cm, 7.85, 5 cm. At every 1.6 cm: 6.4 to 12.8, and 24 to 30.4."""
    (panel,) = (one for one in shown_last(BAND, "cut all", "clip band.top edge") if one.kind == "snipped edge")
    snips = [shape.path for shape in panel.scene.shapes if shape.look is Look.CUT]
    whole = 50 + 157.08 + 100 + 50
    along = sorted(whole - snip.start.x for snip in snips)  # the top edge runs from the right to the left
    assert along == pytest.approx([64, 80, 96, 112, 128, 240, 256, 272, 288, 304], abs=0.1)
