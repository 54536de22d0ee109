"""What is sewn round or beside a hem while its own ends are still raw, and when that is right."""

import pytest

from tests.specimens import prove_text

BAG = """\
pieces:
  bag:
    outline:
      rectangle: 20 cm by 30 cm
    copies:
      front: canvas
      back: canvas
  band:
    outline:
      rectangle: 40 cm by 6 cm
    copies:
      only: canvas
seams:
  left seam:
    join:
      - bag front.left edge
      - bag back.right edge
  right seam:
    join:
      - bag front.right edge
      - bag back.left edge
  band ends:
    join:
      - band.left edge
      - band.right edge
  band seam:
    join:
      - band.bottom edge
      - bag front.top edge and bag back.top edge
"""


def told(pattern: str, *steps: str) -> list[str]:
    text = "".join(f"{number}. {step}\n" for number, step in enumerate(("Cut.\n   Does: cut all", *steps), 1))
    return [one.name for one in prove_text(pattern, f"## Sew\n\n{text}")[1] if one.name.split("-")[1:2] != ["never"]]


SIDES = "Sew the sides.\n   Does: sew left seam\n   Does: sew right seam"
ROUND = "Sew the band round.\n   Does: sew band seam"
ENDS = "Join its ends.\n   Does: sew band ends"


def test_round_a_ring_goes_a_ring() -> None:
    assert "ends-joined-too-late" in told(BAG, SIDES, ROUND, ENDS)
    assert "ends-joined-too-late" not in told(BAG, SIDES, ENDS, ROUND)


def test_what_is_sewn_on_flat_is_joined_with_the_side() -> None:
    flat = ("Sew one side.\n   Does: sew left seam", ROUND)
    assert "ends-joined-too-late" not in told(
        BAG, *flat, "Sew the rest.\n   Does: sew right seam\n   Does: sew band ends"
    )


@pytest.mark.parametrize(
    "words", ["Leave a tail of a hand at each end", "Sew it round and stop a hand before the beginning"]
)
def test_ends_that_are_left_free_are_joined_afterwards(words: str) -> None:
    assert "ends-joined-too-late" not in told(BAG, SIDES, f"{words}.\n   Does: sew band seam", ENDS)


SHIRT = """\
pieces:
  shirt:
    outline:
      rectangle: 40 cm by 50 cm
    hems:
      bottom edge: 1 cm, turned twice
      top edge: 1 cm, turned twice
    copies:
      front: canvas
      back: canvas
seams:
  left seam:
    join:
      - shirt front.left edge
      - shirt back.right edge
"""
SEWN = "Sew the side.\n   Does: sew left seam"


def hem(which: str) -> str:
    return f"Hem.\n   Does: hem shirt {which}.bottom edge\n   Does: hem shirt {which}.top edge"


def test_a_hem_after_a_seam_of_two_raw_edges() -> None:
    assert "hemmed-after-joining" not in told(SHIRT, SEWN, hem("front"), hem("back"))


def test_a_hem_beside_one_that_was_hemmed_before_the_seam() -> None:
    assert told(SHIRT, hem("front"), SEWN, hem("back")).count("hemmed-after-joining") == 1
    assert "hemmed-after-joining" not in told(SHIRT, hem("front"), hem("back"), SEWN)
