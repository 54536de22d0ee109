"""What has no allowance is cut by the line of its size where a template holds several sizes, and counted so."""

import pytest

from publisher.cloth import plan_cloth
from tests.specimens import draft_text

PIECE = """\
pieces:
  brim:
    outline:
      rectangle: {wide} by 10 cm
    copies:
      outside: canvas
      interfacing: canvas, to the finished line
"""
SIZED = "sizes:\n  - S\n  - M\nmeasures:\n  across:\n    S: 8 in | 20 cm\n    M: 9 in | 22 cm\n"


@pytest.mark.parametrize(
    ("pattern", "sides"),
    [
        (PIECE.format(wide="20 cm"), [100, 200]),  # along the inner line of its own template
        (SIZED + PIECE.format(wide="across"), [120, 220]),  # 1 cm more all round, trimmed afterwards
    ],
    ids=("one size", "two sizes"),
)
def test_interfacing_is_laid_as_it_is_cut(pattern: str, sides: list[int]) -> None:
    """Of the smallest size, in metric."""
    cloth, _ = plan_cloth(draft_text(pattern)[0])
    laid = [one for layout in cloth.layouts for one in layout.laid if one.copy == "brim interfacing"]
    assert laid
    for one in laid:
        assert sorted((one.width, one.length)) == pytest.approx(sides)
