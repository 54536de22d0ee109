"""The tool roll by hand: its numbers worked out on paper from content/turnstone-tool-roll, its lines true on every tile."""

import io
import json
import math
import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

import pytest
import shapely
from pdfminer.high_level import extract_text
from shapely import LineString

from publisher.edition import Request, computed_json
from publisher.template_pages import DEFAULT_EDITIONS, EDITIONS, Edition
from publisher.terms import UnitSystem
from tests.demo import demo_proof, printed_demo
from tests.pdfium_reading import Spot
from tests.tiles import TRUE, assert_lines, assert_tiled, tiles

DEMO = "turnstone-tool-roll"
BOTH = tuple(Request)


@dataclass(frozen=True)
class OnPaper:
    """What pattern.yaml comes to, in the maker's own unit (`unit` mm); every number worked out beside it."""

    unit: float
    pockets: tuple[float, ...]
    starts: tuple[float, ...]  # of all pockets but the first: the stitching lines, pleats closed
    width: float
    body: float
    flap: float
    corner: float
    pleat: float
    stitched_open: tuple[float, ...]
    outer: tuple[float, ...]
    inner: tuple[float, ...]
    meets: tuple[float, ...]
    band: tuple[float, float, float]  # flat width, finished height, height with its hem
    tie: tuple[float, float, float, float]  # finished length and width, cut length and width
    binding_width: float
    overlap: float
    girth: float
    bow: float
    printed: tuple[str, ...]

    @property
    def crown_radius(self) -> float:
        """Of an arc over a chord c = the width with height h: (c² / 4 + h²) / 2 h."""
        return (self.width**2 / 4 + self.flap**2) / (2 * self.flap)

    @property
    def crown_middle(self) -> float:
        """How far up the crown's middle lies."""
        return self.body + self.flap - self.crown_radius

    @property
    def side(self) -> float:
        """How far up a side runs before its corner rounds off: the middle of a circle that touches the side and, from
        inside, the crown lies one corner radius from both."""
        across = self.width / 2 - self.corner
        return self.crown_middle + math.sqrt((self.crown_radius - self.corner) ** 2 - across**2)

    @property
    def turned(self) -> float:
        """What the corner turns, from the side to where it meets the crown."""
        return math.atan2(self.side - self.crown_middle, self.width / 2 - self.corner)

    @property
    def mitres(self) -> float:
        """Two corners, each twice the width of the binding."""
        return 2 * 2 * (0.375 if self.unit > 20 else 1)

    @property
    def perimeter(self) -> float:
        """Base, two sides, two corners, the crown."""
        corners, crown = 2 * self.corner * self.turned, self.crown_radius * (math.pi - 2 * self.turned)
        return self.width + 2 * self.side + corners + crown

    def off_the_roll(self, x: float, y: float) -> float:
        """How far a spot lies from the outline; x from the middle, y up from the base."""
        x, half = abs(x), self.width / 2
        distances = [
            math.hypot(max(x - half, 0.0), y),
            math.hypot(x - half, max(-y, y - self.side, 0.0)),
        ]
        corner_angle = math.atan2(y - self.side, x - half + self.corner)
        if 0 <= corner_angle <= self.turned:
            distances.append(abs(math.hypot(x - half + self.corner, y - self.side) - self.corner))
        if self.turned <= math.atan2(y - self.crown_middle, x) <= math.pi / 2 + 1e-9:
            distances.append(abs(math.hypot(x, y - self.crown_middle) - self.crown_radius))
        return min(distances)

    def closed(self, flat: float) -> float:
        """Where a spot of the opened band lies when its pleats are closed: cloth turns back at each of a pleat's folds."""
        folds = sorted((*self.outer, *self.inner))
        way, at, passed = 1, 0.0, 0.0
        for fold in folds:
            if fold >= flat:
                break
            at, passed, way = at + way * (fold - passed), fold, -way
        return at + way * (flat - passed)


