"""Cloth folded double: halves on the fold, pairs at once, and what it looks like unfolded."""

import pytest

from publisher.cloth import lay_out, on_fold, written_answer
from publisher.cloth.arranging import arrange_folded
from publisher.cloth.folding import fold, placed_folded
from publisher.cloth.kept import holds
from publisher.cloth.nesting import Effort
from publisher.cloth.on_fold import nested_on_fold
from publisher.cloth.questions import Spot, length_of
from publisher.cloth.solving import solve
from tests.cloth.asking import many, panel, shaped
from tests.cloth.oracle import outside, overlap
from tests.specimens import draft_text

APRON = """\
pieces:
  apron:
    outline:
      points:
        low middle: 0, 0
        low corner: 30 cm, 0
        top corner: 20 cm, 60 cm
        top middle: 0, 60 cm
      edges:
        base:   line from low middle to low corner
        side:   line from low corner to top corner
        crown:  line from top corner to top middle
        centre: line from top middle to low middle
      on the fold along: centre
    allowance: 0
    copies:
      only: canvas
  pocket:
    outline:
      points:
        a: 0, 0
        b: 14 cm, 0
        c: 14 cm, 10 cm
        d: 0, 18 cm
      edges:
        base:  line from a to b
        right: line from b to c
        top:   line from c to d
        left:  line from d to a
    allowance: 0
    copies:
      only: canvas, cut 2
"""


def folded_layout():  # type: ignore[no-untyped-def]
    """The layout of the apron on folded cloth, its answer written by hand."""
    draft = draft_text(APRON)[0]
    cloth = lay_out(draft)[0]
    (question,) = [one for one in cloth.questions if one.folded]
    # The half apron lies on the fold, 300 mm wide below; the pocket beside it leaves 3 mm: 540 − 140 > 303.
    half = next(number for number, shape in enumerate(question.shapes) if shape.on_the_fold)
    answer = (Spot(half, 0, 0, 0), Spot(1 - half, 400, 0, 0))
    assert holds(question, answer)
    kept = ((question.name, written_answer(answer)),)
    return question, lay_out(draft, kept)[0].layouts[0]


def test_the_half_lies_on_the_fold_and_a_pair_is_cut_at_once() -> None:
    question, layout = folded_layout()
    assert (question.width, question.folded, question.count) == (540, True, 2)
    assert (layout.folded, layout.used_length, layout.arranged_by) == (True, pytest.approx(600), "kept")
    apron, right, left = layout.laid
    assert (apron.copy, apron.x, apron.width) == ("apron", pytest.approx(240), pytest.approx(600))
    # Right and left of the fold at 540, mirror images of one another.
    assert {(one.copy, one.nth, one.turned_over) for one in (right, left)} == {
        ("pocket", 1, False),
        ("pocket", 2, True),
    }
    assert right.x == pytest.approx(940)
    assert left.x + left.width == pytest.approx(140)
    seen = sorted((round(1080 - point.x, 3), round(point.y, 3)) for point in left.outline.flattened()[1:])
    assert seen == sorted((round(point.x, 3), round(point.y, 3)) for point in right.outline.flattened()[1:])
    outlines = [one.outline for one in layout.laid]
    assert overlap(outlines) < 1e-6
    assert outside(outlines, layout.usable_width, layout.used_length) < 1e-6


def test_a_kept_layout_serves_twice_the_order() -> None:
    question, _ = folded_layout()
    half = next(number for number, shape in enumerate(question.shapes) if shape.on_the_fold)
    kept = ((question.name, written_answer((Spot(half, 0, 0, 0), Spot(1 - half, 400, 0, 0)))),)
    double = many(question, 2)
    arranged = arrange_folded(double, kept)
    assert arranged is not None
    assert (arranged.used, arranged.answered) == (pytest.approx(2 * 600 + 3), False)
    assert holds(double, arranged.answer)
    assert arrange_folded(double, ()) is None


@pytest.mark.parametrize(
    "answer",
    [
        (Spot(0, 1, 0, 0), Spot(1, 400, 0, 0)),  # off the fold
        (Spot(0, 0, 0, 0), Spot(1, 401, 0, 0)),  # over the selvage
        (Spot(0, 0, 0, 0), Spot(1, 0, 603, 0)),  # on the fold, where two would hang together
    ],
)
def test_what_does_not_hold_on_folded_cloth(answer: tuple[Spot, ...]) -> None:
    question, _ = folded_layout()
    half = next(number for number, shape in enumerate(question.shapes) if shape.on_the_fold)
    spots = tuple(Spot(half if spot.shape == 0 else 1 - half, spot.x, spot.y, spot.turn) for spot in answer)
    assert not holds(question, spots)


def test_only_pairs_and_halves_are_worth_a_fold() -> None:
    one_sided = [(0, 0), (140, 0), (140, 100), (0, 180)]
    other = [(0, 0), (140, 0), (140, 180), (0, 100)]
    assert fold([shaped(one_sided)], 1000, 3) is None
    assert fold([shaped(one_sided)] * 2, 1000, 3) is None  # two alike are no pair
    pair = fold([shaped(one_sided), shaped(other)], 1000, 3)
    assert pair is not None
    assert pair.question.count == 1
    assert fold([panel(300, 100)] * 2, 600, 3) is None  # 300 and half a gap to the fold are more than half the cloth
    odd = fold([panel(200, 100)] * 3, 600, 3)
    assert odd is not None
    assert odd.question.count == 2  # the third lies on both layers, and is cut once
    laid = list(placed_folded(odd, (Spot(0, 1.5, 0, 0), Spot(0, 1.5, 103, 0)), 600))
    assert [(one.x, one.y) for one in laid] == [(301.5, 0), (98.5, 0), (301.5, 103)]


def test_the_solver_lays_halves_on_the_fold() -> None:
    pytest.importorskip("spyrrow")
    question, _ = folded_layout()
    answer = nested_on_fold(question, Effort(2.0))
    assert answer is not None
    assert holds(question, answer)
    assert length_of(question, answer) == pytest.approx(600, abs=0.5)


def test_rows_behind_the_halves_where_the_solver_has_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(on_fold, "nest", lambda *_: None)
    question, _ = folded_layout()
    answer = solve(question, Effort(1.0))
    assert answer is not None
    assert holds(question, answer)
    assert length_of(question, answer) == pytest.approx(600 + 3 + 180)
