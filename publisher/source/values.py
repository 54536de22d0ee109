"""What the maker wrote, read and located, not yet understood: `Source` and its parts."""

from dataclasses import field

from publisher.frozen import dataclass
from publisher.terms import Place, Written


@dataclass(frozen=True, slots=True)
class WrittenMeasure:
    """A measure's formula: `by_size` maps a size, or None for all sizes, to one or two formulas (inch, metric)."""

    name: Written
    by_size: tuple[tuple[str | None, "Native"], ...]


@dataclass(frozen=True, slots=True)
class Native:
    """One formula for both unit systems, or one for each (`10 in | 26 cm`)."""

    inch: Written
    metric: Written

    @property
    def given_once(self) -> bool:
        """True when one formula serves both."""
        return self.inch is self.metric


@dataclass(frozen=True, slots=True)
class WrittenMaterial:
    """Cloth to buy. `sold` are native widths such as `42 in wide | 110 cm wide`, or a precut's name."""

    key: Written
    kind: Written  # fabric, lining, interfacing, wadding
    name: Written
    sold: tuple[Native, ...]
    shrinkage: Written | None
    note: Written | None
    allowance: Native | None = None  # of what is cut from it, where its piece gives none
    nap: Written | None = None  # "one way": a nap, or a print that stands the right way up
    thickness: Native | None = None  # of one layer
    heat: Written | None = None  # "none": it bears no iron
    grain: Written | None = None  # "either way": it has none, and its pieces may be turned
    repeat: Native | None = None  # of its print, along the cloth
    repeat_across: Native | None = None
    weight: Written | None = None  # "heavy", "medium, knit"


@dataclass(frozen=True, slots=True)
class WrittenNotion:
    """What is bought and not cut. `sizes` are named lengths (`across`, `length`, …)."""

    key: Written
    kind: Written | None  # one of the kinds that cautions know: magnetic snap, zip, …
    name: Written
    count: Native | None
    sizes: tuple[tuple[Written, Native], ...]
    note: Written | None


@dataclass(frozen=True, slots=True)
class WrittenAllowances:
    """Allowances of one copy: of all its edges, None where not said, and of single ones."""

    whole: Native | None
    edges: tuple[tuple[Written, Native], ...]


@dataclass(frozen=True, slots=True)
class WrittenCopy:
    """`outside: canvas, cut 2, to the finished line`, and what is said of its own allowances."""

    name: Written
    says: Written
    allowances: WrittenAllowances | None = None


@dataclass(frozen=True, slots=True)
class WrittenMark:
    """`front centre: notch at the middle of front edge`."""

    name: Written
    says: Written


@dataclass(frozen=True, slots=True)
class WrittenHalf:
    """An outline drafted as a half: the edge it is mirrored along, or that lies on the fold of the cloth."""

    along: Written
    on_fold: bool


@dataclass(frozen=True, slots=True)
class WrittenCorner:
    """What becomes of a corner: `round` by a radius, `cut` straight across, or `cut out` square."""

    shape: str  # round, cut, cut out
    which: Written  # a corner, or a group of corners of a rectangle
    size: Native


@dataclass(frozen=True, slots=True)
class WrittenRectangle:
    """`rectangle: A by B`, its sides renamed, its corners shaped."""

    says: Native
    edges: tuple[tuple[Written, Written], ...]  # side (left, right, top, bottom) → name
    corners: tuple[WrittenCorner, ...]
    half: WrittenHalf | None = None


@dataclass(frozen=True, slots=True)
class WrittenOutline:
    """An outline by named points and edges drawn between them, in order round the piece."""

    points: tuple[tuple[Written, Native], ...]  # name → "x, y"
    edges: tuple[tuple[Written, Written], ...]  # name → "line from A to B", "arc from A to B with radius R"
    corners: tuple[WrittenCorner, ...]
    half: WrittenHalf | None = None


@dataclass(frozen=True, slots=True)
class WrittenForm:
    """An outline by one word and its sizes, its edges renamed.

    `kind` is circle (diameter), ellipse (width by height), trapezium (bottom, top, height) or ring sector (inner radius,
    outer radius, angle).
    """

    kind: str
    sizes: tuple[Native, ...]
    edges: tuple[tuple[Written, Written], ...]  # right half, left half … → name


