"""YAML as located nodes: every scalar kept as text with its place. The one door to PyYAML.

The tree is built from the parser's events, so that depth, count, doubled keys and whatever a pattern has no use for
(anchors, tags, several documents) are refused before anything is made of them.
"""

from collections.abc import Iterator
from dataclasses import field
from typing import Any

import yaml

from publisher.frozen import dataclass
from publisher.source.yaml_words import Complaint, Spot, in_plain_words
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
    last: yaml.Event | None = None
    try:
        for event in yaml.parse(text, Loader=_Loader):
            last = event
            yield event
    except yaml.YAMLError as error:
        raise Unusable(in_plain_words(_complaint(error, last), text, file)) from None


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


def _complaint(error: yaml.YAMLError, last: yaml.Event | None) -> Complaint:
    character = getattr(error, "character", None)
    return Complaint(
        problem=str(getattr(error, "problem", "") or getattr(error, "reason", "") or error),
        context=str(getattr(error, "context", "") or ""),
        at=_spot(getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)),
        since=_spot(getattr(error, "context_mark", None)),
        quoted=_quoted(last),
        odd=chr(character) if isinstance(character, int) else character,
    )


def _spot(mark: Any) -> Spot | None:
    return None if mark is None else (mark.line, mark.column)


def _quoted(event: yaml.Event | None) -> tuple[Spot, Spot] | None:
    """Where a value in quotation marks begins and ends."""
    if not isinstance(event, yaml.ScalarEvent) or event.style not in ("'", '"'):
        return None
    start, end = _spot(event.start_mark), _spot(event.end_mark)
    return None if start is None or end is None else (start, end)
