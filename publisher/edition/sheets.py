"""The template pages of an edition as the layouts set them: placeholders, labels in place, furniture; and their lines."""

from collections.abc import Sequence

from publisher.checks import Proof
from publisher.edition.layouts import font_file
from publisher.edition.page_plan import PlanView, build_plan
from publisher.edition.pdf_forms import DrawingOrder, DrawnForm, sentinel_svg
from publisher.edition.pdf_layers import layer_colour
from publisher.edition.text_width import text_width
from publisher.edition.words import Speaker
from publisher.figures import (
    Figure,
    Label,
    Pieces,
    Stroke,
    boxed_corners,
    check_block_captions,
    check_block_figure,
    furniture_figure,
    label_page,
    nest_figures,
    piece_figure,
)
from publisher.frozen import dataclass
from publisher.geometry import Point
from publisher.template_pages import (
    Edition,
    Frame,
    Neighbour,
    PlacedPiece,
    Template,
    TemplatePage,
    nest_of,
    templates_of,
)
from publisher.terms import Finding, Phrase

PLAN_GAP = 8.0  # mm between the check block and the page plan below it
PLAN_WORDS = 15.0  # mm for the heading above the plan, and a sentence
JOINING_LABEL_SIZE = (6.0, 3.2)  # mm


@dataclass(frozen=True, slots=True)
class Spot:
    """A short text in a box on the page, mm, y down."""

    text: str
    left: float
    top: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class SheetPage:
    """One template page."""

    number: int
    title: str
    svg: str
    frame: Frame
    labels: tuple[Label, ...]
    colours: tuple[str, ...]  # of the labels: which sizes' layers show them; "" for black, and always
    joining: tuple[Spot, ...]
    captions: tuple[Spot, ...]
    place: str
    neighbours: tuple[Neighbour, ...]


@dataclass(frozen=True, slots=True)
class Sheets:
    """All template pages of an edition, what is drawn on each, in the order of the placeholders, and their plan."""

    pages: tuple[SheetPage, ...]
    orders: tuple[DrawingOrder, ...]
    findings: tuple[Finding, ...]
    tiled: bool
    plan: PlanView
    sizes: tuple[str, ...]  # those that have layers
    plan_top: float | None  # mm from the top of the first template page where the plan stands; None: among the text


def build_sheets(proof: Proof, edition: Edition, speak: Speaker) -> Sheets:
    """The template pages with their texts and lines; findings for labels that found no room."""
    planned = proof.pages_of(edition).pages
    drafts = proof.drafts_of(edition.units)
    sizes = tuple(draft.variant.size for draft in drafts if draft.variant.size is not None) if len(drafts) > 1 else ()
    templates = {(one.piece.name, one.size): one.piece for one in templates_of(drafts)}
    # Of several sizes a template of one size only is told its corners: elsewhere they differ.
    corners = {piece.name: boxed_corners(draft, piece.template) for draft in drafts[:1] for piece in draft.pieces}
    pages: list[SheetPage] = []
    orders: list[DrawingOrder] = []
    found: list[Finding] = []

    def fit(phrase: Phrase, points: float, bold: bool) -> tuple[str, float]:
        text = speak.say(phrase)
        return text, text_width(text, font_file(bold), points)

    for key, page in enumerate(planned):
        pieces = [templates[(placed.piece, placed.size)] for placed in page.placed]
        labels, unfitted = label_page(page, pieces, fit, corners)
        found.extend(unfitted)
        pages.append(_page(page, key, len(planned), labels, sizes, edition, speak))
        orders.append(drawing_order(page, templates, sizes, labels))
    tiled = any(page.rows * page.columns > 1 for page in planned)
    top, room = _free_below_checks(planned)
    plan = build_plan(planned, templates, edition.paper, speak, room)
    return Sheets(tuple(pages), tuple(orders), tuple(found), tiled, plan, sizes, top if plan.height <= room else None)


