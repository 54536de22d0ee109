"""Cautions follow from what a pattern uses. Common practice, no source; the clearance of magnets is in edition/cautions.py."""

import pytest

from publisher.checks import Proof
from publisher.edition.cautions import cautions_of
from publisher.edition.words import speaker
from publisher.pipeline import prove
from publisher.terms import UnitSystem
from tests.demo import demo_files
from tests.specimens import prove_text

STRIP = """\
pieces:
  tie:
    strip:
      finished width: {width}
      length: {length}
      fold: in fourths
    grain: {grain}
    copies:
      only: canvas
"""


def heads(proof: Proof | None) -> list[str]:
    assert proof is not None
    said = cautions_of(proof, UnitSystem.METRIC, speaker("en", UnitSystem.METRIC))
    return [caution.partition(":")[0] for caution in said]


@pytest.mark.parametrize(
    ("width", "length", "grain", "a_cord"),
    [
        ("2 cm", "60 cm", "up", True),
        ("2 cm", "12 cm", "up", False),  # a loop
        ("4 cm", "60 cm", "up", False),  # a strap
        ("1 cm", "60 cm", "bias", False),  # a binding
    ],
)
def test_a_long_narrow_strip_is_a_cord(width: str, length: str, grain: str, a_cord: bool) -> None:
    proof, _ = prove_text(STRIP.format(width=width, length=length, grain=grain))
    assert ("Cords and ties" in heads(proof)) is a_cord


def test_each_demo_is_cautioned_of_what_it_uses() -> None:
    proof, _ = prove("sanderling-lined-pouch", demo_files("sanderling-lined-pouch"))
    assert heads(proof)[:4] == ["Sewing machine", "Iron", "Scissors, seam ripper and blades", "Rotary cutter"]
    assert "Magnetic snap" in heads(proof)
    assert "Cords and ties" not in heads(proof)
