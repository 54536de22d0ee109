"""Each section's QR code, read back from the printed page by a general-purpose reader of bar codes."""

import re

import pypdfium2
import pytest
import zxingcpp

from publisher.edition.qr_codes import MODULE, link_at, qr_svg
from tests.demo import DEMOS, demo_proof, printed_demo

PRINTED = 150 / 72  # a page looked at with 150 dots to the inch: coarse for a telephone's camera


def codes_on(pdf: bytes) -> list[str]:
    document = pypdfium2.PdfDocument(pdf)
    pictures = [page.render(scale=PRINTED, grayscale=True).to_pil() for page in document]
    return [code.text for picture in pictures for code in zxingcpp.read_barcodes(picture)]


@pytest.mark.parametrize("demo", DEMOS)
def test_codes_read_back_as_the_links_of_their_sections(demo: str) -> None:
    source = demo_proof(demo).source
    times = [str(section.video) for section in source.sections if section.video]
    assert times
    wanted = [link_at(str(source.facts.video), time) for time in times]
    assert sorted(codes_on(printed_demo("metric-a4", demo).pdf)) == sorted(wanted)


def test_a_time_becomes_seconds() -> None:
    assert link_at("https://video.example/curlew", "4:25") == "https://video.example/curlew#t=265"
    assert link_at("https://video.example/curlew#about", "1:02:03") == "https://video.example/curlew#t=3723"


def test_modules_are_half_a_millimetre_or_more() -> None:
    svg = qr_svg("https://video.example/sanderling#t=40", "the video")
    width = re.search(r'width="([\d.]+)mm"', svg)
    assert MODULE >= 0.5
    assert width is not None
    assert float(width[1]) <= 22.0
