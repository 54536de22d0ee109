"""All template pages of an edition: small pieces whole, several to a page; large ones tiled; the check block first."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from publisher.drafting import Draft, Piece, PieceKind
from publisher.geometry import Movement, Point
from publisher.template_pages.frames import check_block_of, frame_of
from publisher.template_pages.sharing import GAP, Item, Lying, share_pages
from publisher.template_pages.tiling import MOST_TILES, Sheet, best_sheet, tile_pages
from publisher.template_pages.values import Edition, Frame, PlacedPiece, TemplatePage, TemplatePages
from publisher.terms import Finding, Severity

# A whole piece keeps so far from the frame on every side that its line prints in its full width (0.5 mm).
LINE_ROOM = 0.3


@dataclass(frozen=True, slots=True)
class Template:
    """A drawn piece to print: of one size, or of all (None) when it is the same in each."""

    piece: Piece
    size: str | None


def templates_of(drafts: Sequence[Draft]) -> tuple[Template, ...]:
    """What is printed of the drafts of one unit system, in order of piece number, then of size."""
    templates: list[Template] = []
    for number in sorted({piece.number for draft in drafts for piece in draft.pieces}):
        alike = [
            (piece.template, draft.variant.size)
            for draft in drafts
            for piece in draft.pieces
            if piece.number == number and piece.kind is PieceKind.DRAWN
        ]
        if alike and len(alike) == len(drafts) and all(piece == alike[0][0] for piece, _ in alike):
            templates.append(Template(alike[0][0], None))
        else:
            templates.extend(Template(piece, size) for piece, size in alike)
    return tuple(templates)


def plan_pages(drafts: Sequence[Draft], edition: Edition) -> tuple[TemplatePages, tuple[Finding, ...]]:
    """The template pages of an edition, and a finding for each piece that no reasonable number of pages holds."""
    frame = frame_of(edition.paper)
    templates = templates_of(drafts)
    if not templates:
        return TemplatePages(edition, ()), ()
    small = [at for at, template in enumerate(templates) if _fits(template.piece, frame)]
    pages = _shared_pages(templates, small, frame)
    found: list[Finding] = []
    for at, template in enumerate(templates):
        if at in small:
            continue
        sheet = best_sheet(template.piece.cut_line, frame)
        if sheet.pages > MOST_TILES:
            found.append(_too_large(template, sheet, edition))
            continue
        pages += tile_pages(template.piece, template.size, sheet, frame, len(pages) + 1, pages[-1].sheet + 1)
    variants = tuple(draft.variant for draft in drafts)
    return TemplatePages(edition, tuple(pages)), tuple(replace(finding, variants=variants) for finding in found)


def _fits(piece: Piece, frame: Frame) -> bool:
    inner = _inside(frame)
    sides = ((piece.cut_width, piece.cut_height), (piece.cut_height, piece.cut_width))
    return any(width <= inner.width and height <= inner.height for width, height in sides)


def _inside(frame: Frame) -> Frame:
    """Where cut lines of whole pieces may lie."""
    return Frame(
        frame.left + LINE_ROOM, frame.top + LINE_ROOM, frame.width - 2 * LINE_ROOM, frame.height - 2 * LINE_ROOM
    )


def _shared_pages(templates: Sequence[Template], small: list[int], frame: Frame) -> list[TemplatePage]:
    block = check_block_of(frame)
    items = [Item(at, templates[at].piece.cut_width, templates[at].piece.cut_height) for at in small]
    inner = _inside(frame)
    shared = share_pages(items, inner.width, inner.height, block.height + GAP)
    return [
        TemplatePage(
            number=number,
            sheet=number,
            row=1,
            column=1,
            rows=1,
            columns=1,
            frame=frame,
            placed=tuple(
                _placed(templates[lying.key], lying, frame, inner) for lying in sorted(page, key=lambda one: one.key)
            ),
            joining_marks=(),
            neighbours=(),
            check_block=block if number == 1 else None,
        )
        for number, page in enumerate(shared, start=1)
    ]


def _placed(template: Template, lying: Lying, frame: Frame, inner: Frame) -> PlacedPiece:
    """The piece moved so that its box lies where it was put; the sheet is the frame, its origin the lower left corner."""
    turns = 1 if lying.turned else 0
    box = template.piece.cut_line.moved(Movement(turns, Point(0.0, 0.0))).box
    left = inner.left - frame.left + lying.left
    bottom = frame.top + frame.height - (inner.top + lying.top + lying.height)
    movement = Movement(turns, Point(left - box.left, bottom - box.bottom))
    return PlacedPiece(template.piece.name, template.size, movement, Point(frame.left, frame.top + frame.height), frame)


def _too_large(template: Template, sheet: Sheet, edition: Edition) -> Finding:
    piece = template.piece
    return Finding(
        "piece-too-large",
        Severity.ERROR,
        piece.place,
        f"'{piece.name}' is {piece.cut_width:.0f} × {piece.cut_height:.0f} mm and would take {sheet.pages} pages "
        f"of {edition.paper.value.upper() if edition.paper.value == 'a4' else 'Letter'}, more than {MOST_TILES}",
        "look at its measures; a plain rectangle can be cut with a ruler (rectangle: without outline:)",
    )
