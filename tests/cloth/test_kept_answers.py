"""Answers that are kept: found by their question, whatever its pieces are called, and used only while they hold."""

import pytest

from publisher.cloth.arranging import arrange
from publisher.cloth.cuts import ALIKE, ask
from publisher.cloth.kept import holds, kept_answer
from publisher.cloth.questions import Spot, length_of, parts_of, written_answer
from publisher.cloth.rows import in_rows
from tests.cloth.asking import asked, many, panel, shaped

# On 210 mm: rows take 50 + 20 mm, side by side they take 50.
THREE = [panel(100, 50), panel(100, 30), panel(100, 20)]
BETTER = (Spot(0, 100, 0, 0), Spot(1, 100, 20, 0), Spot(2, 0, 0, 0))
LADY = [(0, 0), (60, 0), (60, 20), (20, 20), (20, 80), (0, 80)]  # an L


def test_a_kept_answer_is_used_while_it_holds() -> None:
    question = asked(THREE, 210)
    assert [shape.box().height for shape in question.shapes] == [20, 30, 50]
    assert length_of(question, in_rows(question)) == pytest.approx(70)
    kept = ((question.name, written_answer(BETTER)),)
    arranged = arrange(question, kept)
    assert (arranged.by, arranged.used, arranged.answered) == ("kept", pytest.approx(50), True)
    assert arrange(asked(THREE, 211), kept).by == "rows"
    assert arrange(asked(THREE, 210, gap=1), kept).by == "rows"


@pytest.mark.parametrize(
    "bad",
    [
        b"[[0, 90, 0, 0, 0], [1, 100, 20, 0, 0], [2, 0, 0, 0, 0]]",  # overlaps
        b"[[0, 120, 0, 0, 0], [1, 100, 20, 0, 0], [2, 0, 0, 0, 0]]",  # hangs over the selvage
        b"[[0, 100, 0, 90, 0], [1, 100, 20, 0, 0], [2, 0, 0, 0, 0]]",  # turned off its grain
        b"[[0, 100, 0, 0, 1], [1, 100, 20, 0, 0], [2, 0, 0, 0, 0]]",  # on a sheet, and there are none
        b"[[0, 100, 0, 0, 0], [1, 100, 20, 0, 0]]",  # one is missing
        b"[[0, 100, 0, 0, 0], [1, 100, 20, 0, 0], [2, 0, 0, 0, 0], [2, 0, 90, 0, 0]]",  # one too many
        b"[[0, 100, 0, 0, 0], [1, 100, 20, 0, 0], [7, 0, 0, 0, 0]]",  # no such shape
        b"[[0, 100, 0, 0, 0], [1, 100, 20, 0, 0], [2, 0, 1e300, 0, 0]]",  # far away
        b"[[0, 100, 0, 0, 0], [1, 100, 20, 0, 0], [2, 0, 1e400, 0, 0]]",
        b"[[0, 100, 0, 0, 0], [1, 100, 20, 0, 0], [2, 0, NaN, 0, 0]]",
        b"[[0, 100, 0, 0, 0], [1, 100, 20, 0, 0], [1e999, 0, 0, 0, 0]]",
        b"[[0, 100, 0, 0, 0], [1, 100, 20, 0, 0], [2, " + 5000 * b"9" + b", 0, 0, 0]]",
        b"[[0, 100, 0, 0, 0], [1, 100, 20, 0, 0], [2, 0, 101, 0, 0]]",  # behind all of them in a line
        b"[[0, 100], [1], []]",
        b'{"a": 1}',
        b"nonsense",
        b"\xff\xfe",
        b"[" * 10_000,
        b"",
    ],
)
def test_a_damaged_answer_is_none(bad: bytes) -> None:
    question = asked(THREE, 210)
    assert kept_answer(((question.name, bad),), question) is None
    arranged = arrange(question, ((question.name, bad),))
    assert (arranged.by, arranged.answered) == ("rows", False)


def test_the_question_knows_no_names_and_no_order() -> None:
    assert asked(THREE, 210).name == asked(THREE[::-1], 210).name
    drawn_from_elsewhere = shaped([*LADY[2:], *LADY[:2]])
    assert asked([shaped(LADY)], 210).name == asked([drawn_from_elsewhere], 210).name
    last_digit = [(x + 1e-12, y - 1e-12) for x, y in LADY]
    assert asked([shaped(LADY)], 210).name == asked([shaped(last_digit)], 210).name
    for other in (
        asked([shaped(LADY, ALIKE)], 210),
        asked([shaped(LADY)] * 2, 210),
        asked([shaped(LADY)], 210, 0, 400),
    ):
        assert other.name != asked([shaped(LADY)], 210).name


def test_alike_cuts_are_one_shape_and_its_mirror_image_is_another() -> None:
    over = [(-x, y) for x, y in LADY][::-1]
    over = [(x + 60, y) for x, y in over]
    question, numbers = ask([shaped(LADY), shaped(over), shaped(LADY)], 210, 0, None)
    assert sorted(shape.count for shape in question.shapes) == [1, 2]
    assert numbers[0] == numbers[2] != numbers[1]


def test_twice_the_order_takes_at_most_twice_the_cloth() -> None:
    """A layout that was found for an order serves every multiple of it."""
    question = asked(THREE, 210, gap=3)
    better = (Spot(0, 103, 0, 0), Spot(1, 103, 23, 0), Spot(2, 0, 0, 0))
    kept = ((question.name, written_answer(better)),)
    assert arrange(question, kept).used == pytest.approx(53)
    for times in (2, 3, 6):
        double = many(question, times)
        arranged = arrange(double, kept)
        assert holds(double, arranged.answer)
        assert arranged.used <= times * 53 + (times - 1) * 3 + 1e-6
    assert [times for times, _ in parts_of(many(question, 6))] == [2, 3, 6]


def test_beside_what_narrows_a_rectangle_is_no_band() -> None:
    """80 of 100 wide below, 20 at 60 high: 60 × 20 beside the wedge's top would find no room beside its box."""
    wedge = [(0, 0), (80, 0), (20, 60), (0, 100)]
    question = asked([shaped(wedge), panel(60, 20)], 100, gap=5)
    assert question.bound == pytest.approx(100)
    flat = next(number for number, shape in enumerate(question.shapes) if shape.rectangular)
    beside = (Spot(1 - flat, 0, 0, 0), Spot(flat, 38, 78, 0))
    assert holds(question, beside)
    assert length_of(question, beside) == pytest.approx(100)


def test_no_layout_is_shorter_than_the_bound() -> None:
    # 130 wide on 210: no two lie side by side, so 3 × 40 + 2 × 5; the band lies across in front of them.
    assert asked([panel(130, 40)] * 3, 210, gap=5).bound == pytest.approx(130)
    assert asked([*[panel(130, 40)] * 3, panel(208, 10)], 210, gap=5).bound == pytest.approx(145)
    assert asked([panel(100, 40)] * 3, 200).bound == pytest.approx(60)  # by area; rows take 80
    assert asked([shaped(LADY)], 210).bound == 80
    assert asked([panel(100, 100)] * 3, 200, 0, 100).bound == 2  # sheets of 200 × 100
