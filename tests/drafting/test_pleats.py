"""Pleats and tucks: what they take, against published sums, and where their lines lie on the open piece."""

import pytest

from publisher.drafting import Draft, LineMark, Pleat
from tests.specimens import draft_text, found, pattern_line


def pleated(finished: str, pleats: list[str], height: str = "15 cm", measured: bool = False) -> str:
    """A band with pleats along its bottom edge and no allowance, so that its cut width is its flat width."""
    shape = (
        f"    rectangle: {finished} by {height}"
        if measured
        else f"    outline:\n      rectangle: {finished} by {height}"
    )
    lines = "\n".join(f"      pleat {at}: {said}" for at, said in enumerate(pleats))
    return f"pieces:\n  band:\n{shape}\n    allowance: 0\n    pleats:\n{lines}\n    copies:\n      only: canvas\n"


def metric(pattern: str) -> Draft:
    """The metric draft, in which nothing was found; in inches the figures of a metric manual are rounded."""
    draft, findings = draft_text(pattern)
    assert [finding for finding in findings if draft.variant in finding.variants] == []
    return draft


def flat_width(pattern: str) -> float:
    return metric(pattern).piece("band").as_cut.cut_width


def knife(depth: str, at: float, towards: str = "right") -> str:
    return f"knife pleat of {depth} at {at:.6f} cm from the left end of bottom edge, towards the {towards}"


def test_knife_pleats_of_the_manual() -> None:
    """P = F + 2·d·n. NIMI, CITS Apparel, Dress Making, trade practical (2024), page 203: a section of 92 cm, 18
    pleats 4 cm deep: 236 cm."""
    pitch = 92 / 18
    assert flat_width(pleated("92 cm", [knife("4 cm", (at + 1) * pitch - 0.01) for at in range(18)])) == pytest.approx(
        2360
    )


def test_knife_pleats_of_the_exercises() -> None:
    """The same manual, page 205: exercise 2a, 80 cm, 20 pleats 3 cm deep: 200 cm; exercise 7, 8 pleats 4 cm deep and a
    pattern of 120 cm: a section of 56 cm (answers by the manual's own rule)."""
    assert flat_width(pleated("80 cm", [knife("3 cm", at * 4 + 3.5) for at in range(20)])) == pytest.approx(2000)
    assert flat_width(pleated("56 cm", [knife("4 cm", at * 7 + 5) for at in range(8)])) == pytest.approx(1200)


def test_pleats_that_meet_take_three_times_the_width() -> None:
    """The same manual, page 205, exercise 5: 15.5 cm in 5 touching pleats: 3.1 cm deep, 46.5 cm of cloth."""
    assert flat_width(pleated("15.5 cm", [knife("3.1 cm", (at + 1) * 3.1) for at in range(5)])) == pytest.approx(465)


@pytest.mark.parametrize("kind", ["box", "inverted"])
def test_box_and_inverted_pleats_take_four_times_their_depth(kind: str) -> None:
    """F + 4·d. The same manual, page 204: one box pleat 12 cm deep in 60 cm: 108 cm."""
    assert flat_width(pleated("60 cm", [f"{kind} pleat of 12 cm at the middle of bottom edge"])) == pytest.approx(1080)


def test_tucks_take_twice_their_width() -> None:
    """Kinne and Cooley, Clothing and Health (1916), lines 2483 to 2523: three tucks 1/2 in wide take 3 in more."""
    tucks = [f"tuck of 1/2 in at {at} in from the left end of bottom edge, towards the right" for at in (2, 3, 4)]
    draft, findings = draft_text(pleated("8 in", tucks, height="6 in"))
    assert findings == ()
    # Metric: 8 in is 203 mm and 1/2 in is 13 mm, each rounded where it is written.
    assert draft.piece("band").as_cut.cut_width == pytest.approx(203 + 3 * 2 * 13)


def lines(pattern: str) -> dict[str, list[float]]:
    """Where the lines of the only pleat cross the bottom edge of the open piece, from its left."""
    piece = metric(pattern).piece("band").as_cut
    (pleat,) = [mark for mark in piece.marks if isinstance(mark, Pleat)]
    left = piece.cut_line.box.left
    named = {"outer": pleat.outer, "inner": pleat.inner, "meets": pleat.meets, "stitched": pleat.stitched}
    return {name: [round(start.x - left, 6) for start, _ in spans] for name, spans in named.items() if spans}


def test_a_knife_pleat_to_the_left() -> None:
    """Closed, its fold lies at 40. The cloth runs on to 50, turns back under the fold, and comes out again: on the flat
    the inner fold is at 50, the outer one 10 further, and it is brought to 40."""
    assert lines(pleated("10 cm", [knife("1 cm", 4, "left")])) == {"inner": [50], "outer": [60], "meets": [40]}


