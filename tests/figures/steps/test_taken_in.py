"""Darts and gathers, which no demo has: what their figures show."""

from publisher.figures.steps import Panel, drawing_svg, facts_of, lay_out, panels_of
from publisher.figures.steps.values import Look
from publisher.terms import UnitSystem
from tests.figures.steps.drawn_demos import LETTERS
from tests.specimens import prove_text

PATTERN = """\
pieces:
  skirt:
    outline:
      rectangle: 30 cm by 20 cm
    darts:
      waist dart: dart of 3 cm by 9 cm at the middle of top edge, towards the left
    copies:
      only: canvas
  frill:
    outline:
      rectangle: 60 cm by 8 cm
    copies:
      only: canvas
seams:
  frill seam:
    join:
      - frill.top edge
      - skirt.bottom edge
    ease: 30 cm
"""


def panel_of(does: str) -> Panel:
    proof, _ = prove_text(PATTERN, f"1. Sew.\n   Does: {does}\n")
    draft = proof.drafts_of(UnitSystem.METRIC)[0]
    assembly = proof.assembly_of(draft.variant)
    (panel,) = panels_of(draft, facts_of(assembly, assembly.steps[0]))
    return panel


def words_of(panel: Panel) -> list[str]:
    return [LETTERS[UnitSystem.METRIC].say(callout.words).replace("\u00a0", " ") for callout in panel.scene.callouts]


def test_a_dart_is_folded_along_its_middle_and_sewn_along_both_legs() -> None:
    panel = panel_of("dart skirt")
    legs = [shape.path for shape in panel.scene.shapes if shape.look is Look.STITCHING]
    # Each leg runs from 1.5 cm beside the middle to the point, 9 cm below: √(15² + 90²) = 91.2 mm.
    assert [round(leg.length, 1) for leg in legs] == [91.2, 91.2]
    assert legs[0].end == legs[1].end
    assert words_of(panel)[:2] == ["fold here, right side in", "sew to nothing at the point"]


def test_a_gathered_edge_is_drawn_up_to_the_edge_it_is_sewn_to() -> None:
    panel = panel_of("gather frill.top edge")
    rows = [shape.path for shape in panel.scene.shapes if shape.look is Look.STITCHING]
    # A centimetre of allowance: rows 3.5 mm on either side of the stitching line.
    assert [round(row.start.y, 1) for row in rows] == [76.5, 83.5]
    assert "draw up to 30 cm" in words_of(panel)


def test_both_are_told_in_words() -> None:
    letters = LETTERS[UnitSystem.METRIC]
    told = [letters.say(panel_of(does).told) for does in ("dart skirt", "gather frill.top edge")]
    assert told == [
        "skirt, wrong side: waist dart, folded along the middle and sewn from the edge to the point.",
        "frill, right side, two rows of long stitches along its top edge, drawn up.",
    ]
    for does in ("dart skirt", "gather frill.top edge"):
        assert drawing_svg(lay_out([panel_of(does)], letters), "x").startswith("<svg")
