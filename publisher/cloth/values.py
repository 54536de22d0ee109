"""Pieces on cloth: where each lies, how much to buy, how strips are pieced."""

from dataclasses import field

from publisher.cloth.questions import Question
from publisher.frozen import dataclass
from publisher.geometry import Line, Path
from publisher.terms import Variant


@dataclass(frozen=True, slots=True)
class Laid:
    """One cut of a copy on the cloth; x is mm from the left edge of the usable width, y from the cut end.

    `outline` is what is cut, where it lies; a length of a strip that is pieced lies as its rectangle, a bias square as
    the square. `sheet` is the precut it lies on, from 1, with x and y from that one's corner; 0 on cloth by the length.
    `opened_out`: its template shows a half of it, and it is cut whole, not on a fold.
    """

    copy: str
    nth: int  # from 1, of the copy's count
    x: float  # of the lower left corner of its box
    y: float
    width: float  # mm across the cloth
    length: float  # mm along the cloth
    turn: int  # degrees counter-clockwise, from the template as it is printed
    turned_over: bool  # the template's printed side down
    outline: Path
    sheet: int = 0
    opened_out: bool = False
    cuts: tuple[Line, ...] = ()  # of a block for bias strips: where it is cut for them


@dataclass(frozen=True, slots=True)
class Pieced:
    """What would be bought, mm, if these strips were pieced of more lengths than they must be."""

    buy_length: float
    strips: tuple["StripPlan", ...]


@dataclass(frozen=True, slots=True)
class ClothLayout:
    """One arrangement on one width. `arranged_by` is `rows`, or `kept` where a kept layout is shorter; lengths in mm.

    Of precuts, the lengths are those of all of them together. `folded`: the cloth may be laid double, right sides
    together, with its fold along the middle of the usable width; what lies left and right of it is then cut as one.
    Where it is not, though it could be with pieces on its fold, `folded_buy_length` is what would be bought then, or more.
    """

    material: str
    width: float  # as sold
    usable_width: float
    laid: tuple[Laid, ...]
    used_length: float  # before shrinkage and squaring up
    needed_length: float  # with both
    buy_length: float  # up to the selling step
    arranged_by: str
    precut: str | None = None
    precut_count: int = 0
    precut_length: float = 0.0  # usable along the cloth, of one, after shrinkage
    folded: bool = False
    folded_buy_length: float = 0.0
    pieced: Pieced | None = None  # where a smaller cut would do


@dataclass(frozen=True, slots=True)
class StripPlan:
    """How a strip is got from a width of cloth: `count` lengths of `cut_width`, joined; or a square of it on the bias."""

    copy: str
    material: str
    cut_width: float  # mm
    total_length: float  # mm, cut
    sold_width: float  # mm, of the cloth
    from_width: float  # mm of it usable; of lengths along a precut, its length
    count: int  # lengths to cut, on the straight or on the bias; of a bias square: how many strips go round it
    joins: str  # diagonal, straight, bias
    join_loss: float  # mm that one join takes; of a bias square: what its ends take
    square: float = 0.0  # mm, side of the square for a bias strip
    block: tuple[float, float] | None = None  # mm across and along, of a bias strip that is joined of strips from it
    left_over: bool = False  # the block is what other pieces leave of the cloth that is bought
    # mm: how long each is cut, in order, so that no join lies where it hurts; the last is trimmed once they are joined
    lengths: tuple[float, ...] = ()
    apart: float = 0.0  # mm from the nearest join to an end of the strip, or to where it is marked or caught
    along: bool = False  # its lengths lie along the cloth, not across


@dataclass(frozen=True, slots=True)
class Cloth:
    """All layouts and strip plans of one variant, what a solver may be asked for them, and what has no kept answer."""

    variant: Variant
    layouts: tuple[ClothLayout, ...]
    strips: tuple[StripPlan, ...]
    questions: tuple[Question, ...] = field(default=(), compare=False)
    unanswered: tuple[Question, ...] = field(default=(), compare=False)
