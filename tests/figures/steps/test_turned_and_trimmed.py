"""Hems from raw edge to raw edge, corners and tips seen to first, allowances trimmed and snipped, what was sewn before."""

import pytest
import shapely

from publisher.drafting import Notch
from publisher.figures.steps.cloth import Lying
from publisher.figures.steps.marking import mark_shapes
from publisher.figures.steps.values import Dimension, Look, Panel, Shape, Texture
from publisher.geometry import Path, Point, nearest
from tests.figures.steps.drawn_demos import LETTERS, drawn_demo, shown_last
from tests.figures.steps.test_what_figures_show import METRIC, as_area, draft_of, drawn, panel_of, words_of
from tests.specimens import found, prove_text

APRON = "dunlin-workshop-apron"
TOWEL = """\
pieces:
  towel:
    outline:
      rectangle: 20 cm by 10 cm
    allowance:
      all: 1 cm
    hems:
      top edge: 2 cm, turned twice
      right edge: 1 cm, turned twice
    copies:
      only: canvas
"""
ARCH = """\
pieces:
  arch:
    outline:
      rectangle: 20 cm by 10 cm
    allowance:
      all: 1 cm
    copies:
      one: canvas
      other: canvas
"""


def says(dimension: Dimension) -> str:
    return LETTERS[METRIC].say(dimension.says).replace("\u00a0", " ")


def bands(shapes: tuple[Shape, ...], look: Look) -> list[Shape]:
    return [one for one in shapes if one.look is look and one.texture is Texture.PLAIN]


def sewn_in(panel: Panel) -> list[Path]:
    return drawn(panel, Look.STITCHED)


def test_a_hem_reaches_from_raw_edge_to_raw_edge() -> None:
    (flat, _) = shown_last(TOWEL, "cut towel", "hem towel.top edge")
    (band,) = bands(flat.scene.shapes, Look.FOLDED)
    # 20 cm, 1 cm on the left, and on the right what its hem takes, 2 cm: from edge to edge of the cloth; 2 cm deep.
    assert (band.path.box.width, band.path.box.height) == pytest.approx((230.0, 20.0), abs=0.1)
    (row,) = drawn(flat, Look.STITCHING)
    assert row.box.width == pytest.approx(230.0, abs=0.1)


def test_a_hem_that_was_sewn_stays_on_the_wrong_side_and_its_stitching_on_both() -> None:
    (flat, _) = shown_last(TOWEL, "cut towel", "hem towel.top edge", "hem towel.right edge")
    (before,) = bands(flat.scene.shapes, Look.BEFORE)
    assert before.path.box.width == pytest.approx(210.0, abs=0.1)
    assert [path.box.width for path in sewn_in(flat)] == pytest.approx([210.0], abs=0.1)
    (right,) = shown_last(TOWEL, "cut towel", "hem towel.top edge", "topstitch towel.left edge")
    assert len(bands(right.scene.shapes, Look.BEFORE)) == 1  # the towel itself
    assert [path.box.width for path in sewn_in(right)] == pytest.approx([230.0], abs=0.1)


def test_the_turned_hem_of_a_slanting_edge_ends_along_the_raw_sides() -> None:
    panel = panel_of(APRON, 5, "hem")
    (band,) = bands(panel.scene.shapes, Look.FOLDED)
    cloth = panel.scene.shapes[0].path.box
    assert (band.path.box.left, band.path.box.right) == pytest.approx((cloth.left, cloth.right), abs=0.1)


def test_the_tip_at_the_longer_side_is_folded_in_and_only_that() -> None:
    panel = panel_of(APRON, 6, "tip folded in")
    (flap,) = bands(panel.scene.shapes, Look.FOLDED)
    # The allowance of 1 cm, between the slant, 55 in 155, and its mirror image.
    assert as_area(flap).area == pytest.approx(10 * 10 * 55 / 155, rel=0.01)
    kept = as_area(panel.scene.shapes[0])
    assert kept.buffer(0.01).contains(as_area(flap))
    assert all(one.kind != "tip folded in" for one in panels_of_step(7))


def panels_of_step(step: int) -> tuple[Panel, ...]:
    return next(panels for _, one, panels, _ in drawn_demo(APRON, METRIC) if one.number == step)


def test_the_bottom_is_folded_before_the_sides() -> None:
    """Words and figure: both sides lie on the ends of the bottom edge."""
    panel = panel_of(APRON, 7, "fold")
    bottom, *sides = (one.path.box for one in bands(panel.scene.shapes, Look.FOLDED))
    assert bottom.width > bottom.height
    assert [side.bottom for side in sides] == pytest.approx([bottom.bottom] * 2)