ROLLS = {
    UnitSystem.INCH: OnPaper(
        unit=25.4,
        # Girths 3, 4, 5, 6, 5, 4; half of each, and 1/2 in ease.
        pockets=(2.0, 2.5, 3.0, 3.5, 3.0, 2.5),
        # Side margin 1/2 + 2 = 2 1/2; + 2 1/2; + 3; + 3 1/2; + 3.
        starts=(2.5, 5.0, 8.0, 11.5, 14.5),
        width=17.5,  # 14 1/2 + 2 1/2 + 1/2
        body=13.0,
        flap=5.0,
        corner=2.0,
        pleat=0.375,
        # Each pleat takes 4 × 3/8 = 1 1/2. Pleats lie at 5 + 3/2 = 6 1/2, 8 + 3 1/2 / 2 = 9 3/4, 11 1/2 + 3/2 = 13.
        stitched_open=(2.5, 5.0, 9.5, 14.5, 19.0),
        # Inverted at 6 1/2: folded out at 0 and 4 d, in at d and 3 d, brought to 2 d. Boxes at 9 3/4 + 1 1/2 = 11 1/4 and
        # 13 + 3 = 16: folded out at d and 3 d, in at 0 and 4 d, brought to −d and 5 d.
        outer=(6.5, 8.0, 11.625, 12.375, 16.375, 17.125),
        inner=(6.875, 7.625, 11.25, 12.75, 16.0, 17.5),
        meets=(7.25, 10.875, 13.125, 15.625, 17.875),
        band=(22.0, 7.0, 8.0),  # 17 1/2 + 3 × 1 1/2; hem twice 1/2
        tie=(54.0, 0.625, 54.75, 2.5),  # 2 × 14 + 26; ends 3/8 each; in fourths 4 × 5/8
        binding_width=1.75,  # 4 × 3/8, 1/8 for the thick edge, and 1/8 past the stitching
        overlap=6.0,
        girth=14.0,
        bow=26.0,
        printed=(
            "open width 17 1⁄2 in, open height 18 in, girth rolled up 14 in",
            "19 1⁄2 in × 20 in",  # 1 in larger all round
            "54 3⁄4 in × 2 1⁄2 in",
            # 17.5 + 2 × 12.42 + 2 × 2 × 0.596 + 10.156 × (3.1416 − 2 × 0.596) = 64.53; 6, and 2 × 2 × 3/8
            # for the mitres: 72.03, up to a quarter.
            "72 1⁄4 in × 1 3⁄4 in",
            "Make the binding strip on the bias, 1 3⁄4 in wide and at least 72 1⁄4 in long",
            "pliers 6 in, brush 5 in, folding rule 4 in. Each pocket is half the girth wide, and 1⁄2 in more",
            "Check: roll outside now measures 17 1⁄2 in across and 18 in down",
            "Check: pocket band now measures 17 1⁄2 in across and 7 in down",
            "the tie is now 5⁄8 in wide and 54 in long",
            "leave a tail of 3 in",
            # The roll is 13 in high up to the flap; 3/8 in of it goes into the binding, 5/8 in are left above the tool.
            "A tool may be up to 12 in long, so that the flap folds over it. One shorter than 8 in hides",
        ),
    ),
    UnitSystem.METRIC: OnPaper(
        unit=10.0,
        # Girths 8, 10, 13, 15, 13, 10 cm; half of each, and 12 mm ease.
        pockets=(5.2, 6.2, 7.7, 8.7, 7.7, 6.2),
        # Side margin 1.2 + 5.2 = 6.4; + 6.2; + 7.7; + 8.7; + 7.7.
        starts=(6.4, 12.6, 20.3, 29.0, 36.7),
        width=44.1,  # 36.7 + 6.2 + 1.2
        body=33.0,
        flap=13.0,
        corner=5.0,
        pleat=1.0,
        # Each pleat takes 4. Pleats lie at 12.6 + 3.85 = 16.45, 20.3 + 4.35 = 24.65, 29 + 3.85 = 32.85.
        stitched_open=(6.4, 12.6, 24.3, 37.0, 48.7),
        # Boxes at 24.65 + 4 = 28.65 and 32.85 + 8 = 40.85.
        outer=(16.45, 20.45, 29.65, 31.65, 41.85, 43.85),
        inner=(17.45, 19.45, 28.65, 32.65, 40.85, 44.85),
        meets=(18.45, 27.65, 33.65, 39.85, 45.85),
        band=(56.1, 18.0, 20.4),
        tie=(136.0, 1.5, 138.0, 6.0),  # 2 × 35 + 66; ends 1 cm each
        binding_width=4.6,  # 4 × 1, 0.3 and 0.3
        overlap=15.0,
        girth=35.0,
        bow=66.0,
        printed=(
            "open width 44.1 cm, open height 46 cm, girth rolled up 35 cm",
            "49.5 cm × 51 cm",
            "138 cm × 6 cm",
            # 44.1 + 2 × 31.63 + 2 × 5 × 0.566 + 25.2 × (3.1416 − 2 × 0.566) = 163.67; 15, and 4
            # for two mitres: 182.67, up to a whole cm.
            "183 cm × 4.6 cm",
            "Make the binding strip on the bias, 4.6 cm wide and at least 183 cm long",
            "pliers 15 cm, brush 13 cm, folding rule 10 cm. Each pocket is half the girth wide, and 1.2 cm more",
            "Check: roll outside now measures 44.1 cm across and 46 cm down",
            "Check: pocket band now measures 44.1 cm across and 18 cm down",
            "the tie is now 1.5 cm wide and 136 cm long",
            "leave a tail of 7.5 cm",
            # 33 − 1 − 1.5
            "A tool may be up to 30.5 cm long, so that the flap folds over it. One shorter than 20 cm hides",
        ),
    ),
}
TOOLS = ("awl", "chisel", "screwdriver", "pliers", "brush", "rule")

