"""Small patterns as strings, and the stages run on them."""

from collections.abc import Mapping
from textwrap import dedent

from publisher.checks import Proof
from publisher.drafting import Draft, draft_variants
from publisher.measures import read_measures
from publisher.pipeline import prove
from publisher.source import read_source
from publisher.terms import Finding, UnitSystem

HEAD = """\
title: Specimen
revision: "1"
date: 2026-01-31
allowance: 3/8 in | 1 cm
materials:
  canvas:
    kind: fabric
    name: Canvas
    sold:
      - 42 in wide | 110 cm wide
"""


def files(pattern: str, steps: str = "", head: str = HEAD) -> Mapping[str, bytes]:
    """A pattern folder: the usual head, and what the test writes below it."""
    return {"pattern.yaml": (head + dedent(pattern)).encode(), "steps.md": dedent(steps).encode()}


def prove_text(pattern: str, steps: str = "") -> tuple[Proof, tuple[Finding, ...]]:
    """The proof of a specimen and what was found."""
    proof, findings = prove("specimen", files(pattern, steps))
    assert proof is not None, findings
    return proof, findings


def draft_text(
    pattern: str, steps: str = "", units: UnitSystem = UnitSystem.METRIC
) -> tuple[Draft, tuple[Finding, ...]]:
    """The draft of a specimen in one unit system, and what was found up to there."""
    source, unread = read_source("specimen", files(pattern, steps))
    assert source is not None, unread
    measures, unparsed = read_measures(source)
    drafts, undrafted = draft_variants(source, measures)
    draft = next(draft for draft in drafts if draft.variant.units is units)
    return draft, (*unread, *unparsed, *undrafted)


def found(findings: tuple[Finding, ...], name: str) -> Finding:
    """The finding of that name, of the last variant that has it; fails with all that was found for none or several."""
    named = {finding.place: finding for finding in findings if finding.name == name}
    assert len(named) == 1, [f"{finding.place} {finding.name}: {finding.says}" for finding in findings]
    return next(iter(named.values()))


def line_of(text: str, fragment: str) -> int:
    """The line, from 1, on which a fragment last stands in a text."""
    assert fragment in text
    return text[: text.rindex(fragment)].count("\n") + 1


def pattern_line(pattern: str, fragment: str) -> int:
    """The line of a fragment in pattern.yaml, below the usual head."""
    return line_of(HEAD + dedent(pattern), fragment)
