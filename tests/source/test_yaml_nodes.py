"""YAML kept as it was written: text, order and place of every node."""

import pytest

from publisher.source.yaml_nodes import Mapping, Node, Sequence, read_yaml
from publisher.terms import Written
from tests.source.marked import PATTERN, marked


def _node(text: str) -> Node | None:
    node, findings = read_yaml(text, PATTERN)
    assert findings == ()
    return node


def _value(text: str) -> Written:
    """What stands behind the one key of a text."""
    node = _node(text)
    assert isinstance(node, Mapping)
    ((_, value),) = node.items
    assert isinstance(value, Written)
    return value


@pytest.mark.parametrize(
    "value", ["1.0", "1_000", "0x10", "yes", "no", "null", "~", "2026-05-31", "1e3", ".5", "14:20"]
)
def test_every_value_stays_the_text_that_was_written(value: str) -> None:
    assert _value(f"revision: {value}") == value


@pytest.mark.parametrize(
    ("text", "value", "exact"),
    [
        ("title: «Pouch»", "Pouch", True),
        ("title:   «Small  pouch»   ", "Small  pouch", True),
        ("title: «Pouch»  # comment", "Pouch", True),
        ("title: «Mé 🧵 ½»", "Mé 🧵 ½", True),
        ("title:\n  «Pouch»", "Pouch", True),
        ("title:«» ", "", True),
        ('title: «"Pouch"»', "Pouch", False),
        ("title: «'it''s'»", "it's", False),
        ('title: «"a\\tb"»', "a\tb", False),
        ('title: «"Small\n  pouch"»', "Small pouch", False),
        ("title: «Small\n  pouch»", "Small pouch", False),
        ("title: «>\n  Small\n  pouch\n»", "Small pouch\n", False),
        ("title: «|\n  Small\n  pouch\n»", "Small\npouch\n", False),
        ("{title: «Pouch»}", "Pouch", True),
    ],
)
def test_a_value_and_its_place(text: str, value: str, exact: bool) -> None:
    plain, (place,) = marked(text, PATTERN)
    written = _value(plain)
    assert (written, written.place, written.exact) == (value, place, exact)


def test_groups_and_lists_keep_their_order() -> None:
    node = _node("pieces:\n  tip: 1\n  base: 2\n  arm:\n    - c\n    - a\n    - b\n")
    assert isinstance(node, Mapping)
    pieces = node.get("pieces")
    assert isinstance(pieces, Mapping)
    assert [key for key, _ in pieces.items] == ["tip", "base", "arm"]
    arm = pieces.get("arm")
    assert isinstance(arm, Sequence)
    assert arm.items == ("c", "a", "b")
    assert pieces.get("leg") is None


def test_keys_have_places_too() -> None:
    plain, places = marked("«title»: Pouch\n«'it''s'»: b\n«joint edges»: {«around»: [a]}\n", PATTERN)
    node = _node(plain)
    assert isinstance(node, Mapping)
    keys = [key for key, _ in node.items]
    inner = node.get("joint edges")
    assert isinstance(inner, Mapping)
    keys += [key for key, _ in inner.items]
    assert keys == ["title", "it's", "joint edges", "around"]
    assert [key.place for key in keys] == places


def test_of_a_doubled_key_the_first_is_kept() -> None:
    node, (finding,) = read_yaml("a: 1\nb: 2\na: 3\n", PATTERN)
    assert finding.name == "doubled-key"
    assert isinstance(node, Mapping)
    assert node.items == (("a", "1"), ("b", "2"))


@pytest.mark.parametrize("text", ["", "\n\n", "# only a comment\n", "  \n"])
def test_a_file_of_nothing_has_no_node(text: str) -> None:
    assert _node(text) is None


def test_a_place_takes_part_in_no_comparison() -> None:
    assert _node("a:\n  - 1\n") == _node("# a line more\n\na:\n    - 1\n")
