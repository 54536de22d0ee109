"""Affine maps of a drawing: the transform attribute, and the fitting of a viewBox into its width and height."""

import math
import re

from publisher.drawings.numbers import BadValue, read_numbers
from publisher.frozen import dataclass
from publisher.geometry import Point

FARTHEST = 1e9  # an entry of a matrix beyond this is no drawing's
_CALL = re.compile(r"\s*(matrix|translate|scale|rotate|skewX|skewY)\s*\(([^()]*)\)\s*,?")
_FIT = re.compile(r"\s*(?:defer\s+)?(none|x(Min|Mid|Max)Y(Min|Mid|Max))(?:\s+(meet|slice))?\s*")
_COUNTS = {"matrix": (6,), "translate": (1, 2), "scale": (1, 2), "rotate": (1, 3), "skewX": (1,), "skewY": (1,)}
_SHARE = {"Min": 0.0, "Mid": 0.5, "Max": 1.0}
_MOST_CALLS = 100


@dataclass(frozen=True, slots=True)
class Matrix:
    """x′ = a x + c y + e, y′ = b x + d y + f, as SVG numbers them (SVG 1.1, §7.4)."""

    a: float = 1.0
    b: float = 0.0
    c: float = 0.0
    d: float = 1.0
    e: float = 0.0
    f: float = 0.0

    def __call__(self, point: Point) -> Point:
        return Point(self.a * point.x + self.c * point.y + self.e, self.b * point.x + self.d * point.y + self.f)

    def way(self, way: Point) -> Point:
        """A direction, which no shift moves."""
        return Point(self.a * way.x + self.c * way.y, self.b * way.x + self.d * way.y)

    def after(self, first: "Matrix") -> "Matrix":
        """The map that does `first`, then this one. Raises BadValue where numbers leave all bounds."""
        along, up, shift = self.way(Point(first.a, first.b)), self.way(Point(first.c, first.d)), self(first.shift)
        made = Matrix(along.x, along.y, up.x, up.y, shift.x, shift.y)
        if not all(abs(one) <= FARTHEST for one in (made.a, made.b, made.c, made.d, made.e, made.f)):
            raise BadValue("transforms that reach beyond all bounds")
        return made

    @property
    def shift(self) -> Point:
        """Where the origin goes."""
        return Point(self.e, self.f)


def read_transform(text: str) -> Matrix:
    """The map of a transform attribute, in which the last call is done first. Raises BadValue."""
    whole, at, calls = Matrix(), 0, 0
    text = text.strip()
    while at < len(text):
        call = _CALL.match(text, at)
        calls += 1
        if not call or calls > _MOST_CALLS:
            raise BadValue(f"transform '{text[at:][:40]}'")
        numbers = read_numbers(call[2])
        if len(numbers) not in _COUNTS[call[1]]:
            raise BadValue(f"transform '{call[0].strip()[:40]}' with {len(numbers)} numbers")
        whole = whole.after(_called(call[1], numbers))
        at = call.end()
    return whole


def _called(name: str, numbers: tuple[float, ...]) -> Matrix:
    first, second = numbers[0], numbers[1] if len(numbers) > 1 else None
    match name:
        case "matrix":
            return Matrix(*numbers)
        case "translate":
            return Matrix(e=first, f=second or 0.0)
        case "scale":
            return Matrix(a=first, d=first if second is None else second)
        case "skewX":
            return Matrix(c=math.tan(math.radians(first)))
        case "skewY":
            return Matrix(b=math.tan(math.radians(first)))
    cosine, sine = _turned(first)
    turn = Matrix(cosine, sine, -sine, cosine)
    if len(numbers) == 1:
        return turn
    _, x, y = numbers
    return Matrix(e=x, f=y).after(turn).after(Matrix(e=-x, f=-y))


def _turned(degrees: float) -> tuple[float, float]:
    """Cosine and sine, exact for quarter turns."""
    quarters, rest = divmod(degrees, 90.0)
    if rest == 0:
        return ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[int(quarters % 4)]
    return math.cos(math.radians(degrees)), math.sin(math.radians(degrees))


def read_view_box(text: str) -> tuple[float, float, float, float]:
    """x, y, width, height. Raises BadValue; a width or height of nought is for the caller to tell."""
    numbers = read_numbers(text)
    if len(numbers) != 4 or numbers[2] < 0 or numbers[3] < 0:
        raise BadValue(f"viewBox '{text[:40]}'")
    return numbers[0], numbers[1], numbers[2], numbers[3]


def fitted(box: tuple[float, float, float, float], width: float, height: float, fit: str | None) -> Matrix:
    """The map of a viewBox, of some size, into an area from 0, 0, as preserveAspectRatio says (SVG 1.1, §7.8).

    Raises BadValue for an unknown way of fitting.
    """
    x, y, box_width, box_height = box
    across, down = width / box_width, height / box_height
    said = _FIT.fullmatch(fit or "xMidYMid")
    if not said:
        raise BadValue(f"preserveAspectRatio '{(fit or '')[:40]}'")
    if said[1] == "none":
        return Matrix(a=across, d=down, e=-x * across, f=-y * down)
    scale = max(across, down) if said[4] == "slice" else min(across, down)
    left = (width - box_width * scale) * _SHARE[said[2]]
    top = (height - box_height * scale) * _SHARE[said[3]]
    return Matrix(a=scale, d=scale, e=left - x * scale, f=top - y * scale)
