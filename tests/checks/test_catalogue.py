"""Every code that is printed has one page, `explain` lists each once, and the README's catalogue is what the pages say."""

import ast
import re
from pathlib import Path

import pytest
from click.testing import CliRunner

import publisher
from publisher.checks import CHECKS, name_of, page_of, stage_pages
from publisher.commands import commands
from publisher.commands.explain import STAGES, SUBJECTS
from publisher.drafting.shaped_corners import CANNOT

ROOT = Path(__file__).parents[2]
PACKAGE = Path(publisher.__file__).parent
CODE = re.compile(r"[a-z]+(-[a-z]+)+|unreadable")
BEGINS, ENDS = "<!-- what is proved -->\n", "<!-- as far as here -->\n"


def codes_of_stages() -> set[str]:
    """The codes that calls of the stages are given, with a place and what they say."""
    codes = {code for code, *_ in CANNOT.values()}
    for file in PACKAGE.rglob("*.py"):
        if file.parent.name == "checks":
            continue
        for call in ast.walk(ast.parse(file.read_text("utf-8"))):
            if isinstance(call, ast.Call) and len(call.args) >= 3:
                first = [part.value for part in call.args[:3] if isinstance(part, ast.Constant)]
                codes |= {value for value in first if isinstance(value, str) and CODE.fullmatch(value)}
    return codes


def test_every_code_has_one_page() -> None:
    of_checks = [name_of(check) for check in CHECKS]
    of_stages = [page.name for page in stage_pages()]
    assert len(set(of_checks + of_stages)) == len(of_checks + of_stages)
    assert codes_of_stages() - set(of_checks) == set(of_stages)


def test_explain_lists_each_once() -> None:
    listed = CliRunner().invoke(commands, ["explain"]).output
    for page in (*map(page_of, CHECKS), *stage_pages()):
        assert len(re.findall(rf"(?m)^  {page.name} ", listed)) == 1, page.name


@pytest.mark.parametrize("page", stage_pages(), ids=lambda page: page.name)
def test_pages_are_whole_sentences(page: object) -> None:
    assert all(getattr(page, part)[-1] in ".`" for part in ("finds", "why", "fix"))
    assert page.subject in STAGES  # type: ignore[attr-defined]


def test_explain_prints_what_a_stage_finds() -> None:
    result = CliRunner().invoke(commands, ["explain", "no-such-name"])
    assert result.exit_code == 0
    assert "A name is used that nothing bears." in result.output


def catalogue() -> str:
    pages = [page_of(check) for check in CHECKS]
    lines = []
    for subject, title in SUBJECTS.items():
        lines += [f"| **{title}** | |"]
        lines += [f"| `{page.name}` | {page.finds} |" for page in pages if page.subject == subject]
    return "\n".join(["| check | what it finds |", "| --- | --- |", *lines]) + "\n"


def test_the_readme_has_the_catalogue(request: pytest.FixtureRequest) -> None:
    readme = ROOT / "README.md"
    text = readme.read_text("utf-8")
    before, rest = text.split(BEGINS)
    kept, after = rest.split(ENDS)
    if request.config.getoption("--regild"):
        readme.write_text(before + BEGINS + catalogue() + ENDS + after, "utf-8")
        kept = catalogue()
    assert kept == catalogue()
