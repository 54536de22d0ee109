"""Cutting layouts that publishing looks for: what is kept, when it is looked for anew, and when never."""

from pathlib import Path

import pytest

from publisher.checks import Proof
from publisher.commands import laying, run
from publisher.commands.laying import Solving, clear_away, solved_layouts
from publisher.commands.proving import prove_folder
from tests.specimens import files

# On 108 cm in rows 400 + 3 + 190 mm: only one of the small ones lies beside the large one. Both do, one behind the other.
PANELS = """\
pieces:
  large:
    rectangle: 70 cm by 40 cm
    allowance: 0
    copies:
      only: canvas
  small:
    rectangle: 30 cm by 20 cm
    allowance: 0
    copies:
      only: canvas
  smaller:
    rectangle: 30 cm by 19 cm
    allowance: 0
    copies:
      only: canvas
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A pattern folder with the panels."""
    write(tmp_path, PANELS)
    return tmp_path


def write(folder: Path, pattern: str) -> None:
    """The pattern's files."""
    for name, content in files(pattern).items():
        (folder / name).write_bytes(content)


def proved(folder: Path) -> Proof:
    """The proof of the folder as it is on disk."""
    proof, findings, _ = prove_folder(folder, "panels")
    assert proof is not None, findings
    return proof


def metric(folder: Path) -> tuple[str, float]:
    """How the metric layout is arranged, and what it takes, mm."""
    (layout,) = proved(folder).cloths[1].layouts
    return layout.arranged_by, round(layout.used_length, 2)


def kept(folder: Path) -> dict[str, bytes]:
    """What is kept."""
    return {path.name: path.read_bytes() for path in sorted((folder / "kept").glob("*"))}


def look(folder: Path, solving: Solving | None = None) -> dict[str, bytes]:
    """What publishing does about layouts; what it found."""
    found = solved_layouts(folder, "panels", proved(folder), solving or Solving())
    clear_away(folder, proved(folder))
    return found


def test_what_was_found_is_kept_and_an_edit_elsewhere_asks_nothing_anew(folder: Path) -> None:
    assert metric(folder) == ("rows", 593)
    assert len(look(folder)) == 2  # a unit system each
    first = kept(folder)
    assert metric(folder) == ("kept", 400)
    renamed = (
        PANELS.replace("small:", "flap:").replace("smaller:", "pocket:").replace("pieces:", "tools:\n  - iron\npieces:")
    )
    write(folder, renamed)
    assert [cloth.unanswered for cloth in proved(folder).cloths] == [(), ()]
    assert look(folder) == {}
    assert kept(folder) == first
    assert metric(folder) == ("kept", 400)


def test_what_is_asked_no_more_is_cleared_away_and_nothing_else(folder: Path) -> None:
    look(folder)
    (folder / "kept" / "pattern.schema.json").write_text("{}")
    first = kept(folder)
    write(folder, PANELS.replace("30 cm by 19 cm", "30 cm by 18 cm"))
    look(folder)
    assert len(kept(folder)) == len(first) == 3
    assert set(kept(folder)) & set(first) == {"pattern.schema.json"}


def test_a_damaged_file_is_ignored_and_looked_for_anew(folder: Path) -> None:
    look(folder)
    first = kept(folder)
    for name in first:
        (folder / "kept" / name).write_bytes(b"[[0, 0")
    assert metric(folder) == ("rows", 593)
    look(folder)
    assert metric(folder) == ("kept", 400)
    assert all(content.endswith(b"]\n") for content in kept(folder).values())


def test_again_keeps_only_what_is_better(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(laying, "AGAIN_SECONDS", 1.0)
    look(folder)
    best = kept(folder)
    assert look(folder, Solving(again=True)) == {}
    assert kept(folder) == best
    question = proved(folder).cloths[1].questions[0]
    # In the order of the question the smaller, the small and the large one, all in a line: it holds, and it is long.
    tall = [shape.box().height for shape in question.shapes]
    worse = f"[[0,0,0,0,0],[1,0,{tall[0] + 3},0,0],[2,0,{tall[0] + tall[1] + 6},0,0]]".encode()
    (folder / "kept" / question.name).write_bytes(worse)
    assert look(folder) == {}  # it is an answer, if a long one
    assert metric(folder) == ("rows", 593)
    assert list(look(folder, Solving(again=True))) == [f"kept/{question.name}"]
    assert metric(folder) == ("kept", 400)


def test_proof_and_no_solving_write_nothing(folder: Path, capfd: pytest.CaptureFixture[str]) -> None:
    before = sorted(path.name for path in folder.rglob("*"))
    run(["proof", str(folder)])
    assert look(folder, Solving(never=True)) == {}
    assert sorted(path.name for path in folder.rglob("*")) == before
    assert "cutting layouts" not in capfd.readouterr().err


def test_again_and_never_are_at_odds(folder: Path, capfd: pytest.CaptureFixture[str]) -> None:
    assert run(["publish", str(folder), "--solve-again", "--no-solving"]) == 2
    assert "--no-solving does not: leave one out" in capfd.readouterr().err


def test_nothing_is_written_through_a_link(folder: Path, tmp_path_factory: pytest.TempPathFactory) -> None:
    elsewhere = tmp_path_factory.mktemp("elsewhere")
    (elsewhere / "cloth-0123456789abcdef.json").write_text("hers")
    (folder / "kept").symlink_to(elsewhere, target_is_directory=True)
    assert len(look(folder)) == 2  # used all the same
    assert [path.read_text() for path in elsewhere.iterdir()] == ["hers"]


def test_a_folder_that_cannot_be_written_to_is_told(folder: Path, capfd: pytest.CaptureFixture[str]) -> None:
    (folder / "kept").write_text("a file stands in the way")
    assert len(look(folder)) == 2
    assert "cutting layouts are not kept there" in capfd.readouterr().err


def test_without_the_solver_rows_stand_and_it_is_said(
    folder: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(laying, "solver_installed", lambda: False)
    assert look(folder) == {}
    assert "cutting layouts stay in rows: the solver is not installed" in capfd.readouterr().err
    assert metric(folder) == ("rows", 593)
