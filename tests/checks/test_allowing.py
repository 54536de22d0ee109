"""What a maker lets through stops nothing, and the reader is told."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from publisher.checks import Allowed
from publisher.checks.pages import Case, case_of
from publisher.commands import commands
from publisher.edition import print_edition
from publisher.pipeline import errors_in, prove
from publisher.template_pages import EDITIONS
from publisher.terms import Severity
from tests.pdf_reading import texts_of
from tests.specimens import found

METRIC = next(edition for edition in EDITIONS if edition.name == "metric-a4")


def allowed(check: str, reason: str = "The back is gathered by hand.") -> dict[str, bytes]:
    files = dict(case_of("seam-lengths-differ", fails=True).files)
    files["pattern.yaml"] += f'allow:\n  {check}: "{reason}"\n'.encode()
    return files


def test_what_the_pattern_allows_stops_nothing_and_stands_on_the_cover() -> None:
    proof, findings = prove("specimen", allowed("seam-lengths-differ"))
    assert proof is not None
    assert errors_in(findings) == ()
    told = found(findings, "seam-lengths-differ")
    assert (told.severity, told.allowed) == (Severity.ERROR, "The back is gathered by hand.")
    cover = " ".join(text.text for text in texts_of(print_edition(proof, METRIC).pdf)[0])
    assert "seam lengths differ (The back is gathered by hand.)" in " ".join(cover.split())


@pytest.mark.parametrize(
    ("check", "reason", "name", "severity", "says"),
    [
        ("seam-length-differ", "So.", "no-such-check", Severity.ERROR, "no check called 'seam-length-differ'"),
        ("no-such-name", "So.", "no-such-check", Severity.ERROR, "no check called 'no-such-name'"),
        ("gap-too-long", "So.", "nothing-to-allow", Severity.ADVICE, "nothing like it was found"),
        ("seam-lengths-differ", " ", "no-value", Severity.ERROR, "without a reason"),
    ],
)
def test_what_cannot_be_allowed_is_told(check: str, reason: str, name: str, severity: Severity, says: str) -> None:
    _, findings = prove("specimen", allowed(check, reason))
    told = found(findings, name)
    assert told.severity is severity
    assert says in told.says
    assert told.place is not None
    assert told.place.line > 20


def test_the_command_line_allows_too() -> None:
    files = dict(case_of("seam-lengths-differ", fails=True).files)
    _, findings = prove("specimen", files)
    assert errors_in(findings)
    _, findings = prove("specimen", files, [Allowed("seam-lengths-differ", "asked for")])
    assert errors_in(findings) == ()


def written(case: Case, folder: Path) -> Path:
    for file, content in case.files:
        (folder / file).write_bytes(content)
    return folder


def test_findings_as_json_and_as_lines(tmp_path: Path) -> None:
    folder = written(case_of("seam-lengths-differ", fails=True), tmp_path)
    ran = CliRunner().invoke(commands, ["proof", str(folder), "--json"])
    assert ran.exit_code == 1
    (findings,) = json.loads(ran.output).values()
    (told,) = (one for one in findings if one["check"] == "seam-lengths-differ")
    guilty = next(line for file, line, _ in case_of("seam-lengths-differ", fails=True).guilty if file == "pattern.yaml")
    assert (told["file"], told["line"], told["severity"]) == ("pattern.yaml", guilty, "error")
    ran = CliRunner().invoke(commands, ["proof", str(folder), "--plain", "--allow", "seam-lengths-differ"])
    assert ran.exit_code == 0
    assert f"pattern.yaml:{guilty}:3: allowed: " in ran.stderr
    assert "1 let through" in ran.stdout


def test_a_check_is_explained_and_all_are_listed() -> None:
    ran = CliRunner().invoke(commands, ["explain", "seam-lengths-differ"])
    assert "Why: one side runs out before the other" in ran.output
    assert "rectangle: 20.5 cm by 10 cm" in ran.output
    assert "seam-never-sewn" in CliRunner().invoke(commands, ["explain"]).output
    ran = CliRunner().invoke(commands, ["explain", "seam-never-swen"])
    assert ran.exit_code == 2
