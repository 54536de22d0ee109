"""How wide a text is in the product's own fonts, from their advance widths."""

from functools import cache
from pathlib import Path

from fontTools.ttLib import TTFont

# The page library may shape text a little wider than the bare advances add up to.
RESERVE = 1.03


@cache
def _advances(font: Path) -> tuple[dict[int, str], dict[str, int], int]:
    with TTFont(font, lazy=True) as opened:
        widths = {name: advance for name, (advance, _) in opened["hmtx"].metrics.items()}
        return dict(opened.getBestCmap()), widths, int(opened["head"].unitsPerEm)


def text_width(text: str, font: Path, points: float) -> float:
    """The width in mm of one line at a size in points; a sign that the font lacks counts as an em."""
    glyphs, widths, em = _advances(font)
    units = sum(widths[glyphs[ord(sign)]] if ord(sign) in glyphs else em for sign in text)
    return units / em * points * 25.4 / 72 * RESERVE
