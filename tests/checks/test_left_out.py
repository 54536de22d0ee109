"""What could not be read is told where it was written; checks pass over what lacks for that."""

from publisher.pipeline import prove
from tests.specimens import HEAD, files

UNREAD = """\
pieces:
  panel:
    outline:
      rectangle: 20 cm by 10 cm
    copies:
      front: canvas
      back: canvas
seams:
  base seam:
    join:
      - panel front.bottom edge
      - panel back.bottom edge
"""
STEPS = """\
1. Cut, press and sew.
   Does: cut all
   Does: press panel front
   Does: sew base seam
   Does: hem panel front.top edge
"""


def test_a_copy_whose_material_cannot_be_read_stops_no_check() -> None:
    _, findings = prove("specimen", files(UNREAD, STEPS, HEAD + "    weight: hevy\n"))
    assert "no-such-weight" in {finding.name for finding in findings}
