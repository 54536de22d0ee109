"""Labels in place: inside their piece and clear of every line; else smaller; else outside with a leader; else found."""

import itertools
from collections.abc import Sequence
from dataclasses import replace

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon

from publisher.drafting import Copy, Edge, GrainLine, LineMark, Piece
from publisher.figures import Label, label_page, piece_figure
from publisher.figures.leaders import LEADER_GAP
from publisher.figures.pieces import DOT
from publisher.geometry import Path, Point
from publisher.template_pages import Edition, Paper, TemplatePage, plan_pages
from publisher.terms import Finding, Phrase, Place, Severity, UnitSystem
from tests.hand_pieces import HERE, hand_draft, hand_piece, notch, point_mark, polyline, rectangle, rounded

A4 = Edition(UnitSystem.METRIC, Paper.A4)
POINT = 25.4 / 72


def fit(phrase: Phrase, points: float, bold: bool) -> tuple[str, float]:
    """A typewriter: half the type size for each sign of the key and the values."""
    text = f"{phrase.key}: {', '.join(str(value) for _, value in phrase.values if isinstance(value, str))}"
    return text, len(text) * points / 2 * POINT


def placed(*pieces: Piece) -> list[tuple[TemplatePage, list[Piece], tuple[Label, ...], tuple[Finding, ...]]]:
    """Every page of the pieces with its labels."""
    pages, findings = plan_pages([hand_draft(pieces)], A4)
    assert findings == ()
    by_name = {piece.name: piece for piece in pieces}
    done = []
    for page in pages.pages:
        here = [by_name[one.piece] for one in page.placed]
        done.append((page, here, *label_page(page, here, fit)))
    return done


def area(label: Label) -> Polygon:
    return shapely.box(label.left, label.top, label.left + label.width, label.top + label.height)


def drawn(page: TemplatePage, pieces: Sequence[Piece]) -> list[LineString]:
    """Every line of the pieces as it lies on the page."""
    return [
        LineString([(spot.x, spot.y) for spot in map(one.on_paper, stroke.path.flattened(0.01))])
        for one, piece in zip(page.placed, pieces, strict=True)
        for stroke in piece_figure(piece).strokes
    ]


def on_page(path: Path, page: TemplatePage, at: int = 0) -> Polygon:
    return Polygon([(spot.x, spot.y) for spot in map(page.placed[at].on_paper, path.flattened(0.01))])


def keys(label: Label) -> list[str]:
    return [line.text.split(":")[0] for line in label.lines]


def test_the_block_names_the_piece_and_stands_inside() -> None:
    piece = hand_piece(rectangle(150, 120), rectangle(130, 100, 10, 10), name="flap", number=3)
    ((page, here, (label,), found),) = placed(piece)
    assert found == ()
    assert keys(label) == ["label.title", "label.cut", "label.allowance"]
    assert label.lines[0].text == "label.title: flap, 3"
    assert (label.lines[0].points, label.lines[0].bold, label.leader) == (15, True, None)
    assert area(label).within(on_page(rectangle(130, 100, 10, 10), page))
    assert all(area(label).distance(line) > 1 for line in drawn(page, here))


def test_each_way_of_cutting_has_its_words() -> None:
    copies = (
        Copy("flap outside", "flap", "canvas", 2, False, True, HERE),
        Copy("flap interfacing", "flap", "fusible", 1, True, False, HERE),
    )
    one = hand_piece(rectangle(180, 160))
    piece = replace(one, copies=copies)
    ((_, _, (label,), _),) = placed(piece)
    assert keys(label) == ["label.title", "label.cut-pair", "label.cut-inner", "label.no-allowance"]
    assert label.lines[1].text == "label.cut-pair: outside, 1, canvas"


def test_copies_that_are_cut_alike_are_told_together_and_the_turned_one_on_its_own() -> None:
    copies = (
        Copy("facing right", "facing", "canvas", 1, False, False, HERE),
        Copy("facing left", "facing", "canvas", 1, False, False, HERE, turned_over=True),
        Copy("facing lining", "facing", "cotton", 1, False, False, HERE),
    )
    ((_, _, (label,), _),) = placed(replace(hand_piece(rectangle(180, 160), name="facing"), copies=copies))
    assert keys(label) == ["label.title", "label.cut-each", "label.cut", "label.turned-over", "label.no-allowance"]


