"""The figures of a bag with a zip in a band: what the zip joins, parts between two layers, a panel set in, a tab on a ring."""

import math

import pytest
import shapely

from publisher.figures.steps.values import Look, Texture
from publisher.terms import UnitSystem
from tests.demo import DEMOS
from tests.figures.steps.drawn_demos import LETTERS, drawn_demo
from tests.figures.steps.test_what_figures_show import as_area, as_line, draft_of, drawn, panel_of, words_of

BAG, POUCH = "curlew-wash-bag", "sanderling-lined-pouch"


def test_a_zip_with_covered_ends_is_as_long_as_the_raw_edge() -> None:
    panel = panel_of(BAG, 12, "zip")
    cloth, tape, *ends = (shape.path.box for shape in panel.scene.shapes if shape.closed)
    assert (tape.left, tape.right) == pytest.approx((cloth.left, cloth.right))
    assert [min(end.left - tape.left, tape.right - end.right) for end in ends] == pytest.approx([0.0, 0.0])


def test_the_second_seam_of_a_zip_shows_what_its_first_one_holds() -> None:
    """The upper panel hangs from the zip's other edge: 2.8 cm of tape less two seams of 6 mm show 1.6 cm, and all is 13."""
    panel = panel_of(BAG, 13, "zip")
    assert "upper panel lining, right side, sewn before" in words_of(panel)
    hanging = next(one for one in panel.scene.shapes if one.texture is Texture.LINING)
    wall = next(one for one in panel.scene.shapes if one.closed)
    assert wall.path.box.top - hanging.path.box.top == pytest.approx(6.0 + 16.0, abs=0.05)
    folded = panel_of(BAG, 13, "folded from the zip")
    says = [LETTERS[UnitSystem.METRIC].say(one.says).replace("\u00a0", " ") for one in folded.scene.dimensions]
    assert says == ["1.6 cm", "13 cm"]


def test_parts_between_two_layers_are_one_seam_with_all_layers_in_the_order_of_the_plan() -> None:
    plan, section = panel_of(BAG, 15, "seam onto parts"), panel_of(BAG, 15, "parts between")
    assert plan.caption is None
    assert {"handle, within", "tab front, within"} <= set(words_of(plan))
    at = {words: callout.at.y for words, callout in zip(words_of(section), section.scene.callouts, strict=True)}
    assert sorted(at, key=lambda words: -at[words]) == [
        "hinge outside, wrong side",
        "upper panel outside and wall outside",
        "upper panel lining and wall lining",
        "hinge lining, right side",
    ]


def test_what_was_sewn_at_its_other_end_lies_rolled_up_within() -> None:
    plan = panel_of(BAG, 16, "seam onto parts")
    hinge = max(
        (shape.path.box for shape in plan.scene.shapes if shape.texture is Texture.WRONG), key=lambda b: b.width
    )
    assert all(shape.path.box.right <= hinge.right + 0.1 for shape in plan.scene.shapes if shape.texture is not None)
    assert "wall outside and upper panel outside, rolled up" in words_of(plan)


def test_seams_that_stop_at_the_seam_line_show_where() -> None:
    detail = panel_of(BAG, 15, "seam onto parts").scene.detail
    assert detail is not None
    assert (detail.dimensions[0].end - detail.dimensions[0].start).length == pytest.approx(10.0)


def test_a_panel_is_set_into_a_ring_that_is_wrong_side_out() -> None:
    panel = panel_of(BAG, 20, "set in")
    assert {"panel lid lining, right side", "hinge lining, right side"} <= set(words_of(panel))
    assert len(drawn(panel, Look.STITCHING)) == 2
    assert len(drawn(panel, Look.MARK)) == 5


@pytest.mark.parametrize(("step", "lid", "wall"), [(20, "panel lid", "upper panel"), (21, "panel base", "wall")])
def test_the_layers_of_a_panel_set_in_are_told_with_their_linings(step: int, lid: str, wall: str) -> None:
    names = words_of(panel_of(BAG, step, "seam section"))
    assert sorted(names) == sorted([f"{lid} lining", lid, f"{wall} outside", f"{wall} lining"])


