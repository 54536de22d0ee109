"""How long strips are pieced from the usable width of the cloth."""

import math


def strips_needed(length: float, width_of_cloth: float, strip_width: float) -> int:
    """How many strips across the cloth make up `length` when joined on the diagonal, all in mm.

    Each diagonal join of two square-ended strips takes the strip's own width, so n strips give
    n·W − (n − 1)·w, and n = ⌈(L − w) / (W − w)⌉ (derived). Raises ValueError where the cloth is no wider
    than the strip.
    """
    if length <= width_of_cloth:
        return 1
    if width_of_cloth <= strip_width:
        raise ValueError(f"the cloth is {width_of_cloth:.4g} mm wide and the strip {strip_width:.4g} mm")
    return math.ceil((length - strip_width) / (width_of_cloth - strip_width) - 1e-9)


def join_loss(count: int, strip_width: float) -> float:
    """What the diagonal joins of `count` strips take in all, mm."""
    return (count - 1) * strip_width
