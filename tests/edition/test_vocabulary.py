"""Terms of the trade: those that a pattern's steps, chart and marks use, and no others."""

import re
import tomllib
from fractions import Fraction

import pytest

from publisher.edition import layouts_folder, set_edition
from publisher.edition.vocabulary import readable, used_terms
from publisher.edition.words import speaker
from publisher.pipeline import prove
from publisher.template_pages import DEFAULT_EDITIONS, Edition
from publisher.terms import UnitSystem
from tests.demo import demo_proof
from tests.specimens import HEAD, files

SPEAK = speaker("en", UnitSystem.METRIC, Fraction(1, 8))
WORDS = tomllib.loads((layouts_folder() / "words" / "en.toml").read_text("utf-8"))["terms"]


def names(*texts: str) -> list[str]:
    return [term.name for term in used_terms(texts, SPEAK)]


@pytest.mark.parametrize(
    ("text", "used"),
    [
        ("Baste the loop in place.", ["baste"]),
        ("Basting holds it.", ["baste"]),
        ("The paste holds it, toaster by toaster.", []),
        ("Sew with right sides together.", ["right sides together (RST)"]),
        ("Lay RS up.", ["right side (RS)"]),
        ("The rs of it, or ws, or a sa.", []),
        ("Pin RST, then mark the WS.", ["right sides together (RST)", "wrong side (WS)"]),
        ("Cover it with bias binding.", ["bias binding"]),
        ("Cut it on the bias.", ["bias"]),
        ("Cut binding on the bias; bias binding follows a curve.", ["bias", "bias binding"]),
        ("Mark the turning gap.", ["turning gap"]),
        ("Mind the gap; turn the page.", []),
        ("Hold it with clips.", []),
        ("Clip the curve.", ["clip, snip"]),
        ("The raw\nedge of it", ["raw edge"]),
        ("The raw\N{NO-BREAK SPACE}edge of it", ["raw edge"]),
        ("Cut one on the fold.", ["fold, on the"]),
        ("Fold it.", []),
        ("Hemlock and napkin, compress and datum.", []),
        ("", []),
    ],
)
def test_forms_are_found_as_whole_words_the_longest_first(text: str, used: list[str]) -> None:
    assert names(text) == used


def test_terms_come_once_and_in_the_order_of_the_words_file() -> None:
    assert names("Topstitch it.", "Press, baste, topstitch and press.") == ["baste", "press", "topstitch"]


def test_words_are_those_that_the_reader_sees() -> None:
    html = '<p>Sew the <b class="name">raw edge</b>s</p>\n<p>R&amp;S <em>top</em>stitch</p><ul><li>one</li><li>two</li></ul>'
    assert " ".join(readable(html).split()) == "Sew the raw edges R&S topstitch one two"
    assert names(readable('<a href="https://x.example/hem">here</a>')) == []


def test_the_words_file_has_enough_terms_each_whole_in_order_and_found_by_its_own_name() -> None:
    assert len(WORDS) >= 30
    assert all(set(entry) == {"name", "forms", "meaning"} for entry in WORDS.values())
    listed = [entry["name"] for entry in WORDS.values()]
    assert listed == sorted(listed)
    forms = [form for entry in WORDS.values() for form in entry["forms"].split(" | ")]
    assert len(forms) == len(set(forms))
    for entry in WORDS.values():
        for form in entry["forms"].split(" | "):
            assert names(f"to {form} it") == [entry["name"]], form
        assert len(entry["meaning"]) <= 115, entry["name"]


PATTERN = """
pieces:
  flap:
    outline:
      rectangle: 10 cm by 10 cm
    copies:
      only: canvas
    marks:
      {mark}: point at 2 cm from left edge and 2 cm from bottom edge
  tie:
    strip:
      finished width: 1 cm
      length: 20 cm
      fold: plain
    copies:
      only: canvas
"""
STEPS = """
## {title}

1. {words}
"""


def printed(
    edition: Edition,
    mark: str = "ring",
    title: str = "One",
    words: str = "Sew.",
    note: str = "",
    kind: str = "either way",
) -> list[str]:
    """The terms of a small pattern, as printed in the edition."""
    pattern = PATTERN.format(mark=mark).replace("  tie:\n", f"  tie:\n    grain: {kind}\n{note}")
    proof, findings = prove("specimen", files(pattern, STEPS.format(title=title, words=words)))
    assert proof is not None, findings
    html = set_edition(proof, edition).html
    section = re.search(r'<section class="vocabulary">(.*?)</section>', html, re.DOTALL)
    return re.findall(r"<b>([^<]*)</b>:", section[1]) if section else []


@pytest.mark.parametrize("edition", DEFAULT_EDITIONS, ids=lambda edition: edition.name)
def test_steps_titles_chart_and_marks_bring_their_terms_and_nothing_else_does(edition: Edition) -> None:
    # The flap's grain line is in the legend and "lengthwise" in the chart: that one is in all of them.
    plain = printed(edition)
    assert plain == ["grain"]
    assert printed(edition, words="Topstitch it.") == ["grain", "topstitch"]
    assert printed(edition, title="Casing") == ["casing", "grain"]
    assert printed(edition, mark="pleat top") == ["grain", "pleat"]
    assert printed(edition, kind="bias") == ["bias", "grain"]
    assert printed(edition, note="    note: Wash the wadding first.\n") == ["grain", "wadding"]
    # A name filled into a quote is what the reader sees; the braces are not.
    assert printed(edition, words="Sew {tie} on.") == ["grain"]


def test_a_pattern_that_uses_no_term_has_no_section() -> None:
    measured = """
pieces:
  cloth:
    rectangle: 20 cm by 20 cm
    grain: either way
    copies:
      only: canvas
"""
    proof, _ = prove("specimen", files(measured, "1. Cut it.\n", head=HEAD))
    assert proof is not None
    assert 'class="vocabulary"' not in set_edition(proof, DEFAULT_EDITIONS[0]).html


def test_the_demo_explains_what_it_says_and_not_what_it_does_not() -> None:
    html = set_edition(demo_proof(), DEFAULT_EDITIONS[0]).html
    for used in ("right sides together (RST)", "box a corner", "seam ripper", "fuse", "notch"):
        assert f"<b>{used}</b>:" in html
    for unused in ("bias binding", "hem", "pleat", "casing", "slip stitch", "mitre", "gather", "understitch", "nap"):
        assert f"<b>{unused}</b>:" not in html
