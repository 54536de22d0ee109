"""The edge that a step tells, against the one that its line works on."""

import pytest

from tests.specimens import prove_text

PATTERN = """\
pieces:
  front:
    outline:
      rectangle: 30 cm by 30 cm
    copies:
      only: canvas
  pocket:
    outline:
      rectangle: 20 cm by 10 cm
    hems:
      top edge: 1 cm, turned twice
    joint edges:
      sewn edges:
        - left edge
        - bottom edge
        - right edge
    copies:
      outside: canvas
      lining: canvas
seams:
  hem seam:
    join:
      - front.bottom edge
      - pocket lining.bottom edge
placements:
  pocket on front:
    place: pocket outside
    on: front
    matching:
      - bottom edge
"""


def told(words: str, *does: str) -> list[str]:
    lines = "".join(f"   Does: {one}\n" for one in does or ("hem pocket outside.top edge",))
    _, findings = prove_text(PATTERN, f"## Sew\n\n1. Cut.\n   Does: cut all\n2. {words}\n{lines}")
    return [finding.says for finding in findings if finding.name == "done-at-another-edge"]


@pytest.mark.parametrize(
    "words",
    [
        "Hem the bottom edge of the {pocket}, and press.",
        "Press, and hem the lower edge of {pocket outside}.",
        "Hem the bottom of the pocket.",
        "Hem the straight lower edge.",
        "Hem its bottom edge: fold it twice.",
    ],
)
def test_the_line_works_at_another_edge(words: str) -> None:
    (says,) = told(words)
    assert says.startswith("step 2 says 'hem' of the 'bottom edge' of 'pocket'")


@pytest.mark.parametrize(
    "words",
    [
        "Hem the top edge of the {pocket}.",
        "Hem the upper edge of {pocket outside}.",
        "Hem the top and the bottom edge of the {pocket}.",
        "Hem the bottom edge of the {front}.",
        "Hem the bottom edge of {pocket lining}.",
        "Do not hem the bottom edge of the {pocket} yet.",
        "Before you hem the bottom edge of the {pocket}, turn it in twice and stitch.",
        "Hem the side edges of the {pocket}.",
        "Hem the wide edge of the {pocket}.",
        "Hem the {pocket}, and leave its bottom edge raw.",
        "Hem the bottom edge of the {pocket}, and after it the top.",
    ],
)
def test_words_that_tell_no_other_edge(words: str) -> None:
    assert told(words) == []


def test_what_the_step_does_at_the_told_edge() -> None:
    assert told("Baste the top edge of the {pocket}.", "baste pocket outside.sewn edges") != []
    assert told("Baste the bottom edge of the {pocket}.", "baste pocket outside.sewn edges") == []
    sewn = ("sew hem seam", "topstitch pocket lining.top edge")
    assert told("Topstitch the bottom edge of the {pocket}.", *sewn) == []


def test_an_edge_of_the_whole_work_may_be_another_pieces() -> None:
    laid = ("place pocket on front", "baste pocket outside.bottom edge")
    assert told("Lay the pocket on, and baste along the top edge.", *laid) == []
