"""How two copies come to lie edge on edge, right sides together, for a seam. The draft's mm."""

import math
from collections.abc import Sequence

from publisher.drafting import Draft, SeamEdge
from publisher.figures.steps.cloth import Rule
from publisher.frozen import dataclass
from publisher.geometry import Path, Point

GATHERED = 0.1  # of an edge: what is longer by more is gathered, and does not lie flat on it
SAMPLES = 24
NEAR = 0.012  # of the longer side: edges that part by no more lie on each other, but for their ease


@dataclass(frozen=True, slots=True)
class Joint:
    """A seam between one stretch of one copy and one of another, as paths of their pieces."""

    name: str
    first: str
    second: str
    first_path: Path
    second_path: Path
    allowance: float
    ease: float
    leave_open: float
    first_edge: str = ""
    second_edge: str = ""


def is_gathered(joint: Joint) -> bool:
    """True where one edge is longer than the other by more than can be eased in."""
    return joint.ease > GATHERED * min(joint.first_path.length, joint.second_path.length)


def edge_path(draft: Draft, side: SeamEdge) -> Path:
    """The stretch of a finished line that a seam names, counter-clockwise."""
    piece = draft.piece(side.piece)
    return Path(tuple(segment for edge in piece.edges_of(side.edge) for segment in edge.path.segments))


def joints_of(draft: Draft, name: str) -> tuple[Joint, ...]:
    """A seam as pairs of stretches, in the order of its sides; none where the sides have not as many edges."""
    seam = next(one for one in draft.seams if one.name == name)
    if len(seam.first) != len(seam.second):
        return ()
    return tuple(
        Joint(
            name,
            first.copy,
            second.copy,
            edge_path(draft, first),
            edge_path(draft, second),
            max((*first.allowances, *second.allowances), default=0.0),
            seam.ease,
            seam.leave_open,
            first.edge,
            second.edge,
        )
        for first, second in zip(seam.first, seam.second, strict=True)
    )


def lying_on(joint: Joint) -> Rule | None:
    """How the second copy, turned over, is laid so that its stretch lies on the first's; None where they part, or where
    one is gathered."""
    if is_gathered(joint):
        return None
    over = [Point(-spot.x, spot.y) for spot in spots_of(joint.second_path)]
    first = spots_of(joint.first_path)
    for second in ([*over[::-1]], over):
        rule = carried_onto(second, first)
        away = max((rule(spot) - other).length for spot, other in zip(second, first, strict=True))
        if away <= NEAR * max(joint.first_path.length, joint.second_path.length) + joint.ease:
            return _after_turning(rule)
    return None


def _after_turning(rule: Rule) -> Rule:
    return lambda point: rule(Point(-point.x, point.y))


def coincides(joint: Joint, rule: Rule) -> bool:
    """True when another stretch of the same copies lies edge on edge, too."""
    second = [rule(spot) for spot in spots_of(joint.second_path)]
    first = spots_of(joint.first_path)
    limit = NEAR * joint.first_path.length + joint.ease + 0.5
    away = min(
        max((one - other).length for one, other in zip(spots, first, strict=True)) for spots in (second, second[::-1])
    )
    return away <= limit


def spots_of(path: Path) -> list[Point]:
    """Spots evenly along a path, from its start to its end."""
    whole = path.length
    return [path.point_at(whole * at / SAMPLES) for at in range(SAMPLES + 1)]


def carried_onto(spots: Sequence[Point], onto: Sequence[Point]) -> Rule:
    """The turn and shift that bring spots nearest to others, spot by spot (least squares in the plane)."""
    count = len(spots)
    middle = Point(sum(spot.x for spot in spots) / count, sum(spot.y for spot in spots) / count)
    target = Point(sum(spot.x for spot in onto) / count, sum(spot.y for spot in onto) / count)
    pairs = [(one - middle, other - target) for one, other in zip(spots, onto, strict=True)]
    angle = math.atan2(sum(a.cross(b) for a, b in pairs), sum(a.dot(b) for a, b in pairs))
    return lambda point: (point - middle).turned(angle) + target
