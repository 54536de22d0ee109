"""Pieces on cloth: layouts, strips, and how much of each material to buy."""

from publisher.cloth.arranging import KeptFiles
from publisher.cloth.at_hand import AtHand, FromStock, LaidOn, NotLaid, from_stock, unanswered_on
from publisher.cloth.cuts import fold_way
from publisher.cloth.kept import kept_answer
from publisher.cloth.layouts import lay_out
from publisher.cloth.lying import rough_box
from publisher.cloth.nesting import solver_installed
from publisher.cloth.planning import cut_for_many, plan_cloth
from publisher.cloth.questions import Answer, Question, length_of, parts_of, written_answer
from publisher.cloth.solving import AGAIN_SECONDS, FIRST_SECONDS, WORKERS, solve_all
from publisher.cloth.usable import BIAS_SEAM, has_selvages
from publisher.cloth.values import Cloth, ClothLayout, Laid, StripPlan

__all__ = [
    "AGAIN_SECONDS",
    "BIAS_SEAM",
    "FIRST_SECONDS",
    "WORKERS",
    "Answer",
    "AtHand",
    "Cloth",
    "ClothLayout",
    "FromStock",
    "KeptFiles",
    "Laid",
    "LaidOn",
    "NotLaid",
    "Question",
    "StripPlan",
    "cut_for_many",
    "fold_way",
    "from_stock",
    "has_selvages",
    "kept_answer",
    "lay_out",
    "length_of",
    "parts_of",
    "plan_cloth",
    "rough_box",
    "solve_all",
    "solver_installed",
    "unanswered_on",
    "written_answer",
]
