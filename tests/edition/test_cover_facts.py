"""What the cover tells of the finished size: each size with its own amount."""

import pytest

from publisher.edition.cover_facts import Fact
from publisher.edition.view import build_view
from publisher.edition.words import speaker
from publisher.terms import UnitSystem
from tests.demo import demo_proof


def finished(demo: str, units: UnitSystem) -> Fact:
    view = build_view(demo_proof(demo), units, speaker("en", units), tiled=False)
    return next(fact for fact in view.facts if fact.name == "Finished size")


@pytest.mark.parametrize(
    ("units", "lines"),
    [
        (
            UnitSystem.INCH,
            (
                # Head and 3/8 in of ease.
                "inside girth: S 21 5⁄8 in, M 22 3⁄8 in, L 23 1⁄8 in, XL 23 7⁄8 in",
                "brim 2 3⁄4 in",
                # Girth less 1 5/8 and 1/8 more, over pi: 20 1/8 / 3.1416 = 6.41; each size 0.239 wider.
                "across the crown: S 6 3⁄8 in, M 6 5⁄8 in, L 6 7⁄8 in, XL 7 1⁄8 in",
            ),
        ),
        (
            UnitSystem.METRIC,
            (
                "inside girth: S 55 cm, M 57 cm, L 59 cm, XL 61 cm",
                "brim 7 cm",
                # 55 − 4 + 0.3 = 51.3; / 3.1416 = 16.33.
                "across the crown: S 16.3 cm, M 17 cm, L 17.6 cm, XL 18.2 cm",
            ),
        ),
    ],
)
def test_the_hat_tells_each_size_with_its_girth(units: UnitSystem, lines: tuple[str, ...]) -> None:
    assert tuple(line.replace("\u00a0", " ") for line in finished("avocet-sun-hat", units).lines) == lines


def test_a_pattern_of_one_size_tells_its_sides_on_one_line() -> None:
    (line,) = finished("sanderling-lined-pouch", UnitSystem.METRIC).lines
    assert line.replace("\u00a0", " ") == "width 16.5 cm, height 12.5 cm, depth 5 cm"


def test_a_nest_tells_how_much_is_trimmed_off_what_is_cut_without_allowance() -> None:
    view = build_view(demo_proof("avocet-sun-hat"), UnitSystem.METRIC, speaker("en", UnitSystem.METRIC), tiled=False)
    (line,) = (line for line in view.chart if line.copy == "brim interfacing")
    assert "then trim 1 cm off every cut edge." in line.notes[-1].replace("\u00a0", " ")
