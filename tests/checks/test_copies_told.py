"""The copy that the words bring to something, and the copy whose seam the line sews."""

import pytest

from tests.specimens import prove_text

PATTERN = """\
pieces:
  brim:
    outline:
      rectangle: 30 cm by 10 cm
    copies:
      outside: canvas
      under: canvas
  band:
    outline:
      rectangle: 30 cm by 5 cm
    copies:
      only: canvas
seams:
  band join:
    join:
      - band.bottom edge
      - brim under.top edge
  brim seam:
    join:
      - brim outside.bottom edge
      - brim under.bottom edge
placements:
  band on brim:
    place: band
    on: brim under
    matching:
      - top edge
"""


def told(words: str, *does: str) -> list[str]:
    lines = "".join(f"   Does: {one}\n" for one in does or ("sew band join",))
    _, findings = prove_text(PATTERN, f"## Sew\n\n1. Cut.\n   Does: cut all\n2. {words}\n{lines}")
    return [finding.says for finding in findings if finding.name == "step-names-another"]


@pytest.mark.parametrize(
    "words",
    [
        "Pin the band on {brim outside}, and sew.",
        "Put {brim outside} and {band} right sides together, and sew.",
        "Turn the work with its underside up. Lay the {band} on the right side of {brim outside}. Sew.",
    ],
)
def test_the_seam_is_that_of_the_copy_below(words: str) -> None:
    assert told(words) == ["step 2 names 'brim outside', and does this to 'brim under', which its words do not name"]


def test_a_placement_lies_on_the_copy_below() -> None:
    assert told("Lay the {band} on {brim outside}, edges level.", "place band on brim") != []
    assert told("Lay the {band} on {brim under}, edges level.", "place band on brim") == []


@pytest.mark.parametrize(
    "words",
    [
        "Pin the band on {brim under}, and sew.",
        "Pin the band on the brim, and keep {brim outside} out of the way.",
        "Pin the band on the under brim, right sides together, and lay {brim outside} aside.",
        "Sew the band on, without catching {brim outside}.",
        "Sew the band on in the same way as {brim outside}.",
        "Sew the band on, with {brim outside} folded away.",
        "Lay {brim outside} aside. Sew the band on.",
        "Pin the band on and fold {brim outside} back.",
        "Sew the band on with {brim outside} uppermost.",
        "Sew the band on. {brim outside} stays as it is.",
    ],
)
def test_words_that_name_the_same_copy_or_only_tell_of_the_other(words: str) -> None:
    assert told(words) == []


def test_a_copy_that_the_step_works_on_as_well() -> None:
    assert told("Pin {band} on {brim outside}, and sew.", "sew band join", "sew brim seam") == []
