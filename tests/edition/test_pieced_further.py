"""Beside what to buy stands that less would do, where strips are pieced of more lengths."""

import json

import pytest

from publisher.edition import computed_json, set_edition
from publisher.template_pages import DEFAULT_EDITIONS, Edition
from tests.demo import demo_proof

INCH, METRIC = DEFAULT_EDITIONS
TOLD = {
    INCH: "Of cloth 42 in wide, 5⁄8 yd would do if the tie is pieced of 4 strips, "
    "15 3⁄4 in, 19 in, 12 1⁄4 in and 15 1⁄4 in long in this order.",
    METRIC: "Of cloth 150 cm wide, 60 cm would do if the tie is pieced of 2 strips, 64 cm and 80 cm long in this order.",
}


@pytest.mark.parametrize("edition", DEFAULT_EDITIONS, ids=lambda edition: edition.name)
def test_the_tie_of_the_roll_may_lie_beside_it_in_shorter_strips(edition: Edition) -> None:
    html = set_edition(demo_proof("turnstone-tool-roll"), edition).html.replace("\N{NO-BREAK SPACE}", " ")
    materials = html.split('<section class="materials">')[1].split("</section>")[0]
    assert f"<small>{TOLD[edition]}</small>" in materials


def test_it_stands_in_the_record() -> None:
    variants = json.loads(computed_json(demo_proof("turnstone-tool-roll"), []))["variants"]
    metric = next(one for one in variants if one["units"] == "metric")
    wide = next(one for one in metric["layouts"] if (one["material"], one["width"]) == ("canvas", 1500))
    assert wide["buy if strips are pieced further"] == {
        "buy": 600,
        "strips": [{"copy": "tie", "lengths": [640, 800]}],
    }
