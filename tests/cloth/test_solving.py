"""Layouts that are found: valid by another library, near proven optima, and in time, whatever the shapes."""

import json
import subprocess
import sys
from collections.abc import Sequence
from itertools import combinations
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from publisher.cloth import nesting
from publisher.cloth.cuts import ALIKE, Cut
from publisher.cloth.kept import holds
from publisher.cloth.nesting import Effort, Item, Strip, nest
from publisher.cloth.outlines import nested
from publisher.cloth.packing import in_boxes
from publisher.cloth.questions import Answer, Question, length_of
from publisher.cloth.rows import TooLong, in_rows
from publisher.cloth.shelves import TooWide
from publisher.cloth.solving import solve, solve_all
from tests.cloth.asking import asked, many, panel, shaped
from tests.cloth.oracle import placed_areas

WEDGE = [(0, 0), (90, 0), (90, 20), (0, 100)]  # two of them make a block of 90 × 120
HOOK = [(0, 0), (100, 0), (100, 30), (30, 30), (30, 100), (0, 100)]


def sound(question: Question, answer: Answer) -> bool:
    """True when Shapely finds each shape as often as asked, on the cloth, turned as it may be, and nothing too near."""
    counts = [sum(spot.shape == number for spot in answer) for number in range(len(question.shapes))]
    assert counts == [shape.count for shape in question.shapes]
    assert all(spot.turn in question.shapes[spot.shape].turns for spot in answer)
    areas = placed_areas(question, answer)
    far = question.length or length_of(question, answer)
    for area in areas:
        left, low, right, high = area.bounds
        assert min(left, low) > -0.02
        assert right < question.width + 0.02
        assert high < far + 0.02
    for (one, first), (other, second) in combinations(zip(areas, answer, strict=True), 2):
        if first.sheet == second.sheet:
            assert one.distance(other) > question.gap - 0.05
            assert one.intersection(other).area < 1.0
    return True


@pytest.mark.parametrize(
    ("cuts", "width", "best"),
    [
        ([shaped(WEDGE)] * 4, 183.0, 123.0),  # two blocks of two, nested point to foot
        ([shaped(HOOK)] * 4, 270.0, 270.0),
        ([panel(50, 30)] * 5 + [shaped(HOOK, ALIKE)] * 2, 250.0, 200.0),
    ],
)
def test_outlines_are_nested(cuts: list[Cut], width: float, best: float) -> None:
    question = asked(cuts, width, gap=2)
    answer = solve(question, Effort(1.0))
    assert answer is not None
    assert sound(question, answer)
    assert length_of(question, answer) < length_of(question, in_rows(question))
    assert length_of(question, answer) <= best


@pytest.mark.parametrize(
    "cuts",
    [
        [panel(100, 40)],  # one piece, as wide as the cloth
        [panel(100, 40), panel(100, 30), panel(60, 20)],  # exact fits
        [shaped([(0, 0), (100, 0), (100, 10), (50, 60), (0, 10)])] * 2,  # as wide as the cloth, and no rectangle
        [panel(0.2, 900), panel(50, 50), panel(50, 50)],  # a sliver
        [shaped([(0, 0), (80, 0), (80, 0.6), (0, 0.5)]), panel(50, 50)],
        [shaped([(0, 0), (50, 0), (0, 1e-9)]), panel(50, 50)],  # nothing but a line
        [panel(50, 1e6), panel(50, 50)],
        [shaped([(0, 0), (50, 50), (50, 0), (0, 50)]), panel(50, 50)],  # crosses itself
    ],
    ids=["one", "exact fits", "exact fit of a shape", "sliver", "thin", "line", "endless", "crossing"],
)
def test_shapes_that_a_solver_may_choke_on(cuts: list[Cut]) -> None:
    question = asked(cuts, 100.0, gap=3)
    answer = solve(question, Effort(1.0))
    rows = in_rows(question)
    assert answer is None or length_of(question, answer) <= length_of(question, rows)
    if answer is not None:
        assert holds(question, answer)


def test_no_piece_and_pieces_too_large() -> None:
    assert in_rows(asked([], 100)) == ()
    assert length_of(asked([], 100), ()) == 0
    assert list(solve_all([], 1.0)) == []
    with pytest.raises(TooWide):
        in_rows(asked([panel(101, 10)], 100))
    with pytest.raises(TooLong):
        in_rows(asked([panel(50, 101)], 100, 0, 100))


def _optimum(boxes: Sequence[tuple[int, int]], width: int) -> int:
    """The least length of cloth for rectangles that are not turned, proved by constraint programming."""
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    most = sum(along for _, along in boxes)
    length = model.new_int_var(0, most, "length")
    across_all, along_all = [], []
    for at, (across, along) in enumerate(boxes):
        x = model.new_int_var(0, width - across, f"x{at}")
        y = model.new_int_var(0, most - along, f"y{at}")
        across_all.append(model.new_fixed_size_interval_var(x, across, f"across{at}"))
        along_all.append(model.new_fixed_size_interval_var(y, along, f"along{at}"))
        model.add(y + along <= length)
    model.add_no_overlap_2d(across_all, along_all)
    model.minimize(length)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    assert solver.solve(model) == cp_model.OPTIMAL
    return round(solver.objective_value)


# Widths and lengths, and a width of cloth, chosen so that rows take more than they need.
RECTANGLES = [
    ([(60, 40), (50, 70), (40, 30), (30, 50), (20, 80), (70, 20)], 100),
    ([(45, 60), (55, 35), (30, 90), (25, 40), (40, 40), (20, 20)], 110),
    ([(80, 30), (30, 30), (30, 60), (50, 50), (40, 20), (20, 70), (60, 10)], 120),
    ([(33, 47), (41, 29), (27, 53), (38, 38), (22, 61), (49, 25)], 97),
]


