"""`Shows:` what a step's figure shows in place of what the step does, and what is told of slips."""

from publisher.assembly import AssemblyStep
from publisher.figures.steps import facts_of, panels_of
from publisher.terms import UnitSystem
from tests.specimens import found, line_of, prove_text

PATTERN = """\
pieces:
  flap:
    outline:
      rectangle: 20 cm by 10 cm
    copies:
      outside: canvas
      lining: canvas
  tie:
    strip:
      finished width: 2 cm
      length: 20 cm
      fold: in fourths
      ends: 0
      joins: diagonal
    copies:
      only: canvas
seams:
  flap seam:
    join:
      - flap outside.bottom edge
      - flap lining.bottom edge
"""


def shown(steps: str) -> tuple[AssemblyStep, list[str]]:
    """The last step of a specimen, and the kinds of its panels."""
    proof, _ = prove_text(PATTERN, steps)
    draft = proof.drafts_of(UnitSystem.METRIC)[0]
    assembly = proof.assembly_of(draft.variant)
    step = assembly.steps[-1]
    return step, [panel.kind for panel in panels_of(draft, facts_of(assembly, step))]


def test_a_step_shows_what_it_does() -> None:
    assert shown("1. Sew.\n   Does: sew flap seam\n")[1] == ["seam"]


def test_another_figure_takes_its_place_and_several_stand_side_by_side() -> None:
    _, kinds = shown("1. Sew.\n   Does: sew flap seam\n   Shows: join tie\n   Shows: fold tie\n")
    assert kinds == ["join", "fold-crease", "fold-to-the-crease", "fold-once-more"]


def test_none_is_shown_where_none_is_wanted_and_the_work_goes_on() -> None:
    step, kinds = shown("1. Sew.\n   Does: sew flap seam\n   Shows: none\n")
    assert kinds == []
    assert step.after.sewn == ("flap seam",)


def test_a_seam_may_be_shown_with_wrong_sides_together() -> None:
    _, kinds = shown("1. Baste.\n   Shows: sew flap seam, wrong sides together\n")
    assert kinds == ["seam section"]


def test_what_is_shown_must_be_known() -> None:
    steps = "1. Sew.\n   Shows: join tye\n"
    one = found(prove_text(PATTERN, steps)[1], "no-such-name")
    assert (one.place.line, one.mend) == (line_of(steps, "tye"), "did you mean 'tie'?")


def test_what_is_shown_must_be_something_that_is_done() -> None:
    _, findings = prove_text(PATTERN, "1. Sew.\n   Shows: sow flap seam\n")
    assert any("no work called 'sow'" in finding.says for finding in findings)


def test_only_a_seam_can_have_its_wrong_sides_together() -> None:
    _, findings = prove_text(PATTERN, "1. Sew.\n   Shows: join tie, wrong sides together\n")
    assert any("'join' is done one way only" in finding.says for finding in findings)


def test_none_stands_alone() -> None:
    steps = "1. Sew.\n   Shows: none\n   Shows: join tie\n"
    assert found(prove_text(PATTERN, steps)[1], "doubled-key").place.line == line_of(steps, "join tie")


def test_a_heading_shows_nothing() -> None:
    steps = "## Flap\nShows: join tie\n\n1. Sew.\n   Does: sew flap seam\n"
    assert found(prove_text(PATTERN, steps)[1], "field-without-step").place.line == 2