@pytest.mark.parametrize(("lower", "key"), [(10.0, "label.cut-trimmed-by"), (15.0, "label.cut-trimmed")])
def test_a_nest_has_no_inner_line_and_says_what_is_trimmed_off(lower: float, key: str) -> None:
    sizes = ("S", "M")
    pieces = []
    for wide in (120, 140):
        one = hand_piece(rectangle(wide, 90), rectangle(wide - 20, 70, 10, 10))
        first, *rest = one.edges
        copies = (*one.copies, replace(one.copies[0], name="flap interfacing", to_finished_line=True))
        pieces.append(replace(one, copies=copies, edges=(replace(first, allowance=lower), *rest)))
    drafts = [hand_draft([piece], size=size) for size, piece in zip(sizes, pieces, strict=True)]
    pages, _ = plan_pages(drafts, A4)
    (page,) = (page for page in pages.pages if page.placed)
    labels, _ = label_page(page, pieces, fit)
    (block,) = (label for label in labels if "label.title" in keys(label))
    assert key in keys(block)
    assert "label.cut-inner" not in keys(block)


def test_different_allowances_are_told_with_their_edges() -> None:
    one = hand_piece(rectangle(180, 150), rectangle(160, 130, 10, 10))
    hem, *rest = one.edges
    edges = (Edge("hem", hem.path, 20.0, HERE), *rest)
    piece = replace(one, edges=edges)
    ((_, _, (label,), _),) = placed(piece)
    assert keys(label) == ["label.title", "label.cut", "label.edges-allowance", "label.edges-allowance"]


def test_a_mark_is_named_beside_it_and_for_whom() -> None:
    piece = hand_piece(
        rectangle(150, 120),
        rectangle(130, 100, 10, 10),
        marks=[notch(Point(75, 0), Point(75, 5), name="centre"), point_mark(75, 30, name="snap", copies=("front",))],
    )
    ((page, _, (centre, snap, _), found),) = placed(piece)
    assert found == ()
    assert [line.text for line in centre.lines] == ["label.mark: centre"]
    assert keys(snap) == ["label.mark-for"]
    spots = [page.placed[0].on_paper(Point(75, 5)), page.placed[0].on_paper(Point(75, 30))]
    for label, spot in zip((centre, snap), spots, strict=True):
        assert area(label).distance(shapely.Point(spot.x, spot.y)) < 12


@settings(max_examples=30, deadline=None)
@given(
    st.floats(110, 180),
    st.floats(90, 160),
    st.floats(3, 20),
    st.lists(st.tuples(st.floats(0.1, 0.9), st.floats(0.1, 0.9)), max_size=4),
)
def test_labels_are_clear_of_all_lines_and_of_each_other(
    width: float, height: float, radius: float, spots: list[tuple[float, float]]
) -> None:
    inner = rounded(width - 20, height - 20, radius, 10, 10)
    marks = [
        point_mark(10 + x * (width - 20), 10 + y * (height - 20), name=f"p{at}") for at, (x, y) in enumerate(spots)
    ]
    piece = hand_piece(
        rectangle(width, height), inner, marks=marks, grain_line=GrainLine(Point(20, 30), Point(20, height - 30))
    )
    for page, here, labels, found in placed(piece):
        lines = drawn(page, here)
        for label in labels:
            assert not any(area(label).intersects(line) for line in lines)
            assert label.leader is not None or area(label).within(on_page(inner, page).buffer(0.2))
            assert min(line.points for line in label.lines) >= 8
        assert not any(area(one).intersects(area(other)) for one, other in itertools.combinations(labels, 2))
        named = [label for label in labels if keys(label) != ["label.top"]]
        assert len(named) + len(found) == (len(marks) + 1 if page.placed else 0)


@pytest.mark.parametrize(("width", "height", "turned"), [(150.0, 120.0, False), (240.0, 120.0, True)])
def test_a_piece_that_lies_turned_says_which_edge_is_its_top(width: float, height: float, turned: bool) -> None:
    """24 cm find room along the sheet only: what is the top of the piece lies at a side of the page."""
    piece = hand_piece(rectangle(width, height), rectangle(width - 20, height - 20, 10, 10))
    ((page, _, labels, _),) = (one for one in placed(piece) if one[0].placed)
    tops = [label for label in labels if keys(label) == ["label.top"]]
    assert (page.placed[0].movement.quarter_turns % 4 != 0, len(tops)) == (turned, int(turned))
    middle = page.placed[0].on_paper(Point(width / 2, height - 10))
    assert all(area(top).distance(shapely.Point(middle.x, middle.y)) < 8 for top in tops)


