"""A hat's side band is a frustum of a cone laid flat, against the closed formulas of the cone's development.

Of a cone cut off at both ends with girths a and b and slant height s, the flat pattern is a sector of a ring: outer
radius s·a / (a − b), inner radius s·b / (a − b), angle (a − b) / s in radians (any textbook of descriptive geometry).
"""

import math

import pytest

from publisher.geometry import Arc
from tests.demo import demo_proof
from tests.specimens import draft_text


def test_the_band_of_every_size_is_the_flat_frustum_of_its_girths() -> None:
    for draft in demo_proof("avocet-sun-hat").drafts:
        measures = {name: float(quantity.amount) for name, quantity in draft.measures}
        a, s = measures["band girth"], measures["band height"]
        b = a - measures["taper"]
        band = draft.piece("band")
        (lower,), (upper,) = band.edge("lower edge").path.segments, band.edge("upper edge").path.segments
        assert isinstance(lower, Arc)
        assert isinstance(upper, Arc)
        assert (lower.length, upper.length) == (pytest.approx(a, abs=1e-3), pytest.approx(b, abs=1e-3))
        assert lower.radius == pytest.approx(s * a / (a - b), abs=1e-3)
        assert upper.radius == pytest.approx(s * b / (a - b), abs=1e-3)
        assert abs(lower.sweep) == pytest.approx((a - b) / s, abs=1e-6)
        # Rolled up it stands on circles of these radii, so high that the slant is s.
        height = math.sqrt(s**2 - ((a - b) / (2 * math.pi)) ** 2)
        assert math.hypot(height, a / (2 * math.pi) - b / (2 * math.pi)) == pytest.approx(s)


@pytest.mark.parametrize(("inner", "outer", "degrees"), [(60, 140, 90), (200, 230, 45), (40, 80, 280)])
def test_a_ring_sector_rolls_up_to_a_frustum_of_its_girths(inner: int, outer: int, degrees: int) -> None:
    draft, _ = draft_text(f"""\
        pieces:
          collar:
            outline:
              ring sector:
                inner radius: {inner} mm
                outer radius: {outer} mm
                angle: {degrees}
            copies:
              only: canvas
        """)
    edges = {edge.name: edge.length for edge in draft.piece("collar").edges}
    a, b, s = edges["outer edge"], edges["inner edge"], edges["left end"]
    assert (s * a / (a - b), s * b / (a - b)) == (pytest.approx(outer), pytest.approx(inner))
    assert math.degrees((a - b) / s) == pytest.approx(degrees)
