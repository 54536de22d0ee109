"""The words beside a figure point at what they name: the last that was drawn at their spot."""

import pytest
import shapely

from publisher.figures.steps import Panel
from publisher.figures.steps.values import Shape, Texture
from publisher.geometry import Point
from tests.figures.steps.drawn_demos import LETTERS
from tests.figures.steps.test_what_figures_show import METRIC, as_area, panel_of

BAG = "curlew-wash-bag"


def spot(panel: Panel, begins: str) -> Point:
    """Where the words that begin so point."""
    said = [(LETTERS[METRIC].say(one.words).replace("\n", " "), one.at) for one in panel.scene.callouts]
    return next(at for words, at in said if words.startswith(begins))


def seen_at(panel: Panel, at: Point) -> Shape:
    """The uppermost area at a spot, which lies clear of its rim."""
    there = [one for one in panel.scene.shapes if one.closed and one.texture is not None]
    return next(one for one in reversed(there) if as_area(one).buffer(-0.5).contains(shapely.Point(at.x, at.y)))


def test_a_zip_and_the_cloth_beside_it_have_a_spot_each() -> None:
    panel = panel_of(BAG, 12, "zip")
    zip_spot, cloth = spot(panel, "zip, wrong side"), spot(panel, "upper panel outside")
    assert seen_at(panel, zip_spot) is not seen_at(panel, cloth)
    assert seen_at(panel, cloth) is next(one for one in panel.scene.shapes if one.closed)


def test_the_zip_is_named_where_what_hangs_from_it_leaves_it_bare() -> None:
    panel = panel_of(BAG, 13, "zip")
    seen = {name: seen_at(panel, spot(panel, name)) for name in ("zip, wrong side", "upper panel", "wall outside")}
    assert seen["upper panel"].texture is Texture.LINING
    assert seen["zip, wrong side"].texture is seen["wall outside"].texture is Texture.PLAIN
    assert seen["zip, wrong side"] is not seen["wall outside"]


def test_the_hinge_is_named_above_its_pocket() -> None:
    panel = panel_of(BAG, 20, "set in")
    assert seen_at(panel, spot(panel, "hinge lining")) is not seen_at(panel, spot(panel, "pocket"))


@pytest.mark.parametrize("name", ["hinge outside", "tab front"])
def test_what_is_on_the_back_of_a_box_is_named_within_its_rim(name: str) -> None:
    panel = panel_of(BAG, 24, "finished back")
    tab = min((one for one in panel.scene.shapes if one.closed), key=lambda one: as_area(one).area)
    assert (seen_at(panel, spot(panel, name)) is tab) == (name == "tab front")
