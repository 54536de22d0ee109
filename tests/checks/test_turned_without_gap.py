"""What is turned needs an opening: an edge that no seam closes, a gap, a slit or a zip."""

import pytest

from tests.specimens import prove_text

CASE = """\
pieces:
  case:
    outline:
      rectangle: 20 cm by 10 cm
    copies:
      front: canvas
      back: canvas
seams:
  round seam:
    join:
      - case front.right edge and case front.bottom edge and case front.left edge
      - case back.left edge and case back.bottom edge and case back.right edge
  top seam:
    join:
      - case front.top edge
      - case back.top edge
"""
ZIP = "notions:\n  zip:\n    kind: zip\n    name: Zip\n    length: 20 cm\n"


def told(pattern: str, *does: str, words: str = "Sew and turn.") -> bool:
    lines = "".join(f"   Does: {one}\n" for one in ("cut all", *does))
    return any(one.name == "turned-without-gap" for one in prove_text(pattern, f"## Sew\n\n1. {words}\n{lines}")[1])


SHUT = ("sew round seam", "sew top seam", "turn case front")


def test_sewn_shut_all_round() -> None:
    assert told(CASE, *SHUT)


def test_an_edge_is_open_until_its_seam() -> None:
    assert not told(CASE, "sew round seam", "turn case front", "sew top seam")


@pytest.mark.parametrize("close", [(), ("close top seam",)])
def test_of_a_gap_that_is_closed_too_soon_it_is_not_said_that_there_is_none(close: tuple[str, ...]) -> None:
    gap = f"{CASE}    leave open: 8 cm\n"
    assert not told(gap, "sew round seam", "sew top seam", *close, "turn case front")


def test_a_slit_or_a_zip_lets_it_through() -> None:
    assert not told(CASE, *SHUT, words="Cut a slit into the back, sew, and turn.")
    assert not told(ZIP + CASE, "attach zip at case front.top edge", *SHUT)


def test_a_mark_of_a_gap_that_no_seam_leaves_is_told_so() -> None:
    _, findings = prove_text(CASE, "## Sew\n\n1. Mark.\n   Does: cut all\n   Does: mark case front.top seam\n")
    (found,) = (one for one in findings if one.name == "no-such-name")
    assert found.says == "no mark called 'case front.top seam': the seam 'top seam' leaves no gap to mark"
    assert found.mend.startswith("write 'leave open: …' under the seam 'top seam'")
