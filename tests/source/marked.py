"""Specimens with their guilty signs between guillemets, and what the rest of a sound pattern folder looks like."""

from collections.abc import Mapping
from textwrap import dedent

from publisher.source import Source, read_source
from publisher.terms import Finding, Place

PATTERN, STEPS = "pattern.yaml", "steps.md"
# What no pattern goes without. A specimen that does not say it is given it, at its end.
REQUIRED = {
    "title:": "title: Specimen\n",
    "revision:": 'revision: "1"\n',
    "materials:": """\
materials:
  canvas:
    kind: fabric
    name: Canvas
    sold:
      - 42 in wide | 110 cm wide
""",
    "pieces:": """\
pieces:
  band:
    rectangle: 20 cm by 5 cm
    copies:
      only: canvas
""",
}


def marked(text: str, file: str) -> tuple[str, list[Place]]:
    """The text without its guillemets, and the place of what stood between each pair of them."""
    plain, *parts = text.split("«")
    places = []
    for part in parts:
        fragment, _, rest = part.partition("»")
        start = _after(plain)
        plain += fragment
        places.append(Place(file, *start, *_after(plain)))
        plain += rest
    return plain, places


def _after(text: str) -> tuple[int, int]:
    """Line and column, from 1, of the sign that follows a text."""
    return text.count("\n") + 1, len(text) - text.rfind("\n")


def whole_pattern(text: str) -> str:
    """A specimen of pattern.yaml and, below it, whatever it lacks to be a whole one."""
    text = dedent(text)
    said = text.replace("«", "").splitlines()
    text = text if text.endswith("\n") else text + "\n"
    return text + "".join(rest for key, rest in REQUIRED.items() if not any(line.startswith(key) for line in said))


def read(pattern: str, steps: str = "") -> tuple[Source | None, tuple[Finding, ...]]:
    """What is read of two files."""
    return read_source("specimen", folder(pattern, steps))


def folder(pattern: str, steps: str = "") -> Mapping[str, bytes]:
    """The two files of a pattern folder."""
    return {PATTERN: pattern.encode(), STEPS: steps.encode()}


def sound(pattern: str, steps: str = "") -> Source:
    """The source of a specimen in which nothing is found."""
    source, findings = read(whole_pattern(pattern), steps)
    assert findings == ()
    assert source is not None
    return source


def told(findings: tuple[Finding, ...]) -> list[tuple[str, Place | None]]:
    """The names of findings and their places, as they came."""
    return [(finding.name, finding.place) for finding in findings]
