"""What is at an edge already, notches of both halves, closed pleats, rows, basting, and work rolled up: what figures show."""

import math
from itertools import pairwise

import pytest

from publisher.drafting import snipped_notches
from publisher.figures.steps import Panel, facts_of, finished_of
from publisher.figures.steps.values import Look, Texture
from publisher.figures.steps.wording import length_words
from publisher.terms import Phrase, UnitSystem
from tests.demo import demo_proof
from tests.figures.steps.drawn_demos import shown_last
from tests.figures.steps.test_what_figures_show import draft_of, drawn, panel_of, words_of
from tests.specimens import prove_text

METRIC = UnitSystem.METRIC
HAT = "avocet-sun-hat"
# A collar that is sewn round, turned and basted to a neck, then lined: three seams at one edge.
COLLAR = """\
pieces:
  neck:
    outline:
      rectangle: 20 cm by 10 cm
    copies:
      outside: canvas
      lining: canvas
  collar:
    outline:
      rectangle: 20 cm by 6 cm
    copies:
      upper: canvas
      under: canvas
seams:
  collar seam:
    join:
      - collar upper.left edge and collar upper.top edge and collar upper.right edge
      - collar under.right edge and collar under.top edge and collar under.left edge
  collar join:
    join:
      - collar upper.bottom edge
      - neck outside.top edge
  lining join:
    join:
      - neck lining.top edge
      - neck outside.top edge
"""


def test_a_section_shows_all_that_was_joined_to_an_edge_in_its_order() -> None:
    done = ("sew collar seam", "turn collar upper", "sew collar join", "sew lining join, wrong sides together")
    (section,) = shown_last(COLLAR, *done)
    # From the lowest: the lining's wrong side meets the neck's, whose right side meets the collar's; its wrong side the
    # other collar's.
    heights = {one: height.at.y for one, height in zip(words_of(section), section.scene.callouts, strict=True)}
    assert sorted(heights, key=heights.__getitem__) == ["neck lining", "neck outside", "collar upper", "collar under"]


def test_a_section_knows_nothing_of_what_is_sewn_later() -> None:
    (section,) = shown_last(COLLAR, "sew lining join, wrong sides together")
    assert words_of(section) == ["neck lining", "neck outside"]


def test_a_seam_that_is_basted_lies_within_its_allowance_and_is_made() -> None:
    section = panel_of(HAT, 12, "seam section")
    (now,), (before,) = drawn(section, Look.STITCHING), drawn(section, Look.STITCHED)
    right = max(shape.path.box.right for shape in section.scene.shapes if shape.look is Look.CLOTH)
    assert before.start.x < now.start.x < right
    assert "basting, within the allowance" in words_of(section)
    assert not [one for one in demo_proof(HAT).findings if one.name == "seam-not-sewn"]


def test_only_a_seam_lies_wrong_sides_together() -> None:
    steps = "1. Do.\n   Does: baste neck outside.top edge, wrong sides together\n"
    (told,) = [one for one in prove_text(COLLAR, steps)[1] if one.name == "wrong-kind-of-name"]
    assert told.says == "'neck outside.top edge' is no seam, and what lies wrong sides together is a seam's to say"


def test_the_sweatband_is_sewn_to_the_underside_of_the_brim_and_turned_up_over_it() -> None:
    section = panel_of(HAT, 14, "seam section")
    assert words_of(section)[:5] == ["sweatband", "brim under", "brim outside", "band outside", "band lining"]
    turned = panel_of(HAT, 15, "band turned up")
    foot = min(shape.path.box.bottom for shape in turned.scene.shapes)
    by_name = dict(zip(words_of(turned), turned.scene.callouts, strict=True))
    assert by_name["brim outside"].at.x > 0 > by_name["sweatband"].at.x  # the brim goes out, the sweatband lies within
    assert by_name["band outside"].at.y > by_name["sweatband"].at.y > foot


