"""An edge that is described by a pocket, by a ring, or by what is sewn there."""

import pytest

from tests.specimens import prove_text

PATTERN = """\
notions:
  loop ring:
    kind: ring
    name: D-ring
    inner width: 1 in | 25 mm
pieces:
  back:
    outline:
      rectangle: 60 cm by 20 cm
    copies:
      outside: canvas
      lining: canvas
    marks:
      ring place: point at 4 cm from the middle of top edge, for outside
      half way: point at 10 cm from the middle of top edge, for outside
  pocket:
    outline:
      rectangle: 20 cm by 10 cm
    hems:
      top edge: 1 cm, turned twice
    copies:
      only: canvas
placements:
  pocket on back:
    place: pocket
    on: back lining
    matching:
      - bottom edge
"""


def told(words: str, mark: str = "ring place") -> list[str]:
    steps = (
        f"## Sew\n\n1. Cut.\n   Does: cut all\n2. Lay it.\n   Does: place pocket on back\n   Does: hem pocket.top edge\n"
        f"   Does: attach loop ring at back outside.{mark}\n3. {words}\n   Does: press back lining\n"
    )
    _, findings = prove_text(PATTERN, steps)
    return [finding.says for finding in findings if finding.name == "edge-described-otherwise"]


TOP = [
    "Turn the hat with the back's top edge up. On {back lining} that is the edge to which the pocket opens.",
    "Press the upper edge of {back lining}, the one to which its pocket opens.",
    "Press the top edge of {back outside}, which is nearer to the D-ring.",
    "Press the top edge of {back outside}, that is nearest the D-ring.",
    "Press the bottom edge of {back lining}, the edge to which the pocket's bottom is basted.",
    "Press the lower edge. On {back lining} it is the edge that the pocket's lower edge is sewn to.",
]


@pytest.mark.parametrize("words", TOP)
def test_the_other_edge_is_described(words: str) -> None:
    assert told(words) == []
    swapped = words.replace("upper edge of", "top edge of").replace("Press the lower edge.", "Press the bottom edge.")
    top = swapped.replace("top edge", "#").replace("bottom edge", "top edge").replace("#", "bottom edge")
    assert len(told(top)) == 1


@pytest.mark.parametrize(
    "words",
    [
        "Press the bottom edge of {back outside}, which is nearer the buckle.",
        "Press the bottom edge of {back outside}, the one to which the pocket opens.",
        "Press the left edge of {back lining}, the one nearer the pocket.",
        "On {back lining} that is the edge to which the pocket opens.",
        "Press the bottom edge. On the lining it is the edge to which the pocket opens.",
    ],
)
def test_words_that_describe_nothing_known(words: str) -> None:
    assert told(words) == []


def test_what_lies_half_way_is_nearer_to_neither() -> None:
    assert told("Press the bottom edge of {back outside}, which is nearer the D-ring.", "half way") == []
