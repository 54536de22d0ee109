"""Joins of a pieced strip, worked out by hand. How near is too near is common practice, no source."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from publisher.cloth import plan_cloth
from publisher.cloth.joins import TOO_NEAR, spread_joins, tender_spots
from publisher.cloth.strip_plans import strips_needed
from tests.specimens import draft_text


def test_lengths_are_alike_where_nothing_is_in_the_way() -> None:
    """242 cm of an 8 cm strip from 108: three lengths, (242 + 2 × 8) / 3 = 86 cm each; the joins' middles at 82 and 160."""
    joins = spread_joins(2420.0, 1080.0, 3, 80.0)
    assert joins.lengths == pytest.approx((860.0, 860.0, 860.0))
    assert joins.apart == pytest.approx(820 - 40)


def test_a_join_moves_off_a_mark() -> None:
    """Two lengths of 140 + 8 / 2 = 74 cm would meet in the middle, at 70: the mark there sends the join 5 + 4 cm off."""
    joins = spread_joins(1400.0, 1080.0, 2, 80.0, [700.0])
    assert joins.lengths == pytest.approx((650.0, 830.0))
    assert joins.apart == pytest.approx(TOO_NEAR)


def whole_centimetres(length: float) -> float:
    """From half a metre on; below it half ones."""
    return 10.0 if length >= 500 else 5.0


def test_lengths_are_cut_in_steps_and_the_last_has_a_little_over() -> None:
    """Two lengths of (1444 + 60) / 2 = 752 mm are cut at 76 cm; each ends a join of 6 cm, so the strip is 146 cm long."""
    joins = spread_joins(1444.0, 1080.0, 2, 60.0, step=whole_centimetres)
    assert joins.lengths == (760.0, 760.0)
    assert joins.apart == pytest.approx(1444 - 730 - 30)


def test_a_join_in_steps_keeps_clear_of_a_mark() -> None:
    """Below the middle, at 722 mm, its middle may lie at 642: 640 is a length of 67 cm, and 774 + 60 mm go up to 84."""
    joins = spread_joins(1444.0, 1080.0, 2, 60.0, [722.0], step=whole_centimetres)
    assert joins.lengths == (670.0, 840.0)
    assert joins.apart == pytest.approx(722 - 640 - 30)


def test_more_lengths_than_there_must_be_keep_clear_too() -> None:
    """Of cloth that is wider than the strip is long: the join that would lie in the middle goes 5 + 3 cm aside."""
    joins = spread_joins(1244.0, 1480.0, 2, 60.0, [622.0])
    assert joins.apart == pytest.approx(TOO_NEAR)
    assert joins.lengths == pytest.approx((572.0, 732.0))


def test_lengths_in_steps_are_no_longer_than_the_cloth() -> None:
    """Of 2108 mm from 1084 two lengths must be 1084 each; the ruler's step would be 109 cm."""
    assert spread_joins(2108.0, 1084.0, 2, 60.0, step=whole_centimetres).lengths == (1084.0, 1084.0)


def test_where_there_is_no_room_it_goes_as_far_as_it_can() -> None:
    """Of 2000 mm from 1045, a straight join of 20 lies between 965 and 1035; marks at 960 and 1030 leave 35 on each side."""
    joins = spread_joins(2000.0, 1045.0, 2, 20.0, [960.0, 1030.0])
    assert joins.lengths[0] - 10 == pytest.approx(995, abs=0.1)
    assert joins.apart == pytest.approx(35 - 10, abs=0.1)


def test_lengths_that_are_used_up_leave_no_choice() -> None:
    joins = spread_joins(2080.0, 1080.0, 2, 80.0, [1040.0])
    assert joins.lengths == pytest.approx((1080.0, 1080.0), abs=0.02)
    assert joins.apart == 0


def test_lengths_that_do_not_reach() -> None:
    with pytest.raises(ValueError, match="2 lengths of 1080 mm do not make up 2420 mm"):
        spread_joins(2420.0, 1080.0, 2, 80.0)


@given(
    st.floats(300.0, 6000.0),
    st.floats(400.0, 1500.0),
    st.floats(10.0, 150.0),
    st.lists(st.floats(0.0, 1.0), max_size=5),
    st.booleans(),
)
def test_lengths_make_up_the_strip_and_fit_the_cloth(
    length: float, width: float, loss: float, parts: list[float], stepped: bool
) -> None:
    count = strips_needed(length, width, loss)
    assume(count > 1)
    spots = [length * part for part in parts]
    joins = spread_joins(length, width, count, loss, spots, whole_centimetres if stepped else None)
    assert len(joins.lengths) == count
    over = sum(joins.lengths) - (count - 1) * loss - length
    assert -0.02 < over < (10.02 * count if stepped else 0.02)
    assert all(each <= width + 0.02 for each in joins.lengths)
    # As told: no part of a join comes nearer to an end or a mark.
    start, nearest = 0.0, length
    for each in joins.lengths[:-1]:
        start += each - loss
        middle = start + loss / 2
        nearest = min(nearest, *(abs(middle - spot) for spot in (0.0, length, *spots)))
    assert joins.apart == pytest.approx(max(nearest - loss / 2, 0.0), abs=0.05)
    # And no worse than alike lengths.
    each = (length + (count - 1) * loss) / count
    evenly = [at * each - (at - 0.5) * loss for at in range(1, count)]
    alike = min(abs(middle - spot) for middle in evenly for spot in (0.0, length, *spots))
    assert nearest >= min(alike, TOO_NEAR + loss / 2) - (10.05 if stepped else 0.05)


TIE = """\
pieces:
  roll:
    rectangle: 20 in by 20 in | 50 cm by 50 cm
    copies:
      only: canvas
    marks:
      place: point at the middle of right edge
      other: point at the middle of left edge
  tie:
    strip:
      finished width: 1/2 in | 1.5 cm
      length: 60 in | 150 cm
      fold: in fourths
      ends: 1/2 in | 1 cm
      joins: allowed
    copies:
      only: canvas
placements:
  tie on roll:
    place: tie
    on: roll
    matching:
      - {pair}
      - {other}
"""


@pytest.mark.parametrize(
    ("pair", "other", "spots"),
    [
        ("centre to place", "centre to right edge", [760.0]),  # half of 150 cm, and 1 cm for the end
        ("left end to place", "right end to place", [760.0]),  # a loop
        ("left end to place", "right end to other", []),  # a strap from one side to the other
        ("left end to place", "left end to right edge", []),
    ],
)
def test_a_strip_is_caught_in_its_middle(pair: str, other: str, spots: list[float]) -> None:
    """Two lengths would meet in the middle of the tie; where it is caught there, the join of 6 cm moves 5 + 3 cm off."""
    draft = draft_text(TIE.format(pair=pair, other=other))[0]
    assert list(tender_spots(draft, draft.copy("tie"))) == pytest.approx(spots)
    (plan,) = plan_cloth(draft)[0].strips
    assert plan.lengths[0] - plan.join_loss / 2 == pytest.approx(760.0 - (80.0 if spots else 0.0))


def test_a_strip_is_caught_where_something_lies_on_its_middle() -> None:
    badge = """\
  badge:
    rectangle: 2 in by 1 in | 5 cm by 2.5 cm
    copies:
      only: canvas
placements:
  badge on tie:
    place: badge
    on: tie
    matching:
      - centre to centre
"""
    draft = draft_text(TIE.split("placements:")[0] + badge)[0]
    assert list(tender_spots(draft, draft.copy("tie"))) == pytest.approx([760.0])
