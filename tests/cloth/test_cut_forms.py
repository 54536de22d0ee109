"""What is worked out once of an outline: its half on the fold, how far it lies on it, and what copies share."""

import pytest
import shapely
import shapely.affinity

from publisher.cloth import lay_out
from publisher.cloth.cuts import Forms, fold_way, whole_cuts
from publisher.cloth.folding import fold, least_folded
from tests.cloth.asking import shaped
from tests.demo import DEMOS, demo_proof
from tests.specimens import draft_text


def cuts_of(demo: str):  # type: ignore[no-untyped-def]
    """Every cut of every material, in every unit system and size."""
    for draft in demo_proof(demo).drafts:
        for material in draft.materials:
            copies = [(piece, copy) for piece in draft.pieces for copy in piece.copies if copy.material == material.key]
            yield draft, material, copies, whole_cuts(draft, material, copies, {})


@pytest.mark.parametrize("demo", DEMOS)
def test_the_half_of_a_cut_is_half_of_it(demo: str) -> None:
    for _, _, _, cuts in cuts_of(demo):
        for cut in cuts.values():
            if not cut.half_on_the_fold:
                continue
            across, along = cut.size
            whole = shapely.Polygon(cut.form.flat).buffer(0)
            right = whole.intersection(shapely.box(across / 2, -1, across + 1, along + 1))
            half = shapely.affinity.translate(
                shapely.Polygon(cut.half.form.flat).buffer(0), across / 2, right.bounds[1]
            )
            assert half.symmetric_difference(right).area < 0.02 * right.length
            on_fold = right.intersection(shapely.box(across / 2 - 1, -1, across / 2 + 0.3, along + 1)).bounds
            assert cut.form.chord == pytest.approx(on_fold[3] - on_fold[1], abs=1.5)


def test_a_half_that_is_drafted_on_the_left_is_turned_over() -> None:
    """Its box from -24 cm to 0: the half has its fold on the left, all the same."""
    left = """\
    pieces:
      flag:
        outline:
          points:
            low middle: 0, 0
            top middle: 0, 30 cm
            top corner: -20 cm, 30 cm
            low corner: -24 cm, 0
          edges:
            centre: line from low middle to top middle
            crown:  line from top middle to top corner
            side:   line from top corner to low corner
            base:   line from low corner to low middle
          on the fold along: centre
        allowance: 0
        copies:
          only: canvas
    """
    draft, _ = draft_text(left)
    (piece,) = draft.pieces
    (cut,) = whole_cuts(draft, draft.materials[0], [(piece, piece.copies[0])], {}).values()
    assert fold_way(piece, 0) is not None
    flat = [(round(x, 6), round(y, 6)) for x, y in cut.half.form.flat]
    assert sorted(flat) == [(0, 0), (0, 300), (200, 300), (240, 0)]


@pytest.mark.parametrize("demo", DEMOS)
def test_what_is_known_at_little_cost_of_folded_cloth_is_no_more_than_its_bound(demo: str) -> None:
    for draft, material, _, cuts in cuts_of(demo):
        for width in material.sold:
            folded = fold(list(cuts.values()), width.width, 3.0)
            least = least_folded(list(cuts.values()), width.width, 3.0)
            assert (least is None) <= (folded is None)
            if folded is not None and folded.halves:
                assert least is not None
                # The ring of a half is not quite that of the whole.
                assert least <= folded.question.bound + 1.5 * folded.question.count, (draft.variant, material.key)


def test_copies_of_a_piece_share_its_form() -> None:
    draft = demo_proof("avocet-sun-hat").drafts[0]
    forms: Forms = {}
    cuts = {}
    for material in draft.materials:
        copies = [(piece, copy) for piece in draft.pieces for copy in piece.copies if copy.material == material.key]
        cuts |= whole_cuts(draft, material, copies, forms)
    assert cuts["brim outside", 1].form is cuts["brim under", 1].form
    assert cuts["crown outside", 1].form is cuts["crown lining", 1].form
    assert cuts["brim interfacing", 1].form is not cuts["brim under", 1].form  # cut along its finished line
    assert len(forms) == 5
    assert lay_out(draft)[1] == ()


def test_a_ring_begins_at_its_least_point_whatever_the_outline_does() -> None:
    corners = [(0, 0), (140, 0), (140, 100), (0, 180)]
    assert shaped(corners).form.ring == shaped([*corners[2:], *corners[:2]]).form.ring
