"""The lines of a template page that belong to no piece: frame, joining marks, scale bar. On paper: mm, y down."""

import math

from publisher.figures.pieces import closed_path
from publisher.figures.values import Figure, Stroke, Style
from publisher.geometry import Arc, Line, Path, Point
from publisher.template_pages import JOINING_RADIUS, JoiningMark, TemplatePage

INCH = 25.4
# The scale bar stands in the footer strip: an inch half above its line, centimetres below it.
BAR_TOP = 2.6  # mm below the frame
TICK = 1.6


def furniture_figure(page: TemplatePage) -> Figure:
    """Frame (of a tiled sheet: the line to trim and join by), joining marks and scale bar."""
    strokes = [stroke for mark in page.joining_marks for stroke in joining_strokes(mark)]
    if page.rows * page.columns > 1:
        strokes.append(Stroke(_frame(page), Style.FRAME, closed=True))
    return Figure((*strokes, *scale_bar(page.frame.left, page.frame.top + page.frame.height + BAR_TOP)))


def _frame(page: TemplatePage) -> Path:
    frame = page.frame
    right, bottom = frame.left + frame.width, frame.top + frame.height
    return closed_path(
        (Point(frame.left, frame.top), Point(right, frame.top), Point(right, bottom), Point(frame.left, bottom))
    )


def joining_strokes(mark: JoiningMark) -> list[Stroke]:
    """Half a ring inside the frame; with the other page's half it makes a whole one."""
    start_angle = {"left": -math.pi / 2, "right": math.pi / 2, "top": 0.0, "bottom": math.pi}[mark.side]
    start, end = (
        Point(mark.at.x + JOINING_RADIUS * math.cos(angle), mark.at.y + JOINING_RADIUS * math.sin(angle))
        for angle in (start_angle, start_angle + math.pi)
    )
    return [Stroke(Path((Arc(start, end, mark.at, math.pi),)), Style.JOINING)]


def scale_bar(left: float, top: float) -> list[Stroke]:
    """A line 2 in long with a tick at each inch above and at 0, 2 and 5 cm below, so that one page can be checked alone."""
    inches = [(INCH * at, -TICK) for at in range(3)]
    centimetres = [(0.0, TICK), (20.0, TICK), (50.0, TICK)]
    bar = Stroke(Path((Line(Point(left, top), Point(left + 2 * INCH, top)),)), Style.SCALE)
    ticks = [
        Stroke(Path((Line(Point(left + along, top), Point(left + along, top + reach)),)), Style.SCALE)
        for along, reach in (*inches, *centimetres)
    ]
    return [bar, *ticks]