def test_a_tab_is_folded_round_its_ring_and_measured_from_the_raw_edge() -> None:
    """6 cm from the raw edge; of 81 mm of tab, 51 lie below the fold."""
    panel = panel_of(BAG, 7, "ring on")
    letters = LETTERS[UnitSystem.METRIC]
    assert [letters.say(one.says).replace("\u00a0", " ") for one in panel.scene.dimensions] == ["6 cm", "3 mm"]
    tab = [shape.path.box for shape in panel.scene.shapes if shape.closed][-1]
    assert tab.height == pytest.approx(51.0, abs=0.05)
    hinge = panel.scene.shapes[0].path.box
    assert hinge.top - tab.top == pytest.approx(60.0, abs=0.05)
    later = panel_of(BAG, 9, "placement")
    assert any(abs(shape.path.box.height - 51.0) < 0.05 for shape in later.scene.shapes if shape.closed)


def test_a_binding_round_a_seam_shows_its_four_layers_and_its_crease_beside_the_stitches() -> None:
    panel = panel_of(BAG, 23, "binding sewn on")
    names = ["binding strip", "panel lid lining", "panel lid", "upper panel outside", "upper panel lining"]
    assert words_of(panel) == names
    (now,), (before,) = drawn(panel, Look.STITCHING), drawn(panel, Look.STITCHED)
    assert now.start.x > before.start.x
    assert not panel.scene.dimensions
    cut = drawn(panel_of(BAG, 22, "trim and clip"), Look.CUT)
    panel_piece = draft_of(BAG).piece("panel")
    assert sum(path.length for path in cut) > 0.95 * panel_piece.finished_line.length


def test_the_corners_of_a_trimmed_seam_are_rounded_off_from_where_the_step_says() -> None:
    """An arc from 10 mm before each of both square corners, 10 mm outside the stitches; the others are round already."""
    (cut,) = drawn(panel_of(BAG, 22, "trim and clip"), Look.CUT)
    box, edge = cut.box, as_line(cut)
    for corner in (shapely.Point(box.left, box.top), shapely.Point(box.right, box.top)):
        assert edge.distance(corner) == pytest.approx(10 * (math.sqrt(2) - 1), abs=0.05)
    ends = [shapely.Point(box.left + 10, box.top), shapely.Point(box.left, box.top - 10)]
    assert [edge.distance(end) for end in ends] == pytest.approx([0, 0], abs=0.05)


def test_bastings_are_drawn_where_a_step_says_them() -> None:
    assert len(drawn(panel_of(BAG, 5, "placement"), Look.STITCHING)) == 4  # three edges, and up the middle
    strips = drawn(panel_of(BAG, 9, "placement"), Look.STITCHING)
    assert len(strips) == 2
    hinge = as_area(panel_of(BAG, 9, "placement").scene.shapes[0])
    assert all(hinge.bounds[0] < path.start.x < hinge.bounds[2] for path in strips)
    assert len(drawn(panel_of(BAG, 18, "placement"), Look.STITCHING)) > 0
    assert len(drawn(panel_of(POUCH, 12, "placement"), Look.STITCHING)) == 1


def test_a_loop_of_the_side_seam_is_clear_of_the_top_seam() -> None:
    words = words_of(panel_of(POUCH, 14, "bag in bag"))
    assert "flap outside, in between" in words
    assert not any("loop" in one for one in words)


def test_no_other_demo_sets_a_panel_in() -> None:
    kinds = {
        demo: {panel.kind for _, _, panels, _ in drawn_demo(demo, UnitSystem.METRIC) for panel in panels}
        for demo in DEMOS
    }
    assert [demo for demo, names in kinds.items() if "set in" in names] == [BAG]
