"""Every material in every width it is sold in: where the copies lie and how much cloth to buy. Millimetres."""

import itertools
import math
from dataclasses import replace

from publisher.cloth.kept import kept_layout
from publisher.cloth.lying import as_path, laid, outline_cut
from publisher.cloth.shelves import Rectangle, Shelved, TooWide, arrange_in_rows
from publisher.cloth.strip_plans import bias_rounds, bias_square, join_loss, strips_needed
from publisher.cloth.values import Cloth, ClothLayout, Laid, StripPlan
from publisher.drafting import Copy, Draft, Grain, Material, Piece, Width
from publisher.geometry import Box, Line, Path
from publisher.terms import Finding, Severity, UnitSystem, length, of_variant, round_up_to_step

# Common practice, no source: what the selvages take off a woven width, what squaring up the cut end takes, and the
# room left between neighbours so that each can be cut on its own line.
SELVAGES = {UnitSystem.INCH: 25.4, UnitSystem.METRIC: 20.0}
SQUARING_UP = {UnitSystem.INCH: 25.4, UnitSystem.METRIC: 25.0}
GAP = {UnitSystem.INCH: 25.4 / 8, UnitSystem.METRIC: 3.0}
# A square for bias strips is cut in these steps, and sewn with this seam (common practice, no source).
SQUARE_STEP = {UnitSystem.INCH: 25.4 / 2, UnitSystem.METRIC: 10.0}
BIAS_SEAM = {UnitSystem.INCH: 25.4 / 4, UnitSystem.METRIC: 6.0}
WOVEN_WITH_SELVAGE = ("fabric", "lining")


def lay_out(draft: Draft, kept: tuple[tuple[str, bytes], ...] = ()) -> tuple[Cloth, tuple[Finding, ...]]:
    """All layouts of one variant, and findings for copies that no width holds."""
    layouts: list[ClothLayout] = []
    strips: list[StripPlan] = []
    found: list[Finding] = []
    for material in draft.materials:
        copies = [(piece, copy) for piece in draft.pieces for copy in piece.copies if copy.material == material.key]
        for width in material.sold:
            plans, unplanned = _strip_plans(draft, material, width, copies)
            strips.extend(plans)
            layout, unlaid = _lay_material(draft, material, width, copies, plans, kept)
            layouts.extend([layout] if layout else [])
            told = {finding.place for finding in unplanned}  # a strip that is too long is too wide as well
            found.extend((*unplanned, *(finding for finding in unlaid if finding.place not in told)))
    cloth = Cloth(draft.variant, tuple(layouts), tuple(strips))
    return cloth, tuple(of_variant(finding, draft.variant) for finding in found)


def usable_width(material: Material, width: Width, units: UnitSystem) -> float:
    """What a width leaves between its selvages, mm; precuts and interfacing have none."""
    if width.precut or material.kind not in WOVEN_WITH_SELVAGE:
        return width.width
    return width.width - SELVAGES[units]


def _strip_plans(
    draft: Draft, material: Material, width: Width, copies: list[tuple[Piece, Copy]]
) -> tuple[list[StripPlan], list[Finding]]:
    plans: list[StripPlan] = []
    found: list[Finding] = []
    usable = usable_width(material, width, draft.variant.units)
    for piece, copy in copies:
        if piece.strip is None or (piece.cut_width <= usable and piece.grain is not Grain.BIAS):
            continue
        if piece.strip.joins is None:
            found.append(_strip_too_long(piece, copy, usable))
            continue
        if piece.grain is Grain.BIAS:
            plan = _bias_plan(draft, material, width, piece, copy)
            if plan.square > usable:
                found.append(_square_too_wide(plan, copy))
                continue
        else:
            loss = join_loss(piece.strip.joins, piece.cut_height, piece.strip.join_allowance)
            count = strips_needed(piece.cut_width, usable, loss)
            plan = StripPlan(
                copy=copy.name,
                material=material.key,
                cut_width=piece.cut_height,
                total_length=piece.cut_width,
                sold_width=width.width,
                from_width=usable,
                count=count,
                joins=piece.strip.joins,
                join_loss=loss,
            )
        plans.append(plan)
    return plans, found


def _bias_plan(draft: Draft, material: Material, width: Width, piece: Piece, copy: Copy) -> StripPlan:
    """Bias strips come from one square of cloth, cut as a continuous strip."""
    assert piece.strip is not None
    usable = usable_width(material, width, draft.variant.units)
    step, seam = SQUARE_STEP[draft.variant.units], BIAS_SEAM[draft.variant.units]
    square = bias_square(piece.cut_width, piece.cut_height, seam, step)
    rounds = bias_rounds(square, piece.cut_height, seam)
    return StripPlan(
        copy=copy.name,
        material=material.key,
        cut_width=piece.cut_height,
        total_length=piece.cut_width,
        sold_width=width.width,
        from_width=usable,
        count=rounds,
        joins="bias",
        join_loss=piece.cut_height,
        square=square,
    )


def _square_too_wide(plan: StripPlan, copy: Copy) -> Finding:
    return Finding(
        "strip-too-long",
        Severity.ERROR,
        copy.place,
        f"'{copy.name}' takes a square of {plan.square:.0f} mm for {plan.total_length:.0f} mm of bias strip, and the "
        f"cloth is {plan.from_width:.0f} mm wide between its selvages",
        "make it of two strips, or offer a wider cloth",
    )


