"""The ends of hems: turned, a hem must lie edge on edge with the piece. Checked by folding it with shapely."""

import pytest
from shapely import LineString, Polygon, box
from shapely.affinity import scale

from publisher.drafting import Draft, Piece
from publisher.geometry import Line
from tests.specimens import draft_text

FAR = 10_000.0
ROUNDED = 1e-6  # mm²


def leg(hem: str, left: str, right: str, extra: str = "") -> str:
    return f"""
    pieces:
      leg:
        outline:
          points:
            a: 0, 0
            b: 16 cm, 0
            c: {right}, 20 cm
            d: {left}, 20 cm
          edges:
            low edge: line from a to b
            right edge: line from b to c
            top edge: line from c to d
            left edge: line from d to a
        hems:
          low edge: {hem}
          {extra}
        copies:
          only: canvas
    """


def drafted(pattern: str) -> tuple[Draft, Piece]:
    draft, findings = draft_text(pattern)
    assert [finding for finding in findings if draft.variant in finding.variants] == []
    return draft, draft.pieces[0]


def cut(piece: Piece) -> Polygon:
    assert all(isinstance(segment, Line) for segment in piece.cut_line.segments)
    return Polygon([(segment.start.x, segment.start.y) for segment in piece.cut_line.segments])


@pytest.mark.parametrize(
    ("left", "right"), [("0 cm", "16 cm"), ("-3 cm", "20 cm"), ("4 cm", "13 cm"), ("2 cm", "19 cm")]
)
@pytest.mark.parametrize(
    ("hem", "layers"),
    [("2 cm", (20.0,)), ("2 cm, turned under 6 mm", (20.0, 6.0)), ("15 mm, turned twice", (15.0, 15.0))],
)
def test_a_turned_hem_covers_just_the_strip_above_it(
    left: str, right: str, hem: str, layers: tuple[float, ...]
) -> None:
    """Each layer, folded up on the one before, is the piece between the finished line and the layer's width (derived).

    Common practice of dressmaking: the ends of a hem on a tapered or flared edge mirror the seam above it.
    """
    _, piece = drafted(leg(hem, left, right))
    whole, fold = cut(piece), 0.0
    for turned, layer in enumerate(layers):
        cloth = whole.intersection(box(-FAR, fold - layer, FAR, fold))
        for at in reversed(range(turned + 1)):
            cloth = scale(cloth, 1, -1, origin=(0, -sum(layers[:at])))
        covers = (0.0, layer) if turned == 0 else (layers[0] - layer, layers[0])
        above = whole.intersection(box(-FAR, covers[0], FAR, covers[1]))
        assert cloth.symmetric_difference(above).area == pytest.approx(0, abs=ROUNDED)
        fold -= layer
    assert whole.bounds[1] == pytest.approx(-sum(layers))


def test_square_to_its_sides_a_hem_has_no_corner_of_its_own() -> None:
    _, piece = drafted(leg("2 cm, turned under 6 mm", "0 cm", "16 cm"))
    assert len(piece.cut_line.segments) == 4


def test_two_hems_that_meet_are_mitred() -> None:
    _, piece = drafted(leg("2 cm", "-3 cm", "20 cm", extra="right edge: 1 cm"))
    edge = LineString([(160, 0), (200, 200)]).parallel_offset(10, "right")
    tip = max(cut(piece).exterior.coords, key=lambda spot: spot[0] - 2 * spot[1])
    assert tip[1] == pytest.approx(-20)
    (first, second) = edge.coords[0], edge.coords[-1]
    across = (second[0] - first[0]) * (tip[1] - first[1]) - (second[1] - first[1]) * (tip[0] - first[0])
    assert across == pytest.approx(0, abs=1e-6)


@pytest.mark.parametrize("low", ["-2 cm", "2 cm"])
@pytest.mark.parametrize("hem", [True, False])
def test_on_the_fold_the_cloth_goes_on_along_the_fold(low: str, hem: bool) -> None:
    """The half that is printed is half of the whole as it is cut, whichever way an edge meets the fold."""
    pattern = leg("2 cm", "0 cm", "20 cm").replace("b: 16 cm, 0", f"b: 16 cm, {low}")
    pattern = pattern.replace("        hems:", "          on the fold along: left edge\n        hems:")
    if not hem:
        pattern = pattern.replace("hems:\n          low edge: 2 cm", "note: plain")
    _, piece = drafted(pattern)
    assert piece.half is not None
    assert bool(piece.hems) == hem
    half = cut(piece).intersection(box(0, -FAR, FAR, FAR))
    assert cut(piece.half).symmetric_difference(half).area == pytest.approx(0, abs=ROUNDED)


def test_beside_a_curve_the_end_follows_its_tangent() -> None:
    """The side is an arc: the turned end leaves the fold as the mirror image of the arc's tangent there."""
    pattern = leg("1 cm", "-3 cm", "20 cm").replace("line from b to c", "arc from b to c with height 1 cm")
    _, piece = drafted(pattern)
    at = next(
        at
        for at, one in enumerate(piece.cut_line.segments)
        if isinstance(one, Line) and abs(one.end.y) < 1e-6 and one.end.x > 100
    )
    up, down = piece.cut_line.segments[at + 1], piece.cut_line.segments[at]
    leaving, arriving = up.direction_at(0), down.direction_at(0)
    assert leaving.x == pytest.approx(-arriving.x, abs=0.05)
    assert leaving.y == pytest.approx(arriving.y, abs=0.05)
