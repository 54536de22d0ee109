"""YAML as located nodes: every scalar kept as text with its place. The one door to PyYAML.

The tree is built from the parser's events, so that depth, count, doubled keys and whatever a pattern has no use for
(anchors, tags, several documents) are refused before anything is made of them.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field

import yaml

from publisher.terms import Finding, Place, Severity, Unusable, Written

DEEPEST = 20
MOST_NODES = 20_000

_Loader: type = getattr(yaml, "CBaseLoader", yaml.BaseLoader)


@dataclass(frozen=True, slots=True)
class Mapping:
    """Keys with their nodes, in order."""

    items: tuple[tuple[Written, "Node"], ...]
    place: Place = field(compare=False)

    def get(self, key: str) -> "Node | None":
        """The node of a key."""
        return next((node for written, node in self.items if written == key), None)


@dataclass(frozen=True, slots=True)
class Sequence:
    """Nodes in order."""

    items: tuple["Node", ...]
    place: Place = field(compare=False)


Node = Mapping | Sequence | Written


def is_nothing(node: Node | None) -> bool:
    """True for a value that was left out: no sign stands where it belongs, not even quotation marks."""
    return isinstance(node, Written) and node == "" and node.place.nowhere


def read_yaml(text: str, file: str) -> tuple[Node | None, tuple[Finding, ...]]:
    """The root node and what was found; None for an empty file or one that is no YAML."""
    found: list[Finding] = []
    try:
        events = _events(text, file)
        node = _Composer(events, file, found).document()
    except Unusable as unusable:
        return None, (*found, unusable.finding)
    return node, tuple(found)


def _events(text: str, file: str) -> Iterator[yaml.Event]:
    try:
        yield from yaml.parse(text, Loader=_Loader)
    except yaml.YAMLError as error:
        raise Unusable(_syntax_finding(error, text, file)) from None


def _place(event: yaml.Event, file: str) -> Place:
    start, end = event.start_mark, event.end_mark
    assert start is not None
    assert end is not None
    return Place(file, start.line + 1, start.column + 1, end.line + 1, end.column + 1)


class _Composer:
    """Builds nodes from events, within bounds; doubled keys are told and the first one kept."""

    def __init__(self, events: Iterator[yaml.Event], file: str, found: list[Finding]) -> None:
        self._events, self._file, self._found = events, file, found
        self._count = 0

    def document(self) -> Node | None:
        """The first document's node."""
        node: Node | None = None
        documents = 0
        for event in self._events:
            if isinstance(event, yaml.DocumentStartEvent):
                documents += 1
                if documents > 1:
                    raise Unusable(
                        _error(
                            "two-documents",
                            _place(event, self._file),
                            "a second document begins here",
                            "take the line of dashes out",
                        )
                    )
            elif not isinstance(event, yaml.StreamStartEvent | yaml.StreamEndEvent | yaml.DocumentEndEvent):
                node = self._node(event, 1)
        return node

    def _node(self, event: yaml.Event, depth: int) -> Node:
        place = _place(event, self._file)
        self._count += 1
        if self._count > MOST_NODES:
            raise Unusable(
                _error("too-much", place, f"more than {MOST_NODES} values", "a pattern is smaller than this")
            )
        if depth > DEEPEST:
            raise Unusable(
                _error(
                    "too-deep",
                    place,
                    f"more than {DEEPEST} levels within one another",
                    "a pattern is flatter than this",
                )
            )
        self._refuse_devices(event, place)
        if isinstance(event, yaml.ScalarEvent):
            exact = not event.style and place.line == place.end_line
            return Written(event.value, place, exact)
        if isinstance(event, yaml.SequenceStartEvent):
            return Sequence(tuple(self._children(depth)), place)
        return self._mapping(place, depth)

    def _children(self, depth: int) -> Iterator[Node]:
        for event in self._events:
            if isinstance(event, yaml.SequenceEndEvent | yaml.MappingEndEvent):
                return
            yield self._node(event, depth + 1)

    def _mapping(self, place: Place, depth: int) -> Mapping:
        items: dict[str, tuple[Written, Node]] = {}
        children = self._children(depth)
        for key in children:
            value = next(children)
            if not isinstance(key, Written):
                self._found.append(
                    _error(
                        "wrong-kind",
                        key.place,
                        "a list or mapping stands where a name belongs",
                        "write the name as plain text",
                    )
                )
            elif key in items:
                first = items[key][0].place
                self._found.append(
                    _error(
                        "doubled-key",
                        key.place,
                        f"'{key}' is written twice; the first stands in line {first.line}",
                        "take one of them out, or rename it",
                    )
                )
            else:
                items[key] = (key, value)
        return Mapping(tuple(items.values()), place)

    def _refuse_devices(self, event: yaml.Event, place: Place) -> None:
        anchor, tag = getattr(event, "anchor", None), getattr(event, "tag", None)
        if isinstance(event, yaml.AliasEvent) or anchor:
            sign = "*" if isinstance(event, yaml.AliasEvent) else "&"
            raise Unusable(
                _error(
                    "yaml-device",
                    place,
                    f"'{sign}{anchor}' is read as a reference to another value",
                    "put the value in quotes, or give the value a measure's name",
                )
            )
        if tag and not (isinstance(event, yaml.ScalarEvent) and event.implicit[1] and tag == "!"):
            raise Unusable(
                _error("yaml-device", place, f"'{tag}' is read as a type of value", "put the value in quotes")
            )


