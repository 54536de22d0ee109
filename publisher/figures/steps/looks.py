"""How each line and each texture of a step's figure looks: widths and dashes in mm on paper, black on white."""

from publisher.figures.steps.values import Look, Texture
from publisher.figures.style import Pen

LOOKS: dict[Look, Pen] = {
    Look.RAW: Pen(0.3),
    Look.FOLDED: Pen(0.6),
    Look.BEFORE: Pen(0.16),
    Look.BEFORE_FOLDED: Pen(0.35),
    Look.HIDDEN: Pen(0.16, (0.5, 0.7)),
    Look.CUT: Pen(0.7),
    Look.STITCHING: Pen(0.65, (2.0, 1.2)),
    Look.STITCHED: Pen(0.18, (1.2, 0.8)),
    Look.FOLD: Pen(0.25, (4.0, 0.9, 0.5, 0.9)),
    Look.INNER_FOLD: Pen(0.25, (4.0, 0.9, 0.5, 0.9, 0.5, 0.9)),
    Look.PLACEMENT: Pen(0.25, (0.5, 0.9)),
    Look.MARK: Pen(0.45),
    Look.MARK_BEFORE: Pen(0.18),
    Look.CLOTH: Pen(0.6),
    Look.CLOTH_BEFORE: Pen(0.3),
    Look.WRONG_TICKS: Pen(0.8, (0.14, 1.2)),  # a broad line in short dashes: a row of strokes
    Look.CORD: Pen(0.9),
    Look.CORD_WITHIN: Pen(0.7, (0.7, 1.0)),
    Look.SIGN: Pen(0.3),
    Look.ARROW: Pen(0.5),
    Look.THIN: Pen(0.16),
    Look.SOLID: Pen(0.0, (), True),
}

HATCH = 1.7  # mm between the lines of a wrong side


# A texture: the size of its tile, how it is turned (degrees), and the strokes of one tile: (width, path data).
Tile = tuple[float, float, int, tuple[tuple[float, str], ...]]
_WRONG: tuple[float, str] = (0.12, f"M0 {HATCH / 2}L{HATCH} {HATCH / 2}")
TILES: dict[Texture, Tile] = {
    Texture.WRONG: (HATCH, HATCH, 45, (_WRONG,)),
    Texture.LINING: (1.8, 1.8, 45, ((0.3, "M0.6 0.9L0.9 0.9"),)),
    Texture.LINING_WRONG: (
        2 * HATCH,
        2 * HATCH,
        45,
        (
            (0.12, f"M0 {HATCH / 2}L{2 * HATCH} {HATCH / 2}"),
            (0.12, f"M0 {HATCH * 1.5}L{2 * HATCH} {HATCH * 1.5}"),
            (0.3, f"M0.5 {HATCH}L0.8 {HATCH}"),
        ),
    ),
    Texture.INTERFACING: (1.6, 1.6, 45, ((0.1, "M0 0.8L1.6 0.8"), (0.1, "M0.8 0L0.8 1.6"))),
    Texture.WADDING: (3.2, 2.2, 0, ((0.13, "M0 1.5C0.4 0.3 1.2 0.3 1.6 1.5C2 0.3 2.8 0.3 3.2 1.5"),)),
}