@pytest.mark.parametrize(("piece", "name", "count"), [("crown", "crown side", 2), ("crown", "crown front", 1)])
def test_what_is_snipped_in_folded_cloth_is_in_both_halves(piece: str, name: str, count: int) -> None:
    notches = [notch for notch in snipped_notches(draft_of(HAT).piece(piece)) if notch.name == name]
    assert len(notches) == count
    assert len({round(notch.at.x, 3) for notch in notches}) == count
    assert sum(notch.at.x for notch in notches) == pytest.approx(0.0, abs=1e-6)


def test_both_side_notches_of_the_crown_are_drawn() -> None:
    panel = panel_of(HAT, 9, "edge to sew")
    marks = [path.box for path in drawn(panel, Look.MARK)]
    assert any(box.right > 80 for box in marks)
    assert any(box.left < -80 for box in marks)


def test_a_template_of_several_sizes_has_no_inner_line_to_cut_by() -> None:
    panel = panel_of(HAT, 1, "cutting")
    assert drawn(panel, Look.STITCHED) == []
    said = set(words_of(panel))
    assert {"cloth: cut along the line of your size", "brim interfacing: the same, then trim 1 cm off"} <= said
    single = panel_of("curlew-wash-bag", 1, "cutting")  # of one size: the template shows the line
    assert drawn(single, Look.STITCHED)


def test_rows_of_topstitching_are_drawn_as_far_apart_as_the_step_says() -> None:
    panel = panel_of(HAT, 7, "topstitch")
    rows = sorted((path.box.width for path in drawn(panel, Look.STITCHING)), reverse=True)
    # Rings about one centre: from row to row their boxes are 2 × 1 cm narrower; the brim is 7 cm wide.
    assert len(rows) == 6
    for wider, narrower in pairwise(rows):
        assert wider - narrower == pytest.approx(20.0, abs=0.5)


def test_closed_pleats_show_their_outer_folds() -> None:
    draft = draft_of("turnstone-tool-roll")
    band = draft.piece("pocket band")
    assert band.opened is not None
    placed = panel_of("turnstone-tool-roll", 9, "placement")
    folds = [path for path in drawn(placed, Look.BEFORE_FOLDED) if path.box.width < 0.01]
    pleats = [mark for mark in band.opened.marks if hasattr(mark, "closed")]
    # Each box pleat shows two folds, 2 × its depth apart; the folds of the inverted one meet.
    places = sorted({round(path.start.x, 1) for path in folds})
    assert [len(pleat.closed) for pleat in pleats] == [1, 2, 2]
    expected = sorted(round(low.x, 1) for pleat in pleats for low, _ in pleat.closed)
    assert set(expected) <= {round(place - _left(placed), 1) for place in places} | set(places)


def _left(panel: Panel) -> float:
    return min(shape.path.box.left for shape in panel.scene.shapes if shape.texture is not None)


def test_lines_of_pleats_end_where_the_hem_does() -> None:
    panel = panel_of("turnstone-tool-roll", 8, "pleats")
    top = panel.scene.shapes[0].path.box.top
    lines = [shape.path for shape in panel.scene.shapes if shape.look in (Look.FOLD, Look.INNER_FOLD, Look.PLACEMENT)]
    assert len(lines) == 3 * 6 - 1  # the dotted lines of the inverted pleat are one
    assert max(path.box.top for path in lines) <= top + 0.01


def test_what_is_placed_and_basted_in_one_step_is_one_drawing() -> None:
    panel = panel_of("turnstone-tool-roll", 9, "placement")
    assert len(drawn(panel, Look.STITCHING)) == 3
    with pytest.raises(StopIteration):
        panel_of("turnstone-tool-roll", 9, "basting")


