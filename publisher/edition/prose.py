"""The maker's Markdown as HTML: her quotes filled in, raw HTML printed as the text it is."""

import re
import xml.etree.ElementTree as etree
from collections.abc import Callable
from html import escape

from markdown import Markdown
from markdown.treeprocessors import Treeprocessor

from publisher.terms import Written

# Signs of the private use area that no keyboard writes; Markdown passes them by.
_OPEN, _CLOSE, _LEFT, _RIGHT, _AMPERSAND, _FIRST = "\ue000", "\ue001", "\ue002", "\ue003", "\ue004", "\ue005"
_QUOTE = re.compile(r"\{\{|\}\}|\{[^{}\n]*\}")
_MARKED = re.compile(f"{_OPEN}(\\d+){_CLOSE}")
_PRIVATE = re.compile("[\ue000-\uf8ff]")


class _SafeLinks(Treeprocessor):
    """Keeps links to the web; of any other only the words stay."""

    def run(self, root: etree.Element) -> None:
        for link in root.iter("a"):
            if not re.match(r"https?://", link.get("href", "")):
                link.tag = "span"
                link.attrib.clear()


def _renderer() -> Markdown:
    markdown = Markdown(output_format="html", extensions=["sane_lists"])
    markdown.preprocessors.deregister("html_block")
    for pattern in ("html", "entity", "image_link", "image_reference", "short_image_ref"):
        markdown.inlinePatterns.deregister(pattern)
    markdown.treeprocessors.register(_SafeLinks(markdown), "safe links", 0)
    return markdown


def render_line(text: str, quotes: tuple[Written, ...], shown: Callable[[Written], str]) -> str:
    """HTML of one line to stand inside a paragraph: a sign that would begin a list or heading is printed as it is."""
    html = _filled(_FIRST + _PRIVATE.sub("", text), quotes, shown)
    return html.removeprefix("<p>").removesuffix("</p>").removeprefix(_FIRST)


def render(text: str, quotes: tuple[Written, ...], shown: Callable[[Written], str]) -> str:
    """HTML of a text; `shown` gives the HTML of each quote. Headings, tables and pictures have no place here."""
    return _tight(_filled(_PRIVATE.sub("", text), quotes, shown))


def _filled(text: str, quotes: tuple[Written, ...], shown: Callable[[Written], str]) -> str:
    left = iter(quotes)
    filled: list[str] = []

    def mark(match: re.Match[str]) -> str:
        if match[0] in ("{{", "}}"):
            return _LEFT if match[0] == "{{" else _RIGHT
        filled.append(shown(next(left)))
        return f"{_OPEN}{len(filled) - 1}{_CLOSE}"

    marked = _QUOTE.sub(mark, text)
    # Markdown would leave what looks like an entity as it is; here it is the text that was typed.
    html = _renderer().convert(marked.replace("&", _AMPERSAND)).replace(_AMPERSAND, "&amp;")
    html = _MARKED.sub(lambda match: filled[int(match[1])], html)
    return html.replace(_LEFT, "{").replace(_RIGHT, "}")


def unwrapped(html: str) -> str:
    """HTML that is one paragraph without it, for an item of a list; any other as it is."""
    inner = html.removeprefix("<p>").removesuffix("</p>")
    return inner if "<p>" not in inner and "</p>" not in inner else html


def _tight(html: str) -> str:
    """List items without paragraphs inside: a paragraph there loses its place in the tagged list."""
    return re.sub(r"<li>\s*<p>(.*?)</p>\s*</li>", r"<li>\1</li>", html, flags=re.DOTALL)


def name_html(name: str) -> str:
    """The name of a piece or notion within the text, kept on one line with a heavier hand."""
    return f'<b class="name">{escape(name)}</b>'


def amount_html(text: str) -> str:
    """A quantity within the text, which never breaks at a line's end.

    It is no element of its own: where one begins just beyond a line that its text fills to the last space, WeasyPrint 70
    breaks the line behind its first word.
    """
    return escape(text).replace(" ", "\N{NO-BREAK SPACE}")
