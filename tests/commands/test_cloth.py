"""`publisher cloth` as it is met on the command line, and `publish --make`."""

import json
import re
import shutil
from pathlib import Path

import pytest

from publisher.cloth import solver_installed
from publisher.commands import run
from tests.demo import CONTENT, DEMO

GRADED = "avocet-sun-hat"
TIED = "turnstone-tool-roll"


@pytest.fixture
def workshop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with three demos in content/, stood in."""
    for demo in (DEMO, GRADED, TIED):
        shutil.copytree(CONTENT / demo, tmp_path / "content" / demo)
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_what_to_buy_of_each_material_in_each_width(workshop: Path, capfd: pytest.CaptureFixture[str]) -> None:
    assert run(["cloth", DEMO]) == 0
    out, err = capfd.readouterr()
    assert err == ""
    assert [line.split()[0] for line in out.splitlines()] == [
        DEMO,
        *("inch", "canvas", "canvas", "cotton", "interfacing", "snap", "thread"),
        *("metric", "canvas", "canvas", "cotton", "interfacing", "snap", "thread"),
    ]
    assert re.search(r"^  cotton +42 in wide +1/4 yd +needs 8 in +by a kept layout\b", out, re.MULTILINE)
    assert run(["cloth", DEMO, "--material", "cotton", "--units", "metric"]) == 0
    assert capfd.readouterr().out.splitlines()[1:] == [
        "metric",
        "  cotton   110 cm wide   20 cm   needs 20 cm   by a kept layout, the cloth folded",
    ]


def test_a_smaller_cut_with_more_joins(workshop: Path, capfd: pytest.CaptureFixture[str]) -> None:
    assert run(["cloth", TIED, "--material", "canvas", "--units", "metric"]) == 0
    assert "150 cm wide   70 cm   needs 62.3 cm   in rows, 60 cm with 'tie' of 2 strips\n" in capfd.readouterr().out
    assert run(["cloth", TIED, "--material", "canvas", "--units", "metric", "--json"]) == 0
    ((_, wide),) = (one["ways"] for one in json.loads(capfd.readouterr().out)["variants"][0]["materials"])
    assert (wide["buy"], wide["buy with strips pieced further"], wide["strips"]) == (700, 600, {"tie": 2})


def test_for_twelve(workshop: Path, capfd: pytest.CaptureFixture[str]) -> None:
    assert run(["cloth", DEMO, "--make", "12", "--json"]) == 0
    twelve = json.loads(capfd.readouterr().out)
    assert run(["cloth", DEMO, "--json"]) == 0
    one = json.loads(capfd.readouterr().out)
    assert (twelve["make"], one["make"]) == (12, 1)
    assert [notion["count"] for notion in twelve["variants"][0]["notions"]] == [12, None]  # snaps, and thread
    for many, single in zip(twelve["variants"], one["variants"], strict=True):
        for ways, alone in zip(many["materials"], single["materials"], strict=True):
            for way, once in zip(ways["ways"], alone["ways"], strict=True):
                assert once["used"] * 2 < way["used"] <= once["used"] * 12 + 11 * 3.2


def test_yes_with_where_each_piece_lies(workshop: Path, capfd: pytest.CaptureFixture[str]) -> None:
    assert run(["cloth", DEMO, "--have", "canvas: 1/4 yd of 42 in", "--have", "cotton: 9 in of 42 in wide"]) == 0
    out, err = capfd.readouterr()
    assert err == ""
    assert "canvas, inch: yes, from 9 in of 42 in\n" in out
    assert "cotton, inch: yes, from 9 in of 42 in\n" in out
    assert "metric" not in out
    # 42 in, less 4%, less the selvages, are 39.3 in: the loop ends at 29 1/8 in, behind the flap and the two halves of the
    # body, each 9 1/4 in and a gap of 1/8 in.
    assert "  body back      9 3/8 in        0 in           9 1/4 in   6 3/4 in\n" in out


def test_no_with_what_finds_no_room_and_how_much_is_missing(workshop: Path, capfd: pytest.CaptureFixture[str]) -> None:
    assert run(["cloth", DEMO, "--material", "canvas", "--have", "19 cm of 110 cm"]) == 1
    lines = capfd.readouterr().out.splitlines()
    # 17 + 2.5 cm and 4% shrinkage make 20.3 cm.
    assert lines[1:] == [
        "canvas, metric: no, not from 19 cm of 110 cm; these find no room:",
        "  1 ×   body front   23.5 cm across, 17 cm along",
        "  1 ×   body back    23.5 cm across, 17 cm along",
        "  1.3 cm more is wanted: it takes 20.3 cm of 110 cm",
    ]


def test_every_size_must_fit_or_the_one_that_is_asked_for(workshop: Path, capfd: pytest.CaptureFixture[str]) -> None:
    assert run(["cloth", GRADED, "--have", "cotton: 60 cm of 110 cm", "--size", "S"]) == 0
    assert "cotton, metric S: yes" in capfd.readouterr().out
    assert run(["cloth", GRADED, "--have", "cotton: 10 cm of 110 cm", "--json"]) == 1
    told = json.loads(capfd.readouterr().out)
    assert not told["fits"]
    assert [one["size"] for one in told["answers"]] == ["S", "M", "L", "XL"]
    assert all(one["no room for"] and one["missing length"] > 0 for one in told["answers"])


def test_a_solver_is_asked_where_rows_will_not_do(
    workshop: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.delenv("PUBLISHER_NO_SOLVING", raising=False)
    asked = ["cloth", GRADED, "--size", "M", "--have", "cotton: 56 cm of 95 cm"]
    assert run([*asked, "--no-solving"]) == 1
    assert "3.9 cm more is wanted" in capfd.readouterr().out
    if solver_installed():
        assert run(asked) == 0
    assert not list((workshop / "content" / GRADED / "kept").glob("*.new"))


def test_json_tells_where_all_lies(workshop: Path, capfd: pytest.CaptureFixture[str]) -> None:
    assert run(["cloth", DEMO, "--have", "canvas: 2 fat quarters", "--units", "metric", "--json"]) == 0
    (answer,) = json.loads(capfd.readouterr().out)["answers"]
    assert [cloth["precut"] for cloth in answer["cloths"]] == ["fat quarter", "fat quarter"]
    laid = [one["copy"] for cloth in answer["cloths"] for one in cloth["laid"]]
    assert sorted(laid) == ["body back", "body front", "flap outside", "loop"]


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["--have", "40 cm of 110 cm"], "write 'canvas: 40 cm of 110 cm', or add --material canvas"),
        (["--have", "canvass: 40 cm of 110 cm"], "no material called 'canvass': did you mean 'canvas'?"),
        (["--have", "canvas: 40 of 110 cm"], "'40' has no unit"),
        (["--have", "canvas: a lot"], "'canvas: a lot' is no length of a width, and no precut"),
        (["--have", "canvas: 2 fat quaters"], "did you mean 'fat quarter'?"),
        (["--have", "canvas: 40 cm"], "write it like '40 cm of 110 cm', '1/2 yd of 44 in' or '2 fat quarters'"),
        (["--have", "canvas: 1 cm of 2 cm of 3 cm"], "is no length of a width"),
        (["--have", "canvas: 0 cm of 110 cm"], "is no cloth at all"),
        (["--have", "canvas: 0 fat quarters"], "is none"),
        (["--have", ""], "does not say which material"),
        (["--have", "canvas: 1 yd of 44 in", "--have", "cotton: 40 cm of 110 cm"], "some of it is told in inches"),
        (["--have", "canvas: 1 yd of 44 in", "--units", "metric"], "some of it is told in inches"),
        (["--material", "cotn"], "Invalid value for --material: no material called 'cotn': did you mean 'cotton'?"),
        (["--units", "imperial"], "no unit system called 'imperial'"),
        (["--make", "0"], "0 is not in the range 1<=x<=100"),
        (["--size", "M"], "has no size 'M'"),
    ],
)
def test_wrong_use_says_what_would_do(
    workshop: Path, arguments: list[str], words: str, capfd: pytest.CaptureFixture[str]
) -> None:
    assert run(["cloth", DEMO, *arguments]) == 2
    out, err = capfd.readouterr()
    assert out == ""
    assert words in err
    assert "Traceback" not in err


def test_a_pattern_with_errors_tells_them_and_no_cloth(workshop: Path, capfd: pytest.CaptureFixture[str]) -> None:
    path = workshop / "content" / DEMO / "pattern.yaml"
    path.write_text(path.read_text("utf-8").replace("panel width, 0", "panel widht, 0", 1), "utf-8")
    text = path.read_text("utf-8").replace("panel width - corner, 0", "panel widht - corner, 0", 1)
    path.write_text(text, "utf-8")
    assert run(["cloth", DEMO, "--have", "canvas: 1 m of 110 cm"]) == 1
    out, err = capfd.readouterr()
    assert out == ""
    assert "no measure called 'panel widht'" in err
    assert "cloth is told when they are mended" in err


def test_help_shows_how_to_say_what_is_there(capfd: pytest.CaptureFixture[str]) -> None:
    assert run(["cloth", "--help"]) == 0
    out = capfd.readouterr().out
    assert '--have "canvas: 40 cm of 110 cm"' in out


def test_an_edition_for_many_is_a_file_of_its_own(workshop: Path, capfd: pytest.CaptureFixture[str]) -> None:
    assert run(["publish", DEMO, "--edition", "metric-a4"]) == 0
    assert run(["publish", DEMO, "--edition", "metric-a4", "--make", "12"]) == 0
    folder = workshop / "build" / DEMO
    assert (folder / f"{DEMO}-metric-a4.pdf").is_file()
    assert (folder / f"{DEMO}-metric-a4-for-12.pdf").is_file()
    record = json.loads((folder / "computed.json").read_text("utf-8"))
    assert {name: told["make"] for name, told in record["editions"].items()} == {"metric-a4": 1, "metric-a4-for-12": 12}
    assert "earlier state" not in capfd.readouterr().out
    # What was made for twelve is known as that when the pattern has changed.
    steps = workshop / "content" / DEMO / "steps.md"
    steps.write_text(steps.read_text("utf-8").replace("Press", "Press well", 1), "utf-8")
    assert run(["publish", DEMO, "--edition", "inch-letter"]) == 0
    assert "(--edition metric-a4 --make 12 makes it anew)" in capfd.readouterr().out
