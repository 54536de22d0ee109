"""From the bytes of an SVG file to a Drawing of known size, every mistake a finding."""

import re

from publisher.drawings.collecting import refuse_moved_whole
from publisher.drawings.mistakes import error, shown, warning
from publisher.drawings.numbers import MILLIMETRES, PIXEL, BadValue, read_length
from publisher.drawings.transforms import Matrix, fitted, read_view_box
from publisher.drawings.values import Drawing, Element
from publisher.drawings.xml_elements import read_elements
from publisher.frozen import dataclass
from publisher.terms import Finding, Unusable

SMALLEST, GREATEST = 0.1, 20_000.0  # mm, of a drawing's width and height
_UNEVEN = 1e-3  # part by which millimetres per unit may differ across and up, as rounding leaves them
_MEND = "give the outermost <svg> a width and a height in mm, cm or in"


@dataclass(frozen=True, slots=True)
class _Side:
    """A width or height as written: `unit` "" for a bare number; `size` in mm."""

    value: float
    unit: str

    @property
    def is_physical(self) -> bool:
        """Stated in a unit of length that no editor reads otherwise."""
        return self.unit in MILLIMETRES and self.unit != "px"

    @property
    def size(self) -> float:
        """Millimetres; bare numbers are px."""
        return self.value * MILLIMETRES[self.unit or "px"]


def read_drawing(content: bytes, file: str) -> tuple[Drawing | None, tuple[Finding, ...]]:
    """The drawing, and what was found; none where it cannot be read at its true size. Never raises, reads no disk."""
    found: list[Finding] = []
    try:
        elements = read_elements(content, file)
        refuse_moved_whole(elements)
        return _sized(elements, file, found), tuple(found)
    except Unusable as unusable:
        return None, (*found, unusable.finding)
    except BadValue as reason:
        says = f"<svg>: cannot read {shown(str(reason), 120)}"
        return None, (*found, error("bad-drawing", elements[0].place, says, _MEND).finding)


def _sized(elements: tuple[Element, ...], file: str, found: list[Finding]) -> Drawing:
    root = elements[0]
    view_box = root.get("viewBox")
    box = read_view_box(view_box) if view_box is not None else None
    width, height = _size(root, box, found)
    if not (SMALLEST <= width <= GREATEST and SMALLEST <= height <= GREATEST) or (box and 0 in box[2:]):
        seen = f", of which {box[2]:g} by {box[3]:g} units are seen" if box else ""
        nought = width < SMALLEST or height < SMALLEST or (box and 0 in box[2:])
        raise error(
            "zero-size" if nought else "too-much",
            root.place,
            f"the drawing is {width:.4g} by {height:.4g} mm{seen}",
            "look at width, height and viewBox of the outermost <svg>",
        )
    if box is None:
        to_page = Matrix(a=PIXEL, d=PIXEL)
        view = (width / PIXEL, height / PIXEL)
    else:
        to_page = fitted(box, width, height, root.get("preserveAspectRatio"))
        view = (box[2], box[3])
        _tell_uneven(root, box, (width, height), found)
    return Drawing(file, elements, width, height, Matrix(d=-1.0, f=height).after(to_page), view)


def _size(root: Element, box: tuple[float, float, float, float] | None, found: list[Finding]) -> tuple[float, float]:
    """Width and height in mm. Raises Unusable where they can be understood in two ways."""
    across, down = _side(root, "width"), _side(root, "height")
    stated = [side for side in (across, down) if side is not None]
    if not any(side.is_physical for side in stated) and not (len(stated) == 2 and all(side.unit for side in stated)):
        raise error("ambiguous-size", root.place, _ambiguity(root, stated), _MEND)
    if across is None or down is None:
        if box is None or 0 in box[2:]:
            raise error("ambiguous-size", root.place, _ambiguity(root, stated), _MEND)
        # One side is stated, the other follows from the shape of the viewBox.
        ratio = box[2] / box[3]
        width = across.size if across is not None else stated[0].size * ratio
        return width, down.size if down is not None else width / ratio
    if not any(side.is_physical for side in stated):
        found.append(
            warning(
                "size-in-pixels",
                root.place,
                f"the size is given in px: read as 96 to the inch it is {across.size:.1f} by {down.size:.1f} mm, "
                "and not every editor means that",
                f"measure something in it; to be sure, {_MEND}",
            )
        )
    return across.size, down.size


def _side(root: Element, name: str) -> _Side | None:
    """A width or height; none where it is left to who shows the drawing (nothing, auto, per cent). Raises BadValue."""
    text = root.get(name)
    if text is None or not text.strip() or text.strip() == "auto":
        return None
    value, unit = read_length(text)
    if unit == "%":
        return None
    if unit and unit not in MILLIMETRES:
        raise BadValue(f"{name} '{text[:40]}', a unit that depends on type")
    if value < 0:
        raise BadValue(f"{name} '{text[:40]}', which is less than nought")
    return _Side(value, unit)


def _ambiguity(root: Element, stated: list[_Side]) -> str:
    if not stated:
        seen = f" but a viewBox of {shown(root.get('viewBox') or '')}" if root.get("viewBox") else ""
        return f"the drawing says no width and height{seen}: its true size cannot be known"
    written = " and ".join(
        f"{name} '{shown(root.get(name) or '')}'" for name in ("width", "height") if root.get(name) is not None
    )
    return f"the drawing says {written}: its true size cannot be known"


def _tell_uneven(
    root: Element, box: tuple[float, float, float, float], size: tuple[float, float], found: list[Finding]
) -> None:
    across, up = size[0] / box[2], size[1] / box[3]
    if abs(across - up) <= _UNEVEN * max(across, up):
        return
    fit = root.get("preserveAspectRatio") or ""
    taken = (
        "both are kept"
        if re.search(r"\bnone\b", fit)
        else "the greater is taken"
        if "slice" in fit
        else "the lesser is taken"
    )
    found.append(
        warning(
            "uneven-scale",
            root.place,
            f"a unit is {across:.4g} mm across and {up:.4g} mm up; {taken}",
            "give width and height the proportion of the viewBox",
        )
    )
