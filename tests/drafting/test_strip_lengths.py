"""How long strips are cut: those that may be longer go up to a rounder length, and all that follows is at that length."""

import pytest

from tests.specimens import draft_text

PATTERN = """\
measures:
  around: 52.13 cm
  girth: 2 * around
pieces:
  panel:
    rectangle: girth by 20 cm
    allowance: 1 cm
    copies:
      only: canvas
    marks:
      here: point at the middle of left edge
      there: point at the middle of right edge
  tie:
    strip:
      finished width: 2 cm
      length: {length}
      fold: {fold}
      ends: {ends}
    copies:
      only: canvas
{rest}
"""

ALONG = "seams:\n  along:\n    join:\n      - tie.long edge\n      - panel.bottom edge"
RING = "seams:\n  ring:\n    join:\n      - tie.left end\n      - tie.right end"
LAID = "placements:\n  tie on panel:\n    place: tie\n    on: panel\n    matching:\n"
ONE_END = LAID + "      - left end to here"
LOOP = LAID + "      - left end to here\n      - right end to here"
STRAP = LAID + "      - left end to here\n      - right end to there"


# Twice 52.13 is 104.26 cm; with 12 mm at each end 106.66.
@pytest.mark.parametrize(
    ("length", "fold", "ends", "rest", "cut"),
    [
        ("girth", "in fourths", "12 mm", "", 1070),
        ("girth", "in fourths", "0", "", 1050),
        ("girth", "in fourths", "12 mm", ONE_END, 1070),
        ("girth", "in fourths", "12 mm", LOOP, 1070),
        ("girth", "in fourths", "12 mm", STRAP, 1067),  # from one place to another
        ("girth", "turned", "12 mm", "", 1070),
        ("girth", "doubled", "12 mm", "", 1067),  # sewn in along its length
        ("girth", "in fourths", "12 mm", ALONG, 1067),
        ("girth", "in fourths", "12 mm", RING, 1067),
        ("around", "in fourths", "0", "", 521),  # as it is written
        ("57.5 cm", "in fourths", "0", "", 575),
        ("57.5 cm", "in fourths", "12 mm", "", 600),
        ("around / 2", "in fourths", "0", "", 261),  # short
    ],
)
def test_a_strip_that_may_be_longer_is_cut_to_a_rounder_length(
    length: str, fold: str, ends: str, rest: str, cut: float
) -> None:
    draft, _ = draft_text(PATTERN.format(length=length, fold=fold, ends=ends, rest=rest))
    tie = draft.piece("tie")
    assert tie.cut_width == pytest.approx(cut)
    at_ends = 24 if ends == "12 mm" else 0
    assert tie.edge("long edge").length == pytest.approx(cut - at_ends)
    assert tie.strip is not None
    assert tie.strip.finished_length == pytest.approx(cut - at_ends)
