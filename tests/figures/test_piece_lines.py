"""A piece as lines, their pens, and the two writers."""

import itertools
import math
import re
from collections import Counter
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from publisher.drafting import GrainLine, LineMark
from publisher.figures import PENS, Figure, Stroke, Style, figure_svg, pdf_operators, piece_figure
from publisher.figures.pieces import notch_wedges
from publisher.geometry import Arc, Line, Path, Point
from tests.hand_pieces import HERE, hand_piece, notch, point_mark, rectangle, rounded
from tests.specimens import draft_text

SVG = "{http://www.w3.org/2000/svg}"


def styles(figure: Figure) -> Counter[Style]:
    return Counter(stroke.style for stroke in figure.strokes)


def test_a_piece_has_a_closed_cut_line_and_its_finished_edges() -> None:
    figure = piece_figure(hand_piece(rectangle(120, 80), rectangle(100, 60, 10, 10)))
    assert styles(figure) == {Style.CUT: 1, Style.FINISHED: 4}
    assert figure.strokes[0] == Stroke(rectangle(120, 80), Style.CUT, closed=True)
    assert (figure.width, figure.height) == (120, 80)


def test_where_there_is_no_allowance_one_line_is_drawn() -> None:
    assert styles(piece_figure(hand_piece(rectangle(120, 80)))) == {Style.CUT: 1}


def test_a_notch_runs_from_the_cut_line_inwards() -> None:
    piece = hand_piece(rectangle(120, 80), marks=[notch(Point(60, 0), Point(60, 5))])
    (drawn,) = (stroke for stroke in piece_figure(piece).strokes if stroke.style is Style.NOTCH)
    assert drawn.path == Path((Line(Point(60, 0), Point(60, 5)),))


def test_a_double_notch_is_two_three_millimetres_apart() -> None:
    piece = hand_piece(rectangle(120, 80), marks=[notch(Point(60, 0), Point(60, 5), double=True)])
    drawn = [stroke.path.box for stroke in piece_figure(piece).strokes if stroke.style is Style.NOTCH]
    assert sorted((box.left, box.bottom, box.top) for box in drawn) == [(58.5, 0, 5), (61.5, 0, 5)]


def test_the_arms_of_a_point_cross_on_its_spot() -> None:
    drawn = piece_figure(hand_piece(rectangle(120, 80), marks=[point_mark(40, 30)])).strokes
    ring, *arms = (stroke.path for stroke in drawn if stroke.style is Style.POINT)
    assert [(arm.point_at(arm.length / 2).x, arm.point_at(arm.length / 2).y) for arm in arms] == [(40, 30)] * 2
    assert (ring.box.left + ring.box.right, ring.box.bottom + ring.box.top) == (80, 60)


ON_THE_FOLD = """\
pieces:
  bib:
    outline:
      points:
        low middle: 0, 0
        low corner: 20 cm, 0
        top corner: 12 cm, 30 cm
        top middle: 0, 30 cm
      edges:
        base:   line from low middle to low corner
        side:   line from low corner to top corner
        crown:  line from top corner to top middle
        centre: line from top middle to low middle
      on the fold along: centre
    allowance:
      all: 1 cm
      base: 3 cm
    copies:
      only: canvas
"""


def test_what_lies_on_the_fold_is_no_cut_line() -> None:
    """The fold is drawn as a fold, from raw edge to raw edge; cut is what is left, in one go round."""
    piece = draft_text(ON_THE_FOLD)[0].pieces[0].half
    assert piece is not None
    figure = piece_figure(piece)
    (cut,) = (stroke for stroke in figure.strokes if stroke.style is Style.CUT)
    (fold,) = (stroke for stroke in figure.strokes if stroke.style is Style.FOLD)
    assert not cut.closed
    assert {(round(end.x, 3), round(end.y, 3)) for end in (cut.path.start, cut.path.end)} == {(0, -30), (0, 310)}
    assert {(round(end.x, 3), round(end.y, 3)) for end in (fold.path.start, fold.path.end)} == {(0, -30), (0, 310)}
    assert cut.path.length == pytest.approx(piece.cut_line.length - 340)


def test_a_fold_line_and_a_grain_arrow() -> None:
    fold = LineMark("fold", "fold line", Point(0, 40), Point(120, 40), "wrong side", (), HERE)
    piece = hand_piece(rectangle(120, 80), marks=[fold], grain_line=GrainLine(Point(20, 10), Point(20, 70)))
    figure = piece_figure(piece)
    assert styles(figure) == {Style.CUT: 1, Style.FOLD: 1, Style.GRAIN: 1, Style.SOLID: 2}
    tips = sorted(stroke.path.start.y for stroke in figure.strokes if stroke.style is Style.SOLID)
    assert tips == [10, 70]


def test_a_short_grain_arrow_keeps_its_shaft() -> None:
    piece = hand_piece(rectangle(20, 20), grain_line=GrainLine(Point(10, 4), Point(10, 13)))
    (shaft,) = (stroke.path for stroke in piece_figure(piece).strokes if stroke.style is Style.GRAIN)
    assert (shaft.start, shaft.end) == (Point(10, 7), Point(10, 10))


def test_every_style_has_a_pen_and_each_line_looks_like_no_other() -> None:
    assert set(PENS) == set(Style)
    seen = {(pen.width, pen.dashes) for style, pen in PENS.items() if style in (Style.CUT, Style.FINISHED, Style.FOLD)}
    assert len(seen) == 3
    assert PENS[Style.CUT] == type(PENS[Style.CUT])(0.5)


