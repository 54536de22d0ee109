"""Points, lines, arcs, cubics, paths and their parallels. Knows nothing of sewing; sewing gives it millimetres."""

from publisher.geometry.arcs import arc_by_height, arc_by_radius, as_cubics
from publisher.geometry.boxes import place_box
from publisher.geometry.corners import cut_corner, round_corner
from publisher.geometry.curve_offsets import TooTight
from publisher.geometry.mapping import mapped, mirrored, mirrored_point
from publisher.geometry.meeting import intersections
from publisher.geometry.offsets import offset_outline
from publisher.geometry.paths import Path, nearest, signed_area
from publisher.geometry.planar import (
    boxes_overlap,
    crossing,
    fills_box,
    flipped_alike,
    inside,
    polygon,
    span_inside,
    stretches_within,
)
from publisher.geometry.points import Box, Movement, Point
from publisher.geometry.scaling import scaled
from publisher.geometry.segments import Arc, Cubic, Line, Segment

__all__ = [
    "Arc",
    "Box",
    "Cubic",
    "Line",
    "Movement",
    "Path",
    "Point",
    "Segment",
    "TooTight",
    "arc_by_height",
    "arc_by_radius",
    "as_cubics",
    "boxes_overlap",
    "crossing",
    "cut_corner",
    "fills_box",
    "flipped_alike",
    "inside",
    "intersections",
    "mapped",
    "mirrored",
    "mirrored_point",
    "nearest",
    "offset_outline",
    "place_box",
    "polygon",
    "round_corner",
    "scaled",
    "signed_area",
    "span_inside",
    "stretches_within",
]
