"""What YAML takes away without a word, found in the text around each node."""

import re
from collections.abc import Iterator

from publisher.source.yaml_nodes import Mapping, Node, Sequence, is_nothing
from publisher.terms import Finding, Place, Severity, Written


def swallowed(node: Node, text: str) -> Iterator[Finding]:
    """Comments that cut a value short, commas that split a number, colons within names, lines run together."""
    lines = text.splitlines()
    yield from _in_node(node, lines)


def _in_node(node: Node, lines: list[str]) -> Iterator[Finding]:
    if isinstance(node, Written):
        yield from _in_value(node, lines)
    elif isinstance(node, Mapping):
        for key, value in node.items:
            yield from _in_key(key)
            if is_nothing(value):
                yield _error(
                    "no-value", key.place, f"'{key}' has no value", "write one behind the colon, or take the line out"
                )
            yield from _in_node(value, lines)
    elif isinstance(node, Sequence):
        yield from _split_numbers(node)
        for item in node.items:
            if isinstance(item, Written) and not item.strip():
                yield _empty_item(item)
            yield from _in_node(item, lines)


def _empty_item(item: Written) -> Finding:
    """Told at the dash where nothing at all was written."""
    file, line, column = item.place.file, item.place.line, item.place.column
    place = Place(file, line, max(column - 1, 1), line, column) if is_nothing(item) else item.place
    return _error("no-value", place, "nothing stands behind this dash", "write it there, or take the line out")


def _in_key(key: Written) -> Iterator[Finding]:
    if ":" in key:
        yield _error(
            "colon-in-name",
            key.place,
            f"the name '{key}' holds a colon; the value begins only after a colon and a space",
            "put a space behind the first colon, or take the colon out of the name",
        )


def _in_value(value: Written, lines: list[str]) -> Iterator[Finding]:
    place = value.place
    if place.line == place.end_line:
        if not value.exact:
            return
        rest = lines[place.line - 1][place.end_column - 1 :] if place.line <= len(lines) else ""
        comment = re.match(r"(\s+)#(.?)", rest)
        if comment and (len(comment[1].expandtabs()) < 2 or comment[2] not in ("", " ")):
            start = place.end_column + len(comment[1])
            yield _error(
                "comment-cuts-value",
                Place(place.file, place.line, start, place.line, start + 1),
                f"everything from here on is read as a comment, so that the value is '{value}'",
                "put the whole value in quotes; or, if a comment is meant, leave two spaces before the # and one behind it",
            )
    elif _is_plain_start(lines, place):
        yield _error(
            "lines-run-together",
            place,
            f"lines {place.line} to {place.end_line} are read as one value: '{_short(value)}'",
            "if one text is meant, write '>' behind the colon and the text below; "
            "else look for a missing colon or a missing space behind it",
        )


def _is_plain_start(lines: list[str], place: Place) -> bool:
    return lines[place.line - 1][place.column - 1 : place.column] not in ('"', "'", ">", "|")


def _short(value: str) -> str:
    return value if len(value) < 60 else value[:57] + "…"


def _split_numbers(sequence: Sequence) -> Iterator[Finding]:
    for first, second in zip(sequence.items, sequence.items[1:], strict=False):
        if not (isinstance(first, Written) and isinstance(second, Written) and first.exact and second.exact):
            continue
        beside = first.place.line == second.place.line and second.place.column == first.place.end_column + 1
        if beside and first[-1:].isdigit() and second[:1].isdigit():
            yield _error(
                "comma-splits-number",
                Place(
                    first.place.file, first.place.line, first.place.column, second.place.line, second.place.end_column
                ),
                f"'{first},{second}' is read as two values, '{first}' and '{second}'",
                "write the decimals with a point, or put the value in quotes",
            )


def _error(name: str, place: Place, says: str, mend: str) -> Finding:
    return Finding(name, Severity.ERROR, place, says, mend)
