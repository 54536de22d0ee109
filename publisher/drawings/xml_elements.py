"""The bytes of a drawing as a list of located elements, within bounds. The one door to lxml.

A drawing is data from a stranger: no document type (so no entities), nothing fetched, size, depth and count bounded.
"""

import re
from bisect import bisect_right
from itertools import accumulate

from lxml import etree

from publisher.drawings.mistakes import error, shown
from publisher.drawings.values import Element
from publisher.terms import Place

LARGEST = 2_000_000  # bytes
MOST_ELEMENTS = 20_000
MOST_ATTRIBUTES = 200  # of one element
DEEPEST = 40  # elements within one another
_SVG = "{http://www.w3.org/2000/svg}"
_LINK = "{http://www.w3.org/1999/xlink}href"
_ENCODING = re.compile(rb"""\s*<\?xml[^>]{0,200}?encoding\s*=\s*["']([A-Za-z0-9._-]{1,40})["']""")
_ENCODINGS = ("utf-8", "us-ascii", "iso-8859-1", "windows-1252", "utf-16")
_DECLARATION = re.compile(r"\s*<\?xml\s[^<>]*\?>")
# In well-formed text without a document type, every "<" that opens no comment, data or instruction opens an element
# or closes one; lxml tells the lines of elements, and not their columns.
_OPENING = re.compile(r"<!--.*?-->|<!\[CDATA\[.*?\]\]>|<\?.*?\?>|<[^\s/>!?]+", re.S)


def read_elements(content: bytes, file: str) -> tuple[Element, ...]:
    """All SVG elements in the order of the file, those of other languages left out. Raises Unusable."""
    start = Place(file, 1, 1, 1, 2)
    if len(content) > LARGEST:
        raise error(
            "too-much",
            start,
            f"{file} has more than {LARGEST:,} bytes",
            "keep in it only what the pattern uses, and no pictures",
        )
    text = _undeclared(_text(content, start))
    if text.count("<") > 5 * MOST_ELEMENTS:  # an element has two at most; far beyond, reading alone takes its time
        raise error("too-much", start, f"more than {MOST_ELEMENTS:,} elements", _SIMPLER)
    where = _Places(text, file)
    for device in ("<!DOCTYPE", "<!ENTITY"):
        if device in text:
            at = text.index(device)
            raise error(
                "document-type",
                where.of(at, at + len(device)),
                "a document type, which can make a small file into an endless one, is not read",
                "take it out, from '<!DOCTYPE' to its '>', or save as plain SVG",
            )
    root = _parsed(text, where)
    if _tag(root) != "svg":
        raise error(
            "not-svg",
            where.openings()[0],
            f"the file begins with <{shown(str(root.tag))}>, not with <svg>",
            "save as SVG",
        )
    return _elements(root, where.openings())


def _text(content: bytes, start: Place) -> str:
    said = _ENCODING.match(content[:400])
    encoding = said[1].decode("ascii").lower() if said else "utf-8"
    if content[:2] in (b"\xff\xfe", b"\xfe\xff"):
        encoding = "utf-16"
    if content[:2] == b"\x1f\x8b":
        raise error("not-xml", start, "the file is compressed", "save as plain SVG, not as compressed SVG (svgz)")
    if encoding not in _ENCODINGS:
        raise error("not-utf8", start, f"the drawing is written in {shown(encoding)}", "save the file as UTF-8")
    try:
        return content.decode("utf-8-sig" if encoding == "utf-8" else encoding)
    except UnicodeDecodeError as reason:
        line = content[: reason.start].count(b"\n") + 1
        place = Place(start.file, line, 1, line, 2)
        raise error(
            "not-utf8", place, f"this line is not written in {encoding.upper()}", "save the file as UTF-8"
        ) from None


def _undeclared(text: str) -> str:
    """The text with spaces for its XML declaration: it is encoded anew, and every sign keeps its place."""
    declared = _DECLARATION.match(text)
    return re.sub(r"[^\r\n]", " ", declared[0]) + text[declared.end() :] if declared else text