def test_the_operators_of_a_small_figure() -> None:
    figure = Figure(
        (
            Stroke(rectangle(10, 5), Style.CUT, closed=True),
            Stroke(Path((Line(Point(1, 2), Point(3.00049, -0.0004)),)), Style.FINISHED),
            Stroke(rectangle(1, 1), Style.SOLID, closed=True),
        )
    )
    assert pdf_operators(figure).decode().split("\n") == [
        "0 J 1 j 0 G 0 g",
        "0.5 w [] 0 d",
        "0 0 m",
        "10 0 l",
        "10 5 l",
        "0 5 l",
        "0 0 l",
        "h",
        "S",
        "0.25 w [3 1.5] 0 d",
        "1 2 m",
        "3 0 l",
        "S",
        "0 0 m",
        "1 0 l",
        "1 1 l",
        "0 1 l",
        "0 0 l",
        "h",
        "f",
    ]


@given(st.lists(st.tuples(st.floats(-2000, 2000), st.floats(-2000, 2000)), min_size=2, max_size=6))
def test_numbers_are_rounded_once_and_nought_has_no_sign(spots: list[tuple[float, float]]) -> None:
    points = [Point(x, y) for x, y in spots]
    path = Path(tuple(Line(first, second) for first, second in itertools.pairwise(points)))
    lines = pdf_operators(Figure((Stroke(path, Style.CUT),))).decode().split("\n")[2:-1]
    assert len(lines) == len(points)
    for line, point in zip(lines, points, strict=True):
        for text, value in zip(line.split()[:2], (point.x, point.y), strict=True):
            assert re.fullmatch(r"-?\d+(\.\d{0,2}[1-9])?", text)
            assert text != "-0"
            assert abs(float(text) - value) <= 0.0005 + 1e-9


@given(st.floats(5, 500), st.floats(0.1, 2 * math.pi))
def test_an_arc_becomes_cubics_of_an_eighth_turn_at_most(radius: float, sweep: float) -> None:
    end = Point(radius * math.cos(sweep), radius * math.sin(sweep))
    arc = Path((Arc(Point(radius, 0), end, Point(0, 0), sweep),))
    commands = re.findall(
        r"[a-zA-Z]", figure_svg(Figure((Stroke(arc, Style.CUT),), 9, 9), "arc").split(' d="')[1].split('"')[0]
    )
    assert commands == ["M"] + ["C"] * math.ceil(sweep / (math.pi / 4) - 1e-9)
    operators = pdf_operators(Figure((Stroke(arc, Style.CUT),))).decode()
    assert operators.count(" c") == len(commands) - 1


def test_the_svg_has_its_own_size_a_title_and_plain_paths() -> None:
    piece = hand_piece(rounded(120, 80, 20), marks=[point_mark(60, 40)])
    drawn = ElementTree.fromstring(figure_svg(piece_figure(piece), "Piece 1 <flap> & more", y_up=True))
    assert (drawn.get("width"), drawn.get("height"), drawn.get("viewBox")) == ("120mm", "80mm", "0 0 120 80")
    assert [title.text for title in drawn.findall(f"{SVG}title")] == ["Piece 1 <flap> & more"]
    shapes = [one for one in drawn.iter() if one.tag not in (f"{SVG}svg", f"{SVG}title", f"{SVG}defs")]
    assert {one.tag for one in shapes} == {f"{SVG}path"}
    assert all(set(re.findall(r"[a-zA-Z]", one.get("d", ""))) <= set("MLCZ") for one in shapes)
    assert {one.get("stroke") for one in shapes} == {"black"}


def test_an_svg_of_a_piece_stands_upright() -> None:
    figure = Figure((Stroke(Path((Line(Point(0, 0), Point(10, 30)),)), Style.CUT),), 20, 40)
    assert 'd="M0 40L10 10"' in figure_svg(figure, "line", y_up=True)
    assert 'd="M0 0L10 30"' in figure_svg(figure, "line")


def test_dashes_and_fills_reach_the_svg() -> None:
    strokes = (Stroke(rectangle(9, 9), Style.FINISHED, closed=True), Stroke(rectangle(2, 2), Style.SOLID, closed=True))
    text = figure_svg(Figure(strokes, 9, 9), "both")
    assert 'stroke-dasharray="3,1.5"' in text
    assert 'fill="black" stroke="none"' in text


def test_the_styles_of_a_hidden_mark_are_not_drawn_twice() -> None:
    piece = hand_piece(rectangle(120, 80), rectangle(100, 60, 10, 10), marks=[point_mark(40, 30)])
    strokes = piece_figure(piece).strokes
    assert len(set(strokes)) == len(strokes)


def test_pens_are_wide_enough_for_a_home_printer() -> None:
    # One dot of a 300 dpi printer is 0.085 mm; the thinnest line that ISO 128 lists is 0.13 mm (from memory).
    assert min(pen.width for pen in PENS.values() if not pen.filled) == pytest.approx(0.18)


def test_triangles_of_a_notch_stand_on_the_cut_line_and_end_where_its_line_would() -> None:
    foot, tip = Point(60, 0), Point(60, 3)
    (one,) = notch_wedges(foot, tip, double=False)
    assert (one.style, one.closed) == (Style.SOLID, True)
    assert sorted((spot.x, spot.y) for spot in one.path.flattened()[:3]) == [(59, 0), (60, 3), (61, 0)]
    two = [stroke.path.box for stroke in notch_wedges(foot, tip, double=True)]
    assert sorted((box.left, box.right, box.top) for box in two) == [(57.5, 59.5, 3), (60.5, 62.5, 3)]
    (half,) = notch_wedges(foot, tip, double=True, side=Point(1, 0))
    assert half.path.box.left == 60.5
