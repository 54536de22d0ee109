"""The plan of an outline: its corners and sides by name, in order, before any point is worked out."""

from publisher.drafting.bench import Asker, Bench, unusable
from publisher.drafting.elsewhere import DrawnEdge, drawn_edges
from publisher.drafting.forms import form_edges
from publisher.frozen import dataclass
from publisher.measures import ArcSaying, CurveSaying, LineSaying, Name
from publisher.source import Native, WrittenCorner, WrittenOutline, WrittenPiece, WrittenRectangle
from publisher.terms import Place, Written, did_you_mean

SIDES = ("bottom", "right", "top", "left")
RECTANGLE_CORNERS = ("bottom left corner", "bottom right corner", "top right corner", "top left corner")
CORNER_GROUPS = {
    "all corners": RECTANGLE_CORNERS,
    "bottom corners": RECTANGLE_CORNERS[:2],
    "top corners": RECTANGLE_CORNERS[2:],
    "right corners": RECTANGLE_CORNERS[1:3],
    "left corners": (RECTANGLE_CORNERS[3], RECTANGLE_CORNERS[0]),
}
DONE = {"round": "rounded", "cut": "cut across", "cut out": "cut out"}
STRIP_SIDES = ("long edge", "right end", "other long edge", "left end")


@dataclass(frozen=True, slots=True)
class Side:
    """One edge as said, from corner to corner; `arc` is None for a straight one."""

    name: str
    start: str
    end: str
    arc: ArcSaying | CurveSaying | None
    place: Place


@dataclass(frozen=True, slots=True)
class ShapedCorner:
    """A corner to be rounded by a radius, cut straight across, or cut out square, by a length along both its edges."""

    corner: str
    shape: str  # round, cut, cut out
    size: Native
    place: Place

    @property
    def done(self) -> str:
        """What is done with it, in a sentence."""
        return DONE[self.shape]

    @property
    def edges(self) -> tuple[str, ...]:
        """The edges that take its place, in order: one with its name; of a cut-out the one that leads in, then out."""
        return (f"{self.corner} in", f"{self.corner} out") if self.shape == "cut out" else (self.corner,)


@dataclass(frozen=True, slots=True)
class Plan:
    """Sides in the order they were written, each beginning where the one before ends."""

    sides: tuple[Side, ...]
    corners: tuple[ShapedCorner, ...]
    drawn: tuple[DrawnEdge, ...] = ()  # of an outline drawn elsewhere, which has no sides of its own

    def shaped(self, corner: str) -> ShapedCorner | None:
        """What becomes of a corner, if it does not stay one."""
        return next((shaped for shaped in self.corners if shaped.corner == corner), None)

    @property
    def drafted_names(self) -> tuple[str, ...]:
        """All edges as written, in order; what takes the place of a corner stands between its edges."""
        names: list[str] = [edge.name for edge in self.drawn]
        for side in self.sides:
            names.append(side.name)
            if shaped := self.shaped(side.end):
                names += shaped.edges
        return tuple(names)


def outline_plan(bench: Bench, piece: WrittenPiece) -> Plan:
    """The plan of a piece's outline. Raises Unusable where sides do not meet or a name is unknown."""
    asker = Asker("plan", str(piece.name), piece.name.place)
    return bench.work_out(asker, lambda: _plan(bench, piece))


def _plan(bench: Bench, piece: WrittenPiece) -> Plan:
    if piece.drawing is not None or piece.form is not None:
        edges = _given_edges(bench, piece)
        _refuse_doubles(piece, tuple(edge.name for edge in edges))
        return Plan((), (), edges)
    if piece.outline is not None:
        return _drawn_plan(bench, piece, piece.outline)
    if piece.rectangle is not None:
        return _rectangle_plan(piece, piece.rectangle)
    return _four_sides(STRIP_SIDES, (piece.name.place,) * 4, ())


def _given_edges(bench: Bench, piece: WrittenPiece) -> tuple[DrawnEdge, ...]:
    if piece.drawing is not None:
        return drawn_edges(bench, piece, piece.drawing)
    assert piece.form is not None
    return form_edges(bench, piece, piece.form)


def _four_sides(names: tuple[str, ...], places: tuple[Place, ...], corners: tuple[ShapedCorner, ...]) -> Plan:
    sides = tuple(
        Side(name, RECTANGLE_CORNERS[at], RECTANGLE_CORNERS[(at + 1) % 4], None, places[at])
        for at, name in enumerate(names)
    )
    return Plan(sides, corners)


