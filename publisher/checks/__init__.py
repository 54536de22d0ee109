"""Questions asked of a pattern before it is published: each check reads the proof and yields findings."""

from collections.abc import Callable, Iterator

from publisher.checks.allowing import Allowance, allowances_of, marked
from publisher.checks.another import at_the_other_edge, basted_through_both, other_side_inwards, shown_another
from publisher.checks.backings import fused_to_another, patch_under_interfacing
from publisher.checks.bindings import (
    binding_cut_narrow,
    binding_left_over,
    binding_not_on_bias,
    binding_too_short,
    binding_wider_than_allowance,
    bound_edge_with_allowance,
    hem_on_curve,
    left_undone,
)
from publisher.checks.caught import caught_in_the_next_seam, sewn_through_its_lining, wider_than_its_face
from publisher.checks.closures import halves_apart
from publisher.checks.counts import (
    lining_counted_otherwise,
    more_bought_than_attached,
    pair_cut_alike,
    too_few_for_each,
)
from publisher.checks.crowded import marks_coincide, notch_kinds_differ, pleat_on_a_line
from publisher.checks.curves import gap_on_a_curve, long_curve_without_notches
from publisher.checks.cutting import (
    hardware_in_the_seam,
    patch_too_small,
    pieces_easily_confused,
    ring_too_narrow,
    tube_too_narrow,
)
from publisher.checks.edges import (
    hem_not_as_told,
    hem_without_allowance,
    hemmed_and_stitched_shut,
    raw_edge_left,
    seam_without_allowance,
)
from publisher.checks.ends import ends_joined_too_late, hemmed_after_joining
from publisher.checks.fellows import fellow_reckoned_otherwise
from publisher.checks.fit import (
    allowances_of_partners_differ,
    ease_too_large,
    gap_too_long,
    placed_edges_apart,
    placed_marks_apart,
    placement_overhangs,
    seam_lengths_differ,
)
from publisher.checks.for_what import (
    allowance_in_the_outline,
    allowance_told_as_missing,
    finished_size_against_word,
    finished_size_of_a_part,
    layers_cut_unalike,
    line_off_piece,
    material_for_another,
)
from publisher.checks.holding import (
    casing_left_out,
    casing_too_narrow,
    lining_larger_than_outside,
    lining_shorter_than_outside,
    pocket_too_small,
)
from publisher.checks.in_turn import (
    binding_out_of_turn,
    hemmed_after_pleating,
    joined_after_folding,
    stitched_before_placing,
    stitched_down_raw,
)
from publisher.checks.inside_out import clipped_too_late, curve_not_clipped, inward_curve_not_snipped, never_turned
from publisher.checks.kinds import fastened_otherwise, notion_kind_untold, notion_without_size, thread_not_listed
from publisher.checks.layers import (
    bulky_seam,
    folded_against_the_nap,
    heat_on_what_melts,
    print_upside_down,
    strap_too_thick,
)
from publisher.checks.left_out import (
    edge_left_raw,
    half_never_set,
    placed_not_fused,
    raw_end_not_covered,
    strip_end_left_raw,
    strip_never_folded,
    strip_never_joined,
    zip_on_one_side_only,
)
from publisher.checks.lines_sewn import stitching_line_never_sewn
from publisher.checks.marks import mark_off_piece, mark_without_template, notch_off_centre, pair_left_over
from publisher.checks.materials import (
    backing_sewn_as_cloth,
    backings_cut_unalike,
    cut_not_as_told,
    fused_twice,
    fused_without_glue,
    half_cut_from_lining,
    print_on_its_side,
    trimmed_but_not_larger,
    wadding_not_quilted,
)
from publisher.checks.measured_from import measured_from_another_edge, measured_from_the_finished_edge
from publisher.checks.meeting import corner_meets_nothing, notches_apart
from publisher.checks.not_yet_sewn import (
    slipped_in_and_not_turned,
    topstitched_before_turning,
    trimmed_before_the_next,
    worked_before_sewn,
)
from publisher.checks.order import (
    closed_before_turning,
    done_twice,
    fused_after_sewing,
    gap_never_closed,
    marked_after_use,
    notion_never_attached,
    topstitched_too_early,
    used_before_cut,
)
from publisher.checks.pages import Page, name_of, page_of
from publisher.checks.pictures import PRINTED_WIDTH, photograph_unfit
from publisher.checks.pockets import laid_and_not_sewn, opening_sewn_shut, pocket_not_as_measured
from publisher.checks.promised import caution_missing, iron_too_hot, promised_and_missing
from publisher.checks.promises import level_too_easy, small_parts_for_children, time_too_short
from publisher.checks.reading import (
    abbreviation_unexplained,
    allowance_not_the_edges,
    left_without_viewpoint,
    link_leads_nowhere,
    step_does_much,
)
from publisher.checks.said_of_work import (
    between_folds_not_as_cut,
    casing_sewn_shut,
    cord_runs_back,
    cut_size_told_as_now,
    gathers_locked,
    layer_other_side_up,
    pleat_folded_otherwise,
    rolled_from_its_tie,
    understitched_through,
)
from publisher.checks.sayings import (
    count_in_words,
    length_in_one_unit,
    measure_never_read,
    quote_against_word,
    quote_of_another,
    step_names_another,
)
from publisher.checks.sequence import (
    boxed_too_early,
    corner_not_mitred,
    folded_after_sewing,
    hemmed_after_placing,
    placed_after_sewing,
    pleated_after_placing,
    threaded_too_early,
    trimmed_before_quilting,
)
from publisher.checks.shown_and_told import (
    ease_not_as_told,
    fold_at_the_raw_edges,
    named_notch_missing,
    pressed_away_from_stitching,
    rows_wider_than_the_piece,
)
from publisher.checks.sides import laid_other_face_up, other_side_told
from publisher.checks.sizes import depth_not_the_corners, nested_lines_close, size_guide_ease, uneven_grading
from publisher.checks.stage_pages import stage_pages
from publisher.checks.strips import (
    binding_sewn_too_far_in,
    both_ends_at_one_place,
    folded_strip_cut_plain,
    loop_lost_in_the_seam,
    one_end_held_twice,
    strip_caught_in_next_seam,
    strip_shorter_than_its_place,
)
from publisher.checks.taken_for_done import hemmed_only_later, just_sewn_is_another, sides_together_not_as_told
from publisher.checks.tied import ends_left_not_as_told, too_short_for_a_bow
from publisher.checks.told_otherwise import (
    folded_not_as_told,
    marked_on_other_face,
    notch_told_and_missing,
    told_and_not_done,
)
from publisher.checks.tools import tool_named_not_listed, tool_not_listed
from publisher.checks.trims import cut_to_finished_length, snipped_too_deep, snipped_too_little, trimmed_to_no_less
from publisher.checks.turned_round import edges_in_one_sense
from publisher.checks.turning import gap_too_short, no_gap_to_close, set_out_of_reach, turned_without_gap
from publisher.checks.units import native_pair_apart
from publisher.checks.unmarked import used_unmarked
from publisher.checks.values import Proof
from publisher.checks.words import loose_number, step_too_long, terms_missing, video_times_backwards
from publisher.checks.work import (
    copy_never_used,
    edge_sewn_twice,
    placement_never_placed,
    seam_never_sewn,
    seam_sewn_twice,
    sewn_to_itself,
)
from publisher.checks.zips import (
    stop_in_the_seam,
    zip_apart_from_opening,
    zip_ends_too_short,
    zip_left_closed,
    zip_showing_not_as_seamed,
    zip_sides_differ,
)
from publisher.terms import Finding