def test_a_narrow_piece_takes_smaller_type_down_to_eight_points() -> None:
    # The title is 20 signs: 53 mm at 15 pt, 45 mm at 12.75 pt; the piece is 52 mm wide inside.
    piece = hand_piece(rectangle(56, 56), rectangle(52, 52, 2, 2), 2.0)
    ((page, _, (label,), found),) = placed(piece)
    assert found == ()
    assert label.leader is None
    assert label.lines[0].points < 15
    assert min(line.points for line in label.lines) >= 8
    assert area(label).within(on_page(piece.cut_line, page))


def test_a_tiny_piece_is_named_outside_with_a_leader_into_it() -> None:
    piece = hand_piece(rectangle(12, 12), name="tab")
    ((page, here, (label,), found),) = placed(piece)
    assert found == ()
    assert label.leader is not None
    inside = on_page(piece.cut_line, page)
    assert not area(label).intersects(inside)
    start, end = label.leader.path.start, label.leader.path.end
    assert area(label).distance(shapely.Point(start.x, start.y)) == pytest.approx(LEADER_GAP)
    assert inside.contains(shapely.Point(end.x, end.y))
    assert area(label).within(shapely.box(10, 17, 200, 280))
    assert not any(area(label).intersects(line) for line in drawn(page, here))


def test_a_leader_ends_in_the_piece_even_where_its_middle_is_empty() -> None:
    hook = hand_piece(polyline((0, 0), (100, 0), (100, 9), (9, 9), (9, 100), (0, 100)), name="hook")
    ((page, _, (label,), found),) = placed(hook)
    assert found == ()
    assert label.leader is not None
    end = label.leader.path.end
    assert on_page(hook.cut_line, page).contains(shapely.Point(end.x, end.y))


def test_a_crowded_mark_is_named_outside_too() -> None:
    piece = hand_piece(rectangle(14, 60), marks=[point_mark(7, 30, name="a rather long name")], name="strap")
    ((page, _, labels, found),) = placed(piece)
    assert found == ()
    mark = labels[0]
    assert keys(mark) == ["label.mark"]
    assert mark.leader is not None
    assert not area(mark).intersects(on_page(piece.cut_line, page))
    spot, end = page.placed[0].on_paper(Point(7, 30)), mark.leader.path.end
    assert shapely.Point(spot.x, spot.y).distance(shapely.Point(end.x, end.y)) == pytest.approx(4.5)


@pytest.mark.parametrize(("count", "side"), [(6, 14), (7, 8), (8, 8)])
def test_labels_and_leaders_of_several_tiny_pieces_keep_apart(count: int, side: float) -> None:
    pieces = [hand_piece(rectangle(side, side), name=f"tab {at}", number=at) for at in range(1, count + 1)]
    for page, here, labels, found in placed(*pieces):
        assert len(labels) + len(found) == len(here)
        assert len(labels) >= 3
        covers = [on_page(piece.cut_line, page, at) for at, piece in enumerate(here)]
        for label in labels:
            assert label.leader is not None
            (line,) = (LineString([(spot.x, spot.y) for spot in label.leader.path.flattened()]),)
            others = [area(other) for other in labels if other is not label]
            others += [cover for cover, piece in zip(covers, here, strict=True) if piece.name != label.piece]
            assert not any(line.crosses(other) for other in others)
            assert not any(area(label).intersects(cover) for cover in covers)


def test_what_finds_no_room_at_all_is_a_finding_each_for_itself() -> None:
    # The piece fills the page: its middle has room, but not for names longer than the page is wide.
    long = "so long a name that no line of a page can hold it, not even in the smallest type " * 2
    marks = [
        replace(notch(Point(at, 0), Point(at, 2), name=f"{long}{at}"), place=Place("pattern.yaml", at, 1, at, 2))
        for at in (50, 130)
    ]
    piece = hand_piece(rectangle(188, 260), marks=marks)
    page, _, labels, found = placed(piece)[-1]
    assert [keys(label)[0] for label in labels] == ["label.title"]
    assert [(one.name, one.severity) for one in found] == [("label-finds-no-room", Severity.WARNING)] * 2
    assert f"on template page {page.number}," in found[0].says
    assert "'flap'" in found[0].says
    assert marks[0].name in found[0].says
    assert found[0].says != found[1].says
    assert [str(one.place) for one in found] == ["pattern.yaml:50:1", "pattern.yaml:130:1"]


