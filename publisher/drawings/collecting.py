"""What an element draws, in millimetres: groups, uses, symbols and drawings within drawings followed, within bounds."""

import re
from collections.abc import Iterator
from dataclasses import field, replace

from publisher.drawings.curves import mapped_segments
from publisher.drawings.mistakes import error, shown
from publisher.drawings.numbers import BadValue, in_user_units
from publisher.drawings.path_data import MOST_SEGMENTS, TooMany
from publisher.drawings.shapes import SHAPES, subpaths_of
from publisher.drawings.transforms import Matrix, fitted, read_transform, read_view_box
from publisher.drawings.values import Drawing, Element
from publisher.frozen import dataclass
from publisher.geometry import Path
from publisher.terms import Place, Unusable, did_you_mean

GROUPS = ("svg", "g", "a", "switch")
MOST_VISITED = 10_000  # elements, those that use draws again counted each time
MOST_USES = 5  # within one another
FARTHEST = 20_000.0  # mm from the drawing's corner
_MOVED_BY_STYLE = re.compile(
    r"(?:^|[;{\s])(transform(?:-origin|-box)?|translate|rotate|scale|offset-path)\s*:\s*+(?!none\b)"
)
_SIZED_BY_STYLE = re.compile(r"(?:^|;)\s*(d|r|rx|ry|cx|cy|x|y|width|height)\s*:")
_HIDDEN = re.compile(r"(?:^|;)\s*display\s*:\s*none\b")


@dataclass(frozen=True, slots=True)
class DrawnSubpath:
    """One run of the pen in millimetres, y up. `closed` where the drawing says so; it may still have a gap to bridge."""

    id: str | None  # of the use that draws it, else its element's own, else the innermost group's below the one asked
    path: Path
    closed: bool
    chain: tuple[int, ...]  # elements from the one asked for down to the one that draws
    place: Place = field(compare=False)


@dataclass(frozen=True, slots=True)
class _Setting:
    """Where an element is drawn: its units to millimetres, and what per cent are of."""

    matrix: Matrix
    view: tuple[float, float]
    uses: int = 0
    id: str | None = None
    used_as: bool = False  # the id is that of a use, and stands for all below it

    def moved(self, matrix: Matrix, id: str | None = None) -> "_Setting":
        """The setting on moved ground, below an element with this id."""
        keeps = self.used_as or id is None
        return replace(self, matrix=matrix, id=self.id if keeps else id)


def element_called(drawing: Drawing, id: str, place: Place) -> int:
    """Which element bears an id. Raises Unusable where none does, or several do."""
    found = [at for at, element in enumerate(drawing.elements) if element.id == id]
    if len(found) == 1:
        return found[0]
    if found:
        first, second = (drawing.elements[at].place for at in found[:2])
        raise error(
            "same-name-twice",
            second,
            f"{len(found)} elements have the id '{shown(id)}'; the first stands in line {first.line}",
            "give each an id of its own",
        )
    near = did_you_mean(id, drawing.ids)
    raise error(
        "no-such-element",
        place,
        f"{drawing.file} has no element with the id '{shown(id)}'",
        near or "give the element an id in the editor (object properties)",
    )


def refuse_moved_whole(elements: tuple[Element, ...]) -> None:
    """Raises Unusable where style sheets, or the outermost element, move what is drawn: its size would be lost."""
    if elements[0].get("transform"):
        says = "the outermost <svg> is moved by a transform, which programs read differently"
        raise error("moved-by-style", elements[0].place, says, "put what is drawn into a group, and move that")
    for element in elements:
        if element.tag == "style" and _MOVED_BY_STYLE.search(element.text):
            says = "this style sheet moves elements by transform, which is not read"
            raise error("moved-by-style", element.place, says, "save as plain SVG, with the transforms at the elements")


