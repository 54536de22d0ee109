"""A figure: strokes and fills in styles that have names, in mm. Writers turn it into SVG or PDF drawing."""

from enum import Enum

from publisher.frozen import dataclass
from publisher.geometry import Path


class Style(Enum):
    """What a line means; each writer gives each style its width and dashes (in style.py)."""

    CUT = "cut line"
    CUT_SHARED = "cut line of several sizes"
    CUT_LONG_DASH = "cut line of the second size"
    CUT_DASH_DOT = "cut line of the third size"
    CUT_DASH_DOT_DOT = "cut line of the fourth size"
    CUT_SHORT_DASH = "cut line of the fifth size"
    CUT_DOTTED = "cut line of the sixth size"
    FINISHED = "finished line"
    NOTCH = "notch"
    POINT = "point"
    FOLD = "fold line"
    INNER_FOLD = "inner fold"
    PLACEMENT = "placement line"
    STITCHING = "stitching line"
    TRIM = "trim line"
    STRETCH = "stretch of an edge"
    GRAIN = "grain"
    FRAME = "frame"
    JOINING = "joining mark"
    SCALE = "scale"
    LEADER = "leader"
    PLAN = "piece in the page plan"
    SMALL_CUT = "cut line drawn small"
    SMALL_FINISHED = "finished line drawn small"
    OVERLAY = "what lies on top"  # on text pages only: it hides what is below
    SOLID = "solid"  # filled black, no stroke: arrow heads


@dataclass(frozen=True, slots=True)
class Stroke:
    """One path in one style; `closed` joins its ends."""

    path: Path
    style: Style
    closed: bool = False


@dataclass(frozen=True, slots=True)
class Figure:
    """Strokes in drawing order, mm, y up for pieces; `width` × `height` when it stands alone."""

    strokes: tuple[Stroke, ...]
    width: float = 0.0
    height: float = 0.0
