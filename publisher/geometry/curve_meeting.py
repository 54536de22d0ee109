"""Where curves meet: halved until straight, then polished on the curves themselves."""

import math
from collections.abc import Iterator

from publisher.geometry.arcs import as_cubics
from publisher.geometry.points import Point
from publisher.geometry.segments import Arc, Cubic, Line, Segment

FLAT = (
    0.02  # mm; parts whose second differences are less, so that they lie within 0.005 mm of their chords, are polished
)
MOST_PAIRS = 4000  # more parts than this lying on each other: the curves run along each other and have no crossing
NEAR = 1e-6
SAME = 1e-4  # mm; a touch is found from both sides, some 10⁻⁵ mm apart
MOST_MEETINGS = 9  # of two cubics that share no stretch (Bézout)

Part = tuple[Cubic, float, float]  # a part of a curve, and its first and last parameter on the whole


def spot_at(segment: Segment, part: float) -> tuple[Point, Point]:
    """The point at a parameter from 0 to 1, and the derivative there; beyond both ends a line or an arc runs on."""
    if isinstance(segment, Line):
        way = segment.end - segment.start
        return segment.start + way * part, way
    if isinstance(segment, Arc):
        spot = segment.at_angle(segment.start_angle + segment.sweep * part)
        return spot, (spot - segment.centre).left() * segment.sweep
    return segment.at(part), segment.speed_at(part)


def curves_meet(first: Segment, second: Segment) -> tuple[Point, ...]:
    """Where two segments of any kind cross or touch, in the order of the first. Stretches they share are no crossing."""
    found: list[tuple[float, Point]] = []
    for start, other in _near_pairs(_parts(first), _parts(second)):
        polished = _polished(first, second, start, other)
        if polished is not None and all((polished[1] - spot).length > SAME for _, spot in found):
            found.append(polished)
        if len(found) > MOST_MEETINGS:
            return ()
    return tuple(spot for _, spot in sorted(found, key=lambda one: one[0]))


def _parts(segment: Segment) -> list[Part]:
    # An arc in parts of at most 15° lies within 6·10⁻⁹ of its radius of the cubics.
    count = math.ceil(abs(segment.sweep) / (math.pi / 12)) if isinstance(segment, Arc) else 1
    pieces, rest = [], segment
    for left in range(count, 1, -1):
        piece, rest = rest.split(rest.length / left)
        pieces.append(piece)
    cubics = [_as_cubic(one) for piece in (*pieces, rest) for one in as_cubics(piece)]
    return [(one, at / len(cubics), (at + 1) / len(cubics)) for at, one in enumerate(cubics)]


def _as_cubic(segment: Line | Cubic) -> Cubic:
    if isinstance(segment, Cubic):
        return segment
    step = (segment.end - segment.start) * (1 / 3)
    return Cubic(segment.start, segment.start + step, segment.end - step, segment.end)


def _near_pairs(first: list[Part], second: list[Part]) -> Iterator[tuple[float, float]]:
    """The parameters on both round which the curves may meet."""
    pairs = [(one, other) for one in first for other in second]
    while pairs:
        halved: list[tuple[Part, Part]] = []
        for one, other in pairs:
            if _apart(one[0], other[0]) or _apart(other[0], one[0]):
                continue
            bends = (_bend(one[0]), _bend(other[0]))
            if max(bends) <= FLAT:
                # So flat a part crosses another twice at most: Newton's steps from the ends of the more bent find one each.
                if bends[0] >= bends[1]:
                    yield from ((end, (other[1] + other[2]) / 2) for end in one[1:])
                else:
                    yield from (((one[1] + one[2]) / 2, end) for end in other[1:])
            elif bends[0] > bends[1]:
                halved += [(half, other) for half in _halves(one)]
            else:
                halved += [(one, half) for half in _halves(other)]
        pairs = halved if len(halved) <= MOST_PAIRS else []


def _halves(part: Part) -> tuple[Part, Part]:
    first, second = part[0].split_at(0.5)
    middle = (part[1] + part[2]) / 2
    return (first, part[1], middle), (second, middle, part[2])


def _bend(curve: Cubic) -> float:
    return max(
        (curve.start - curve.first_handle * 2 + curve.second_handle).length,
        (curve.first_handle - curve.second_handle * 2 + curve.end).length,
    )


def _apart(one: Cubic, other: Cubic) -> bool:
    """True when a strip along the first's chord, or one across it, holds the first and nothing of the second."""
    chord = one.end - one.start
    way = chord.unit() if chord.length > NEAR else Point(1.0, 0.0)
    corners = (one.start, one.first_handle, one.second_handle, one.end)
    others = (other.start, other.first_handle, other.second_handle, other.end)
    for x, y in ((-way.y, way.x), (way.x, way.y)):
        mine = [spot.x * x + spot.y * y for spot in corners]
        theirs = [spot.x * x + spot.y * y for spot in others]
        if min(theirs) > max(mine) + NEAR or max(theirs) < min(mine) - NEAR:
            return True
    return False


def _polished(first: Segment, second: Segment, start: float, other: float) -> tuple[float, Point] | None:
    """Newton's steps on both parameters; None where they end beside either segment or never meet."""
    part, along = start, other
    for _ in range(40):
        (here, speed), (there, pace) = spot_at(first, part), spot_at(second, along)
        gap, steep = there - here, speed.cross(pace)
        if gap.length < 1e-12:
            break
        if abs(steep) < 1e-12 * max(speed.length * pace.length, 1e-30):
            return None
        step, stride = gap.cross(pace) / steep, gap.cross(speed) / steep
        part, along = part + max(-0.2, min(0.2, step)), along + max(-0.2, min(0.2, stride))
        if max(abs(step), abs(stride)) < 1e-15:
            break
    (here, speed), (there, pace) = spot_at(first, part), spot_at(second, along)
    if (there - here).length > NEAR or not math.isfinite(part + along):
        return None
    beyond = (max(-part, part - 1.0, 0.0) * speed.length, max(-along, along - 1.0, 0.0) * pace.length)
    return (part, here) if max(beyond) <= NEAR else None
