"""The depth that the cover promises, and that of the corners."""

import pytest

from tests.specimens import prove_text

BAG = """\
pieces:
  bag:
    outline:
      points:
        a: 5 cm, 0 cm
        b: 20 cm, 0 cm
        c: 20 cm, 5 cm
        d: 25 cm, 5 cm
        e: 25 cm, 20 cm
        f: 0 cm, 20 cm
        g: 0 cm, 5 cm
        h: 5 cm, 5 cm
      edges:
        base: line from a to b
        right down: line from b to c
        right across: line from c to d
        right side: line from d to e
        top: line from e to f
        left side: line from f to g
        left across: line from g to h
        left down: line from h to a
    copies:
      front: canvas
      back: canvas
seams:
  base seam:
    join:
      - bag front.base
      - bag back.base
  right seam:
    join:
      - bag front.right side
      - bag back.right side
  left seam:
    join:
      - bag front.left side
      - bag back.left side
  right corner:
    join:
      - bag front.right down and bag back.right down
      - bag front.right across and bag back.right across
  left corner:
    join:
      - bag front.left down and bag back.left down
      - bag front.left across and bag back.left across
"""


def told(**sizes: str) -> list[str]:
    lines = "".join(f"  {name.replace('_', ' ')}: {size}\n" for name, size in sizes.items())
    _, findings = prove_text(f"finished size:\n{lines}{BAG}")
    return [one.says for one in findings if one.name == "depth-not-the-corners"]


def test_both_numbers_are_told() -> None:
    (says,) = set(told(height="height of bag", depth="length of bag.right across"))
    assert "depth is 2 in (50.8 mm), and the corner 'right corner' is 4 in (101.6 mm) long" in says


@pytest.mark.parametrize(
    "sizes",
    [
        {"height": "height of bag", "depth": "2 * length of bag.right across"},
        {"height": "height of bag", "depth": "9.9 cm"},
        {"width": "width of bag", "depth": "height of bag"},
        {"height": "height of bag", "pocket_depth": "3 cm"},
    ],
)
def test_other_depths(sizes: dict[str, str]) -> None:
    assert told(**sizes) == []
