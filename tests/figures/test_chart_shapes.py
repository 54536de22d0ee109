"""Shapes in the cutting chart: one scale, a row high, still to be told what they are."""

import re

import pytest

from publisher.drafting import PieceKind
from publisher.edition import set_edition
from publisher.figures import Style, chart_scale, chart_shape, figure_svg
from publisher.geometry import Box
from publisher.template_pages import DEFAULT_EDITIONS, Edition
from tests.demo import demo_proof
from tests.hand_pieces import hand_piece, polyline, rectangle, rounded

PEN = 0.4  # mm, the drawing's margins together
BODY = hand_piece(rectangle(220, 160), rectangle(200, 140, 10, 10), name="body")


def test_the_largest_piece_fits_and_the_others_share_its_scale() -> None:
    # 220 mm in 10 mm is a scale of 1 : 22; then 160 mm are 7.27 mm high, within 8 mm.
    flap = hand_piece(rectangle(110, 99), name="flap")
    scale = chart_scale([BODY, flap])
    assert scale == pytest.approx(1 / 22)
    for piece, size in ((BODY, (10, 160 / 22)), (flap, (5, 4.5))):
        figure = chart_shape(piece, False, scale)
        assert (figure.width - PEN, figure.height - PEN) == pytest.approx(size)


def test_a_tall_piece_is_held_by_its_height() -> None:
    assert chart_scale([hand_piece(rectangle(100, 400))]) == pytest.approx(8 / 400)


def test_a_piece_too_small_for_the_scale_is_drawn_three_millimetres_long() -> None:
    patch = hand_piece(rectangle(20, 10), name="patch")
    figure = chart_shape(patch, False, chart_scale([BODY, patch]))
    assert (figure.width - PEN, figure.height - PEN) == pytest.approx((3, 1.5))


def test_a_long_strip_does_not_shrink_the_chart() -> None:
    strip = hand_piece(rectangle(40, 1600), name="tie", kind=PieceKind.STRIP)
    assert chart_scale([BODY, strip]) == chart_scale([BODY])
    figure = chart_shape(strip, False, chart_scale([BODY, strip]))
    assert (figure.width - PEN, figure.height - PEN) == pytest.approx((0.2, 8))
    assert chart_scale([strip]) == pytest.approx(8 / 1600)


def test_the_finished_line_lies_inside_the_cut_line_dashed() -> None:
    scale = 1 / 22
    figure = chart_shape(BODY, False, scale)
    (cut,) = (stroke.path.box for stroke in figure.strokes if stroke.style is Style.SMALL_CUT)
    finished = [stroke.path.box for stroke in figure.strokes if stroke.style is Style.SMALL_FINISHED]
    whole: Box = finished[0]
    for box in finished[1:]:
        whole = whole.joined(box)
    assert len(finished) == 4
    assert (cut.width, cut.height) == pytest.approx((220 * scale, 160 * scale))
    assert (whole.left - cut.left, cut.right - whole.right) == pytest.approx((10 * scale, 10 * scale))


def test_a_finished_line_that_would_run_into_the_cut_line_is_left_out() -> None:
    # 5 mm of allowance at 1 : 22 are 0.23 mm on paper, less than a pen and its gap.
    narrow = hand_piece(rectangle(220, 160), rectangle(210, 150, 5, 5), allowance=5.0)
    figure = chart_shape(narrow, False, 1 / 22)
    assert {stroke.style for stroke in figure.strokes} == {Style.SMALL_CUT}


def test_a_copy_cut_to_the_finished_line_shows_that_line_alone() -> None:
    figure = chart_shape(BODY, True, 1 / 22)
    (line,) = figure.strokes
    assert (line.path.box.width, line.path.box.height) == pytest.approx((200 / 22, 140 / 22))
    assert line.style is Style.SMALL_CUT


def test_what_is_up_on_the_piece_is_up_in_the_chart() -> None:
    # A triangle with its tip up: y runs down on the page, so the tip has the least.
    (line,) = chart_shape(hand_piece(polyline((0, 0), (100, 0), (50, 60))), False, 0.1).strokes
    tip = min(line.path.flattened(), key=lambda point: point.y)
    assert (tip.x - 0.2, tip.y - 0.2) == pytest.approx((5, 0))


def test_a_shape_is_small_in_bytes() -> None:
    assert len(figure_svg(chart_shape(hand_piece(rounded(300, 200, 90)), False, 1 / 30), "x")) < 1200


@pytest.mark.parametrize("edition", DEFAULT_EDITIONS, ids=lambda edition: edition.name)
def test_each_row_of_the_demo_bears_its_shape(edition: Edition) -> None:
    html = set_edition(demo_proof(), edition).html
    named = re.findall(r"<title>Shape of ([^<]*)</title>", html)
    assert len(named) == 8
    assert named[0] == "body front"
    assert len(set(named)) == 8
