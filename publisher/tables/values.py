"""Tables of the edition, as values: the cutting chart, materials, notions, finished size."""

from fractions import Fraction

from publisher.frozen import dataclass
from publisher.terms import Phrase, Quantity, Variant


@dataclass(frozen=True, slots=True)
class ChartRow:
    """One copy to cut. `size` is None for a drawn piece (use its template)."""

    piece_number: int
    copy: str
    piece: str
    material: str  # key
    count: int
    size: tuple[Quantity, Quantity] | None  # cut width × cut height
    cut: Phrase  # "cut 2", "cut 1 pair" …
    grain: Phrase
    notes: tuple[Phrase, ...]
    template: bool


@dataclass(frozen=True, slots=True)
class MaterialRow:
    """One material with every way it is sold and how much to buy; precuts by count."""

    key: str
    name: str
    kind: str
    buy: tuple[tuple[Quantity, Quantity], ...]  # (width as sold, length to buy)
    precuts: tuple[tuple[str, int], ...]
    shrinkage: float
    note: str | None
    repeat: tuple[Quantity, ...] = ()  # of its print, that pieces match: along, and across where it does
    pieced: tuple[Phrase | None, ...] = ()  # for each of `buy`, what less would do if strips were pieced further


@dataclass(frozen=True, slots=True)
class NotionRow:
    """One notion to buy."""

    key: str
    kind: str | None
    name: str
    count: int | None
    sizes: tuple[tuple[str, Quantity], ...]
    note: str | None
    buy: Quantity | None = None  # of what is cut from a length: how much in all, up to the selling step
    spare: Quantity | None = None  # … with so much for the ends of each


@dataclass(frozen=True, slots=True)
class Zip:
    """A zip and what may stand in its place: longer ones that shops stock, to be cut down, with a tape as wide."""

    notion: str  # key
    name: str
    length: Quantity
    stocked: bool  # shops have it in this length
    longer: tuple[Quantity, ...]
    tape: Quantity | None


@dataclass(frozen=True, slots=True)
class Needle:
    """The machine's needle, and the thread, for some materials, by their keys."""

    materials: tuple[str, ...]
    needle: Phrase
    thread: Phrase


@dataclass(frozen=True, slots=True)
class NewCut:
    """How large a copy is cut then, across and along, and what is said of it that was not said before."""

    copy: str
    size: tuple[Quantity, Quantity]
    notes: tuple[Phrase, ...]


@dataclass(frozen=True, slots=True)
class NewLength:
    """How much of a material is bought then, in one width."""

    material: str  # key
    width: Quantity
    buy: Quantity


@dataclass(frozen=True, slots=True)
class NewNumber:
    """A number in a step that is another then."""

    step: int
    was: Quantity
    now: Quantity


@dataclass(frozen=True, slots=True)
class Substitute:
    """Another size of a notion, or of wadding, that shops stock, and what the reader does otherwise where she takes it."""

    key: str
    name: str
    size: str  # which of its sizes: inner width, width, thickness
    own: Quantity
    other: Quantity
    cuts: tuple[NewCut, ...]
    lengths: tuple[NewLength, ...]
    numbers: tuple[NewNumber, ...]


@dataclass(frozen=True, slots=True)
class Supplies:
    """What the pattern asks for beside what its maker lists; `tools` are those that she does not."""

    zips: tuple[Zip, ...] = ()
    needles: tuple[Needle, ...] = ()
    tools: tuple[Phrase, ...] = ()
    substitutes: tuple[Substitute, ...] = ()


@dataclass(frozen=True, slots=True)
class PrinterScale:
    """A side as measured on paper that was printed at 100 per cent, and the percentage that makes it true."""

    measured: Quantity
    percent: Fraction


@dataclass(frozen=True, slots=True)
class Tables:
    """All tables of one variant."""

    variant: Variant
    chart: tuple[ChartRow, ...]
    materials: tuple[MaterialRow, ...]
    notions: tuple[NotionRow, ...]
    finished_size: tuple[tuple[str, Quantity], ...]
    supplies: Supplies = Supplies()
