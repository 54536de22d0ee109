"""Each check has a page, a case that it finds something in, and a near miss in which nothing is found."""

import pytest

from publisher.checks import CHECKS, Check
from publisher.checks.pages import Case, case_of, name_of, page_of
from publisher.pipeline import prove
from publisher.terms import Severity

NAMED = {name_of(check): check for check in CHECKS}


# A case is no whole pattern, in which each edge is seen to and each piece sewn down.
LEFT_UNDONE = ("edge-left-raw", "laid-and-not-sewn")


def found_in(case: Case, name: str) -> set[tuple[str, int, str]]:
    """Everything but advice, and the advice that the case is about."""
    _, findings = prove("specimen", dict(case.files))
    told = [one for one in findings if one.severity is not Severity.ADVICE or one.name == name]
    told = [one for one in told if one.name == name or one.name not in LEFT_UNDONE]
    if not dict(case.files)["steps.md"].strip():
        told = [one for one in told if one.name != "copy-never-used"]  # without a step nothing is used
    return {(one.place.file, one.place.line, one.name) for one in told if one.place is not None}


@pytest.mark.parametrize("check", NAMED.values(), ids=NAMED)
def test_every_check_has_a_page(check: Check) -> None:
    page = page_of(check)
    assert page.finds.endswith(".")
    assert page.why.endswith(".")
    assert page.fix.endswith(".")
    assert page.fails


@pytest.mark.parametrize("name", NAMED)
def test_a_check_finds_its_fault_at_the_guilty_line_and_nothing_else(name: str) -> None:
    case = case_of(name, fails=True)
    assert any(guilty[2] == name for guilty in case.guilty)
    assert found_in(case, name) == case.guilty


@pytest.mark.parametrize("name", NAMED)
def test_a_near_miss_is_passed_over(name: str) -> None:
    case = case_of(name, fails=False)
    assert case.files != case_of(name, fails=True).files
    assert found_in(case, name) == set()
