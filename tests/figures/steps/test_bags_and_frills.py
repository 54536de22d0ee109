"""Bags of two pieces, frills and tucks, which no demo has: what their figures show."""

from publisher.figures.steps import Panel, lay_out
from publisher.figures.steps.values import Look
from publisher.terms import UnitSystem
from tests.figures.steps.drawn_demos import LETTERS, shown_last

METRIC = UnitSystem.METRIC
PATTERN = """\
pieces:
  bag:
    outline:
      rectangle: 25 cm by 30 cm
    hems:
      top edge: casing for 2 cm, turned under 6 mm
    copies:
      front: canvas
      back: canvas
  frill:
    outline:
      rectangle: 50 cm by 12 cm
    pleats:
      tuck: tuck of 1 cm at 8 cm from the left end of bottom edge, towards the right
    copies:
      only: canvas
  cord:
    strip:
      finished width: 1 cm
      length: 60 cm
      fold: turned
    copies:
      only: canvas
seams:
  bag seam:
    join:
      - bag front.left edge and bag front.bottom edge and bag front.right edge
      - bag back.right edge and bag back.bottom edge and bag back.left edge
  frill seam:
    join:
      - frill.top edge
      - bag front.bottom edge
    ease: 25 cm
"""


def panels(*does: str) -> tuple[Panel, ...]:
    """What the last of several steps shows."""
    return shown_last(PATTERN, *does)


def words_of(panel: Panel) -> list[str]:
    callouts = [*panel.scene.callouts, *(panel.scene.detail.callouts if panel.scene.detail else ())]
    return [LETTERS[METRIC].say(one.words).replace("\u00a0", " ") for one in callouts]


def test_a_seam_round_two_corners_is_cut_across_at_both() -> None:
    (panel,) = panels("sew bag seam", "clip bag seam")
    cuts = [shape.path for shape in panel.scene.shapes if shape.look is Look.CUT]
    # Corners of a 25 × 30 cm bag seen from its wrong side; the cut lies 4 mm outside them, of an allowance of 1 cm.
    corners = [(0.0, 0.0), (-250.0, 0.0)]
    assert len(cuts) == 2
    for x, y in corners:
        spots = [cut.point_at(cut.length / 2) for cut in cuts]
        assert min(round(((spot.x - x) ** 2 + (spot.y - y) ** 2) ** 0.5, 3) for spot in spots) == 4.0
    assert "cut across the corner, not through the stitches" in words_of(panel)


def test_a_bag_is_turned_through_its_open_edge() -> None:
    (panel,) = panels("sew bag seam", "turn bag front")
    (arrow,) = panel.scene.arrows
    assert panel.kind == "turning"
    assert arrow.tip.y > 300.0 > arrow.foot.y  # over its upper edge, 30 cm above its foot


def test_a_cord_goes_through_a_hem_from_side_to_side() -> None:
    (panel,) = panels("hem bag front.top edge", "thread cord through bag front.top edge")
    (way,) = [shape.path for shape in panel.scene.shapes if shape.look is Look.CORD_WITHIN]
    # In the middle of a casing that is 2 cm and some ease deep, along all of the 25 cm.
    assert round(way.length) == 250
    assert 285.0 < way.start.y < 290.0
    assert [arrow.foot.x < arrow.tip.x for arrow in panel.scene.arrows] in ([True, True], [False, False])


def test_a_frill_that_is_gathered_does_not_lie_flat_on_its_partner() -> None:
    kinds = [panel.kind for panel in panels("gather frill.top edge", "sew frill seam")]
    assert kinds == ["edge to sew", "edge to sew", "seam section"]
    assert "gathered by 25 cm" in words_of(panels("gather frill.top edge", "sew frill seam")[-1])


def test_a_tuck_stands_as_high_as_it_is_deep() -> None:
    section = panels("cut all", "pleat frill")[-1]
    (depth,) = section.scene.dimensions
    assert depth.start.x == depth.end.x
    assert LETTERS[METRIC].say(depth.says).replace("\u00a0", " ") == "1 cm"
    assert lay_out([section], LETTERS[METRIC]).width > 20.0
