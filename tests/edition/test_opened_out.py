"""Pieces whose template shows a half: chart, layout and the sentences before both agree on how they are cut whole."""

import re

import pytest

from publisher.checks import Proof
from publisher.edition import set_edition
from publisher.pipeline import prove
from publisher.template_pages import DEFAULT_EDITIONS, Edition
from tests.demo import demo_files, demo_proof, printed_demo
from tests.pdfium_texts import inks_of

INCH, METRIC = DEFAULT_EDITIONS


NARROW_PRINTS = (b"      - 42 in wide | 110 cm wide\n      - 45 in wide | 115 cm wide\n", b"")


def part(proof: Proof, edition: Edition, name: str) -> str:
    """The text of one part of an edition."""
    html = set_edition(proof, edition).html.replace("\N{NO-BREAK SPACE}", " ")
    whole = re.search(rf'<section class="{name}.*?</section>', html, re.DOTALL)
    assert whole is not None
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", whole[0]))


@pytest.mark.parametrize("edition", DEFAULT_EDITIONS, ids=lambda edition: edition.name)
def test_a_hat_that_is_cut_opened_out_says_so_on_chart_and_layout(edition: Edition) -> None:
    """All but its interfacing, both brims in one line: three brims, a band and a crown on one fold take far more."""
    proof = demo_proof("avocet-sun-hat")
    chart, layouts = part(proof, edition, "chart"), part(proof, edition, "layouts")
    assert chart.count("Opened out, not on a fold: the template shows half of it.") == 5
    assert chart.count("On the fold of the cloth: the template shows half of it.") == 1
    assert "turn it over along its fold line, and draw the other half" in chart
    assert "For pieces on the fold, fold the cloth" in chart
    assert layouts.count("Not folded: cut 1, 2 and 3 opened out.") == 2
    assert layouts.count("Not folded: cut 1 and 2 opened out.") == 1
    assert "A line across a piece is the fold of its template" in layouts
    assert "Fold interfacing with its glue side inside." in layouts
    more = [*map(str, re.findall(r"Folded, it would take (.+?) or more", layouts))]
    assert more == (["1.1 m", "60 cm"] if edition is METRIC else ["1 1⁄4 yd", "5⁄8 yd"])


def test_an_apron_on_the_fold_says_nothing_of_it() -> None:
    """Of the cloths that are sold, the two wide ones only: half of the apron lies on their fold."""
    files = dict(demo_files("dunlin-workshop-apron"))
    files["pattern.yaml"] = files["pattern.yaml"].replace(*NARROW_PRINTS)
    proof, findings = prove("apron", files)
    assert proof is not None, findings
    chart, layouts = part(proof, METRIC, "chart"), part(proof, METRIC, "layouts")
    assert "On the fold of the cloth: the template shows half of it." in chart
    assert "opened out" not in chart.lower() + layouts


@pytest.mark.parametrize(("edition", "opened", "folded"), [(INCH, 2, 2), (METRIC, 2, 2)], ids=("inch", "metric"))
def test_where_widths_differ_the_layout_decides(edition: Edition, opened: int, folded: int) -> None:
    """On cloth of 42 and 45 in, or of 110 and 115 cm, the apron is opened out; on the wider ones it lies on the fold."""
    proof = demo_proof("dunlin-workshop-apron")
    chart, layouts = part(proof, edition, "chart"), part(proof, edition, "layouts")
    assert "On the fold of the cloth, or opened out, as the layout of your cloth shows" in chart
    assert (layouts.count("Not folded: cut 1 opened out."), layouts.count("and fold it.")) == (opened, folded)


def test_headings_below_a_row_of_layouts_stand_level() -> None:
    """Below the hat's lining stand two lines less than beside it."""
    pages = inks_of(printed_demo(METRIC.name, "avocet-sun-hat").pdf)
    levels = {one.text: one.baseline for page in pages for one in page if one.text.endswith("cm wide")}
    names = ("cotton, 110 cm wide", "cotton, 150 cm wide", "lining, 110 cm wide")
    level = [levels[name.replace(" cm", "\N{NO-BREAK SPACE}cm")] for name in names]
    assert max(level) - min(level) < 0.2  # mm
