"""What lies where the stitching of a hem, a casing or a facing goes through all layers later on."""

from collections.abc import Iterator, Sequence

from publisher.checks.amounts import told
from publisher.checks.deeds import Deed, deeds_of, piece_of, placement_laid
from publisher.checks.named_edges import atoms_in_seams, atoms_of_seam, distance_between, edge_named
from publisher.checks.values import Proof
from publisher.drafting import Draft, Edge, Placement
from publisher.geometry import Path, inside, mapped, nearest
from publisher.terms import Finding, Severity

NEAR = 1.0  # mm that nobody sews nearer to


def stitched_shut_by_the_hem(proof: Proof) -> Iterator[Finding]:
    """A pocket or a flap is sewn on so near an edge that the edge's hem, casing or facing is stitched through it later.

    Why: the stitching runs across it behind its opening, and sews it shut or down.

    Fix: lay it further from the edge than the hem is deep; or hem the edge first."""
    for deeds in deeds_of(proof):
        for at, deed in enumerate(deeds):
            placement = placement_laid(deed)
            if placement is None or piece_of(deed.draft, placement.placed).strip is not None:
                continue
            free = _free_edges(deeds, placement)
            found = next(
                (
                    (edge, later, name, depth, apart)
                    for later, name, path, depth in _stitched_later(deeds[at + 1 :], placement.below)
                    for edge in free
                    if NEAR < (apart := _apart(deed.draft, placement, edge, path)) < depth - NEAR
                ),
                None,
            )
            if found is None:
                continue
            edge, later, name, depth, apart = found
            yield Finding(
                "stitched-shut-by-the-hem",
                Severity.WARNING,
                placement.place,
                f"'{edge.name}' of '{placement.placed}' lies {told(apart, deed.draft)} from '{placement.below}.{name}', where "
                f"step {later.step.number} stitches through all layers {told(depth, deed.draft)} from the edge",
                f"lay '{placement.placed}' further from the edge than that",
                (deed.draft.variant,),
            )


def _free_edges(deeds: Sequence[Deed], placement: Placement) -> list[Edge]:
    """The edges of what is laid that are finished: hemmed, folded in, or sewn to a layer of its own and free."""
    draft = deeds[0].draft
    piece = piece_of(draft, placement.placed)
    stitched = {part for deed in deeds if deed.action.verb == "topstitch" for part in _atoms(draft, deed.action.target)}
    hemmed = {hem.edge for hem in piece.hems}
    folded = {part for deed in deeds if deed.action.verb == "fold" for part in _atoms(draft, deed.action.target)}
    sewn = set(atoms_in_seams(draft))
    matched = {own for own, _ in placement.matching}
    return [
        edge
        for edge in piece.edges
        if edge.name not in matched
        and (edge.name in hemmed or (placement.placed, edge.name) in folded | (sewn - stitched))
    ]


def _atoms(draft: Draft, name: str) -> Iterator[tuple[str, str]]:
    named = edge_named(draft, name)
    if named is not None:
        yield from ((named.copy.name, part.name) for part in named.parts)


def _stitched_later(deeds: Sequence[Deed], copy: str) -> Iterator[tuple[Deed, str, Path, float]]:
    """What stitches through a copy along its edges: the deed, the edge, its line, and how far from it, mm."""
    turned = {deed.action.target for deed in deeds if deed.action.verb == "turn"}
    for deed in deeds:
        named = edge_named(deed.draft, deed.action.target)
        if named is not None and deed.action.verb == "hem" and named.copy.name == copy:
            for part in named.parts:
                if part.layers:
                    yield deed, part.name, part.path, max(part.layers)
        elif named is not None and deed.action.verb == "topstitch" and named.copy.name in turned - {copy}:
            for edge, facing in _faced(deed.draft, copy, named.copy.name):
                depth = min(distance_between(facing.path, part.path) for part in named.parts)
                yield deed, edge.name, edge.path, depth


def _faced(draft: Draft, copy: str, facing: str) -> Iterator[tuple[Edge, Edge]]:
    """The edges of a copy to which a facing is sewn, each with that of the facing."""
    for seam in draft.seams:
        atoms = atoms_of_seam(draft, seam)
        own, its = ([edge for name, edge in sorted(atoms) if name == one] for one in (copy, facing))
        if len(own) == 1 == len(its) and {name for name, _ in atoms} == {copy, facing}:
            yield piece_of(draft, copy).edge(own[0]), piece_of(draft, facing).edge(its[0])


def _apart(draft: Draft, placement: Placement, edge: Edge, path: Path) -> float:
    """How far the middle of a laid edge is from an edge below, mm; nought where it lies beyond the piece."""
    laid = mapped(edge.path, placement.laying, placement.laying.turned_over)
    middle = laid.point_at(laid.length / 2)
    return nearest(path, middle)[2] if inside(piece_of(draft, placement.below).finished_line, middle) else 0.0
