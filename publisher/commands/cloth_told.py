"""What to buy, and what comes from the cloth at hand, as lines of text and for other programs."""

from collections.abc import Iterable, Iterator, Sequence

from publisher.cloth import AtHand, Cloth, ClothLayout, FromStock, Laid, LaidOn, NotLaid
from publisher.drafting import Draft
from publisher.tables import notion_rows
from publisher.terms import length, print_cloth, print_length

Json = dict[str, object]
# What a page sets apart, a terminal shows plain.
PLAIN = str.maketrans({"\N{NO-BREAK SPACE}": " ", "\N{FRACTION SLASH}": "/"})
FOUND = {"rows": "in rows", "kept": "by a kept layout"}


def plain(lines: Iterable[str]) -> str:
    """Lines as a terminal shows them."""
    return "\n".join(lines).translate(PLAIN)


def ways_lines(draft: Draft, cloth: Cloth, keys: Sequence[str]) -> Iterator[str]:
    """One line a material and width: how much to buy, what of it is needed, how it was found."""
    yield f"{draft.variant}"
    units = draft.variant.units
    layouts = [one for one in cloth.layouts if one.material in keys and one.laid]
    if not layouts:
        yield "  nothing is cut from cloth"
    rows = [
        (
            layout.material,
            layout.precut or f"{print_length(length(layout.width), units)} wide",
            f"{layout.precut_count} ×" if layout.precut else print_cloth(length(layout.buy_length), units),
            "" if layout.precut else f"needs {print_length(length(layout.needed_length), units)}",
            _how_found(draft, layout),
        )
        for layout in layouts
    ]
    yield from _columns(rows)


def _how_found(draft: Draft, layout: ClothLayout) -> str:
    told = [FOUND.get(layout.arranged_by, layout.arranged_by)]
    told += ["the cloth folded"] if layout.folded else []
    if layout.pieced is not None:
        amount = print_cloth(length(layout.pieced.buy_length), draft.variant.units)
        strips = _and([f"'{plan.copy}' of {plan.count} strips" for plan in layout.pieced.strips])
        told.append(f"{amount} with {strips}")
    return ", ".join(told)


def notion_lines(draft: Draft) -> Iterator[str]:
    """One line a notion: how many, or how much of it; what is neither counted nor measured is one."""
    units = draft.variant.units
    rows = notion_rows(draft)
    amounts = [print_cloth(row.buy, units) if row.buy else f"{row.count or 1} ×" for row in rows]
    yield from _columns([(row.key, amount, row.name) for row, amount in zip(rows, amounts, strict=True)])


def ways_as_json(draft: Draft, cloth: Cloth, keys: Sequence[str]) -> Json:
    """The same for other programs; lengths in mm."""
    layouts = [one for one in cloth.layouts if one.material in keys and one.laid]
    return {
        "units": draft.variant.units.value,
        "size": draft.variant.size,
        "materials": [{"material": key, "ways": [_way(one) for one in layouts if one.material == key]} for key in keys],
        "notions": [
            {"notion": row.key, "count": row.count, "buy": _mm(row.buy.mm) if row.buy is not None else None}
            for row in notion_rows(draft)
        ],
    }


def _way(layout: ClothLayout) -> Json:
    told: Json = {"width": _mm(layout.width), "arranged by": layout.arranged_by}
    if layout.precut is not None:
        return told | {"precut": layout.precut, "count": layout.precut_count}
    told |= {"buy": _mm(layout.buy_length), "needed": _mm(layout.needed_length), "used": _mm(layout.used_length)}
    if layout.pieced is not None:
        strips = {plan.copy: plan.count for plan in layout.pieced.strips}
        told |= {"buy with strips pieced further": _mm(layout.pieced.buy_length), "strips": strips}
    return told


def answer_lines(draft: Draft, answer: FromStock) -> Iterator[str]:
    """Yes, and where each cut lies; or no, what finds no room, and how much is missing."""
    at_hand = [_cloth(draft, on.cloth) for on in answer.on]
    counted = [
        f"{at_hand.count(told)} × {told}" if at_hand.count(told) > 1 else told for told in dict.fromkeys(at_hand)
    ]
    whole = f"{answer.material}, {draft.variant}"
    if answer.fits and not any(on.laid for on in answer.on):
        yield f"{whole}: nothing is cut from it"
        return
    if answer.fits:
        yield f"{whole}: yes, from {_and(counted)}"
        for on, told in zip(answer.on, at_hand, strict=True):
            yield from _laid_lines(draft, on, told)
        return
    yield f"{whole}: no, not from {_and(counted)}; these find no room:"
    yield from _columns([_not_laid(draft, one) for one in answer.not_laid])
    yield f"  {_missing(draft, answer)}"


