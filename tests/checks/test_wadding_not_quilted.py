"""Wadding that is cut larger to be quilted, and what holds it."""

import pytest

from tests.specimens import prove_text

PATTERN = """\
  wadding:
    kind: wadding
    name: Cotton wadding
    sold:
      - 42 in wide | 110 cm wide
pieces:
  mat:
    outline:
      rectangle: 30 cm by 20 cm
    copies:
      top: canvas, rough by 2 cm
      wadding: wadding, rough by 2 cm
  cover:
    outline:
      rectangle: 30 cm by 20 cm
    copies:
      only: canvas
placements:
  cover on wadding:
    place: cover
    on: mat wadding
    matching:
      - bottom edge
"""


@pytest.mark.parametrize(
    ("does", "times"),
    [
        (("trim mat wadding",), 1),
        (("topstitch mat top.bottom edge", "trim mat wadding"), 1),
        (("topstitch mat top", "trim mat wadding"), 0),
        (("fuse mat wadding to mat top", "trim mat wadding"), 0),
        (("place cover on wadding", "topstitch cover", "trim mat wadding"), 0),
        (("place cover on wadding", "trim mat wadding", "topstitch cover"), 1),
        (("trim mat top",), 0),
    ],
)
def test_what_holds_it(does: tuple[str, ...], times: int) -> None:
    lines = "".join(f"   Does: {one}\n" for one in ("cut all", *does))
    findings = prove_text(PATTERN, f"## Quilt\n\n1. Quilt.\n{lines}")[1]
    assert sum(one.name == "wadding-not-quilted" for one in findings) == times
