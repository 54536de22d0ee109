"""What is told once and at its cause, with all names that it may mean."""

import pytest

from publisher.terms import Finding, Severity
from tests.specimens import prove_text

PIECE = """\
pieces:
  panel:
    outline:
      rectangle: width by height
    copies:
      only: canvas
"""


def told(pattern: str, steps: str, name: str) -> list[Finding]:
    return [finding for finding in prove_text(pattern, steps)[1] if finding.name == name]


def test_measures_that_follow_one_that_is_apart_are_not_told() -> None:
    measures = "measures:\n  width: 8 in | 23 cm\n  half: width / 2\n  height: half + 2 cm\n"
    (found,) = told(measures + PIECE, "", "native-pair-apart")
    assert found.says.startswith("'width' is 8 in")


def test_a_measure_with_a_slip_of_its_own_is_told_beside_another() -> None:
    measures = "measures:\n  width: 8 in | 23 cm\n  height: 4 in | 12 cm\n"
    assert len(told(measures + PIECE, "", "native-pair-apart")) == 2


def test_of_what_is_left_below_nought_no_ratio_is_told() -> None:
    measures = "measures:\n  width: 8 in | 20 cm\n  height: 9 in | 23 cm\n  room: width + 3 cm - height - 1 in\n"
    assert told(measures + PIECE, "", "native-pair-apart") == []


def test_a_typed_length_names_all_measures_that_have_it() -> None:
    measures = "measures:\n  width: 8 in | 20 cm\n  height: 4 in | 10 cm\n  drop: 4 in | 10 cm\n"
    (found,) = told(measures + PIECE, "## Cut\n\n1. Mark 4 in.\n   Does: cut all\n", "loose-number")
    assert "which is the measure 'height' or 'drop'" in found.says
    assert found.mend.startswith("write {height} or {drop}, whichever is meant,")


SEAM = """\
measures:
  width: 8 in | 20 cm
  height: 4 in | 10 cm
  ease: 1/2 in | 12 mm
pieces:
  panel:
    outline:
      rectangle: width by height
    copies:
      front: canvas
      back: canvas
seams:
  base seam:
    join:
      - panel front.bottom edge
      - panel back.bottom edge
"""


def test_a_seam_with_ease_tells_what_its_first_side_should_be() -> None:
    (found,) = told(SEAM + "    ease: ease\n", "", "seam-lengths-differ")
    assert found.says == (
        "'panel front.bottom edge' is 8 in (203.2 mm) and 'panel back.bottom edge' is 8 in (203.2 mm); with 1/2 in "
        "(12.7 mm) ease counted the first should be 8 1/2 in (215.9 mm): 1/2 in (12.7 mm) apart"
    )


@pytest.mark.parametrize(
    ("words", "systems"), [("1/4 in", 1), ("6 mm", 1), ("3/8 in", 0), ("1 cm", 0), ("{ease}", 2), ("¼ in seam", 1)]
)
def test_an_allowance_told_is_that_of_the_edges(words: str, systems: int) -> None:
    steps = f"## Sew\n\n1. Sew with a {words} allowance.\n   Does: cut all\n   Does: sew base seam\n"
    found = told(SEAM, steps, "allowance-not-the-edges")
    assert [one.severity for one in found] == [Severity.ERROR] * bool(systems)
    assert sum(len(one.variants) for one in found) == systems


ZIPPED = (
    SEAM
    + """\
notions:
  zip:
    kind: zip
    name: Zip
    length: 7 in | 18 cm
"""
)


def test_a_zip_is_sewn_with_the_allowance_of_its_edges() -> None:
    sewn = "## Sew\n\n1. Sew with a {ease} allowance.\n   Does: cut all\n   Does: sew base seam\n   Does: attach zip at"
    assert told(ZIPPED, f"{sewn} panel front.bottom edge\n", "allowance-not-the-edges")
    assert not told(ZIPPED, f"{sewn} panel front.top edge\n", "allowance-not-the-edges")


PLACED = (
    SEAM
    + """\
  side seam:
    join:
      - panel front.left edge
      - panel back.right edge
placements:
  back on front:
    place: panel back
    on: panel front
    matching:
      - top edge
"""
)
DONE = ("cut all", "sew base seam", "sew side seam", "place back on front", "topstitch panel front.bottom edge")
FOLLOWS = {"seam-never-sewn", "placement-never-placed", "topstitched-too-early"}


@pytest.mark.parametrize(
    ("was", "now", "follow"),
    [
        ("sew base seam", "sew bse seam", set()),
        ("sew base seam", "sew lining", {"seam-never-sewn", "topstitched-too-early"}),
        ("sew base seam", "press panel front", {"seam-never-sewn", "topstitched-too-early"}),
        ("place back on front", "place bck on front", set()),
        ("place back on front", "press panel front", {"placement-never-placed"}),
    ],
)
def test_what_a_misspelt_line_means_is_not_told_as_left_out(was: str, now: str, follow: set[str]) -> None:
    lines = "".join(f"   Does: {now if one == was else one}\n" for one in DONE)
    findings = prove_text(PLACED, f"## Sew\n\n1. Sew.\n{lines}")[1]
    assert {one.name for one in findings} & FOLLOWS == follow
    assert any(one.name == "no-such-name" for one in findings) is (
        now in ("sew bse seam", "sew lining", "place bck on front")
    )