def _parsed(text: str, where: "_Places") -> etree._Element:
    parser = etree.XMLParser(
        encoding="utf-8",
        resolve_entities=False,
        no_network=True,
        load_dtd=False,
        dtd_validation=False,
        huge_tree=False,
        remove_comments=True,
        remove_pis=True,
    )
    try:
        return etree.fromstring(text.encode("utf-8"), parser)
    except etree.XMLSyntaxError as reason:
        line, column = reason.position
        says = re.sub(r",? line \d+.*", "", str(reason.msg))
        if "xcessive depth" in says or "huge" in says:
            raise error("too-much", where.at(line, column), "elements too deep or too long", _SIMPLER) from None
        raise error(
            "not-xml", where.at(line, column), f"this is no XML: {shown(says, 100)}", "save the drawing as SVG again"
        ) from None


_SIMPLER = "save a copy with only what the pattern uses, its groups dissolved"


class _Places:
    """Line and column of any sign of the text."""

    def __init__(self, text: str, file: str) -> None:
        self._text, self._file = text, file
        self._starts = [0, *accumulate(len(line) for line in text.splitlines(keepends=True))]

    def of(self, start: int, end: int) -> Place:
        """The place of the signs `start` to `end`, on one line."""
        line = bisect_right(self._starts, start, hi=max(len(self._starts) - 1, 1))
        column = start - self._starts[line - 1] + 1
        return Place(self._file, line, column, line, column + end - start)

    def at(self, line: int, column: int) -> Place:
        """A place told by the parser, which may lie behind the end."""
        start = 0
        for _ in range(line - 1):
            start = self._text.find("\n", start) + 1 or start
        end = self._text.find("\n", start)
        last = max(len(self._text) if end < 0 else end, start)
        at = min(start + max(column - 1, 0), max(last - 1, start), max(len(self._text) - 1, 0))
        while at > 0 and self._text[at] in "\r\n" and self._text[at - 1] in "\r\n":
            at -= 1
        return self.of(at, at + 1)

    def openings(self) -> tuple[Place, ...]:
        """The place of each element's "<" and name, in order."""
        found = _OPENING.finditer(self._text)
        return tuple(self.of(*one.span()) for one in found if not one[0].startswith(("<!", "<?")))


def _tag(node: etree._Element) -> str:
    """The plain name of an SVG element, also where no language is declared; "" for one of another language."""
    tag = str(node.tag)
    return tag.removeprefix(_SVG) if tag.startswith(_SVG) or not tag.startswith("{") else ""


def _elements(root: etree._Element, places: tuple[Place, ...]) -> tuple[Element, ...]:
    """A flat list, in the order of the file. Raises Unusable beyond the bounds."""
    tags: list[str] = []
    attributes: list[tuple[tuple[str, str], ...]] = []
    texts: list[str] = []
    kin: list[tuple[int | None, Place]] = []
    children: list[list[int]] = []
    numbers: dict[etree._Element, tuple[int, int] | None] = {}
    for at, node in enumerate(root.iter("*")):
        if at >= MOST_ELEMENTS:
            raise error("too-much", places[at], f"more than {MOST_ELEMENTS:,} elements", _SIMPLER)
        above = node.getparent()
        over = numbers[above] if above is not None else None
        tag = _tag(node)
        if not tag or (above is not None and over is None):
            numbers[node] = None  # of another language, or within such
            continue
        depth = over[1] + 1 if over else 1
        if depth > DEEPEST:
            raise error("too-much", places[at], f"more than {DEEPEST} elements within one another", _SIMPLER)
        if len(node.attrib) > MOST_ATTRIBUTES:
            raise error("too-much", places[at], f"more than {MOST_ATTRIBUTES} attributes", _SIMPLER)
        numbers[node] = (len(tags), depth)
        if over:
            children[over[0]].append(len(tags))
        tags.append(tag)
        attributes.append(tuple((_plain(key), value) for key, value in _attributes(node)))
        texts.append("".join(node.itertext()) if tag == "style" else "")
        kin.append((over[0] if over else None, places[at]))
        children.append([])
    return tuple(
        Element(tag, attributes[at], kin[at][0], tuple(children[at]), texts[at], kin[at][1])
        for at, tag in enumerate(tags)
    )


def _attributes(node: etree._Element) -> list[tuple[str, str]]:
    """SVG's own attributes and links; href goes before the older xlink:href."""
    given = [(str(key), str(value)) for key, value in node.attrib.items()]
    own = [(key, value) for key, value in given if not key.startswith("{")]
    return own + [(key, value) for key, value in given if key == _LINK]


def _plain(key: str) -> str:
    return "href" if key == _LINK else key
