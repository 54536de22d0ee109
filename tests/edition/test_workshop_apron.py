"""The workshop apron by hand: its numbers worked out on paper from content/dunlin-workshop-apron, its lines true on tiles."""

import io
import json
import math
import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

import pytest
from pdfminer.high_level import extract_text
from shapely import LineString, Point

from publisher.edition import computed_json
from publisher.template_pages import DEFAULT_EDITIONS, EDITIONS, Edition
from publisher.terms import UnitSystem
from tests.demo import demo_proof, printed_demo
from tests.pdfium_reading import Spot
from tests.tiles import TRUE, assert_tiled, tiles

DEMO = "dunlin-workshop-apron"


@dataclass(frozen=True)
class OnPaper:
    """What pattern.yaml comes to, in the maker's own unit (`unit` mm); every number worked out beside it."""

    unit: float
    width: float
    skirt: float
    bib: float
    radius: float
    height: float
    allowance: float
    hems: tuple[float, float, float]  # what the lower, the side and the top hem take
    cut: tuple[float, float]
    armhole: float
    casing: float  # from the seam to the folded edge of the facing
    facing_outer: float
    fold_under: float
    end_hem: float  # what it takes
    cord: tuple[float, float]  # length and width, finished
    cord_cut: tuple[float, float]
    ties: float
    neck: float
    ease: float
    stitched: float  # from the folded edge
    strips: dict[float, int]  # by the width of the cloth
    crosses: dict[str, Spot]  # on the apron, from the middle and the lower edge
    bought: tuple[
        float, float
    ]  # of print at its narrowest, in yd or cm: what the apron alone takes, and all in plain rows
    printed: tuple[str, ...]


APRONS = {
    UnitSystem.INCH: OnPaper(
        unit=25.4,
        width=29.0,
        skirt=22.0,
        bib=11.0,
        radius=9.0,  # (29 - 11) / 2
        height=31.0,  # 22 + 9
        allowance=0.375,
        hems=(2.0, 1.0, 2.0),  # each turned twice
        cut=(31.0, 35.0),  # 29 + 2 × 1; 31 + 2 + 2
        armhole=14.137,  # a quarter of a circle: 9 × 3.1416 / 2
        casing=1.125,  # 3/4 cord + 1/4 ease + 1/8 to the stitching
        facing_outer=15.904,  # (9 + 1 1/8) × 3.1416 / 2
        fold_under=0.25,
        end_hem=0.5,
        cord=(132.274, 0.75),  # 24 + 2 × 40 + 2 × 14.137
        cord_cut=(133.5, 3.0),  # and 1/2 at each end, up to the next 1/4; in fourths
        ties=40.0,
        neck=24.0,
        ease=0.25,
        stitched=0.125,
        # A join takes the strip's width: 41 + 3 × 38 = 155 in of four, 117 of three; 53 + 2 × 50 = 153 of three.
        strips={42: 4, 54: 3},
        crosses={
            "bib pocket corner": (3.0, 28.5),  # 6 / 2; 31 - 2 1/2
            "bib pocket low corner": (3.0, 23.0),  # 5 1/2 lower
            "pocket low inner": (4.0, 10.0),
            "pocket low outer": (10.0, 10.0),  # 6 wide
            "pocket top inner": (4.0, 18.0),  # 8 high at the inner side
            "pocket top outer": (10.0, 15.75),  # 5 3/4 at the outer
        },
        # The print repeats every 6 in, 5.76 once washed: 35 1/8 take 7 of them, (40.32 + 1) / 0.96 = 43 in, up to 1 1/4 yd;
        # a second row of pockets, 9 3/8 + 1/8, 2 more: (51.84 + 1) / 0.96 = 55 in, up to 1 5/8.
        bought=(1.25, 1.625),
        printed=(
            "Allows for a print that repeats every 6 in:",
            "width 29 in, height 31 in, width of bib 11 in, length of cord 132 1⁄2 in",
            "The cord is 3⁄4 in wide and the casing leaves 1 in for it",
            "Each pocket is now 6 in wide and 8 in high at its longer side",
            "Check: apron now measures 29 in across and 31 in down",
            "it is 1 1⁄8 in from the seam",
            "Cut the cord to 133 1⁄2 in",
            "At each lower corner cut off the outer 1⁄2 in of the side, 1 3⁄4 in up",
            "Trim the allowances to 1⁄4 in between the hems",
            "Begin 3⁄4 in down the side. Sew slantwise up to 1⁄2 in from the corner, 1⁄8 in short",
            "Check: cord is now 132 1⁄2 in long and 3⁄4 in wide",
        ),
    ),
    UnitSystem.METRIC: OnPaper(
        unit=10.0,
        width=74.0,
        skirt=56.0,
        bib=28.0,
        radius=23.0,  # (74 - 28) / 2
        height=79.0,
        allowance=1.0,
        hems=(5.0, 2.4, 5.0),
        cut=(78.8, 89.0),
        armhole=36.128,
        casing=2.9,  # 2 + 0.6 + 0.3
        facing_outer=40.684,  # 25.9 × 3.1416 / 2
        fold_under=0.6,
        end_hem=1.2,
        cord=(332.257, 2.0),  # 60 + 2 × 100 + 2 × 36.128
        cord_cut=(335.0, 8.0),  # and 1.2 at each end, up to a whole cm
        ties=100.0,
        neck=60.0,
        ease=0.6,
        stitched=0.3,
        strips={110: 4, 140: 3},  # 108 + 3 × 100 = 408, 308 of three; 138 + 2 × 130 = 398
        crosses={
            "bib pocket corner": (7.5, 72.5),
            "bib pocket low corner": (7.5, 58.5),
            "pocket low inner": (10.0, 25.0),
            "pocket low outer": (25.5, 25.0),
            "pocket top inner": (10.0, 45.0),
            "pocket top outer": (25.5, 39.5),
        },
        # A repeat of 15 cm is 14.4 washed: 89.3 take 7, (100.8 + 2.5) / 0.96 = 107.6; a second row, 23.9, 2 more: 137.6.
        bought=(110.0, 140.0),
        printed=(
            "Allows for a print that repeats every 15 cm:",
            "width 74 cm, height 79 cm, width of bib 28 cm, length of cord 332.6 cm",
            "The cord is 2 cm wide and the casing leaves 2.6 cm for it",
            "Each pocket is now 15.5 cm wide and 20 cm high at its longer side",
            "Check: apron now measures 74 cm across and 79 cm down",
            "it is 2.9 cm from the seam",
            "Cut the cord to 335 cm",
            "At each lower corner cut off the outer 1.2 cm of the side, 4.4 cm up",
            "Trim the allowances to 6 mm between the hems",
            "Begin 2 cm down the side. Sew slantwise up to 1.2 cm from the corner, 3 mm short",
            "Check: cord is now 333 cm long and 2 cm wide",
        ),
    ),
}

