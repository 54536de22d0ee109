"""Finishing, care, terms of use and changes, each where it is given; the time of all sections at the head of the steps."""

import re

import pytest

from publisher.edition import print_edition, set_edition
from publisher.pipeline import errors_in, prove
from publisher.template_pages import DEFAULT_EDITIONS, Edition
from publisher.terms import Finding
from tests.demo import demo_proof
from tests.pdf_reading import texts_of
from tests.specimens import HEAD, files, found

INCH, METRIC = DEFAULT_EDITIONS
PATTERN = """
measures:
  width: 6 in | 15 cm
pieces:
  cloth:
    rectangle: width by width
    copies:
      only: canvas
"""
HEADINGS = {
    "finishing": "Finishing",
    "care": "Care",
    "terms": "Terms of use",
    "changes": "Changed in revision 1",
}


def html_of(facts: str, edition: Edition = METRIC, steps: str = "1. Cut it.\n   Does: cut all\n") -> str:
    proof, findings = prove("specimen", files(PATTERN, steps, head=facts + HEAD))
    assert proof is not None
    assert errors_in(findings) == ()
    return set_edition(proof, edition).html.replace("\N{NO-BREAK SPACE}", " ")


def findings_of(facts: str) -> tuple[Finding, ...]:
    return prove("specimen", files(PATTERN, head=facts + HEAD))[1]


def headings(html: str) -> list[str]:
    return [title for title in re.findall(r"<h2>([^<]*)</h2>", html) if title in HEADINGS.values()]


@pytest.mark.parametrize("fact", HEADINGS)
def test_each_part_is_printed_when_it_is_given_and_no_other(fact: str) -> None:
    written = f"{fact}:\n  - Said once.\n" if fact == "changes" else f"{fact}: Said once.\n"
    html = html_of(written)
    assert headings(html) == [HEADINGS[fact]]
    assert html.count("Said once.") == 1
    assert headings(html_of("")) == []


def test_the_parts_stand_in_order() -> None:
    facts = "changes:\n  - One.\ncare: Two.\nterms: Three.\nfinishing: Four.\n"
    assert headings(html_of(facts)) == ["Finishing", "Care", "Terms of use", "Changed in revision 1"]


def test_changes_are_a_list_in_the_maker_s_words() -> None:
    html = html_of("changes:\n  - The *flap* is longer.\n  - A < B, and {width} wide.\n")
    assert "<li>The <em>flap</em> is longer.</li>" in html
    assert "<li>A &lt; B, and 15 cm wide.</li>" in html


@pytest.mark.parametrize(("edition", "amount"), [(INCH, "6 in"), (METRIC, "15 cm")])
def test_every_fact_quotes_the_definition(edition: Edition, amount: str) -> None:
    facts = (
        "about: Folded {width} wide.\nfinishing: Press it {width} wide.\n"
        "care: >\n  Dry it\n  {width} apart.\nterms: Cut {width}, {{not}} more.\n"
    )
    html = html_of(facts, edition)
    for text in ("Folded {} wide", "Press it {} wide", "Dry it\n{} apart", "Cut {}, {{not}} more"):
        assert text.format(f"{amount}") in html or text.replace("\n", " ").format(f"{amount}") in html


def test_a_quote_of_nothing_is_told_with_its_place() -> None:
    finding = found(findings_of("care: Wash at {haet} and dry.\n"), "no-such-name")
    assert (str(finding.place), finding.place and finding.place.end_column) == ("pattern.yaml:1:16", 20)


@pytest.mark.parametrize(
    ("text", "name", "column"),
    [
        ("Wash at {width and dry.", "open-brace", 15),
        ("Wash at width} and dry.", "open-brace", 20),
        ("Wash {} and dry.", "empty-quote", 13),
    ],
)
def test_braces_that_do_not_pair_are_told(text: str, name: str, column: int) -> None:
    finding = found(findings_of(f"care: {text}\n"), name)
    assert str(finding.place) == f"pattern.yaml:1:{column}"


def test_changes_written_as_one_text_are_told() -> None:
    assert "list" in found(findings_of("changes: The flap is longer.\n"), "wrong-kind").says


STEPS = """
Words before.

## One
Minutes: {one}

1. Cut it.
   Does: cut all

## Two

2. Look at it.
   Minutes: {two}
"""


@pytest.mark.parametrize(
    ("one", "two", "told"),
    [
        (25, 20, "2 sections, 45 minutes in all"),
        (70, 50, "2 sections, about 2 hours in all"),
        (90, 60, "2 sections, about 2 1⁄2 hours in all"),
    ],
)
def test_the_sum_of_all_sections_stands_at_the_head_of_the_steps(one: int, two: int, told: str) -> None:
    html = html_of("", steps=STEPS.format(one=one, two=two))
    assert f'<h2>Steps</h2>\n<p class="sum">{told}</p>' in html


def test_no_time_no_sum_and_of_one_section_the_time_alone() -> None:
    assert 'class="sum"' not in html_of("")
    assert '<p class="sum">30 minutes</p>' in html_of("", steps="## One\nMinutes: 30\n\n1. Cut.\n   Does: cut all\n")


def test_the_demo_adds_its_sections_up() -> None:
    # 25 + 15 + 30 + 45 + 40 minutes.
    html = set_edition(demo_proof(), INCH).html.replace("\N{NO-BREAK SPACE}", " ")
    assert '<p class="sum">5 sections, about 2 1⁄2 hours in all</p>' in html
    assert "<dd>about 2 1⁄2 hours</dd>" in html


def test_all_parts_are_in_the_pdf() -> None:
    facts = "finishing: Snip the threads.\ncare: Wash it.\nterms: Sew from it.\nchanges:\n  - It is wider.\n"
    proof, _ = prove("specimen", files(PATTERN, "1. Cut it.\n", head=facts + HEAD))
    assert proof is not None
    lines = [line.text for page in texts_of(print_edition(proof, METRIC).pdf) for line in page]
    for text in ("Finishing", "Snip the threads.", "Changed in revision 1", "It is wider."):
        assert any(text in line for line in lines), text
