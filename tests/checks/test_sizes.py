"""Sizes of a nest that nobody could tell apart are told, with their numbers."""

from publisher.checks import Proof
from publisher.checks.sizes import nested_lines_close
from publisher.pipeline import prove
from publisher.terms import Finding, Severity
from tests.graded import PATTERN, cap_files, cap_proof


def proved(pattern: str) -> tuple[Proof, list[Finding]]:
    proof, _ = prove("dotterel-cap", cap_files(pattern))
    assert proof is not None
    return proof, list(nested_lines_close(proof))


def test_sizes_that_keep_apart_or_share_a_line_are_no_finding() -> None:
    assert list(nested_lines_close(cap_proof())) == []


def test_a_crown_graded_by_half_a_millimetre_is_told() -> None:
    # 3 mm more round the head is 3 / 2 π = 0.48 mm more of radius, all round.
    _, found = proved(PATTERN.replace("M: 22 in | 56 cm", "M: 22 in | 54.3 cm"))
    (crown,) = found
    assert (crown.name, crown.severity) == ("nested-lines-close", Severity.WARNING)
    assert crown.place is not None
    assert PATTERN.splitlines()[crown.place.line - 1].strip() == "crown:"
    assert "sizes S and M of 'crown' lie nearer than 1 mm to each other over" in crown.says
    assert "100% of the line" in crown.says
    assert [str(variant) for variant in crown.variants] == ["metric S", "metric M"]


def told(pattern: str, name: str) -> list[Finding]:
    _, findings = prove("dotterel-cap", cap_files(pattern))
    return [finding for finding in findings if finding.name == name]


def line_at(pattern: str, finding: Finding) -> str:
    assert finding.place is not None
    return pattern.splitlines()[finding.place.line - 1].strip()


def test_an_ease_that_is_not_in_the_piece_is_told_with_both_measures() -> None:
    pattern = PATTERN.replace("band length: head + head ease", "band length: head + 25 mm")
    (finding,) = told(pattern, "size-guide-ease")
    assert finding.severity is Severity.WARNING
    assert line_at(pattern, finding) == "ease: head ease"
    # The first variant that has it: 21 1/4 in and 25 mm, which is 1 in to the eighth; 3/8 in is named.
    assert "the ease is 3/8 in (9.5 mm), but size S finishes" in finding.says
    assert "for a body of 21 1/4 in (539.8 mm), which is 1 in (25.4 mm) more" in finding.says


def test_an_ease_within_the_rounding_is_no_finding() -> None:
    assert told(PATTERN.replace("head ease: 3/8 in | 1 cm", "head ease: 3/8 in | 10.4 mm"), "size-guide-ease") == []
    pattern = PATTERN.replace("ease: head ease", "ease: 3/8 in | 9.4 mm")
    (finding,) = told(pattern, "size-guide-ease")
    assert {str(variant) for variant in finding.variants} == {"metric S", "metric M", "metric L", "metric XL"}


def test_steps_that_differ_are_advice_and_told_with_both() -> None:
    pattern = PATTERN.replace("XL: 23 1/2 in | 60 cm", "XL: 23 1/2 in | 61 cm")
    (finding,) = told(pattern, "uneven-grading")
    assert finding.severity is Severity.ADVICE
    assert finding.says == "'head' grows by 20.0 mm from S to M and by 30.0 mm from L to XL"
    assert line_at(pattern, finding) == "head:"


def test_a_size_that_does_not_grow_or_grows_twice_as_much_is_a_warning() -> None:
    for wrong in ("M: 22 in | 54 cm", "M: 22 in | 57 cm", "M: 22 in | 53 cm"):
        (finding,) = told(PATTERN.replace("M: 22 in | 56 cm", wrong), "uneven-grading")
        assert finding.severity is Severity.WARNING, wrong


def test_inches_that_differ_by_their_rounding_are_even() -> None:
    # 2 cm are 0.787 in: 54, 56, 58, 60 cm in eighths are 21 1/4, 22, 22 7/8, 23 5/8; steps of 6, 7 and 6 eighths.
    pattern = PATTERN.replace("L: 22 3/4 in", "L: 22 7/8 in").replace("XL: 23 1/2 in", "XL: 23 5/8 in")
    assert pattern.count("7/8") == pattern.count("5/8") == 1
    assert told(pattern, "uneven-grading") == []


def test_a_size_guide_that_lacks_a_part_is_told_and_hides_nothing() -> None:
    pattern = PATTERN.replace("  between: Between two sizes take the larger.\n", "")
    (finding,) = told(pattern, "missing-key")
    assert finding.says == "'size guide' lacks 'between'"
    assert line_at(pattern, finding) == "size guide:"
    assert len(told(PATTERN.replace("body: head", "bodi: head"), "unknown-key")) == 1
    (unknown,) = told(PATTERN.replace("body: head", "body: haed"), "no-such-name")
    assert "did you mean 'head'?" in unknown.mend
    (number,) = told(PATTERN.replace("body: head", "body: 3"), "not-a-length")
    assert "'body' of the size guide" in number.says
