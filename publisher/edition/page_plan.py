"""The page plan as the layouts set it: small drawings as SVG, their captions, and where page numbers stand."""

from collections.abc import Sequence

from publisher.edition.words import Speaker
from publisher.figures import Pieces, SheetDrawing, figure_svg, page_plan
from publisher.frozen import dataclass
from publisher.template_pages import Paper, TemplatePage


@dataclass(frozen=True, slots=True)
class PlanPage:
    """One template page drawn small; its number in the document comes with the layout."""

    number: int
    svg: str
    size: str


@dataclass(frozen=True, slots=True)
class PlanNumber:
    """Where the number of a page stands in the drawing of its sheet, mm from the drawing's corner, y down."""

    page: int
    left: float
    top: float
    width: float


@dataclass(frozen=True, slots=True)
class PlanSheet:
    """A tiled sheet put together, `width` mm with its caption."""

    svg: str
    width: float
    caption: str
    numbers: tuple[PlanNumber, ...]


@dataclass(frozen=True, slots=True)
class PlanView:
    """The plan of all template pages, thumbnails `pitch` mm apart."""

    pages: tuple[PlanPage, ...]
    sheets: tuple[PlanSheet, ...]
    pitch: float
    height: float  # mm that it takes, captions included


def build_plan(
    pages: Sequence[TemplatePage], pieces: Pieces, paper: Paper, speak: Speaker, room: float = 0.0
) -> PlanView:
    """The plan in words and SVG; where `room` mm are enough for it, no higher than these."""
    plan = page_plan(pages, pieces, paper, room)
    return PlanView(
        tuple(
            PlanPage(
                one.page,
                figure_svg(one.figure, speak.say("before.plan-page", number=one.page)),
                speak.say("before.plan-size", size=one.size) if one.size is not None else "",
            )
            for one in plan.thumbnails
        ),
        tuple(_sheet(one, pieces, speak) for one in plan.sheets),
        plan.pitch,
        plan.height,
    )


def _sheet(drawing: SheetDrawing, pieces: Pieces, speak: Speaker) -> PlanSheet:
    piece = next(piece for (name, _), piece in pieces.items() if name == drawing.piece)
    caption = (
        speak.say("before.plan-piece", number=piece.number, name=piece.name)
        if drawing.size is None
        else speak.say("before.plan-piece-size", number=piece.number, name=piece.name, size=drawing.size)
    )
    return PlanSheet(
        figure_svg(drawing.figure, speak.say("before.plan-sheet", piece=piece.name)),
        drawing.width,
        caption,
        tuple(PlanNumber(page, box.left, box.bottom, box.width) for page, box in drawing.numbers),
    )
