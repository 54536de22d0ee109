"""Points, lines, arcs, cubics, paths and their parallels. Knows nothing of sewing; sewing gives it millimetres."""

from publisher.geometry.arcs import arc_by_height, arc_by_radius, as_cubics
from publisher.geometry.boxes import Crowd, place_box
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
    length_near,
    polygon,
    span_inside,
    stretches_within,
    union_area,
)
from publisher.geometry.points import Box, Movement, Point
from publisher.geometry.scaling import scaled
from publisher.geometry.segments import Arc, Cubic, Line, Segment
from publisher.geometry.shared_lines import shared_stretches
from publisher.geometry.trimming import TooTight, round_corner

__all__ = [
    "Arc",
    "Box",
    "Crowd",
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
    "fills_box",
    "flipped_alike",
    "inside",
    "intersections",
    "length_near",
    "mapped",
    "mirrored",
    "mirrored_point",
    "nearest",
    "offset_outline",
    "place_box",
    "polygon",
    "round_corner",
    "scaled",
    "shared_stretches",
    "signed_area",
    "span_inside",
    "stretches_within",
    "union_area",
]