def _strip_too_long(piece: Piece, copy: Copy, usable: float) -> Finding:
    return Finding(
        "strip-too-long",
        Severity.ERROR,
        copy.place,
        f"the strip '{copy.name}' is {piece.cut_width:.0f} mm long and the cloth {usable:.0f} mm wide between its selvages",
        "allow joins (joins: allowed), make it shorter, or offer a wider cloth",
    )


def rectangle_of(piece: Piece, copy: Copy, nth: int) -> Rectangle:
    """The box of one cut on the cloth, mm: the piece's y axis runs along the cloth unless its grain says otherwise."""
    piece = piece.as_cut
    outline = piece.finished_line if copy.to_finished_line else piece.cut_line
    if piece.grain is Grain.BIAS:
        outline = _turned(outline)
    box = outline.box
    across, along = (box.height, box.width) if piece.grain is Grain.ACROSS else (box.width, box.height)
    across, along = across + 2 * copy.rough, along + 2 * copy.rough
    return Rectangle(copy.name, nth, across, along, free=piece.grain is Grain.EITHER)


def _turned(outline: Path) -> Path:
    """The flattened outline turned by 45°, for its box."""
    corners = [point.turned(math.pi / 4) for point in outline.flattened()]
    return Path(tuple(Line(first, second) for first, second in itertools.pairwise(corners)))


def _lay_material(
    draft: Draft,
    material: Material,
    width: Width,
    copies: list[tuple[Piece, Copy]],
    plans: list[StripPlan],
    kept: tuple[tuple[str, bytes], ...],
) -> tuple[ClothLayout | None, list[Finding]]:
    units = draft.variant.units
    usable = usable_width(material, width, units)
    rectangles: list[Rectangle] = []
    for piece, copy in copies:
        plan = next((plan for plan in plans if plan.copy == copy.name), None)
        for nth in range(1, copy.count + 1):
            if plan is not None and plan.square:
                rectangles.append(Rectangle(copy.name, nth, plan.square, plan.square))
            elif plan is not None:
                rectangles.extend(Rectangle(copy.name, nth, usable, plan.cut_width) for _ in range(plan.count))
            else:
                rectangles.append(rectangle_of(piece, copy, nth))
    try:
        shelved, used = arrange_in_rows(rectangles, usable, GAP[units])
    except TooWide as too_wide:
        return None, [_too_wide(material, too_wide, copies, usable)]
    arranged_by = "rows"
    better = kept_layout(kept, rectangles, usable, GAP[units])
    if better is not None and better[1] < used:
        (shelved, used), arranged_by = better, "kept"
    layout = _layout(draft, material, width, usable, shelved, used, arranged_by)
    if width.precut and width.precut_length is not None:
        return _precuts(layout, width, rectangles, GAP[units])
    return layout, []


def _layout(
    draft: Draft,
    material: Material,
    width: Width,
    usable: float,
    shelved: tuple[Shelved, ...],
    used: float,
    arranged_by: str,
) -> ClothLayout:
    units = draft.variant.units
    needed = (used + SQUARING_UP[units]) / (1 - material.shrinkage) if used else 0.0
    return ClothLayout(
        material=material.key,
        width=width.width,
        usable_width=usable,
        laid=tuple(_laid(draft, at) for at in shelved),
        used_length=used,
        needed_length=needed,
        buy_length=float(round_up_to_step(length(needed), units).amount),
        arranged_by=arranged_by,
        precut=width.precut,
    )


def _laid(draft: Draft, at: Shelved) -> Laid:
    """A rectangle's place as the place of what is cut from it."""
    piece, copy = next(
        (piece, copy) for piece in draft.pieces for copy in piece.copies if copy.name == at.rectangle.name
    )
    box = Box(at.x, at.y, at.x + at.width, at.y + at.length)
    over = copy.turned_over != (copy.mirrored and at.rectangle.nth % 2 == 0)
    turn = {Grain.ACROSS: 90, Grain.BIAS: 45}.get(piece.grain, 0) + (90 if at.turned else 0)
    outline = laid(outline_cut(piece, copy), turn, over, at.x, at.y)
    if not math.isclose(outline.box.width, at.width, abs_tol=1e-6):
        outline = as_path(box)  # one length of a strip that is pieced, or the square it is cut from on the bias
    return Laid(copy.name, at.rectangle.nth, at.x, at.y, at.width, at.length, turn, over, outline)


def _precuts(
    layout: ClothLayout, width: Width, rectangles: list[Rectangle], gap: float
) -> tuple[ClothLayout | None, list[Finding]]:
    """How many precuts the rectangles fill, sheet by sheet in falling order of length."""
    assert width.precut_length is not None
    sheets: list[list[Rectangle]] = []
    for rectangle in sorted(rectangles, key=lambda one: -one.length):
        for sheet in sheets:
            if arrange_in_rows([*sheet, rectangle], width.width, gap)[1] <= width.precut_length:
                sheet.append(rectangle)
                break
        else:
            if rectangle.length > width.precut_length:
                return None, []  # this way of buying will not do; the others may
            sheets.append([rectangle])
    return replace(layout, precut_count=len(sheets)), []


def _too_wide(material: Material, too_wide: TooWide, copies: list[tuple[Piece, Copy]], usable: float) -> Finding:
    copy = next(copy for _, copy in copies if copy.name == too_wide.rectangle.name)
    return Finding(
        "piece-wider-than-cloth",
        Severity.ERROR,
        copy.place,
        f"'{copy.name}' is {too_wide.rectangle.width:.0f} mm wide and '{material.key}' {usable:.0f} mm"
        + (" between its selvages" if material.kind in WOVEN_WITH_SELVAGE else ""),
        "offer a wider cloth, or turn the piece if its grain allows (grain: across)",
    )