def test_a_mark_is_named_on_the_tile_that_shows_it_and_the_piece_on_each() -> None:
    piece = hand_piece(rectangle(300, 480), rectangle(280, 460, 10, 10), marks=[point_mark(40, 40, name="snap")])
    tiled = placed(piece)[1:]
    assert len(tiled) == 4
    named = [[one for label in labels for one in keys(label)] for _, _, labels, _ in tiled]
    assert all("label.title" in one and "label.tile" in one for one in named)
    assert sum("label.mark" in one for one in named) == 1
    for page, _, labels, _ in tiled:
        frame = page.frame
        within = shapely.box(frame.left, frame.top, frame.left + frame.width, frame.top + frame.height)
        assert all(area(label).within(within) for label in labels)
        for label, mark in itertools.product(labels, page.joining_marks):
            assert area(label).distance(shapely.Point(mark.at.x, mark.at.y)) > 5


def test_two_marks_side_by_side_have_their_names_apart() -> None:
    marks = [point_mark(75, 60, name="upper"), point_mark(75, 49, name="lower")]
    ((_, _, labels, found),) = placed(hand_piece(rectangle(150, 120), marks=marks))
    assert found == ()
    assert len(labels) == 3
    assert not any(area(one).intersects(area(other)) for one, other in itertools.combinations(labels, 2))


def test_a_line_over_two_tiles_is_named_on_both() -> None:
    crease = LineMark("crease", "fold line", Point(10, 75), Point(310, 75), "wrong side", (), HERE)
    stub = LineMark("stub", "fold line", Point(10, 300), Point(10, 340), "wrong side", (), HERE)
    pages = placed(hand_piece(rectangle(320, 350), marks=[crease, stub]))
    told = [
        [name for label in labels for name in ("crease", "stub") if name in label.lines[0].text]
        for *_, labels, _ in pages
    ]
    assert len(pages) == 5  # the first has the squares only
    assert sorted(told) == [[], [], ["crease"], ["crease"], ["stub"]]


def test_the_name_of_a_corner_stands_in_the_allowance_where_the_inside_is_further_away() -> None:
    # A hem 30 mm deep above the finished line, and below the corner a line that leaves no room beside it.
    line = LineMark("crease", "fold line", Point(10, 68), Point(110, 68), "wrong side", (), HERE)
    below = LineMark("tuck", "fold line", Point(10, 62), Point(110, 62), "wrong side", (), HERE)
    corner = point_mark(10, 70, "corner")
    piece = hand_piece(rectangle(120, 100), rectangle(100, 60, 10, 10), marks=[corner, line, below])
    ((page, _, (label, *_), found),) = placed(piece)
    assert found == ()
    assert label.leader is None
    assert label.lines[0].text == "label.mark: corner"
    assert area(label).within(on_page(rectangle(120, 30, 0, 70), page))


def test_a_name_that_would_stand_far_from_its_mark_stands_outside_instead() -> None:
    # A strap 5 mm wide, the mark at its far end; the next free place inside is the head, 90 mm away.
    lollipop = polyline((0, 0), (80, 0), (80, 80), (42, 80), (42, 180), (37, 180), (37, 80), (0, 80))
    end = notch(Point(39, 180), Point(39, 177))
    ((page, _, (mark, block), found),) = placed(hand_piece(lollipop, marks=[end]))
    assert found == ()
    assert (keys(mark), block.leader) == (["label.mark"], None)
    assert mark.leader is not None
    spot = page.placed[0].on_paper(end.inner_end)
    assert area(mark).distance(shapely.Point(spot.x, spot.y)) < 25


def test_a_name_outside_its_piece_is_not_inside_another() -> None:
    # Free paper lies above and below the row, 100 mm from the tab; the room within the panel is nearer.
    large = hand_piece(rectangle(168, 200), name="panel", number=1)
    page, here, labels, found = placed(large, hand_piece(rectangle(12, 195), name="tab", number=2))[-1]
    assert found == ()
    (tab,) = (label for label in labels if label.piece == "tab")
    assert tab.leader is not None
    assert not any(area(tab).intersects(on_page(piece.cut_line, page, at)) for at, piece in enumerate(here))


def test_a_piece_narrower_than_any_letter_is_named_all_the_same() -> None:
    ((_, _, (label,), found),) = placed(hand_piece(rectangle(3, 80), name="cord"))
    assert found == ()
    assert label.leader is not None


