"""The data of a path element as segments, in the units of the drawing, y down.

An own reader, because the general libraries tried (svgelements 1.9.6) end a path in silence at a sign they do not know,
draw an arc without a radius as nothing, and lose ellipses under skewed axes; none tells where the data went wrong.
"""

import math
from collections.abc import Iterator

from publisher.drawings.numbers import NUMBER, SEPARATOR, BadValue, read_number
from publisher.frozen import dataclass
from publisher.geometry import Cubic, Line, Point

MOST_SEGMENTS = 5_000  # of what is asked for at once
THINNEST = 1e-9  # radius of an arc that is not nought; below, its shape is lost in rounding
_SHORT = 24  # signs shown of what cannot be read
_COUNTS = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "A": 7, "Z": 0}
_BLANK = " \t\r\n\f"


@dataclass(frozen=True, slots=True)
class EllipticArc:
    """The points centre + u cos t + v sin t, from t = begin over sweep; u and v need not be square to each other.

    Any affine map keeps this form: it maps centre, u and v.
    """

    start: Point
    end: Point
    centre: Point
    u: Point
    v: Point
    begin: float
    sweep: float

    def at(self, angle: float) -> Point:
        """The point at t = angle, radians."""
        return self.centre + self.u * math.cos(angle) + self.v * math.sin(angle)


RawSegment = Line | Cubic | EllipticArc


@dataclass(frozen=True, slots=True)
class Subpath:
    """One run of the pen; `closed` by Z, or a shape that is closed by nature."""

    start: Point
    segments: tuple[RawSegment, ...]
    closed: bool


class TooMany(Exception):
    """More segments than a drawing may have."""


def read_path_data(text: str) -> tuple[Subpath, ...]:
    """The subpaths of the attribute d (SVG 1.1, §8.3). Raises BadValue, which tells where, and TooMany."""
    pen = _Pen()
    for command, numbers in _commands(text):
        pen.draw(command, numbers)
    return pen.lifted()


def _commands(text: str) -> Iterator[tuple[str, tuple[float, ...]]]:
    """Each command with one set of its numbers; numbers repeated behind a letter repeat it, behind M as L."""
    at = _skip(text, 0)
    letter, first = "", True
    while at < len(text):
        sign = text[at]
        if sign.upper() in _COUNTS and sign.isascii():
            if first and sign.upper() != "M":
                raise _unreadable(text, at)
            letter, at = sign, _skip(text, at + 1)
        elif first or letter.upper() == "Z":
            raise _unreadable(text, at)
        elif not first and letter in "Mm":
            letter = "L" if letter == "M" else "l"
        first = False
        numbers, at = _numbers(text, at, letter.upper())
        yield letter, numbers


def _skip(text: str, at: int) -> int:
    while at < len(text) and text[at] in _BLANK:
        at += 1
    return at


def _numbers(text: str, at: int, letter: str) -> tuple[tuple[float, ...], int]:
    numbers: list[float] = []
    for position in range(_COUNTS[letter]):
        if letter == "A" and position in (3, 4):  # a flag is one sign and needs no space behind it
            if text[at : at + 1] not in ("0", "1"):
                raise _unreadable(text, at)
            numbers.append(float(text[at]))
            end = at + 1
        else:
            found = NUMBER.match(text, at)
            if not found:
                raise _unreadable(text, at)
            numbers.append(read_number(found[0]))
            end = found.end()
        between = SEPARATOR.match(text, end)
        assert between is not None
        at = between.end()
    return tuple(numbers), at


def _unreadable(text: str, at: int) -> BadValue:
    rest = text[at : at + _SHORT].strip()
    where = f"'{rest}{'…' if len(text) - at > _SHORT else ''}'" if rest else "its end, where a number is missing"
    return BadValue(f"the path data from sign {at + 1} on: {where}")


