"""What else is drawn on template pages and in the legend: check block, frame, joining marks, scale bar, samples."""

import itertools
import math
from collections.abc import Sequence
from dataclasses import replace

import pytest
import shapely
from shapely import LineString, Polygon

from publisher.drafting import Draft, GrainLine, Hem, LineMark, Mark, Notch, PieceKind
from publisher.edition.layouts import font_file
from publisher.edition.text_width import text_width
from publisher.figures import (
    CARD_LONG,
    CARD_RADIUS,
    CARD_SHORT,
    PENS,
    Figure,
    Style,
    check_block_captions,
    check_block_figure,
    furniture_figure,
    mark_samples,
)
from publisher.figures.pleat_samples import pleat_sample
from publisher.geometry import Arc, Point, as_cubics
from publisher.template_pages import Edition, Paper, TemplatePage, plan_pages
from publisher.terms import UnitSystem
from tests.hand_pieces import HERE, hand_draft, hand_piece, notch, point_mark, rectangle

A4 = Edition(UnitSystem.METRIC, Paper.A4)


def areas(figure: Figure) -> list[Polygon]:
    return [Polygon([(spot.x, spot.y) for spot in stroke.path.flattened(0.001)]) for stroke in figure.strokes]


def pages_of(width: float, height: float) -> tuple[TemplatePage, ...]:
    pages, _ = plan_pages([hand_draft([hand_piece(rectangle(width, height))])], A4)
    return pages.pages


def test_the_check_block_holds_four_squares_two_coins_and_a_card_whole_and_apart() -> None:
    shapes = areas(check_block_figure())
    sizes = sorted((shape.bounds[2] - shape.bounds[0], shape.bounds[3] - shape.bounds[1]) for shape in shapes)
    # ISO/IEC 7810 ID-1, nominal (read at a secondary source): 85.60 × 53.98 mm, never converted from inches.
    # US quarter 24.26 mm (United States Mint, coin specifications), 1 euro 23.25 mm (Council Regulation (EC) 975/98).
    assert sizes == [
        pytest.approx(one, abs=0.003)
        for one in ((20, 20), (23.25, 23.25), (24.26, 24.26), (25.4, 25.4), (50, 50), (50.8, 50.8), (53.98, 85.6))
    ]
    assert (CARD_LONG, CARD_SHORT, CARD_RADIUS) == (85.6, 53.98, 3.18)
    assert min(one.distance(other) for one, other in itertools.combinations(shapes, 2)) > 4


def test_the_card_has_round_corners() -> None:
    (card,) = (stroke.path for stroke in check_block_figure().strokes if stroke.path.box.height > 80)
    arcs = [segment for segment in card.segments if isinstance(segment, Arc)]
    assert [arc.radius for arc in arcs] == [pytest.approx(3.18)] * 4
    assert card.closed
    assert Polygon([(spot.x, spot.y) for spot in card.flattened(1e-4)]).area == pytest.approx(
        85.6 * 53.98 - (4 - math.pi) * 3.18**2, abs=0.01
    )


def test_the_coins_are_circles() -> None:
    coins = [path for path in (stroke.path for stroke in check_block_figure().strokes) if len(path.segments) == 1]
    assert [coin.segments[0].length for coin in coins] == [pytest.approx(math.pi * across) for across in (24.26, 23.25)]
    for coin in coins:
        cubics = as_cubics(coin.segments[0])
        assert len(cubics) >= 8  # of at most 45 degrees
        assert coin.box.width == pytest.approx(coin.box.height)


def test_the_check_block_fits_the_place_kept_for_it_on_both_papers() -> None:
    figure = check_block_figure()
    for paper in Paper:
        pages, _ = plan_pages([hand_draft([hand_piece(rectangle(30, 30))])], Edition(UnitSystem.INCH, paper))
        block = pages.pages[0].check_block
        assert block is not None
        assert block.width <= pages.pages[0].frame.width
        for stroke in figure.strokes:
            assert stroke.path.box.left >= 0
            assert stroke.path.box.bottom >= 0
            assert stroke.path.box.right <= block.width
            assert stroke.path.box.top <= block.height


def test_no_caption_crosses_a_line() -> None:
    lines = [LineString(shape.exterior) for shape in areas(check_block_figure())]
    captions = check_block_captions()
    assert len(captions) == 7
    for caption in captions:
        height = 11.2 if caption.phrase.key == "check.card" else 5.6  # the card's takes two lines
        words = shapely.box(caption.left + 0.01, caption.top, caption.left + caption.width - 0.01, caption.top + height)
        assert not any(words.crosses(line) or words.intersects(line) for line in lines), caption
        assert any(words.within(shape) for shape in areas(check_block_figure()))


@pytest.mark.parametrize(("side", "height"), [(370, 500), (250, 560)])
def test_only_a_tiled_page_has_a_frame_to_trim_and_join_by(side: float, height: float) -> None:
    whole, *tiled = (furniture_figure(page) for page in pages_of(side, height))
    assert not any(stroke.style is Style.FRAME for stroke in whole.strokes)
    for page, figure in zip(pages_of(side, height)[1:], tiled, strict=True):
        (frame,) = (stroke for stroke in figure.strokes if stroke.style is Style.FRAME)
        box = frame.path.box
        assert frame.closed
        assert (box.left, box.bottom, box.width, box.height) == pytest.approx(
            (page.frame.left, page.frame.top, page.frame.width, page.frame.height)
        )


