"""Corners squared to an edge and bevelled, against what the rule gives on paper."""

import math

import pytest

from publisher.drafting import Piece
from publisher.geometry import Line
from tests.specimens import draft_text, found

KITE = """\
pieces:
  wing:
    outline:
      points:
        a: 0, 0
        b: 20 cm, 0
        c: {top} cm, 10 cm
        d: 0, 10 cm
      edges:
        base: line from a to b
        side: line from b to c
        top: line from c to d
        back: line from d to a
    allowance: 1 cm
    corners:
      {corner}: {cut}
    copies:
      only: canvas
"""


def wing(corner: str, cut: str, top: float = 14) -> Piece:
    draft, findings = draft_text(KITE.format(corner=corner, cut=cut, top=top))
    assert [finding for finding in findings if draft.variant in finding.variants] == []
    return draft.piece("wing")


def corners_of(piece: Piece) -> list[tuple[float, float]]:
    assert all(isinstance(segment, Line) for segment in piece.cut_line.segments)
    return [(segment.start.x, segment.start.y) for segment in piece.cut_line.segments]


def has(piece: Piece, *spots: tuple[float, float]) -> bool:
    return all(any(math.dist(spot, corner) < 1e-6 for corner in corners_of(piece)) for spot in spots)


def test_a_corner_squared_to_the_edge_before_it() -> None:
    # The base's line runs on to the right as far as the cut line of the side, 10 / sin of the turn, and its allowance
    # ends square to it there, 10 mm below. The side leans left by 60 on 100: sin = 100 / hypot(60, 100).
    along = 200 + 10 / (100 / math.hypot(60, 100))
    assert has(wing("b", "squared to base"), (along, 0), (along, -10))


def test_a_corner_squared_to_the_edge_behind_it() -> None:
    # The side's line runs on down to the cut line of the base at y = −10, x = 200 + 6; there square to it, 10 mm out.
    way = 10 / math.hypot(60, 100)
    assert has(wing("b", "squared to side"), (206, -10), (206 + 100 * way, -10 + 60 * way))


def test_an_obtuse_corner_is_squared_too() -> None:
    # The side comes up leaning left, the top goes off to the left: its line runs on to y = 110, 6 mm further left.
    way = 10 / math.hypot(60, 100)
    assert has(wing("c", "squared to side"), (134, 110), (134 + 100 * way, 110 + 60 * way))


def test_a_right_corner_is_squared_by_its_mitre() -> None:
    assert has(wing("d", "squared to back"), (-10, 110))


def test_a_bevel_stands_as_far_off_as_the_allowance() -> None:
    # The mitre's tip lies 10 mm out both ways; the bevel crosses the diagonal 10 mm from the corner at 0, 100.
    cut = 10 * (math.sqrt(2) - 1)
    assert has(wing("d", "bevelled"), (-10, 100 + cut), (-cut, 110))


def test_the_corners_of_both_halves_are_cut_alike() -> None:
    pattern = """\
    pieces:
      leaf:
        outline:
          points:
            low: 0, 0
            out: 6 cm, 5 cm
            high: 0, 14 cm
          edges:
            under: line from low to out
            over: line from out to high
            centre: line from high to low
          {half} along: centre
        corners:
          out: bevelled
        copies:
          only: canvas
    """
    whole, findings = draft_text(pattern.format(half="mirrored"))
    assert [finding for finding in findings if whole.variant in finding.variants] == []
    spots = {(round(x, 6), round(y, 6)) for x, y in corners_of(whole.pieces[0])}
    assert spots == {(-x, y) for x, y in spots}
    bevel = {spot for spot in spots if spot[0] > 60}
    assert len(bevel) == 2
    folded = draft_text(pattern.format(half="on the fold"))[0].pieces[0].template
    assert bevel <= {(round(x, 6), round(y, 6)) for x, y in corners_of(folded)}


def test_beside_a_curve_the_squared_corner_ends_on_its_parallel() -> None:
    draft, _ = draft_text("""\
        pieces:
          sleeve:
            outline:
              points:
                a: 0, 0
                b: 20 cm, 0
                c: 20 cm, 10 cm
                d: 0, 10 cm
              edges:
                hem: line from a to b
                seam: line from b to c
                cap: arc from c to d with height 6 cm
                back: line from d to a
            corners:
              seam and cap: squared to seam
            copies:
              only: canvas
        """)
    # Chord 200, height 60: the radius is (100² + 60²) / 120, the centre that less 60 below the chord.
    radius = (100**2 + 60**2) / 120
    up = 100 - (radius - 60) + math.sqrt((radius + 10) ** 2 - 100**2)
    ends = [spot for segment in draft.pieces[0].cut_line.segments for spot in (segment.start, segment.end)]
    for x, y in ((200, up), (210, up)):
        assert any(math.hypot(spot.x - x, spot.y - y) < 1e-6 for spot in ends)


@pytest.mark.parametrize(
    ("corner", "cut", "name", "words"),
    [
        ("e", "bevelled", "no-such-corner", "'wing' has no corner called 'e'"),
        ("b", "squared to top", "no-such-edge", "'b' lies between 'base' and 'side', not at 'top'"),
        ("base and top", "bevelled", "no-such-corner", "'base' and 'top' do not meet at a corner of 'wing'"),
        ("base and sid", "bevelled", "no-such-edge", "'wing' has no edge called 'sid'"),
        ("b", "beveled", "unreadable", "this says nothing about a corner"),
    ],
)
def test_corners_that_cannot_be_cut_so(corner: str, cut: str, name: str, words: str) -> None:
    draft, findings = draft_text(KITE.format(corner=corner, cut=cut, top=14))
    told = found(tuple(one for one in findings if not one.variants or draft.variant in one.variants), name)
    assert words in told.says


HOLLOW = """\
pieces:
  wing:
    outline:
      points:
        a: 0, 0
        b: 20 cm, 0
        c: 6 cm, 3 cm
        d: 0, 10 cm
      edges:
        base: line from a to b
        under: line from b to c
        over: line from c to d
        back: line from d to a
{said}
    copies:
      only: canvas
"""


@pytest.mark.parametrize(
    ("said", "name"),
    [
        ("    corners:\n      c: bevelled", "corner-not-convex"),
        ("    hems:\n      back: 2 cm\n    corners:\n      d: bevelled", "corner-of-hem"),
        ("    corners:\n      a: bevelled\n    grain: up", None),
    ],
)
def test_only_free_corners_that_stick_out_are_cut_so(said: str, name: str | None) -> None:
    draft, findings = draft_text(HOLLOW.format(said=said))
    here = tuple(one for one in findings if draft.variant in one.variants)
    assert here == () if name is None else found(here, name)
