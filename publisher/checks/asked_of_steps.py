"""What is asked of the steps: their order, what they do and leave out, and their words."""

from publisher.checks.after_turning import sewn_when_turned
from publisher.checks.backings import placed_not_fused
from publisher.checks.bindings_told import (
    folded_to_its_own_side,
    lap_longer_than_the_strip,
    strip_pressed_otherwise,
    tails_overlap_otherwise,
)
from publisher.checks.cautions import caution_missing, iron_too_hot
from publisher.checks.copies_told import done_against_the_words, laid_on_another, like_to_unlike, step_names_another
from publisher.checks.edges_described import edge_described_otherwise
from publisher.checks.edges_told import done_at_another_edge, pressed_in_otherwise
from publisher.checks.ends import ends_joined_too_late, hemmed_after_joining
from publisher.checks.facings import understitched_too_late
from publisher.checks.fellow_edges import (
    fellow_done_at_another_edge,
    fellow_layer_left_out,
    fellow_worked_elsewhere,
    other_side_left_out,
)
from publisher.checks.flaps import too_long_for_the_flap
from publisher.checks.in_turn import (
    binding_out_of_turn,
    hemmed_after_pleating,
    joined_after_folding,
    stitched_before_placing,
    stitched_down_raw,
)
from publisher.checks.inside_out import clipped_too_late, curve_not_clipped, inward_curve_not_snipped, never_turned
from publisher.checks.left_out import (
    edge_left_raw,
    half_never_set,
    raw_end_not_covered,
    strip_end_left_raw,
    strip_never_folded,
    strip_never_joined,
    zip_on_one_side_only,
)
from publisher.checks.lines_sewn import line_on_the_hidden_face, stitching_line_never_sewn
from publisher.checks.lists_told import listed_otherwise
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
from publisher.checks.other_pieces import at_the_other_edge, basted_through_both, other_side_inwards, shown_another
from publisher.checks.pictures import photograph_unfit
from publisher.checks.pleats_told import pleat_folded_otherwise
from publisher.checks.promises import level_too_easy, promised_and_missing, small_parts_for_children
from publisher.checks.reading import (
    abbreviation_unexplained,
    allowance_not_the_edges,
    left_without_viewpoint,
    link_leads_nowhere,
    step_does_much,
)
from publisher.checks.rows_told import last_row_elsewhere, rows_wider_than_the_piece
from publisher.checks.said_of_work import (
    between_folds_not_as_cut,
    casing_sewn_shut,
    cord_runs_back,
    cut_size_told_as_now,
    gathers_locked,
    layer_other_side_up,
    rolled_from_its_tie,
    shortened_otherwise,
    size_of_another_piece,
    understitched_through,
)
from publisher.checks.sayings import (
    count_in_words,
    length_in_one_unit,
    measure_never_read,
    quote_against_word,
    quote_of_another,
)
from publisher.checks.seams_told import (
    double_notches_elsewhere,
    fused_to_the_right_side,
    left_open_and_sewn,
    matched_before_it_is_sewn,
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
from publisher.checks.sides import at_the_wrong_hand, laid_other_face_up, other_side_told
from publisher.checks.stitched_through import stitched_shut_by_the_hem
from publisher.checks.taken_for_done import (
    folded_edge_is_raw,
    hemmed_only_later,
    just_sewn_is_another,
    sides_together_not_as_told,
)
from publisher.checks.tied import ends_left_not_as_told, too_short_for_a_bow
from publisher.checks.times_told import time_left_out, time_too_short
from publisher.checks.told_otherwise import (
    folded_not_as_told,
    folded_wrong_side_out,
    held_by_its_end,
    marked_on_other_face,
    notch_told_and_missing,
    same_name_missing,
    told_and_not_done,
)
from publisher.checks.tools import tool_named_not_listed, tool_not_listed
from publisher.checks.trims import (
    corner_cut_above_the_hem,
    cut_to_finished_length,
    snipped_too_deep,
    snipped_too_little,
    staystitched_beyond_the_seam,
    trimmed_to_no_less,
)
from publisher.checks.turning import (
    gap_too_short,
    no_gap_to_close,
    set_out_of_reach,
    turned_without_gap,
    zip_opened_too_little,
)
from publisher.checks.unmarked import mark_left_out, used_unmarked
from publisher.checks.values import Check
from publisher.checks.words import (
    care_missing,
    length_below_nought,
    loose_number,
    step_too_long,
    terms_missing,
    video_times_backwards,
)
from publisher.checks.words_at_edges import (
    ease_not_as_told,
    fold_at_the_raw_edges,
    named_notch_missing,
    pressed_away_from_stitching,
)
from publisher.checks.work import (
    copy_never_used,
    edge_sewn_twice,
    placement_never_placed,
    seam_never_sewn,
    seam_sewn_twice,
    sewn_to_itself,
)

ASKED_OF_STEPS: tuple[Check, ...] = (
    photograph_unfit,
    ease_not_as_told,
    allowance_not_the_edges,
    gap_too_short,
    stitching_line_never_sewn,
    line_on_the_hidden_face,
    seam_never_sewn,
    seam_sewn_twice,
    edge_sewn_twice,
    sewn_to_itself,
    placement_never_placed,
    copy_never_used,
    between_folds_not_as_cut,
    binding_out_of_turn,
    folded_to_its_own_side,
    strip_pressed_otherwise,
    lap_longer_than_the_strip,
    tails_overlap_otherwise,
    strip_never_folded,
    strip_never_joined,
    joined_after_folding,
    placed_not_fused,
    half_never_set,
    zip_on_one_side_only,
    edge_left_raw,
    strip_end_left_raw,
    raw_end_not_covered,
    stitched_down_raw,
    used_before_cut,
    fused_after_sewing,
    marked_after_use,
    used_unmarked,
    mark_left_out,
    closed_before_turning,
    gap_never_closed,
    no_gap_to_close,
    turned_without_gap,
    zip_opened_too_little,
    notion_never_attached,
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
    staystitched_beyond_the_seam,
    cut_to_finished_length,
    corner_cut_above_the_hem,
    trimmed_to_no_less,
    trimmed_before_the_next,
    just_sewn_is_another,
    hemmed_only_later,
    folded_edge_is_raw,
    sides_together_not_as_told,
    corner_not_mitred,
    curve_not_clipped,
    inward_curve_not_snipped,
    ends_joined_too_late,
    folded_after_sewing,
    hemmed_after_joining,
    hemmed_after_placing,
    stitched_shut_by_the_hem,
    never_turned,
    sewn_when_turned,
    slipped_in_and_not_turned,
    placed_after_sewing,
    pleated_after_placing,
    hemmed_after_pleating,
    stitched_before_placing,
    threaded_too_early,
    trimmed_before_quilting,
    set_out_of_reach,
    cord_runs_back,
    shortened_otherwise,
    casing_sewn_shut,
    ends_left_not_as_told,
    too_short_for_a_bow,
    rolled_from_its_tie,
    too_long_for_the_flap,
    iron_too_hot,
    loose_number,
    count_in_words,
    listed_otherwise,
    length_in_one_unit,
    measure_never_read,
    quote_against_word,
    rows_wider_than_the_piece,
    last_row_elsewhere,
    cut_size_told_as_now,
    size_of_another_piece,
    quote_of_another,
    step_names_another,
    done_against_the_words,
    laid_on_another,
    like_to_unlike,
    shown_another,
    at_the_other_edge,
    done_at_another_edge,
    pressed_in_otherwise,
    left_open_and_sewn,
    matched_before_it_is_sewn,
    fused_to_the_right_side,
    double_notches_elsewhere,
    fellow_done_at_another_edge,
    other_side_left_out,
    fellow_worked_elsewhere,
    fellow_layer_left_out,
    edge_described_otherwise,
    other_side_inwards,
    basted_through_both,
    other_side_told,
    at_the_wrong_hand,
    laid_other_face_up,
    layer_other_side_up,
    pleat_folded_otherwise,
    gathers_locked,
    pressed_away_from_stitching,
    fold_at_the_raw_edges,
    understitched_through,
    understitched_too_late,
    marked_on_other_face,
    folded_not_as_told,
    folded_wrong_side_out,
    held_by_its_end,
    same_name_missing,
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
    care_missing,
    length_below_nought,
    time_too_short,
    time_left_out,
    level_too_easy,
    promised_and_missing,
    small_parts_for_children,
    caution_missing,
)
