"""What each style of line looks like: its width and dashes, black on white, plain enough for any home printer."""

from publisher.figures.values import Style
from publisher.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Pen:
    """Width in mm, dashes in mm (on, off, …); `filled` areas have no outline."""

    width: float
    dashes: tuple[float, ...] = ()
    filled: bool = False
    backed: bool = False  # white inside, so that it hides what was drawn before


# Widths from the series 0.13 0.18 0.25 0.35 0.5 0.7 of ISO 128, its long-dash dot for fold lines (from memory).
PENS: dict[Style, Pen] = {
    Style.CUT: Pen(0.5),
    # Of a nest: heavier where sizes share a line, so that whoever follows her own sees where it joins the others.
    Style.CUT_SHARED: Pen(0.7),
    # Of a nest: as wide as a cut line, so that none is taken for a line to sew or fold by; gaps that scissors jump.
    Style.CUT_LONG_DASH: Pen(0.5, (12.0, 1.8)),
    Style.CUT_DASH_DOT: Pen(0.5, (9.0, 1.5, 1.2, 1.5)),
    Style.CUT_DASH_DOT_DOT: Pen(0.5, (9.0, 1.5, 1.2, 1.5, 1.2, 1.5)),
    Style.CUT_SHORT_DASH: Pen(0.5, (4.0, 1.8)),
    Style.CUT_DOTTED: Pen(0.5, (1.2, 1.2)),
    Style.FINISHED: Pen(0.25, (3.0, 1.5)),
    Style.NOTCH: Pen(0.5),
    Style.POINT: Pen(0.35),
    Style.FOLD: Pen(0.25, (8.0, 1.5, 0.5, 1.5)),
    Style.INNER_FOLD: Pen(0.25, (8.0, 1.5, 0.5, 1.5, 0.5, 1.5)),
    Style.PLACEMENT: Pen(0.25, (0.8, 1.6)),
    Style.STITCHING: Pen(0.35, (1.5, 1.5)),
    Style.TRIM: Pen(0.35, (6.0, 2.0)),
    Style.STRETCH: Pen(0.25),
    Style.GRAIN: Pen(0.35),
    Style.FRAME: Pen(0.18),
    Style.JOINING: Pen(0.35),
    Style.SCALE: Pen(0.25),
    Style.LEADER: Pen(0.18),
    Style.PLAN: Pen(0.35),
    Style.SMALL_CUT: Pen(0.25),
    Style.SMALL_FINISHED: Pen(0.18, (0.6, 0.5)),
    Style.OVERLAY: Pen(0.35, backed=True),
    Style.SOLID: Pen(0.0, (), True),
}
