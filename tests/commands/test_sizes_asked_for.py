"""Some sizes of a pattern published alone, beside the editions for all sizes."""

import json
from pathlib import Path
from typing import Any

import pytest

from publisher.commands import run
from publisher.commands.sizes import sized_name
from tests.demo import CONTENT, DEMO
from tests.graded import cap_files
from tests.pdf_reading import texts_of

CAP = "dotterel-cap"
PUBLISH = ["publish", CAP, "--edition", "metric-a4"]


@pytest.fixture
def cap(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "content" / CAP
    folder.mkdir(parents=True)
    for name, content in cap_files().items():
        (folder / name).write_bytes(content)
    monkeypatch.chdir(tmp_path)
    return tmp_path / "build" / CAP


def editions(output: Path) -> dict[str, Any]:
    told: dict[str, Any] = json.loads((output / "computed.json").read_text("utf-8"))["editions"]
    return told


def words_of(output: Path, name: str) -> str:
    pages = texts_of((output / f"{CAP}-{name}.pdf").read_bytes())
    return " ".join(line.text for page in pages for line in page).replace("\N{NO-BREAK SPACE}", " ")


def test_one_size_has_plain_templates_and_a_file_of_its_own(cap: Path) -> None:
    assert run([*PUBLISH, "--size", "M"]) == 0
    assert sorted(path.name for path in cap.iterdir()) == ["computed.json", f"{CAP}-metric-a4-m.pdf"]
    told = editions(cap)["metric-a4-m"]
    assert (told["edition"], told["sizes"]) == ("metric-a4", ["M"])
    assert [page["pieces"] for page in told["template pages"]][1:3] == [["band M"], ["band M"]]
    words = words_of(cap, "metric-a4-m")
    assert "metric edition, size M, A4" in words
    assert "1 band, size M" in words
    assert "Finished line" in words
    # 56 cm and 1 cm of ease; the sweatband is 56 cm and two allowances long.
    assert "ring of 57 cm" in words
    assert "58 cm × 6 cm" in words
    assert not [other for other in ("55 cm", "59 cm", "56 cm × 6 cm", "60 cm × 6 cm") if other in words]


def test_several_sizes_lie_on_one_template_in_the_order_of_the_pattern(cap: Path) -> None:
    assert run([*PUBLISH, "--size", "L", "--size", "S", "--size", "L"]) == 0
    told = editions(cap)["metric-a4-s-l"]
    assert told["sizes"] == ["S", "L"]
    assert told["template pages"][1]["pieces"] == ["band S", "band L"]
    words = words_of(cap, "metric-a4-s-l")
    assert "ring of 55 cm (59 cm)" in words
    assert "sizes S and L" in words


def test_all_sizes_named_one_by_one_are_the_edition_for_all(cap: Path) -> None:
    asked = [word for size in ("S", "M", "L", "XL") for word in ("--size", size)]
    assert run([*PUBLISH, *asked]) == 0
    assert list(editions(cap)) == ["metric-a4"]


def test_editions_of_other_sizes_are_carried_over(cap: Path, capfd: pytest.CaptureFixture[str]) -> None:
    assert run(PUBLISH) == 0
    assert run([*PUBLISH, "--size", "M"]) == 0
    assert run([*PUBLISH, "--size", "XL"]) == 0
    assert sorted(editions(cap)) == ["metric-a4", "metric-a4-m", "metric-a4-xl"]
    assert "earlier state" not in capfd.readouterr().out
    pattern = Path("content") / CAP / "pattern.yaml"
    pattern.write_text(pattern.read_text("utf-8").replace("| 56 cm", "| 56.5 cm"), "utf-8")
    assert run(PUBLISH) == 0
    out = capfd.readouterr().out
    assert "(--edition metric-a4 --size M makes it anew)" in out
    assert "--size XL" not in out, "nothing of size XL has changed"
    assert sorted(editions(cap)) == ["metric-a4", "metric-a4-m", "metric-a4-xl"]


def test_a_size_that_has_gone_is_kept_and_told(cap: Path, capfd: pytest.CaptureFixture[str]) -> None:
    assert run([*PUBLISH, "--size", "XL"]) == 0
    pattern = Path("content") / CAP / "pattern.yaml"
    text = pattern.read_text("utf-8")
    pattern.write_text(text.replace("  - XL\n", "").replace("    XL: 23 1/2 in | 60 cm\n", ""), "utf-8")
    capfd.readouterr()
    assert run(PUBLISH) == 0
    assert "--size XL makes it anew" in capfd.readouterr().out
    assert sorted(editions(cap)) == ["metric-a4", "metric-a4-xl"]


def test_an_unknown_size_is_wrong_use(cap: Path, capfd: pytest.CaptureFixture[str]) -> None:
    assert run([*PUBLISH, "--size", "XXL"]) == 2
    assert "has no size 'XXL' (sizes: S, M, L, XL): did you mean 'XL'?" in capfd.readouterr().err
    assert not cap.exists()


def test_a_pattern_without_sizes_has_none_to_ask_for(capfd: pytest.CaptureFixture[str]) -> None:
    assert run(["publish", str(CONTENT / DEMO), "--size", "M"]) == 2
    assert "it has no sizes" in capfd.readouterr().err


def test_names_of_files_bear_sizes_in_signs_that_every_disk_takes() -> None:
    known = ["10/12", "10 12", "Größe M", "?"]
    assert sized_name("inch-a4", ["Größe M", "?"], known) == "inch-a4-größe-m-size"
    assert sized_name("inch-a4", ["10/12"], known) != sized_name("inch-a4", ["10 12"], known)
