"""A pattern folder read from disk: the files that belong to it, so much of them, and none from elsewhere."""

from pathlib import Path

import pytest

from publisher.source import read_folder, read_source
from publisher.terms import Place
from tests.source.marked import PATTERN, STEPS, told, whole_pattern


@pytest.fixture
def pattern_folder(tmp_path: Path) -> Path:
    """A folder with the two files of a pattern."""
    folder = tmp_path / "pouch"
    folder.mkdir()
    (folder / PATTERN).write_text(whole_pattern(""), "utf-8")
    (folder / STEPS).write_text("1. Sew.\n", "utf-8")
    return folder


def test_what_is_read_of_a_folder(pattern_folder: Path) -> None:
    (pattern_folder / "kept" / "deeper").mkdir(parents=True)
    for name in ("notes.txt", "kept/cloth-1.json", "kept/cloth-2.json", "kept/readme.txt", "kept/deeper/x.json"):
        (pattern_folder / name).write_text(name)
    files, findings = read_folder(pattern_folder)
    assert findings == ()
    assert files == {
        PATTERN: whole_pattern("").encode(),
        STEPS: b"1. Sew.\n",
        "kept/cloth-1.json": b"kept/cloth-1.json",
        "kept/cloth-2.json": b"kept/cloth-2.json",
    }
    source, _ = read_source("pouch", files)
    assert source is not None
    assert source.kept == (("cloth-1.json", b"kept/cloth-1.json"), ("cloth-2.json", b"kept/cloth-2.json"))


def test_a_folder_without_files_and_no_folder_at_all(tmp_path: Path) -> None:
    """That they are missing is told when they are read."""
    assert read_folder(tmp_path) == ({}, ())
    assert read_folder(tmp_path / "elsewhere") == ({}, ())


@pytest.mark.parametrize("name", [PATTERN, STEPS, "kept/cloth.json"])
def test_a_link_out_of_the_folder(pattern_folder: Path, name: str) -> None:
    outside = pattern_folder.parent / "secret.txt"
    outside.write_text("not for print")
    (pattern_folder / "kept").mkdir()
    (pattern_folder / name).unlink(missing_ok=True)
    (pattern_folder / name).symlink_to(outside)
    files, findings = read_folder(pattern_folder)
    assert name not in files
    assert told(findings) == [("outside-folder", Place(name, 1, 1, 1, 2))]
    assert findings[0].says == f"{name} leads out of the pattern folder"
    assert "put the file itself there" in findings[0].mend


def test_a_folder_beside_that_begins_with_the_same_name(pattern_folder: Path) -> None:
    beside = pattern_folder.parent / "pouch two"
    beside.mkdir()
    (beside / STEPS).write_text("not this one")
    (pattern_folder / STEPS).unlink()
    (pattern_folder / STEPS).symlink_to(beside / STEPS)
    files, findings = read_folder(pattern_folder)
    assert STEPS not in files
    assert [finding.name for finding in findings] == ["outside-folder"]


def test_kept_files_of_another_folder(pattern_folder: Path) -> None:
    elsewhere = pattern_folder.parent / "elsewhere"
    elsewhere.mkdir()
    (elsewhere / "cloth.json").write_text("[]")
    (pattern_folder / "kept").symlink_to(elsewhere, target_is_directory=True)
    files, findings = read_folder(pattern_folder)
    assert sorted(files) == [PATTERN, STEPS]
    assert told(findings) == [("outside-folder", Place("kept/cloth.json", 1, 1, 1, 2))]


def test_a_link_within_the_folder_and_a_folder_that_is_a_link(pattern_folder: Path) -> None:
    (pattern_folder / PATTERN).rename(pattern_folder / "draft.yaml")
    (pattern_folder / PATTERN).symlink_to("draft.yaml")
    shelf = pattern_folder.parent / "shelf"
    shelf.symlink_to(pattern_folder, target_is_directory=True)
    for folder in (pattern_folder, shelf):
        files, findings = read_folder(folder)
        assert sorted(files) == [PATTERN, STEPS]
        assert findings == ()


@pytest.mark.parametrize("name", [PATTERN, STEPS, "kept/cloth.json"])
def test_a_link_that_leads_back_to_itself(pattern_folder: Path, name: str) -> None:
    (pattern_folder / "kept").mkdir()
    (pattern_folder / name).unlink(missing_ok=True)
    (pattern_folder / name).symlink_to((pattern_folder / name).name)
    files, findings = read_folder(pattern_folder)
    assert name not in files
    assert told(findings) == [("unreadable-file", Place(name, 1, 1, 1, 2))]
    assert findings[0].says == f"{name} is a link that leads back to itself"
    assert findings[0].mend == "put the file itself there"


