"""A quote behind the name of a thing that has a measure of its own."""

import pytest

from tests.specimens import prove_text

PATTERN = """\
measures:
  flap width: 4 in | 10 cm
  loop width: 3 in | 8 cm
  flap drop: 2 in | 5 cm
  cut width: 5 in | 13 cm
  room: flap width + loop width + flap drop + cut width
pieces:
  front:
    outline:
      rectangle: room by room
    copies:
      only: canvas
"""


def told(words: str) -> list[str]:
    _, findings = prove_text(PATTERN, f"## Sew\n\n1. {words}\n   Does: cut all\n")
    return [finding.says for finding in findings if finding.name == "quote-of-another"]


@pytest.mark.parametrize("words", ["It has a flap, loop {flap width}.", "The width of the loop {flap width} is shown."])
def test_the_quote_is_of_the_other_thing(words: str) -> None:
    assert told(words) == ["step 1 tells 'flap width' behind the word 'loop', and there is a measure 'loop width'"]


@pytest.mark.parametrize(
    "words",
    [
        "It has a flap, loop {loop width}.",
        "Sew the loop {flap drop} below the edge.",
        "Sew the loop {flap width} from the edge.",
        "Lay it down, cut {flap width} of tape.",
        "Make the tab {flap width} wide.",
        "Loop {flap width} of cord.",
    ],
)
def test_words_that_name_no_other_thing(words: str) -> None:
    assert told(words) == []
