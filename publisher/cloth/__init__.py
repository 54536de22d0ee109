"""Pieces on cloth: layouts, strips, and how much of each material to buy."""

from publisher.cloth.layouts import BIAS_SEAM, lay_out
from publisher.cloth.values import Cloth, ClothLayout, Laid, StripPlan

__all__ = ["BIAS_SEAM", "Cloth", "ClothLayout", "Laid", "StripPlan", "lay_out"]
