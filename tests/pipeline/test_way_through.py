"""The whole way through: one measure changed, two sizes kept apart, the PDF against what was computed."""

import io
import json
import re

import pikepdf
import pytest
from pdfminer.high_level import extract_text

from publisher.edition import EditionRecord, computed_json, print_edition, set_edition
from publisher.pipeline import prove
from publisher.template_pages import DEFAULT_EDITIONS, EDITIONS, Edition, Paper
from publisher.terms import UnitSystem
from tests.demo import DEMO, demo_files, demo_proof, printed_demo
from tests.specimens import prove_text


def _plain(text: str) -> str:
    """Text as read back: spaces of all kinds as one."""
    return re.sub(r"\s+", " ", text.replace("\xa0", " "))


def _changed(old: str, new: str) -> dict[str, bytes]:
    files = dict(demo_files())
    text = files["pattern.yaml"].decode()
    assert old in text
    files["pattern.yaml"] = text.replace(old, new, 1).encode()
    return files


@pytest.mark.parametrize("edition", DEFAULT_EDITIONS, ids=lambda edition: edition.name)
def test_one_measure_changes_drawing_step_chart_and_materials(edition: Edition) -> None:
    """The loop's width is a strip's, so it stands in the chart; the panel's height is in the drawing and the cloth."""
    loop = prove(DEMO, _changed("loop width:      1/2 in | 12 mm", "loop width:      3/4 in | 18 mm"))[0]
    tall = prove(DEMO, _changed("height:          5 in | 12.5 cm", "height:          9 in | 23 cm"))[0]
    assert loop is not None
    assert tall is not None
    inch = edition.units is UnitSystem.INCH
    before, wider, taller = (_plain(set_edition(proof, edition).html) for proof in (demo_proof(), loop, tall))
    # 4 × 3/4 in = 3 in; 4 × 18 mm = 7.2 cm.
    assert ("4 in × 2 in" if inch else "10 cm × 4.8 cm") in before
    assert ("4 in × 3 in" if inch else "10 cm × 7.2 cm") in wider
    step = "{} wide. Topstitch"
    assert step.format("1⁄2 in" if inch else "1.2 cm") in before
    assert step.format("3⁄4 in" if inch else "1.8 cm") in wider
    assert ("height 9 in" if inch else "height 23 cm") in taller
    # 9 + 1 + 3/4 in are 10 3/4; with 1 in and 4 % 12 1/4: 3/8 yd. 23 + 2.5 + 2 cm are 27.5; 31.3: 40 cm.
    assert (">1⁄4 yd<" if inch else ">30 cm<") in before
    assert (">3⁄8 yd<" if inch else ">40 cm<") in taller
    heights = [
        max(piece.cut_height for piece in proof.drafts_of(edition.units)[0].pieces) for proof in (demo_proof(), tall)
    ]
    assert heights[1] - heights[0] == pytest.approx(4 * 25.4 if inch else 105)


def test_text_of_the_pdf_against_computed_json() -> None:
    editions = {edition.name: printed_demo(edition.name) for edition in EDITIONS}
    records = [
        EditionRecord(name, f"{name}.pdf", one.pages, one.template_pages, one.made_of) for name, one in editions.items()
    ]
    record = json.loads(computed_json(demo_proof(), records))
    for name, printed in editions.items():
        text = _plain(extract_text(io.BytesIO(printed.pdf)))
        with pikepdf.open(io.BytesIO(printed.pdf)) as pdf:
            assert len(pdf.pages) == record["editions"][name]["pages"]
        assert f"Page 1 of {record['editions'][name]['pages']}" in text
        assert len(record["editions"][name]["template pages"]) == printed.template_pages
        variant = next(one for one in record["variants"] if one["units"] == name.split("-")[0])
        for side, quantity in variant["finished size"].items():
            assert f"{side} {_plain(quantity['printed'])}" in text
        for row in variant["chart"]:
            assert row["copy"] in text
            for side in row["size"] or ():
                assert _plain(side) in text
        for material in variant["materials"]:
            for way in material["buy"]:
                assert f"{_plain(way['width'])} wide" in text
                assert _plain(way["length"]) in text
        for measure in ("seam allowance", "turning gap", "snap drop", "topstitching"):
            assert _plain(variant["measures"][measure]["printed"]) in text
        decimals = re.findall(r"\d+\.\d{2,}", text)
        assert decimals == [], f"unrounded numbers in {name}"