@settings(max_examples=15, deadline=None)
@given(st.lists(st.integers(2, 22), min_size=4, max_size=10, unique=True))
def test_no_leader_runs_over_a_name_and_no_name_stands_on_a_leader(spots: list[int]) -> None:
    marks = [notch(Point(at * 7.0, 0), Point(at * 7.0, 3), name=f"place {at}") for at in spots]
    ((_, _, labels, found),) = placed(hand_piece(rectangle(165, 8), name="band", marks=marks))
    assert len(labels) + len(found) == len(marks) + 1
    leaders = [
        (label, LineString([(spot.x, spot.y) for spot in label.leader.path.flattened()]))
        for label in labels
        if label.leader is not None
    ]
    assert leaders
    assert not any(area(one).intersects(area(other)) for one, other in itertools.combinations(labels, 2))
    assert not any(
        line.intersects(area(other).buffer(-0.01)) for label, line in leaders for other in labels if other is not label
    )


def test_a_leader_takes_another_way_round_names_that_stand_between() -> None:
    marks = [notch(Point(at, 0), Point(at, 3), name=f"place {at}") for at in range(60, 100, 5)]
    ((_, _, labels, found),) = placed(hand_piece(rectangle(165, 8), name="band", marks=marks))
    assert found == ()
    assert len(labels) == 9


def test_no_label_lies_on_the_check_block() -> None:
    pieces = [hand_piece(rectangle(12, 12), name=f"tab {at}", number=at) for at in range(1, 4)]
    ((page, _, labels, _),) = placed(*pieces)
    block = page.check_block
    assert block is not None
    squares = shapely.box(block.left, block.top, block.left + block.width, block.top + block.height)
    assert labels
    assert not any(area(label).intersects(squares) for label in labels)


def test_a_notch_that_is_a_dot_is_named_with_its_size_at_the_end_of_a_leader() -> None:
    sizes = "SML"
    pieces = [
        hand_piece(rectangle(120, high), marks=[notch(Point(60, high), Point(60, high - 4), name="middle")])
        for high in (80, 82, 84)
    ]
    drafts = [hand_draft([piece], size=size) for size, piece in zip(sizes, pieces, strict=True)]
    pages, _ = plan_pages(drafts, A4)
    (page,) = (page for page in pages.pages if page.placed)
    labels, found = label_page(page, pieces, fit)
    assert found == ()
    told = [label for label in labels if label.leader is not None and not label.leader_end and label.sizes]
    assert {label.sizes for label in told} >= {(size,) for size in sizes}
    for at, size in enumerate(sizes):
        foot = page.placed[at].on_paper(Point(60, 80 + 2 * at))
        ends = [label.leader.path.end for label in told if label.leader is not None and label.sizes == (size,)]
        assert min((end - foot).length for end in ends) == pytest.approx(DOT)


def test_a_leader_to_a_piece_ends_in_a_dot_clear_of_its_lines() -> None:
    hook = hand_piece(polyline((0, 0), (100, 0), (100, 9), (9, 9), (9, 100), (0, 100)), name="hook")
    ((page, here, (label,), _),) = placed(hook)
    assert label.leader is not None
    assert label.leader_end is not None
    dot = Polygon([(spot.x, spot.y) for spot in label.leader_end.path.flattened(0.01)])
    assert dot.centroid.distance(shapely.Point(label.leader.path.end.x, label.leader.path.end.y)) < 0.01
    assert all(dot.distance(line) > 1.5 for line in drawn(page, here))


def test_a_leader_does_not_run_along_the_line_that_it_names() -> None:
    # Lines so close that no name stands between them: the nearest white lies above and below, where the lines point.
    lines = [
        LineMark(f"a long name {at}", "fold line", Point(at, 0), Point(at, 60), "wrong side", (), HERE)
        for at in range(12, 96, 12)
    ]
    ((page, _, labels, found),) = placed(hand_piece(rectangle(108, 60), marks=lines))
    assert found == ()
    led = [label for label in labels if label.leader is not None and keys(label) == ["label.mark"]]
    assert led
    for label in led:
        assert label.leader is not None
        leader = LineString([(spot.x, spot.y) for spot in label.leader.path.flattened()])
        for line in lines:
            ends = [page.placed[0].on_paper(end) for end in (line.start, line.end)]
            along = leader.intersection(LineString([(end.x, end.y) for end in ends]).buffer(0.6)).length
            assert along < 6
