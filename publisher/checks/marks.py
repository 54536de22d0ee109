"""Marks: each must lie where it can be found when the piece has been cut."""

from collections.abc import Iterator

from publisher.checks.amounts import told
from publisher.checks.values import Proof
from publisher.drafting import Draft, Edge, LineMark, Mark, Notch, Piece, PieceKind, PointMark
from publisher.geometry import Point, inside, mirrored, mirrored_point, nearest, same_area
from publisher.terms import Finding, Severity, UnitSystem

OFF_CENTRE = 1.0  # mm, where nothing was rounded to eighths of an inch
NEAR = 0.5  # mm: what lies nearer is at the end of an edge
EXACT = 0.05  # mm, of what is its own mirror image
CENTRE = frozenset({"centre", "center", "middle"})
# What a name may say beside the words of the piece and the edge: with any other it may be the centre of another thing.
PLAIN = frozenset({"edge", "notch", "mark", "of", "the"})
ACROSS = 0.5  # mm: what lies nearer lies across from it
BEYOND = 1.0  # mm that a line of stitching may end outside


def mark_off_piece(proof: Proof) -> Iterator[Finding]:
    """A point lies outside its piece's finished line.

    Why: it is in the allowance or cut away, and nothing is left to transfer.

    Fix: bring it inside the stitching line."""
    for draft in proof.drafts:
        for piece in draft.pieces:
            outline = piece.finished_line
            for mark in piece.marks:
                if isinstance(mark, PointMark) and not inside(outline, mark.at):
                    beyond = nearest(outline, mark.at)[2]
                    if beyond < 0.01:
                        continue
                    yield Finding(
                        "mark-off-piece",
                        Severity.ERROR,
                        mark.place,
                        f"'{mark.name}' lies {told(beyond, draft)} outside the finished line of '{piece.name}'",
                        "bring it inside, or look at the measures of the piece",
                        (draft.variant,),
                    )


def pair_left_over(proof: Proof) -> Iterator[Finding]:
    """An odd number of a piece that is cut in mirrored pairs.

    Why: one of them has no partner, and it is anybody's guess which way round it is cut.

    Fix: cut an even number, or say that they are alike."""
    for draft in proof.drafts:
        for piece in draft.pieces:
            for copy in piece.copies:
                if copy.mirrored and copy.count % 2:
                    yield Finding(
                        "pair-left-over",
                        Severity.WARNING,
                        copy.place,
                        f"'{copy.name}' is cut {copy.count} times, in pairs that mirror each other, and one is left over",
                        f"write 'cut {copy.count + 1}', or add 'alike' when all lie the same way up",
                        (draft.variant,),
                    )


def mark_without_template(proof: Proof) -> Iterator[Finding]:
    """A piece that is cut with a ruler bears a mark, and no step tells where it is.

    Why: it has no template, so the reader never sees the mark.

    Fix: draw the piece (give it an `outline:`), or measure the place off in the words of the step that marks it."""
    measured = _measured_off(proof)
    for draft in proof.drafts:
        for piece in draft.pieces:
            if piece.kind is not PieceKind.DRAWN:
                for mark in piece.marks:
                    if any(f"{copy.name}.{mark.name}" in measured for copy in piece.copies):
                        continue
                    yield Finding(
                        "mark-without-template",
                        Severity.WARNING,
                        mark.place,
                        f"'{piece.name}' is cut with a ruler, so nobody sees its mark '{mark.name}'",
                        "draw the piece with 'outline:', or tell the place in a step",
                        (draft.variant,),
                    )


def _measured_off(proof: Proof) -> set[str]:
    """The marks that are made by steps whose words quote something: how far from an edge they lie."""
    quoting = {step.id for section in proof.source.sections for step in section.steps if step.quotes}
    return {
        action.target
        for assembly in proof.assemblies
        for step in assembly.steps
        if step.id in quoting
        for action in step.actions
        if action.verb == "mark"
    }


