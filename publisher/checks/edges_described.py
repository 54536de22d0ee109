"""Edges that the words describe by what lies on the piece: to which a pocket opens, nearer a ring, where something is sewn."""

import re
from collections.abc import Iterator

from publisher.checks.deeds import told_steps
from publisher.checks.named_edges import drafted_copies, spot_on
from publisher.checks.values import Proof
from publisher.drafting import Draft, Piece, Placement
from publisher.geometry import Path, Point, nearest
from publisher.terms import Finding, Severity

THE = r"(?:the |its )?"
# "to which the pocket opens", "nearer the D-ring", "that the pocket's bottom is basted to".
WHAT = (
    rf"(?:(?:to|towards) which {THE}(?P<opens>[\w-]+) opens"
    rf"|(?:along|at|on) which {THE}(?P<held>[\w-]+) is (?:basted|sewn|stitched|held)"
    rf"|(?:nearer|nearest|next to|closer to)(?: to)? {THE}(?P<near>[\w-]+)"
    rf"|(?:farther|further|farthest|furthest|away) from {THE}(?P<far>[\w-]+)"
    rf"|(?:that|which|to which|on which) {THE}(?P<whose>[\w-]+)'s (?P<part>top|upper|bottom|lower)(?: edge)? is \w+)"
)
# "On {hinge lining} that is the edge …": of the edge that was named last; and "the top edge of {hinge lining}, the one …".
ON_COPY = re.compile(
    rf"\bon \{{(?P<copy>[^{{}}]*)\}},? (?:that|it|this) is the (?:edge|one|side) {WHAT}", re.IGNORECASE
)
OF_COPY = re.compile(
    rf"\bthe (?P<edge>\w+) edge of \{{(?P<copy>[^{{}}]*)\}},? (?:(?:which|that) is )?(?:the (?:one|edge) )?{WHAT}",
    re.IGNORECASE,
)
NAMED = re.compile(r"\b(?P<edge>top|bottom|upper|lower|left|right) edge\b", re.IGNORECASE)
ALIKE = {"upper": "top", "lower": "bottom"}
CLEARLY = 0.8  # of the distance from the other edge
STRAIGHT = 0.7  # of a direction
NO_LENGTH = 1.0  # mm


def edge_described_otherwise(proof: Proof) -> Iterator[Finding]:
    """The words describe an edge by what lies on the piece, and by its place that lies at the edge across from it.

    Why: the reader finds the edge by what she sees on it, and sews the piece on upside down.

    Fix: describe the edge by what lies at it."""
    for draft, step, written in told_steps(proof):
        text = str(written.text)
        for found in (*ON_COPY.finditer(text), *OF_COPY.finditer(text)):
            named = list(NAMED.finditer(text, 0, found.start())) if found.re is ON_COPY else [found]
            piece = drafted_copies(draft).get(found["copy"].strip(), (None, None))[0]
            if not named or piece is None:
                continue
            edge = f"{_one_word(named[-1]['edge'])} edge"
            across = _across(piece, edge)
            if across is not None and _lies_at(draft, proof, piece, found, across, edge):
                yield Finding(
                    "edge-described-otherwise",
                    Severity.WARNING,
                    written.quotes[text.count("{", 0, found.start("copy")) - 1].place,
                    f"step {step.number} describes the {edge} of '{found['copy'].strip()}', and what it says is true of the "
                    f"{across}",
                    "describe the edge by what lies at it",
                    (draft.variant,),
                )


def _one_word(word: str) -> str:
    return ALIKE.get(word.lower(), word.lower())


def _across(piece: Piece, name: str) -> str | None:
    """The edge that lies farthest straight across from an edge; None where no edge is called so, or none lies across."""
    own = next((edge for edge in piece.edges if edge.name == name), None)
    if own is None or (own.path.end - own.path.start).length < NO_LENGTH:
        return None
    along = (own.path.end - own.path.start).unit()
    middle = own.path.point_at(own.length / 2)
    away = {edge.name: edge.path.point_at(edge.length / 2) - middle for edge in piece.edges if edge.name != name}
    far = {other: abs(along.x * way.y - along.y * way.x) for other, way in away.items()}
    return max(far, key=lambda other: far[other], default=None)


def _lies_at(draft: Draft, proof: Proof, piece: Piece, found: re.Match[str], edge: str, other: str) -> bool:
    """True where all that is described lies clearly nearer to an edge than to another, or opens towards it."""
    if found["far"] or found["held"]:
        edge, other = other, edge  # it lies at the one across
    copy = found["copy"].strip()
    thing = (found["opens"] or found["held"] or found["near"] or found["far"] or found["whose"]).lower()
    laid = [one for one in draft.placements if one.below == copy and thing in one.placed.lower().split()]
    if found["opens"] or found["held"]:
        spots = [(_opening(draft, one), one) for one in laid]
        return bool(spots) and all(way is not None and _points(piece, way, edge, other) for way, _ in spots)
    if found["near"] or found["far"]:
        points = [_centre(draft, one) for one in laid] or _attached(draft, proof, copy, thing)
    else:
        part = f"{_one_word(found['part'])} edge"
        points = [middle for one in laid if (middle := _middle(draft, one, part)) is not None]
    return bool(points) and all(_from(piece, edge, point) < CLEARLY * _from(piece, other, point) for point in points)


def _from(piece: Piece, edge: str, point: Point) -> float:
    return nearest(piece.edge(edge).path, point)[2]


def _points(piece: Piece, way: Point, edge: str, other: str) -> bool:
    """True where a direction leads from one edge to another."""
    ends = [one.path.point_at(one.length / 2) for one in (piece.edge(other), piece.edge(edge))]
    across = (ends[1] - ends[0]).unit()
    return way.x * across.x + way.y * across.y > STRAIGHT


def _piece_laid(draft: Draft, placement: Placement) -> Piece:
    return draft.piece(draft.copy(placement.placed).piece)


def _centre(draft: Draft, placement: Placement) -> Point:
    box = _piece_laid(draft, placement).finished_line.box
    return placement.laying(Point((box.left + box.right) / 2, (box.bottom + box.top) / 2))


def _middle(draft: Draft, placement: Placement, edge: str) -> Point | None:
    """Where the middle of an edge of what is laid comes to lie."""
    found = next((one for one in _piece_laid(draft, placement).edges if one.name == edge), None)
    return placement.laying(found.path.point_at(found.length / 2)) if found is not None else None


def _opening(draft: Draft, placement: Placement) -> Point | None:
    """The direction in which a pocket opens: to its one hemmed edge."""
    hems = [hem.edge for hem in _piece_laid(draft, placement).hems]
    middle = _middle(draft, placement, hems[0]) if len(hems) == 1 else None
    return (middle - _centre(draft, placement)).unit() if middle is not None else None


def _attached(draft: Draft, proof: Proof, copy: str, thing: str) -> list[Point]:
    """Where notions of that name are attached to a copy, or to what is laid on it."""
    called = {
        one.key for one in draft.notions if thing in (one.key.lower(), one.name.lower(), (one.kind or "").lower())
    }
    laid = {one.placed: one for one in draft.placements if one.below == copy}
    points = []
    for action in (one for step in proof.assembly_of(draft.variant).steps for one in step.actions):
        to, _, spot = (action.other or "").partition(".")
        if action.verb != "attach" or action.target not in called or (to != copy and to not in laid):
            continue
        at = spot_on(draft.piece(draft.copy(to).piece), spot)
        point = at.point_at(at.length / 2) if isinstance(at, Path) else at
        points += [laid[to].laying(point) if to in laid else point] if point is not None else []
    return points
