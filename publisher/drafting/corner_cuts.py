"""How the cut line goes round each corner: mitred, on the fold, folded back at a hem, squared or bevelled on request."""

from collections.abc import Mapping, Sequence

from publisher.drafting.allowances import drafted_name
from publisher.drafting.bench import Asker, Bench, unusable
from publisher.drafting.edges import counter_clockwise
from publisher.drafting.halves import half_of
from publisher.drafting.outlines import Plan, outline_plan
from publisher.drafting.values import Edge
from publisher.geometry import Bevelled, CornerCut, FoldedBack, OnFold, Squared
from publisher.measures import CornerSaying
from publisher.source import WrittenPiece
from publisher.terms import Finding, Unusable, Written, did_you_mean

LEAST_TURN = 0.25  # sine of the least turn that is squared or bevelled, 14.5°

Pair = tuple[str, str]  # the edges before and after a corner, counter-clockwise, by the names they were drafted under


def corner_cuts(
    bench: Bench, piece: WrittenPiece, edges: Sequence[Edge], fold_edge: str | None = None
) -> Mapping[int, CornerCut]:
    """The corners that are not mitred, each by the edge that begins there. Raises Unusable for one that cannot be so.

    Two hems that meet are mitred.
    """
    asker = Asker("corners", str(piece.name), piece.name.place)
    asked = bench.work_out(asker, lambda: _asked(bench, piece))
    cuts: dict[int, CornerCut] = {}
    for at, (before, after) in enumerate(zip((edges[-1], *edges[:-1]), edges, strict=True)):
        pair = drafted_name(bench, piece, before.name), drafted_name(bench, piece, after.name)
        if fold_edge in (before.name, after.name):
            cuts[at] = OnFold(before.name == fold_edge)
        elif pair in asked:
            key, squared_to = asked[pair]
            _refuse_unfit(piece, key, before, after)
            cuts[at] = Bevelled() if squared_to is None else Squared(squared_to == pair[0])
        elif bool(before.layers) != bool(after.layers):
            cuts[at] = FoldedBack(bool(before.layers), before.layers or after.layers)
    return cuts


def _asked(bench: Bench, piece: WrittenPiece) -> dict[Pair, tuple[Written, str | None]]:
    """The corners that the maker names, and the edge that each is squared to; None: bevelled."""
    asked: dict[Pair, tuple[Written, str | None]] = {}
    for key, written in piece.corners:
        if not piece.drawn:
            says = f"'{piece.name}' is cut with a ruler, so nobody sees how its corners are cut"
            raise unusable("corner-without-template", key.place, says, "give it an outline, or take the line out")
        said = bench.saying(written)
        assert isinstance(said, CornerSaying)
        pairs = _pairs(bench, piece, key)
        if said.squared_to is not None and said.squared_to.text not in pairs[0]:
            raise unusable(
                "no-such-edge",
                said.squared_to.place,
                f"'{key}' lies between '{pairs[0][0]}' and '{pairs[0][1]}', not at '{said.squared_to.text}'",
                did_you_mean(said.squared_to.text, pairs[0]) or "name one of these two",
            )
        asked |= dict.fromkeys(pairs, (key, said.squared_to.text if said.squared_to else None))
    return asked


def _pairs(bench: Bench, piece: WrittenPiece, key: Written) -> tuple[Pair, ...]:
    """The edges at a corner, both ways round where it comes on both sides of a half, or was named by its edges."""
    plan, half = outline_plan(bench, piece), half_of(piece)
    named = [part.strip() for part in str(key).split(" and ")]
    if len(named) == 2:
        _refuse_strangers(piece, key, plan, (named[0], named[1]))
        pair, only = (named[0], named[1]), False
    else:
        before = next((side.name for side in plan.sides if side.end == key), None)
        after = next((side.name for side in plan.sides if side.start == key), None)
        if before is None or after is None or plan.shaped(str(key)) is not None:
            raise Unusable(_no_corner(piece, key, plan))
        pair = (before, after) if counter_clockwise(bench, piece) else (after, before)
        only = half is None
    if half is not None and str(half.along) in pair:
        says = f"the corner '{key}' lies on the fold or the middle of '{piece.name}', where nothing is cut"
        raise unusable("no-such-corner", key.place, says, "name another corner")
    return (pair,) if only else (pair, (pair[1], pair[0]))


def _refuse_strangers(piece: WrittenPiece, key: Written, plan: Plan, pair: Pair) -> None:
    names = plan.drafted_names
    for name in pair:
        if name not in names:
            says = f"'{piece.name}' has no edge called '{name}'"
            raise unusable("no-such-edge", key.place, says, did_you_mean(name, names))
    apart = abs(names.index(pair[0]) - names.index(pair[1]))
    if apart not in (1, len(names) - 1):
        says = f"'{pair[0]}' and '{pair[1]}' do not meet at a corner of '{piece.name}'"
        raise unusable("no-such-corner", key.place, says, f"round this piece the edges are: {', '.join(names)}")


def _no_corner(piece: WrittenPiece, key: Written, plan: Plan) -> Finding:
    shaped = plan.shaped(str(key))
    if shaped is not None:
        says = f"'{key}' of '{piece.name}' is no corner any more: it is to be {shaped.done}"
        return unusable("no-such-corner", key.place, says, "name the corner by its two edges: 'side and base'").finding
    known = [side.end for side in plan.sides if plan.shaped(side.end) is None]
    says = f"'{piece.name}' has no corner called '{key}'"
    mend = did_you_mean(key, known) or "name the corner by its two edges: 'side and base'"
    return unusable("no-such-corner", key.place, says, mend).finding


def _refuse_unfit(piece: WrittenPiece, key: Written, before: Edge, after: Edge) -> None:
    """Only a corner that sticks out can be squared or bevelled, and only where no hem decides how it is cut."""
    hem = before if before.layers else after if after.layers else None
    if hem is not None:
        says = (
            f"the corner '{key}' of '{piece.name}' ends the hem of '{hem.name}', which is cut so that it can be turned"
        )
        raise unusable("corner-of-hem", key.place, says, "take this line out, or give the edge an allowance, not a hem")
    leaving, entering = before.path.direction_at(before.length), after.path.direction_at(0.0)
    if leaving.cross(entering) < LEAST_TURN:
        says = f"the corner '{key}' of '{piece.name}' does not stick out: there is nothing to square or to bevel"
        raise unusable("corner-not-convex", key.place, says, "take this line out")