def test_two_halves_of_a_joining_mark_make_a_ring() -> None:
    _, above, below = pages_of(150, 500)
    assert (above.row, below.row) == (1, 2)
    halves = [_arcs(above), [_moved(arc, 0, above.frame.height) for arc in _arcs(below)]]
    for one, other in zip(*halves, strict=True):
        assert one.radius == pytest.approx(other.radius)
        assert (one.centre.x, one.centre.y) == pytest.approx((other.centre.x, other.centre.y))
        # Together they go once round: the one above the joint, the other below it.
        assert one.box.top == pytest.approx(one.centre.y)
        assert other.box.bottom == pytest.approx(other.centre.y)
        assert abs(one.sweep) + abs(other.sweep) == pytest.approx(2 * math.pi)


def _arcs(page: TemplatePage) -> list[Arc]:
    arcs = [part for stroke in furniture_figure(page).strokes for part in stroke.path.segments if isinstance(part, Arc)]
    assert len(arcs) == 3
    return arcs


def _moved(arc: Arc, x: float, y: float) -> Arc:
    by = Point(x, y)
    return Arc(arc.start + by, arc.end + by, arc.centre + by, arc.sweep)


def test_joining_marks_stay_within_the_frame() -> None:
    for page in pages_of(370, 500)[1:]:
        for stroke in furniture_figure(page).strokes:
            box = stroke.path.box
            if stroke.style is Style.JOINING:
                assert page.frame.left - 1e-9 <= box.left
                assert box.right <= page.frame.left + page.frame.width + 1e-9
                assert page.frame.top - 1e-9 <= box.bottom
                assert box.top <= page.frame.top + page.frame.height + 1e-9


def test_the_scale_bar_stands_below_the_frame_on_paper_that_prints() -> None:
    (page,) = pages_of(100, 100)
    bars = [stroke.path.box for stroke in furniture_figure(page).strokes if stroke.style is Style.SCALE]
    frame = page.frame
    assert max(box.width for box in bars) == pytest.approx(50.8)
    ticks = {round(box.left - frame.left, 3) for box in bars if box.width == 0}
    assert ticks == {0, 20, 25.4, 50, 50.8}
    assert all(frame.top + frame.height < box.bottom and box.top < frame.top + frame.height + 7 for box in bars)


FOLD = LineMark("fold", "fold line", Point(0, 40), Point(120, 40), "wrong side", (), HERE)


@pytest.mark.parametrize(
    ("marks", "more"),
    [
        ([], set()),
        ([notch(Point(60, 0), Point(60, 5))], {"notch"}),
        ([notch(Point(60, 0), Point(60, 5), double=True)], {"double-notch"}),
        ([point_mark(40, 30), FOLD], {"point", "fold-line"}),
    ],
)
def test_the_legend_shows_exactly_what_is_used(marks: Sequence[Mark], more: set[str]) -> None:
    draft = hand_draft([hand_piece(rectangle(120, 80), marks=marks)])
    assert {key for key, _ in mark_samples([draft], tiled=False)} == {"cut-line", "scale-bar"} | more


def sizes_apart(apart: float, **of_notch: bool) -> list[Draft]:
    """Two sizes, one higher than the other, each with a notch in its upper edge."""
    pieces = [
        hand_piece(rectangle(120, high), marks=[notch(Point(60, high), Point(60, high - 5), **of_notch)])
        for high in (80, 80 + apart)
    ]
    return [hand_draft([piece], size=size) for piece, size in zip(pieces, "SM", strict=True)]


@pytest.mark.parametrize(
    ("apart", "double", "key"),
    [
        (20.0, False, "notch"),
        (20.0, True, "double-notch"),
        (4.0, False, "nested-notch"),
        (4.0, True, "nested-double-notch"),
        (2.0, False, "dotted-notch"),
        (2.0, True, "dotted-double-notch"),
    ],
)
def test_the_legend_shows_notches_as_they_are_drawn_among_the_lines_of_sizes(
    apart: float, double: bool, key: str
) -> None:
    samples = dict(mark_samples(sizes_apart(apart, double=double), tiled=False))
    assert set(samples) == {"cut-line-shared", key, "scale-bar"}
    solid = [stroke for stroke in samples[key].strokes if stroke.style is Style.SOLID]
    assert len(solid) == (0 if apart == 20 else 4 if double else 2)


@pytest.mark.parametrize(("apart", "solid"), [(20.0, 0), (4.0, 1)])
def test_the_legend_shows_half_of_a_double_notch_on_the_fold(apart: float, solid: int) -> None:
    drafts = sizes_apart(apart, double=True)
    folded = [
        replace(
            draft, pieces=tuple(replace(piece, marks=tuple(map(_on_the_fold, piece.marks))) for piece in draft.pieces)
        )
        for draft in drafts
    ]
    sample = dict(mark_samples(folded, tiled=False))["double-notch-on-the-fold"]
    assert len([stroke for stroke in sample.strokes if stroke.style is Style.SOLID]) == solid
    assert len([stroke for stroke in sample.strokes if stroke.style is Style.NOTCH]) == 1 - solid