def test_a_corner_that_the_next_hem_hides_loses_its_innermost_layer() -> None:
    panel = panel_of(APRON, 11, "corner cut off")
    cuts = drawn(panel, Look.CUT)
    # As wide as the side hem, 12 mm; 5 cm of lower hem less 6 mm high.
    assert [(cut.box.width, cut.box.height) for cut in cuts] == [pytest.approx((12.0, 44.0))] * 2
    cloth = panel.scene.shapes[0].path.box
    assert sorted((cut.box.left, cut.box.right) for cut in cuts) == [
        pytest.approx((cloth.left, cloth.left + 12.0)),
        pytest.approx((cloth.right - 12.0, cloth.right)),
    ]
    assert panel.scene.detail is not None
    assert [says(one) for one in panel.scene.detail.dimensions] == ["1.2 cm", "4.4 cm"]


def test_hems_that_meet_no_other_lose_no_corner() -> None:
    assert shown_last(TOWEL, "cut towel", "hem towel.top edge", "trim towel.right edge") == ()


def test_snips_run_from_the_trimmed_edge_to_just_before_the_stitches_and_the_hems_stay_whole() -> None:
    panel = panel_of(APRON, 16, "trim and clip")
    detail = panel.scene.detail
    assert detail is not None
    (trimmed,) = drawn(panel, Look.CUT)
    armhole = draft_of(APRON).piece("apron").edge("right armhole")
    # Between a side hem of 12 mm and a bib hem of 25; the line lies inside of the quarter circle by 6 mm.
    assert trimmed.length == pytest.approx((armhole.length - 37.0) * (230.0 - 6.0) / 230.0, rel=0.01)
    snips = [one.path for one in detail.shapes if one.look is Look.CUT][1:]
    assert len(snips) > 20
    sewn = [Point(-spot.x, spot.y) for spot in armhole.path.flattened(0.01)]
    line = shapely.LineString([(spot.x, spot.y) for spot in sewn])
    gaps = [sorted(line.distance(shapely.Point(end.x, end.y)) for end in (one.start, one.end)) for one in snips]
    assert gaps == [pytest.approx([0.18 * 6.0, 1.05 * 6.0], abs=0.05)] * len(snips)
    assert [says(one) for one in detail.dimensions] == ["6 mm", "1.2 cm"]


def test_the_stitching_of_a_pocket_shows_on_the_wrong_side_of_what_it_is_on() -> None:
    panel = panel_of(APRON, 10, "hem")
    rows = sewn_in(panel)
    # Three pockets; a pencil line; on each other pocket two corners, where two lines close a triangle with the side.
    assert len(rows) == 3 + 1 + 2 * 2 * 2
    assert all(as_area(panel.scene.shapes[0]).contains(shapely.Point(row.start.x, row.start.y)) for row in rows)


def test_a_marked_line_is_sewn_with_the_edges_and_measured_from_the_one_beside_it() -> None:
    panel = panel_of(APRON, 8, "topstitch")
    assert "pencil line" in words_of(panel)
    assert len(drawn(panel, Look.STITCHING)) == 2
    assert [says(one) for one in panel.scene.dimensions] == ["4 cm"]
    assert [one.kind for one in panels_of_step(8)] == ["placement", "topstitch"]


def test_a_line_across_a_corner_is_measured_along_both_edges() -> None:
    assert [says(one) for one in panel_of(APRON, 9, "topstitch").scene.dimensions] == ["2 cm", "1.2 cm"]


def test_a_fold_that_is_eased_has_one_row_of_long_stitches_near_its_raw_edge() -> None:
    panel = panel_of(APRON, 14, "eased edge")
    (row,) = drawn(panel, Look.STITCHING)
    raw = panel.scene.shapes[0].path
    spots = [row.point_at(row.length * part / 10) for part in range(1, 10)]
    assert [nearest(raw, spot)[2] for spot in spots] == [pytest.approx(3.0, abs=0.1)] * 9
    assert [one.kind for one in panels_of_step(14)] == ["eased edge", "fold"]


def test_edges_that_are_gathered_and_not_folded_have_two_rows() -> None:
    (panel,) = shown_last(ARCH, "cut arch one", "gather arch one.top edge")
    assert len(drawn(panel, Look.STITCHING)) == 2


