"""Points, lines, arcs, cubics, paths and their parallels. Knows nothing of sewing; sewing gives it millimetres."""

from publisher.geometry.arcs import (
    arc_about,
    arc_about_to,
    arc_by_height,
    arc_by_radius,
    arc_leaving,
    arc_through,
    as_cubics,
)
from publisher.geometry.boxes import Crowd, place_box
from publisher.geometry.corner_cuts import Bevelled, Squared
from publisher.geometry.corners import cut_corner, cut_out_corner, round_corner
from publisher.geometry.curve_offsets import TooTight
from publisher.geometry.curves import circle, ellipse, ellipse_arc, smooth_curve, smooth_ring
from publisher.geometry.folding import FoldedBack, OnFold
from publisher.geometry.mapping import mapped, mirrored, mirrored_point
from publisher.geometry.meeting import intersections
from publisher.geometry.offsets import CornerCut, offset_outline
from publisher.geometry.paths import Path, nearest, signed_area
from publisher.geometry.planar import (
    alike_flips,
    all_lines,
    area_within,
    boxes_overlap,
    crossing,
    fills_box,
    folded_along,
    inside,
    length_beside,
    length_near,
    lie_apart,
    line_within,
    outside_of,
    parallel_beside,
    polygon,
    reach_beyond,
    ring_of_all,
    ring_round,
    rings_apart,
    same_area,
    slid_down,
    span_inside,
    stretches_within,
    union_area,
)
from publisher.geometry.points import Box, Movement, Point
from publisher.geometry.scaling import scaled
from publisher.geometry.segments import Arc, Cubic, Line, Segment
from publisher.geometry.shared_lines import shared_stretches

__all__ = [
    "Arc",
    "Bevelled",
    "Box",
    "CornerCut",
    "Crowd",
    "Cubic",
    "FoldedBack",
    "Line",
    "Movement",
    "OnFold",
    "Path",
    "Point",
    "Segment",
    "Squared",
    "TooTight",
    "alike_flips",
    "all_lines",
    "arc_about",
    "arc_about_to",
    "arc_by_height",
    "arc_by_radius",
    "arc_leaving",
    "arc_through",
    "area_within",
    "as_cubics",
    "boxes_overlap",
    "circle",
    "crossing",
    "cut_corner",
    "cut_out_corner",
    "ellipse",
    "ellipse_arc",
    "fills_box",
    "folded_along",
    "inside",
    "intersections",
    "length_beside",
    "length_near",
    "lie_apart",
    "line_within",
    "mapped",
    "mirrored",
    "mirrored_point",
    "nearest",
    "offset_outline",
    "outside_of",
    "parallel_beside",
    "place_box",
    "polygon",
    "reach_beyond",
    "ring_of_all",
    "ring_round",
    "rings_apart",
    "round_corner",
    "same_area",
    "scaled",
    "shared_stretches",
    "signed_area",
    "slid_down",
    "smooth_curve",
    "smooth_ring",
    "span_inside",
    "stretches_within",
    "union_area",
]