def _free_below_checks(planned: Sequence[TemplatePage]) -> tuple[float, float]:
    """Where the plan may stand below the check block of a first page that bears no piece, and what room it has there,
    mm; none on any other."""
    block = planned[0].check_block if planned else None
    if block is None or planned[0].placed:
        return 0.0, 0.0
    top = block.top + block.height + PLAN_GAP
    return top, planned[0].frame.top + planned[0].frame.height - top - PLAN_WORDS


def drawing_order(
    page: TemplatePage, templates: Pieces, sizes: Sequence[str] = (), labels: Sequence[Label] = ()
) -> DrawingOrder:
    """All lines of a page: its pieces, the check block, then frame, joining marks, scale bar and leaders."""
    forms = [form for together in page.together for form in _piece_forms(together, templates, sizes, labels)]
    if page.check_block is not None:
        forms.append(DrawnForm(check_block_figure(), shift=Point(page.check_block.left, page.check_block.top)))
    leaders: dict[tuple[str, ...], list[Stroke]] = {(): list(furniture_figure(page).strokes)}
    for label in labels:
        if label.leader is not None:
            ends = (label.leader, label.leader_end) if label.leader_end is not None else (label.leader,)
            leaders.setdefault(label.sizes, []).extend(ends)
    forms += [DrawnForm(Figure(tuple(strokes)), sizes=own) for own, strokes in leaders.items()]
    return DrawingOrder(tuple(forms))


def _piece_forms(
    together: Sequence[PlacedPiece], templates: Pieces, sizes: Sequence[str], labels: Sequence[Label]
) -> list[DrawnForm]:
    """A piece as one form; of a nest a form for what all sizes see, and one for each size or sizes that share lines,
    with gaps for the labels that stand in its lines."""
    placed = together[0]
    if len(together) == 1:
        own = (placed.size,) if placed.size in sizes and placed.size is not None else ()
        return [DrawnForm(piece_figure(templates[(placed.piece, placed.size)]), placed=placed, sizes=own)]
    nest = nest_of(tuple(Template(templates[(one.piece, one.size)], one.size) for one in together))
    gaps = [label.gap for label in labels if label.piece == placed.piece and label.gap is not None]
    return [DrawnForm(figure, placed=placed, sizes=own) for own, figure in nest_figures(nest, gaps)]


def _page(
    page: TemplatePage,
    key: int,
    count: int,
    labels: tuple[Label, ...],
    sizes: Sequence[str],
    edition: Edition,
    speak: Speaker,
) -> SheetPage:
    names = speak.listed([_shown_name(together, speak) for together in page.together])
    title = (
        speak.say("templates.page-named", number=page.number, count=count, pieces=names)
        if names
        else speak.say("templates.page-checks", number=page.number, count=count)
    )
    drawing = speak.say("templates.drawing", pieces=names) if names else speak.say("templates.drawing-checks")
    tiled = page.rows * page.columns > 1
    tile = {"row": page.row, "rows": page.rows, "column": page.column, "columns": page.columns}
    return SheetPage(
        number=page.number,
        title=title,
        svg=sentinel_svg(edition.paper, key, drawing),
        frame=page.frame,
        labels=labels,
        colours=tuple(layer_colour(label.sizes, sizes) for label in labels),
        joining=tuple(_joining(page)),
        captions=tuple(_captions(page, speak)),
        place=speak.say("templates.tile", **tile) if tiled else "",
        neighbours=page.neighbours,
    )


def _shown_name(together: Sequence[PlacedPiece], speak: Speaker) -> str:
    placed = together[0]
    if len(together) > 1:
        return speak.say("templates.nested", piece=placed.piece, first=placed.size, last=together[-1].size)
    return placed.piece if placed.size is None else f"{placed.piece} {placed.size}"


def _joining(page: TemplatePage) -> list[Spot]:
    width, height = JOINING_LABEL_SIZE
    return [
        Spot(mark.label, mark.letter.x - width / 2, mark.letter.y - height / 2, width, height)
        for mark in page.joining_marks
    ]


def _captions(page: TemplatePage, speak: Speaker) -> list[Spot]:
    block = page.check_block
    if block is None:
        return []
    return [
        Spot(speak.say(caption.phrase), block.left + caption.left, block.top + caption.top, caption.width, 6.0)
        for caption in check_block_captions()
    ]