@dataclass(frozen=True, slots=True)
class WrittenDrawing:
    """An outline drawn elsewhere: a file of the folder, the element in it, and names for its edges."""

    file: Written
    element: Written
    edges: tuple[tuple[Written, Written], ...]  # the drawing's name → ours
    as_cut_line: bool = False  # what is drawn is cut along; the finished line lies inside


@dataclass(frozen=True, slots=True)
class WrittenStrip:
    """`strip:` a long measured piece with a finished width, a length and a folding."""

    finished_width: Native
    length: Native
    fold: Written
    ends: Native | None
    joins: Written | None
    thickness: Native | None  # of the cloth it is folded round, or of its own folds
    place: Place = field(compare=False)


@dataclass(frozen=True, slots=True)
class WrittenPiece:
    """One piece. Exactly one of rectangle, outline and strip is given; `drawn` says whether it gets a template.

    `cut_from` is the piece as written where this is a part of its copies, with allowances of their own.
    """

    name: Written
    drawn: bool
    rectangle: WrittenRectangle | None
    outline: WrittenOutline | None
    strip: WrittenStrip | None
    joint_edges: tuple[tuple[Written, tuple[Written, ...]], ...]
    allowance: Native | None  # None: the pattern's
    edge_allowances: tuple[tuple[Written, Native], ...]
    grain: Written | None
    copies: tuple[WrittenCopy, ...]
    marks: tuple[WrittenMark, ...]
    note: Written | None
    hems: tuple[tuple[Written, Written], ...] = ()  # edge → "2 cm, turned twice"
    drawing: WrittenDrawing | None = None
    form: WrittenForm | None = None
    pleats: tuple[WrittenMark, ...] = ()  # name → "box pleat of 1 cm at …"
    darts: tuple[WrittenMark, ...] = ()  # name → "dart of 2 cm by 9 cm at …"
    cut_from: "WrittenPiece | None" = None
    holds: Native | None = None  # "8 cm by 15 cm by 1 cm": a thing that is to go into it
    corners: tuple[tuple[Written, Written], ...] = ()  # corner, or two edges → "bevelled", "squared to side"

    @property
    def as_written(self) -> "WrittenPiece":
        """The piece that the maker wrote."""
        return self.cut_from or self


@dataclass(frozen=True, slots=True)
class WrittenSeam:
    """Two sides sewn together; a side may be several edges (`A and B`)."""

    name: Written
    join: tuple[Written, Written]
    ease: Native | None
    leave_open: Native | None
    allowances_differ: bool = False  # on purpose
    open_in: Written | None = None  # the edge in whose middle the gap lies; of the whole seam when nothing is said


@dataclass(frozen=True, slots=True)
class WrittenPlacement:
    """One copy laid on another; `matching` items are a name that both bear, or `A to B`."""

    name: Written
    place_copy: Written
    on: Written
    matching: tuple[Written, ...]
    face: Written | None = None  # up (the usual way), down


@dataclass(frozen=True, slots=True)
class WrittenBinding:
    """A strip folded over raw edges, `copy.edge` each."""

    name: Written
    strip: Written
    binds: tuple[Written, ...]
    overlap: Native | None


@dataclass(frozen=True, slots=True)
class WrittenAside:
    """`Hint:` or `Caution:` below a step or a heading: one line of prose, its quotes still in braces."""

    kind: str  # hint, caution
    text: Written
    quotes: tuple[Written, ...]


NO_FIGURE = "none"  # behind `Shows:`
PICTURES = "images/"  # what a photograph's file begins with


@dataclass(frozen=True, slots=True)
class Photograph:
    """A photograph that a step shows: `images/towel.jpg, the towel, hemmed`."""

    file: str
    description: str
    place: Place = field(compare=False)


