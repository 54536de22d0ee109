"""A closure in two halves, one of them on a flap: whether they meet when the flap is folded over."""

from collections.abc import Iterator

from publisher.checks.amounts import told
from publisher.checks.deeds import deeds_of, piece_of
from publisher.checks.named_edges import spot_on
from publisher.checks.values import Deed, Proof
from publisher.drafting import Draft, Notch, Piece, Placement, PointMark
from publisher.frozen import dataclass
from publisher.geometry import Path, Point, nearest
from publisher.terms import Finding, Place, Severity

HALVED = ("magnetic snap", "snap", "hook")
APART = 6.0  # mm that cloth gives, and a magnet finds (common practice, no source)


@dataclass(frozen=True, slots=True)
class Half:
    """One half on its copy: how far from the edge that the flap turns over, and how far beside that edge's mark; mm."""

    mark: str
    from_edge: float
    aside: float
    face: str
    place: Place


def halves_apart(proof: Proof) -> Iterator[Finding]:
    """The half of a snap on a flap does not come down on the half that it is to meet.

    Why: the flap is too short or too long for where the other half is set, and the bag does not close.

    Fix: let the place of one follow from the other: the flap's length, less what lies between the two edges, less its
    own inset."""
    for deeds in deeds_of(proof):
        for one, other in _pairs(deeds):
            yield from _halves_apart(one, other)


def _halves_apart(one: Deed, other: Deed) -> Iterator[Finding]:
    draft = one.draft
    for flap, front in ((one, other), (other, one)):
        placement = _laid_over(draft, flap.action.other or "", front.action.other or "")
        if placement is None:
            continue
        upper = _half(draft, flap, placement.matching[0][0])
        lower = _half(draft, front, placement.matching[0][1])
        if upper is not None and lower is not None:
            if _is_hidden(placement, (flap.action.other or "").partition(".")[0], upper):
                yield _faces_away(draft, upper, lower)
                continue
            depth = _depth_between(draft, placement.below, (front.action.other or "").partition(".")[0])
            yield from _compared(draft, upper, lower, depth)


def _is_hidden(placement: Placement, copy: str, upper: Half) -> bool:
    """True for a half on that face of its layer which comes to lie outside when the flap is folded over: of the layer that
    is laid on the back face down the right side, of the other one the wrong side; and the other way round."""
    laid = copy == placement.placed
    return (placement.laying.turned_over == laid) == (upper.face == "right side")


def _faces_away(draft: Draft, upper: Half, lower: Half) -> Finding:
    """The placed layer lies with its right side on the back: folded over, its other layer faces the front."""
    return Finding(
        "halves-apart",
        Severity.ERROR,
        upper.place,
        f"'{upper.mark}' faces away from '{lower.mark}' when the flap is folded over",
        "set it in the other layer of the flap, or lay the flap the other way up",
        (draft.variant,),
    )


def _compared(draft: Draft, upper: Half, lower: Half, depth: float) -> Iterator[Finding]:
    reaches = upper.from_edge - depth
    aside = abs(abs(upper.aside) - abs(lower.aside))
    if aside > APART:
        says = f"'{upper.mark}' lies {told(aside, draft)} beside '{lower.mark}'"
        mend = "set both the same way beside the middle"
    elif abs(reaches - lower.from_edge) > APART:
        across = f", and {told(depth, draft)} of it go across" if depth else ""
        says = (
            f"'{upper.mark}' lies {told(upper.from_edge, draft)} from where the flap begins{across}: it comes "
            f"{told(reaches, draft)} down, and '{lower.mark}' is {told(lower.from_edge, draft)} below the edge"
        )
        mend = f"set it {told(max(reaches, 0.0), draft)} below the edge, or change the length of the flap"
    else:
        return
    # A mouth can be drawn together a little, so that less of the flap goes across.
    drawn_together = aside <= APART and reaches <= lower.from_edge <= upper.from_edge - depth / 2
    severity = Severity.ADVICE if drawn_together else Severity.WARNING
    yield Finding("halves-apart", severity, lower.place, says, mend, (draft.variant,))


def _pairs(deeds: tuple[Deed, ...]) -> Iterator[tuple[Deed, Deed]]:
    """The two steps that set the halves of one closure at marks of different pieces."""
    halves: dict[str, list[Deed]] = {}
    for deed in deeds:
        kinds = {notion.key: notion.kind for notion in deed.draft.notions}
        if (
            deed.action.verb == "attach"
            and kinds.get(deed.action.target) in HALVED
            and "." in (deed.action.other or "")
        ):
            halves.setdefault(deed.action.target, []).append(deed)
    for set_at in halves.values():
        if len(set_at) == 2:
            yield set_at[0], set_at[1]


def _laid_over(draft: Draft, flap: str, front: str) -> Placement | None:
    """The placement that lays the flap, or what it is made of the same piece as, on a copy of the front's piece."""
    flap_copy, front_copy = flap.partition(".")[0], front.partition(".")[0]
    flap_piece, front_piece = draft.copy(flap_copy).piece, draft.copy(front_copy).piece
    if flap_piece == front_piece:
        return None
    for one in draft.placements:
        below = draft.copy(one.below)
        if draft.copy(one.placed).piece == flap_piece and below.piece == front_piece and one.below != front_copy:
            return one
    return None


def _half(draft: Draft, deed: Deed, matched: str) -> Half | None:
    copy, _, name = (deed.action.other or "").partition(".")
    piece = piece_of(draft, copy)
    mark = next((one for one in piece.marks if isinstance(one, PointMark) and one.name == name), None)
    along = _edge_of(piece, matched)
    if mark is None or along is None:
        return None
    start = spot_on(piece, matched)
    middle = start if isinstance(start, Point) else along.point_at(along.length / 2)
    way = (along.end - along.start).unit()
    return Half(deed.action.other or "", nearest(along, mark.at)[2], (mark.at - middle).dot(way), mark.face, mark.place)


def _edge_of(piece: Piece, name: str) -> Path | None:
    """The edge of that name, or the one on which the notch of that name lies."""
    for mark in piece.marks:
        if isinstance(mark, Notch) and mark.name == name:
            return piece.edge(mark.edge).path
    found = spot_on(piece, name)
    return found if isinstance(found, Path) else None


def _depth_between(draft: Draft, back: str, front: str) -> float:
    """How far two copies are boxed apart, mm."""
    boxed = [
        seam.length for seam in draft.seams if seam.boxes_a_corner and {back, front} == {one.copy for one in seam.first}
    ]
    return max(boxed, default=0.0)
