"""What lies between finished line and cut line: the allowance of each edge, and what its hem takes. Millimetres."""

from publisher.drafting.bench import Bench, unusable
from publisher.drafting.halves import half_of, sided_name
from publisher.drafting.mark_values import Hem
from publisher.drafting.outlines import outline_plan
from publisher.drafting.references import as_length, work_out_formula, work_out_length
from publisher.drafting.strips import SEWN_ALONG
from publisher.measures import Formula, HemSaying, PleatSaying
from publisher.source import Native, WrittenPiece, WrittenStrip
from publisher.terms import UnitSystem, Written

# A knife pleat or tuck takes twice its depth, a box or inverted pleat four times (NIMI, Dress Making, trade practical,
# pp. 203 to 205; tucks: Kinne and Cooley, 1916).
TAKES = {"knife pleat": 2, "tuck": 2, "box pleat": 4, "inverted pleat": 4}
# What a casing is wider than the elastic or cord that runs through it: 1/4 in (a casing formula of the Utah core
# standards for apparel, Strand 5); 6 mm in metric.
CASING_EASE = {UnitSystem.INCH: 6.35, UnitSystem.METRIC: 6.0}


def strip_end_allowance(bench: Bench, piece: WrittenPiece, strip: WrittenStrip) -> float:
    """Allowance at each end of a strip, mm: its own, or the piece's."""
    if strip.ends is not None:
        return work_out_length(bench, strip.ends, "the end allowance")
    return usual_allowance(bench, piece)


def long_edge_allowance(bench: Bench, piece: WrittenPiece, strip: WrittenStrip) -> float:
    """Allowance of a strip's long edges, mm: nought where they are folded in."""
    return usual_allowance(bench, piece) if str(strip.fold) in SEWN_ALONG else 0.0


def usual_allowance(bench: Bench, piece: WrittenPiece) -> float:
    """The piece's allowance, else the pattern's, mm. Raises Unusable where neither is written."""
    native = piece.allowance or bench.source.allowance
    if native is None:
        raise unusable(
            "no-allowance",
            piece.name.place,
            f"no seam allowance is given for '{piece.name}'",
            "add a line 'allowance: 3/8 in | 1 cm' for the pattern or the piece, or 'allowance: 0'",
        )
    allowance = work_out_length(bench, native, "the allowance")
    if allowance < 0:
        raise unusable(
            "allowance-below-nought",
            bench.native(native).place,
            f"the allowance is {allowance:g} mm",
            "write 0 or more",
        )
    return allowance


def edge_allowance(bench: Bench, piece: WrittenPiece, edge: str) -> float:
    """Allowance of an edge, mm: what its hem takes, its own (by its name or a joint name), the piece's, the pattern's."""
    if piece.strip is not None:
        if edge.endswith("end"):
            return strip_end_allowance(bench, piece, piece.strip)
        return long_edge_allowance(bench, piece, piece.strip)
    hem = edge_hem(bench, piece, edge)
    if hem is not None:
        return hem.takes
    drafted = drafted_name(bench, piece, edge)
    for name, native in piece.edge_allowances:
        if str(name) in (edge, drafted) or edge in joint_parts(piece, str(name)):
            return work_out_length(bench, native, f"the allowance of '{edge}'")
    plan = outline_plan(bench, piece)
    if drafted not in [side.name for side in plan.sides]:
        beside = [side.name for side in plan.sides if drafted in (side.start, side.end)]
        neighbours = {edge_allowance(bench, piece, name) for name in beside}
        if len(neighbours) == 1:
            return neighbours.pop()
    return usual_allowance(bench, piece)


def edge_layers(bench: Bench, piece: WrittenPiece, edge: str) -> tuple[float, ...]:
    """What the allowance of an edge is folded into, mm: the layers of its hem, else none."""
    hem = None if piece.strip is not None else edge_hem(bench, piece, edge)
    return hem.layers if hem else ()


def edge_hem(bench: Bench, piece: WrittenPiece, edge: str) -> Hem | None:
    """The hem of an edge, or None. Raises Unusable where the edge is given an allowance beside it."""
    drafted = drafted_name(bench, piece, edge)
    for name, written in piece.hems:
        if str(name) in (edge, drafted) or edge in joint_parts(piece, str(name)):
            given = next((key for key, _ in piece.edge_allowances if key == name), None)
            if given is not None:
                raise unusable(
                    "hem-and-allowance",
                    given.place,
                    f"'{given}' has a hem, which is its allowance",
                    "take the allowance of this edge out",
                )
            return _hem(bench, edge, name, written)
    return None


def _hem(bench: Bench, edge: str, name: Written, written: Written) -> Hem:
    said = bench.saying(written)
    assert isinstance(said, HemSaying)
    depth = _mm(bench, said.depth, written)
    if said.casing:
        depth += CASING_EASE[bench.units]
    under = depth if said.twice else 0.0 if said.under is None else _mm(bench, said.under, written)
    return Hem(edge, depth, under, said.casing, name.place)


def _mm(bench: Bench, formula: Formula, written: Written) -> float:
    depth = as_length(bench, work_out_formula(bench, formula), Native(written, written), "the depth of the hem")
    if depth <= 0:
        raise unusable("no-length", written.place, f"a hem of {depth:g} mm is none", "write how deep it is: 2 cm")
    return depth


def pleats_take(bench: Bench, piece: WrittenPiece) -> tuple[float, float]:
    """Cloth that the pleats of a rectangle take across and upwards, mm; asks no geometry."""
    bottom, _, top, _ = (side.name for side in outline_plan(bench, piece).sides)
    across = up = 0.0
    for pleat in piece.pleats:
        said = bench.saying(pleat.says)
        assert isinstance(said, PleatSaying)
        depth = as_length(bench, work_out_formula(bench, said.depth), Native(pleat.says, pleat.says), "the depth")
        if said.spot.edge.text.removeprefix(f"{piece.as_written.name}.") in (bottom, top):
            across += TAKES[said.kind] * depth
        else:
            up += TAKES[said.kind] * depth
    return across, up


def drafted_name(bench: Bench, piece: WrittenPiece, edge: str) -> str:
    """The name an edge was drafted under: of a mirrored half, without the side that the whole adds."""
    half = half_of(piece)
    if half is None:
        return edge
    known = [name for name in outline_plan(bench, piece).drafted_names if name != str(half.along)]
    if edge in known:
        return edge
    for sides in (("left", "right"), ("right", "left"), ("top", "bottom"), ("bottom", "top")):
        for name in known:
            if edge in (sided_name(sides, name, False), sided_name(sides, name, True)):
                return name
    return edge


def joint_parts(piece: WrittenPiece, name: str) -> tuple[str, ...]:
    """The edges that a joint name stands for; none when it is no joint name."""
    return next((tuple(map(str, parts)) for joint, parts in piece.joint_edges if joint == name), ())
