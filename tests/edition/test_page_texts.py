"""Texts on pages keep clear of each other, of lines, margins, cells and frames, measured by what PDFium shows."""

import itertools
import math
import re
from dataclasses import dataclass
from functools import cache

import pytest
import shapely

from publisher.edition import Request, print_edition
from publisher.edition.printing import print_pdf
from publisher.pipeline import prove
from publisher.template_pages import DEFAULT_EDITIONS, EDITIONS, JOINING_RADIUS, Edition, TemplatePage
from tests.demo import DEMOS, demo_proof, printed_demo
from tests.page_measures import IN_FRAME, box_of, crossed, frames_of, leaving, leaving_cells, tables_of, too_near
from tests.pdf_reading import ReadText
from tests.pdfium_reading import ReadPage, lines_of
from tests.pdfium_texts import InkText, inks_of
from tests.specimens import HEAD, files, prove_text

# Of text pages, mm: left, top, right, bottom, as layouts/edition.css sets them; printers leave up to 6.35 mm white.
MARGINS = (27.0, 24.0, 20.0, 22.0)
LABELS_WIDTH = 186.0  # three labels to pin on side by side, in the middle of the paper
LABEL_WIDTH, LABEL_HEIGHT = 62.0, 38.0
TEMPLATE_MARGIN = 9.5
NEARLY_EMPTY = 0.4  # of the height that text may take
WHITE = 10.0  # of the paper's edge that running heads and feet keep
RUNNING = re.compile(r"Page \d+ of \d+|.+ · revision .+|(inch|metric) edition, .+")
BOTH = tuple(Request)

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

every_edition = pytest.mark.parametrize(
    ("demo", "edition"),
    [pytest.param(demo, edition, id=f"{demo}-{edition.name}") for demo in DEMOS for edition in EDITIONS],
)


@dataclass(frozen=True)
class Printed:
    """An edition with all pages asked for, read back."""

    pdf: bytes
    texts: list[tuple[InkText, ...]]
    lines: tuple[ReadPage, ...]
    text_pages: int
    sheets: tuple[TemplatePage, ...]


@cache
def read_demo(demo: str, edition: Edition) -> Printed:
    printed = printed_demo(edition.name, demo, BOTH)
    sheets = demo_proof(demo).pages_of(edition).pages
    assert printed.template_pages == len(sheets)
    return Printed(
        printed.pdf, inks_of(printed.pdf), lines_of(printed.pdf), printed.pages - printed.template_pages, sheets
    )


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


def in_from(edition: Edition, margin: float) -> tuple[float, float, float, float]:
    return margin, margin, edition.paper.width - margin, edition.paper.height - margin


def body_of(page: ReadPage, edition: Edition) -> tuple[float, float, float, float]:
    """Where the texts of a text page belong: wider on the page of labels to pin on."""
    left, top, right, bottom = MARGINS
    if frames_of(page, LABEL_WIDTH, LABEL_HEIGHT):
        left = right = (edition.paper.width - LABELS_WIDTH) / 2
    return left, top, edition.paper.width - right, edition.paper.height - bottom


@every_edition
def test_no_text_lies_on_another(demo: str, edition: Edition) -> None:
    for number, page in enumerate(read_demo(demo, edition).texts, start=1):
        assert page, number
        assert too_near(page) == [], number


@every_edition
def test_no_text_lies_on_a_line(demo: str, edition: Edition) -> None:
    read = read_demo(demo, edition)
    for number, (texts, lines) in enumerate(zip(read.texts, read.lines, strict=True), start=1):
        assert crossed(texts, lines) == [], number


@every_edition
def test_no_text_leaves_its_margins(demo: str, edition: Edition) -> None:
    read = read_demo(demo, edition)
    for number, texts in enumerate(read.texts):
        if number >= read.text_pages:
            assert leaving(texts, in_from(edition, TEMPLATE_MARGIN)) == [], number + 1
            continue
        body = body_of(read.lines[number], edition)
        running = [text for text in texts if text.bottom < body[1] or text.top > body[3]]
        assert all(RUNNING.fullmatch(text.text) for text in running), number + 1
        assert leaving(running, (body[0], WHITE, body[2], edition.paper.height - WHITE)) == [], number + 1
        assert leaving([text for text in texts if text not in running], body) == [], number + 1


@every_edition
def test_no_line_of_a_text_page_leaves_its_margins(demo: str, edition: Edition) -> None:
    read = read_demo(demo, edition)
    for number, page in enumerate(read.lines[: read.text_pages], start=1):
        body = shapely.box(*body_of(page, edition)).buffer(0.3)  # half a pen, and a border that stands astride
        assert [path.box for path in page.paths if not body.covers(path.ink)] == [], number


@every_edition
def test_the_heading_of_the_steps_stands_above_the_first_step_or_above_the_words_before_it(
    demo: str, edition: Edition
) -> None:
    pages = read_demo(demo, edition).texts
    (at,) = (at for at, texts in enumerate(pages) if any(text.text == "Steps" for text in texts))
    heading = next(text for text in pages[at] if text.text == "Steps")
    below = [text for text in pages[at] if text.top > heading.bottom and not RUNNING.fullmatch(text.text)]
    if not any(text.text == "1" for text in below):
        assert len({text.baseline for text in below}) >= 2
        assert any(text.text == "1" for text in pages[at + 1])