def test_the_flap_is_folded_down_over_the_pockets() -> None:
    panel = panel_of("turnstone-tool-roll", 20, "folded over")
    draft = draft_of("turnstone-tool-roll")
    height = next(mark for mark in draft.piece("roll").marks if mark.name == "flap fold").start.y  # type: ignore[union-attr]
    cloth = [shape for shape in panel.scene.shapes if shape.closed]
    assert max(shape.path.box.top for shape in cloth) == pytest.approx(height, abs=0.1)
    flap = cloth[-1]
    assert flap.texture is Texture.PLAIN  # the outside of the roll
    assert flap.path.box.height == pytest.approx(draft.piece("roll").cut_line.box.top - height, abs=0.1)
    assert panel.scene.arrows[0].foot.y > height > panel.scene.arrows[0].tip.y


def test_a_roll_is_seen_from_its_end_and_its_tie_goes_round_it() -> None:
    panel = panel_of("turnstone-tool-roll", 20, "rolled")
    cloth = drawn(panel, Look.CLOTH)[0]
    tie = max(drawn(panel, Look.CORD), key=lambda path: path.length)
    radii = [math.hypot(spot.x, spot.y) for spot in cloth.flattened(0.1)]
    assert min(math.hypot(spot.x, spot.y) for spot in tie.flattened(0.1)) > max(radii)
    assert "tie: one end round each way" in words_of(panel)


def test_what_is_rolled_up_is_shown_open_on_the_cover_its_tie_outside() -> None:
    proof = demo_proof("turnstone-tool-roll")
    draft = proof.drafts_of(METRIC)[0]
    assembly = proof.assembly_of(draft.variant)
    front, back = finished_of(draft, facts_of(assembly, assembly.steps[-1]))
    assert (front.kind, back.kind) == ("finished front", "finished back")
    edge = draft.piece("roll").finished_line.box.right
    assert max(shape.path.box.right for shape in back.scene.shapes) > edge + 50


SIDE = """\
pieces:
  bag:
    outline:
      rectangle: 20 cm by 10 cm
    copies:
      front: canvas
      back: canvas
seams:
  bag seam:
    join:
      - bag front.left edge and bag front.bottom edge and bag front.right edge
      - bag back.right edge and bag back.bottom edge and bag back.left edge
  top seam:
    join:
      - bag front.top edge
      - bag back.top edge
    leave open: 8 cm
"""


def test_a_seam_is_sewn_from_raw_edge_to_raw_edge() -> None:
    (panel,) = shown_last(SIDE, "sew bag seam")
    box = [path.box for path in drawn(panel, Look.STITCHING)]
    # 10 cm high, an allowance of 1 cm above; round its corners the stitching stays on the seam line.
    assert max(one.top for one in box) == pytest.approx(110.0)
    assert min(one.bottom for one in box) == pytest.approx(0.0, abs=1e-6)
    assert (min(one.left for one in box), max(one.right for one in box)) == pytest.approx((0.0, 200.0), abs=1e-6)


def test_a_gap_ends_where_it_ends_and_the_seam_beside_it_at_the_raw_edges() -> None:
    (panel,) = shown_last(SIDE, "sew top seam")
    ends = sorted(round(x) for path in drawn(panel, Look.STITCHING) for x in (path.start.x, path.end.x))
    # 20 cm and 1 cm of allowance on both sides; 8 cm stay open in the middle.
    assert len(ends) == 4
    assert (ends[0], ends[-1]) == (-10, 210)
    assert ends[1:3] == [60, 140]


def test_a_seam_that_another_crosses_may_end_at_the_seam_lines() -> None:
    (panel,) = shown_last(SIDE, "sew bag seam, from seam line to seam line")
    assert max(path.box.top for path in drawn(panel, Look.STITCHING)) == pytest.approx(100.0)


