"""Where the last of several rows lies, as the words count them."""

import pytest

from tests.specimens import prove_text

PATTERN = """\
measures:
  first: 1/8 in | 3 mm
  stay: 3/8 in | 1 cm
  rows: 3/8 in | 1 cm
  count: 6
  further: 5
  last: first + {rows} * rows
pieces:
  brim:
    outline:
      rectangle: 40 cm by 20 cm
    copies:
      only: canvas
"""


def told(words: str, rows: int) -> list[str]:
    steps = f"## Sew\n\n1. Cut.\n   Does: cut all\n2. {words}\n   Does: topstitch brim.bottom edge\n"
    _, findings = prove_text(PATTERN.replace("{rows}", str(rows)), steps)
    return [one.says for one in findings if one.name == "last-row-elsewhere"]


@pytest.mark.parametrize(
    "words",
    [
        "Topstitch {first} from the edge, then in rows {rows} apart: {count} rows in all, the last {last} from the edge.",
        "Stay it {stay} from the raw edge. Topstitch {first} from the lower edge and in rows {rows} apart: six rows in "
        "total. The last one lies {last} from the edge.",
        "Topstitch {first} from the edge, and 5 more rows {rows} apart, the last {last} from the edge.",
        "Topstitch {first} from the edge, and {further} further rows {rows} apart, the last {last} from it.",
    ],
)
def test_the_last_of_six_rows_lies_five_distances_in(words: str) -> None:
    assert told(words, 5) == []
    assert told(words, 6)
    assert told(words, 4)


@pytest.mark.parametrize(
    "words",
    [
        "Topstitch {first} from the edge, then {count} rows {rows} apart, the last {last} from the edge.",
        "Topstitch in rows {rows} apart: {count} rows in all, the last {last} from the edge.",
        "Topstitch {first} from the edge, then in rows {rows} apart, the last {last} from the edge.",
        "Stay it {stay} from the raw edge. Topstitch in rows {rows} apart: {count} rows in all, the last {last} from it.",
    ],
)
def test_words_that_count_either_way_or_not_at_all(words: str) -> None:
    assert told(words, 5) == told(words, 6) == []