def test_both_allowances_lie_at_the_facing_that_they_are_stitched_to() -> None:
    section = panel_of(APRON, 18, "facing turned")
    apron, facing = (shape.path for shape in section.scene.shapes if shape.look in (Look.CLOTH, Look.CLOTH_BEFORE))
    # From the top: the apron, room for the cord, its allowance, that of the facing, the facing.
    room, layer = apron.start.y - apron.end.y, abs(facing.end.y - apron.end.y)
    assert room > 2 * layer
    assert len(drawn(section, Look.STITCHED)) == 2


def test_the_ends_of_a_casing_are_told_to_stay_open() -> None:
    assert words_of(panel_of(APRON, 18, "facing stitched")).count("open end") == 2


def test_a_seam_stitched_to_its_allowances_is_shown_from_above_too() -> None:
    above = panel_of(APRON, 17, "understitching from above")
    (sewn,) = drawn(above, Look.STITCHING)
    (hidden,) = drawn(above, Look.HIDDEN)
    assert 0 < sewn.start.y < hidden.start.y


@pytest.mark.parametrize(("step", "kind"), [(5, "hem section"), (10, "hem section"), (20, "fold-once-more")])
def test_what_is_measured_from_the_edge_reaches_from_fold_to_fold(step: int, kind: str) -> None:
    panel = panel_of(APRON, step, kind)
    cloth = next(one.path.box for one in panel.scene.shapes if one.look is Look.CLOTH)
    (across,) = panel.scene.dimensions
    assert max(across.start.x, across.end.x) == pytest.approx(cloth.right, abs=0.05)
    if kind == "fold-once-more":
        assert min(across.start.x, across.end.x) == pytest.approx(cloth.left, abs=0.05)
        assert len(drawn(panel, Look.STITCHING)) == 2


def test_a_notch_is_drawn_larger_beyond_the_raw_edge_and_not_into_the_seam() -> None:
    piece = draft_of(APRON).piece("facing")
    notch = next(mark for mark in piece.marks if isinstance(mark, Notch))
    (shape,) = mark_shapes([notch], Lying("facing right"), new=False, size=2000.0)
    deepest = max((spot - notch.cut_end).dot((notch.at - notch.cut_end).unit()) for spot in shape.path.flattened(0.1))
    assert deepest == pytest.approx((notch.inner_end - notch.cut_end).length)
    assert shape.path.length == pytest.approx(2000.0 * 0.055)


def test_notches_are_named_on_their_own_side() -> None:
    panel = panel_of(APRON, 3, "piece")
    sides = dict(zip(words_of(panel), [one.side for one in panel.scene.callouts], strict=True))
    assert (sides["left notch"], sides["right notch"]) == ("left", "right")


def test_what_is_still_folded_is_drawn_folded_and_pinned() -> None:
    folded, pinned, *_ = panels_of_step(4)
    assert (folded.kind, pinned.kind) == ("marked folded", "pinned through")
    assert "apron, still folded, wrong side" in words_of(folded)
    half = draft_of(APRON).piece("apron").half
    assert half is not None
    outlines = [one.path.box.width for one in folded.scene.shapes if one.closed and one.texture is not None]
    assert outlines == pytest.approx([half.cut_line.box.width] * 2)  # two layers
    upper, lower = (one.path for one in pinned.scene.shapes if one.look is Look.CLOTH_BEFORE)
    chalk = drawn(pinned, Look.MARK)
    assert lower.start.y < chalk[0].start.y < chalk[1].start.y < upper.start.y


def test_only_what_is_cut_on_the_fold_is_still_folded() -> None:
    _, findings = prove_text(TOWEL, "1. Mark.\n   Does: mark towel.middle, still folded\n2. Press.\n")
    assert found(findings, "no-such-name")
    marked = f"{TOWEL}    marks:\n      middle: point at 5 cm, 5 cm\n"
    _, findings = prove_text(marked, "1. Mark.\n   Does: mark towel.middle, still folded\n2. Press.\n")
    assert found(findings, "wrong-kind-of-name").says == "'towel.middle' is on no piece that is cut on the fold"


def test_every_width_of_allowance_is_told_where_cloth_is_cut() -> None:
    assert sorted(map(says, panel_of(APRON, 1, "cutting").scene.dimensions)) == ["1 cm", "2.4 cm", "5 cm"]
    assert sorted(map(says, panel_of(APRON, 2, "cutting").scene.dimensions)) == ["1 cm", "1.2 cm", "6 mm"]


def test_what_a_panel_says_of_itself_stays_when_it_stands_for_others() -> None:
    caption = panel_of(APRON, 18, "facing turned").caption
    assert caption is not None
    assert LETTERS[METRIC].say(caption) == "Cut through, seen from its edge. In the same way: facing left"
