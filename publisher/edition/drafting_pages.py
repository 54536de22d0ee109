"""Pages by which a reader without a printer draws the templates: each piece small, lettered, and told in numbers."""

from collections.abc import Sequence

from publisher.checks import Proof
from publisher.drafting import Grain, Piece
from publisher.edition.layouts import font_file
from publisher.edition.text_width import text_width
from publisher.edition.words import Speaker
from publisher.figures import PlacedLetter, figure_svg, lettered_piece
from publisher.frozen import dataclass
from publisher.geometry import Arc, Line, Point, Segment
from publisher.tables import Corner, MarkSpot, Side, dimensions, points_along
from publisher.template_pages import templates_of
from publisher.terms import UnitSystem, fine_step, length

LETTER_SIZE = 11.0  # points
LETTER_HEIGHT = LETTER_SIZE * 25.4 / 72 * 0.9  # mm, a capital with a little air
COMPASSES_REACH = 300.0  # mm: of a wider arc its height is told too (common practice, no source)
GRAIN_WORDS = {
    Grain.UP: "drafting.grain-up",
    Grain.ACROSS: "drafting.grain-across",
    Grain.BIAS: "drafting.grain-bias",
    Grain.EITHER: "drafting.grain-either",
}
MARK_WORDS = {
    "notch": "drafting.notch",
    "double-notch": "drafting.double-notch",
    "point": "drafting.point",
    "line": "drafting.line",
    "gathers-from": "drafting.gathers-from",
    "gathers-to": "drafting.gathers-to",
    "zip-from": "drafting.zip-from",
    "zip-to": "drafting.zip-to",
    "clips-from": "drafting.clips-from",
    "clips-to": "drafting.clips-to",
    "turning-gap-from": "drafting.turning-gap-from",
    "turning-gap-to": "drafting.turning-gap-to",
    "pleat-outer": "drafting.pleat-outer",
    "pleat-inner": "drafting.pleat-inner",
    "pleat-meets": "drafting.pleat-meets",
    "pleat-stitched": "drafting.pleat-stitched",
}
MOST_BESIDE = 8  # marks


@dataclass(frozen=True, slots=True)
class MarkLine:
    """A mark and its place."""

    name: str
    right: str
    above: str
    end_right: str
    end_above: str


@dataclass(frozen=True, slots=True)
class CornerLine:
    """A corner and its place; the edge that leads from it to the next one, how to draw it, and its allowance."""

    name: str
    right: str
    above: str
    edge: str
    how: str
    allowance: str


@dataclass(frozen=True, slots=True)
class DraftedPiece:
    """One piece: its drawing with the letters in place (mm), and its numbers."""

    title: str
    facts: tuple[str, ...]
    svg: str
    width: float
    height: float
    letters: tuple[PlacedLetter, ...]
    corners: tuple[CornerLine, ...]
    marks_below: bool  # too many, or lines: below the drawing instead of beside it
    marks: tuple[MarkLine, ...]


@dataclass(frozen=True, slots=True)
class DraftedSize:
    """The pieces of one size, on pages of their own; `title` is "" for pieces that all sizes share."""

    title: str
    pieces: tuple[DraftedPiece, ...]


@dataclass(frozen=True, slots=True)
class DraftingPages:
    """All sizes, the step to which lengths are rounded here, and whether a piece has a hem."""

    step: str
    hemmed: bool
    sizes: tuple[DraftedSize, ...]


def drafting_pages(proof: Proof, units: UnitSystem, speak: Speaker) -> DraftingPages | None:
    """The drafting pages of one unit system; None for a pattern without a drawn piece."""
    templates = templates_of(proof.drafts_of(units))
    if not templates:
        return None
    sizes = tuple(
        DraftedSize(
            speak.say("drafting.size", size=size) if size is not None else "",
            tuple(_drafted(one.piece, speak) for one in templates if one.size == size),
        )
        for size in sorted({one.size for one in templates}, key=lambda size: _order(proof, size))
    )
    return DraftingPages(speak.fine_length(fine_step(units)), any(one.piece.hems for one in templates), sizes)


