"""How to read the figures: a sample of each texture and of each line that a pattern's figures bear."""

from collections.abc import Sequence

from publisher.figures.steps.lines import box_path, line, scissors
from publisher.figures.steps.values import Drawing, DrawnShape, Look, Texture
from publisher.geometry import Point

WIDE, HIGH = 13.0, 7.0
SCISSORS_FROM = 3.0  # so that their handles lie in the sample
# What is told, by the key of its words; what does not differ to the eye shares a sample.
TEXTURES: dict[str, tuple[Texture, ...]] = {
    "figures.key-right": (Texture.PLAIN,),
    "figures.key-wrong": (Texture.WRONG, Texture.LINING_WRONG),
    "figures.key-lining": (Texture.LINING,),
    "figures.key-interfacing": (Texture.INTERFACING,),
    "figures.key-wadding": (Texture.WADDING,),
}
LINES: dict[str, tuple[Look, ...]] = {
    "figures.key-raw": (Look.RAW, Look.BEFORE),
    "figures.key-folded": (Look.FOLDED, Look.BEFORE_FOLDED),
    "figures.key-stitching": (Look.STITCHING,),
    "figures.key-stitched": (Look.STITCHED,),
    "figures.key-cut": (Look.CUT,),
    "figures.key-edge-on": (Look.CLOTH,),
}


def key_samples(drawings: Sequence[Drawing]) -> tuple[tuple[str, Drawing], ...]:
    """(key of its words, the sample) of exactly those that the drawings bear."""
    textures = {shape.texture for one in drawings for shape in one.shapes}
    looks = {shape.look for one in drawings for shape in one.shapes}
    samples = [(key, _area(shown[0])) for key, shown in TEXTURES.items() if textures & set(shown)]
    samples += [(key, _line(shown[0])) for key, shown in LINES.items() if looks & set(shown)]
    return tuple(samples)


def _area(texture: Texture) -> Drawing:
    shape = DrawnShape(box_path(0.5, 0.5, WIDE - 0.5, HIGH - 0.5), Look.RAW, texture, True)
    return Drawing(WIDE, HIGH, (shape,), ())


def _line(look: Look) -> Drawing:
    level = line(Point(0.5, HIGH / 2), Point(WIDE - 0.5, HIGH / 2))
    inside = line(Point(SCISSORS_FROM, HIGH / 2), Point(WIDE - 0.5, HIGH / 2))
    shapes = [DrawnShape(level, look, None, False), *(scissors(inside) if look is Look.CUT else ())]
    if look is Look.CLOTH:
        beside = line(Point(0.5, HIGH / 2 - 0.65), Point(WIDE - 0.5, HIGH / 2 - 0.65))
        shapes.append(DrawnShape(beside, Look.WRONG_TICKS, None, False))
    return Drawing(WIDE, HIGH, tuple(shapes), ())