def test_a_knife_pleat_to_the_right() -> None:
    """Closed, its fold lies at 40; the cloth below begins again at 30. On the flat the outer fold is at 40, the inner
    one at 50, and 40 as closed lies at 40 + 20."""
    assert lines(pleated("10 cm", [knife("1 cm", 4, "right")])) == {"outer": [40], "inner": [50], "meets": [60]}


def test_a_box_pleat() -> None:
    """Closed, a box 20 wide lies over 50. Flat: the inner folds at 50 and 90, which meet behind; the outer ones at 60
    and 80, brought to 40 and 100, as far apart as the box is wide, measured without the 40 it takes."""
    said = ["box pleat of 1 cm at the middle of bottom edge"]
    assert lines(pleated("10 cm", said)) == {"inner": [50, 90], "outer": [60, 80], "meets": [40, 100]}


def test_an_inverted_pleat() -> None:
    """Closed, two folds meet at 50. Flat: they are 40 apart, with the inner folds between, and meet in the middle."""
    said = ["inverted pleat of 1 cm at the middle of bottom edge"]
    assert lines(pleated("10 cm", said)) == {"outer": [50, 90], "inner": [60, 80], "meets": [70]}


def test_a_tuck() -> None:
    said = ["tuck of 1 cm at the middle of bottom edge, towards the left"]
    assert lines(pleated("10 cm", said)) == {"stitched": [50, 70], "outer": [60]}


def test_seams_marks_and_copies_know_the_closed_piece_and_the_template_the_open_one() -> None:
    pattern = pleated("10 cm", ["box pleat of 1 cm at the middle of bottom edge"]) + (
        "    marks:\n      seam: stitching line at 8 cm from the left end of bottom edge\n"
    )
    draft, findings = draft_text(pattern)
    assert findings == ()
    piece = draft.piece("band")
    assert piece.edge("bottom edge").length == pytest.approx(100)
    assert piece.template.edge("bottom edge").length == pytest.approx(140)
    closed = next(mark for mark in piece.marks if isinstance(mark, LineMark))
    opened = next(mark for mark in piece.template.marks if isinstance(mark, LineMark))
    assert (closed.start.x, opened.start.x) == pytest.approx((80, 120))


def test_a_measured_piece_is_cut_at_one_rounded_size() -> None:
    """100 mm finished and a box pleat of 1/4 in, which is 6 mm: 124 mm flat; the width as sewn follows from the cut."""
    pattern = pleated("10 cm", ["box pleat of 1/4 in at the middle of bottom edge"], measured=True)
    draft, findings = draft_text(pattern)
    assert [finding.name for finding in findings] == []
    assert draft.piece("band").as_cut.cut_width == pytest.approx(124)


def test_pleats_up_the_side() -> None:
    pattern = pleated("10 cm", ["tuck of 1 cm at 5 cm from the bottom end of left edge, towards the top"])
    draft, findings = draft_text(pattern)
    assert findings == ()
    assert (draft.piece("band").as_cut.cut_width, draft.piece("band").as_cut.cut_height) == pytest.approx((100, 170))


@pytest.mark.parametrize(
    ("pleats", "name", "says"),
    [
        (["knife pleat of 1 cm at the middle of bottom edge"], "which-way", "does not say which"),
        (["tuck of 1 cm at the middle of bottom edge, towards the top"], "which-way", "does not say which"),
        (["box pleat of 0 cm at the middle of bottom edge"], "no-length", "0 mm deep"),
        ([knife("2 cm", 4), knife("2 cm", 5)], "pleats-overlap", "reaches to 40 mm"),
        (["box pleat of 1 cm at 12 cm from the left end of bottom edge"], "mark-beyond-edge", "120 mm along"),
    ],
)
def test_pleats_that_cannot_be_are_told(pleats: list[str], name: str, says: str) -> None:
    pattern = pleated("10 cm", pleats)
    finding = found(draft_text(pattern)[1], name)
    assert says in finding.says
    assert finding.place.line == pattern_line(pattern, pleats[-1])


def test_a_pleat_across_a_curve_is_told() -> None:
    pattern = """
    pieces:
      band:
        outline:
          points:
            a: 0 cm, 0 cm
            b: 10 cm, 0 cm
            c: 10 cm, 5 cm
            d: 0 cm, 5 cm
          edges:
            base: line from a to b
            end: line from b to c
            crown: arc from c to d with height 1 cm
            start: line from d to a
        pleats:
          one: box pleat of 1 cm at the middle of base
        copies:
          only: canvas
    """
    finding = found(draft_text(pattern)[1], "pleat-crosses-slant")
    assert "crosses 'crown'" in finding.says
