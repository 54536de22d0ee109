"""Names as the expression language can read them, and values for both unit systems."""

import re
from collections.abc import Iterable, Iterator

from publisher.source.values import Native
from publisher.terms import Finding, Severity, Written

RESERVED = ("of", "from", "to", "and", "at", "the", "with", "by", "for")
_NAME = re.compile(r"[^\W\d_][\w'’]*(?: [^\W_][\w'’]*)*")


def check_names(names: Iterable[Written], keys: bool = True) -> Iterator[Finding]:
    """A finding for each name that no formula could read. A colon in a key has been told where the file was read."""
    for name in names:
        if keys and ":" in name:
            continue
        reserved = [word for word in name.split() if word in RESERVED]
        if "-" in name or "–" in name:
            yield _bad(
                name, f"the name '{name}' holds a hyphen, which formulas read as a minus", "put a space in its place"
            )
        elif reserved:
            yield _bad(
                name, f"the name '{name}' holds '{reserved[0]}', a word of the formula language", "choose another word"
            )
        elif not _NAME.fullmatch(name):
            yield _bad(
                name, f"'{name}' cannot be a name", "begin with a letter, and use letters, digits and single spaces"
            )


def _bad(name: Written, says: str, mend: str) -> Finding:
    return Finding("bad-name", Severity.ERROR, name.place, says, mend)


def native(written: Written, found: list[Finding]) -> Native:
    """`10 in | 26 cm` as two formulas, one formula as itself for both systems."""
    parts = written.split_at("|")
    if len(parts) == 1:
        return Native(written, written)
    if len(parts) > 2 or not all(parts):
        says = (
            f"'{written}' has {len(parts) - 1} bars"
            if len(parts) > 2
            else f"one side of the bar is empty in '{written}'"
        )
        found.append(
            Finding(
                "bad-native-pair",
                Severity.ERROR,
                written.place,
                says,
                "write all inches, one bar, all metric: 10 in | 26 cm, or 10 in by 4 in | 26 cm by 10 cm",
            )
        )
        return Native(parts[0] or parts[1], parts[1] or parts[0])
    return Native(parts[0], parts[1])
