"""What an edition is made of: whatever its PDF would look different with, and nothing else."""

import os
import shutil
from importlib.metadata import version
from pathlib import Path

import pytest

from publisher.edition import set_edition
from publisher.edition.layouts import layouts_folder
from publisher.template_pages import DEFAULT_EDITIONS
from tests.demo import demo_proof

METRIC = DEFAULT_EDITIONS[1]


def _made_of() -> str:
    return set_edition(demo_proof(), METRIC).made_of


@pytest.fixture
def layouts(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A copy of the layouts, from which the ingredients are read."""
    folder = tmp_path / "layouts"
    shutil.copytree(layouts_folder(), folder)
    monkeypatch.setattr("publisher.edition.ingredients.layouts_folder", lambda: folder)
    return folder


def test_layouts_elsewhere_with_other_times_make_the_same(layouts: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for path in layouts.rglob("*"):
        os.utime(path, (1, 1))
    here = _made_of()
    monkeypatch.undo()
    assert _made_of() == here


@pytest.mark.parametrize(
    "name", ["edition.css", "words/en.toml", "parts/steps.jinja", "fonts/SourceSansPro-Bold.ttf", "edition.html.jinja"]
)
def test_a_byte_more_in_a_layout_makes_another(layouts: Path, name: str) -> None:
    before = _made_of()
    with (layouts / name).open("ab") as file:
        file.write(b"\n")
    assert _made_of() != before


def test_what_a_maker_begins_from_makes_no_other(layouts: Path) -> None:
    before = _made_of()
    (layouts / "starter" / "steps.md").write_text("1. Begin.\n", "utf-8")
    assert _made_of() == before


@pytest.mark.parametrize("library", ["weasyprint", "pydyf", "fonttools"])
def test_another_version_of_a_library_makes_another(library: str, monkeypatch: pytest.MonkeyPatch) -> None:
    before = _made_of()
    monkeypatch.setattr(
        "publisher.edition.ingredients.version", lambda name: "999" if name == library else version(name)
    )
    assert _made_of() != before


def test_another_version_of_the_product_makes_another(monkeypatch: pytest.MonkeyPatch) -> None:
    before = _made_of()
    monkeypatch.setattr("publisher.__version__", "999")
    assert _made_of() != before
