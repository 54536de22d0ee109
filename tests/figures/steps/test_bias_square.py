"""A bias strip from a square: the drawing has the proportions of the cloth, and as many rounds as the strip takes."""

import math

import pytest

from publisher.figures.steps.values import Look
from publisher.terms import UnitSystem
from tests.figures.steps.drawn_demos import drawn_demo


@pytest.mark.parametrize("units", UnitSystem)
@pytest.mark.parametrize("demo", ["turnstone-tool-roll", "curlew-wash-bag"])
def test_lines_lie_a_strip_apart_on_the_block(demo: str, units: UnitSystem) -> None:
    """A square of side a with seams s gives k = ⌊(a − 2s) / (√2·w)⌋ rounds of a strip w wide (derived from the
    tube: what goes round it is the side less two seams, and each round takes w·√2 of it)."""
    panels = {panel.kind: panel for _, _, drawn, _ in drawn_demo(demo, units) for panel in drawn}
    square, ruled = panels["bias square"].scene, panels["bias block ruled"].scene
    side = square.shapes[0].path.box.width
    strip, seam = (44.45, 6.35) if units is UnitSystem.INCH else (46, 6)  # 1 3/4 in, 1/4 in
    lines = [shape.path for shape in ruled.shapes if shape.look is Look.MARK]
    assert len(lines) + 1 == math.floor((side - 2 * seam) / (math.sqrt(2) * strip))
    rises = [(line.start.y + side, line.end.y) for line in lines]
    for at, (left, right) in enumerate(rises, start=1):
        assert left == pytest.approx(at * strip * math.sqrt(2))
        assert right == pytest.approx(left)  # at 45°
    # Sewn into a tube, the first line's left end meets the corner that is no line's end: one out of step.
    meet = sorted((callout.at for callout in ruled.callouts), key=lambda spot: spot.x)
    assert (meet[0].y + side) - meet[1].y == pytest.approx(strip * math.sqrt(2))