every_edition = pytest.mark.parametrize("edition", EDITIONS, ids=lambda edition: edition.name)
each_system = pytest.mark.parametrize("units", UnitSystem, ids=lambda units: units.value)


@cache
def record() -> dict[str, dict[str, object]]:
    return {one["units"]: one for one in json.loads(computed_json(demo_proof(DEMO), []))["variants"]}


@each_system
def test_computed_numbers_are_those_on_paper(units: UnitSystem) -> None:
    apron, computed = APRONS[units], record()[units.value]

    def measure(name: str) -> float:
        return float(Fraction(computed["measures"][name]["exact"])) / apron.unit

    assert measure("armhole radius") == apron.radius
    assert measure("casing depth") == pytest.approx(apron.casing)
    # What the casing leaves between its seam and its stitching is the cord and its ease.
    assert apron.casing - apron.stitched == pytest.approx(apron.cord[1] + apron.ease)
    assert measure("cord length") == pytest.approx(apron.cord[0], abs=1e-3)
    assert apron.cord[0] == pytest.approx(apron.neck + 2 * apron.ties + 2 * apron.armhole, abs=2e-3)
    pieces = {piece["name"]: piece for piece in computed["pieces"]}
    sizes = {
        name: (piece["cut width"] / apron.unit, piece["cut height"] / apron.unit) for name, piece in pieces.items()
    }
    assert sizes["apron"] == pytest.approx(apron.cut)
    assert sizes["cord"] == pytest.approx(apron.cord_cut)
    lengths = {name: edge["length"] / apron.unit for name, edge in pieces["apron"]["edges"].items()}
    assert lengths["right armhole"] == lengths["left armhole"] == pytest.approx(apron.armhole, abs=1e-3)
    assert (lengths["lower edge"], lengths["bib top"]) == pytest.approx((apron.width, apron.bib))
    facing = {name: edge["length"] / apron.unit for name, edge in pieces["facing"]["edges"].items()}
    assert facing["inner edge"] == pytest.approx(apron.armhole, abs=1e-3)
    assert facing["outer edge"] == pytest.approx(apron.facing_outer, abs=1e-3)
    assert facing["left end"] == facing["right end"] == pytest.approx(apron.casing)


