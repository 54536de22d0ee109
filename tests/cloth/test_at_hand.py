"""Can it be made from what is there? Worked out by hand: selvages take 2 cm, squaring up 2.5, a gap 0.3 (no source)."""

from dataclasses import replace
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import box

from publisher.cloth import AtHand, FromStock, cut_for_many, from_stock, plan_cloth
from publisher.drafting import Draft
from tests.demo import demo_proof
from tests.specimens import draft_text

# Cut 42 × 32 cm, lengthwise.
PANELS = """\
pieces:
  panel:
    rectangle: 40 cm by 30 cm
    copies:
      front: canvas
      back: canvas
      spare: canvas
"""
# Cut 242 × 8 cm; a diagonal join takes 8 cm.
TIE = """\
pieces:
  tie:
    strip:
      finished width: 2 cm
      length: 2.4 m
      fold: in fourths
      joins: allowed
    copies:
      only: canvas
"""
QUARTER = AtHand(500.0, 550.0, "fat quarter")


def asked(pattern: str, *cloths: AtHand) -> FromStock:
    """The answer of a specimen in metric; cloth by its length and width, in mm."""
    draft, findings = draft_text(pattern)
    assert not findings
    return from_stock(draft, draft.materials[0], cloths)


def test_a_length_that_will_just_do_and_one_that_will_not() -> None:
    """Two panels beside each other (42 + 0.3 + 42 of 108), so two rows: 32 + 0.3 + 32 + 2.5 = 66.8 cm."""
    enough = asked(PANELS, AtHand(668.0, 1100.0))
    assert enough.fits
    spots = sorted((round(one.y), round(one.x)) for one in enough.on[0].laid)
    assert spots == [(0, 0), (0, 423), (323, 0)]
    short = asked(PANELS, AtHand(660.0, 1100.0))
    assert not short.fits
    (left,) = short.not_laid
    assert (left.copy, left.count, left.width, left.length) == (
        "panel spare",
        1,
        pytest.approx(420),
        pytest.approx(320),
    )
    assert not left.too_wide
    assert short.missing_length == pytest.approx(8)


def test_cloth_that_is_too_narrow_is_told_so_and_no_length_of_it_will_do() -> None:
    answer = asked(PANELS, AtHand(5000.0, 430.0))  # 41 cm between its selvages
    assert [(left.copy, left.count, left.too_wide) for left in answer.not_laid] == [
        ("panel front", 1, True),
        ("panel back", 1, True),
        ("panel spare", 1, True),
    ]
    assert answer.missing_length == 0


def test_several_lengths_of_cloth_share_the_pieces() -> None:
    # 35 cm leave 32.5: one row on each, of two and of one.
    answer = asked(PANELS, AtHand(350.0, 1100.0), AtHand(350.0, 600.0))
    assert answer.fits
    assert [len(on.laid) for on in answer.on] == [2, 1]
    # 34 cm leave 31.5, less than a panel.
    answer = asked(PANELS, AtHand(350.0, 1100.0), AtHand(340.0, 600.0))
    assert [(left.copy, left.count) for left in answer.not_laid] == [("panel spare", 1)]
    assert answer.missing_length == pytest.approx(345)  # of the widest, a further length: one row


def test_shrinkage_is_taken_off_what_is_there() -> None:
    draft, _ = draft_text(PANELS)
    (canvas,) = draft.materials
    washed = replace(canvas, shrinkage=0.04)
    # 66.8 cm after the wash are 69.6 before it.
    assert from_stock(draft, washed, [AtHand(696.0, 1100.0)]).fits
    answer = from_stock(draft, washed, [AtHand(690.0, 1100.0)])
    assert answer.missing_length == pytest.approx(668 / 0.96 - 690)


def test_fat_quarters_are_counted_and_what_is_missing_too() -> None:
    """50 × 55 cm each (common practice, no source): one panel on each."""
    assert asked(PANELS, QUARTER, QUARTER, QUARTER).fits
    answer = asked(PANELS, QUARTER)
    assert [left.count for left in answer.not_laid] == [1, 1]
    assert (answer.missing_precuts, answer.missing_length) == (2, 0)