def test_fractions_are_real_fractions() -> None:
    text = extract_text(io.BytesIO(printed_demo("inch-letter").pdf))
    assert "3⁄8\xa0in" in text
    assert "6\xa01⁄2\xa0in" in text
    # A needle's two numbers are no fraction.
    assert not re.search(r"\d/\d", re.sub(r"\d+/\d+\sneedle", "", text.replace("publisher/", "")))


SIZED = """\
sizes:
  - S
  - M
measures:
  head:
    S: 21 1/4 in | 54 cm
    M: 22 1/4 in | 56.5 cm
  rise: 3 in | 7.5 cm
notions:
  tape:
    name: Cotton tape
    length: head
pieces:
  band:
    outline:
      rectangle: head / 2 by rise
    copies:
      front: canvas
      back: canvas
  crown:
    outline:
      rectangle: rise by rise
    copies:
      only: canvas
  strap:
    rectangle: head / 2 by 5 cm
    copies:
      only: canvas
"""
SIZED_STEPS = """\
## Sew

1. The band is {head} long, {rise} high. Take {band front} and {tape}.
"""


def test_two_sizes_are_kept_apart() -> None:
    proof, findings = prove_text(SIZED, SIZED_STEPS)
    assert {finding.name for finding in findings} == {"copy-never-used"}
    assert [str(draft.variant) for draft in proof.drafts] == ["inch S", "inch M", "metric S", "metric M"]
    lengths = {str(draft.variant): draft.piece("band").edge("top edge").length for draft in proof.drafts}
    assert lengths == {
        "inch S": pytest.approx(21.25 * 12.7),
        "inch M": pytest.approx(22.25 * 12.7),
        "metric S": pytest.approx(270),
        "metric M": pytest.approx(282.5),
    }
    metric = Edition(UnitSystem.METRIC, Paper.A4)
    html = _plain(set_edition(proof, metric).html)
    assert "54 cm (56.5 cm) long, 7.5 cm high" in html
    assert '<b>S</b> 29 cm × 7 cm</span><span class="for-size"><b>M</b> 30.3 cm × 7 cm</span>' in html
    assert "length 54 cm (56.5 cm)" in html
    placed = [(one.piece, one.size) for page in proof.pages_of(metric).pages for one in page.placed]
    assert sorted(set(placed), key=str) == [("band", "M"), ("band", "S"), ("crown", None)]
    printed = print_edition(proof, metric)
    with pikepdf.open(io.BytesIO(printed.pdf)) as pdf:
        names = [str(group.Name) for group in pdf.Root.OCProperties.OCGs]
        assert names == ["S", "M"]
        assert str(pdf.Root.OCProperties.D.Name)
        assert "/AS" not in pdf.Root.OCProperties.D


def test_a_finding_lists_the_variants_in_which_it_holds() -> None:
    _, findings = prove_text(
        SIZED + "seams:\n  side:\n    join:\n      - band front.left edge\n      - crown.left edge\n"
        "  top:\n    join:\n      - band front.top edge\n      - strap.top edge\n    ease: 0\n"
        "  odd:\n    join:\n      - band back.top edge\n      - strap.bottom edge\n    ease: (head - 54 cm) / 2\n",
        SIZED_STEPS,
    )
    (differ,) = [finding for finding in findings if finding.name == "seam-lengths-differ"]
    assert {str(variant) for variant in differ.variants} == {"inch M", "metric M"}
    (never, *_) = [finding for finding in findings if finding.name == "seam-never-sewn" and "'side'" in finding.says]
    assert len(never.variants) == 4


def test_a_size_without_a_value_is_told() -> None:
    _, findings = prove_text(SIZED.replace("    M: 22 1/4 in | 56.5 cm\n", ""), SIZED_STEPS)
    missing = next(finding for finding in findings if finding.name == "size-missing")
    assert [str(variant) for variant in missing.variants] == ["inch M", "metric M"]
    assert "'head' has no value for size M" in missing.says


def test_words_too_long_for_a_piece_are_led_to_it() -> None:
    """A label that finds no room inside stands outside, with a line that leads to its piece."""
    proof, _ = prove_text(
        """\
        pieces:
          tab:
            outline:
              rectangle: 14 mm by 14 mm
            copies:
              outside: canvas
              lining of the very same small tab: canvas
        """.replace(" of the very", " in the very")
    )
    sheets = set_edition(proof, Edition(UnitSystem.METRIC, Paper.A4)).sheets
    (page,) = sheets.pages
    assert [label.leader is not None for label in page.labels] == [True]
    assert sheets.findings == ()
