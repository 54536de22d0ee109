"""Questions asked of a pattern before it is published: each check reads the proof and yields findings."""

from collections.abc import Callable, Iterator

from publisher.checks.allowing import Allowance, allowances_of, marked
from publisher.checks.bindings import (
    binding_not_on_bias,
    binding_too_short,
    bound_edge_with_allowance,
    hem_on_curve,
    left_undone,
)
from publisher.checks.curves import gap_on_a_curve, long_curve_without_notches
from publisher.checks.cutting import hardware_in_the_seam, pieces_easily_confused, ring_too_narrow, tube_too_narrow
from publisher.checks.fit import (
    allowances_of_partners_differ,
    gap_too_long,
    placed_edges_apart,
    placed_marks_apart,
    seam_lengths_differ,
)
from publisher.checks.marks import mark_off_piece, mark_without_template, pair_left_over
from publisher.checks.order import (
    closed_before_turning,
    fused_after_sewing,
    gap_never_closed,
    marked_after_use,
    notion_never_attached,
    tool_not_listed,
    used_before_cut,
)
from publisher.checks.pages import Page, name_of, page_of
from publisher.checks.pictures import PRINTED_WIDTH, photograph_unfit
from publisher.checks.sizes import nested_lines_close, size_guide_ease, uneven_grading
from publisher.checks.units import native_pair_apart
from publisher.checks.values import Proof
from publisher.checks.words import loose_number, step_too_long, terms_missing, video_times_backwards
from publisher.checks.work import copy_never_used, placement_never_placed, seam_never_sewn, seam_sewn_twice
from publisher.terms import Finding

Check = Callable[[Proof], Iterator[Finding]]

CHECKS: tuple[Check, ...] = (
    photograph_unfit,
    seam_lengths_differ,
    allowances_of_partners_differ,
    gap_too_long,
    placed_marks_apart,
    placed_edges_apart,
    mark_off_piece,
    mark_without_template,
    pair_left_over,
    seam_never_sewn,
    seam_sewn_twice,
    placement_never_placed,
    copy_never_used,
    binding_too_short,
    bound_edge_with_allowance,
    binding_not_on_bias,
    hem_on_curve,
    left_undone,
    native_pair_apart,
    nested_lines_close,
    size_guide_ease,
    uneven_grading,
    used_before_cut,
    fused_after_sewing,
    marked_after_use,
    closed_before_turning,
    gap_never_closed,
    notion_never_attached,
    tool_not_listed,
    long_curve_without_notches,
    gap_on_a_curve,
    ring_too_narrow,
    tube_too_narrow,
    hardware_in_the_seam,
    pieces_easily_confused,
    loose_number,
    step_too_long,
    video_times_backwards,
    terms_missing,
)


def check(proof: Proof) -> tuple[Finding, ...]:
    """What all checks find."""
    return tuple(finding for ask in CHECKS for finding in ask(proof))


def let_through(findings: tuple[Finding, ...], allowances: tuple[Allowance, ...]) -> tuple[Finding, ...]:
    """The findings, those that the maker lets through marked as allowed."""
    return marked(findings, allowances, [name_of(each) for each in CHECKS]) if allowances else findings


__all__ = [
    "CHECKS",
    "PRINTED_WIDTH",
    "Allowance",
    "Check",
    "Page",
    "Proof",
    "allowances_of",
    "check",
    "let_through",
    "name_of",
    "page_of",
]
