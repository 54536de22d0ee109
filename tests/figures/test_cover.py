"""The cover's drawing: what lies on what, in proportion."""

import pytest

from publisher.figures import cover_figure
from publisher.figures.cover import HEIGHT, MARGIN
from publisher.figures.values import Style
from tests.specimens import draft_text, found

BAG = """
{cover}
pieces:
  wall:
    outline:
      rectangle: 20 cm by 10 cm
    copies:
      outside: canvas
      lining: canvas
  pocket:
    outline:
      rectangle: 10 cm by 5 cm
    copies:
      only: canvas
    marks:
      middle: stitching line at the middle of bottom edge
  tab:
    strip:
      finished width: 1 cm
      length: 6 cm
      fold: in fourths
    copies:
      only: canvas
placements:
  pocket on wall:
    place: pocket
    on: wall lining
    matching:
      - bottom edge
      - left edge
  tab on wall:
    place: tab
    on: wall lining
    matching:
      - centre
"""


def drawn(cover: str = "cover drawing: wall lining") -> list[tuple[Style, tuple[float, ...]]]:
    draft, _ = draft_text(BAG.format(cover=cover))
    figure = cover_figure(draft)
    assert figure is not None
    boxes = [(stroke.style, stroke.path.box) for stroke in figure.strokes]
    return [
        (style, tuple(round(x - MARGIN, 3) for x in (box.left, box.bottom, box.right, box.top))) for style, box in boxes
    ]


def test_what_lies_on_the_copy_is_drawn_over_it_at_one_scale() -> None:
    """The wall is 200 × 100 mm and the drawing as high as may be; the pocket lies in its lower left quarter."""
    scale = (HEIGHT - 2 * MARGIN) / 100
    wall, pocket, line = drawn()
    assert wall == (Style.OVERLAY, pytest.approx((0, 0, 200 * scale, 100 * scale), abs=2e-3))
    assert pocket == (Style.OVERLAY, pytest.approx((0, 0, 100 * scale, 50 * scale), abs=2e-3))
    assert line == (Style.STITCHING, pytest.approx((50 * scale, 0, 50 * scale, 50 * scale), abs=2e-3))


def test_without_a_word_the_largest_piece_is_shown() -> None:
    assert len(drawn("")) == 1


def test_a_copy_that_is_not_there_is_told() -> None:
    finding = found(draft_text(BAG.format(cover="cover drawing: wall lininng"))[1], "no-such-name")
    assert finding.mend == "did you mean 'wall lining'?"


APRON = """
cover drawing: apron
pieces:
  apron:
    outline:
      points:
        low middle: 0, 0
        low corner: 20 cm, 0
        top corner: 20 cm, 40 cm
        top middle: 0, 40 cm
      edges:
        base:   line from low middle to low corner
        side:   line from low corner to top corner
        top:    line from top corner to top middle
        middle: line from top middle to low middle
      on the fold along: middle
    copies:
      only: canvas
    marks:
      corner: point at 5 cm, 10 cm
  pocket:
    outline:
      points:
        low inner: 0, 0
        low outer: 10 cm, 0
        top inner: 0, 10 cm
      edges:
        base:  line from low inner to low outer
        slant: line from low outer to top inner
        inner: line from top inner to low inner
    copies:
      only: canvas, {count}
    marks:
      corner: point at 0, 0
      stud: button at 1 cm, 1 cm
placements:
  pocket on apron:
    place: pocket
    on: apron
    matching:
      - corner
"""


def boxes_on_the_apron(count: str) -> list[tuple[float, ...]]:
    """What lies on the apron, in cm: from its left edge, from its base. The drawing is 40 cm high."""
    draft, _ = draft_text(APRON.format(count=count))
    figure = cover_figure(draft)
    assert figure is not None
    scale = (HEIGHT - 2 * MARGIN) / 40
    boxes = [stroke.path.box for stroke in figure.strokes[1:] if stroke.style is Style.OVERLAY]
    return [tuple(round((x - MARGIN) / scale, 2) for x in (box.left, box.bottom, box.right, box.top)) for box in boxes]


def test_a_pair_lies_on_both_halves_of_a_piece_on_the_fold() -> None:
    """The middle lies 20 cm from the left edge, the pocket from 5 to 15 cm beside it."""
    right, left = (25.0, 10.0, 35.0, 20.0), (5.0, 10.0, 15.0, 20.0)
    assert boxes_on_the_apron("cut 2") == [right, left]
    assert boxes_on_the_apron("cut 1") == [right]
    assert boxes_on_the_apron("cut 2, alike") == [right]


def test_what_is_sewn_on_is_shown_and_plain_points_are_not() -> None:
    """Two buttons, one on each pocket; the corners only say where the pockets go."""
    draft, _ = draft_text(APRON.format(count="cut 2"))
    figure = cover_figure(draft)
    assert figure is not None
    assert [stroke.style for stroke in figure.strokes].count(Style.POINT) == 2
