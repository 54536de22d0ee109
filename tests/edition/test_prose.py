"""The maker's Markdown: quotes filled in, raw HTML printed as text, nothing fetched."""

import pytest

from publisher.edition.prose import render
from publisher.terms import Place, Written

PLACE = Place("steps.md", 1, 1, 1, 2)


def _render(text: str, *quotes: str) -> str:
    return render(text, tuple(Written(quote, PLACE) for quote in quotes), lambda quote: f"<b>{quote.upper()}</b>")


@pytest.mark.parametrize(
    ("text", "html"),
    [
        ("Sew *slowly*.", "<p>Sew <em>slowly</em>.</p>"),
        ("A <b>bold</b> word", "<p>A &lt;b&gt;bold&lt;/b&gt; word</p>"),
        ("<script>alert(1)</script>", "<p>&lt;script&gt;alert(1)&lt;/script&gt;</p>"),
        ("<div>\n\nBlock\n\n</div>", "<p>&lt;div&gt;</p>\n<p>Block</p>\n<p>&lt;/div&gt;</p>"),
        ("Salt &amp; marsh", "<p>Salt &amp;amp; marsh</p>"),
        ("Salt & marsh < sea", "<p>Salt &amp; marsh &lt; sea</p>"),
        ("{{not a quote}}", "<p>{not a quote}</p>"),
        ("[here](https://video.example/x)", '<p><a href="https://video.example/x">here</a></p>'),
        ("[here](javascript:alert)", "<p><span>here</span></p>"),
        ("[here](file:///etc/passwd)", "<p><span>here</span></p>"),
    ],
)
def test_text(text: str, html: str) -> None:
    assert _render(text) == html


def test_pictures_are_not_fetched() -> None:
    assert "<img" not in _render("![a picture](file:///etc/passwd) ![b][c]\n\n[c]: https://x.example/y.png")


def test_quotes_are_filled_in_their_order() -> None:
    assert _render("Sew {a} to {b}, **{a}** again.", "a", "b", "a") == (
        "<p>Sew <b>A</b> to <b>B</b>, <strong><b>A</b></strong> again.</p>"
    )


def test_a_quote_is_not_read_as_markdown_or_html() -> None:
    html = render("Width {w}.", (Written("w", PLACE),), lambda _: "2 * 3 * 4 &lt;")
    assert html == "<p>Width 2 * 3 * 4 &lt;.</p>"


def test_lists_are_tight() -> None:
    assert "<li>one</li>" in _render("Do:\n\n- one\n\n- two")


def test_private_signs_of_the_maker_do_no_harm() -> None:
    assert _render("a \ue0000\ue001 b") == "<p>a 0 b</p>"
