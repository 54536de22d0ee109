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
