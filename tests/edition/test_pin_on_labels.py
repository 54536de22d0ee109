"""Labels to pin on: one for each cut piece without template, its texts inside its lines whatever they say."""

import io
import re
from functools import cache

import pikepdf
import pytest

from publisher.checks import Proof
from publisher.edition import PrintedEdition, Request, print_edition, set_edition
from publisher.edition.layouts import font_file
from publisher.edition.pin_on_labels import HEIGHT, WIDTH, PinOnLabel, pin_on_labels
from publisher.edition.printed import speaker_of
from publisher.edition.text_fitting import Wanted, fit_texts, lines_height
from publisher.edition.text_width import text_width
from publisher.template_pages import DEFAULT_EDITIONS, Edition
from tests.demo import demo_proof
from tests.edition.test_page_texts import outside, overlapping
from tests.pdf_reading import texts_of
from tests.specimens import prove_text

INCH, METRIC = DEFAULT_EDITIONS
MANY = """\
  heavy woven fusible bag interfacing:
    kind: interfacing
    name: Interfacing
    sold:
      - 20 in wide | 90 cm wide
pieces:
  flap:
    outline:
      rectangle: 20 cm by 10 cm
    copies:
      outside: canvas
  inside pocket:
    rectangle: 7 3/8 in by 10 1/8 in | 20 cm by 25 cm
    allowance: 0
    grain: across
    copies:
      outside: canvas, cut 2
      lining behind her very long zip plus its two tapes sewn into one band: canvas, cut 6
  binding:
    rectangle: 10 cm by 1 m
    allowance: 0
    grain: bias
    copies:
      only: canvas, cut 3
  patch:
    rectangle: 4 cm by 4 cm
    allowance: 0
    grain: either way
    copies:
      front: heavy woven fusible bag interfacing, cut 12
      Donaudampfschifffahrtsgesellschaftskapitaenspatenttasche: heavy woven fusible bag interfacing
"""
SIZED = """\
sizes:
  - S
  - M
measures:
  head:
    S: 21 1/4 in | 54 cm
    M: 22 1/4 in | 56.5 cm
pieces:
  band:
    rectangle: head by 5 cm
    allowance: 0
    copies:
      only: canvas
  tab:
    rectangle: 4 cm by 5 cm
    allowance: 0
    copies:
      only: canvas
"""


@cache
def _many() -> Proof:
    return prove_text(MANY)[0]


@cache
def _printed(edition: Edition) -> PrintedEdition:
    return print_edition(_many(), edition, [Request.PIN_ON_LABELS])


def _labels(proof: Proof, edition: Edition) -> list[PinOnLabel]:
    rows = pin_on_labels(proof, edition.units, speaker_of(proof, edition))
    return [label for row in rows for label in row]


def _said(label: PinOnLabel) -> list[str]:
    return [" ".join(line.text for line in block.lines).replace("\xa0", " ") for block in label.blocks]


def test_labels_of_the_demo_say_what_the_chart_says() -> None:
    """The loop and two patches have no template: 10 × 4 × 1.2 cm and 4 × 4 cm; 4 × 2 in and 1 1/2 × 1 1/2 in."""
    up = "this side up, along the grain"
    assert [_said(label) for label in _labels(demo_proof(), METRIC)] == [
        ["5", "loop", "10 cm × 4.8 cm from canvas", up],
        ["4", "snap patch front", "4 cm × 4 cm from interfacing", up],
        ["4", "snap patch flap", "4 cm × 4 cm from interfacing", up],
    ]
    assert _said(_labels(demo_proof(), INCH)[0])[2] == "4 in × 2 in from canvas"


def test_a_copy_cut_twice_has_two_labels() -> None:
    said = [_said(label) for label in _labels(_many(), METRIC)]
    assert len(said) == 2 + 6 + 3 + 12 + 1
    assert said[:2] == [
        [
            "2",
            "inside pocket outside",
            f"25 cm × 20 cm cut 2 from canvas {at} of 2",
            "this side up, the arrow along the grain",
        ]
        for at in (1, 2)
    ]
    assert not any("flap" in name for _, name, *_ in said)


def test_the_arrow_lies_as_the_grain() -> None:
    arrows = {_said(label)[1]: label.arrow for label in _labels(_many(), METRIC)}
    assert "M0 8L6 8" in arrows["inside pocket outside"]
    assert arrows["patch front"] == ""
    # On the bias: from 1, 3.5 to 10, 12.5 with y up, so from 1, 12.5 upwards with y down.
    assert "M1 12.5L" in arrows["binding"]
    assert _said(_labels(_many(), METRIC)[-1])[3] == "any way of the grain"