def _laid_lines(draft: Draft, on: LaidOn, told: str) -> Iterator[str]:
    """Where each cut lies on one length of cloth."""
    if not on.laid:
        yield f"  nothing is cut from {told}"
        return
    units = draft.variant.units
    used = print_length(length(on.used_length), units)
    yield f"  {told}: {used} of it is taken; measured from its squared end and the left edge of its usable width"
    rows = [("piece", "from the left", "from the end", "across", "along", "")]
    for one in sorted(on.laid, key=lambda one: (round(one.y), round(one.x), one.copy)):
        amounts = [print_length(length(amount), units) for amount in (one.x, one.y, one.width, one.length)]
        rows.append((one.copy, amounts[0], amounts[1], amounts[2], amounts[3], _lying(one)))
    yield from _columns(rows)


def _lying(laid: Laid) -> str:
    turned = [f"turned by {laid.turn}°"] if laid.turn else []
    return ", ".join([*(["turned over"] if laid.turned_over else []), *turned])


def _not_laid(draft: Draft, one: NotLaid) -> tuple[str, str, str, str]:
    across, along = (print_length(length(side), draft.variant.units) for side in (one.width, one.length))
    wide = "wider than the cloth" if one.too_wide else ""
    return f"{one.count} ×", one.copy, f"{across} across, {along} along", wide


def _missing(draft: Draft, answer: FromStock) -> str:
    units, widest = draft.variant.units, answer.widest
    if answer.missing_precuts:
        return f"{answer.missing_precuts} more of {widest.precut} would do"
    if answer.missing_length <= 0:
        return "no length of this width would do" if len(answer.on) == 1 else "no length of these widths would do"
    amount, width = (print_length(length(side), units) for side in (answer.missing_length, widest.width))
    if len(answer.on) == 1:
        whole = print_length(length(widest.length + answer.missing_length), units)
        return f"{amount} more is wanted: it takes {whole} of {width}"
    return f"a further length of {amount} of {width} would do"


def _cloth(draft: Draft, cloth: AtHand) -> str:
    if cloth.precut is not None:
        return cloth.precut
    sides = (print_length(length(side), draft.variant.units) for side in (cloth.length, cloth.width))
    return " of ".join(sides)


def _and(words: Sequence[str]) -> str:
    return " and ".join([", ".join(words[:-1]), words[-1]]) if len(words) > 1 else words[0]


def _columns(rows: Sequence[Sequence[str]]) -> Iterator[str]:
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)] if rows else []
    for row in rows:
        cells = (cell.ljust(width) for cell, width in zip(row, widths, strict=True))
        yield f"  {'   '.join(cells)}".rstrip()


def answer_as_json(draft: Draft, answer: FromStock) -> Json:
    """An answer for other programs; lengths in mm."""
    return {
        "units": draft.variant.units.value,
        "size": draft.variant.size,
        "material": answer.material,
        "fits": answer.fits,
        "cloths": [
            {
                "length": _mm(on.cloth.length),
                "width": _mm(on.cloth.width),
                "precut": on.cloth.precut,
                "usable length": _mm(on.usable_length),
                "usable width": _mm(on.usable_width),
                "used": _mm(on.used_length),
                "laid": [_laid_as_json(one) for one in on.laid],
            }
            for on in answer.on
        ],
        "no room for": [
            {
                "copy": one.copy,
                "count": one.count,
                "across": _mm(one.width),
                "along": _mm(one.length),
                "too wide": one.too_wide,
            }
            for one in answer.not_laid
        ],
        "missing length": _mm(answer.missing_length),
        "missing precuts": answer.missing_precuts,
    }


def _laid_as_json(one: Laid) -> Json:
    return {
        "copy": one.copy,
        "number": one.nth,
        "x": _mm(one.x),
        "y": _mm(one.y),
        "across": _mm(one.width),
        "along": _mm(one.length),
        "turn": one.turn,
        "turned over": one.turned_over,
    }


def _mm(value: float) -> float:
    return round(value, 3) + 0.0
