"""The minutes of a section, against its steps and what they stitch."""

from tests.specimens import prove_text

PATTERN = """\
pieces:
  front:
    outline:
      rectangle: 20 cm by 10 cm
    copies:
      only: canvas
  back:
    outline:
      rectangle: 20 cm by 10 cm
    copies:
      only: canvas
seams:
  base seam:
    join:
      - front.bottom edge
      - back.bottom edge
"""


def told(*minutes: str) -> list[str]:
    cut, sew, step = (f"{one}\n" if one else "" for one in minutes)
    steps = (
        f"## Cut\n{cut}\n1. Cut.\n   Does: cut all\n\n## Sew\n{sew}\n2. Sew.\n   Does: sew base seam\n3. Stitch.\n"
        f"   Does: topstitch front.top edge\n{'   ' if step else ''}{step}"
    )
    _, findings = prove_text(PATTERN, steps)
    assert not [one for one in findings if one.name in ("bad-minutes", "unknown-line")]
    return [one.says for one in findings if one.name.startswith("time-")]


def test_a_minute_for_each_step_and_each_line_of_stitching() -> None:
    assert told("Minutes: 10", "Minutes: 4", "") == []
    assert told("Minutes: 10", "Minutes: 3", "") == ["'Sew' takes 3 minutes, and has 2 steps with 2 lines of stitching"]
    assert told("Minutes: 10", "Minutes: 2", "Minutes: 2") == []


def test_all_sections_together() -> None:
    assert told("Minutes: 1", "", "") == ["all sections take 1 minutes together, and 1 seams are sewn"]
    assert told("", "", "") == []


def test_a_section_without_minutes() -> None:
    assert told("", "Minutes: 20", "") == []  # nothing is stitched in the other
    assert told("Minutes: 10", "", "Minutes: 9") == []
