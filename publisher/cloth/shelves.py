"""A plain arrangement: rectangles in rows across the cloth, the longest first."""

from collections.abc import Sequence

from publisher.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Rectangle:
    """What is laid: `width` across the cloth, `length` along it, mm; `free` may be turned a quarter turn."""

    name: str
    nth: int
    width: float
    length: float
    free: bool = False


@dataclass(frozen=True, slots=True)
class Shelved:
    """Where a rectangle lies: its corner nearest the cut end and the left selvage, mm."""

    rectangle: Rectangle
    x: float
    y: float
    turned: bool

    @property
    def width(self) -> float:
        """Across the cloth as laid, mm."""
        return self.rectangle.length if self.turned else self.rectangle.width

    @property
    def length(self) -> float:
        """Along the cloth as laid, mm."""
        return self.rectangle.width if self.turned else self.rectangle.length


class TooWide(ValueError):
    """A rectangle that no way round fits across the cloth."""

    def __init__(self, rectangle: Rectangle, width: float) -> None:
        super().__init__(f"{rectangle.name} is {rectangle.width:.4g} mm wide on cloth of {width:.4g} mm")
        self.rectangle = rectangle


def arrange_in_rows(rectangles: Sequence[Rectangle], width: float, gap: float) -> tuple[tuple[Shelved, ...], float]:
    """Rows across a cloth of `width`, `gap` between neighbours (mm), and the length of cloth they take.

    First fit by falling length: each goes to the first row with room, else opens a row. Raises TooWide.
    """
    ways = [_best_way(rectangle, width) for rectangle in rectangles]
    ways.sort(key=lambda way: (-way[1], -way[0], way[2].name, way[2].nth))
    rows: list[tuple[float, float, float]] = []  # start, length, width taken
    laid: list[Shelved] = []
    for across, along, rectangle in ways:
        at = next((at for at, row in enumerate(rows) if row[2] + gap + across <= width + 1e-6), None)
        if at is None:
            start = rows[-1][0] + rows[-1][1] + gap if rows else 0.0
            rows.append((start, along, across))
            x = 0.0
        else:
            start, length, taken = rows[at]
            x = taken + gap
            rows[at] = (start, length, x + across)
        laid.append(Shelved(rectangle, x, start, turned=across != rectangle.width))
    return tuple(laid), (rows[-1][0] + rows[-1][1] if rows else 0.0)


def _best_way(rectangle: Rectangle, width: float) -> tuple[float, float, Rectangle]:
    """Across and along: as it is, or turned when it may be and lies flatter or fits only so."""
    across, along = rectangle.width, rectangle.length
    if rectangle.free and (across > width or along > across) and along <= width:
        across, along = along, across
    if across > width + 1e-6:
        raise TooWide(rectangle, width)
    return across, along, rectangle
