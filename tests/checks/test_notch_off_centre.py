"""A notch that is named the centre: of its edge, and not of another thing, or of the whole whose half a piece is."""

import pytest

from publisher.terms import Finding
from tests.specimens import prove_text


def told(outline: str, marks: str) -> list[Finding]:
    piece = (
        f"pieces:\n  band:\n    outline:\n      {outline}\n    copies:\n      only: canvas\n    marks:\n      {marks}\n"
    )
    return [finding for finding in prove_text(piece)[1] if finding.name == "notch-off-centre"]


RECTANGLE = "rectangle: 20 cm by 10 cm"


@pytest.mark.parametrize(("at", "times"), [("10 cm", 0), ("9.95 cm", 0), ("9.5 cm", 1), ("5 cm", 1), ("0 cm", 0)])
def test_how_far_off_it_may_lie(at: str, times: int) -> None:
    assert len(told(RECTANGLE, f"top middle: notch at {at} from the left end of top edge")) == times


def test_both_numbers_are_told() -> None:
    (found,) = told(RECTANGLE, "band centre: notch at 5 cm from the left end of top edge")
    assert "lies 1 15/16 in (49.2 mm) off the middle of 'top edge' of 'band', which is 7 7/8 in" in found.says


@pytest.mark.parametrize("name", ["flap centre", "centre front", "pleat middle", "loop"])
def test_a_name_of_another_centre_is_none(name: str) -> None:
    assert not told(RECTANGLE, f"{name}: notch at 5 cm from the left end of top edge")


def test_two_centres_on_one_edge_are_those_of_two_things() -> None:
    one = "centre: notch at 5 cm from the left end of top edge"
    assert not told(RECTANGLE, f"{one}\n      middle: notch at 5 cm from the right end of top edge")


def test_half_of_a_whole_has_its_centre_elsewhere() -> None:
    half = "rectangle: 20 cm by 10 cm\n      round:\n        bottom left corner: 4 cm"
    assert not told(half, "centre: notch at 5 cm from the left end of top edge")
