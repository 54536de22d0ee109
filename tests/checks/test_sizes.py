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
