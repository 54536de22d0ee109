"""From which face the words sew a binding on, and how far they press a strip's edges in."""

import pytest

from tests.specimens import prove_text

PATTERN = """\
measures:
  wide: 1 cm
  wider: 1.5 cm
pieces:
  mat:
    outline:
      circle: 20 cm
    allowance: 0
    copies:
      outside: canvas
      lining: canvas
  strip:
    strip:
      finished width: wide
      length: 70 cm + wider
      fold: in fourths
      ends: 0
    grain: bias
    copies:
      only: canvas
bindings:
  edge binding:
    strip: strip
    binds:
      - mat outside.right half
"""


def told(*words: str) -> set[str]:
    press, begin, fold = words
    steps = (
        f"## Bind\n\n1. Cut. {press}\n   Does: cut all\n   Does: fold strip\n"
        f"2. {begin}\n   Does: begin edge binding\n3. {fold}\n   Does: bind edge binding\n"
    )
    _, findings = prove_text(PATTERN, steps)
    return {one.name for one in findings if one.name in ("folded-to-its-own-side", "strip-pressed-otherwise")}


SOUND = (
    "Press both long edges in by {wide}.",
    "Lay the strip on the outside, edges level.",
    "Fold the strip over the edge.",
)


@pytest.mark.parametrize(
    ("begin", "fold"),
    [
        ("Lay the strip on the lining, edges level. Sew.", "Fold the strip over the edge to the lining side."),
        ("Sew the binding to the right side.", "Bring it round the edge, and on to the right side."),
        ("Pin the strip's edge to the inside.", "Turn the binding over to the lining, and sew it down."),
    ],
)
def test_it_is_folded_to_the_face_that_it_was_begun_on(begin: str, fold: str) -> None:
    assert told(SOUND[0], begin, fold) == {"folded-to-its-own-side"}


@pytest.mark.parametrize(
    ("begin", "fold"),
    [
        ("Lay the strip on the outside, right sides together.", "Fold the strip over the edge to the lining side."),
        ("Lay the strip on the lining. Sew.", "Wrap the strip round the edge to the outside, then look at the lining."),
        ("Sew the strip to the front edge.", "Fold the strip over the edge to the front."),
        ("Lay the strip on the right side.", "Turn it over to the right side, and press."),
    ],
)
def test_it_is_folded_to_the_other_face(begin: str, fold: str) -> None:
    assert told(SOUND[0], begin, fold) == set()


@pytest.mark.parametrize(
    "press",
    [
        "Press both long edges of the strip to the wrong side by {wider}.",
        "Fold {wider} of both long edges in, and press.",
    ],
)
def test_the_edges_are_pressed_in_by_another_width(press: str) -> None:
    assert told(press, *SOUND[1:]) == {"strip-pressed-otherwise"}


@pytest.mark.parametrize(
    "press",
    [
        "Press both long edges of the strip to the wrong side by {wide}.",
        "Press one long edge in by {wider}.",
        "Press both long edges in. Trim the ends by {wider}.",
    ],
)
def test_the_edges_are_pressed_in_as_it_is_cut(press: str) -> None:
    assert told(press, *SOUND[1:]) == set()
