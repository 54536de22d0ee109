"""Files meant to do harm: each is answered with a finding, without work that grows out of bounds; nothing outside is touched."""

import builtins
import socket
import time
from collections.abc import Iterator

import pytest

from publisher.drawings import marks_of, outline_of, read_drawing
from publisher.terms import Finding
from tests.drawings.specimens import FILE, HEAD, NAMES, svg

# Seconds of the processor. Without a bound each of these files takes minutes or never ends; a fraction of a second is what
# they take, and a machine with much else to do must not fail for it.
HANGS = 20
LONG = " ".join(f"{at % 97} {at % 89}" for at in range(250_000))
ENTITIES = "".join(f'<!ENTITY a{at} "{f"&a{at - 1};" * 10 if at else "lol"}">' for at in range(10))
# Ten uses of ten uses of …: 10⁷ rectangles.
USES = '<g id="g0"><rect width="9" height="9"/></g>' + "".join(
    f'<g id="g{at}">' + f'<use href="#g{at - 1}"/>' * 10 + "</g>" for at in range(1, 8)
)
WIDE_USES = (
    '<g id="g0">' + '<rect width="9" height="9"/>' * 9_000 + '</g><g id="lid">' + '<use href="#g0"/>' * 9_000 + "</g>"
)
NESTED_GROUPS = "".join(f'<g id="n{at}" transform="rotate(1)">' for at in range(30))
HOSTILE: dict[str, tuple[bytes, str]] = {
    "entity bomb": (f'<?xml version="1.0"?><!DOCTYPE svg [{ENTITIES}]><svg>&a9;</svg>'.encode(), "document-type"),
    "entity from a file": (b'<!DOCTYPE svg [<!ENTITY x SYSTEM "file:///etc/passwd">]><svg>&x;</svg>', "document-type"),
    "document type from the network": (b'<!DOCTYPE svg SYSTEM "http://x.example/svg.dtd"><svg/>', "document-type"),
    "document type in another encoding": ('<!DOCTYPE svg [<!ENTITY x "y">]><svg/>'.encode("utf-16"), "document-type"),
    "unknown entity": (svg('<text id="lid">&copy;</text>'), "not-xml"),
    "use bomb": (svg(USES.replace('"g7"', '"lid"')), "too-much"),
    "wide use bomb": (svg(WIDE_USES), "too-much"),
    "uses in a circle": (svg('<g id="lid"><use href="#b"/></g><g id="b"><use href="#lid"/></g>'), "circle-of-uses"),
    "a use of itself": (svg('<use id="lid" href="#lid"/>'), "circle-of-uses"),
    "a use of what it stands in": (svg('<g id="b"><use id="lid" href="#b"/></g>'), "circle-of-uses"),
    "a use of the whole": (f'<svg id="b" {NAMES} {HEAD}><use id="lid" href="#b"/></svg>'.encode(), "circle-of-uses"),
    "deep nesting": (svg("<g>" * 200 + '<rect id="lid"/>' + "</g>" * 200), "too-much"),
    "deeper nesting": (svg("<g>" * 100_000 + "</g>" * 100_000), "too-much"),
    "nesting never closed": (("<g>" * 600_000).encode(), "too-much"),
    "many elements": (svg("<g/>" * 300_000), "too-much"),
    "many foreign elements": (svg('<g xmlns="x">' + "<a/>" * 300_000 + "</g>"), "too-much"),
    "many comments opened": (svg("<!--" * 400_000), "too-much"),
    "some comments opened": (svg("<!--" * 90_000), "not-xml"),
    "many attributes": (svg("<g " + " ".join(f'a{at}=""' for at in range(150_000)) + "/>"), "too-much"),
    "huge path": (svg(f'<path id="lid" d="M0 0L{LONG}"/>'), "too-much"),
    "huge polygon": (svg(f'<polygon id="lid" points="{LONG}"/>'), "bad-drawing"),
    "huge number of subpaths": (svg(f'<path id="lid" d="{"M0 0z" * 250_000}"/>'), "too-much"),
    "many huge curves": (
        svg('<path id="lid" d="M0 0' + "c9000 9000 -9000 9000 0 1" * 4_900 + 'z"/>', 'width="9999mm" height="9mm"'),
        "too-much",
    ),
    "many huge ellipses": (
        svg('<path id="lid" d="M0 0' + "a9e6 8e6 0 1 1 9 9" * 4_900 + 'z"/>'),
        "too-much",
    ),
    "many transforms": (svg(f'<rect id="lid" width="9" height="9" transform="{"rotate(1)" * 100_000}"/>'), "bad-drawing"),
    "transforms without end": (svg('<g transform="scale(1e9)">' * 30 + '<rect id="lid"/>' + "</g>" * 30), "bad-drawing"),
    "more bytes than a drawing has": (svg("<!-- " + "x" * 3_000_000 + " -->"), "too-much"),
    "a number of a million digits": (svg(f'<path id="lid" d="M0 0L{"9" * 1_000_000} 0"/>'), "bad-drawing"),
    "a width of a million digits": (svg("", f'width="{"9" * 1_000_000}mm" height="9mm"'), "bad-drawing"),
    "not a number": (svg('<path id="lid" d="M0 0L nan nan z"/>'), "bad-drawing"),
    "not a number, in a transform": (svg('<rect id="lid" width="9" height="9" transform="scale(nan)"/>'), "bad-drawing"),
    "not a number, for a size": (svg('<rect id="lid"/>', 'width="nanmm" height="9mm"'), "bad-drawing"),
    "infinite": (svg('<circle id="lid" r="1e999"/>'), "bad-drawing"),
    "infinite, without a sign": (svg('<circle id="lid" r="inf"/>'), "bad-drawing"),
    "an arc on the moon": (svg('<path id="lid" d="M0 0A1e9 1e9 0 1 1 9 9z"/>'), "bad-drawing"),
    "a use of the network": (svg('<use id="lid" href="http://x.example/a.svg#b"/>'), "reaches-outside"),
    "a use of a file": (svg('<use id="lid" xlink:href="../../secret.svg#b"/>'), "reaches-outside"),
    "a use of data": (svg('<use id="lid" href="data:image/svg+xml,%3Csvg/%3E#b"/>'), "reaches-outside"),
    "a picture of the network": (svg('<image id="lid" href="http://x.example/a.png"/>'), "no-outline"),
    "a program": (svg('<script id="lid" href="http://x.example/a.js">while (true);</script>'), "no-outline"),
    "a page within": (svg('<foreignObject id="lid"><iframe xmlns="x" src="file:///etc/passwd"/></foreignObject>'), "no-outline"),
    "include": (svg('<g id="lid"><include xmlns="http://www.w3.org/2001/XInclude" href="/etc/passwd"/></g>'), "no-outline"),
    "a style sheet of the network": (
        f'<?xml-stylesheet href="http://x.example/a.xsl" type="text/xsl"?><svg {NAMES} {HEAD}><g id="lid"/></svg>'.encode(),
        "no-outline",
    ),
    "compressed": (b"\x1f\x8b\x08\x00" + bytes(100), "not-xml"),
    "nothing": (b"", "not-xml"),
    "a page": (b"<html><body/></html>", "not-svg"),
    "zeroes": (bytes(1_000_000), "not-xml"),
    "an unknown encoding": (b'<?xml version="1.0" encoding="rot13"?><svg/>', "not-utf8"),
    "broken UTF-8": (b'<svg>\n<text id="\xff"/></svg>', "not-utf8"),
}  # fmt: skip


