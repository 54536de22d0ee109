"""The signs of spots on a piece: each with a crossing at its middle, told apart by shape alone. mm."""

from publisher.figures.values import Stroke, Style
from publisher.geometry import Arc, Line, Path, Point
from publisher.geometry import circle as ring_of

REACH = 4.5  # half the cross of a point, which runs out of its ring so that its middle can be found
RADII: dict[str, tuple[float, ...]] = {
    "point": (2.5,),
    "snap": (3.5, 1.6),
    "button": (4.2,),
    "eyelet": (4.2, 2.6),
    "ring": (4.2, 3.4),
    "drill hole": (),
}
# Half of each arm of the cross, straight or turned by an eighth; nought where a solid dot stands in its place.
ARMS: dict[str, tuple[float, bool]] = {
    "point": (REACH, False),
    "snap": (0.9, False),
    "button": (2.0, True),
    "eyelet": (1.2, False),
    "ring": (1.2, True),
    "drill hole": (3.2, True),
}
SYMBOLS = tuple(RADII)


def symbol_strokes(symbol: str, at: Point, size: float = 1.0) -> list[Stroke]:
    """The rings and the cross of a sign at a spot, made larger or smaller."""
    rings = [Stroke(Path(_ring(at, radius * size)), Style.POINT, closed=True) for radius in RADII[symbol]]
    reach, turned = ARMS[symbol]
    ways = (Point(1.0, 1.0).unit(), Point(-1.0, 1.0).unit()) if turned else (Point(1.0, 0.0), Point(0.0, 1.0))
    arms = [Path((Line(at - way * (reach * size), at + way * (reach * size)),)) for way in ways]
    return [*rings, *(Stroke(arm, Style.POINT) for arm in arms)]


def _ring(at: Point, radius: float) -> tuple[Arc, ...]:
    return tuple(segment for segment in ring_of(at, radius).segments if isinstance(segment, Arc))
