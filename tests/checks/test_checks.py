"""Each check finds its fault at the guilty line, and is silent when the fault is mended."""

import pytest

from publisher.terms import Severity
from tests.specimens import prove_text

SOUND = """\
measures:
  width: 8 in | 20 cm
pieces:
  front:
    outline:
      rectangle: width by 10 cm
    copies:
      only: canvas
    marks:
      middle: notch at the middle of top edge
      snap: point at 2 cm from the middle of top edge
  back:
    outline:
      rectangle: width by 10 cm
    copies:
      only: canvas
    marks:
      middle: notch at the middle of top edge
      near: notch at 2 cm from the left end of top edge
  pocket:
    outline:
      rectangle: 10 cm by 5 cm
    copies:
      only: canvas
    marks:
      middle: notch at the middle of top edge
      near: notch at 2 cm from the left end of top edge
seams:
  base seam:
    join:
      - front.bottom edge
      - back.bottom edge
    leave open: 8 cm
placements:
  pocket on back:
    place: pocket
    on: back
    matching:
      - middle
notions:
  thread:
    name: Thread to match the canvas
"""
STEPS = """\
## Sew

1. Place the pocket.
   Does: place pocket on back
2. Sew the base.
   Does: sew base seam
   Does: turn front
   Does: close base seam
   Does: topstitch pocket
   Does: topstitch front.top edge
   Does: topstitch front.left edge
   Does: topstitch front.right edge
   Does: topstitch back.top edge
   Does: topstitch back.left edge
   Does: topstitch back.right edge
"""


def test_the_sound_pattern_is_silent() -> None:
    _, findings = prove_text(SOUND, STEPS)
    assert findings == ()


@pytest.mark.parametrize(
    ("old", "new", "name", "line", "says"),
    [
        (
            "  back:\n    outline:\n      rectangle: width by",
            "  back:\n    outline:\n      rectangle: width + 5 mm by",
            "seam-lengths-differ",
            39,
            "apart",
        ),
        ("    leave open: 8 cm", "    leave open: 19.5 cm", "gap-too-long", 39, "stay open"),
        ("    leave open: 8 cm", "    leave open: 8 cm\n    ease: 5 mm", "seam-lengths-differ", 39, "ease counted"),
        ("      - middle\n", "      - middle\n      - near\n", "placed-marks-apart", 45, "apart on 'pocket'"),
        ("      snap: point at 2 cm", "      snap: point at 12 cm", "mark-off-piece", 21, "outside the finished line"),
        ("width: 8 in | 20 cm", "width: 9 in | 20 cm", "native-pair-apart", 12, "apart"),
        (
            "  pocket:\n    outline:",
            "  spare:\n    rectangle: 5 cm by 5 cm\n    copies:\n      only: canvas\n  pocket:\n    outline:",
            "copy-never-used",
            33,
            "nothing is done with it",
        ),
    ],
)
def test_a_fault_is_found_where_it_is(old: str, new: str, name: str, line: int, says: str) -> None:
    assert old in SOUND
    _, findings = prove_text(SOUND.replace(old, new), STEPS)
    assert [(finding.name, finding.place.line if finding.place else 0) for finding in findings] == [(name, line)]
    assert says in findings[0].says


def test_partners_with_other_allowances() -> None:
    uneven = SOUND.replace(
        "  back:\n    outline:", "  back:\n    allowance:\n      all: 1 cm\n      bottom edge: 2 cm\n    outline:"
    )
    _, findings = prove_text(uneven, STEPS)
    (finding,) = findings
    assert (finding.name, finding.severity) == ("allowances-of-partners-differ", Severity.WARNING)


@pytest.mark.parametrize(
    ("old", "new", "name", "file", "line"),
    [
        ("   Does: sew base seam\n", "", "seam-never-sewn", "pattern.yaml", 39),
        (
            "   Does: sew base seam\n",
            "   Does: sew base seam\n3. Again.\n   Does: sew base seam\n",
            "seam-sewn-twice",
            "steps.md",
            8,
        ),
        ("   Does: place pocket on back\n", "", "placement-never-placed", "pattern.yaml", 45),
    ],
)
def test_faults_of_the_work(old: str, new: str, name: str, file: str, line: int) -> None:
    _, findings = prove_text(SOUND, STEPS.replace(old, new))
    assert [(f.name, f.place.file if f.place else "", f.place.line if f.place else 0) for f in findings] == [
        (name, file, line)
    ]


def test_mark_on_a_piece_that_has_no_template() -> None:
    _, findings = prove_text(
        SOUND.replace("  pocket:\n    outline:\n      rectangle", "  pocket:\n    rectangle"), STEPS
    )
    assert {finding.name for finding in findings} == {"mark-without-template"}
