"""The page on choosing a size, and sizes told line by line in chart and materials."""

import re

import pytest

from publisher.edition import print_edition, set_edition
from publisher.pipeline import only_sizes, prove
from publisher.template_pages import DEFAULT_EDITIONS, EDITIONS, Edition
from tests.graded import PATTERN, above_advice, cap_files, cap_proof
from tests.page_measures import leaving_cells, tables_of
from tests.pdfium_texts import inks_of

INCH, METRIC = DEFAULT_EDITIONS


def page(edition: Edition, *sizes: str) -> str:
    html = set_edition(only_sizes(cap_proof(), sizes), edition).html.replace("\N{NO-BREAK SPACE}", " ")
    return re.sub(r"\s+", " ", html)


def rows(html: str) -> list[list[str]]:
    guide = html.split('<section class="size-guide">')[1].split("</section>")[0]
    found = (re.findall(r"<td>(.*?)</td>", row) for row in re.findall(r"<tr class=\"first\">(.*?)</tr>", guide))
    return list(found)


def test_the_table_holds_body_finished_and_the_computed_ease() -> None:
    assert rows(page(METRIC)) == [
        ["S", "54 cm", "55 cm", "1 cm"],
        ["M", "56 cm", "57 cm", "1 cm"],
        ["L", "58 cm", "59 cm", "1 cm"],
        ["XL", "60 cm", "61 cm", "1 cm"],
    ]
    assert rows(page(INCH))[0] == ["S", "21 1⁄4 in", "21 5⁄8 in", "3⁄8 in"]


def test_the_page_stands_before_the_materials_with_her_words() -> None:
    html = page(METRIC)
    words = ["Before you start", "How to choose a size", "Head, round the widest part", "Lay the tape above the ears"]
    words += ["Between two sizes take the larger", 'section class="materials"']
    places = [html.index(word) for word in words]
    assert places == sorted(places)


def test_only_the_sizes_that_are_printed_are_told() -> None:
    assert rows(page(METRIC, "L")) == [["L", "58 cm", "59 cm", "1 cm"]]


def test_without_sizes_there_is_nothing_to_choose() -> None:
    plain = re.sub(r"sizes:\n(  - \w+\n)+", "", PATTERN)
    plain = re.sub(r"  head:\n(    .*\n)+", "  head: 22 in | 56 cm\n", plain)
    proof, findings = prove("dotterel-cap", cap_files(plain))
    assert proof is not None
    assert above_advice(findings) == []
    assert "size-guide" not in set_edition(proof, METRIC).html


def test_the_chart_has_a_line_for_each_size_that_differs() -> None:
    html = page(METRIC)
    cells = re.findall(r'<span class="for-size"><b>(\w+)</b> (.*?)</span>', html)
    # The head and two allowances by 4 cm and two.
    wanted = [("S", "56 cm × 6 cm"), ("M", "58 cm × 6 cm"), ("L", "60 cm × 6 cm"), ("XL", "62 cm × 6 cm")]
    assert cells == wanted
    assert re.search(r'class="chart sized(?: long)?"', html)
    assert re.search(r'class="chart(?: long)?"', page(METRIC, "M"))


@pytest.mark.parametrize("edition", EDITIONS, ids=lambda edition: edition.name)
def test_no_text_leaves_its_cell(edition: Edition) -> None:
    made = print_edition(cap_proof(), edition)
    tables = tables_of(made.pdf, inks_of(made.pdf))
    assert len(tables) >= 4
    for table in tables:
        assert leaving_cells(table, edition.paper.width - 20.0) == []