Check = Callable[[Proof], Iterator[Finding]]

CHECKS: tuple[Check, ...] = (
    photograph_unfit,
    seam_lengths_differ,
    ease_too_large,
    ease_not_as_told,
    allowances_of_partners_differ,
    allowance_in_the_outline,
    allowance_told_as_missing,
    allowance_not_the_edges,
    gap_too_long,
    gap_too_short,
    notches_apart,
    corner_meets_nothing,
    edges_in_one_sense,
    placed_marks_apart,
    placed_edges_apart,
    halves_apart,
    placement_overhangs,
    caught_in_the_next_seam,
    wider_than_its_face,
    mark_off_piece,
    line_off_piece,
    mark_without_template,
    measured_from_the_finished_edge,
    measured_from_another_edge,
    notch_off_centre,
    marks_coincide,
    notch_kinds_differ,
    pleat_on_a_line,
    stitching_line_never_sewn,
    pair_left_over,
    seam_never_sewn,
    seam_sewn_twice,
    edge_sewn_twice,
    sewn_to_itself,
    placement_never_placed,
    laid_and_not_sewn,
    opening_sewn_shut,
    copy_never_used,
    binding_too_short,
    binding_left_over,
    bound_edge_with_allowance,
    binding_not_on_bias,
    binding_wider_than_allowance,
    binding_cut_narrow,
    between_folds_not_as_cut,
    binding_sewn_too_far_in,
    binding_out_of_turn,
    hem_on_curve,
    left_undone,
    strip_never_folded,
    strip_never_joined,
    joined_after_folding,
    placed_not_fused,
    half_never_set,
    zip_on_one_side_only,
    edge_left_raw,
    strip_end_left_raw,
    raw_end_not_covered,
    hem_without_allowance,
    hem_not_as_told,
    hemmed_and_stitched_shut,
    seam_without_allowance,
    raw_edge_left,
    stitched_down_raw,
    strip_shorter_than_its_place,
    loop_lost_in_the_seam,
    both_ends_at_one_place,
    one_end_held_twice,
    strip_caught_in_next_seam,
    folded_strip_cut_plain,
    native_pair_apart,
    fellow_reckoned_otherwise,
    nested_lines_close,
    size_guide_ease,
    uneven_grading,
    depth_not_the_corners,
    used_before_cut,
    fused_after_sewing,
    marked_after_use,
    used_unmarked,
    closed_before_turning,
    gap_never_closed,
    no_gap_to_close,
    turned_without_gap,
    notion_never_attached,
    notion_kind_untold,
    notion_without_size,
    fastened_otherwise,
    thread_not_listed,
    tool_named_not_listed,
    tool_not_listed,
    topstitched_too_early,
    worked_before_sewn,
    topstitched_before_turning,
    done_twice,
    boxed_too_early,
    clipped_too_late,
    snipped_too_deep,
    snipped_too_little,
    cut_to_finished_length,
    trimmed_to_no_less,
    trimmed_before_the_next,
    just_sewn_is_another,
    hemmed_only_later,
    sides_together_not_as_told,
    corner_not_mitred,
    curve_not_clipped,
    inward_curve_not_snipped,
    ends_joined_too_late,
    folded_after_sewing,
    hemmed_after_joining,
    hemmed_after_placing,
    never_turned,
    slipped_in_and_not_turned,
    placed_after_sewing,
    pleated_after_placing,
    hemmed_after_pleating,
    stitched_before_placing,
    threaded_too_early,
    trimmed_before_quilting,
    long_curve_without_notches,
    gap_on_a_curve,
    zip_apart_from_opening,
    stop_in_the_seam,
    zip_left_closed,
    zip_ends_too_short,
    zip_sides_differ,
    zip_showing_not_as_seamed,
    set_out_of_reach,
    sewn_through_its_lining,
    pocket_too_small,
    pocket_not_as_measured,
    casing_left_out,
    cord_runs_back,
    casing_sewn_shut,
    casing_too_narrow,
    ends_left_not_as_told,
    too_short_for_a_bow,
    rolled_from_its_tie,
    lining_larger_than_outside,
    lining_shorter_than_outside,
    heat_on_what_melts,
    iron_too_hot,
    bulky_seam,
    print_upside_down,
    folded_against_the_nap,
    strap_too_thick,
    fused_twice,
    fused_to_another,
    patch_under_interfacing,
    fused_without_glue,
    backing_sewn_as_cloth,
    trimmed_but_not_larger,
    layers_cut_unalike,
    wadding_not_quilted,
    backings_cut_unalike,
    cut_not_as_told,
    print_on_its_side,
    half_cut_from_lining,
    material_for_another,
    more_bought_than_attached,
    too_few_for_each,
    pair_cut_alike,
    lining_counted_otherwise,
    ring_too_narrow,
    tube_too_narrow,
    patch_too_small,
    hardware_in_the_seam,
    pieces_easily_confused,
    loose_number,
    count_in_words,
    length_in_one_unit,
    measure_never_read,
    quote_against_word,
    rows_wider_than_the_piece,
    finished_size_against_word,
    finished_size_of_a_part,
    cut_size_told_as_now,
    quote_of_another,
    step_names_another,
    shown_another,
    at_the_other_edge,
    other_side_inwards,
    basted_through_both,
    other_side_told,
    laid_other_face_up,
    layer_other_side_up,
    pleat_folded_otherwise,
    gathers_locked,
    pressed_away_from_stitching,
    fold_at_the_raw_edges,
    understitched_through,
    marked_on_other_face,
    folded_not_as_told,
    notch_told_and_missing,
    named_notch_missing,
    told_and_not_done,
    step_too_long,
    step_does_much,
    left_without_viewpoint,
    abbreviation_unexplained,
    link_leads_nowhere,
    video_times_backwards,
    terms_missing,
    time_too_short,
    level_too_easy,
    promised_and_missing,
    small_parts_for_children,
    caution_missing,
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
    "stage_pages",
]
