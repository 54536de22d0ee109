"""Pockets: sewn down where they are laid, and as wide between their lines as the measures that bear their names."""

from collections.abc import Iterator, Mapping
from itertools import pairwise

from publisher.checks.amounts import told
from publisher.checks.deeds import Deed, deeds_of, placement_laid
from publisher.checks.materials import BACKINGS
from publisher.checks.named_edges import atoms_in_seams, spot_on
from publisher.checks.values import Proof
from publisher.drafting import Draft, LineMark, Piece, PointMark
from publisher.geometry import Path, Point, mapped, nearest
from publisher.measures import MarkSaying
from publisher.terms import Dimension, Finding, Severity

HOLDS = ("topstitch", "baste", "sew", "attach", "fuse", "bind", "hem", "close")
POCKET = "pocket"
SAME = 0.6  # mm
NARROWER = 2.0  # mm that nobody misses
FEWEST = 2  # lines that part pockets
LEVEL = 0.1  # of a line's direction


def laid_and_not_sewn(proof: Proof) -> Iterator[Finding]:
    """A piece is laid on another, and no step and no seam sews it there.

    Why: it falls off when the last pin is out.

    Fix: sew it, and say so: `Does: topstitch …` or `baste …`."""
    for deeds in deeds_of(proof):
        for at, deed in enumerate(deeds):
            draft = deed.draft
            placement = placement_laid(deed)
            if placement is None or deed.action.verb == "baste":
                continue
            copy = draft.copy(placement.placed)
            material = next((one for one in draft.materials if one.key == copy.material), None)
            hidden = material is None or material.kind in BACKINGS or draft.piece(copy.piece).strip is not None
            if not hidden and not _is_held(deeds[at:], placement.placed, placement.below):
                yield Finding(
                    "laid-and-not-sewn",
                    Severity.WARNING,
                    deed.action.place,
                    f"step {deed.step.number} lays '{placement.placed}' on '{placement.below}', and no seam and no step sews it",
                    f"write 'Does: topstitch …' or 'baste …' for '{placement.placed}' under the step that sews it",
                    (draft.variant,),
                )


def _is_held(deeds: tuple[Deed, ...], copy: str, below: str) -> bool:
    """True where something later is done to a copy, to all that lies with it, or to a seam or binding of it."""
    draft = deeds[0].draft
    in_seams = {name for name, _ in atoms_in_seams(draft)} | {one.copy for b in draft.bindings for one in b.edges}
    stacked = {one.placed for one in draft.placements if one.below == copy} | {below}
    done = {(one.action.target, one.action.other) for one in deeds[1:] if one.action.verb in HOLDS}
    names = {name.partition(".")[0] for pair in done for name in pair if name}
    return copy in in_seams or copy in names or bool({name for pair in done for name in pair if name} & stacked)


def pocket_not_as_measured(proof: Proof) -> Iterator[Finding]:
    """Lines part a piece into pockets as wide as measures that are called so; and one pocket is as wide as none of them, or
    not as wide as the one that bears the name of its line, or the binding of the edge beside it takes some of its width.

    Why: a start was reckoned with the wrong sign, from the wrong end, or with another pocket, or a margin was left out; the
    tool does not go in.

    Fix: look at how the place of the line is reckoned, and how wide the piece is."""
    derived = {
        (str(piece.name), str(mark.name))
        for piece in proof.source.pieces
        for mark in piece.marks
        if isinstance(said := proof.measures.saying(mark.says), MarkSaying) and said.kind == "derived"
    }
    for draft in proof.drafts:
        called = {
            name.removesuffix(POCKET).strip(): float(value.amount)
            for name, value in draft.measures
            if name.split()[-1] == POCKET and value.dimension is Dimension.LENGTH
        }
        wanted = list(called.values())
        for piece in draft.pieces if len(wanted) > FEWEST else ():
            # Of lines that follow those of another piece, these are told.
            own = [mark for mark in _lines(piece) if (piece.name, mark.name) not in derived]
            lines = sorted((_across(mark), mark.name, mark) for mark in own)
            gaps = [(second[0] - first[0], first, second) for first, second in pairwise(lines)]
            fits = [any(abs(gap - one) < SAME for one in wanted) for gap, _, _ in gaps]
            if len(lines) <= FEWEST or sum(fits) * 2 < len(fits):
                continue
            for (gap, first, second), fit in zip(gaps, fits, strict=True):
                if not fit:
                    yield _as_none(draft, gap, first[2], second[2])
            if all(fits):
                yield from _as_another(draft, piece, [line[2] for line in lines], called)
                yield from _under_the_binding(draft, piece, [line[2] for line in lines], called)


