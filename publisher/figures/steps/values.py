"""The figure language: cloth with its faces and edges, stitching, marks, dimensions and callouts, as values.

A scene is in the draft's own millimetres, y up; a drawing is what the layout decided, in millimetres on paper, y up.
"""

from enum import Enum
from typing import Protocol

from publisher.frozen import dataclass
from publisher.geometry import Box, Path, Point
from publisher.terms import Phrase


class Texture(Enum):
    """What an area shows: a face of a kind of cloth. Told apart in black and white by pattern alone."""

    PLAIN = "right side"
    WRONG = "wrong side"
    LINING = "lining"
    LINING_WRONG = "lining, wrong side"
    INTERFACING = "interfacing"
    WADDING = "wadding"


class Look(Enum):
    """What a line means. What was there before is thin, what this step does is heavy."""

    RAW = "raw edge"
    FOLDED = "folded edge"
    BEFORE = "raw edge of what was there before"
    BEFORE_FOLDED = "folded or sewn edge of what was there before"
    HIDDEN = "edge hidden below"
    CUT = "edge cut now"
    STITCHING = "stitching of this step"
    STITCHED = "stitching of a step before"
    FOLD = "fold line"
    INNER_FOLD = "fold behind"
    PLACEMENT = "placement line"
    MARK = "mark"
    MARK_BEFORE = "mark made before"
    CLOTH = "cloth seen from its edge"
    CLOTH_BEFORE = "cloth that was there before, from its edge"
    WRONG_TICKS = "wrong side of cloth seen from its edge"
    CORD = "cord"
    CORD_WITHIN = "cord within a casing"
    SIGN = "scissors"
    ARROW = "movement"
    THIN = "dimension or leader"
    SOLID = "filled"


@dataclass(frozen=True, slots=True)
class Shape:
    """One path: an area with its texture, a line with its look, or both. An area hides what was drawn before it."""

    path: Path
    look: Look | None = None
    texture: Texture | None = None
    closed: bool = False


@dataclass(frozen=True, slots=True)
class Callout:
    """Words that name the spot `at`; `number` is that of the piece. Its side of the figure is the layout's to choose."""

    words: Phrase
    at: Point
    number: int | None = None
    side: str = ""  # left, right


@dataclass(frozen=True, slots=True)
class Dimension:
    """A length between two points of the scene, `says` its words. Wide ones carry them, narrow ones have a callout.

    It is drawn `away` from the points, mm on paper, to the left of the way from start to end.
    """

    start: Point
    end: Point
    says: Phrase
    away: float = 0.0


@dataclass(frozen=True, slots=True)
class Detail:
    """A spot to be shown magnified in a circle: how much of the scene, mm."""

    at: Point
    radius: float
    shapes: tuple[Shape, ...] = ()  # shown in the circle in place of the scene's own
    dimensions: tuple[Dimension, ...] = ()
    callouts: tuple[Callout, ...] = ()


@dataclass(frozen=True, slots=True)
class Arrow:
    """A movement, from foot to tip; curved where it bulges (part of its length, to the left)."""

    foot: Point
    tip: Point
    bulge: float = 0.0


@dataclass(frozen=True, slots=True)
class Scene:
    """What a figure shows, made to fit its room; a section, thick as no cloth is, is in mm on paper: `scale` 1."""

    shapes: tuple[Shape, ...]
    callouts: tuple[Callout, ...] = ()
    dimensions: tuple[Dimension, ...] = ()
    arrows: tuple[Arrow, ...] = ()
    detail: Detail | None = None
    scale: float | None = None


@dataclass(frozen=True, slots=True)
class Panel:
    """One drawing of a figure: its kind, the scene, words below it, and what is told to who cannot see it."""

    kind: str
    scene: Scene
    told: Phrase
    caption: Phrase | None = None
    copies: tuple[str, ...] = ()  # that it shows
    wide: bool = False  # it takes all the room there is, whatever stands beside it


@dataclass(frozen=True, slots=True)
class DrawnShape:
    """A shape on paper."""

    path: Path
    look: Look | None
    texture: Texture | None
    closed: bool


@dataclass(frozen=True, slots=True)
class DrawnText:
    """One line of text on paper and the box it fills; its baseline lies `descent` above the box's foot."""

    text: str
    box: Box
    points: float
    bold: bool


@dataclass(frozen=True, slots=True)
class Drawing:
    """A laid out figure, mm on paper, y up from its lower left corner; `scales` are its panels' own."""

    width: float
    height: float
    shapes: tuple[DrawnShape, ...]
    texts: tuple[DrawnText, ...]
    scales: tuple[float, ...] = ()


class Lettering(Protocol):
    """The reader's words and how wide they are."""

    def say(self, phrase: Phrase) -> str:
        """The text of a phrase."""

    def width(self, text: str, points: float, bold: bool) -> float:
        """How wide a line of text is, mm."""
