"""How long strips are pieced from the usable width of the cloth, and how bias strips come from a square. Millimetres."""

import math


def strips_needed(length: float, width_of_cloth: float, loss: float) -> int:
    """How many strips across the cloth make up `length` when each join takes `loss`, all in mm.

    n strips give n·W − (n − 1)·loss, so n = ⌈(L − loss) / (W − loss)⌉ (derived). Raises ValueError where the cloth is
    no wider than what a join takes.
    """
    if length <= width_of_cloth:
        return 1
    if width_of_cloth <= loss:
        raise ValueError(f"the cloth is {width_of_cloth:.4g} mm wide and a join takes {loss:.4g} mm")
    return math.ceil((length - loss) / (width_of_cloth - loss) - 1e-9)


def join_loss(joins: str, strip_width: float, allowance: float) -> float:
    """What one join of two square-ended strips takes, mm: on the diagonal the strip's width, straight both allowances."""
    return strip_width if joins == "diagonal" else 2 * allowance


def bias_rounds(square: float, strip_width: float, seam: float) -> int:
    """How many times a continuous bias strip goes round a square sewn into a tube: ⌊(a − 2s) / (√2·w)⌋ (derived)."""
    return max(math.floor((square - 2 * seam) / (math.sqrt(2) * strip_width) + 1e-9), 0)


def bias_length(square: float, strip_width: float, seam: float) -> float:
    """How long a continuous bias strip comes from a square, mm: k·√2·(a − 2s), less w for squaring its ends (derived).

    It stays below the bound (a − 2s)·a / w that no cutting can pass.
    """
    rounds = bias_rounds(square, strip_width, seam)
    return max(rounds * math.sqrt(2) * (square - 2 * seam) - strip_width, 0.0)


def bias_square(length: float, strip_width: float, seam: float, step: float) -> float:
    """The side of the smallest square, in whole steps, that gives a bias strip of `length`, mm."""
    # The area rule √(L·w) undersizes it, so it is where to begin.
    steps = max(math.floor(math.sqrt(length * strip_width) / step), 1)
    while bias_length(steps * step, strip_width, seam) < length:
        steps += 1
    return steps * step
