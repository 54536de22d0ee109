"""The legend says what holds for the pattern, and nothing of what it has not."""

import pytest

from publisher.edition.legend import legend_lines
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


@pytest.mark.parametrize(
    ("laid", "corner", "halves", "turned"),
    [({"fold"}, True, False, False), ({"opened"}, False, True, True), ({"fold", "opened"}, True, True, True)],
)
def test_the_fold_of_a_template_is_explained_as_its_cloth_is_cut(
    laid: set[str], corner: bool, halves: bool, turned: bool
) -> None:
    """Of the hat's: the half of a notch, and the fold line itself."""
    drafts = demo_proof("avocet-sun-hat").drafts_of(UnitSystem.METRIC)
    told = [line.words for line in legend_lines(drafts, laid, speaker("en", UnitSystem.METRIC), tiled=True)]
    (notch,) = (words for words in told if words.startswith("Notch on the fold"))
    assert ("small corner off" in notch, "hal" in notch.replace("most half", "")) == (corner, halves)
    (fold,) = (words for words in told if "dash and dot" in words and "otch" not in words)
    assert ("fold of the cloth" in fold, "turn" in fold) == (corner, turned)


@pytest.mark.parametrize(("demo", "printed"), [("dunlin-workshop-apron", True), ("avocet-sun-hat", False)])
def test_of_a_print_that_repeats_no_end_may_be_up_as_it_likes(demo: str, printed: bool) -> None:
    drafts = demo_proof(demo).drafts_of(UnitSystem.METRIC)
    told = [line.words for line in legend_lines(drafts, {"fold"}, speaker("en", UnitSystem.METRIC), tiled=True)]
    (grain,) = (words for words in told if words.startswith("Grain"))
    assert ("tops of all pieces" in grain) is printed
