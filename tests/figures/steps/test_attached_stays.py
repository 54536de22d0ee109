"""What has been set in, held or fused stays on its copy in every later figure, thin, on the face where it lies."""

import pytest

from publisher.figures.steps import Panel
from publisher.figures.steps.values import Look, Shape, Texture
from publisher.geometry import Box
from tests.figures.steps.drawn_demos import shown_last
from tests.figures.steps.test_what_figures_show import as_area, draft_of, drawn, panel_of, words_of

POUCH, BAG = "sanderling-lined-pouch", "curlew-wash-bag"
ACROSS = 18.0  # mm, of the pouch's snap
# A panel on which snaps are set at two places.
PANEL = """\
materials:
  canvas:
    kind: fabric
    name: Canvas
    sold: 150 cm wide
notions:
  snap:
    kind: magnetic snap
    name: Magnetic snap
    across: 18 mm
    count: 2
pieces:
  panel:
    rectangle: 20 cm by 12 cm
    copies:
      only: canvas
    marks:
      place: snap at 4 cm from the middle of bottom edge
      other: snap at 6 cm from the middle of left edge
"""


def middles(panel: Panel, wide: float) -> list[tuple[float, float]]:
    """The middles of the thin bare areas that are so wide."""
    boxes = [shape.path.box for shape in panel.scene.shapes if _is_thin(shape)]
    return [((one.left + one.right) / 2, (one.bottom + one.top) / 2) for one in boxes if abs(one.width - wide) < 0.1]


def _is_thin(shape: Shape) -> bool:
    return shape.look is Look.BEFORE and shape.texture is Texture.PLAIN and shape.closed


def outline(panel: Panel) -> Box:
    return panel.scene.shapes[0].path.box


def test_a_snap_stays_on_its_face_and_its_washer_on_the_other() -> None:
    seam, topstitched = panel_of(POUCH, 6, "seam"), panel_of(POUCH, 16, "topstitch")
    at = next(mark.at for mark in draft_of(POUCH).piece("flap").marks if mark.name == "snap")  # type: ignore[union-attr]
    assert middles(seam, ACROSS) == [pytest.approx((at.x, at.y))]
    prongs = [shape for shape in seam.scene.shapes if _is_thin(shape) and len(shape.path.segments) == 4]
    assert len(prongs) == 2  # bent over the washer
    assert len(middles(topstitched, ACROSS)) == 1
    assert len(middles(topstitched, ACROSS * 0.4)) == 1  # the hollow of a half, in place of prongs


def test_what_was_turned_out_shows_the_snap_of_the_face_that_is_seen() -> None:
    placed = panel_of(POUCH, 12, "placement")
    top, at = outline(placed).top, middles(placed, ACROSS)
    assert len(at) == 1
    assert at[0][1] < top - 80  # it hangs down over the back, its snap at the foot


def test_a_loop_lies_where_it_was_basted_then_within_the_seam_then_comes_out_of_it() -> None:
    snapped, seam, done = (panel_of(POUCH, *which) for which in ((9, "notion"), (10, "seam"), (16, "topstitch")))
    for panel in (snapped, seam):
        loops = [shape.path.box for shape in panel.scene.shapes if abs(shape.path.box.height - 12.0) < 0.1]
        assert any(box.right == pytest.approx(outline(panel).right) for box in loops)
    assert "loop, within" in words_of(seam)
    out = [shape.path.box for shape in done.scene.shapes if shape.look is Look.BEFORE]
    assert any(box.left == pytest.approx(outline(done).right) for box in out)


def test_the_corners_of_an_interfaced_bag_show_it_and_the_turned_bag_its_snap_and_loop() -> None:
    corner, bag = panel_of(POUCH, 11, "corner to box"), panel_of(POUCH, 11, "bag")
    assert [shape.texture for shape in corner.scene.shapes if shape.texture is not None][1:] == [Texture.INTERFACING]
    assert len(middles(bag, ACROSS)) == 1
    strip = draft_of(POUCH).piece("loop").strip
    assert strip is not None
    assert len(middles(bag, strip.finished_length / 2)) == 1  # the loop, folded in half


def test_a_ring_stays_in_its_tab_and_a_handle_comes_out_of_both_seams_of_its_hinge() -> None:
    basted, sewn = panel_of(BAG, 9, "placement"), panel_of(BAG, 16, "topstitch")
    for panel in (basted, sewn):
        rings = [one.path for one in panel.scene.shapes if not one.closed and one.path.start == one.path.end]
        assert len(rings) == 2
    ends = [shape.path.box for shape in sewn.scene.shapes if _is_thin(shape) and len(shape.path.segments) > 4]
    sides = {side: [getattr(box, side) for box in ends] for side in ("left", "right")}
    assert any(at == pytest.approx(outline(sewn).left) for at in sides["right"])
    assert any(at == pytest.approx(outline(sewn).right) for at in sides["left"])


@pytest.mark.parametrize("step", [15, 16])
def test_wadding_stays_on_the_wrong_side_of_what_is_sewn_on(step: int) -> None:
    panel = panel_of(BAG, step, "seam onto parts")
    assert any(shape.texture is Texture.INTERFACING for shape in panel.scene.shapes)


def test_what_is_caught_ends_at_the_edge_that_was_sewn() -> None:
    panel = panel_of(BAG, 16, "seam onto parts")
    cloth = as_area(next(shape for shape in panel.scene.shapes if shape.closed)).buffer(0.1)
    assert all(path.box.right <= cloth.bounds[2] for path in drawn(panel, Look.HIDDEN))


def test_each_half_of_a_snap_has_a_name_of_its_own() -> None:
    assert "half of the snap" in words_of(panel_of(POUCH, 5, "notion"))
    assert "other half of the snap" in words_of(panel_of(POUCH, 9, "notion"))
    third = shown_last(PANEL, "attach snap at panel.place", "attach snap at panel.other", "attach snap at panel.place")
    assert "half of the snap" in words_of(third[0])
