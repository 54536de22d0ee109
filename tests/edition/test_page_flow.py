"""How the pages before the steps are filled: a chart goes on overleaf before it leaves half a page white."""

import pytest

from publisher.template_pages import DEFAULT_EDITIONS, Edition
from tests.demo import DEMOS, printed_demo
from tests.pdfium_texts import inks_of

RUNNING = 24.0  # mm at the head and the foot of a page, above and below its text


@pytest.mark.parametrize("edition", DEFAULT_EDITIONS, ids=lambda edition: edition.name)
@pytest.mark.parametrize("demo", DEMOS)
def test_no_page_before_a_chart_is_left_half_white(demo: str, edition: Edition) -> None:
    pages = inks_of(printed_demo(edition.name, demo).pdf)
    high = edition.paper.height
    bodies = [[text for text in page if RUNNING < text.top < high - RUNNING] for page in pages]
    (at,) = (number for number, body in enumerate(bodies) if any(text.text == "Cutting chart" for text in body))
    if min(bodies[at], key=lambda text: text.top).text == "Cutting chart":
        assert max(text.bottom for text in bodies[at - 1]) > high / 2


def test_what_to_buy_in_each_size_stands_on_a_line_of_its_own() -> None:
    pages = inks_of(printed_demo("metric-a4", "avocet-sun-hat").pdf)
    texts = {text.text.replace("\N{NO-BREAK SPACE}", " ") for page in pages for text in page}
    assert {"50 cm for S", "60 cm for M, L and XL", "40 cm for S and M", "50 cm for L and XL"} <= texts
