"""What the words say that a piece measures now, and whose size they quote."""

import pytest

from tests.specimens import prove_text

PATTERN = """\
pieces:
  pocket:
    outline:
      rectangle: 16 cm by 10 cm
    copies:
      only: canvas
  band:
    outline:
      rectangle: 15 cm by 10 cm
    copies:
      only: canvas
seams:
  band seam:
    join:
      - pocket.top edge
      - band.top edge
    ease: 1 cm
"""


def told(words: str, does: str = "fold pocket.left edge", before: str = "cut all") -> bool:
    steps = f"## Press\n\n1. Cut.\n   Does: cut all\n   Does: {before}\n2. {words}\n   Does: {does}\n"
    _, findings = prove_text(PATTERN, steps)
    return any(finding.name == "size-of-another-piece" for finding in findings)


@pytest.mark.parametrize(
    "words",
    [
        "The {pocket} is now {width of band} wide.",
        "Each pocket is now {height of pocket} high and {width of band} wide.",
        "Press. It is now {width of band} wide.",
    ],
)
def test_the_size_of_another_piece(words: str) -> None:
    assert told(words)


@pytest.mark.parametrize(
    "words",
    [
        "The {pocket} is now {width of pocket} wide.",
        "The {pocket} is now {height of band} high, as the band is.",  # as high as itself
        "The front is now {width of band} wide.",
        "It lies on the {band}: that is {width of band} wide.",
    ],
)
def test_its_own_size_or_one_that_is_the_same(words: str) -> None:
    assert not told(words)


def test_what_is_sewn_to_another_piece_measures_more() -> None:
    assert not told("It is now {width of band} wide.", before="sew band seam")
