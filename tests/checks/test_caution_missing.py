"""A cord at a neck: whom the cautions speak to."""

import pytest

from tests.specimens import prove_text

PIECE = """\
about: {about}
pieces:
  apron:
    outline:
      rectangle: 60 cm by 70 cm
    copies:
      only: canvas
"""
STEPS = "1. Cut, and lead the cord round the neck.\n   Does: cut all\n   Caution: {caution}\n"


def is_told(about: str, caution: str) -> bool:
    _, findings = prove_text(PIECE.format(about=about), STEPS.format(caution=caution))
    return any(one.name == "caution-missing" for one in findings)


@pytest.mark.parametrize(
    ("about", "caution", "told"),
    [
        ("An apron.", "Cords at the neck are a danger to children.", False),
        ("An apron for the workbench.", "Cords at the neck are a danger to children.", True),
        ("An apron.", "Cords at the neck are a danger to children. It is for grown people.", True),
        ("An apron for the workbench.", "The cord round the neck does not give way.", False),
        ("An apron for the workbench.", "A child can be strangled by it, as anybody can.", False),
        ("A child's apron for the workbench.", "Cords at the neck are a danger to children.", False),
        ("An apron.", "Adults help with it: cords at the neck are a danger to children.", False),
    ],
)
def test_what_is_said_of_children_is_not_said_to_a_grown_wearer(about: str, caution: str, told: bool) -> None:
    assert is_told(about, caution) is told
