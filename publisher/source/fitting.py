"""A located node fitted to a shape, and what does not fit told in plain words at its place."""

from collections.abc import Iterable
from typing import Any, TypeVar

from pydantic import ValidationError

from publisher.source.shapes import Shape
from publisher.source.yaml_nodes import Mapping, Node, Sequence, is_nothing
from publisher.terms import Finding, Place, Severity, Written, did_you_mean

AnyShape = TypeVar("AnyShape", bound=Shape)

_WANTED = {
    "text_wanted": ("one value", "write it behind the colon, on the same line"),
    "dict_type": ("names with values", "write them below, indented, one 'name: value' a line"),
    "model_type": ("names with values", "write them below, indented, one 'name: value' a line"),
    "model_attributes_type": ("names with values", "write them below, indented, one 'name: value' a line"),
    "list_type": ("a list", "write its items below, one a line, each behind '- '"),
}


def plain(node: Node) -> Any:
    """The node as dicts, lists and Written texts."""
    if isinstance(node, Mapping):
        return {key: plain(value) for key, value in node.items}
    if isinstance(node, Sequence):
        return [plain(item) for item in node.items]
    return node


def fit(shape: type[AnyShape], node: Node, name: Written | None, found: list[Finding]) -> AnyShape | None:
    """The node as a shape, or None after telling what does not fit.

    What one key gets wrong does not hide the rest: wrong keys are told and taken out. None where they are needed.
    """
    wrong, data = _wrong_keys(shape, node, name, found)
    if not wrong:
        return shape.model_validate(data)
    needed = {field.alias for field in shape.model_fields.values() if field.is_required()}
    return None if needed & wrong or not isinstance(data, dict) else shape.model_validate(data)


def fit_whole(
    shape: type[AnyShape], node: Mapping, stand_ins: dict[Written, Any], found: list[Finding]
) -> tuple[AnyShape, frozenset[str]]:
    """The whole file as a shape, and which of its keys lack or are wrong, so that all else is read none the less.

    `stand_ins` are values for the keys that the shape cannot do without.
    """
    wrong, data = _wrong_keys(shape, node, None, found)
    return shape.model_validate({key: value for key, value in stand_ins.items() if key in wrong} | data), wrong


def _wrong_keys(
    shape: type[AnyShape], node: Node, name: Written | None, found: list[Finding]
) -> tuple[frozenset[str], Any]:
    """The keys that do not fit, which are told, and the data without them; the empty key where all of it is wrong."""
    data = plain(node)
    try:
        shape.model_validate(data)
    except ValidationError as misfit:
        errors = misfit.errors(include_url=False, include_context=False, include_input=False)
        found.extend(_tell(shape, node, name, errors))
        wrong = frozenset(str(error["loc"][0]) if error["loc"] else "" for error in errors)
        return wrong, {key: data[key] for key in data if key not in wrong} if isinstance(data, dict) else data
    return frozenset(), data


def _tell(shape: type[Shape], node: Node, name: Written | None, errors: Iterable[Any]) -> Iterable[Finding]:
    for error in errors:
        loc = tuple(str(part) for part in error["loc"] if part != "[key]")
        guilty, key = _find(node, loc)
        place = (
            key.place if key is not None and error["type"] in ("extra_forbidden",) else _place(guilty, key, name, node)
        )
        if error["type"] == "extra_forbidden":
            known = [field.alias or field_name for field_name, field in shape.model_fields.items()]
            yield _error("unknown-key", place, f"no '{loc[-1]}' can stand here", did_you_mean(loc[-1], known))
        elif error["type"] == "missing":
            told = f"'{name}' lacks" if name is not None else "the pattern lacks"
            yield _error(
                "missing-key",
                name.place if name is not None else Place(place.file, 1, 1, 1, 2),
                f"{told} '{loc[-1]}'",
                f"add a line '{loc[-1]}: …'",
            )
        elif error["type"] in ("too_short", "too_long"):
            yield _error(
                "wrong-kind",
                place,
                f"'{loc[-1]}' lists {_count(guilty)}, and it takes two",
                "list the two sides, each behind '- '",
            )
        elif not is_nothing(guilty):  # an empty value has been told as one
            wanted, mend = _WANTED.get(
                error["type"], ("something else", "look at the pattern that 'publisher new' makes")
            )
            what = f"'{loc[-1]}' is " if loc else ""
            yield _error("wrong-kind", place, f"{what}{_kind(guilty)}; {wanted} belongs here", mend)


def _count(node: Node | None) -> str:
    size = len(node.items) if isinstance(node, Sequence) else 0
    return "one" if size == 1 else str(size)


def _kind(node: Node | None) -> str:
    if isinstance(node, Mapping):
        return "a group of names with values"
    if isinstance(node, Sequence):
        return "a list"
    return f"the text '{node}'" if node else "empty"


def _find(node: Node, loc: tuple[str, ...]) -> tuple[Node | None, Written | None]:
    """The node at a path of keys and numbers, and the last key on the way."""
    at: Node | None = node
    last: Written | None = None
    for part in loc:
        if isinstance(at, Mapping):
            last = next((key for key, _ in at.items if key == part), last)
            at = at.get(part)
        elif isinstance(at, Sequence) and part.isdigit() and int(part) < len(at.items):
            at = at.items[int(part)]
    return at, last


def _place(guilty: Node | None, key: Written | None, name: Written | None, node: Node) -> Place:
    """Where the value stands; a group or list begins at its key, where the eye looks for it."""
    if isinstance(guilty, Written):
        return guilty.place
    if key is not None:
        return key.place
    return name.place if name is not None else node.place


def _error(name: str, place: Place, says: str, mend: str) -> Finding:
    return Finding(name, Severity.ERROR, place, says, mend)