def test_a_folder_in_the_place_of_a_file_is_no_file(pattern_folder: Path) -> None:
    (pattern_folder / STEPS).unlink()
    (pattern_folder / STEPS).mkdir()
    files, findings = read_folder(pattern_folder)
    assert (sorted(files), findings) == ([PATTERN], ())


def test_files_that_may_not_be_read(pattern_folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The refusal is played, since who runs the tests may be allowed everything."""

    def refuse(path: Path, *_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied", str(path))

    monkeypatch.setattr(Path, "open", refuse)
    files, findings = read_folder(pattern_folder)
    assert files == {}
    assert told(findings) == [("unreadable-file", Place(name, 1, 1, 1, 2)) for name in (PATTERN, STEPS)]
    assert findings[0].says == "pattern.yaml cannot be read: Permission denied"
    assert "who may read the file" in findings[0].mend


@pytest.mark.parametrize(("name", "most"), [(PATTERN, 1_000_000), (STEPS, 1_000_000), ("kept/cloth.json", 1_000_000)])
def test_no_more_of_a_file_is_read_than_one_byte_too_many(pattern_folder: Path, name: str, most: int) -> None:
    (pattern_folder / "kept").mkdir()
    with (pattern_folder / name).open("wb") as file:
        file.truncate(50_000_000)
    files, _ = read_folder(pattern_folder)
    assert len(files[name]) == most + 1
    too_much = [finding.name for finding in read_source("pouch", files)[1] if finding.name == "too-much"]
    assert too_much == ([] if name.startswith("kept") else ["too-much"])


def test_six_hundred_kept_files_at_most(pattern_folder: Path) -> None:
    (pattern_folder / "kept").mkdir()
    for at in range(605):
        (pattern_folder / "kept" / f"cloth-{at:03}.json").write_text("[]")
    files, findings = read_folder(pattern_folder)
    assert findings == ()
    assert sorted(files)[:600] == [f"kept/cloth-{at:03}.json" for at in range(600)]
    assert len(files) == 602


def test_drawings_are_read(pattern_folder: Path) -> None:
    """Not what lies deeper, nor what is neither drawing nor photograph by its name; who uses them judges what they hold."""
    (pattern_folder / "images" / "old").mkdir(parents=True)
    for name in ("lid.svg", "FLAP.SVG", "photo.jpg", "notes.txt", "old/lid.svg"):
        (pattern_folder / "images" / name).write_text(name)
    files, findings = read_folder(pattern_folder)
    assert findings == ()
    assert sorted(files) == ["images/FLAP.SVG", "images/lid.svg", "images/photo.jpg", PATTERN, STEPS]
    source, _ = read_source("pouch", files)
    assert source is not None
    assert source.drawings == (("images/FLAP.SVG", b"FLAP.SVG"), ("images/lid.svg", b"lid.svg"))
    assert source.pictures == (("images/photo.jpg", b"photo.jpg"),)


def test_drawings_of_another_folder(pattern_folder: Path) -> None:
    elsewhere = pattern_folder.parent / "elsewhere"
    elsewhere.mkdir()
    (elsewhere / "lid.svg").write_text("<svg/>")
    (pattern_folder / "images").symlink_to(elsewhere, target_is_directory=True)
    files, findings = read_folder(pattern_folder)
    assert sorted(files) == [PATTERN, STEPS]
    assert told(findings) == [("outside-folder", Place("images/lid.svg", 1, 1, 1, 2))]


def test_drawings_are_bounded(pattern_folder: Path) -> None:
    (pattern_folder / "images").mkdir()
    for at in range(53):
        (pattern_folder / "images" / f"{at:02}.svg").write_text("<svg/>")
    with (pattern_folder / "images" / "00.svg").open("wb") as file:
        file.truncate(50_000_000)
    files, findings = read_folder(pattern_folder)
    assert len(files) == 52
    assert len(files["images/00.svg"]) == 2_000_001
    assert told(findings) == [("too-much", Place("images/50.svg", 1, 1, 1, 2))]
    assert findings[0].says == "images/ holds 53 drawings, more than 50"
