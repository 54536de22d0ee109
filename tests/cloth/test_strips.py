"""How strips lie on the cloth and how long their lengths are cut: chart and layout agree."""

import pytest

from publisher.cloth import ClothLayout, StripPlan, plan_cloth
from publisher.pipeline import prove
from publisher.tables import ChartRow, tabulate
from publisher.terms import Phrase, length
from tests.cloth.test_demo_layouts import layouts
from tests.demo import DEMOS
from tests.specimens import HEAD, draft_text, files

TIE = """\
pieces:
  tie:
    strip:
      finished width: 1.5 cm
      length: {length}
      fold: in fourths
      ends: 1 cm
      joins: {joins}
    grain: {grain}
    copies:
      only: canvas
"""
QUARTERS = HEAD.replace("42 in wide | 110 cm wide", "fat quarter")


def cut(size: str, grain: str = "up", joins: str = "allowed") -> tuple[ClothLayout, tuple[StripPlan, ...], ChartRow]:
    """How a tie lies, how it is pieced, and what the chart says of it; without a finding."""
    draft, _ = draft_text(TIE.format(length=size, grain=grain, joins=joins))
    cloth, found = plan_cloth(draft)
    assert found == ()
    (layout,) = cloth.layouts
    return layout, cloth.strips, tabulate(draft, cloth).chart[0]


def sides(layout: ClothLayout) -> list[tuple[float, float]]:
    """Across and along, of all that lies there."""
    return [(round(one.width, 3), round(one.length, 3)) for one in layout.laid]


def test_a_strip_lies_across_the_cloth_and_is_called_crosswise() -> None:
    layout, plans, row = cut("98 cm")
    assert (plans, sides(layout)) == ((), [(1000, 60)])
    assert (row.size, row.grain) == ((length(1000), length(60)), Phrase.of("chart.grain-across"))


def test_one_that_is_to_lie_lengthwise_lies_along_it_whole_however_long() -> None:
    layout, plans, row = cut("150 cm", "across")
    assert (plans, sides(layout)) == ((), [(60, 1520)])
    assert (row.size, row.grain) == ((length(60), length(1520)), Phrase.of("chart.grain-up"))
    assert cut("150 cm", "across", "none")[0].laid == layout.laid


def test_lengths_are_laid_as_long_as_the_chart_says() -> None:
    """Of 152 cm two lengths of (152 + 6) / 2 = 79 cm."""
    layout, (plan,), row = cut("150 cm")
    assert (plan.lengths, sides(layout)) == ((790, 790), [(790, 60)] * 2)
    told = {name: value for note in row.notes for name, value in note.values}
    assert told["cut"] == Phrase.of("chart.each", length=Phrase.of("length", mm="790"))
    assert told["length"] == Phrase.of("length", mm="1520")


def test_one_that_may_lie_either_way_is_pieced_or_else_runs_along_the_cloth() -> None:
    assert sides(cut("150 cm", "either way")[0]) == [(790, 60)] * 2
    assert sides(cut("150 cm", "either way", "none")[0]) == [(60, 1520)]


def test_a_lengthwise_strip_that_is_longer_than_a_precut_is_pieced_along_it() -> None:
    """Of a fat quarter of 55 × 50 cm: 62 cm of (62 + 6) / 2 = 34 cm each."""
    proof, found = prove("specimen", files(TIE.format(length="60 cm", grain="across", joins="allowed"), "", QUARTERS))
    assert proof is not None, found
    (plan,) = proof.cloths[1].strips
    assert (plan.along, plan.lengths) == (True, (340, 340))
    assert sides(proof.cloths[1].layouts[0]) == [(60, 340)] * 2


def test_a_short_strip_on_the_bias_needs_no_join() -> None:
    """12 × 6 cm at 45° is 18 / √2 cm wide."""
    layout, plans, _ = cut("10 cm", "bias", "none")
    assert plans == ()
    assert sides(layout) == [(pytest.approx(127.279, abs=0.01),) * 2]


@pytest.mark.parametrize("demo", DEMOS)
def test_every_length_of_the_demos_lies_on_the_cloth(demo: str) -> None:
    for draft, cloth, layout in layouts(demo):
        for plan in cloth.strips:
            if (plan.material, plan.sold_width) != (layout.material, layout.width) or plan.joins == "bias":
                continue
            laid = [max(one.width, one.length) for one in layout.laid if one.copy == plan.copy]
            assert sorted(laid) == pytest.approx(sorted(plan.lengths * draft.copy(plan.copy).count))