@dataclass(frozen=True, slots=True)
class WrittenStep:
    """One numbered step of steps.md."""

    id: str  # lasting: given by `Id:`, else made of the section and its words
    number: int  # counted through the whole pattern, from 1
    text: Written  # Markdown, quotes still in braces
    quotes: tuple[Written, ...]  # what stands between each pair of braces, in order
    asides: tuple[WrittenAside, ...]
    does: tuple[Written, ...]
    now: tuple[Written, ...]
    video: Written | None
    minutes: Written | None
    place: Place = field(compare=False)
    shows: tuple[Written, ...] = ()  # what its figure shows, where that is not what the step does

    @property
    def shows_nothing(self) -> bool:
        """True for a step that is to have no figure: it says so, or shows photographs in its place."""
        return bool(self.shows) and not self.shown

    @property
    def shown(self) -> tuple[Written, ...]:
        """What is shown, each said as something that is done."""
        return tuple(line for line in self.shows if line != NO_FIGURE and not line.startswith(PICTURES))

    @property
    def photographs(self) -> tuple[Photograph, ...]:
        """The photographs that are shown."""
        parts = [(line.partition(","), line.place) for line in self.shows if line.startswith(PICTURES)]
        return tuple(Photograph(file.strip(), words.strip(), place) for (file, _, words), place in parts)

    @property
    def all_quotes(self) -> tuple[Written, ...]:
        """Those of its words and of its hints and cautions."""
        return (*self.quotes, *(quote for aside in self.asides for quote in aside.quotes))


@dataclass(frozen=True, slots=True)
class WrittenSection:
    """A heading of steps.md with its steps and the words before them."""

    title: Written
    intro: Written
    quotes: tuple[Written, ...]  # those of the intro
    asides: tuple[WrittenAside, ...]
    video: Written | None
    minutes: Written | None
    steps: tuple[WrittenStep, ...]
    place: Place = field(compare=False)

    @property
    def all_quotes(self) -> tuple[Written, ...]:
        """Those of its words before the steps and of its own hints and cautions."""
        return (*self.quotes, *(quote for aside in self.asides for quote in aside.quotes))


@dataclass(frozen=True, slots=True)
class WrittenSizeGuide:
    """How a reader chooses her size: what to measure on the body and how, in words; formulas worked out per size."""

    measure: Written
    how: Written
    body: Native
    ease: Native | None
    finished: Native
    between: Written
    place: Place = field(compare=False)


@dataclass(frozen=True, slots=True)
class Facts:
    """The publication's own facts. Quotes in its prose stand in braces, as in steps."""

    title: Written
    maker: Written | None
    revision: Written
    date: Written | None
    language: Written
    level: Written | None
    about: Written | None
    video: Written | None
    terms: Written | None
    finishing: Written | None
    care: Written | None
    tested: Written | None
    cover_drawing: Written | None  # the copy that the cover shows
    tools: tuple[Written, ...]
    changes: tuple[Written, ...]  # what this revision changed
    inch_rounding: Written | None  # "1/8" or "1/16"
    size_guide: WrittenSizeGuide | None = None

    @property
    def prose(self) -> tuple[Written, ...]:
        """All that is set as text with quotes in it."""
        guide = self.size_guide
        words = (guide.measure, guide.how, guide.between) if guide is not None else ()
        given = (self.about, self.finishing, self.care, self.terms, *self.changes, *words)
        return tuple(text for text in given if text is not None)


@dataclass(frozen=True, slots=True)
class Source:
    """One pattern folder, read: every value with its place. `files` are all bytes that were given, by name."""

    name: str
    facts: Facts
    sizes: tuple[Written, ...]
    measures: tuple[WrittenMeasure, ...]
    allowance: Native | None  # the pattern's usual seam allowance
    finished_size: tuple[tuple[Written, Native], ...]
    materials: tuple[WrittenMaterial, ...]
    notions: tuple[WrittenNotion, ...]
    pieces: tuple[WrittenPiece, ...]
    seams: tuple[WrittenSeam, ...]
    placements: tuple[WrittenPlacement, ...]
    bindings: tuple[WrittenBinding, ...]
    sections: tuple[WrittenSection, ...]
    texts: tuple[tuple[str, str], ...] = field(compare=False)  # file name → text, for printing a finding's line
    kept: tuple[tuple[str, bytes], ...] = ()  # what the product keeps in kept/, by file name
    drawings: tuple[tuple[str, bytes], ...] = ()  # images/*.svg, by file name, not yet read
    pictures: tuple[tuple[str, bytes], ...] = ()  # images/*.jpg and *.png, by file name, not yet read
    unread: tuple[str, ...] = ()  # names of what could not be read and has been told
    allow: tuple[tuple[Written, Written], ...] = ()  # checks that the maker lets through, and why
    unread_groups: tuple[str, ...] = ()  # keys of the file that lack or could not be read, which has been told
