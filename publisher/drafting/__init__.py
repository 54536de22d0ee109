"""Drafts every piece of every variant: edges, cut lines, marks, copies, seams and placements, in millimetres."""

from publisher.drafting.drafter import draft_variant, draft_variants, variants_of
from publisher.drafting.goods import PRECUTS
from publisher.drafting.goods_values import Material, Notion, Repeat, Weight, Width
from publisher.drafting.mark_values import (
    STRETCHES,
    GrainLine,
    Hem,
    LineMark,
    Mark,
    Notch,
    PathMark,
    Pleat,
    PointMark,
    mark_spots,
)
from publisher.drafting.quotes import written_quotes
from publisher.drafting.seam_values import Binding, Laying, Placement, Seam, SeamEdge
from publisher.drafting.snips import snipped_notches
from publisher.drafting.values import Copy, Draft, Edge, Grain, JointEdge, Piece, PieceKind, Quoted, Sizing, Strip

__all__ = [
    "PRECUTS",
    "STRETCHES",
    "Binding",
    "Copy",
    "Draft",
    "Edge",
    "Grain",
    "GrainLine",
    "Hem",
    "JointEdge",
    "Laying",
    "LineMark",
    "Mark",
    "Material",
    "Notch",
    "Notion",
    "PathMark",
    "Piece",
    "PieceKind",
    "Placement",
    "Pleat",
    "PointMark",
    "Quoted",
    "Repeat",
    "Seam",
    "SeamEdge",
    "Sizing",
    "Strip",
    "Weight",
    "Width",
    "draft_variant",
    "draft_variants",
    "mark_spots",
    "snipped_notches",
    "variants_of",
    "written_quotes",
]