def test_a_loop_comes_out_of_the_side_seam_that_caught_it() -> None:
    front, back = (panel_of("sanderling-lined-pouch", 16, f"finished {side}") for side in ("front", "back"))
    loop = {"front": front, "back": back}
    bag = {
        side: max(panel.scene.shapes, key=lambda one: one.path.box.width * one.path.box.height).path.box
        for side, panel in loop.items()
    }
    assert max(shape.path.box.right for shape in front.scene.shapes) > bag["front"].right + 10
    assert min(shape.path.box.left for shape in back.scene.shapes) < bag["back"].left - 10
    assert "loop" in words_of(front)


def test_a_handle_goes_from_side_to_side_of_the_finished_back_and_the_tab_holds_its_ring() -> None:
    back = panel_of("curlew-wash-bag", 24, "finished back")
    assert {"handle", "tab front"} <= set(words_of(back))
    wide = draft_of("curlew-wash-bag").piece("hinge").finished_line.box.width
    bands = [shape.path.box for shape in back.scene.shapes if shape.closed]
    handle = next(box for box in bands if abs(box.width - wide) < 25 and box.bottom > 0)  # its ends lie at both sides
    assert 25 < handle.height < 0.5 * wide  # it hangs in a bow
    ring = [shape.path for shape in back.scene.shapes if not shape.closed and shape.path.start == shape.path.end]
    assert len(ring) == 2


@pytest.mark.parametrize(("step", "kind", "says"), [(12, "placement", True), (13, "seam", False)])
def test_what_is_drawn_flat_though_its_corners_are_boxed_says_so(step: int, kind: str, says: bool) -> None:
    caption = panel_of("sanderling-lined-pouch", step, kind).caption
    assert (caption is not None and caption.key == "figures.drawn-unboxed") is says


def test_a_fold_along_no_line_is_a_mistake_told() -> None:
    steps = "1. Do.\n   Does: fold neck outside.crease\n"
    assert "no-such-name" in {one.name for one in prove_text(COLLAR, steps)[1]}


def test_quilting_stays_on_what_it_goes_through() -> None:
    """Lines 4 cm apart: five to either side of the middle, for there are 22 cm; on the outside as on the lining."""
    panel = panel_of("turnstone-tool-roll", 13, "placement")
    rows = [path.start.x for path in drawn(panel, Look.STITCHED) if path.box.width < 0.01 and path.box.height > 200]
    assert sorted(rows) == pytest.approx([at * 40.0 for at in range(-5, 6)])


def test_what_lies_between_the_folds_of_a_binding_is_measured() -> None:
    """Of 46 mm, 10 are turned in on either side: 26 are left, which go 10 up to the edge, 3 round it and 13 down."""
    panel = panel_of("turnstone-tool-roll", 15, "edges pressed in")
    assert [one.says for one in panel.scene.dimensions] == [length_words(one) for one in (10.0, 10.0, 26.0)]


def test_a_binding_folded_over_says_how_far_past_its_stitching() -> None:
    panel = panel_of("turnstone-tool-roll", 19, "binding folded over")
    assert [one.says for one in panel.scene.dimensions] == [length_words(3.0)]
    named = [callout.words for callout in panel.scene.callouts]
    assert named == [Phrase.of("figures.name", name=name) for name in ("binding strip", "roll lining")]


def test_staystitching_runs_as_far_from_the_raw_edge_as_the_words_say() -> None:
    brim, band = (panel_of(HAT, step, "basting") for step in (7, 8))
    assert "8 mm from the raw edge: staystitching" in words_of(brim)
    inner = draft_of(HAT).piece("brim").edge("inner edge")
    (row,) = drawn(brim, Look.STITCHING)
    hole = inner.path.segments[0].radius  # type: ignore[union-attr]
    assert math.hypot(row.start.x, row.start.y) == pytest.approx(hole - 2, abs=0.01)  # 1 cm of allowance, less 8 mm
    # The brims are one by then and sewn through together; the bands are two.
    assert getattr(brim.caption, "key", None) == "figures.through-both"
    assert getattr(band.caption, "key", None) == "figures.alike"
