"""The page of each check: its docstring in parts, and an example that fails beside one that passes, from its case file.

A case file in `cases/` is a small pattern whose lines begin with two signs: two spaces stand in both versions, `- ` only
in the one that fails, `+ ` only in the one that passes. `# finds` ends a guilty line; behind a colon stands the name of
another check that finds something there. A line `=== steps.md` begins the steps. What all cases begin with is in
`head.txt`.
"""

import re
from collections.abc import Callable, Iterator
from importlib.resources import files
from inspect import cleandoc

from publisher.frozen import dataclass

GUILTY = re.compile(r" *# finds(?:: *(?P<name>[a-z-]+))?$")
PARTS = ("Why", "Fix")
NEXT_FILE = "=== "


@dataclass(frozen=True, slots=True)
class Page:
    """What `publisher explain` prints of a check."""

    name: str
    subject: str  # the file it stands in: fit, marks, work …
    finds: str
    why: str
    fix: str
    fails: tuple[str, ...]  # lines of the case, those of the failing version alone
    passes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Case:
    """One version of a case as the files of a pattern, and what must be found in it: (file, line, name)."""

    files: tuple[tuple[str, bytes], ...]
    guilty: frozenset[tuple[str, int, str]]


def name_of(check: Callable[..., object]) -> str:
    """The code that its findings bear: `seam-lengths-differ`."""
    return check.__name__.replace("_", "-")


def page_of(check: Callable[..., object]) -> Page:
    """The page of a check. Raises ValueError where its docstring lacks a part, and OSError without a case file."""
    name = name_of(check)
    finds, *parts = re.split(r"\n\n(?=\w+: )", cleandoc(check.__doc__ or ""))
    said = {head: " ".join(rest.split()) for head, _, rest in (part.partition(": ") for part in parts)}
    if not finds or any(part not in said for part in PARTS):
        raise ValueError(f"the docstring of {name} lacks one of: what it finds, {', '.join(PARTS)}")
    lines = _text(name).splitlines()
    fails, passes = (tuple(_bare(line) for line in lines if line.startswith(sign)) for sign in ("- ", "+ "))
    subject = check.__module__.rpartition(".")[2]
    return Page(name, subject, " ".join(finds.split()), said["Why"], said["Fix"], fails, passes)


def _bare(line: str) -> str:
    return GUILTY.sub("", line[2:])


def case_of(name: str, fails: bool) -> Case:
    """One version of a check's case. Raises OSError where it has none."""
    texts: dict[str, list[str]] = {"pattern.yaml": _text("head").splitlines(), "steps.md": []}
    guilty: set[tuple[str, int, str]] = set()
    file = "pattern.yaml"
    for line in _version(_text(name), fails):
        if line.startswith(NEXT_FILE):
            file = line.removeprefix(NEXT_FILE).strip()
            texts[file] = []
            continue
        found = GUILTY.search(line)
        if found:
            guilty.add((file, len(texts[file]) + 1, found["name"] or name))
        texts[file].append(GUILTY.sub("", line))
    return Case(tuple((name, ("\n".join(lines) + "\n").encode()) for name, lines in texts.items()), frozenset(guilty))


def _version(text: str, fails: bool) -> Iterator[str]:
    for line in text.splitlines():
        if line[:2] in ("  ", "- " if fails else "+ ", ""):
            yield line[2:]


def _text(name: str) -> str:
    return (files("publisher.checks") / "cases" / f"{name}.txt").read_text(encoding="utf-8")
