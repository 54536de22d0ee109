"""Which way folds go in words: several pleats in one sentence, one like another, all of one kind."""

import pytest

from tests.specimens import prove_text

PATTERN = """\
pieces:
  band:
    outline:
      rectangle: 60 cm by 10 cm
    pleats:
      pliers pleat: {pliers} pleat of 1 cm at 10 cm from the left end of bottom edge
      brush pleat: {brush} pleat of 1 cm at 40 cm from the left end of bottom edge
    copies:
      only: canvas
"""


def told(words: str, pliers: str = "box", brush: str = "inverted") -> list[str]:
    pattern = PATTERN.replace("{pliers}", pliers).replace("{brush}", brush)
    _, findings = prove_text(pattern, f"## Sew\n\n1. Cut.\n   Does: cut all\n2. {words}\n   Does: pleat band\n")
    return [
        one.says.removeprefix("step 2 brings the folds of ") for one in findings if one.name == "pleat-folded-otherwise"
    ]


@pytest.mark.parametrize(
    "words",
    [
        "Press the folds of the brush pocket apart.",
        "Press the folds of the pliers pocket apart, and likewise those of the brush pocket.",
        "Press the folds of the pliers pocket apart. Press those of the brush pocket in the same way.",
        "Press the folds of the pliers and the brush pocket away from each other.",
        "Press the folds of the pliers pocket and those of the brush pocket apart.",
    ],
)
def test_the_brush_pleat_is_brought_apart(words: str) -> None:
    assert told(words) == ["'brush pleat' apart, and it is an inverted pleat"]
    assert told(words, brush="box") == []


@pytest.mark.parametrize(
    "words",
    [
        "Press the folds of the pliers pocket apart, those of the brush pocket towards each other.",
        "Press the folds of the pliers pocket apart, and press the brush pocket flat.",
        "Press the folds of the pliers pocket apart and those of the brush pocket towards each other.",
        "Press the folds of the pliers pocket to meet their lines.",
        "Seen from the wrong side the folds of the pliers pocket point towards each other.",
        "Press the folds of each pleat apart.",
        "Pull the brush pocket apart, and press the folds.",
    ],
)
def test_words_that_agree_or_tell_no_way(words: str) -> None:
    assert told(words) == []


def test_the_folds_of_each_pleat_where_all_are_of_one_kind() -> None:
    says = told("Bring the folds of each pleat towards each other.", brush="box")
    assert says == [f"'{name} pleat' together, and it is a box pleat" for name in ("brush", "pliers")]
    assert told("Bring the folds of each pleat apart.", brush="box") == []
