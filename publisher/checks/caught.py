"""What a seam catches that should lie free, and what goes through a lining that should not."""

from collections.abc import Iterator

from publisher.checks.amounts import told
from publisher.checks.deeds import Deed, deeds_of, piece_of, placement_laid
from publisher.checks.named_edges import atoms_in_seams, drafted_copies
from publisher.checks.values import Proof
from publisher.drafting import Draft, Notch, Piece
from publisher.geometry import Point, mapped, nearest
from publisher.terms import Finding, Severity

NEAR = 1.0  # mm that nobody sews nearer to


def caught_in_the_next_seam(proof: Proof) -> Iterator[Finding]:
    """A piece with finished sides, a flap or a tab, reaches beyond the stitching line beside the edge it is laid to.

    Why: the seam round the corner goes through it, and it cannot be folded over any more.

    Fix: make it narrower than the finished piece below."""
    for draft in proof.drafts:
        in_seams = set(atoms_in_seams(draft))
        for placement in draft.placements:
            upper, lower = (drafted_copies(draft)[name][0] for name in (placement.placed, placement.below))
            free = [edge for edge in upper.edges if (placement.placed, edge.name) in in_seams]
            meant = {_edge_at(lower, spot) for _, spot in placement.matching} | {spot for _, spot in placement.matching}
            if upper.strip is not None or not free:
                continue
            for edge in free:
                path = mapped(edge.path, placement.laying, placement.laying.turned_over)
                found = _beyond(lower, path.point_at(path.length / 2), meant)
                if found is not None and (placement.below, found[0]) in in_seams:
                    yield Finding(
                        "caught-in-the-next-seam",
                        Severity.WARNING,
                        placement.place,
                        f"'{placement.placed}' reaches {told(found[1], draft)} beyond the stitching line of "
                        f"'{placement.below}.{found[0]}', which is sewn when it lies there",
                        f"make '{upper.name}' narrower, by what reaches beyond on each side and a little",
                        (draft.variant,),
                    )
                    break


def _edge_at(piece: Piece, spot: str) -> str:
    """The edge on which a notch of that name lies."""
    return next((mark.edge for mark in piece.marks if isinstance(mark, Notch) and mark.name == spot), spot)


def _beyond(piece: Piece, spot: Point, meant: set[str]) -> tuple[str, float] | None:
    """The edge that a spot lies beyond, and by how much, mm; None where it lies inside, or at an edge that is meant."""
    edge = min(piece.edges, key=lambda one: nearest(one.path, spot)[2])
    at, _, apart = nearest(edge.path, spot)
    outside = edge.path.direction_at(at).cross(spot - edge.path.point_at(at)) < 0
    return (edge.name, apart) if outside and apart > NEAR and edge.name not in meant else None


def wider_than_its_face(proof: Proof) -> Iterator[Finding]:
    """A flap is laid on a panel whose corners are boxed, and is wider than what is left of it between the corners.

    Why: boxed, the panel turns round the corner; the flap juts out on both sides, or bends with it.

    Fix: make the flap no wider than the finished width between the corners."""
    for draft in proof.drafts:
        for placement in draft.placements:
            below, upper = (drafted_copies(draft)[name][0] for name in (placement.below, placement.placed))
            boxed = [
                seam.length
                for seam in draft.seams
                if seam.boxes_a_corner and placement.below in {side.copy for side in seam.first}
            ]
            if len(boxed) < len(("left", "right")) or upper.strip is not None:
                continue
            face = below.finished_line.box.width - sum(sorted(boxed)[-2:]) / 2
            laid = mapped(upper.finished_line, placement.laying, placement.laying.turned_over).box.width
            at_edge = any(
                isinstance(mark, Notch) and mark.name == spot for _, spot in placement.matching for mark in below.marks
            )
            if at_edge and laid > face + NEAR:
                yield Finding(
                    "wider-than-its-face",
                    Severity.WARNING,
                    placement.place,
                    f"'{placement.placed}' is {told(laid, draft)} wide, and boxed, '{placement.below}' is {told(face, draft)} "
                    "wide between its corners",
                    f"make '{upper.name}' no wider than that",
                    (draft.variant,),
                )


def sewn_through_its_lining(proof: Proof) -> Iterator[Finding]:
    """A pocket, a tab or a snap is sewn to an outside when its lining has been sewn in behind it.

    Why: the stitches go through the lining, too, show inside, and shut what was sewn to the lining.

    Fix: move the step to before the lining is sewn in."""
    for deeds in deeds_of(proof):
        for deed in deeds:
            placement = placement_laid(deed)
            lining = _lining_behind(deed, placement.below) if placement is not None else None
            if placement is not None and lining is not None:
                yield Finding(
                    "sewn-through-its-lining",
                    Severity.WARNING,
                    deed.action.place,
                    f"step {deed.step.number} lays '{placement.placed}' on '{placement.below}', to which '{lining}' has been "
                    "sewn by then",
                    f"move the step to before '{lining}' is sewn in",
                    (deed.draft.variant,),
                )


def _lining_behind(deed: Deed, copy: str) -> str | None:
    """The lining of the same piece, of which two edges or more are sewn where those of the copy are."""
    draft = deed.draft
    piece = piece_of(draft, copy)
    closed = deed.before.closed_edges
    for other in piece.copies:
        if other.name == copy or "lining" not in other.name.split() or "lining" in copy.split():
            continue
        both = [edge for edge in piece.edges if (copy, edge.name) in closed and (other.name, edge.name) in closed]
        if len(both) > 1 and _kind(draft, other.material) not in ("interfacing", "wadding"):
            return other.name
    return None


def _kind(draft: Draft, material: str) -> str:
    return next((one.kind for one in draft.materials if one.key == material), "")
