"""Copies with allowances of their own: cut from a piece of their own with the same finished line."""

import pytest

from publisher.drafting import Notch
from tests.specimens import draft_text, found, prove_text

COTTON = """\
  cotton:
    kind: lining
    name: Cotton
    sold:
      - 42 in wide | 110 cm wide
"""
POUCH = (
    COTTON
    + """\
pieces:
  pouch:
    outline:
      rectangle: 20 cm by 15 cm
    allowance:
      all: 1 cm
      top edge: 0
{allowances}
    copies:
      outside: canvas
      interfacing: canvas, to the finished line
      lining: cotton
    marks:
      middle: notch at the middle of bottom edge
      label: point at 5 cm, 5 cm, for lining
      loop: point at 9 cm, 9 cm, for outside
  gusset:
    rectangle: 20 cm by 5 cm
    copies:
      lining: cotton
"""
)
LARGER = """\
      lining:
        left edge: 15 mm
        right edge: 15 mm
        bottom edge: 2 cm"""


def test_a_lining_with_larger_sides_is_a_piece_of_its_own() -> None:
    draft, findings = draft_text(POUCH.format(allowances=LARGER))
    assert findings == ()
    assert [(piece.number, piece.name) for piece in draft.pieces] == [(1, "pouch"), (2, "pouch lining"), (3, "gusset")]
    outside, lining = draft.piece("pouch"), draft.piece("pouch lining")
    assert [copy.name for copy in outside.copies] == ["pouch outside", "pouch interfacing"]
    assert [(copy.name, copy.piece) for copy in lining.copies] == [("pouch lining", "pouch lining")]
    # 200 + 2 × 10 by 150 + 10 + 0; 200 + 2 × 15 by 150 + 20 + 0.
    assert [(piece.cut_width, piece.cut_height) for piece in (outside, lining)] == [(220, 160), (230, 170)]
    assert outside.finished_line == lining.finished_line


def test_each_bears_its_own_marks_and_notches_reach_from_its_own_cut_line() -> None:
    draft, _ = draft_text(POUCH.format(allowances=LARGER))
    outside, lining = draft.piece("pouch"), draft.piece("pouch lining")
    assert [[mark.name for mark in piece.marks] for piece in (outside, lining)] == [
        ["middle", "loop"],
        ["middle", "label"],
    ]
    ends = [mark.cut_end.y for piece in (outside, lining) for mark in piece.marks if isinstance(mark, Notch)]
    assert ends == [-10, -20]


def test_one_value_is_for_all_edges_of_a_copy() -> None:
    lining = draft_text(POUCH.format(allowances="      lining: 5 mm"))[0].piece("pouch lining")
    assert {edge.allowance for edge in lining.edges} == {5}


def test_a_copy_with_the_same_allowances_stays_with_its_piece() -> None:
    # Of its own it says what the piece says anyhow, edge by edge.
    draft, _ = draft_text(POUCH.format(allowances="      lining:\n        all: 1 cm\n        top edge: 0"))
    assert [piece.name for piece in draft.pieces] == ["pouch", "gusset"]


def test_a_material_has_its_own_where_the_piece_says_nothing() -> None:
    draft, findings = draft_text(
        POUCH.format(allowances="").replace("name: Cotton", "name: Cotton\n    allowance: 12 mm")
    )
    assert findings == ()
    assert {edge.allowance for edge in draft.piece("gusset").edges} == {12}
    assert [piece.name for piece in draft.pieces] == ["pouch", "gusset"]


def test_copies_alike_are_one_piece_named_by_their_material() -> None:
    pattern = POUCH.format(allowances="      front: 5 mm\n      back: 5 mm").replace(
        "      lining: cotton\n    marks", "      front: cotton\n      back: cotton\n    marks"
    )
    draft, _ = draft_text(pattern.replace("for lining", "for front"))
    assert [copy.name for copy in draft.piece("pouch cotton").copies] == ["pouch front", "pouch back"]


SEAM = """\
seams:
  mouth:
    join:
      - pouch outside.bottom edge
      - pouch lining.bottom edge
"""
STEPS = """\
## Sew
1. Sew it.
   Does: cut all
   Does: sew mouth
"""


def test_raw_edges_apart_are_told_unless_they_are_meant() -> None:
    _, findings = prove_text(POUCH.format(allowances=LARGER) + SEAM, STEPS)
    told = found(findings, "allowances-of-partners-differ")
    assert "allowances of 3/8 in (9.5 mm) and 3/4 in (19.1 mm)" in told.says
    _, findings = prove_text(POUCH.format(allowances=LARGER) + SEAM + "    allowances: differ\n", STEPS)
    assert "allowances-of-partners-differ" not in {finding.name for finding in findings}


@pytest.mark.parametrize(
    ("allowances", "name", "words", "mend"),
    [
        (
            "      lning:\n        left edge: 1 cm",
            "no-such-copy",
            "there is no copy called 'lning' to give allowances to",
            "did you mean 'lining'?",
        ),
        ("      lining:\n        lft edge: 1 cm", "no-such-edge", "'pouch lining' has no edge called 'lft edge'", None),
        ("      lining:\n        left edge:\n          - 1", "wrong-kind", "'left edge' is not one value", None),
    ],
)
def test_allowances_that_nothing_has(allowances: str, name: str, words: str, mend: str | None) -> None:
    draft, findings = draft_text(POUCH.format(allowances=allowances))
    told = found(tuple(one for one in findings if not one.variants or draft.variant in one.variants), name)
    assert words in told.says
    assert mend is None or told.mend == mend
