"""Figures as values, and their writers: pieces, check block, page furniture, page plan, samples of marks, labels."""

from publisher.figures.boxed_corners import boxed_corners
from publisher.figures.chart_shapes import chart_scale, chart_shape
from publisher.figures.check_block import (
    CARD_LONG,
    CARD_RADIUS,
    CARD_SHORT,
    Caption,
    check_block_captions,
    check_block_figure,
)
from publisher.figures.cover import cover_figure
from publisher.figures.cutting_layouts import LayoutWords, in_rows, layout_drawing, layout_scale
from publisher.figures.grain_arrow import grain_arrow
from publisher.figures.label_values import Label, LabelLine, TextFitter
from publisher.figures.labels import label_page
from publisher.figures.lettered import LetteredPiece, PlacedLetter, lettered_piece
from publisher.figures.nests import nest_figures
from publisher.figures.page_furniture import furniture_figure
from publisher.figures.page_plan import PagePlan, PageThumbnail, Pieces, SheetDrawing, page_plan
from publisher.figures.pdf_writer import pdf_operators
from publisher.figures.pieces import piece_figure
from publisher.figures.samples import LINE_HEIGHT, mark_samples, size_samples
from publisher.figures.steps import (
    BiasSquare,
    Drawing,
    Lettering,
    Panel,
    StepFacts,
    drawing_svg,
    facts_of,
    finished_of,
    key_samples,
    lay_out,
    panels_of,
    quilted_by,
)
from publisher.figures.style import PENS, Pen
from publisher.figures.svg import figure_svg
from publisher.figures.values import Figure, Stroke, Style

__all__ = [
    "CARD_LONG",
    "CARD_RADIUS",
    "CARD_SHORT",
    "LINE_HEIGHT",
    "PENS",
    "BiasSquare",
    "Caption",
    "Drawing",
    "Figure",
    "Label",
    "LabelLine",
    "LayoutWords",
    "LetteredPiece",
    "Lettering",
    "PagePlan",
    "PageThumbnail",
    "Panel",
    "Pen",
    "Pieces",
    "PlacedLetter",
    "SheetDrawing",
    "StepFacts",
    "Stroke",
    "Style",
    "TextFitter",
    "boxed_corners",
    "chart_scale",
    "chart_shape",
    "check_block_captions",
    "check_block_figure",
    "cover_figure",
    "drawing_svg",
    "facts_of",
    "figure_svg",
    "finished_of",
    "furniture_figure",
    "grain_arrow",
    "in_rows",
    "key_samples",
    "label_page",
    "lay_out",
    "layout_drawing",
    "layout_scale",
    "lettered_piece",
    "mark_samples",
    "nest_figures",
    "page_plan",
    "panels_of",
    "pdf_operators",
    "piece_figure",
    "quilted_by",
    "size_samples",
]