every_edition = pytest.mark.parametrize("edition", EDITIONS, ids=lambda edition: edition.name)
each_system = pytest.mark.parametrize("units", UnitSystem, ids=lambda units: units.value)


@pytest.mark.parametrize("roll", ROLLS.values(), ids=[units.value for units in ROLLS])
def test_the_paper_agrees_with_itself(roll: OnPaper) -> None:
    """The numbers above against each other: sums, and cloth folded as it will be."""
    margin = roll.starts[0] - roll.pockets[0]
    assert roll.width == pytest.approx(2 * margin + sum(roll.pockets))
    assert roll.band[0] == pytest.approx(roll.width + 3 * 4 * roll.pleat)
    assert roll.closed(roll.band[0]) == pytest.approx(roll.width)
    assert [roll.closed(at) for at in roll.stitched_open] == pytest.approx(roll.starts)
    # Outer folds come to lie on the lines they are brought to; of the inverted pleat both on one.
    brought = (roll.meets[0], *roll.meets)
    assert [roll.closed(at) for at in roll.outer] == pytest.approx([roll.closed(at) for at in brought])
    # The pleats close in the middle of the three widest pockets: each pocket's mouth is its own width.
    middles = [
        (roll.closed(first) + roll.closed(second)) / 2
        for first, second in zip(roll.outer[::2], roll.outer[1::2], strict=True)
    ]
    assert middles == pytest.approx([roll.starts[at] + roll.pockets[at + 1] / 2 for at in (1, 2, 3)])
    assert roll.off_the_roll(0.0, roll.body + roll.flap) == pytest.approx(0.0, abs=1e-9)
    assert roll.tie[0] >= 2 * roll.girth + roll.bow


@cache
def record() -> dict[str, dict[str, object]]:
    return {one["units"]: one for one in json.loads(computed_json(demo_proof(DEMO), []))["variants"]}


@each_system
def test_computed_numbers_are_those_on_paper(units: UnitSystem) -> None:
    roll, computed = ROLLS[units], record()[units.value]

    def in_unit(quantity: dict[str, str]) -> float:
        return float(Fraction(quantity["exact"])) / roll.unit

    measures = {name: in_unit(quantity) for name, quantity in computed["measures"].items()}
    assert [measures[f"{tool} pocket"] for tool in TOOLS] == pytest.approx(roll.pockets)
    assert [measures[f"{tool} start"] for tool in TOOLS[1:]] == pytest.approx(roll.starts)
    assert measures["roll width"] == pytest.approx(roll.width)
    assert measures["flap radius"] == pytest.approx(roll.crown_radius)
    assert measures["tie length"] == pytest.approx(roll.tie[0])
    assert measures["tie length"] >= 2 * measures["rolled girth"] + measures["bow"]
    finished = {name: in_unit(quantity) for name, quantity in computed["finished size"].items()}
    expected = {"open width": roll.width, "open height": roll.body + roll.flap, "girth rolled up": roll.girth}
    assert finished == pytest.approx(expected)
    sizes = {piece["name"]: (piece["cut width"], piece["cut height"]) for piece in computed["pieces"]}
    assert sizes["roll"] == pytest.approx((roll.width * roll.unit, (roll.body + roll.flap) * roll.unit), abs=1e-3)
    assert sizes["pocket band"] == pytest.approx((roll.band[0] * roll.unit, roll.band[2] * roll.unit))
    assert sizes["tie"] == pytest.approx((roll.tie[2] * roll.unit, roll.tie[3] * roll.unit))
    # Cut as printed: up to the next 1/4 in, or cm.
    step = Fraction(127, 20) if units is UnitSystem.INCH else 10
    length = math.ceil((roll.perimeter + roll.mitres + roll.overlap) * roll.unit / step) * step
    assert sizes["binding strip"] == pytest.approx((float(length), roll.binding_width * roll.unit))


@each_system
def test_the_binding_reaches_round(units: UnitSystem) -> None:
    """The edges of the roll, each against its own formula; their sum is bound, and the strip is longer by two mitres and
    the overlap."""
    roll = ROLLS[units]
    (piece,) = (piece for piece in record()[units.value]["pieces"] if piece["name"] == "roll")
    lengths = {name: edge["length"] / roll.unit for name, edge in piece["edges"].items()}
    corner = roll.corner * roll.turned
    assert lengths == pytest.approx(
        {
            "base": roll.width,
            "right side": roll.side,
            "right flap corner": corner,
            "crown": roll.crown_radius * (math.pi - 2 * roll.turned),
            "left flap corner": corner,
            "left side": roll.side,
        },
        abs=1e-3,
    )
    (strip,) = (piece for piece in record()[units.value]["pieces"] if piece["name"] == "binding strip")
    assert (
        0
        <= strip["cut width"] / roll.unit - roll.perimeter - roll.mitres - roll.overlap
        < (0.25 if roll.unit > 20 else 1)
    )


