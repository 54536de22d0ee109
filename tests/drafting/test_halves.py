"""Outlines drafted as a half: mirrored into a whole, or printed as a half to lie on the fold."""

import math

import pytest

from publisher.drafting import LineMark, Notch, PointMark, snipped_notches
from publisher.figures.pieces import mark_strokes
from publisher.geometry import inside
from tests.specimens import draft_text, found, pattern_line

# The right half of a flap: 60 mm wide, 100 mm up its side, a crown that is level where it meets the middle.
# Its radius, by r = (c² + f²) / 2f with half the width c and the rise f: (60² + 20²) / 40 = 100 mm.
FLAP = """
pieces:
  flap:
    outline:
      points:
        low middle: 0 cm, 0 cm
        low corner: 6 cm, 0 cm
        top corner: 6 cm, 10 cm
        top middle: 0 cm, 12 cm
      edges:
        base:   line from low middle to low corner
        side:   line from low corner to top corner
        crown:  arc from top corner to top middle with radius {radius}
        centre: line from top middle to low middle
      {half}: centre
    allowance:
      all: 1 cm
      base: 2 cm
    copies:
      outside: canvas
    marks:
      middle:  notch at the middle of {side}
      ring:    point at 3 cm, 4 cm
      other:   point at -3 cm, 4 cm
      crease:  fold line at 5 cm from base
"""


def flap(half: str, radius: str = "10 cm", side: str = "right side") -> str:
    return FLAP.format(half=half, radius=radius, side=side)


def test_edges_that_run_smoothly_over_the_axis_stay_one_the_others_come_twice() -> None:
    draft, findings = draft_text(flap("mirrored along"))
    assert findings == ()
    piece = draft.piece("flap")
    assert [edge.name for edge in piece.edges] == ["base", "right side", "crown", "left side"]
    lengths = {edge.name: edge.length for edge in piece.edges}
    assert lengths["base"] == pytest.approx(120)
    assert lengths["right side"] == lengths["left side"] == pytest.approx(100)
    # Half the crown turns by asin(60 / 100) of its radius.
    assert lengths["crown"] == pytest.approx(2 * 100 * math.asin(0.6))
    assert [edge.allowance for edge in piece.edges] == [20, 10, 10, 10]


def test_a_crown_that_is_pointed_at_the_axis_has_two_halves() -> None:
    draft, findings = draft_text(flap("mirrored along", radius="15 cm"))
    assert findings == ()
    names = [edge.name for edge in draft.piece("flap").edges]
    assert names == ["base", "right side", "right crown", "left crown", "left side"]


def test_both_halves_are_mirror_images_to_a_billionth() -> None:
    piece = draft_text(flap("mirrored along", radius="15 cm"))[0].piece("flap")
    for name in ("side", "crown"):
        right, left = piece.edge(f"right {name}").path, piece.edge(f"left {name}").path.reversed()
        for part in (0.0, 0.3, 0.7, 1.0):
            one, other = right.point_at(right.length * part), left.point_at(left.length * part)
            assert (one.x, one.y) == pytest.approx((-other.x, other.y), abs=1e-9)


def test_the_other_side_is_named_by_where_it_lies() -> None:
    pattern = """
    pieces:
      yoke:
        outline:
          rectangle: 8 cm by 10 cm
          round:
            top right corner: 2 cm
          mirrored along: left edge
        copies:
          only: canvas
      band:
        outline:
          rectangle: 8 cm by 10 cm
          mirrored along: bottom edge
        copies:
          only: canvas
    """
    draft, findings = draft_text(pattern)
    assert findings == ()
    assert [edge.name for edge in draft.piece("yoke").edges] == [
        "bottom edge",
        "right edge",
        "top right corner",
        "top edge",
        "top left corner",
        "left edge",
    ]
    assert draft.piece("yoke").cut_width == pytest.approx(160 + 20)
    assert [edge.name for edge in draft.piece("band").edges] == ["right edge", "top edge", "left edge", "bottom edge"]
    assert draft.piece("band").cut_height == pytest.approx(200 + 20)


def test_on_the_fold_the_whole_is_sewn_and_half_of_it_printed() -> None:
    draft, findings = draft_text(flap("on the fold along"))
    assert findings == ()
    piece = draft.piece("flap")
    assert piece.cut_width == pytest.approx(120 + 20)
    half = piece.template
    assert half.fold_edge == "centre"
    # No allowance on the fold: the half is as wide as its finished line and the allowance of its side.
    assert half.cut_width == pytest.approx(60 + 10)
    assert half.edge("centre").allowance == 0
    assert half.cut_line.box.left == pytest.approx(0, abs=1e-9)
    assert half.finished_line.closed


def test_the_half_bears_the_marks_on_its_own_side() -> None:
    piece = draft_text(flap("on the fold along"))[0].piece("flap")
    half = piece.template
    assert {mark.name for mark in piece.marks} == {"middle", "ring", "other", "crease"}
    assert {mark.name for mark in half.marks} == {"middle", "ring", "crease"}
    crease = next(mark for mark in half.marks if isinstance(mark, LineMark))
    assert sorted((round(crease.start.x, 6), round(crease.end.x, 6))) == [0, 60]
    assert all(inside(half.finished_line, mark.at) for mark in half.marks if isinstance(mark, PointMark))
    assert any(isinstance(mark, Notch) for mark in half.marks)


