"""Pieces on paper: pages, tiles, joining marks."""

from publisher.template_pages.joining import JOINING_RADIUS
from publisher.template_pages.nests import (
    MOST_NESTED,
    Nest,
    NestedLine,
    NestedMark,
    NotchSign,
    Template,
    nest_of,
    nested,
    nested_pieces,
    templates_of,
)
from publisher.template_pages.planning import plan_pages
from publisher.template_pages.values import (
    DEFAULT_EDITIONS,
    EDITIONS,
    Edition,
    Frame,
    JoiningMark,
    Neighbour,
    Paper,
    PlacedPiece,
    TemplatePage,
    TemplatePages,
)

__all__ = [
    "DEFAULT_EDITIONS",
    "EDITIONS",
    "JOINING_RADIUS",
    "MOST_NESTED",
    "Edition",
    "Frame",
    "JoiningMark",
    "Neighbour",
    "Nest",
    "NestedLine",
    "NestedMark",
    "NotchSign",
    "Paper",
    "PlacedPiece",
    "Template",
    "TemplatePage",
    "TemplatePages",
    "nest_of",
    "nested",
    "nested_pieces",
    "plan_pages",
    "templates_of",
]
