"""The wash bag by hand: its numbers worked out on paper from content/curlew-wash-bag, its one template true to them."""

import io
import json
import math
import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

import pytest
from pdfminer.high_level import extract_text

from publisher.edition import computed_json
from publisher.template_pages import DEFAULT_EDITIONS, EDITIONS, Edition
from publisher.terms import UnitSystem
from tests.demo import demo_proof, printed_demo
from tests.tiles import TRUE, tiles

DEMO = "curlew-wash-bag"
# images/tab.svg, in mm in both systems: 22 wide; 70 straight, and a half circle of 11 at one end.
TAB_WIDTH, TAB_HEIGHT = 22.0, 70.0 + 11.0
TAB_AROUND = 2 * 70.0 + math.pi * 11.0


@dataclass(frozen=True)
class OnPaper:
    """What pattern.yaml comes to, in the maker's own unit (`unit` mm); every number worked out beside it."""

    unit: float
    length: float
    depth: float
    curve: float
    rise: float
    allowance: float
    around: float
    showing: float
    lower: float
    margin: float
    binding: float
    ring: float
    sizes: dict[str, tuple[float, float]]  # as cut and printed
    printed: tuple[str, ...]


BAGS = {
    UnitSystem.INCH: OnPaper(
        unit=25.4,
        length=8.75,
        depth=5.0,
        curve=2.0,
        rise=4.5,
        allowance=0.375,
        around=17.033,  # two sides of 5 - 2, two quarters of 2 × 3.1416 / 2, a front of 8 3/4 - 4
        showing=0.625,  # 1 1/8 - 2 × 1/4
        lower=2.875,  # 4 1/2 - 1 - 5/8
        margin=0.517,  # (17.033 - 16) / 2
        binding=56.566,  # 2 × (17.033 + 8 3/4 + 2 1/2)
        ring=1.0,
        sizes={
            "hinge": (9.5, 5.25),
            "upper panel": (17.75, 1.625),  # 17.033 + 3/4, to the nearest 1/8; 1 + 3/8 + 1/4
            "wall": (17.75, 3.5),
            "pocket": (9.5, 3.875),  # 2 1/2 + 3/8 + 2 × 1/2
            "handle": (22.75, 4.0),
            "binding strip": (56.75, 1.75),
        },
        printed=(
            "from each end 3 3⁄8 in and 6 1⁄2 in",  # 3 + 3/8; and 3.142 more: 6.517
            "Trim the zip and its ends to 17 3⁄4 in, its middle in the middle: 7⁄8 in are left beyond each stop",
            "5⁄8 in of the zip show, and it is 5 1⁄4 in high from raw edge to raw edge",
        ),
    ),
    UnitSystem.METRIC: OnPaper(
        unit=10.0,
        length=22.0,
        depth=12.5,
        curve=5.0,
        rise=11.0,
        allowance=1.0,
        around=42.708,  # 15 + 15.708 + 12
        showing=1.6,  # 2.8 - 1.2
        lower=6.9,  # 11 - 2.5 - 1.6
        margin=1.354,
        binding=141.416,  # 2 × (42.708 + 22 + 6)
        ring=2.5,
        sizes={
            "hinge": (24.0, 13.0),
            "upper panel": (44.7, 4.1),
            "wall": (44.7, 8.5),
            "pocket": (24.0, 9.9),
            "handle": (58.0, 10.0),
            "binding strip": (142.0, 4.6),
        },
        printed=(
            "from each end 8.5 cm and 16.4 cm",  # 7.5 + 1; and 7.854 more: 16.354
            "Trim the zip and its ends to 44.7 cm, its middle in the middle: 2.4 cm are left beyond each stop",
            "1.6 cm of the zip show, and it is 13 cm high from raw edge to raw edge",
        ),
    ),
}

each_system = pytest.mark.parametrize("units", UnitSystem, ids=lambda units: units.value)


@cache
def record() -> dict[str, dict[str, object]]:
    return {one["units"]: one for one in json.loads(computed_json(demo_proof(DEMO), []))["variants"]}


@each_system
def test_computed_numbers_are_those_on_paper(units: UnitSystem) -> None:
    bag, computed = BAGS[units], record()[units.value]

    def measure(name: str) -> float:
        return float(Fraction(computed["measures"][name]["exact"])) / bag.unit

    assert measure("zip showing") == pytest.approx(bag.showing)
    assert measure("lower height") == pytest.approx(bag.lower)
    assert measure("zip margin") == pytest.approx(bag.margin, abs=1e-3)
    assert measure("binding length") == pytest.approx(bag.binding, abs=1e-3)
    pieces = {piece["name"]: piece for piece in computed["pieces"]}
    panel = {name: edge["length"] / bag.unit for name, edge in pieces["panel"]["edges"].items()}
    assert sum(panel.values()) - panel["back edge"] == pytest.approx(bag.around, abs=1e-3)
    for name, size in bag.sizes.items():
        cut = pieces[name]["cut width"] / bag.unit, pieces[name]["cut height"] / bag.unit
        assert cut == pytest.approx(size), name
    # A stop stays clear of the hinge's seam, and the sides of the wall make up the height.
    assert bag.margin > 0.1
    assert measure("upper height") + bag.showing + bag.lower == pytest.approx(bag.rise)


@each_system
def test_the_drawn_tab_is_as_it_was_drawn_and_passes_the_ring(units: UnitSystem) -> None:
    (tab,) = (piece for piece in record()[units.value]["pieces"] if piece["name"] == "tab")
    lengths = {name: edge["length"] for name, edge in tab["edges"].items()}
    assert lengths == pytest.approx({"opening": TAB_WIDTH, "around": TAB_AROUND}, abs=1e-3)
    allowance = 2 * BAGS[units].allowance * BAGS[units].unit
    assert (tab["cut width"], tab["cut height"]) == pytest.approx(
        (TAB_WIDTH + allowance, TAB_HEIGHT + allowance), abs=1e-3
    )
    assert BAGS[units].ring * BAGS[units].unit > TAB_WIDTH


@pytest.mark.parametrize("edition", DEFAULT_EDITIONS, ids=lambda edition: edition.name)
def test_printed_numbers_are_those_on_paper(edition: Edition) -> None:
    text = re.sub(r"\s+", " ", extract_text(io.BytesIO(printed_demo(edition.name, DEMO).pdf)))
    for words in BAGS[edition.units].printed:
        assert words in text


@pytest.mark.parametrize("edition", EDITIONS, ids=lambda edition: edition.name)
def test_lid_and_base_are_true(edition: Edition) -> None:
    """Their cut line: the allowance round a rectangle whose two lower corners are circles; a larger radius outside."""
    bag = BAGS[edition.units]
    (tile,) = tiles(edition, "panel", DEMO)
    long, deep, curve, out = (one * bag.unit for one in (bag.length, bag.depth, bag.curve, bag.allowance))
    across = [tile.in_piece(spot) for spot in tile.cut_line().flattened()]
    for x, y in across:
        if y < curve and not curve < x < long - curve:
            centre = (curve if x < curve else long - curve, curve)
            assert math.dist(centre, (x, y)) == pytest.approx(curve + out, abs=TRUE)
        else:
            assert min(map(abs, (x + out, x - long - out, y + out, y - deep - out))) < TRUE
    xs, ys = [x for x, _ in across], [y for _, y in across]
    assert (min(xs), max(xs), min(ys), max(ys)) == pytest.approx((-out, long + out, -out, deep + out), abs=TRUE)