@pytest.mark.parametrize("half", ["mirrored along", "on the fold along"])
def test_a_corner_where_an_edge_was_to_run_on_is_told_at_the_edge(half: str) -> None:
    """The chord falls by atan(20 / 60) = 18.435°; an arc of 150 mm bends by asin(63.246 / 300) = 12.170° at each end."""
    pattern = flap(half, radius="15 cm", side="crown")
    finding = found(draft_text(pattern)[1], "halves-meet-in-a-corner")
    assert finding.place.line == pattern_line(pattern, "crown: ")
    # 2 · (18.435° − 12.170°)
    assert "meet in a corner that turns by 13°" in finding.says
    assert finding.mend.startswith("let it end square to the middle")
    assert "'right crown' and 'left crown'" in finding.mend


def test_an_arc_that_is_bent_the_wrong_way_is_told_so() -> None:
    pattern = flap("mirrored along", radius="10 cm, inwards", side="crown")
    finding = found(draft_text(pattern)[1], "halves-meet-in-a-corner")
    # The tangent lies as far on the other side of the chord: 2 · 18.435° at the axis, twice that in all.
    assert "turns by 74°" in finding.says
    assert finding.mend.startswith("bent the other way it is square to the middle")


def test_an_edge_away_from_the_axis_is_only_unknown() -> None:
    assert "no edge called 'side'" in found(draft_text(flap("mirrored along", side="side"))[1], "no-such-edge").says


def test_marks_may_name_the_mirrored_side() -> None:
    piece = draft_text(flap("mirrored along", side="left side"))[0].piece("flap")
    (notch,) = [mark for mark in piece.marks if isinstance(mark, Notch)]
    assert (notch.at.x, notch.at.y) == pytest.approx((-60, 50))
    assert (notch.cut_end.x, notch.cut_end.y) == pytest.approx((-70, 50))


@pytest.mark.parametrize(
    ("written", "instead", "name", "says"),
    [
        ("mirrored along: centre", "mirrored along: center", "no-such-edge", "no edge called 'center'"),
        ("top middle: 0 cm, 12 cm", "top middle: 1 cm, 12 cm", "axis-not-straight", "neither upright nor level"),
        (
            "mirrored along: centre",
            "mirrored along: centre\n      on the fold along: centre",
            "one-half",
            "not both",
        ),
    ],
)
def test_what_cannot_be_mirrored_is_told(written: str, instead: str, name: str, says: str) -> None:
    pattern = flap("mirrored along").replace(written, instead)
    _, findings = draft_text(pattern)
    finding = found(findings, name)
    assert says in finding.says
    fragment = "on the fold along" if name == "one-half" else "mirrored along"
    assert finding.place.line == pattern_line(pattern, fragment)


def test_a_ring_on_the_fold_is_one_edge_and_has_a_left_and_a_right_end() -> None:
    """Half a circle of 50 mm: the rim is 2·π·50 long, its middle at the back; a quarter from its left end is its right."""
    pattern = """
    pieces:
      crown:
        outline:
          points:
            front: 0 cm, 0 cm
            back: 0 cm, 10 cm
          edges:
            rim: arc from front to back with radius 5 cm
            middle: line from back to front
          on the fold along: middle
        copies:
          only: canvas
        marks:
          front notch: double notch at 0 from the left end of rim
          side notch: notch at length of crown.rim / 4 from the left end of rim
          other side: notch at length of crown.rim / 4 from the right end of rim
          back notch: notch at the middle of rim
    """
    draft, findings = draft_text(pattern)
    assert [finding for finding in findings if draft.variant in finding.variants] == []
    piece = draft.piece("crown")
    assert piece.edge("rim").length == pytest.approx(100 * math.pi)
    at = {mark.name: (round(mark.at.x, 6), round(mark.at.y, 6)) for mark in piece.marks if isinstance(mark, Notch)}
    assert at == {"front notch": (0, 0), "side notch": (50, 50), "other side": (-50, 50), "back notch": (0, 100)}
    assert {mark.name for mark in piece.template.marks} == {"front notch", "side notch", "back notch"}
    front = next(mark for mark in piece.template.marks if mark.name == "front notch")
    strokes = mark_strokes(front)
    # On the fold half of a double notch is printed, on the piece's own side of it.
    assert [round(stroke.path.start.x, 6) for stroke in strokes] == [1.5]
    back = next(mark for mark in piece.template.marks if mark.name == "back notch")
    (snip,) = mark_strokes(back)
    # A single one would lie in the fold line, unseen: half of a triangle is printed, from the cut line down to the fold.
    assert [(round(end.x, 6), round(end.y, 6)) for end in (snip.path.start, snip.path.end)] == [(2, 110), (0, 105)]


@pytest.mark.parametrize(
    ("written", "snipped"),
    [
        ("notch at 3 cm from the bottom end of right side", {("right side", 30.0), ("left side", 70.0)}),
        # No template shows it, so nobody snips it; where one lies across from it, both layers are.
        ("notch at 3 cm from the bottom end of left side", set()),
        (
            "notch at 3 cm from the bottom end of left side\n      twin: notch at 3 cm from the bottom end of right side",
            {("right side", 30.0), ("left side", 70.0)},
        ),
    ],
)
def test_on_the_fold_is_snipped_through_both_layers_what_the_half_shows(
    written: str, snipped: set[tuple[str, float]]
) -> None:
    text = FLAP.format(half="on the fold along", radius="10 cm", side="right side")
    text = text.replace("middle:  notch at the middle of right side", f"middle:  {written}")
    (piece,) = draft_text(text)[0].pieces
    assert {(notch.edge, round(notch.distance, 3)) for notch in snipped_notches(piece)} == snipped