@each_system
def test_cloth_is_enough_and_not_more_than_rows_take(units: UnitSystem) -> None:
    apron, proof = APRONS[units], demo_proof(DEMO)
    (cloth,) = (cloth for cloth in proof.cloths if cloth.variant.units is units)
    counts = {round(plan.sold_width / apron.unit): plan.count for plan in cloth.strips}
    assert counts == apron.strips
    narrow = next(layout for layout in cloth.layouts if layout.material == "print")
    least, rows = apron.bought
    step = 36 * 25.4 if units is UnitSystem.INCH else 10.0
    assert least <= round(narrow.buy_length / step, 6) <= rows


@pytest.mark.parametrize("edition", DEFAULT_EDITIONS, ids=lambda edition: edition.name)
def test_printed_numbers_are_those_on_paper(edition: Edition) -> None:
    text = re.sub(r"\s+", " ", extract_text(io.BytesIO(printed_demo(edition.name, DEMO).pdf)))
    for words in APRONS[edition.units].printed:
        assert words in text


def half_cut(apron: OnPaper) -> LineString:
    """The cut line of the right half, mm: straight through the hems, the armhole's circle nearer to its centre by the
    allowance; the fold is no part of it."""
    lower, side, top = apron.hems
    right, waist, inner = apron.width / 2, apron.skirt + apron.allowance, apron.radius - apron.allowance
    turns = [math.radians(270 - 90 * at / 2000) for at in range(2001)]
    curve = [(right + inner * math.cos(turn), apron.height + inner * math.sin(turn)) for turn in turns]
    bib = apron.bib / 2 + apron.allowance
    corners = [(0.0, -lower), (right + side, -lower), (right + side, waist), *curve, (bib, apron.height + top)]
    return LineString([(x * apron.unit, y * apron.unit) for x, y in (*corners, (0.0, apron.height + top))])


@every_edition
def test_the_half_apron_is_true_on_every_tile(edition: Edition) -> None:
    apron, held = APRONS[edition.units], tiles(edition, "apron", DEMO)
    assert len(held) == 9  # two rows of five, without the one that would be empty
    expected = half_cut(apron)
    for tile in held:
        spots = [tile.in_piece(spot) for spot in tile.cut_line().flattened()]
        assert max(expected.distance(Point(*spot)) for spot in spots) < TRUE
        assert tile.cut_line().length == pytest.approx(expected.length, abs=TRUE)
        crosses = tile.lines(0.35)
        for x, y in apron.crosses.values():
            x, y = x * apron.unit, y * apron.unit
            for arm in (((x - 4.5, y), (x + 4.5, y)), ((x, y - 4.5), (x, y + 4.5))):
                assert any(max(map(math.dist, arm, line)) < TRUE for line in crosses)
    assert_tiled(held, expected.length)


@every_edition
def test_the_facing_has_the_curve_of_the_armhole(edition: Edition) -> None:
    """A ring sector of a quarter turn about a centre below it; its cut line keeps to circles about the same centre but
    for its ends, which run on straight through their hems."""
    apron = APRONS[edition.units]
    inner, outer = apron.radius * apron.unit, (apron.radius + apron.casing) * apron.unit
    centre = (outer / math.sqrt(2), -inner / math.sqrt(2))
    for tile in tiles(edition, "facing", DEMO):
        arcs = [path for path in tile.paths if path.stroked and len(path.commands) == 3]
        radii = [{round(math.dist(centre, tile.in_piece(spot)), 2) for spot in arc.flattened()} for arc in arcs]
        assert sorted(min(one) for one in radii) == pytest.approx([inner, outer], abs=TRUE)
        assert sorted(max(one) for one in radii) == pytest.approx([inner, outer], abs=TRUE)
        cut = [math.dist(centre, tile.in_piece(spot)) for spot in tile.cut_line().flattened()]
        assert min(cut) == pytest.approx(inner - apron.allowance * apron.unit, abs=TRUE)
        corner = math.hypot(outer + apron.fold_under * apron.unit, apron.end_hem * apron.unit)
        assert max(cut) == pytest.approx(corner, abs=TRUE)