@pytest.mark.parametrize(("boxes", "width"), RECTANGLES)
def test_rectangles_against_a_proven_optimum(boxes: list[tuple[int, int]], width: int) -> None:
    best = _optimum(boxes, width)
    question = asked([panel(across, along) for across, along in boxes], width)
    answer = solve(question, Effort(1.0))
    assert answer is not None
    assert question.bound <= best
    assert best - 0.05 <= length_of(question, answer) <= 1.15 * best
    assert length_of(question, answer) <= length_of(question, in_rows(question))


sizes = st.integers(min_value=5, max_value=200)


@settings(max_examples=40)
@given(st.lists(st.tuples(sizes, sizes, st.booleans()), min_size=1, max_size=12), st.sampled_from([0.0, 3.0, 3.175]))
def test_boxes_packed_hold(boxes: list[tuple[int, int, bool]], gap: float) -> None:
    question = asked([panel(across, along, free) for across, along, free in boxes], 200, gap)
    answer = in_boxes(question)
    assert answer is not None
    assert holds(question, answer)
    assert sound(question, answer)
    assert length_of(question, answer) >= question.bound - 0.01


@settings(max_examples=30)
@given(st.lists(st.tuples(sizes, sizes), min_size=1, max_size=10), st.integers(min_value=2, max_value=5))
def test_twice_the_order_at_most_twice_the_length(boxes: list[tuple[int, int]], times: int) -> None:
    from publisher.cloth.arranging import arrange

    question = asked([panel(across, along) for across, along in boxes], 200, 3)
    once, more = arrange(question, ()), arrange(many(question, times), ())
    assert sound(many(question, times), more.answer)
    assert more.used <= times * once.used + (times - 1) * 3 + 1e-6


def test_sheets_hold_outlines_where_boxes_find_no_room() -> None:
    """A wedge of 90 × 100 takes a sheet of 100 × 125 by its box; of two, one turned about, both lie on one."""
    pair = asked([shaped(WEDGE)] * 4, 100, 2, 125)
    assert length_of(pair, in_rows(pair)) == 4
    answer = solve(pair, Effort(4.0))
    assert answer is not None
    assert sound(pair, answer)
    assert holds(pair, answer)
    assert length_of(pair, answer) == pair.bound == 2


CHILD = """
import json, sys, time
print(json.dumps([200.0, [[0, 1.0, 2.0, 0.0]]]), flush=True)
print(json.dumps([150.0, [[0, 3.0, 4.0, 180.0]]]), flush=True)
print(json.dumps([180.0, [[0, 5.0, 6.0, 0.0]]]), flush=True)
sys.stdout.write('[100.0, [[0, 7.0,')
sys.stdout.flush()
{then}
"""


@pytest.mark.parametrize("then", ["time.sleep(3600)", "raise SystemExit(1)", "import os; os.abort()"])
def test_the_child_is_ended_and_its_best_layout_stands(
    then: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A child that would never end, one that fails, one that dies: the best whole line counts."""
    program = tmp_path / "child.py"
    program.write_text(CHILD.format(then=then), "utf-8")
    monkeypatch.setattr(nesting, "NESTER", program)
    children: list[subprocess.Popen[str]] = []

    class Watched(subprocess.Popen):  # type: ignore[type-arg]
        def __init__(self, *arguments, **more) -> None:  # type: ignore[no-untyped-def]
            super().__init__(*arguments, **more)
            children.append(self)

    monkeypatch.setattr(nesting.subprocess, "Popen", Watched)
    strip = Strip(100.0, 1.0, (Item(((0, 0), (1, 0), (1, 1)), 1, (0,)),))
    found = nest(strip, Effort(1.0))
    assert found is not None
    assert [(one.x, one.y, one.turn) for one in found] == [(3.0, 4.0, 180)]
    assert [child.poll() is not None for child in children] == [True]


@pytest.mark.parametrize("program", ["", "import time\ntime.sleep(3600)"], ids=["gone", "deaf"])
def test_a_child_that_does_not_listen(program: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The question is longer than a pipe holds."""
    (tmp_path / "child.py").write_text(program, "utf-8")
    monkeypatch.setattr(nesting, "NESTER", tmp_path / "child.py")
    ring = tuple((float(at), 0.5) for at in range(50_000))
    assert nest(Strip(100.0, 1.0, (Item(ring, 1, (0,)),)), Effort(0.5)) is None


def test_the_nesting_program_ends_when_whoever_asked_is_gone() -> None:
    strip = {"height": 100.0, "gap": 1.0, "seconds": 600, "workers": 1, "seed": 0}
    ring = [[0, 0], [30, 0], [30, 17], [0, 40]]
    asked_for = json.dumps({**strip, "items": [[ring, 60, [0.0, 180.0]]]}) + "\n"
    child = subprocess.Popen(
        [sys.executable, "-P", str(nesting.NESTER)], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    )
    assert child.stdin is not None
    assert child.stdout is not None
    child.stdin.write(asked_for)
    child.stdin.flush()
    assert child.stdout.readline().startswith("[")  # it is at work, and would be for ten minutes
    child.stdin.close()
    assert child.wait(timeout=60) == 2
    child.stdout.close()


def test_a_panic_gives_no_layout() -> None:
    too_tall = Strip(100.0, 1.0, (Item(((0, 0), (50, 0), (50, 200), (0, 200)), 1, (0,)),))
    assert nest(too_tall, Effort(5.0)) is None
    assert nested(asked([shaped([(0, 0), (50, 0), (50, 0.1)])] * 2, 100), Effort(1.0)) is None