def _on_the_fold(mark: Mark) -> Mark:
    assert isinstance(mark, Notch)
    return replace(mark, side=Point(1.0, 0.0))


def test_grain_finished_line_and_joining_marks_are_in_the_legend_when_used() -> None:
    piece = hand_piece(
        rectangle(120, 80), rectangle(100, 60, 10, 10), grain_line=GrainLine(Point(20, 20), Point(20, 60))
    )
    keys = {key for key, _ in mark_samples([hand_draft([piece])], tiled=True)}
    assert keys == {"cut-line", "finished-line", "grain", "joining-mark", "scale-bar"}


@pytest.mark.parametrize("kind", ["knife pleat", "box pleat", "inverted pleat", "tuck"])
def test_lines_of_a_pleat_are_long_enough_to_tell_their_dashes(kind: str) -> None:
    """Each line of a sample shows a whole turn of its dashes and the long dash again, and no arrow lies on its dots."""
    strokes = pleat_sample(kind)
    heads = [stroke.path.box for stroke in strokes if stroke.style is Style.SOLID]
    dashed = [stroke for stroke in strokes if PENS[stroke.style].dashes]
    assert {stroke.style for stroke in dashed} >= {Style.FOLD}
    for stroke in dashed:
        dashes = PENS[stroke.style].dashes
        assert stroke.path.length > sum(dashes) + dashes[0] / 2
        dots = stroke.path.start.y - dashes[0], stroke.path.start.y - sum(dashes)
        assert all(head.top < min(dots) for head in heads if dashes[0] > 3)


@pytest.mark.parametrize(
    ("hems", "inner", "key"),
    [
        (False, False, "finished-line"),
        (True, False, "finished-line-hem"),
        (False, True, "finished-line-inner"),
        (True, True, "finished-line-hem-inner"),
    ],
)
def test_the_legend_says_of_the_finished_line_what_holds_for_the_pattern(hems: bool, inner: bool, key: str) -> None:
    piece = hand_piece(rectangle(120, 80), rectangle(100, 60, 10, 10))
    if hems:
        piece = replace(piece, hems=(Hem("edge 1", 10.0, 0.0, False, HERE),))
    if inner:
        piece = replace(piece, copies=(*piece.copies, replace(piece.copies[0], to_finished_line=True)))
    assert key in {key for key, _ in mark_samples([hand_draft([piece])], tiled=False)}


def test_a_measured_piece_adds_nothing_to_the_legend() -> None:
    piece = hand_piece(rectangle(120, 80), marks=[FOLD], kind=PieceKind.MEASURED)
    assert mark_samples([hand_draft([piece])], tiled=False) == ()


def test_every_sample_lies_within_its_drawing() -> None:
    marks = [
        notch(Point(60, 0), Point(60, 5)),
        notch(Point(80, 0), Point(80, 5), double=True),
        point_mark(40, 30),
        FOLD,
    ]
    piece = hand_piece(
        rectangle(120, 80), rectangle(100, 60, 10, 10), marks=marks, grain_line=GrainLine(Point(20, 20), Point(20, 60))
    )
    samples = mark_samples([hand_draft([piece])], tiled=True)
    assert len(samples) == 9
    for key, figure in samples:
        for stroke in figure.strokes:
            box = stroke.path.box
            assert 0 <= box.left <= box.right <= figure.width, key
            assert 0 <= box.bottom <= box.top <= figure.height, key


def test_the_sample_of_the_scale_bar_stands_as_the_bar_does_on_the_page() -> None:
    # Inches rise above the line: on a page y runs down, in the legend's drawings up.
    (page,) = pages_of(100, 100)
    on_page = _reach_at(furniture_figure(page), page.frame.left, 25.4)
    (sample,) = (
        figure
        for key, figure in mark_samples([hand_draft([hand_piece(rectangle(50, 50))])], False)
        if key == "scale-bar"
    )
    in_legend = _reach_at(sample, 4.0, 25.4)
    assert on_page < 0 < in_legend


def _reach_at(figure: Figure, left: float, along: float) -> float:
    """How far the tick so far along the bar goes from the bar, in the figure's own y."""
    (tick,) = (stroke.path for stroke in figure.strokes if abs(stroke.path.start.x - left - along) < 1e-6)
    return tick.end.y - tick.start.y


def test_a_text_is_as_wide_as_its_advances_and_a_little_more() -> None:
    # Source Sans Pro Regular: a digit is 497 of 1000 units wide, a space 200 (read in the font's own table).
    assert text_width("8 8", font_file(bold=False), 10) == pytest.approx((497 * 2 + 200) / 1000 * 10 * 25.4 / 72 * 1.03)
    assert text_width("", font_file(bold=True), 10) == 0
    assert text_width("Flap", font_file(bold=True), 10) > text_width("Flap", font_file(bold=False), 10)
