"""Pleats for the legend: their lines as on the templates, and beside them the cloth folded, seen from its edge.

The lines are so long that each shows all of its dashes, by which alone they are told apart.
"""

from itertools import pairwise

from publisher.figures.pieces import arrow_strokes
from publisher.figures.values import Stroke, Style
from publisher.geometry import Line, Path, Point

PLEAT_HEIGHT = 23.0  # mm: the longest dashes, of an inner fold, come again after 13.5
ARROWS = 3.0  # mm from the foot, where they lie on no dot
SECTION = 5.5  # that the folded cloth is moved up to the middle

Corners = tuple[tuple[float, float], ...]

# Right side up, a layer every 2 mm.
PLEAT_SECTIONS: dict[str, Corners] = {
    "knife pleat": ((19, 3), (28, 3), (28, 5), (23, 5), (23, 7), (33, 7)),
    "box pleat": ((19, 3), (25.6, 3), (25.6, 5), (22, 5), (22, 7), (30, 7), (30, 5), (26.4, 5), (26.4, 3), (33, 3)),
    "inverted pleat": (
        (19, 7),
        (25.6, 7),
        (25.6, 5),
        (22, 5),
        (22, 3),
        (30, 3),
        (30, 5),
        (26.4, 5),
        (26.4, 7),
        (33, 7),
    ),
    "tuck": ((19, 3), (25.6, 3), (25.6, 9), (26.4, 9), (26.4, 3), (33, 3)),
}
# On the left half: (where, style) of each line, and the arrows between them, mm from the left.
_LINES: dict[str, tuple[tuple[float, Style], ...]] = {
    "knife pleat": ((3, Style.PLACEMENT), (8, Style.INNER_FOLD), (13, Style.FOLD)),
    "box pleat": (
        (1, Style.PLACEMENT),
        (3.5, Style.INNER_FOLD),
        (6, Style.FOLD),
        (10, Style.FOLD),
        (12.5, Style.INNER_FOLD),
        (15, Style.PLACEMENT),
    ),
    "inverted pleat": (
        (2, Style.FOLD),
        (5, Style.INNER_FOLD),
        (8, Style.PLACEMENT),
        (11, Style.INNER_FOLD),
        (14, Style.FOLD),
    ),
    "tuck": ((4, Style.STITCHING), (8, Style.FOLD), (12, Style.STITCHING)),
}
_ARROWS: dict[str, tuple[tuple[float, float], ...]] = {
    "knife pleat": ((13, 3),),
    "box pleat": ((6, 1), (10, 15)),
    "inverted pleat": ((2, 8), (14, 8)),
    "tuck": (),
}


def pleat_sample(kind: str) -> list[Stroke]:
    """The strokes of a sample, mm, y up."""
    strokes = [Stroke(_line((at, PLEAT_HEIGHT - 1), (at, 1)), style) for at, style in _LINES[kind]]
    strokes += [
        stroke for start, tip in _ARROWS[kind] for stroke in arrow_strokes(Point(start, ARROWS), Point(tip, ARROWS))
    ]
    folded = [(across, up + SECTION) for across, up in PLEAT_SECTIONS[kind]]
    return [*strokes, *(Stroke(_line(*pair), Style.CUT) for pair in pairwise(folded))]


def _line(start: tuple[float, float], end: tuple[float, float]) -> Path:
    return Path((Line(Point(*start), Point(*end)),))
