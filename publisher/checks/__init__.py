"""Questions asked of a pattern before it is published: each check reads the proof and yields findings."""

from publisher.checks.allowing import Allowed, allowed_in, marked
from publisher.checks.asked_of_pieces import ASKED_OF_PIECES
from publisher.checks.asked_of_steps import ASKED_OF_STEPS
from publisher.checks.pages import Page, name_of, page_of
from publisher.checks.pictures import PRINTED_WIDTH
from publisher.checks.stage_pages import stage_pages
from publisher.checks.values import Check, Proof
from publisher.terms import Finding

CHECKS: tuple[Check, ...] = (*ASKED_OF_PIECES, *ASKED_OF_STEPS)


def check(proof: Proof) -> tuple[Finding, ...]:
    """What all checks find."""
    return tuple(finding for ask in CHECKS for finding in ask(proof))


def let_through(findings: tuple[Finding, ...], allowed: tuple[Allowed, ...]) -> tuple[Finding, ...]:
    """The findings, those that the maker lets through marked as allowed."""
    return marked(findings, allowed, [name_of(each) for each in CHECKS]) if allowed else findings


__all__ = [
    "CHECKS",
    "PRINTED_WIDTH",
    "Allowed",
    "Check",
    "Page",
    "Proof",
    "allowed_in",
    "check",
    "let_through",
    "name_of",
    "page_of",
    "stage_pages",
]