def notch_off_centre(proof: Proof) -> Iterator[Finding]:
    """A notch is called the centre or the middle of its edge, and does not lie there.

    Why: pinned notch on notch, the two pieces lie beside one another by as much.

    Fix: write `notch at the middle of …`, or give it another name."""
    for draft in proof.drafts:
        for piece in draft.pieces:
            for mark in piece.marks:
                edge = _edge_of_centre(piece, mark) if isinstance(mark, Notch) else None
                if not isinstance(mark, Notch) or edge is None or not _symmetric(piece, edge):
                    continue
                off = abs(mark.distance - edge.length / 2)
                if off > max(OFF_CENTRE, _rounding(draft)):
                    yield Finding(
                        "notch-off-centre",
                        Severity.WARNING,
                        mark.place,
                        f"'{mark.name}' lies {told(off, draft)} off the middle of '{edge.name}' of '{piece.name}', which is "
                        f"{told(edge.length, draft)} long",
                        f"write 'notch at the middle of {edge.name}', or give it another name",
                        (draft.variant,),
                    )


def _rounding(draft: Draft) -> float:
    """By how much the edge and the way to its middle may have been rounded apart, mm."""
    return float(draft.inch_step) * 25.4 if draft.variant.units is UnitSystem.INCH else 0.0


def _edge_of_centre(piece: Piece, notch: Notch) -> Edge | None:
    """The edge that a notch is named the centre of: the only such notch of it, and not at its end, where the centre of a
    whole lies of which this is the half."""
    edge = next((one for one in piece.edges if one.name == notch.edge), None)
    if edge is None or not NEAR < notch.distance < edge.length - NEAR:
        return None
    own = set(f"{piece.name} {edge.name} {' '.join(copy.name for copy in piece.copies)}".lower().split())

    def names_it(name: str) -> bool:
        words = set(name.lower().split())
        return bool(words & CENTRE) and words <= own | CENTRE | PLAIN

    named = [one for one in piece.marks if isinstance(one, Notch) and one.edge == edge.name and names_it(one.name)]
    return edge if named == [notch] else None


def _symmetric(piece: Piece, edge: Edge) -> bool:
    """True for a piece that is its own mirror image about the middle of an edge."""
    middle = edge.length / 2
    across = edge.path.direction_at(middle).left()
    turned = mirrored(piece.finished_line, edge.path.point_at(middle), across)
    return same_area(piece.finished_line, turned, EXACT)


def line_off_piece(proof: Proof) -> Iterator[Finding]:
    """A line to stitch along ends beyond the finished line of its piece.

    Why: the stitches run off the edge, or into what is folded away.

    Fix: let it end inside the finished line."""
    for draft in proof.drafts:
        for piece in draft.pieces:
            outline = piece.finished_line
            for mark in piece.marks:
                if not isinstance(mark, LineMark) or mark.kind != "stitching line":
                    continue
                beyond = [nearest(outline, end)[2] for end in (mark.start, mark.end) if not inside(outline, end)]
                if max(beyond, default=0.0) > BEYOND:
                    yield Finding(
                        "line-off-piece",
                        Severity.WARNING,
                        mark.place,
                        f"'{mark.name}' ends {max(beyond):.1f} mm outside the finished line of '{piece.name}'",
                        "let it end inside, or look at the measures of its ends",
                        (draft.variant,),
                    )


def mark_on_the_hidden_half(proof: Proof) -> Iterator[Finding]:
    """A mark lies on that half of a piece on the fold which its template does not show, and none on the shown half lies
    across from it.

    Why: nobody sees it. What the shown half bears is snipped or pricked through both layers of the folded cloth.

    Fix: write it for the half that is drawn; or draw the whole: `mirrored along` in the place of `on the fold along`."""
    for draft in proof.drafts:
        for piece in draft.pieces:
            if piece.half is None or piece.half.fold_edge is None:
                continue
            fold = piece.half.edge(piece.half.fold_edge).path
            shown = {mark.name for mark in piece.half.marks}
            spots = [spot for mark in piece.half.marks for spot in _spots(mark)]
            for mark in piece.marks:
                across = [mirrored_point(spot, fold.start, fold.end - fold.start) for spot in _spots(mark)]
                alone = any(all((spot - one).length > ACROSS for one in spots) for spot in across)
                if mark.name not in shown and alone:
                    yield Finding(
                        "mark-on-the-hidden-half",
                        Severity.WARNING,
                        mark.place,
                        f"'{mark.name}' of '{piece.name}' lies on the half that its template does not show, and nothing on the "
                        "shown half lies across from it",
                        "write it for the half that is drawn: it is made through both layers",
                        (draft.variant,),
                    )


def _spots(mark: Mark) -> tuple[Point, ...]:
    """Where a notch or point lies, and the ends of a line; nothing of any other mark."""
    if isinstance(mark, LineMark):
        return mark.start, mark.end
    return (mark.at,) if isinstance(mark, Notch | PointMark) else ()
