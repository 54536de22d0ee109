"""Left and right, up and down, as a step tells them, against where marks lie and how pieces are laid."""

import pytest

from tests.specimens import prove_text

FRONT = """\
pieces:
  front:
    outline:
      rectangle: 20 cm by 10 cm
    copies:
      only: canvas
    marks:
      loop: {mark}
"""


def told(pattern: str, words: str, *does: str) -> list[str]:
    lines = "\n".join(f"   Does: {one}" for one in ("cut all", *does))
    _, findings = prove_text(pattern, f"## Sew\n\n1. {words}\n{lines}\n")
    return [finding.name for finding in findings if finding.name in ("other-side-told", "laid-other-face-up")]


def sides(mark: str, words: str, *does: str) -> list[str]:
    return told(FRONT.replace("{mark}", mark), words, *(does or ("mark front.loop",)))


@pytest.mark.parametrize(
    "words",
    [
        "Snip the front's right-hand edge at the notch.",
        "Lay the front right side up: the notch is in the right edge.",
        "Mark the loop on the front, at the edge that lies to your right.",
    ],
)
def test_a_side_is_told_and_the_mark_lies_at_the_other(words: str) -> None:
    assert sides("notch at the middle of left edge", words) == ["other-side-told"]
    assert sides("point at the middle of left edge", words) == ["other-side-told"]
    assert sides("notch at the middle of right edge", words) == []
    assert sides("notch at the middle of top edge", words) == []
    assert sides("point at 3 cm from the middle of left edge", words) == []


@pytest.mark.parametrize(
    "words",
    [
        "Put right sides together, and mark the front.",
        "Mark the right side of the front, at a right angle to its edge.",
        "Lay the front wrong side up: the notch is in the right-hand edge.",
        "Mark the right-hand edge of the front, seen from behind.",
        "Mark the right-hand and then the left edge of the front.",
        "Mark the loop at the right-hand edge of the work.",
        "As worn, the front's right-hand edge has the notch.",
        "Mark the front; what is left over is no more than its right edge.",
    ],
)
def test_words_that_tell_no_one_side(words: str) -> None:
    assert sides("notch at the middle of left edge", words) == []


def test_an_edge_that_is_worked_on() -> None:
    hemmed = FRONT.replace("    marks:\n      loop: {mark}\n", "    hems:\n      left edge: 1 cm, turned twice\n")
    assert told(hemmed, "Hem the right edge of the front.", "hem front.left edge") == ["other-side-told"]
    assert told(hemmed, "Hem the left edge of the front.", "hem front.left edge") == []
    assert told(hemmed, "Hem the right side of the front as you did the left.", "hem front.left edge") == []


LAID = """\
pieces:
  back:
    outline:
      rectangle: 20 cm by 20 cm
    copies:
      only: canvas
  flap:
    outline:
      rectangle: 20 cm by 10 cm
    copies:
      only: canvas
placements:
  flap on back:
    place: flap
    on: back
{face}    matching:
      - top edge
"""


def faces(face: str, words: str) -> list[str]:
    return told(LAID.replace("{face}", f"    face: {face}\n" if face else ""), words, "place flap on back")


@pytest.mark.parametrize("words", ["outside to outside", "right sides together"])
def test_face_to_face_is_face_down(words: str) -> None:
    assert faces("", f"Lay the flap on the back, {words}.") == ["laid-other-face-up"]
    assert faces("down", f"Lay the flap on the back, {words}.") == []


def test_right_side_up_is_not_face_down() -> None:
    assert faces("down", "Lay the flap on the back, right side up.") == ["laid-other-face-up"]
    assert faces("", "Lay the flap on the back, right side up.") == []


@pytest.mark.parametrize(
    ("face", "words"),
    [
        ("down", "Lay the back before you, wrong side up, and the flap on it, right side up."),
        ("", "Lay the flap upside down on the back, right sides together, sew, and fold it up."),
        ("down", "Lay the flap on the back, wrong sides together."),
    ],
)
def test_how_it_lies_in_the_end(face: str, words: str) -> None:
    assert faces(face, words) == []


def test_what_is_turned_over_lies_left_on_right() -> None:
    turned = LAID.replace("rectangle: 20 cm by 10 cm", "rectangle: 20 cm by 20 cm").replace(
        "{face}", "    face: down\n"
    )
    turned = turned.replace("      - top edge\n", "      - left edge to right edge\n")
    assert told(turned, "Lay the left edge of the flap on the back.", "place flap on back") == []
    assert told(
        LAID.replace("{face}", "").replace("top", "right"), "Lay it on the left edge of the back.", "place flap on back"
    ) == ["other-side-told"]


@pytest.mark.parametrize(
    ("before", "told_of"),
    [
        ("Fold the top edge to the wrong side by {allowance}.", True),
        ("Lay the back before you, wrong side up.", False),
        ("Turn the back over.", False),
    ],
)
def test_a_hem_turned_to_the_wrong_side_leaves_the_work_as_it_lay(before: str, told_of: bool) -> None:
    pattern = "measures:\n  allowance: 1 cm\n" + LAID.replace("{face}", "    face: down\n")
    steps = f"1. Cut. {before}\n   Does: cut all\n2. Lay the flap on the back, right side up.\n   Does: place flap on back\n"
    findings = prove_text(pattern, steps)[1]
    assert any(one.name == "laid-other-face-up" for one in findings) is told_of
