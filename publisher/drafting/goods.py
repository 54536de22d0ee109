"""Materials and notions of one variant: widths in mm, sizes as exact quantities."""

from fractions import Fraction

from publisher.drafting.bench import Bench, unusable
from publisher.drafting.goods_values import Material, Notion, Repeat, Weight, Width
from publisher.drafting.references import work_out, work_out_length
from publisher.measures import MaterialWidth
from publisher.source import Native, WrittenMaterial, WrittenNotion
from publisher.terms import Dimension, UnitSystem, did_you_mean

# Width × length of the usual precuts, mm. Fat quarter: half a width by half a yard, sold as 18 × 21 in; metric shops
# cut 50 × 55 cm (common practice, no source).
PRECUTS: dict[str, dict[UnitSystem, tuple[float, float]]] = {
    "fat quarter": {UnitSystem.INCH: (21 * 25.4, 18 * 25.4), UnitSystem.METRIC: (550.0, 500.0)},
}
WEIGHTS = ("light", "medium", "heavy")
SORTS = ("knit", "coated")
LEAST_REPEAT = 10.0  # mm: what repeats sooner needs no matching (common practice, no source)
KINDS = ("fabric", "lining", "interfacing", "wadding")


def draft_material(bench: Bench, written: WrittenMaterial) -> Material:
    """The material with the widths it is sold in. Raises Unusable."""
    if str(written.kind) not in KINDS:
        raise unusable(
            "no-such-kind",
            written.kind.place,
            f"no kind of material called '{written.kind}'",
            did_you_mean(written.kind, KINDS),
        )
    return Material(
        key=str(written.key),
        kind=str(written.kind),
        name=str(written.name),
        # Two widths of one system may be one of the other: 42 in and 45 in are both sold as 110 cm.
        sold=tuple(dict.fromkeys(_width(bench, native) for native in written.sold)),
        shrinkage=_shrinkage(bench, written),
        note=str(written.note) if written.note else None,
        place=written.key.place,
        one_way=_one_way(written),
        thickness=_thickness(bench, written),
        bears_heat=_bears_heat(written),
        free=_free(written),
        repeat=_repeat(bench, written),
        weight=_weight(written),
    )


def _one_way(written: WrittenMaterial) -> bool:
    if written.nap is not None and str(written.nap) != "one way":
        says = f"a nap runs one way, or there is none; '{written.nap}' says neither"
        raise unusable("wrong-kind", written.nap.place, says, "write 'nap: one way', or take the line out")
    return written.nap is not None


def _thickness(bench: Bench, written: WrittenMaterial) -> float | None:
    if written.thickness is None:
        return None
    thickness = work_out_length(bench, written.thickness, f"the thickness of '{written.key}'")
    if thickness <= 0:
        raise unusable(
            "no-length",
            bench.native(written.thickness).place,
            "a layer has some thickness",
            "measure ten layers and take a tenth",
        )
    return thickness


def _bears_heat(written: WrittenMaterial) -> bool:
    if written.heat is not None and str(written.heat) != "none":
        says = f"a cloth bears the iron, or none; '{written.heat}' says neither"
        raise unusable("wrong-kind", written.heat.place, says, "write 'heat: none', or take the line out")
    return written.heat is None


def _free(written: WrittenMaterial) -> bool:
    if written.grain is None:
        return False
    if str(written.grain) != "either way":
        says = f"'{written.grain}' is said of the grain of '{written.key}', and pieces say how they lie on it"
        mend = "write 'grain: either way' where the material has none, or take the line out"
        raise unusable("no-such-grain", written.grain.place, says, mend)
    if written.nap is not None:
        says = f"'{written.key}' has a nap, and no grain"
        raise unusable("nap-without-grain", written.grain.place, says, "take one of the two lines out")
    return True


