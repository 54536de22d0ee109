"""Pieces on paper: pages, tiles, joining marks."""

from publisher.template_pages.joining import JOINING_RADIUS
from publisher.template_pages.planning import Template, plan_pages, templates_of
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
    "Edition",
    "Frame",
    "JoiningMark",
    "Neighbour",
    "Paper",
    "PlacedPiece",
    "Template",
    "TemplatePage",
    "TemplatePages",
    "plan_pages",
    "templates_of",
]