def _rectangle_plan(piece: WrittenPiece, rectangle: WrittenRectangle) -> Plan:
    renamed = {str(side).removesuffix(" edge"): name for side, name in rectangle.edges}
    for side, _ in rectangle.edges:
        if str(side).removesuffix(" edge") not in SIDES:
            raise unusable(
                "no-such-edge", side.place, f"a rectangle has no side called '{side}'", did_you_mean(side, SIDES)
            )
    names = tuple(str(renamed.get(side, f"{side} edge")) for side in SIDES)
    places = tuple(renamed[side].place if side in renamed else rectangle.says.inch.place for side in SIDES)
    corners = tuple(corner for written in rectangle.corners for corner in _rectangle_corners(written))
    _refuse_shaped_twice(corners)
    _refuse_doubles(piece, (*names, *(edge for corner in corners for edge in corner.edges)))
    return _four_sides(names, places, corners)


def _rectangle_corners(written: WrittenCorner) -> list[ShapedCorner]:
    which = written.which
    corners = CORNER_GROUPS.get(str(which), (str(which),))
    if corners[0] not in RECTANGLE_CORNERS:
        known = (*CORNER_GROUPS, *RECTANGLE_CORNERS)
        raise unusable(
            "no-such-corner", which.place, f"a rectangle has no corners called '{which}'", did_you_mean(which, known)
        )
    return [ShapedCorner(corner, written.shape, written.size, which.place) for corner in corners]


def _refuse_shaped_twice(corners: tuple[ShapedCorner, ...]) -> None:
    for at, corner in enumerate(corners):
        earlier = next((other for other in corners[:at] if other.corner == corner.corner), None)
        if earlier is not None:
            raise unusable(
                "corner-shaped-twice",
                corner.place,
                f"'{corner.corner}' is to be {earlier.done} (line {earlier.place.line}) and to be {corner.done}",
                "say one of the two",
            )


def _drawn_plan(bench: Bench, piece: WrittenPiece, outline: WrittenOutline) -> Plan:
    points = [str(name) for name, _ in outline.points]
    sides = tuple(_side(bench, name, says, points) for name, says in outline.edges)
    if len(sides) < 2:
        raise unusable(
            "outline-open",
            piece.name.place,
            f"the outline of '{piece.name}' has {len(sides)} edge, which encloses nothing",
            "add the edges that lead back to its first point",
        )
    for side, following in zip(sides, (*sides[1:], sides[0]), strict=True):
        if side.end != following.start:
            raise unusable(
                "outline-open",
                following.place,
                f"'{side.name}' ends at '{side.end}', but '{following.name}' begins at '{following.start}'",
                "let each edge begin where the one before ends, and the last one end where the first begins",
            )
    for written in outline.corners:
        which = written.which
        if str(which) not in points:
            says = f"no point called '{which}' to {written.shape}"
            raise unusable("no-such-point", which.place, says, did_you_mean(which, points))
    corners = tuple(ShapedCorner(str(one.which), one.shape, one.size, one.which.place) for one in outline.corners)
    _refuse_shaped_twice(corners)
    _refuse_doubles(piece, (*(side.name for side in sides), *(edge for corner in corners for edge in corner.edges)))
    return Plan(sides, corners)


def _side(bench: Bench, name: Written, says: Written, points: list[str]) -> Side:
    said = bench.saying(says)
    assert isinstance(said, LineSaying | ArcSaying | CurveSaying)
    for point in (said.start, said.end, *_others(said)):
        _check_point(point, points)
    bent = None if isinstance(said, LineSaying) else said
    return Side(str(name), said.start.text, said.end.text, bent, name.place)


def _others(said: LineSaying | ArcSaying | CurveSaying) -> list[Name]:
    """The points that an edge names beside its ends."""
    if isinstance(said, LineSaying):
        return []
    named = (said.centre, said.by) if isinstance(said, ArcSaying) else (*said.by, said.leaving, said.arriving)
    return [name for name in named if name is not None]


def _check_point(name: Name, points: list[str]) -> None:
    if name.text not in points:
        raise unusable("no-such-point", name.place, f"no point called '{name.text}'", did_you_mean(name.text, points))


def _refuse_doubles(piece: WrittenPiece, names: tuple[str, ...]) -> None:
    for name in names:
        if names.count(name) > 1:
            raise unusable(
                "same-name-twice",
                piece.name.place,
                f"'{piece.name}' has two edges called '{name}'",
                "give one of them another name",
            )