def test_a_strip_is_pieced_from_the_width_that_is_there() -> None:
    # From 58 cm: n · 58 − (n − 1) · 8 ≥ 242 takes five lengths, 5 × 8 + 4 × 0.3 + 2.5 = 43.7 cm of cloth.
    assert len(asked(TIE, AtHand(437.0, 600.0)).on[0].laid) == 5
    assert asked(TIE, AtHand(436.0, 600.0)).missing_length == pytest.approx(1)
    # All its lengths are cut from one cloth, and not from both.
    assert not asked(TIE, AtHand(220.0, 600.0), AtHand(220.0, 600.0)).fits


def test_a_strip_of_cloth_narrower_than_a_join_is_no_mistake_of_ours() -> None:
    answer = asked(TIE, AtHand(1000.0, 90.0))  # 7 cm between its selvages, a join takes 8
    assert [left.too_wide for left in answer.not_laid] == [True]


def test_a_material_that_nothing_is_cut_from() -> None:
    draft, _ = draft_text(PANELS)
    nothing = Draft(draft.variant, (), (), (), (), (), draft.materials, (), (), (), ())
    answer = from_stock(nothing, draft.materials[0], [AtHand(100.0, 1100.0)])
    assert answer.fits
    assert answer.on[0].laid == ()


LENGTHS = st.floats(100.0, 1500.0)


@given(st.lists(st.builds(AtHand, LENGTHS, LENGTHS), min_size=1, max_size=3), st.integers(1, 4))
def test_every_cut_is_counted_lies_on_its_cloth_and_on_no_other(cloths: list[AtHand], times: int) -> None:
    """Checked by Shapely, for any cloth and any number."""
    draft = cut_for_many(draft_text(PANELS)[0], times)
    answer = from_stock(draft, draft.materials[0], cloths)
    laid = sum(len(on.laid) for on in answer.on)
    assert laid + sum(left.count for left in answer.not_laid) == 3 * times
    for on in answer.on:
        cut = [box(one.x, one.y, one.x + one.width, one.y + one.length) for one in on.laid]
        cloth = box(0, 0, max(on.usable_width, 0), max(on.usable_length, 0)).buffer(1e-3)
        assert all(cloth.covers(one) for one in cut)
        assert all(one.distance(other) > 2.99 for one, other in combinations(cut, 2))
        for one, piece in zip(on.laid, cut, strict=True):
            assert one.outline.box.width == pytest.approx(piece.bounds[2] - piece.bounds[0])
    if answer.missing_length and len(cloths) == 1:
        longer = AtHand(cloths[0].length + answer.missing_length + 1e-3, cloths[0].width)
        assert from_stock(draft, draft.materials[0], [longer]).fits


def test_what_a_demo_says_to_buy_will_do_and_a_little_less_than_it_needs_will_not() -> None:
    for draft in demo_proof().drafts:
        cloth = demo_proof().cloth_of(draft.variant)
        for layout in cloth.layouts:
            material = next(one for one in draft.materials if one.key == layout.material)
            kept = demo_proof().source.kept
            assert from_stock(draft, material, [AtHand(layout.buy_length, layout.width)], kept).fits
            less = AtHand(layout.needed_length - 1, layout.width)
            assert from_stock(draft, material, [less], kept).missing_length == pytest.approx(1)


def test_twelve_take_no_more_than_twelve_times_one() -> None:
    """Twelve times one, and the gaps between them; notions that are counted or sized come twelve times, thread once."""
    proof = demo_proof("curlew-wash-bag")
    for draft in proof.drafts:
        many = cut_for_many(draft, 12)
        assert [notion.count for notion in many.notions] == [12, 12, None]
        one = {(layout.material, layout.width): layout.used_length for layout in proof.cloth_of(draft.variant).layouts}
        cloth = plan_cloth(many, proof.source.kept)[0]
        blocks = {plan.copy for plan in cloth.strips if plan.block is not None}  # all of a bias strip are cut from one
        for layout in cloth.layouts:
            assert layout.used_length <= 12 * one[layout.material, layout.width] + 11 * 3.2
            cut = [copy for piece in draft.pieces for copy in piece.copies if copy.material == layout.material]
            counts = sum(1 if copy.name in blocks else 12 * copy.count for copy in cut)
            assert len({(lies.copy, lies.nth) for lies in layout.laid}) == counts