class Collector:
    """Collects what elements of one drawing draw, counting all that it meets against the bounds."""

    def __init__(self, drawing: Drawing) -> None:
        self._drawing = drawing
        self._visited = self._segments = 0
        self._targets: dict[str, int] = {}
        for at, element in enumerate(drawing.elements):
            if element.id:
                self._targets.setdefault(element.id, at)
        self._found: list[DrawnSubpath] = []
        self._settings: dict[int, _Setting] = {}

    def collect(self, at: int) -> tuple[DrawnSubpath, ...]:
        """All that an element draws, in order. Raises Unusable where something cannot be read, at its element."""
        self._found = []
        self._visit(at, self._setting_of(at), ())
        return tuple(self._found)

    def _setting_of(self, at: int) -> _Setting:
        """Where an element stands: below all that it is in. Raises Unusable where it is not drawn there."""
        element = self._drawing.elements[at]
        if element.parent is None:
            return _Setting(self._drawing.page, self._drawing.view)
        over = self._drawing.elements[element.parent]
        if over.tag not in GROUPS:
            raise error(
                "not-drawn",
                element.place,
                f"this element stands inside <{over.tag}>, which is not drawn by itself",
                "give the id to the element that uses it, or move it out of there",
            )
        if element.parent not in self._settings:
            within = self._within(element.parent, self._setting_of(element.parent))
            self._settings[element.parent] = replace(within, id=None)
        return self._settings[element.parent]

    def _visit(self, at: int, setting: _Setting, over: tuple[int, ...]) -> None:
        element = self._drawing.elements[at]
        self._visited += 1
        if self._visited > MOST_VISITED:
            raise self._too_much(element, f"more than {MOST_VISITED:,} elements are drawn, uses counted each time")
        if element.tag in GROUPS:
            within = self._within(at, setting)
            self._visit_children(element, within if over else replace(within, id=None), (*over, at))
        elif element.tag == "use":
            self._use(at, setting, over)
        elif element.tag in SHAPES:
            self._draw(at, setting, (*over, at))

    def _visit_children(self, element: Element, setting: _Setting, over: tuple[int, ...]) -> None:
        for child in element.children:
            if not _hidden(self._drawing.elements[child]):
                self._visit(child, setting, over)

    def _within(self, at: int, setting: _Setting) -> _Setting:
        """The setting of a group's children."""
        element = self._drawing.elements[at]
        if element.parent is None:
            return setting  # the outermost: the page has it
        moved = self._moved(element, setting)
        try:
            return _viewport(element, element, moved) if element.tag == "svg" else moved
        except BadValue as reason:
            raise _bad(element, reason) from None

    def _moved(self, element: Element, setting: _Setting) -> _Setting:
        """The setting after an element's own transform."""
        style = element.get("style") or ""
        by_style = _MOVED_BY_STYLE.search(style) or (element.tag in SHAPES and _SIZED_BY_STYLE.search(style)) or None
        if by_style or element.get("transform-origin"):
            named = by_style[1] if by_style else "transform-origin"
            raise error(
                "moved-by-style",
                element.place,
                f"the style of this element moves or sizes it by '{named}', which is not read",
                "let attributes do it: save as plain SVG, or dissolve its group",
            )
        try:
            matrix = setting.matrix.after(read_transform(element.get("transform") or ""))
        except BadValue as reason:
            raise _bad(element, reason) from None
        return setting.moved(matrix, element.id)

    def _use(self, at: int, setting: _Setting, over: tuple[int, ...]) -> None:
        element = self._drawing.elements[at]
        link = (element.get("href") or "").strip()
        if not link.startswith("#"):
            raise error(
                "reaches-outside",
                element.place,
                f"this use draws '{shown(link)}', which is not in this file",
                "draw it in this file: unlink the copy in the editor",
            )
        target = self._targets.get(link[1:])
        if target is None:
            raise error(
                "no-such-element",
                element.place,
                f"this use draws '{shown(link)}', which no element is called",
                did_you_mean(link[1:], self._targets) or "unlink the copy in the editor",
            )
        if target in over or target in self._above(at) or target == at:
            raise error(
                "circle-of-uses", element.place, f"'{shown(link)}' is drawn inside itself", "take one of the uses out"
            )
        if setting.uses >= MOST_USES:
            raise self._too_much(element, f"more than {MOST_USES} uses within one another")
        moved = self._moved(element, setting)
        used = self._drawing.elements[target]
        try:
            x, y = (
                in_user_units(element.get(name) or "0", whole)
                for name, whole in zip(("x", "y"), setting.view, strict=True)
            )
            named = moved.used_as or (element.id is not None and bool(over))
            placed = replace(moved.moved(moved.matrix.after(Matrix(e=x, f=y))), uses=moved.uses + 1, used_as=named)
            within = _viewport(used, element, self._moved(used, placed)) if used.tag in ("symbol", "svg") else placed
        except BadValue as reason:
            raise _bad(element, reason) from None
        if used.tag in ("symbol", "svg"):
            self._visit_children(used, within, (*over, at, target))
        else:
            self._visit(target, placed, (*over, at))

    def _above(self, at: int) -> Iterator[int]:
        parent = self._drawing.elements[at].parent
        while parent is not None:
            yield parent
            parent = self._drawing.elements[parent].parent

    def _draw(self, at: int, setting: _Setting, chain: tuple[int, ...]) -> None:
        element = self._drawing.elements[at]
        moved = self._moved(element, setting)
        try:
            subpaths = [
                (subpath.closed, mapped_segments(subpath.segments, moved.matrix))
                for subpath in subpaths_of(element, setting.view)
            ]
        except BadValue as reason:
            raise _bad(element, reason) from None
        except TooMany:
            raise self._too_much(element, f"more than {MOST_SEGMENTS:,} stretches") from None
        for closed, segments in subpaths:
            self._segments += len(segments)
            if self._segments > MOST_SEGMENTS:
                raise self._too_much(element, f"more than {MOST_SEGMENTS:,} stretches")
            if segments:
                path = Path(segments)
                _check_reach(element, path)
                self._found.append(DrawnSubpath(moved.id, path, closed, chain, element.place))

    def _too_much(self, element: Element, says: str) -> Unusable:
        return error("too-much", element.place, says, "simplify the drawing, or draw a piece in an element of its own")


