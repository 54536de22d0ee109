"""Cloth folded double: halves on the fold, pairs at once, and what it looks like unfolded."""

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from publisher.cloth import ClothLayout, cut_for_many, lay_out, on_fold, plan_cloth, written_answer
from publisher.cloth.arranging import arrange_folded
from publisher.cloth.folding import fold, placed_folded
from publisher.cloth.kept import holds
from publisher.cloth.nesting import Effort
from publisher.cloth.on_fold import in_rows_on_fold, nested_on_fold
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


def test_halves_with_rows_behind_them_where_nothing_is_kept() -> None:
    """Twice the apron on the fold, 60 cm each, and in a row behind them the pockets of 18 cm."""
    question, _ = folded_layout()
    for times in (1, 2):
        arranged = arrange_folded(many(question, times), ())
        assert arranged is not None
        assert (arranged.used, arranged.by) == (pytest.approx(times * 603 + 180), "rows")
        assert holds(many(question, times), arranged.answer)
    pair = fold(
        [shaped([(0, 0), (140, 0), (140, 100), (0, 180)]), shaped([(0, 0), (140, 0), (140, 180), (0, 100)])], 1000, 3
    )
    assert pair is not None
    assert arrange_folded(pair.question, ()) is None


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


FLAGS = """\
  fusible:
    kind: interfacing
    name: Fusible
    sold:
      - 20 in wide | 90 cm wide
pieces:
  flag:
    outline:
      points:
        low middle: 0, 0
        low corner: 24 cm, 0
        top corner: 20 cm, 30 cm
        top middle: 0, 30 cm
      edges:
        base:   line from low middle to low corner
        side:   line from low corner to top corner
        crown:  line from top corner to top middle
        centre: line from top middle to low middle
      on the fold along: {fold}
    allowance: 0
    copies:
      only: {material}
"""


def flags(material: str, fold: str = "centre", pattern: str = FLAGS) -> ClothLayout:
    """How flags are laid, their half drafted and mirrored along an edge."""
    draft = draft_text(pattern.format(material=material, fold=fold))[0]
    (layout,) = (layout for layout in plan_cloth(draft)[0].layouts if layout.laid)
    return layout


def test_halves_are_cut_opened_out_where_that_saves_a_selling_step() -> None:
    """Two flags of 48 cm lie side by side on 108 cm and take 30 + 2.5 cm; on the fold one behind the other 62.8 cm."""
    layout = flags("canvas, cut 2")
    assert not layout.folded
    assert [one.opened_out for one in layout.laid] == [True, True]
    assert (layout.buy_length, layout.folded_buy_length) == (400, 700)


def test_halves_lie_on_the_fold_where_it_costs_no_more() -> None:
    """One flag takes as much either way; so it does of interfacing, which is folded for no other sake."""
    for material in ("canvas", "fusible"):
        layout = flags(material)
        assert layout.folded
        assert [one.opened_out for one in layout.laid] == [False]
        assert (layout.used_length, layout.folded_buy_length) == (pytest.approx(300), 0)
    pair = FLAGS.replace("      on the fold along: {fold}\n", "")
    assert not flags("fusible, cut 2", pattern=pair).folded


def test_a_half_whose_fold_runs_across_the_cloth_is_opened_out() -> None:
    layout = flags("canvas", "base")
    assert not layout.folded
    assert [one.opened_out for one in layout.laid] == [True]
    assert layout.laid[0].length == pytest.approx(600)


def test_rows_that_match_a_print_are_single_and_their_halves_opened_out() -> None:
    """A print that repeats across, too, is laid in rows, on cloth that would be folded else."""
    plain = FLAGS.replace("  fusible:\n    kind: interfacing", "  fusible:\n    kind: fabric", 1)
    assert flags("fusible", pattern=plain).folded
    printed = plain.replace("pieces:", "    repeat: 40 cm\n    repeat across: 10 cm\npieces:", 1)
    layout = flags("fusible", pattern=printed)
    assert (layout.folded, layout.used_length) == (False, pytest.approx(400))
    assert [one.opened_out for one in layout.laid] == [True]


NOTCHED = """\
  narrow:
    kind: fabric
    name: Narrow cloth
    sold:
      - 64 cm wide
pieces:
  apron:
    outline:
      points:
        low middle: 0, 0
        low corner: 30 cm, 0
        top corner: 10 cm, 60 cm
        top middle: 0, 60 cm
      edges:
        base:   line from low middle to low corner
        side:   line from low corner to top corner
        crown:  line from top corner to top middle
        centre: line from top middle to low middle
      on the fold along: centre
    allowance: 0
    copies:
      only: narrow
  pocket:
    rectangle: 10 cm by 20 cm
    allowance: 0
    copies:
      only: narrow
"""