def _error(name: str, place: Place, says: str, mend: str) -> Finding:
    return Finding(name, Severity.ERROR, place, says, mend)


def _syntax_finding(error: yaml.YAMLError, text: str, file: str) -> Finding:
    """The parser's complaint in plain words, at its place."""
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    problem = str(getattr(error, "problem", "") or getattr(error, "reason", "") or error)
    context = str(getattr(error, "context", "") or "")
    lines = text.splitlines() or [""]
    line, column = (mark.line, mark.column) if mark else _odd_sign(text)
    line = min(line, len(lines) - 1)
    written = lines[line]
    says, mend = _plain_words(problem, context, written, column, lines, line)
    place = Place(file, line + 1, column + 1, line + 1, column + 2)
    if "quoted scalar" in context and getattr(error, "context_mark", None):
        start = error.context_mark  # type: ignore[attr-defined]
        place = Place(file, start.line + 1, start.column + 1, start.line + 1, start.column + 2)
    return _error("not-yaml", place, says, mend)


def _odd_sign(text: str) -> tuple[int, int]:
    """The first sign that no text file should hold."""
    for number, line in enumerate(text.splitlines()):
        for column, sign in enumerate(line):
            if not sign.isprintable() and sign != "\t":
                return number, column
    return 0, 0


def _plain_words(problem: str, context: str, written: str, column: int, lines: list[str], line: int) -> tuple[str, str]:
    indent = written[: len(written) - len(written.lstrip())]
    if "\t" in indent or "\\t" in problem or "'\t'" in problem:
        return "a tab; YAML is indented with spaces", "put spaces in its place, two for each level"
    if "quoted scalar" in context:
        return "a quotation mark is opened here and never closed", "close it, or take it out"
    if "mapping values are not allowed" in problem:
        return (
            "a colon stands where no name can end",
            "put the whole value in quotes, or begin a new line for the new name",
        )
    if "could not find expected ':'" in problem or "simple key" in context:
        guilty = written.strip() or lines[max(line - 1, 0)].strip()
        return f"'{guilty}' is neither 'name: value' nor '- item'", "is a space missing behind the colon?"
    if "cannot start any token" in problem or "unknown escape" in problem or "%" in problem:
        return f"no value may begin with '{written[column : column + 1]}'", "put the value in quotes"
    if "did not find expected key" in problem or "block" in context or "block" in problem:
        return (
            "this line does not stand level with those it belongs to",
            "indent it as its neighbours, two spaces for each level",
        )
    if "flow" in context:
        return "a bracket is opened and never closed", "close it, or write one item a line, each behind '- '"
    if "special characters" in problem or "control characters" in problem:
        return "a sign that no text holds", "take it out; it may have come with copied text"
    return f"this is no YAML ({problem})", "look at the signs and the indentation of this line"