@pytest.fixture
def _nothing_outside(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """No file is opened, no connection made."""

    def refuse(*_: object, **__: object) -> None:
        raise AssertionError("something outside was reached for")

    with monkeypatch.context() as patch:
        patch.setattr(builtins, "open", refuse)
        patch.setattr(socket, "socket", refuse)
        yield


def _answer(content: bytes) -> tuple[Finding, ...]:
    read, findings = read_drawing(content, FILE)
    if read is None:
        return findings
    marks_of(read)
    drawn, more = outline_of(read, "lid")
    assert drawn is None
    return (*findings, *more)


@pytest.mark.usefixtures("_nothing_outside")
@pytest.mark.parametrize("name", HOSTILE)
def test_a_hostile_file_is_answered_at_once(name: str) -> None:
    content, expected = HOSTILE[name]
    start = time.process_time()
    findings = _answer(content)
    assert time.process_time() - start < HANGS
    assert expected in [finding.name for finding in findings]
    for finding in findings:
        assert len(finding.says) < 300
        assert finding.place is not None
        assert finding.place.file == FILE


def test_marks_of_many_groups_within_one_another_are_told_in_time() -> None:
    content = svg(NESTED_GROUPS + "".join(f'<path id="p{at}" d="M0 0h9"/>' for at in range(19_000)) + "</g>" * 30)
    read, _ = read_drawing(content, FILE)
    assert read is not None
    start = time.process_time()
    marks, _ = marks_of(read)
    assert time.process_time() - start < HANGS
    assert len(marks) == 500
