"""Findings that a maker lets through, with her reason."""

from collections.abc import Collection, Sequence
from dataclasses import field, replace

from publisher.frozen import dataclass
from publisher.source import Source
from publisher.terms import Finding, Place, Severity, did_you_mean, merge_findings


@dataclass(frozen=True, slots=True)
class Allowed:
    """A check by its name, and why what it finds may be published."""

    check: str
    reason: str
    place: Place | None = field(default=None, compare=False)


def allowed_in(source: Source) -> tuple[Allowed, ...]:
    """What the pattern itself lets through."""
    return tuple(Allowed(str(check), str(reason), check.place) for check, reason in source.allow)


def marked(findings: Sequence[Finding], allowed: Sequence[Allowed], checks: Collection[str]) -> tuple[Finding, ...]:
    """The findings, those that are let through marked; and findings about what is let through and not found.

    Only what a check found can be let through: what could not be read or drafted is not there to be printed.
    """
    reasons = {one.check: one.reason for one in allowed}
    told = [
        replace(finding, allowed=reasons[finding.name])
        if finding.name in reasons and finding.name in checks
        else finding
        for finding in findings
    ]
    names = {finding.name for finding in findings}
    for one in allowed:
        if one.check not in checks:
            says = f"no check called '{one.check}' that could be let through"
            mend = (
                did_you_mean(one.check, checks)
                or "'publisher explain' lists all; what cannot be drafted must be mended"
            )
            told.append(Finding("no-such-check", Severity.ERROR, one.place, says, mend))
        elif one.check not in names:
            says = f"'{one.check}' is let through, and nothing like it was found"
            told.append(Finding("nothing-to-allow", Severity.ADVICE, one.place, says, "take the line out"))
        elif not one.reason.strip():
            says = f"'{one.check}' is let through without a reason"
            told.append(
                Finding("no-value", Severity.ERROR, one.place, says, "write why, in a few words, for the reader")
            )
    return merge_findings(told)
