"""Every page is paid for by the reader: how much of it is black, as PDFium shows it."""

import pytest

from publisher.edition import Request
from publisher.edition.printing import print_pdf
from publisher.template_pages import EDITIONS, Edition
from tests.demo import DEMOS, printed_demo
from tests.pdfium_reading import blackness_of

# Per cent of the page. The demos' templates have 0.8 to 1.9, their text pages up to 4.6: twice that leaves room for
# figures, and none for tinted backgrounds or decorative bands.
TEMPLATES_MOST, TEXT_MOST = 4.0, 10.0
# Running head and foot alone make 0.08, a line of prose 0.1: a page with less than this wants its few lines on the
# page before. A tile that shows but a corner of its piece has its frame, its heading and its scale bar besides.
TEXT_LEAST, TEMPLATES_LEAST = 0.4, 0.3


@pytest.mark.parametrize("demo", DEMOS)
@pytest.mark.parametrize("edition", EDITIONS, ids=lambda edition: edition.name)
def test_pages_take_little_ink_and_none_is_nearly_empty(demo: str, edition: Edition) -> None:
    printed = printed_demo(edition.name, demo, tuple(Request))
    inks = blackness_of(printed.pdf)
    texts, templates = inks[: -printed.template_pages], inks[-printed.template_pages :]
    assert min(texts) > TEXT_LEAST, f"page {1 + texts.index(min(texts))}"
    assert max(texts) < TEXT_MOST, f"page {1 + texts.index(max(texts))}"
    assert min(templates) > TEMPLATES_LEAST, f"template page {1 + templates.index(min(templates))}"
    assert max(templates) < TEMPLATES_MOST, f"template page {1 + templates.index(max(templates))}"


def test_the_measure_is_the_share_of_the_page_that_is_black() -> None:
    page = (
        '<html lang="en"><head><title>x</title><style>@page {{ size: 200mm 100mm; margin: 0 }} body {{ margin: 0 }} '
        "div {{ {} }}</style></head><body><div></div></body></html>"
    )
    # 40 mm × 50 mm of 200 mm × 100 mm are a tenth; of a grey of half that depth, a twentieth.
    for look, expected in (
        ("", 0.0),
        ("width: 40mm; height: 50mm; background: #000", 10.0),
        ("width: 40mm; height: 50mm; background: #808080", 5.0),
    ):
        (ink,) = blackness_of(print_pdf(page.format(look), (), "2026-01-31").content)
        assert ink == pytest.approx(expected, abs=0.1)
