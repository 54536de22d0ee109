"""Which copies of an asymmetric piece are its mirror image, and how the chart says so."""

import pytest

from publisher.terms import Phrase
from tests.specimens import draft_text, prove_text

WING = """\
  cotton:
    kind: lining
    name: Cotton
    sold:
      - 42 in wide | 110 cm wide
  fusible:
    kind: interfacing
    name: Fusible
    sold:
      - 20 in wide | 90 cm wide
  wool:
    kind: wadding
    name: Wool
    sold:
      - 42 in wide | 110 cm wide
pieces:
  wing:
    outline:
      points:
        a: 0 cm, 0 cm
        b: 10 cm, 0 cm
        c: {slant} cm, 6 cm
        d: 0 cm, 6 cm
      edges:
        base: line from a to b
        right side: line from b to c
        top: line from c to d
        left side: line from d to a
    copies:
"""


def turned(copies: str, slant: int = 7) -> list[str]:
    draft, findings = draft_text(WING.format(slant=slant) + "".join(f"      {line}\n" for line in copies.splitlines()))
    assert [finding for finding in findings if draft.variant in finding.variants] == []
    return [copy.name.removeprefix("wing ") for copy in draft.piece("wing").copies if copy.turned_over]


# Common practice, no source: what lies wrong sides together with the outside is its mirror image.
@pytest.mark.parametrize(
    ("copies", "which"),
    [
        ("outside: canvas\nlining: cotton\ninterfacing: fusible, to the finished line", ["lining", "interfacing"]),
        ("outside: canvas\nlining: cotton, not turned over", []),
        ("outside: canvas\nbacking: canvas, turned over", ["backing"]),
        ("outside: canvas\nmiddle: wool", []),  # has no right side
        ("outside: canvas, cut 2\nlining: cotton, cut 2", []),  # there is one of either kind
        ("outside: canvas, cut 2, alike\nlining: cotton, cut 2, alike", ["lining"]),
        ("lining: cotton", []),  # lies behind nothing of its own shape
    ],
)
def test_what_lies_behind_the_outside_is_its_mirror_image(copies: str, which: list[str]) -> None:
    assert turned(copies) == which


def test_a_symmetric_piece_has_no_wrong_way_round() -> None:
    assert turned("outside: canvas\nlining: cotton\nbacking: canvas, turned over", slant=10) == []


def test_the_chart_says_which_template_is_turned_over() -> None:
    proof, _ = prove_text(WING.format(slant=7) + "      outside: canvas\n      lining: cotton\n")
    notes = {row.copy: row.notes for row in proof.tables[0].chart}
    assert notes == {"wing outside": (), "wing lining": (Phrase.of("chart.turned-over"),)}