def _order(proof: Proof, size: str | None) -> int:
    return 0 if size is None else 1 + list(map(str, proof.source.sizes)).index(size)


def _drafted(piece: Piece, speak: Speaker) -> DraftedPiece:
    told = dimensions(piece)
    drawing = lettered_piece(piece, told, _letter_size)
    title = speak.say("drafting.piece", number=piece.number, name=piece.name)
    letters = f"{told.corners[0].letter} – {told.corners[-1].letter}"
    return DraftedPiece(
        title=title,
        facts=(
            speak.say("drafting.box", width=_amount(told.width, speak), height=_amount(told.height, speak)),
            speak.say(GRAIN_WORDS[piece.grain]),
            *([speak.say("drafting.one-way")] if piece.one_way else []),
            speak.say("drafting.scale", scale=drawing.scale),
        ),
        svg=figure_svg(drawing.figure, speak.say("drafting.drawing", piece=piece.name, letters=letters), y_up=True),
        width=drawing.figure.width,
        height=drawing.figure.height,
        letters=drawing.letters,
        corners=tuple(_corner_line(corner, side, speak) for corner, side in zip(told.corners, told.sides, strict=True)),
        marks=tuple(_mark_line(spot, speak) for spot in told.spots),
        marks_below=len(told.spots) > MOST_BESIDE or any(spot.end is not None for spot in told.spots),
    )


def _letter_size(letter: str) -> tuple[float, float]:
    return text_width(letter, font_file(True), LETTER_SIZE), LETTER_HEIGHT


def _amount(value: float, speak: Speaker) -> str:
    return speak.fine_length(length(value))


def _mark_line(spot: MarkSpot, speak: Speaker) -> MarkLine:
    end = ("", "") if spot.end is None else (_amount(spot.end.x, speak), _amount(spot.end.y, speak))
    return MarkLine(_mark_name(spot, speak), _amount(spot.at.x, speak), _amount(spot.at.y, speak), *end)


def _mark_name(spot: MarkSpot, speak: Speaker) -> str:
    if spot.copies:
        name = speak.say("label.mark-for", name=spot.name, copies=speak.listed(list(spot.copies)))
    else:
        name = speak.say("label.mark", name=spot.name)
    return speak.say(MARK_WORDS[spot.kind], name=name)


def _corner_line(corner: Corner, side: Side, speak: Speaker) -> CornerLine:
    return CornerLine(
        name=corner.letter,
        right=_amount(corner.at.x, speak),
        above=_amount(corner.at.y, speak),
        edge=speak.say("drafting.edge", name=side.edge, next=side.end),
        how=_how(side.segment, speak),
        allowance=_amount(side.allowance, speak) if side.allowance else speak.say("drafting.none"),
    )


def _how(segment: Segment, speak: Speaker) -> str:
    if isinstance(segment, Line):
        return speak.say("drafting.straight", length=_amount(segment.length, speak))
    if isinstance(segment, Arc):
        said = speak.say("drafting.arc", radius=_amount(segment.radius, speak), centre=_place(segment.centre, speak))
        if segment.radius <= COMPASSES_REACH:
            return said
        middle = (segment.start + segment.end) * 0.5
        height = (segment.point_at(segment.length / 2) - middle).length
        return speak.say("drafting.wide-arc", arc=said, height=_amount(height, speak))
    points: Sequence[str] = [_place(point, speak) for point in points_along(segment)]
    return speak.say("drafting.curve", points="; ".join(points))


def _place(at: Point, speak: Speaker) -> str:
    across = speak.say("drafting.right" if at.x >= 0 else "drafting.left", amount=_amount(abs(at.x), speak))
    up = speak.say("drafting.above" if at.y >= 0 else "drafting.below", amount=_amount(abs(at.y), speak))
    return speak.say("drafting.place", across=across, up=up)