def _lines(piece: Piece) -> list[LineMark]:
    """The upright lines to stitch along."""
    lines = [one for one in piece.marks if isinstance(one, LineMark) and one.kind == "stitching line"]
    return [one for one in lines if abs((one.end - one.start).unit().x) < LEVEL]


def _across(line: LineMark) -> float:
    return (line.start.x + line.end.x) / 2


def _as_none(draft: Draft, gap: float, first: LineMark, second: LineMark) -> Finding:
    return Finding(
        "pocket-not-as-measured",
        Severity.WARNING,
        second.place,
        f"between '{first.name}' and '{second.name}' lie {told(gap, draft)}, and no measure called '… {POCKET}' is as wide",
        "look at how the places of both lines are reckoned",
        (draft.variant,),
    )


def _as_another(draft: Draft, piece: Piece, lines: list[LineMark], called: Mapping[str, float]) -> Iterator[Finding]:
    """A line that bears the name of a pocket, and on neither side of which there is one as wide, when beside others there is."""
    box = piece.finished_line.box
    ends = (box.left, *(_across(line) for line in lines), box.right)
    odd: list[tuple[LineMark, float, float, float]] = []
    named = 0
    for at, line in enumerate(lines, 1):
        wanted = called.get(line.name.rpartition(" ")[0])
        if wanted is None:
            continue
        named += 1
        before, behind = ends[at] - ends[at - 1], ends[at + 1] - ends[at]
        # The outermost pockets have a margin beside them.
        fits = abs(before - wanted) < SAME or abs(behind - wanted) < SAME
        fits |= (at == 1 and before > wanted) or (at == len(lines) and behind > wanted)
        if not fits:
            odd.append((line, before, behind, wanted))
    for line, before, behind, wanted in odd if len(odd) * 2 < named else ():
        name = f"{line.name.rpartition(' ')[0]} {POCKET}"
        yield Finding(
            "pocket-not-as-measured",
            Severity.WARNING,
            line.place,
            f"beside '{line.name}' lie {told(before, draft)} and {told(behind, draft)}, and '{name}' is {told(wanted, draft)}",
            "look at how the places of this line and of the next are reckoned",
            (draft.variant,),
        )


def _under_the_binding(
    draft: Draft, piece: Piece, lines: list[LineMark], called: Mapping[str, float]
) -> Iterator[Finding]:
    """The outermost of pockets that are named as the lines at which they begin, where the binding beside it leaves less."""
    box = piece.finished_line.box
    names = [line.name.rpartition(" ")[0] for line in lines]
    between = [second - first for first, second in pairwise(_across(line) for line in lines)]
    first = called.keys() - set(names)
    if not called.keys() >= set(names) or any(
        abs(gap - called[n]) > SAME for gap, n in zip(between, names, strict=False)
    ):
        return
    rooms = [(lines[-1], names[-1], box.right - _across(lines[-1]), box.right)]
    rooms += [(lines[0], name, _across(lines[0]) - box.left, box.left) for name in first if len(first) == 1]
    for line, name, room, side in rooms:
        covered = _covered(draft, piece, side)
        if covered > 0 and room - covered < called[name] - NARROWER:
            yield Finding(
                "pocket-not-as-measured",
                Severity.WARNING,
                line.place,
                f"between '{line.name}' and the edge lie {told(room, draft)}, of which the binding covers "
                f"{told(covered, draft)}, and '{name} {POCKET}' is {told(called[name], draft)}",
                f"make '{piece.name}' and what it lies on wider by a margin for the binding",
                (draft.variant,),
            )


