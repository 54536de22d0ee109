"""The plan of an outline: its corners and sides by name, in order, before any point is worked out."""

from dataclasses import dataclass

from publisher.drafting.bench import Asker, Bench, unusable
from publisher.drafting.elsewhere import DrawnEdge, drawn_edges
from publisher.drafting.forms import form_edges
from publisher.measures import ArcSaying, CurveSaying, LineSaying, Name
from publisher.source import Native, WrittenOutline, WrittenPiece, WrittenRectangle
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
class Rounding:
    """A corner to be rounded."""

    corner: str
    radius: Native
    place: Place


@dataclass(frozen=True, slots=True)
class Plan:
    """Sides in the order they were written, each beginning where the one before ends."""

    sides: tuple[Side, ...]
    roundings: tuple[Rounding, ...]
    drawn: tuple[DrawnEdge, ...] = ()  # of an outline drawn elsewhere, which has no sides of its own

    def rounding(self, corner: str) -> Rounding | None:
        """The rounding of a corner, if it has one."""
        return next((rounding for rounding in self.roundings if rounding.corner == corner), None)

    @property
    def drafted_names(self) -> tuple[str, ...]:
        """All edges as written, in order; a rounded corner is an edge of its own and bears the corner's name."""
        names: list[str] = [edge.name for edge in self.drawn]
        for side in self.sides:
            names.append(side.name)
            if self.rounding(side.end):
                names.append(side.end)
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


def _four_sides(names: tuple[str, ...], places: tuple[Place, ...], roundings: tuple[Rounding, ...]) -> Plan:
    sides = tuple(
        Side(name, RECTANGLE_CORNERS[at], RECTANGLE_CORNERS[(at + 1) % 4], None, places[at])
        for at, name in enumerate(names)
    )
    return Plan(sides, roundings)


def _rectangle_plan(piece: WrittenPiece, rectangle: WrittenRectangle) -> Plan:
    renamed = {str(side).removesuffix(" edge"): name for side, name in rectangle.edges}
    for side, _ in rectangle.edges:
        if str(side).removesuffix(" edge") not in SIDES:
            raise unusable(
                "no-such-edge", side.place, f"a rectangle has no side called '{side}'", did_you_mean(side, SIDES)
            )
    names = tuple(str(renamed.get(side, f"{side} edge")) for side in SIDES)
    places = tuple(renamed[side].place if side in renamed else rectangle.says.inch.place for side in SIDES)
    roundings = [rounding for key, radius in rectangle.round for rounding in _roundings(key, radius)]
    _refuse_doubles(piece, names)
    return _four_sides(names, places, tuple(roundings))


def _roundings(key: Written, radius: Native) -> list[Rounding]:
    corners = CORNER_GROUPS.get(str(key), (str(key),))
    if corners[0] not in RECTANGLE_CORNERS:
        known = (*CORNER_GROUPS, *RECTANGLE_CORNERS)
        raise unusable(
            "no-such-corner", key.place, f"a rectangle has no corners called '{key}'", did_you_mean(key, known)
        )
    return [Rounding(corner, radius, key.place) for corner in corners]


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
    for key, _ in outline.round:
        if str(key) not in points:
            raise unusable("no-such-point", key.place, f"no point called '{key}' to round", did_you_mean(key, points))
    roundings = tuple(Rounding(str(key), radius, key.place) for key, radius in outline.round)
    _refuse_doubles(piece, tuple(side.name for side in sides) + tuple(rounding.corner for rounding in roundings))
    return Plan(sides, roundings)


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
