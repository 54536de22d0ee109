"""The tables of the parser, kept beside the byte code: made anew when they cannot be read, and nowhere else kept."""

import sys
from collections.abc import Iterator
from importlib.resources import files
from pathlib import Path

import pytest

from publisher.measures import grammar
from publisher.terms import Place, Written

GRAMMAR = files("publisher.measures").joinpath("expressions.lark")


@pytest.fixture
def kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    file = tmp_path / "expressions.tables"
    monkeypatch.setattr(grammar, "_tables_of", lambda _: str(file))
    grammar._parser.cache_clear()
    yield file
    grammar._parser.cache_clear()


def _parsed() -> grammar.Parsed:
    grammar._parser.cache_clear()
    return grammar.parse(Written("2 * (width + 1/2 in)", Place("pattern.yaml", 1, 1, 1, 21)), "formula")


def test_kept_tables_read_as_new_ones_do(kept: Path) -> None:
    first = _parsed()
    written = kept.read_bytes()
    assert _parsed() == first
    assert kept.read_bytes() == written


def test_tables_that_cannot_be_read_are_made_anew(kept: Path) -> None:
    first = _parsed()
    whole = kept.read_bytes()
    for broken in (b"", b"no tables", whole[: len(whole) // 2]):
        kept.write_bytes(broken)
        assert _parsed() == first
        assert len(kept.read_bytes()) > len(whole) / 2


def test_no_place_to_keep_them_is_no_harm(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(grammar, "_tables_of", lambda _: str(tmp_path / "missing" / "expressions.tables"))
    assert _parsed().data
    grammar._parser.cache_clear()


def test_they_lie_beside_the_byte_code_and_only_where_that_is_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "dont_write_bytecode", False)
    monkeypatch.setattr(sys, "pycache_prefix", None)
    assert str(grammar._tables_of(GRAMMAR)).startswith(str(Path(grammar.__file__).parent / "__pycache__"))
    monkeypatch.setattr(sys, "dont_write_bytecode", True)
    assert grammar._tables_of(GRAMMAR) is False
