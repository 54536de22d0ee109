"""Figures of steps, drawn from the draft: a language of shapes, marks and callouts, the kinds of figure, their layout."""

from publisher.figures.steps.chosen import finished_of, panels_of
from publisher.figures.steps.facts import BiasSquare, StepFacts, facts_of, quilted_by
from publisher.figures.steps.key import key_samples
from publisher.figures.steps.layout import WIDEST, lay_out
from publisher.figures.steps.values import Drawing, Lettering, Panel
from publisher.figures.steps.writer import drawing_svg

__all__ = [
    "WIDEST",
    "BiasSquare",
    "Drawing",
    "Lettering",
    "Panel",
    "StepFacts",
    "drawing_svg",
    "facts_of",
    "finished_of",
    "key_samples",
    "lay_out",
    "panels_of",
    "quilted_by",
]
