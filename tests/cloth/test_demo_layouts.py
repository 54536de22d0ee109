"""Every layout of the demos, looked at by Shapely: all pieces there, on the cloth, along the grain, none over another."""

import pytest

from publisher.cloth import Cloth, ClothLayout, plan_cloth
from publisher.drafting import Draft, Grain
from tests.cloth.oracle import least_gap, outside, overlap
from tests.demo import DEMOS, demo_proof

GAP = 3.0  # mm, metric; in inches 1/8 in, which is more


def layouts(demo: str) -> list[tuple[Draft, Cloth, ClothLayout]]:
    """Those of every unit system and size."""
    proof = demo_proof(demo)
    return [
        (draft, cloth, layout)
        for draft, cloth in zip(proof.drafts, proof.cloths, strict=True)
        for layout in cloth.layouts
    ]


@pytest.mark.parametrize("demo", DEMOS)
def test_nothing_overlaps_or_hangs_over(demo: str) -> None:
    for _, _, layout in layouts(demo):
        length = layout.precut_length or layout.used_length
        for sheet in {one.sheet for one in layout.laid}:
            outlines = [one.outline for one in layout.laid if one.sheet == sheet]
            assert overlap(outlines) < 1e-3, layout.material
            assert outside(outlines, layout.usable_width, length) < 0.05 * layout.usable_width, layout.material
            assert least_gap(outlines) > GAP - 0.1, layout.material


@pytest.mark.parametrize("demo", DEMOS)
def test_every_piece_is_there_along_its_grain(demo: str) -> None:
    for draft, cloth, layout in layouts(demo):
        pieced = {plan.copy for plan in cloth.strips}
        for piece in draft.pieces:
            for copy in piece.copies:
                laid = [one for one in layout.laid if one.copy == copy.name]
                if copy.material != layout.material:
                    assert laid == []
                elif copy.name in pieced:
                    assert laid
                else:
                    assert [one.nth for one in sorted(laid, key=lambda one: one.nth)] == [*range(1, copy.count + 1)]
                base = {Grain.ACROSS: 90, Grain.BIAS: 45}.get(piece.grain, 0)
                for one in laid if copy.name not in pieced else ():
                    allowed = {0} if piece.one_way else {0, 90, 180, 270} if piece.grain is Grain.EITHER else {0, 180}
                    assert (one.turn - base) % 360 in allowed
                    assert one.turned_over == (copy.turned_over != (copy.mirrored and one.nth % 2 == 0))


@pytest.mark.parametrize("demo", DEMOS)
def test_kept_layouts_are_at_hand_and_no_longer_than_rows(demo: str) -> None:
    """Where this fails, a demo has changed: `publisher publish` looks for its layouts, and they are committed with it."""
    proof = demo_proof(demo)
    assert [cloth.unanswered for cloth in proof.cloths] == [()] * len(proof.cloths)
    for draft, cloth in zip(proof.drafts, proof.cloths, strict=True):
        for kept, rows in zip(cloth.layouts, plan_cloth(draft)[0].layouts, strict=True):
            assert rows.arranged_by == "rows"
            assert kept.buy_length <= rows.buy_length
            assert kept.precut_count <= rows.precut_count
            # A bias strip may be got in another way, with which as much is bought.
            biased = any(plan.joins == "bias" and plan.material == kept.material for plan in cloth.strips)
            assert kept.used_length <= rows.used_length + 1e-3 or kept.folded or biased
