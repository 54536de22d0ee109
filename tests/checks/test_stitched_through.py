"""What a hem or a facing is stitched through: an opening that lies where its stitching runs."""

import pytest

from publisher.terms import Finding
from tests.specimens import prove_text

PATTERN = """\
pieces:
  apron:
    outline:
      rectangle: 60 cm by 70 cm
    copies:
      only: canvas
    marks:
      pocket corner: point at 20 cm, {rise}, on the right side
  facing:
    outline:
      rectangle: 60 cm by 5 cm
    copies:
      only: canvas
  pocket:
    outline:
      rectangle: 20 cm by 15 cm
    hems:
      top edge: 2 cm
    copies:
      only: canvas
    marks:
      low corner: point at 0, 0, on the right side
seams:
  facing seam:
    join:
      - apron.top edge
      - facing.top edge
placements:
  pocket on apron:
    place: pocket
    on: apron
    matching:
      - low corner to pocket corner
"""
LAID = "   Does: place pocket on apron\n   Does: topstitch pocket\n"
FACED = "   Does: sew facing seam\n   Does: turn facing\n   Does: topstitch facing.bottom edge\n"


def told(rise: str, first: str, then: str) -> list[Finding]:
    steps = f"1. Cut and hem.\n   Does: cut all\n   Does: hem pocket.top edge\n2. Sew.\n{first}3. Sew on.\n{then}"
    return [
        one for one in prove_text(PATTERN.replace("{rise}", rise), steps)[1] if one.name == "stitched-shut-by-the-hem"
    ]


def test_a_facing_is_stitched_down_through_a_pocket_that_opens_within_its_depth() -> None:
    (finding,) = told("52 cm", LAID, FACED)
    assert finding.says.startswith("'top edge' of 'pocket' lies 1 1/8 in (28.6 mm) from 'apron.top edge'")
    assert "step 3 stitches through all layers 2 in (50.8 mm) from the edge" in finding.says


@pytest.mark.parametrize(
    ("rise", "first", "then"),
    [("49 cm", LAID, FACED), ("52 cm", FACED, LAID), ("55 cm", LAID, FACED)],
    ids=["below its depth", "sewn on over the facing", "level with the edge"],
)
def test_other_pockets_stay_open(rise: str, first: str, then: str) -> None:
    assert told(rise, first, then) == []
