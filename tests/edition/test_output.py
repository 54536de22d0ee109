"""The output folder is exchanged whole, mended after a run that was ended, and never takes foreign files along."""

import json
from pathlib import Path

import pytest

from publisher.edition import ForeignFiles, exchange_output, foreign_files
from publisher.edition import output as output_module


def _files(**contents: bytes) -> dict[str, bytes]:
    files = {name.replace("_", "."): content for name, content in contents.items()}
    return {**files, "computed.json": json.dumps({"files": sorted(files)}).encode()}


def _names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_a_folder_is_made_and_replaced(tmp_path: Path) -> None:
    exchange_output(tmp_path / "build", "pouch", _files(one_pdf=b"1", two_pdf=b"2"))
    target = exchange_output(tmp_path / "build", "pouch", _files(one_pdf=b"new"))
    assert _names(target) == ["computed.json", "one.pdf"]
    assert (target / "one.pdf").read_bytes() == b"new"
    assert _names(tmp_path / "build") == ["pouch"]


def test_without_a_swap_of_the_system(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(output_module, "_swapper", lambda: None)
    exchange_output(tmp_path, "pouch", _files(one_pdf=b"1"))
    exchange_output(tmp_path, "pouch", _files(one_pdf=b"2"))
    assert (tmp_path / "pouch" / "one.pdf").read_bytes() == b"2"
    assert _names(tmp_path) == ["pouch"]


@pytest.mark.parametrize("step", ["write_bytes", "rename", "rmtree"])
def test_a_run_that_ends_in_between_leaves_one_whole_state(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, step: str
) -> None:
    monkeypatch.setattr(output_module, "_swapper", lambda: None)
    exchange_output(tmp_path, "pouch", _files(one_pdf=b"old", two_pdf=b"old"))

    class Ended(BaseException):
        """As when the process is killed."""

    def end(*_: object, **__: object) -> None:
        raise Ended

    with monkeypatch.context() as ended:
        if step == "rmtree":
            ended.setattr(output_module.shutil, "rmtree", end)
        else:
            ended.setattr(Path, step, end)
        with pytest.raises(Ended):
            exchange_output(tmp_path, "pouch", _files(one_pdf=b"new", two_pdf=b"new"))
    # Nobody reads before the next command has mended what is left.
    exchange_output(tmp_path, "tidy", _files(one_pdf=b"x"))
    output_module.mend(tmp_path / "pouch", tmp_path / ".pouch.new", tmp_path / ".pouch.old")
    contents = {(tmp_path / "pouch" / name).read_bytes() for name in ("one.pdf", "two.pdf")}
    assert contents in ({b"old"}, {b"new"})
    exchange_output(tmp_path, "pouch", _files(one_pdf=b"newest"))
    assert _names(tmp_path) == ["pouch", "tidy"]


def test_between_two_renames_the_old_state_comes_back(tmp_path: Path) -> None:
    exchange_output(tmp_path, "pouch", _files(one_pdf=b"old"))
    (tmp_path / "pouch").rename(tmp_path / ".pouch.old")
    (tmp_path / ".pouch.new").mkdir()
    output_module.mend(tmp_path / "pouch", tmp_path / ".pouch.new", tmp_path / ".pouch.old")
    assert _names(tmp_path) == ["pouch"]
    assert (tmp_path / "pouch" / "one.pdf").read_bytes() == b"old"


def test_foreign_files_are_left_alone(tmp_path: Path) -> None:
    target = exchange_output(tmp_path, "pouch", _files(one_pdf=b"1"))
    (target / "notes.txt").write_text("mine")
    assert foreign_files(target) == ("notes.txt",)
    with pytest.raises(ForeignFiles, match=r"notes\.txt"):
        exchange_output(tmp_path, "pouch", _files(one_pdf=b"2"))
    assert (target / "one.pdf").read_bytes() == b"1"
    assert (target / "notes.txt").read_text() == "mine"


def test_a_folder_without_a_record_is_foreign(tmp_path: Path) -> None:
    (tmp_path / "pouch").mkdir()
    (tmp_path / "pouch" / "thesis.pdf").write_bytes(b"mine")
    with pytest.raises(ForeignFiles):
        exchange_output(tmp_path, "pouch", _files(one_pdf=b"2"))
