"""The legend says what holds for the pattern, and nothing of what it has not."""

import pytest

from publisher.edition.view import build_view
from publisher.edition.words import speaker
from publisher.terms import UnitSystem
from tests.demo import demo_proof


@pytest.mark.parametrize(
    ("demo", "notches", "hem", "inner"),
    [
        ("avocet-sun-hat", True, None, None),  # a nest shows no finished line
        ("curlew-wash-bag", True, False, True),
        ("dunlin-workshop-apron", True, True, False),
        ("sanderling-lined-pouch", True, False, True),
        ("turnstone-tool-roll", False, True, False),
    ],
)
def test_the_legend_of_a_demo(demo: str, notches: bool, hem: bool | None, inner: bool | None) -> None:
    view = build_view(demo_proof(demo), UnitSystem.METRIC, speaker("en", UnitSystem.METRIC), tiled=False)
    assert view.legend_intro == "" or view.legend_intro.startswith("Notches") is notches
    finished = [line.words for line in view.legend if line.words.startswith("Finished line")]
    assert [("fold of a hem" in words, "inner line" in words) for words in finished] == (
        [] if hem is None else [(hem, inner)]
    )
    assert not any("nterfacing" in line.words for line in view.legend)