def _covered(draft: Draft, piece: Piece, side: float) -> float:
    """How far the binding of an upright edge of a piece, or of what it is laid on, reaches over it, mm."""
    wide = {
        (binding_edge.piece, part.name): strip.finished_width
        for binding in draft.bindings
        if (strip := draft.piece(draft.copy(binding.strip).piece).strip) is not None
        for binding_edge in binding.edges
        for part in draft.piece(binding_edge.piece).edges_of(binding_edge.edge)
    }
    copies = {copy.name for copy in piece.copies}
    covered = [0.0]
    for edge in (one for one in piece.edges if _is_upright(one.path, side)):
        covered.append(wide.get((piece.name, edge.name), 0.0))
        for placement in (one for one in draft.placements if one.placed in copies):
            below = draft.piece(draft.copy(placement.below).piece)
            spot = placement.laying(edge.path.point_at(edge.length / 2))
            covered += [
                wide.get((below.name, one.name), 0.0) for one in below.edges if nearest(one.path, spot)[2] < SAME
            ]
    return max(covered)


def _is_upright(path: Path, at: float) -> bool:
    return all(abs(path.point_at(path.length * part).x - at) < SAME for part in (0.0, 0.5, 1.0))


def opening_sewn_shut(proof: Proof) -> Iterator[Finding]:
    """A pocket is laid with its hemmed edge, where a hand goes in, on an edge that a seam or a binding closes.

    Why: it opens nowhere; it lies the wrong way up.

    Fix: match its raw edge with that edge."""
    for draft in proof.drafts:
        closed = set(atoms_in_seams(draft))
        closed |= {
            (side.copy, part.name)
            for one in draft.bindings
            for side in one.edges
            for part in draft.piece(side.piece).edges_of(side.edge)
        }
        for placement in draft.placements:
            piece, below = (draft.piece(draft.copy(name).piece) for name in (placement.placed, placement.below))
            hems = {hem.edge for hem in piece.hems}
            # Layers that are laid on one another are bound together, whichever of them the binding names.
            names = {copy.name for copy in below.copies}
            for own, spot in placement.matching:
                if own in hems and any(name in names and edge == spot for name, edge in closed):
                    yield Finding(
                        "opening-sewn-shut",
                        Severity.WARNING,
                        placement.place,
                        f"'{own}' of '{placement.placed}' is hemmed, and lies on '{spot}' of '{placement.below}', which is "
                        "closed there",
                        "match the raw edge of the pocket with it, so that the hemmed one stays open",
                        (draft.variant,),
                    )


def off_the_middle(proof: Proof) -> Iterator[Finding]:
    """A piece is laid by a corner across the fold of a piece that is cut on the fold, and not with its middle on it.

    Why: the mark is made through both layers, so that its other corner lies as far on the other side; the piece cannot meet
    both.

    Fix: put the mark half its width from the middle: `point at pocket width / 2, …`."""
    for draft in proof.drafts:
        for placement in draft.placements:
            copy, below = draft.copy(placement.placed), draft.piece(draft.copy(placement.below).piece)
            upper = draft.piece(copy.piece)
            marks = {mark.name for mark in below.marks if isinstance(mark, PointMark)}
            by_corner = len(placement.matching) == 1 and placement.matching[0][1] in marks
            if copy.count != 1 or upper.strip is not None or not by_corner:
                continue
            if not isinstance(spot_on(upper, placement.matching[0][0]), Point):
                continue
            fold = below.half.edge(below.half.fold_edge).path if below.half and below.half.fold_edge else None
            box = mapped(upper.finished_line, placement.laying, placement.laying.turned_over).box
            if fold is None or abs(fold.start.x - fold.end.x) > SAME:
                continue
            off = (box.left + box.right) / 2 - fold.start.x
            if abs(off) > box.width / 2 - NARROWER:
                continue
            if abs(off) > NARROWER:
                yield Finding(
                    "off-the-middle",
                    Severity.WARNING,
                    placement.place,
                    f"'{placement.placed}' lies across the fold of '{placement.below}', its middle {told(abs(off), draft)} to "
                    f"the {'right' if off > 0 else 'left'} of it",
                    f"put '{placement.matching[0][1]}' half of {told(box.right - box.left, draft)} from the middle",
                    (draft.variant,),
                )
