"""What is asked of pieces, seams, placements, notions and cloth, whatever the steps do with them."""

from publisher.checks.allowances import allowance_in_the_outline, allowance_not_throughout, allowance_told_as_missing
from publisher.checks.backings import fused_and_sewn_in, fused_to_another, patch_under_interfacing
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
    more_cut_than_sewn,
    pair_cut_alike,
    too_few_for_each,
)
from publisher.checks.crowded import marks_coincide, notch_kinds_differ, pleat_on_a_line
from publisher.checks.curves import gap_on_a_curve, long_curve_without_notches
from publisher.checks.cut_from import layers_cut_unalike, material_for_another
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
from publisher.checks.fellows import fellow_reckoned_otherwise
from publisher.checks.finished_sizes import finished_size_against_word, finished_size_of_a_part
from publisher.checks.fit import (
    allowances_of_partners_differ,
    ease_too_large,
    gap_too_long,
    placed_edges_apart,
    placed_marks_apart,
    placement_overhangs,
    seam_lengths_differ,
)
from publisher.checks.holding import (
    casing_left_out,
    casing_too_narrow,
    lining_larger_than_outside,
    lining_shorter_than_outside,
    pocket_too_small,
)
from publisher.checks.kinds import fastened_otherwise, notion_kind_untold, notion_without_size, thread_not_listed
from publisher.checks.layers import (
    bulky_seam,
    folded_against_the_nap,
    heat_on_what_melts,
    print_upside_down,
    strap_too_thick,
)
from publisher.checks.marks import (
    line_off_piece,
    mark_off_piece,
    mark_on_the_hidden_half,
    mark_without_template,
    notch_off_centre,
    pair_left_over,
)
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
from publisher.checks.notches_alone import notch_on_a_hem
from publisher.checks.pockets import laid_and_not_sewn, off_the_middle, opening_sewn_shut, pocket_not_as_measured
from publisher.checks.sizes import (
    between_is_a_whole_size,
    depth_not_the_corners,
    nested_lines_close,
    size_guide_ease,
    uneven_grading,
)
from publisher.checks.strips import (
    binding_sewn_too_far_in,
    both_ends_at_one_place,
    folded_strip_cut_plain,
    loop_longer_than_its_piece,
    loop_lost_in_the_seam,
    one_end_held_twice,
    strap_on_the_bias,
    strip_caught_in_next_seam,
    strip_shorter_than_its_place,
)
from publisher.checks.turned_round import edges_in_one_sense
from publisher.checks.units import native_pair_apart
from publisher.checks.values import Check
from publisher.checks.zips import (
    stop_in_the_seam,
    zip_apart_from_opening,
    zip_ends_too_short,
    zip_left_closed,
    zip_showing_not_as_seamed,
    zip_sides_differ,
)

ASKED_OF_PIECES: tuple[Check, ...] = (
    seam_lengths_differ,
    ease_too_large,
    allowances_of_partners_differ,
    allowance_in_the_outline,
    allowance_told_as_missing,
    allowance_not_throughout,
    gap_too_long,
    notches_apart,
    corner_meets_nothing,
    notch_on_a_hem,
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
    mark_on_the_hidden_half,
    measured_from_the_finished_edge,
    measured_from_another_edge,
    notch_off_centre,
    marks_coincide,
    notch_kinds_differ,
    pleat_on_a_line,
    pair_left_over,
    laid_and_not_sewn,
    off_the_middle,
    opening_sewn_shut,
    binding_too_short,
    binding_left_over,
    bound_edge_with_allowance,
    binding_not_on_bias,
    binding_wider_than_allowance,
    binding_cut_narrow,
    binding_sewn_too_far_in,
    hem_on_curve,
    left_undone,
    hem_without_allowance,
    hem_not_as_told,
    hemmed_and_stitched_shut,
    seam_without_allowance,
    raw_edge_left,
    strip_shorter_than_its_place,
    loop_lost_in_the_seam,
    loop_longer_than_its_piece,
    both_ends_at_one_place,
    one_end_held_twice,
    strip_caught_in_next_seam,
    folded_strip_cut_plain,
    strap_on_the_bias,
    native_pair_apart,
    fellow_reckoned_otherwise,
    nested_lines_close,
    size_guide_ease,
    uneven_grading,
    between_is_a_whole_size,
    depth_not_the_corners,
    notion_kind_untold,
    notion_without_size,
    fastened_otherwise,
    thread_not_listed,
    long_curve_without_notches,
    gap_on_a_curve,
    zip_apart_from_opening,
    stop_in_the_seam,
    zip_left_closed,
    zip_ends_too_short,
    zip_sides_differ,
    zip_showing_not_as_seamed,
    sewn_through_its_lining,
    pocket_too_small,
    pocket_not_as_measured,
    casing_left_out,
    casing_too_narrow,
    lining_larger_than_outside,
    lining_shorter_than_outside,
    heat_on_what_melts,
    bulky_seam,
    print_upside_down,
    folded_against_the_nap,
    strap_too_thick,
    fused_twice,
    fused_to_another,
    patch_under_interfacing,
    fused_without_glue,
    fused_and_sewn_in,
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
    more_cut_than_sewn,
    ring_too_narrow,
    tube_too_narrow,
    patch_too_small,
    hardware_in_the_seam,
    pieces_easily_confused,
    finished_size_against_word,
    finished_size_of_a_part,
)