def test_what_is_cut_from_one_layer_is_a_pair_in_twice_the_order_and_takes_no_more() -> None:
    """The pocket beside the top of the apron, on both layers: 60 cm. Twice the order asks another question: two aprons,
    and the pockets as a pair. The layout of one serves it, laid twice: 60 + 0.3 + 60 cm."""
    draft = draft_text(NOTCHED)[0]
    (question,) = [one for one in lay_out(draft)[0].questions if one.folded]
    half = next(number for number, shape in enumerate(question.shapes) if shape.on_the_fold)
    # At 40 cm the side of the apron is 16.7 cm from the fold.
    answer = (Spot(half, 0, 0, 0), Spot(1 - half, 172, 400, 0))
    assert holds(question, answer)
    kept = ((question.name, written_answer(answer)),)
    for times in (1, 2, 3):
        cloth, _ = plan_cloth(cut_for_many(draft, times), kept)
        (layout,) = (one for one in cloth.layouts if one.laid)
        assert layout.folded
        assert layout.used_length == pytest.approx(times * 603 - 3)
        assert sorted((one.copy, one.nth) for one in layout.laid) == [
            (copy, nth) for copy in ("apron", "pocket") for nth in range(1, times + 1)
        ]
        outlines = [one.outline for one in layout.laid]
        assert overlap(outlines) < 1e-6
        assert outside(outlines, layout.usable_width, layout.used_length) < 1e-6


@settings(max_examples=30)
@given(st.integers(150, 400), st.integers(20, 140), st.integers(300, 700), st.floats(0.2, 0.9), st.floats(0.1, 0.6))
def test_whatever_the_notch_twice_the_order_buys_at_most_twice_the_cloth(
    wide: int, top: int, high: int, across: float, along: float
) -> None:
    """The pocket fills so much of the notch across and of the apron's height along; its place is known of one."""
    pattern = NOTCHED.replace("64 cm", f"{2 * wide + 40} mm").replace("30 cm, 0", f"{wide} mm, 0")
    pattern = pattern.replace("10 cm, 60 cm", f"{top} mm, {high} mm").replace("60 cm", f"{high} mm")
    tall = round(high * along)
    at = wide - (wide - top) * (high - tall) / high + 8  # clear of the side where the pocket begins
    pocket = round((wide + 8 - at) * across)
    assume(pocket > 10)
    draft = draft_text(pattern.replace("10 cm by 20 cm", f"{pocket} mm by {tall} mm"))[0]
    (question,) = [one for one in lay_out(draft)[0].questions if one.folded] or [None]
    assume(question is not None)
    assert question is not None
    half = next(number for number, shape in enumerate(question.shapes) if shape.on_the_fold)
    answer = (Spot(half, 0, 0, 0), Spot(1 - half, at, high - tall, 0))
    assume(holds(question, answer))
    kept = ((question.name, written_answer(answer)),)
    once, *more = (
        next(one for one in plan_cloth(cut_for_many(draft, times), kept)[0].layouts if one.laid)
        for times in (1, 2, 3, 4)
    )
    for times, layout in enumerate(more, 2):
        assert layout.buy_length <= times * once.buy_length + 1e-6


sides = st.integers(min_value=20, max_value=250)
SLANTED = """\
  {name}:
    outline:
      points:
        a: 0, 0
        b: {wide} mm, 0
        c: {narrow} mm, {high} mm
        d: 0, {high} mm
      edges:
        base:  line from a to b
        right: line from b to c
        top:   line from c to d
        left:  line from d to a
{fold}    allowance: 0
    copies:
      only: canvas{cut}
"""


def slanted(nth: int, wide: int, narrow: int, high: int, count: int, half: bool) -> str:
    """A piece with one slanting side, printed as a half or whole and cut as often."""
    fold = "      on the fold along: left\n" if half else ""
    cut = f", cut {count}" if count > 1 else ""
    return SLANTED.format(name=f"piece {nth}", wide=wide, narrow=narrow, high=high, fold=fold, cut=cut)


@settings(max_examples=25)
@given(
    st.lists(st.tuples(sides, sides, sides, st.integers(1, 3), st.booleans()), min_size=1, max_size=4),
    st.integers(2, 4),
)
def test_twice_the_order_buys_at_most_twice_the_cloth(
    pieces: list[tuple[int, int, int, int, bool]], times: int
) -> None:
    """Whatever is known of one: on the fold its answers are the halves piled, and rows of the rest behind them."""
    draft, _ = draft_text("pieces:\n" + "".join(slanted(nth, *piece) for nth, piece in enumerate(pieces)))
    known = (question for question in lay_out(draft)[0].questions if question.folded)
    kept = tuple((one.name, written_answer(in_rows_on_fold(one))) for one in known)
    (once,), (more,) = (plan_cloth(cut_for_many(draft, many), kept)[0].layouts for many in (1, times))
    assert more.buy_length <= times * once.buy_length + 1e-6
    assert len(more.laid) == times * len(once.laid)
    outlines = [one.outline for one in more.laid]
    assert overlap(outlines) < 1e-3
    assert outside(outlines, more.usable_width, more.used_length) < 1e-3
