"""What the name of a material says of its glue, and whether a step fuses it."""

import pytest

from tests.specimens import HEAD, prove

SEWN = """\
  interfacing:
    kind: interfacing
    name: {name}
    sold:
      - 20 in wide | 90 cm wide
pieces:
  brim:
    outline:
      rectangle: 30 cm by 10 cm
    copies:
      outside: canvas
      interfacing: interfacing
  band:
    outline:
      rectangle: 30 cm by 5 cm
    copies:
      only: canvas
seams:
  join:
    join:
      - band.bottom edge
      - brim outside.top edge
  inner join:
    join:
      - band.top edge
      - brim interfacing.top edge
"""


def told(name: str, *does: str) -> list[str]:
    lines = "".join(f"   Does: {one}\n" for one in ("cut all", *does))
    texts = {"pattern.yaml": HEAD + SEWN.replace("{name}", name), "steps.md": f"## Sew\n\n1. Sew.\n{lines}"}
    _, findings = prove("specimen", {file: text.encode() for file, text in texts.items()})
    assert not [one for one in findings if one.name.startswith(("bad-", "unknown"))]
    return [one.name for one in findings if one.name in ("fused-and-sewn-in", "placed-not-fused")]


@pytest.mark.parametrize(
    "name", ["Sew-in canvas", "A sewn-in interfacing", "Non-fusible interfacing", "Light, not fusible"]
)
def test_sewn_in(name: str) -> None:
    assert told(name, "fuse brim interfacing to brim outside") == ["fused-and-sewn-in"]
    assert told(name, "sew inner join") == []


@pytest.mark.parametrize("name", ["Fusible interfacing", "Iron-on interfacing"])
def test_fusible(name: str) -> None:
    assert told(name, "fuse brim interfacing to brim outside") == []
    assert told(name, "sew inner join") == ["placed-not-fused"]
    assert told(name, "sew inner join", "fuse brim interfacing to brim outside") == []


def test_a_name_that_says_nothing_of_it() -> None:
    assert (
        told("Firm interfacing", "fuse brim interfacing to brim outside")
        == told("Firm interfacing", "sew inner join")
        == []
    )
