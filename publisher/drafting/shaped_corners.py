"""What takes the place of a corner: an arc, a straight cut, or two sides of a square that is cut out."""

from publisher.drafting.bench import Bench, unusable
from publisher.drafting.outlines import ShapedCorner
from publisher.drafting.references import work_out_length
from publisher.geometry import Segment, cut_corner, cut_out_corner, round_corner
from publisher.source import WrittenPiece

# The finding's name, the size, and what cannot be done.
CANNOT = {
    "round": ("rounding-does-not-fit", "radius", "rounded"),
    "cut": ("corner-cut-does-not-fit", "cut", "cut across"),
    "cut out": ("corner-cut-does-not-fit", "square", "cut out"),
}


def shape_corner(
    bench: Bench, piece: WrittenPiece, shaped: ShapedCorner, first: Segment, second: Segment
) -> tuple[Segment, tuple[Segment, ...], Segment]:
    """The stretches before and after a corner as far as they stay, and between them the edges that replace it.

    Raises Unusable where the edges are too short for it.
    """
    code, called, done = CANNOT[shaped.shape]
    size = work_out_length(bench, shaped.size, f"the {called} of '{shaped.corner}'")
    try:
        if shaped.shape == "round":
            before, arc, after = round_corner(first, second, size)
            return before, (arc,), after
        if shaped.shape == "cut":
            before, line, after = cut_corner(first, second, size)
            return before, (line,), after
        return cut_out_corner(first, second, size)
    except ValueError as reason:
        raise unusable(
            code,
            shaped.place,
            f"'{shaped.corner}' of '{piece.name}' cannot be {done} by {size:.4g} mm: {reason}",
            f"make the {called} smaller, or the edges longer",
        ) from None