@pytest.mark.parametrize("edition", [INCH, METRIC], ids=lambda edition: edition.name)
def test_no_text_leaves_its_label(edition: Edition) -> None:
    for label in _labels(_many(), edition):
        right_of_arrow = label.arrow_left if label.arrow else WIDTH - 3.0
        number, name, detail, grain = label.blocks
        for block, right in ((number, WIDTH), (name, right_of_arrow), (detail, right_of_arrow), (grain, WIDTH - 3.0)):
            for line in block.lines:
                width = text_width(line.text, font_file(line.bold), line.points)
                assert block.left + width <= right + 1e-6, line.text
                assert line.points >= 7.0
            assert block.top + lines_height(block.lines) <= HEIGHT - 2.9
        assert name.top + lines_height(name.lines) <= detail.top + 1e-6
        assert detail.top + lines_height(detail.lines) <= grain.top + 1e-6
        assert number.left + text_width(number.lines[0].text, font_file(True), 26.0) < name.left


@pytest.mark.parametrize("edition", [INCH, METRIC], ids=lambda edition: edition.name)
def test_labels_stand_on_their_own_pages_before_the_templates(edition: Edition) -> None:
    printed, plain = _printed(edition), print_edition(_many(), edition)
    named = [
        at for at, page in enumerate(texts_of(printed.pdf)) if any(text.text == "Labels to pin on" for text in page)
    ]
    # Twenty-four labels in rows of three are eight rows: five or six on the first page, the others on a second.
    assert named == [printed.pages - printed.template_pages - 2]
    assert printed.pages == plain.pages + 2
    left = (edition.paper.width - 3 * WIDTH) / 2
    # A number and the name beside it are apart by less than a sign of the number's size.
    for page in texts_of(printed.pdf, joined=0.3)[named[0] : named[0] + 2]:
        assert not overlapping(page)
        assert not outside(page, edition, 9.5)
        assert "Specimen" in {text.text.split()[0] for text in page}
        words = [text for text in page if 46 < text.top < edition.paper.height - 22]
        assert len(words) > 20
        for text in words:
            column = int((text.left - left) // WIDTH)
            assert text.right <= left + (column + 1) * WIDTH - 2.5, text.text
    with pikepdf.open(io.BytesIO(printed.pdf)) as pdf, pdf.open_outline() as outline:
        assert "Labels to pin on" in [item.title for item in outline.root]


def test_each_size_has_its_own_labels_where_sizes_differ() -> None:
    """Tabs are cut alike in all sizes; bands are 54 and 56.5 cm long."""
    said = [_said(label) for label in _labels(prove_text(SIZED)[0], METRIC)]
    assert [(name, detail) for _, name, detail, _ in said] == [
        ("tab", "4 cm × 5 cm from canvas"),
        ("band", "54 cm × 5 cm from canvas size S"),
        ("band", "56.5 cm × 5 cm from canvas size M"),
    ]


def test_without_measured_pieces_there_is_advice_and_no_page() -> None:
    proof, _ = prove_text(
        "pieces:\n  flap:\n    outline:\n      rectangle: 20 cm by 10 cm\n    copies:\n      only: canvas\n"
    )
    made, plain = set_edition(proof, METRIC, [Request.PIN_ON_LABELS]), set_edition(proof, METRIC)
    assert [(finding.name, finding.severity.value) for finding in made.findings] == [("nothing-to-label", "advice")]
    assert made.html == plain.html
    # What was asked for is part of what an edition is made of, even where nothing came of it.
    assert made.made_of != plain.made_of


def test_what_is_not_asked_for_leaves_no_trace() -> None:
    html = set_edition(demo_proof(), METRIC).html
    assert not re.search("pin-on-label|drafted", html)


def test_texts_are_made_smaller_then_parted_then_cut_off() -> None:
    whole = fit_texts([Wanted("snap patch", 12.0)], 40.0, 6.0)
    assert [(line.text, line.points) for line in whole] == [("snap patch", 12.0)]
    smaller = fit_texts([Wanted("snap patch of the front", 12.0)], 40.0, 5.0)
    assert [line.text for line in smaller] == ["snap patch of the front"]
    assert smaller[0].points < 12.0
    parted = fit_texts([Wanted("x" * 60, 12.0)], 40.0, 20.0)
    assert "".join(line.text for line in parted) == "x" * 60
    cut_off = fit_texts([Wanted("word " * 60, 12.0)], 40.0, 8.0)
    assert cut_off[-1].text.endswith("…")
    for lines, height in ((whole, 6.0), (smaller, 5.0), (parted, 20.0), (cut_off, 8.0)):
        assert lines_height(lines) <= height
        assert all(text_width(line.text, font_file(False), line.points) <= 40.0 for line in lines)


def test_an_amount_is_never_parted_at_its_space() -> None:
    lines = fit_texts([Wanted("10\xa01⁄2\xa0in × 20\xa01⁄2\xa0in", 12.0)], 24.0, 20.0)
    assert [line.text for line in lines] == ["10\xa01⁄2\xa0in ×", "20\xa01⁄2\xa0in"]
