"""The figure of a step stands on the page of its words: the step's large number and the figure's words on one page."""

import pytest

from publisher.edition.printed import speaker_of
from publisher.edition.step_figures import build_step_figures, finished_drawing
from publisher.edition.view import build_view
from publisher.edition.words import speaker
from publisher.template_pages import DEFAULT_EDITIONS, Edition
from publisher.terms import UnitSystem
from tests.demo import DEMOS, demo_proof, printed_demo
from tests.pdfium_texts import InkText, inks_of

NUMBER_HEIGHT = 5.0  # mm: digits of 24 pt are as high; no other digits on text pages are


def numbers_on(texts: tuple[InkText, ...]) -> set[str]:
    return {text.text for text in texts if text.text.isdigit() and text.bottom - text.top > NUMBER_HEIGHT}


@pytest.mark.parametrize("edition", DEFAULT_EDITIONS, ids=lambda edition: edition.name)
@pytest.mark.parametrize("demo", DEMOS)
def test_a_figure_stands_with_its_step(demo: str, edition: Edition) -> None:
    proof = demo_proof(demo)
    drafts = proof.drafts_of(edition.units)
    speak = speaker_of(proof, edition)
    figures = build_step_figures(proof, drafts, speak).figures
    pages = inks_of(printed_demo(edition.name, demo).pdf)
    steps = [step for section in proof.source.sections for step in section.steps]
    for step in steps:
        (page,) = (texts for texts in pages if str(step.number) in numbers_on(texts))
        said = [text.text for text in page]
        for words in figures[step.id].words if step.id in figures else ():
            assert any(words.text in text for text in said), f"step {step.number}: '{words.text}'"


# How many steps have a figure that needed no hand, and how many have one. What a step does not say it does is not shown.
SHOWN = {
    "avocet-sun-hat": (15, 15),
    "curlew-wash-bag": (23, 23),
    "dunlin-workshop-apron": (22, 22),
    "sanderling-lined-pouch": (16, 16),
    "turnstone-tool-roll": (20, 20),
}


@pytest.mark.parametrize("demo", SHOWN)
def test_most_steps_have_a_figure_that_needed_no_hand(demo: str) -> None:
    proof = demo_proof(demo)
    figures = build_step_figures(proof, proof.drafts_of(UnitSystem.INCH), speaker("en", UnitSystem.INCH)).figures
    steps = [step for section in proof.source.sections for step in section.steps]
    own = [step for step in steps if step.id in figures and not step.shows]
    assert (len(own) >= SHOWN[demo][0], len(figures) >= SHOWN[demo][1]) == (True, True), (len(own), len(figures))


@pytest.mark.parametrize("demo", DEMOS)
def test_the_cover_shows_what_the_last_step_has_made(demo: str) -> None:
    """The drawing on the cover is that of the last step from its front, without its words."""
    proof = demo_proof(demo)
    speak = speaker("en", UnitSystem.METRIC)
    draft = proof.drafts_of(UnitSystem.METRIC)[0]
    drawing = finished_drawing(proof, draft, speak)
    assert "<text" not in drawing
    assert drawing.count("<path") > 1
    assert drawing == build_view(proof, UnitSystem.METRIC, speak, tiled=False).drawing


@pytest.mark.parametrize(
    ("demo", "called"), [("curlew-wash-bag", "wadding"), ("sanderling-lined-pouch", "interfacing")]
)
def test_the_key_calls_what_is_fused_as_the_pattern_does(demo: str, called: str) -> None:
    proof = demo_proof(demo)
    speak = speaker("en", UnitSystem.METRIC)
    words = [line.words for line in build_step_figures(proof, proof.drafts_of(UnitSystem.METRIC), speak).key]
    assert called in words
    assert {"wadding", "interfacing"} & set(words) == {called}
