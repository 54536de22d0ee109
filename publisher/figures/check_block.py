"""Squares, coins and a card of known size, by which a reader sees whether her printer scaled the page. mm, y down."""

from publisher.figures.pieces import circle, closed_path
from publisher.figures.values import Figure, Stroke, Style
from publisher.frozen import dataclass
from publisher.geometry import Line, Path, Point, round_corner
from publisher.terms import Phrase

INCH = 25.4
# ISO/IEC 7810 ID-1: 85.60 × 53.98 mm, corner radius 2.88 to 3.48 (3.18 nominal). Its inch values are rounded on
# their own and must not be converted back.
CARD_LONG, CARD_SHORT, CARD_RADIUS = 85.60, 53.98, 3.18
# Diameters. US quarter: 24.26 mm (United States Mint, coin specifications, 2019). 1 euro: 23.25 mm (Council Regulation
# (EC) 975/98, summary at EUR-Lex).
QUARTER, EURO = 24.26, 23.25
COLUMN = 62.0  # mm from one column to the next
BELOW = 60.0  # mm down to the small squares and the coins
BESIDE = 4.5  # mm from a small square to the coin right of it
TOP = 1.0
QUARTER_LEFT = 0.5 + INCH + BESIDE
EURO_LEFT = 0.5 + COLUMN + 20.0 + BESIDE


@dataclass(frozen=True, slots=True)
class Caption:
    """Live text in the block: the phrase, the middle of its line (mm from the block's corner, y down)."""

    phrase: Phrase
    left: float
    top: float
    width: float


def square(left: float, top: float, side: float) -> Path:
    """A square, mm, from its upper left corner."""
    return closed_path(
        (Point(left, top), Point(left + side, top), Point(left + side, top + side), Point(left, top + side))
    )


def coin_outline(left: float, top: float, across: float) -> Path:
    """A coin, mm, from the upper left corner of its box."""
    return Path((circle(Point(left + across / 2, top + across / 2), across / 2),))


def card_outline(left: float, top: float) -> Path:
    """An ID-1 card standing upright, its corners rounded."""
    right, bottom = left + CARD_SHORT, top + CARD_LONG
    corners = (Point(left, top), Point(right, top), Point(right, bottom), Point(left, bottom))
    sides = [Line(first, second) for first, second in zip(corners, (*corners[1:], corners[0]), strict=True)]
    segments: list[object] = []
    for at, side in enumerate(sides):
        before, after = sides[at - 1], sides[(at + 1) % 4]
        _, _, kept = round_corner(before, side, CARD_RADIUS)
        trimmed, arc, _ = round_corner(kept, after, CARD_RADIUS)
        segments += [trimmed, arc]
    return Path(tuple(segments))  # type: ignore[arg-type]


def check_block_figure() -> Figure:
    """A 2 in and a 1 in square, a 5 cm and a 2 cm square, two coins and the card, each with its caption inside."""
    shapes = (
        square(0.5, TOP, 2 * INCH),
        square(0.5, BELOW, INCH),
        square(0.5 + COLUMN, TOP, 50.0),
        square(0.5 + COLUMN, BELOW, 20.0),
        coin_outline(QUARTER_LEFT, BELOW, QUARTER),
        coin_outline(EURO_LEFT, BELOW, EURO),
        card_outline(0.5 + 2 * COLUMN, TOP),
    )
    return Figure(tuple(Stroke(shape, Style.SCALE, closed=True) for shape in shapes), 2 * COLUMN + CARD_SHORT + 1, 88.0)


def check_block_captions() -> tuple[Caption, ...]:
    """The captions, each within its shape."""
    return (
        Caption(Phrase.of("check.two-inches"), 0.5, TOP + INCH - 3.0, 2 * INCH),
        Caption(Phrase.of("check.one-inch"), 0.5, BELOW + INCH / 2 - 3.0, INCH),
        Caption(Phrase.of("check.five-centimetres"), 0.5 + COLUMN, TOP + 25.0 - 3.0, 50.0),
        Caption(Phrase.of("check.two-centimetres"), 0.5 + COLUMN, BELOW + 10.0 - 3.0, 20.0),
        Caption(Phrase.of("check.quarter"), QUARTER_LEFT + 1.0, BELOW + QUARTER / 2 - 3.0, QUARTER - 2.0),
        Caption(Phrase.of("check.euro"), EURO_LEFT + 1.0, BELOW + EURO / 2 - 3.0, EURO - 2.0),
        Caption(Phrase.of("check.card"), 0.5 + 2 * COLUMN + 4.0, TOP + CARD_LONG / 2 - 10.0, CARD_SHORT - 8.0),
    )