@every_edition
def test_no_page_of_text_is_nearly_empty(demo: str, edition: Edition) -> None:
    """Every page is paid for by the reader. What is kept together may leave a page short, never two fifths full."""
    read = read_demo(demo, edition)
    for number in range(1, read.text_pages - 1):
        _, top, _, bottom = body_of(read.lines[number], edition)
        ends = [text.bottom for text in read.texts[number] if text.bottom <= bottom]
        ends += [path.ink.bounds[3] for path in read.lines[number].paths]
        assert (max(ends) - top) / (bottom - top) > NEARLY_EMPTY, number + 1


@every_edition
def test_no_text_leaves_its_cell(demo: str, edition: Edition) -> None:
    read = read_demo(demo, edition)
    tables = tables_of(read.pdf, read.texts)
    # Scales, materials, cutting chart, and the numbers of a drafting page.
    assert len(tables) >= 4
    for table in tables:
        assert leaving_cells(table, edition.paper.width - MARGINS[2]) == []


@every_edition
def test_no_text_leaves_the_frame_of_its_label(demo: str, edition: Edition) -> None:
    read = read_demo(demo, edition)
    found = 0
    for texts, lines in zip(read.texts, read.lines, strict=True):
        for frame in frames_of(lines, LABEL_WIDTH, LABEL_HEIGHT):
            whole = shapely.box(*frame)
            held = [text for text in texts if whole.intersects(box_of(text))]
            assert len(held) >= 4, "number, name, size, material"
            assert all(whole.buffer(-IN_FRAME).covers(box_of(text)) for text in held)
            found += 1
    chart = [row for row in demo_proof(demo).tables[0].chart if row.size]
    assert found >= len(chart) > 0


@every_edition
def test_letters_of_joining_marks_stand_in_their_half_rings(demo: str, edition: Edition) -> None:
    read = read_demo(demo, edition)
    for page, texts in zip(read.sheets, read.texts[read.text_pages :], strict=True):
        frame = page.frame
        tile = shapely.box(frame.left, frame.top, frame.left + frame.width, frame.top + frame.height)
        for mark in page.joining_marks:
            # Inside the ring's own line (0.35 mm wide) and off the line to trim by.
            half = shapely.Point(mark.at.x, mark.at.y).buffer(JOINING_RADIUS - 0.2).intersection(tile.buffer(-0.2))
            assert [text.text for text in texts if half.covers(box_of(text))] == [mark.label], page.number


@pytest.mark.parametrize("edition", EDITIONS, ids=lambda edition: edition.name)
def test_headers_and_footers_of_tiles_keep_apart_whatever_the_title(edition: Edition) -> None:
    proof, _ = prove("specimen", files(LARGE, head=HEAD.replace("Specimen", LONG_TITLE)))
    assert proof is not None
    printed = print_edition(proof, edition)
    assert printed.template_pages >= 9
    for page in inks_of(printed.pdf)[-printed.template_pages :]:
        assert too_near(page) == []
        assert leaving(page, in_from(edition, TEMPLATE_MARGIN)) == []


def test_a_leader_ends_at_its_label_and_crosses_no_other() -> None:
    proof, _ = prove_text("""\
        pieces:
          tab:
            outline:
              rectangle: 14 mm by 14 mm
            copies:
              outside: canvas
              lining in the very same small tab: canvas
        """)
    printed = print_edition(proof, DEFAULT_EDITIONS[1])
    texts, lines = inks_of(printed.pdf)[-1], lines_of(printed.pdf)[-1]
    assert any(math.dist(*path.flattened()) > 2 for path in lines.paths if path.width == pytest.approx(0.18, abs=0.01))
    assert crossed(texts, lines) == []


def printed_html(body: str) -> tuple[bytes, tuple[InkText, ...], ReadPage]:
    page = (
        '<html lang="en"><head><title>x</title><link rel="stylesheet" href="edition.css"></head><body>{}</body></html>'
    )
    pdf = print_pdf(page.format(body), (), "2026-01-31").content
    return pdf, inks_of(pdf)[0], lines_of(pdf)[0]


def test_the_measures_tell_texts_that_lie_on_each_other_or_out_of_the_page() -> None:
    shifted = '<p>first line</p><p style="margin-top: {}mm">second</p>'
    # 12 pt set 1.36 high, 2.4 mm below the first: some 4.5 mm of white from no descender to a small letter's top.
    _, apart, _ = printed_html(shifted.format(-2.4))
    _, near, _ = printed_html(shifted.format(-5.5))
    assert too_near(apart) == []
    assert too_near(near) == [("first line", "second")]
    _, wide, _ = printed_html('<p style="margin-left: -1mm">out</p><p>in</p>')
    assert leaving(wide, (27.0, 24.0, 190.0, 275.0)) == ["out"]


def test_the_measures_tell_a_text_on_a_line_and_not_one_within_a_frame() -> None:
    frame = (
        '<div style="width: 40mm; height: 12mm; border: 0.25mm solid black"><p style="margin: {}mm">framed</p></div>'
    )
    _, texts, lines = printed_html(frame.format(3))
    assert crossed(texts, lines) == []
    assert leaving(texts, lines.paths[0].box) == []
    _, texts, lines = printed_html(frame.format(-2))
    assert {text for text, _ in crossed(texts, lines)} == {"framed"}


def test_the_measures_tell_a_text_that_leaves_its_cell() -> None:
    table = (
        "<table><thead><tr><th>one</th><th>two</th></tr></thead>"
        '<tbody><tr><td style="white-space: nowrap">{}</td><td></td></tr></tbody></table>'
    )
    for words, found in (("short", []), ("words that want " * 6, [("words that want " * 6).strip()])):
        pdf, texts, _ = printed_html(table.format(words))
        (read,) = tables_of(pdf, [texts])
        assert leaving_cells(read, 190.0) == found
