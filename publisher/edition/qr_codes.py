"""A link as a QR code (ISO/IEC 18004), drawn as one path: read by a telephone's camera from paper."""

from itertools import groupby, pairwise

import segno

from publisher.figures import Figure, Stroke, Style, figure_svg
from publisher.geometry import Line, Path, Point

MODULE = 0.55  # mm: the smallest square; a telephone at arm's length parts half a millimetre
QUIET = 4  # modules of white all round, as the standard asks


def qr_svg(link: str, title: str) -> str:
    """The code of a link as SVG at true size; a fifth of it may be lost and it still reads (level M)."""
    rows = [[bool(module) for module in row] for row in segno.make(link, error="m", micro=False).matrix]
    side = (len(rows) + 2 * QUIET) * MODULE
    strokes = tuple(
        Stroke(_bar(at, first, last), Style.SOLID, closed=True)
        for at, row in enumerate(rows)
        for first, last in _dark(row)
    )
    return figure_svg(Figure(strokes, side, side), title)


def _dark(row: list[bool]) -> list[tuple[int, int]]:
    """From where to where a row is dark."""
    found: list[tuple[int, int]] = []
    at = 0
    for dark, run in groupby(row):
        length = len(list(run))
        if dark:
            found.append((at, at + length))
        at += length
    return found


def _bar(row: int, first: int, last: int) -> Path:
    left, right = (first + QUIET) * MODULE, (last + QUIET) * MODULE
    top, foot = (row + QUIET) * MODULE, (row + 1 + QUIET) * MODULE
    corners = (Point(left, top), Point(right, top), Point(right, foot), Point(left, foot), Point(left, top))
    return Path(tuple(Line(one, other) for one, other in pairwise(corners)))


def link_at(video: str, time: str) -> str:
    """The link to a moment of a video, by a media fragment (W3C Media Fragments URI 1.0): `#t=265`."""
    seconds = 0
    for part in time.split(":"):
        seconds = seconds * 60 + int(part)
    return f"{video.partition('#')[0]}#t={seconds}"
