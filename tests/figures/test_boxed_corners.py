"""Boxed corners as a template tells them: what is cut out along its cut line, and the seam across."""

from dataclasses import replace

import pytest

from publisher.drafting import Draft, Edge, Piece, Seam, SeamEdge
from publisher.figures.boxed_corners import BoxedCorner, boxed_corners
from publisher.geometry import Line, Path, Point
from publisher.terms import UnitSystem
from tests.demo import demo_proof
from tests.hand_pieces import HERE, hand_draft, hand_piece, polyline

# A body 200 × 120 with its lower left corner cut out, 25 deep each way on the stitching line.
CORNERS = [(25, 0), (200, 0), (200, 120), (0, 120), (0, 25), (25, 25)]
EDGES = {"base": 12.0, "right": 10.0, "top": 10.0, "side": 10.0, "across": 6.0, "up": 6.0}


def body(corners: list[tuple[float, float]]) -> Piece:
    points = [Point(x, y) for x, y in corners]
    edges = tuple(
        Edge(name, Path((Line(start, end),)), allowance, HERE)
        for (name, allowance), start, end in zip(EDGES.items(), points, (*points[1:], points[0]), strict=True)
    )
    return replace(hand_piece(polyline(*corners), name="body"), edges=edges)


def sewn(piece: Piece) -> Draft:
    sides = [
        tuple(SeamEdge(copy, "body", edge, 25.0, (6.0,)) for copy in ("front", "back")) for edge in ("across", "up")
    ]
    return replace(hand_draft([piece]), seams=(Seam("corner seam", *sides, 0.0, 0.0, False, 0.0, HERE),))


def test_a_square_corner_is_cut_out_by_its_depth_and_the_allowances_beside_it() -> None:
    piece = body(CORNERS)
    (corner,) = boxed_corners(sewn(piece), piece)
    assert corner.at == Point(25, 25)
    assert corner.cut_out == pytest.approx((25 + 10 - 6, 25 + 12 - 6))
    assert corner.length == 50


def test_of_a_corner_that_is_not_square_the_seam_alone_is_told() -> None:
    piece = body([*CORNERS[:4], (0, 30), (25, 25)])
    (corner,) = boxed_corners(sewn(piece), piece)
    assert corner.cut_out is None


def test_a_piece_that_has_no_such_edges_has_no_boxed_corner() -> None:
    piece = body(CORNERS)
    assert boxed_corners(sewn(piece), replace(piece, name="lining")) == ()


def test_both_corners_of_the_pouch_are_told_once() -> None:
    (draft,) = demo_proof("sanderling-lined-pouch").drafts_of(UnitSystem.INCH)
    found: tuple[BoxedCorner, ...] = boxed_corners(draft, draft.piece("body"))
    assert [corner.cut_out for corner in found] == [pytest.approx((25.4, 25.4))] * 2
    assert {corner.length for corner in found} == {50.8}