class _Pen:
    """Draws command by command, knowing where it is and what a smooth curve has to follow."""

    def __init__(self) -> None:
        self._done: list[Subpath] = []
        self._segments: list[RawSegment] = []
        self._start = self._at = Point(0.0, 0.0)
        self._cubic_handle: Point | None = None  # of the command before, for S
        self._quadratic_handle: Point | None = None  # … for T
        self._count = 0

    def lifted(self) -> tuple[Subpath, ...]:
        """All subpaths, with the one that is being drawn."""
        self._lift(closed=False)
        return tuple(self._done)

    def _lift(self, closed: bool) -> None:
        if self._segments or closed:
            self._done.append(Subpath(self._start, tuple(self._segments), closed))
        self._segments = []

    def draw(self, command: str, numbers: tuple[float, ...]) -> None:
        """One command; small letters count from where the pen is."""
        self._count += 1
        if self._count > 2 * MOST_SEGMENTS:  # M and Z among them; segments are counted where they are drawn
            raise TooMany
        from_here = self._at if command.islower() else Point(0.0, 0.0)
        cubic, quadratic = self._cubic_handle, self._quadratic_handle
        self._cubic_handle = self._quadratic_handle = None
        letter = command.upper()
        if letter == "Z":
            self._lift(closed=True)
            self._at = self._start
        elif letter == "M":
            self._lift(closed=False)
            self._start = self._at = from_here + Point(numbers[0], numbers[1])
        elif letter in "LHV":
            self._line(letter, numbers, command.islower())
        elif letter == "A":
            end = from_here + Point(numbers[5], numbers[6])
            self._add(elliptic_arc(self._at, end, (numbers[0], numbers[1]), numbers[2], numbers[3:5]), end)
        else:
            points = [from_here + Point(x, y) for x, y in zip(numbers[::2], numbers[1::2], strict=True)]
            self._curve(letter, points, cubic, quadratic)

    def _line(self, letter: str, numbers: tuple[float, ...], relative: bool) -> None:
        here = self._at
        x = numbers[0] + (here.x if relative else 0.0) if letter in "LH" else here.x
        y = numbers[-1] + (here.y if relative else 0.0) if letter in "LV" else here.y
        self._add(Line(here, Point(x, y)), Point(x, y))

    def _curve(self, letter: str, points: list[Point], cubic: Point | None, quadratic: Point | None) -> None:
        here, end = self._at, points[-1]
        if letter in "CS":
            first = points[0] if letter == "C" else _mirrored(cubic, here)
            self._add(Cubic(here, first, points[-2], end), end)
            self._cubic_handle = points[-2]
        else:
            handle = points[0] if letter == "Q" else _mirrored(quadratic, here)
            # A quadratic raised to a cubic: the same curve, exactly.
            self._add(Cubic(here, here + (handle - here) * (2 / 3), end + (handle - end) * (2 / 3), end), end)
            self._quadratic_handle = handle

    def _add(self, segment: RawSegment, end: Point) -> None:
        if not self._segments:
            self._start = self._at
        self._segments.append(segment)
        self._at = end


def _mirrored(handle: Point | None, through: Point) -> Point:
    return through * 2 - handle if handle is not None else through


def elliptic_arc(
    start: Point, end: Point, radii: tuple[float, float], degrees: float, flags: tuple[float, ...]
) -> RawSegment:
    """An arc by its ends, as SVG writes it (SVG 1.1, F.6): radii too small are enlarged, one of nought makes it a line.

    `flags`: large arc, positive angle.
    """
    across, up = abs(radii[0]), abs(radii[1])
    if across == 0 or up == 0 or start == end:
        return Line(start, end)
    if min(across, up) < THINNEST:
        raise BadValue(f"an arc with a radius of {min(across, up):g}")
    turn = math.radians(degrees)
    along = Point(math.cos(turn), math.sin(turn))
    u, v = along * across, along.left() * up

    # Where the ellipse is a unit circle, its centre lies square beside the middle of the chord.
    def on_circle(point: Point) -> Point:
        return Point(point.dot(along) / across, point.dot(along.left()) / up)

    first, second = on_circle(start), on_circle(end)
    chord = second - first
    half = chord.length / 2
    if half == 0:
        return Line(start, end)
    grown = max(half, 1.0)
    beside = math.sqrt(max(1 - (half / grown) ** 2, 0.0))
    large, positive = flags[0] != 0, flags[1] != 0
    aside = chord.unit().left() * beside if large != positive else chord.unit().right() * beside
    centre = (first + second) * (0.5 / grown) + aside
    begin, stop = (math.atan2(point.y / grown - centre.y, point.x / grown - centre.x) for point in (first, second))
    sweep = (stop - begin) % (2 * math.pi) if positive else -((begin - stop) % (2 * math.pi))
    u, v = u * grown, v * grown
    return EllipticArc(start, end, u * centre.x + v * centre.y, u, v, begin, sweep)
