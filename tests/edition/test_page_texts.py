"""Text on pages keeps clear of other text and of the margins, measured by a PDF reader the product does not use."""

import itertools

import pytest

from publisher.edition import print_edition
from publisher.pipeline import prove
from publisher.template_pages import EDITIONS, Edition
from tests.demo import printed_demo
from tests.pdf_reading import ReadText, texts_of
from tests.specimens import HEAD, files

# Tiled over three by three pages, with a title of the length that no footer holds.
LARGE = """
pieces:
  large outside panel before the lower hem:
    outline:
      rectangle: 20 in by 20 in | 50 cm by 55 cm
    copies:
      front: canvas
    marks:
      ring: point at 4 in from bottom edge and 4 in from left edge
"""
LONG_TITLE = "The great shore bag with its many pockets for shells, stones, feathers and a flask of tea"


def overlapping(texts: tuple[ReadText, ...]) -> list[tuple[str, str]]:
    """The pairs of lines whose boxes share more than a sliver; boxes hold the font's whole height, ink less."""
    return [
        (one.text, other.text)
        for one, other in itertools.combinations(texts, 2)
        if min(one.right, other.right) - max(one.left, other.left) > 0.3
        and min(one.bottom, other.bottom) - max(one.top, other.top) > 1.0
    ]


def outside(texts: tuple[ReadText, ...], edition: Edition, margin: float) -> list[str]:
    """The lines that leave the page's margin, mm."""
    right, bottom = edition.paper.width - margin, edition.paper.height - margin
    return [
        text.text
        for text in texts
        if text.left < margin or text.top < margin or text.right > right or text.bottom > bottom
    ]


@pytest.mark.parametrize("edition", EDITIONS, ids=lambda edition: edition.name)
def test_no_text_of_the_demo_overlaps_another_or_leaves_the_page(edition: Edition) -> None:
    for page in texts_of(printed_demo(edition.name).pdf):
        assert page
        assert not overlapping(page)
        assert not outside(page, edition, 9.5)


@pytest.mark.parametrize("edition", EDITIONS, ids=lambda edition: edition.name)
def test_headers_and_footers_of_tiles_keep_apart_whatever_the_title(edition: Edition) -> None:
    proof, _ = prove("specimen", files(LARGE, head=HEAD.replace("Specimen", LONG_TITLE)))
    assert proof is not None
    printed = print_edition(proof, edition)
    assert printed.template_pages >= 9
    for page in texts_of(printed.pdf):
        assert not overlapping(page)
        assert not outside(page, edition, 9.5)


def test_the_measure_itself_tells_texts_that_lie_on_each_other() -> None:
    one = ReadText("one", 10, 10, 30, 14)
    assert overlapping((one, ReadText("on it", 29, 11, 40, 15)))
    assert not overlapping((one, ReadText("beside", 31, 11, 40, 15), ReadText("below", 10, 14, 30, 18)))
