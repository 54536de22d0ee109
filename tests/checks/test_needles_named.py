"""Needles of the machine that the words name by their size, and those that are listed."""

import tomllib
from pathlib import Path

import pytest

import publisher
from publisher.checks.tools import FOR_A_WEIGHT
from tests.specimens import prove_text

PATTERN = """\
tools:
  - sewing machine
  - 90/14 needle
pieces:
  mat:
    outline:
      rectangle: 30 cm by 10 cm
    copies:
      only: canvas
"""


def told(words: str) -> list[str]:
    steps = f"## Sew\n\n1. {words}\n   Does: cut all\n   Does: topstitch mat.top edge\n"
    _, findings = prove_text(PATTERN, steps)
    return [finding.says for finding in findings if finding.name == "tool-named-not-listed"]


@pytest.mark.parametrize(
    "words", ["Take the 100/16 needle.", "Take a needle of size 100.", "Use a 100/16 jeans needle.", "Needle size 100."]
)
def test_a_size_that_is_not_listed(words: str) -> None:
    assert len(told(words)) == 1


@pytest.mark.parametrize(
    "words", ["Take the 90/14 needle.", "Use a size 14 needle.", "Sew 10 stitches, the needle down.", "Size 16 thread."]
)
def test_a_size_that_is_listed_and_other_numbers(words: str) -> None:
    assert told(words) == []


def test_the_needles_for_a_weight_are_those_that_the_edition_prints() -> None:
    words = Path(publisher.__file__).parents[1] / "layouts" / "words" / "en.toml"
    printed = tomllib.loads(words.read_text(encoding="utf-8"))["needles"]
    for weight, sizes in FOR_A_WEIGHT.items():
        assert all(size in printed[weight] for size in sizes)
