"""Pieces on cloth: layouts, strips, and how much of each material to buy."""

from publisher.cloth.kept import kept_answer
from publisher.cloth.layouts import BIAS_SEAM, lay_out
from publisher.cloth.nesting import solver_installed
from publisher.cloth.questions import Answer, Question, length_of, parts_of, written_answer
from publisher.cloth.solving import AGAIN_SECONDS, FIRST_SECONDS, WORKERS, solve_all
from publisher.cloth.values import Cloth, ClothLayout, Laid, StripPlan

__all__ = [
    "AGAIN_SECONDS",
    "BIAS_SEAM",
    "FIRST_SECONDS",
    "WORKERS",
    "Answer",
    "Cloth",
    "ClothLayout",
    "Laid",
    "Question",
    "StripPlan",
    "kept_answer",
    "lay_out",
    "length_of",
    "parts_of",
    "solve_all",
    "solver_installed",
    "written_answer",
]