def _viewport(element: Element, sized_by: Element, setting: _Setting) -> _Setting:
    """The setting inside a nested drawing or a symbol; a use may say its width and height. Raises BadValue."""
    whole = setting.view
    x, y = (in_user_units(element.get(name) or "0", of) for name, of in zip(("x", "y"), whole, strict=True))
    width, height = (
        in_user_units(_said(sized_by.get(name)) or _said(element.get(name)) or "100%", of)
        for name, of in zip(("width", "height"), whole, strict=True)
    )
    if width <= 0 or height <= 0:
        raise BadValue(f"a size of {width:g} by {height:g}, in which nothing is drawn")
    placed = setting.matrix.after(Matrix(e=x, f=y))
    view_box = element.get("viewBox")
    if view_box is None:
        return replace(setting, matrix=placed, view=(width, height))
    box = read_view_box(view_box)
    if box[2] == 0 or box[3] == 0:
        raise BadValue(f"viewBox '{view_box[:40]}', in which nothing is drawn")
    fit = fitted(box, width, height, element.get("preserveAspectRatio"))
    return replace(setting, matrix=placed.after(fit), view=(box[2], box[3]))


def _said(size: str | None) -> str | None:
    return None if size is None or size.strip() == "auto" else size


def _hidden(element: Element) -> bool:
    display = (element.get("display") or "").strip()
    return display == "none" or bool(_HIDDEN.search(element.get("style") or ""))


def _check_reach(element: Element, path: Path) -> None:
    box = path.box
    reach = max(abs(one) for one in (box.left, box.bottom, box.right, box.top))
    if not reach <= FARTHEST:
        raise error(
            "too-much",
            element.place,
            f"this element reaches {reach / 1000:.4g} m from the corner of the drawing, more than {FARTHEST / 1000:g} m",
            "look at its coordinates and at the drawing's width, height and viewBox",
        )


def _bad(element: Element, reason: BadValue) -> Unusable:
    name = f"<{element.tag}>" + (f" '{shown(element.id)}'" if element.id else "")
    text = shown(str(reason), 120)
    return error("bad-drawing", element.place, f"{name}: cannot read {text}", "draw it anew, or save as plain SVG")