@pytest.mark.parametrize("edition", DEFAULT_EDITIONS, ids=lambda edition: edition.name)
def test_printed_numbers_are_those_on_paper(edition: Edition) -> None:
    text = re.sub(r"\s+", " ", extract_text(io.BytesIO(printed_demo(edition.name, DEMO, BOTH).pdf)))
    # A chart's columns are read one by one: its sizes stand in the text without their pieces.
    for words in ROLLS[edition.units].printed:
        assert words in text


def uprights(places: tuple[float, ...], low: float, high: float, unit: float) -> list[tuple[Spot, Spot]]:
    return [((at * unit, low * unit), (at * unit, high * unit)) for at in sorted(places)]


@every_edition
def test_the_roll_is_true_on_every_tile(edition: Edition) -> None:
    roll, held = ROLLS[edition.units], tiles(edition, "roll", DEMO, BOTH)
    assert len(held) > 3
    for tile in held:
        spots = [tile.in_piece(spot) for spot in tile.cut_line().flattened()]
        off = [roll.off_the_roll(x / roll.unit, y / roll.unit) * roll.unit for x, y in spots]
        assert max(off) < TRUE
        assert tile.cut_line().length == pytest.approx(roll.perimeter * roll.unit, abs=TRUE)
        # Mirrored: as far to the left as to the right.
        half = roll.width / 2 * roll.unit
        assert (min(x for x, _ in spots), max(x for x, _ in spots)) == pytest.approx((-half, half), abs=TRUE)
    assert_tiled(held, roll.perimeter * roll.unit)


@every_edition
def test_marks_of_the_roll_are_true_on_every_tile(edition: Edition) -> None:
    """On the lining the pocket lines lie where those of the band come to lie when its pleats are closed."""
    roll = ROLLS[edition.units]
    half = roll.width / 2
    pocket_lines = uprights(tuple(at - half for at in roll.starts), 0.0, roll.band[1], roll.unit)
    # The flap's fold runs where the body ends: there the corner's circle is as wide as Pythagoras says.
    reach = half - roll.corner + math.sqrt(roll.corner**2 - (roll.body - roll.side) ** 2)
    fold = [((-reach * roll.unit, roll.body * roll.unit), (reach * roll.unit, roll.body * roll.unit))]
    for tile in tiles(edition, "roll", DEMO, BOTH):
        assert_lines(tile.lines(0.35, 1.5, 1.5), pocket_lines)
        assert_lines(tile.lines(0.25, 8.0, 1.5, 0.5, 1.5), fold)
        # The tie's place: a cross at half the height of the right side.
        x, y = half * roll.unit, roll.side / 2 * roll.unit
        cross = [((x - 4.5, y), (x + 4.5, y)), ((x, y - 4.5), (x, y + 4.5))]
        assert all(any(max(map(math.dist, arm, line)) < TRUE for line in tile.lines(0.35)) for arm in cross)


@every_edition
def test_the_opened_band_is_true_on_every_tile(edition: Edition) -> None:
    roll, held = ROLLS[edition.units], tiles(edition, "pocket band", DEMO, BOTH)
    wide, high, cut = (side * roll.unit for side in roll.band)
    assert len(held) > 2
    whole = shapely.box(0.0, 0.0, wide, cut).exterior
    for tile in held:
        spots = [tile.in_piece(spot) for spot in tile.cut_line().flattened()]
        assert max(whole.distance(shapely.Point(*spot)) for spot in spots) < TRUE
        assert LineString(spots).length == pytest.approx(whole.length, abs=TRUE)
        # The top edge's finished line; the other edges have no allowance.
        assert_lines(tile.lines(0.25, 3.0, 1.5), [((0.0, high), (wide, high))])
        assert_lines(tile.lines(0.35, 1.5, 1.5), uprights(roll.stitched_open, 0.0, roll.band[1], roll.unit))
        # Pleat lines run from cut edge to cut edge, for the hem is pleated too.
        assert_lines(tile.lines(0.25, 8.0, 1.5, 0.5, 1.5), uprights(roll.outer, 0.0, roll.band[2], roll.unit))
        assert_lines(tile.lines(0.25, 8.0, 1.5, 0.5, 1.5, 0.5, 1.5), uprights(roll.inner, 0.0, roll.band[2], roll.unit))
        assert_lines(tile.lines(0.25, 0.8, 1.6), uprights(roll.meets, 0.0, roll.band[2], roll.unit))
    assert_tiled(held, whole.length)
