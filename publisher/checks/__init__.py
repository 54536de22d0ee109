"""Questions asked of a pattern before it is published: each check reads the proof and yields findings."""

from collections.abc import Sequence
from itertools import chain, zip_longest

from publisher.checks.allowing import Allowed, allowed_in, marked
from publisher.checks.asked_of_pieces import ASKED_OF_PIECES
from publisher.checks.asked_of_steps import ASKED_OF_STEPS
from publisher.checks.pages import Page, name_of, page_of
from publisher.checks.pictures import PRINTED_WIDTH
from publisher.checks.stage_pages import stage_pages
from publisher.checks.values import Check, Proof
from publisher.parting import both
from publisher.terms import Finding

CHECKS: tuple[Check, ...] = (*ASKED_OF_PIECES, *ASKED_OF_STEPS)


def check(proof: Proof) -> tuple[Finding, ...]:
    """What all checks find, in the order of the checks; every other one is asked in a process of its own where that can be."""
    halves = both(lambda: _asked(CHECKS[::2], proof), lambda: _asked(CHECKS[1::2], proof))
    in_turn = chain.from_iterable(zip_longest(*halves, fillvalue=()))
    return tuple(chain.from_iterable(in_turn))


def _asked(checks: Sequence[Check], proof: Proof) -> list[tuple[Finding, ...]]:
    return [tuple(ask(proof)) for ask in checks]


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
