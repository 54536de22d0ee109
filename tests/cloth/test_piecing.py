"""Whether a smaller cut would do if strips were pieced of more lengths, worked out by hand."""

import pytest

from publisher.cloth import Cloth, plan_cloth, written_answer
from publisher.cloth.joins import TOO_NEAR
from publisher.cloth.nesting import Effort
from publisher.cloth.solving import solve
from publisher.tables import tabulate
from publisher.terms import Phrase
from tests.demo import DEMOS, demo_proof
from tests.specimens import draft_text

# The panel is 50 cm square; beside it, of 108 cm, are 57.7. The tie is 6 cm wide.
PANEL = """\
pieces:
  panel:
    rectangle: 48 cm by 48 cm
    copies:
      only: canvas
  tie:
    strip:
      finished width: 1.5 cm
      length: {length}
      fold: in fourths
      ends: 0
      joins: {joins}
    grain: {grain}
    copies:
      only: canvas
"""


def planned(length: str, grain: str = "up", joins: str = "allowed", repeat: str = "") -> Cloth:
    """The cloth, with what is found in a second by packing boxes."""
    pattern = PANEL.format(length=length, grain=grain, joins=joins)
    if repeat:
        pattern = f"    repeat: {repeat}\n{pattern}"
    draft = draft_text(pattern)[0]
    cloth, _ = plan_cloth(draft)
    answers = ((one, solve(one, Effort(0.0))) for one in cloth.unanswered)
    kept = tuple((one.name, written_answer(answer)) for one, answer in answers if answer is not None)
    return plan_cloth(draft, kept)[0]


def told(cloth: Cloth) -> tuple[float, float | None, tuple[float, ...]]:
    """What is bought, what would do, and the lengths of the strip that it is pieced of then."""
    (layout,) = cloth.layouts
    if layout.pieced is None:
        return layout.buy_length, None, ()
    (plan,) = layout.pieced.strips
    return layout.buy_length, layout.pieced.buy_length, plan.lengths


def test_nothing_is_told_where_no_selling_step_is_saved() -> None:
    """100 cm beyond the panel take 50 + 0.3 + 6 + 2.5 = 58.8 cm; two lengths of 53 cm beside it 52.5: 60 cm both."""
    assert told(planned("100 cm")) == (600, None, ())


def test_a_strip_across_that_is_pieced_anyway_may_be_pieced_further() -> None:
    """160 cm of two lengths of 83 cm: 50 + 2 × 6.3 + 2.5 = 65.1 cm; of three of (160 + 12) / 3 = 57.3, cut at 58: no
    room beside the panel; of four of (160 + 18) / 4 = 44.5 cm there is."""
    assert told(planned("160 cm")) == (700, 600, (445.0,) * 4)


def test_a_strip_along_the_cloth_is_pieced_along_it() -> None:
    """120 cm along take 122.5; two lengths of (120 + 6) / 2 = 63 cm beside one another and the panel 65.5."""
    assert told(planned("120 cm", "across"))[:2] == (1300, 600)  # of three lengths of 44 cm: 50 + 2.5


def test_only_where_its_maker_allows_it() -> None:
    assert told(planned("120 cm", "across", "none")) == (1300, None, ())


def test_what_a_print_that_is_matched_would_take_counts_as_it_is_bought() -> None:
    """Whole repeats of 60 cm are bought for the panel: 62.5, 70 cm, whatever lies beside it."""
    bought, would_do, _ = told(planned("120 cm", "across", repeat="60 cm"))
    assert (bought, would_do) == (1300, 700)


def test_the_materials_list_tells_how() -> None:
    draft = draft_text(PANEL.format(length="160 cm", grain="up", joins="allowed"))[0]
    (row,) = tabulate(draft, planned("160 cm")).materials
    (phrase,) = row.pieced
    assert phrase is not None
    cut = Phrase.of("chart.each", length=Phrase.of("length", mm="445"))
    strip = Phrase.of("materials.pieced-strip", copy="tie", count="4", cut=cut)
    assert phrase == Phrase.of(
        "materials.pieced",
        width=Phrase.of("length", mm="1100"),
        amount=Phrase.of("cloth", mm="600"),
        strips=Phrase.of("list", at000=strip),
    )


@pytest.mark.parametrize("demo", DEMOS)
def test_what_the_demos_tell_saves_cloth_and_reaches(demo: str) -> None:
    for cloth in demo_proof(demo).cloths:
        for layout in cloth.layouts:
            for plan in layout.pieced.strips if layout.pieced is not None else ():
                assert layout.pieced is not None
                assert layout.pieced.buy_length < layout.buy_length - 1
                assert sum(plan.lengths) - (plan.count - 1) * plan.join_loss >= plan.total_length - 0.1
                assert plan.apart >= TOO_NEAR
                same = [one for one in cloth.strips if (one.copy, one.sold_width) == (plan.copy, layout.width)]
                assert plan.count > max((one.count for one in same), default=1)