def _weight(written: WrittenMaterial) -> Weight | None:
    """`heavy`, or `medium, knit`."""
    if written.weight is None:
        return None
    heaviness, *sorts = written.weight.split_at(",")
    for said, known in ((heaviness, WEIGHTS), *((sort, SORTS) for sort in sorts)):
        if said not in known:
            raise unusable("no-such-weight", said.place, f"no weight called '{said}'", did_you_mean(said, known))
    if len(sorts) > 1:
        raise unusable(
            "no-such-weight", sorts[1].place, "a cloth is of one sort", "write 'medium, knit', with one of them"
        )
    return Weight(str(heaviness), str(sorts[0]) if sorts else None)


def _repeat(bench: Bench, written: WrittenMaterial) -> Repeat | None:
    sides: list[float | None] = []
    for native, way in ((written.repeat, "along"), (written.repeat_across, "across")):
        side = work_out_length(bench, native, f"the repeat of '{written.key}' {way} the cloth") if native else None
        if native is not None and side is not None and side < LEAST_REPEAT:
            says = (
                f"the print of '{written.key}' repeats every {side:.0f} mm, and within {LEAST_REPEAT:.0f} mm "
                "nothing can be matched"
            )
            raise unusable("no-length", bench.native(native).place, says, "take the line out, or write its true repeat")
        sides.append(side)
    along, across = sides
    if along is not None and written.grain is not None:
        says = f"'{written.key}' has a print that pieces are to match, and no grain"
        raise unusable("nap-without-grain", written.grain.place, says, "take one of the two lines out")
    if along is None and written.repeat_across is not None:
        raise unusable(
            "missing-key",
            bench.native(written.repeat_across).place,
            f"'{written.key}' says how its print repeats across the cloth, and not along it",
            "add a line 'repeat: …'",
        )
    return Repeat(along, across) if along is not None else None


def _shrinkage(bench: Bench, written: WrittenMaterial) -> float:
    if written.shrinkage is None:
        return 0.0
    part = bench.saying(written.shrinkage)
    assert isinstance(part, Fraction)
    if not 0 <= part <= Fraction(1, 4):
        raise unusable(
            "shrinkage-beyond-belief",
            written.shrinkage.place,
            f"a shrinkage of {written.shrinkage} is more than any cloth does",
            "write what a washed sample lost, as a rule 0% to 8%",
        )
    return float(part)


def _width(bench: Bench, native: Native) -> Width:
    written = bench.native(native)
    said = bench.saying(written)
    assert isinstance(said, MaterialWidth)
    if said.width is not None:
        if said.width.amount <= 0:
            raise unusable("no-length", written.place, f"'{written}' is no width", "write how wide the cloth is sold")
        return Width(float(said.width.amount))
    precut = PRECUTS.get(said.precut or "")
    if precut is None:
        raise unusable(
            "no-such-precut",
            written.place,
            f"no precut called '{said.precut}'",
            did_you_mean(said.precut or "", PRECUTS) + " A width is written '42 in wide'",
        )
    width, along = precut[bench.units]
    return Width(width, said.precut, along)


def draft_notion(bench: Bench, written: WrittenNotion) -> Notion:
    """The notion with its sizes in this variant. Raises Unusable."""
    return Notion(
        key=str(written.key),
        kind=str(written.kind) if written.kind else None,
        name=str(written.name),
        count=_count(bench, written.count) if written.count else None,
        sizes=tuple((str(size), work_out(bench, native)) for size, native in written.sizes),
        note=str(written.note) if written.note else None,
        place=written.key.place,
    )


def _count(bench: Bench, native: Native) -> int:
    quantity = work_out(bench, native)
    whole = quantity.amount.denominator == 1 and quantity.amount > 0
    if quantity.dimension is not Dimension.NUMBER or not whole:
        written = bench.native(native)
        raise unusable(
            "not-a-count", written.place, f"a count is a whole number, not '{written}'", "write how many, as 2"
        )
    return int(quantity.amount)
