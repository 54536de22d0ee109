"""The command line as a maker meets it: what is written, what is told, how it ends."""

import json
import os
import shutil
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest

from publisher.commands import run
from publisher.edition import Request
from tests.demo import CONTENT, DEMO


@pytest.fixture
def workshop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with the demo in content/, stood in."""
    shutil.copytree(CONTENT / DEMO, tmp_path / "content" / DEMO)
    monkeypatch.chdir(tmp_path)
    return tmp_path


def _edit(workshop: Path, old: str, new: str, file: str = "pattern.yaml") -> None:
    path = workshop / "content" / DEMO / file
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), "utf-8")


def _contents(folder: Path) -> Mapping[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir()} if folder.is_dir() else {}


def test_publish_writes_the_default_editions(workshop: Path, capfd: pytest.CaptureFixture[str]) -> None:
    before = {path: path.read_bytes() for path in (workshop / "content").rglob("*") if path.is_file()}
    assert run(["publish"]) == 0
    written = _contents(workshop / "build" / DEMO)
    assert sorted(written) == ["computed.json", f"{DEMO}-inch-letter.pdf", f"{DEMO}-metric-a4.pdf"]
    assert all(content.startswith(b"%PDF-1.7") for name, content in written.items() if name.endswith(".pdf"))
    out, err = capfd.readouterr()
    assert [line.split(":")[0] for line in out.splitlines()] == [
        f"build/{DEMO}/{DEMO}-inch-letter.pdf",
        f"build/{DEMO}/{DEMO}-metric-a4.pdf",
    ]
    assert err == ""
    assert before == {path: path.read_bytes() for path in (workshop / "content").rglob("*") if path.is_file()}


def test_editions_elsewhere_and_carried_over(workshop: Path, capfd: pytest.CaptureFixture[str]) -> None:
    assert run(["publish", DEMO, "--edition", "metric-letter", "--edition", "inch-a4", "--into", "out"]) == 0
    assert sorted(_contents(workshop / "out" / DEMO)) == [
        "computed.json",
        f"{DEMO}-inch-a4.pdf",
        f"{DEMO}-metric-letter.pdf",
    ]
    first = _contents(workshop / "out" / DEMO)
    capfd.readouterr()
    assert run(["publish", f"content/{DEMO}", "--edition", "metric-letter", "--into", "out"]) == 0
    assert _contents(workshop / "out" / DEMO) == first
    assert "earlier state" not in capfd.readouterr().out


def test_an_edition_of_an_earlier_state_is_told(workshop: Path, capfd: pytest.CaptureFixture[str]) -> None:
    assert run(["publish", DEMO]) == 0
    _edit(workshop, "turning gap:     3 1/2 in | 9 cm", "turning gap:     3 1/4 in | 8 cm")
    capfd.readouterr()
    assert run(["publish", DEMO, "--edition", "metric-a4"]) == 0
    out = capfd.readouterr().out
    assert f"{DEMO}-inch-letter.pdf: kept as it was; it shows an earlier state" in out
    record = json.loads((workshop / "build" / DEMO / "computed.json").read_text("utf-8"))
    assert sorted(record["editions"]) == ["inch-letter", "metric-a4"]


def _record(workshop: Path) -> dict[str, Any]:
    record: dict[str, Any] = json.loads((workshop / "build" / DEMO / "computed.json").read_text("utf-8"))
    return record


def test_pages_asked_for_are_added_and_recorded(workshop: Path, capfd: pytest.CaptureFixture[str]) -> None:
    metric = ["publish", DEMO, "--edition", "metric-a4"]
    assert run(metric) == 0
    plain = _record(workshop)["editions"]["metric-a4"]
    assert plain["with"] == []
    labels = ["--with", "pin-on-labels"]
    assert run([*metric, *labels, "--with", "drafting-page", *labels]) == 0
    asked = _record(workshop)["editions"]["metric-a4"]
    assert asked["with"] == ["drafting-page", "pin-on-labels"]
    assert asked["pages"] == plain["pages"] + 3
    assert asked["made of"] != plain["made of"]
    assert asked["template pages"] == plain["template pages"]
    assert capfd.readouterr().err == ""


def test_an_edition_with_pages_asked_for_is_carried_over_as_it_was_asked_for(
    workshop: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    assert run(["publish", DEMO, "--edition", "metric-a4", "--with", "pin-on-labels"]) == 0
    assert run(["publish", DEMO, "--edition", "inch-letter"]) == 0
    assert "earlier state" not in capfd.readouterr().out
    editions = _record(workshop)["editions"]
    assert {name: edition["with"] for name, edition in editions.items()} == {
        "inch-letter": [],
        "metric-a4": ["pin-on-labels"],
    }


def test_nothing_to_show_is_advice_on_standard_error(workshop: Path, capfd: pytest.CaptureFixture[str]) -> None:
    assert run(["new", "plover-cup-mat"]) == 0
    path = workshop / "content" / "plover-cup-mat" / "pattern.yaml"
    assert "\n    rectangle:" not in path.read_text("utf-8")
    capfd.readouterr()
    assert run(["publish", "plover-cup-mat", "--with", "pin-on-labels"]) == 0
    out, err = capfd.readouterr()
    assert err.count("advice: no piece of this pattern is cut by measure") == 1
    assert "[nothing-to-label]" in err
    assert len(out.splitlines()) == 2


def test_help_names_all_pages_that_can_be_asked_for(capfd: pytest.CaptureFixture[str]) -> None:
    assert run(["publish", "--help"]) == 0
    told = capfd.readouterr().out
    assert all(f"--with {request.value}" in told for request in Request)


def test_errors_leave_the_last_good_output(workshop: Path, capfd: pytest.CaptureFixture[str]) -> None:
    assert run(["publish"]) == 0
    good = _contents(workshop / "build" / DEMO)
    _edit(workshop, "flap length - depth - snap inset", "flap lenght - depth - snap inset")
    _edit(workshop, "kind: interfacing", "kidn: interfacing")
    _edit(workshop, "Does: sew base seam", "Does: sew bass seam", "steps.md")
    capfd.readouterr()
    assert run(["publish"]) == 1
    out, err = capfd.readouterr()
    assert out == ""
    assert _contents(workshop / "build" / DEMO) == good
    text = (workshop / "content" / DEMO / "pattern.yaml").read_text("utf-8")
    line = text[: text.index("flap lenght")].count("\n") + 1
    column = len("  snap drop:       ") + 1
    assert f"content/{DEMO}/pattern.yaml:{line}:{column}: error: no measure called 'flap lenght' [no-such-name]" in err
    assert "    mend: did you mean 'flap length'?" in err
    assert "    " + " " * (column - 1) + "^" + "~" * (len("flap lenght") - 1) in err.splitlines()
    assert "no 'kidn' can stand here" in err
    assert "did you mean 'kind'?" in err
    assert f"content/{DEMO}/steps.md:" in err
    assert "did you mean 'base seam'?" in err
    assert "nothing was written" in err


def test_one_bad_pattern_stops_no_other(workshop: Path, capfd: pytest.CaptureFixture[str]) -> None:
    (workshop / "content" / "a-bad-one").mkdir()
    (workshop / "content" / "a-bad-one" / "pattern.yaml").write_text("title: [", "utf-8")
    assert run(["publish", "--edition", "inch-letter"]) == 1
    out, err = capfd.readouterr()
    assert f"build/{DEMO}/{DEMO}-inch-letter.pdf" in out
    assert "a-bad-one/pattern.yaml:1" in err
    assert "a-bad-one/steps.md:1:1: error: the pattern folder has no steps.md [missing-file]" in err


def test_proof_tells_a_summary(workshop: Path, capfd: pytest.CaptureFixture[str]) -> None:
    assert run(["proof", DEMO]) == 0
    assert capfd.readouterr().out == f"{DEMO}: nothing to mend\n"
    _edit(workshop, "depth:           2 in | 5 cm", "depth:           2 in | 6 cm")
    assert run(["proof", DEMO, "--plain"]) == 0
    out, err = capfd.readouterr()
    assert "warning" in out
    assert all(line.startswith(f"content/{DEMO}/pattern.yaml:") for line in err.splitlines())
    assert not (workshop / "build").exists()


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["publish", "sanderling-lined-puch"], f"did you mean '{DEMO}'?"),
        (["publish", "sanderlin"], f"did you mean '{DEMO}'?"),
        (["proof", "Sand"], f"did you mean '{DEMO}'?"),
        (["publish", DEMO, "--edition", "inch-a5"], "no edition called 'inch-a5': did you mean 'inch-a4'?"),
        (["publish", DEMO, "--edition", "inch-a4", "--edition", "metric"], "did you mean 'metric-a4'?"),
        (["publish", DEMO, "--edition", "xyz"], "known here: 'inch-letter', 'inch-a4', 'metric-letter', 'metric-a4'"),
        (["publish", DEMO, "--with", "pin-lables"], "no pages called 'pin-lables': did you mean 'pin-on-labels'?"),
        (["publish", DEMO, "--with", "pin-on-labels", "--with", "xyz"], "known here: 'drafting-page', 'pin-on-labels'"),
        (["proof"], "Missing argument"),
        (["pubish"], "No such command 'pubish'"),
        (["new", "Plover Book"], "small letters, digits and hyphens"),
        (["new", "../plover"], "small letters, digits and hyphens"),
        (["new", DEMO], "is there already; nothing was written"),
    ],
)
def test_wrong_use_ends_with_2(
    workshop: Path, arguments: list[str], words: str, capfd: pytest.CaptureFixture[str]
) -> None:
    assert run(arguments) == 2
    out, err = capfd.readouterr()
    assert out == ""
    assert words in err
    assert "Traceback" not in err
    assert (workshop / "content" / DEMO / "pattern.yaml").is_file()


def test_new_makes_a_pattern_that_publishes_as_it_is(workshop: Path, capfd: pytest.CaptureFixture[str]) -> None:
    assert run(["new", "plover-cup-mat"]) == 0
    assert sorted(path.name for path in (workshop / "content" / "plover-cup-mat").iterdir()) == [
        "kept",
        "pattern.yaml",
        "steps.md",
    ]
    assert "title: Plover cup mat\n" in (workshop / "content" / "plover-cup-mat" / "pattern.yaml").read_text("utf-8")
    capfd.readouterr()
    assert run(["publish", "plover-cup-mat"]) == 0
    assert capfd.readouterr().err == ""
    assert (workshop / "build" / "plover-cup-mat" / "plover-cup-mat-metric-a4.pdf").is_file()


def test_foreign_files_are_refused(workshop: Path, capfd: pytest.CaptureFixture[str]) -> None:
    (workshop / "build" / DEMO).mkdir(parents=True)
    (workshop / "build" / DEMO / "notes.txt").write_text("mine")
    assert run(["publish"]) == 1
    assert "notes.txt" in capfd.readouterr().err
    assert _contents(workshop / "build" / DEMO) == {"notes.txt": b"mine"}


def test_an_unknown_language_is_told(workshop: Path, capfd: pytest.CaptureFixture[str]) -> None:
    _edit(workshop, "level: confident beginner", "level: confident beginner\nlanguage: xx")
    assert run(["publish"]) == 1
    assert "no words for the language 'xx'" in capfd.readouterr().err


def test_a_mistake_of_our_own_is_one_plain_line(
    workshop: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.delenv("PUBLISHER_TRACEBACK", raising=False)
    monkeypatch.setattr(sys.modules["publisher.commands.publish"], "prove_folder", lambda *_: 1 / 0)
    assert run(["publish"]) == 3
    out, err = capfd.readouterr()
    assert out == ""
    assert err.count("\n") == 1
    assert "a mistake of its own (ZeroDivisionError" in err


def test_missing_pango_says_what_to_install(workshop: Path) -> None:
    """The library is made to fail as it does where Pango is missing: with a banner on standard output and an OSError."""
    stand_in = workshop / "stand-in" / "weasyprint"
    stand_in.mkdir(parents=True)
    (stand_in / "__init__.py").write_text(
        "print('-----banner-----')\nraise OSError('cannot load library libpango-1.0-0')\n"
    )
    path = os.pathsep.join([str(workshop / "stand-in"), str(CONTENT.parent)])
    done = subprocess.run(
        [sys.executable, "-m", "publisher", "publish"],
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, "PYTHONPATH": path},
    )
    assert done.returncode == 2
    assert "banner" not in done.stdout + done.stderr
    for system in ("Debian", "Fedora", "macOS", "Windows"):
        assert system in done.stderr
    assert "libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0" in done.stderr
    assert not (workshop / "build" / DEMO).exists()


def test_without_harfbuzz_subset_there_is_a_warning(
    workshop: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("publisher.edition.printing._has_harfbuzz_subset", lambda: False)
    assert run(["publish", "--edition", "inch-letter"]) == 0
    err = capfd.readouterr().err
    assert "warning: the library harfbuzz-subset is missing" in err
    assert "libharfbuzz-subset0" in err


def test_help_shows_an_example(capfd: pytest.CaptureFixture[str]) -> None:
    for arguments in (["--help"], ["publish", "--help"], ["proof", "--help"], ["new", "--help"]):
        assert run(arguments) == 0
        assert "publisher " in capfd.readouterr().out
